// Hostile texts in every place that takes one: back to the byte, or refused with nothing written.
#include <fmt/format.h>

#include <random>

#include "base/text.hpp"
#include "store/accept.hpp"
#include "store/conformance.hpp"

namespace rigproof::store {
namespace {

using namespace std::string_literals;
using namespace std::string_view_literals;

const Instant now = at("2026-11-27T09:00:00Z");

std::vector<std::string> hostile_texts() {
  std::vector<std::string> texts{
      "",
      " ",
      "'",
      "\"",
      "''; DROP TABLE document; --",
      "x'); DELETE FROM price; --",
      "?1",
      ":name @name $name",
      "%s%n%00",
      "a\0b"s,
      "\0"s,
      "\0\0\0\0"s,
      "\r\n\t\v\f\b\x1b[31m",
      "\xef\xbb\xbf with a byte order mark",
      "\xed\xa0\x80",      // half of a pair
      "\xf4\x90\x80\x80",  // beyond the last character
      "\xc0\xaf",          // longer than need be
      "\xe2\x80\xae desrever",
      "\xf0\x9f\x92\xa1",
      "a\xcc\x81\xcc\x81\xcc\x81",
      "../../etc/passwd",
      "NULL",
      "1e999",
      "-- \n/*",
      "\\",
      std::string(max_line_bytes, '\''),
      std::string(max_line_bytes + 1, 'x'),
      std::string(1 << 20, '\''),
      std::string(1 << 20, '\0'),
  };
  std::mt19937 random(77);
  constexpr std::string_view nasty = "'\"`;-\\%_\0\n\x80\xff\xc3(){}aZ9 "sv;
  for (int round = 0; round < 150; ++round) {
    std::string text;
    const std::size_t size = random() % (round % 10 == 0 ? 5000U : 24U);
    for (std::size_t i = 0; i < size; ++i)
      text += random() % 2 == 0 ? nasty[random() % nasty.size()] : static_cast<char>(random());
    texts.push_back(std::move(text));
  }
  return texts;
}

/// Refused at the door, which is all right, or there to the byte.
template <class T>
bool door_refused(const Result<T>& result) {
  const auto code = refusal(result);
  EXPECT_TRUE(!code || *code == ErrorCode::bad_input || *code == ErrorCode::out_of_range)
      << result.error().message;
  return code.has_value();
}

TEST_P(StoreConformance, HostileDocumentsComeBackToTheByte) {
  std::size_t refused = 0;
  std::size_t kept = 0;
  for (const std::string& text : hostile_texts()) {
    const auto added = store().add_document(a_brief("a name", text));
    ASSERT_TRUE(added) << added.error().message;
    ASSERT_EQ(store().document(added->id)->text, text);
    ++kept;
    const auto named = store().add_document(a_brief(text, "a text"));
    if (door_refused(named)) {
      ++refused;
    } else {
      ASSERT_EQ(store().document(named->id)->info.name, text);
      ++kept;
    }
  }
  EXPECT_GT(refused, 50U);
  EXPECT_EQ(store().documents(DocumentKind::brief)->size(), kept);
  EXPECT_EQ(*store().check(), std::vector<std::string>{});
}

TEST_P(StoreConformance, HostileTextsElsewhereComeBackOrAreRefused) {
  const auto record = store().freeze_record({.name = "r", .body = "b", .frozen_at = now});
  ASSERT_TRUE(record);
  std::size_t errata = 0;
  std::size_t runs = 0;
  std::size_t items = 0;
  for (const std::string& text : hostile_texts()) {
    const auto run = store().add_run(
        {.machine = "m", .title = "t", .taken_at = now, .context = text, .capture = text});
    ASSERT_TRUE(run) << run.error().message;
    ++runs;
    EXPECT_EQ(store().run(run->id)->context, text);
    EXPECT_EQ(store().run(run->id)->capture, text);
    const auto machine = store().add_run(
        {.machine = text, .title = text, .taken_at = now, .context = "", .capture = ""});
    if (!door_refused(machine)) {
      ++runs;
      EXPECT_EQ(store().run(machine->id)->info.machine, text);
    }
    const auto item = store().add_item({.part = {.kind = Kind::fan, .id = "fan-a"},
                                        .serial = text,
                                        .from_whom = text,
                                        .done = text},
                                       now);
    if (!door_refused(item)) {
      ++items;
      EXPECT_EQ(store().item(item->id)->fields.serial, text);
      EXPECT_EQ(store().item(item->id)->fields.done, text);
    }
    const auto erratum = store().add_erratum(record->id, text, now);
    if (!door_refused(erratum)) ++errata;
    const auto frozen = store().freeze_record({.name = "r", .body = text, .frozen_at = now});
    ASSERT_TRUE(frozen);
    EXPECT_EQ(store().record(frozen->id)->body, text);
  }
  EXPECT_EQ(store().runs()->size(), runs);
  EXPECT_EQ(store().items()->size(), items);
  EXPECT_EQ(store().record(record->id)->errata.size(), errata);
  EXPECT_GT(items, 5U);
  EXPECT_EQ(*store().check(), std::vector<std::string>{});
}

TEST_P(StoreConformance, HostilePricesAreRefusedOrKept) {
  std::size_t kept = 0;
  for (const std::string& text : hostile_texts()) {
    SeenOffer offer = an_offer();
    offer.price.minor = static_cast<std::int64_t>(kept);
    if (!door_refused(store().append_prices(a_batch({offer}, text)))) {
      EXPECT_EQ(store().price_series(offer.part)->back().origin, text);
      ++kept;
    }
    offer.part.id = text;
    EXPECT_TRUE(is_slug(text) || refusal(store().append_prices(a_batch({offer}))));
    EXPECT_TRUE(is_slug(text) || refusal(store().price_series(offer.part)));
    offer = an_offer();
    offer.market = text;
    EXPECT_TRUE(refusal(store().append_prices(a_batch({offer}))));
    offer = an_offer();
    offer.seller = text;
    EXPECT_TRUE(is_slug(text) || refusal(store().append_prices(a_batch({offer}))));
  }
  EXPECT_GT(kept, 5U);
  EXPECT_EQ(store().price_series(an_offer().part)->size(), kept);
}

}  // namespace
}  // namespace rigproof::store
