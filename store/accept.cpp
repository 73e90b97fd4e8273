#include "store/accept.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "base/text.hpp"
#include "catalog/countries.hpp"

namespace rigproof::store {
namespace {

/// The checks of one thing; the first that fails is kept.
class Checks {
 public:
  Checks& that(Result<void> done) {
    if (done_ && !done) done_ = std::move(done);
    return *this;
  }
  Checks& that(bool holds, ErrorCode code, std::string_view message) {
    if (done_ && !holds) done_ = fail(code, std::string(message));
    return *this;
  }
  [[nodiscard]] Result<void> done() { return std::move(done_); }

 private:
  Result<void> done_{};
};

tl::unexpected<Error> refused(std::string_view field, std::string_view text,
                              std::string_view expected) {
  return bad_input(fmt::format("{}: '{}': expected {}", field, excerpt(text), expected));
}

Result<void> at_most(std::string_view field, std::size_t size, std::size_t most) {
  if (size <= most) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("{}: {} bytes; at most {} are kept", field, size, most));
}

Result<void> utf8(std::string_view field, std::string_view text) {
  const auto bad = first_bad_utf8(text);
  if (!bad) return {};
  return bad_input(fmt::format("{}: byte {} is not UTF-8", field, *bad + 1));
}

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }

Result<void> line_or_empty(std::string_view field, std::string_view text) {
  if (text.empty()) return {};
  return accept_line(field, text);
}

Result<void> slug(std::string_view field, std::string_view text) {
  if (is_slug(text)) return {};
  return refused(field, text, "lower-case letters, digits and single hyphens, 1 to 64 in all");
}

Result<void> count(std::string_view field, std::optional<int> value, int most) {
  if (!value || (*value >= 0 && *value <= most)) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("{}: {} is outside its range, 0 to {}", field, *value, most));
}

/// A date that can be written: years 1900 to 2199, as base/date.hpp has it.
Result<void> date(std::string_view field, std::optional<Date> value) {
  if (!value || in_range(Instant{std::int64_t{value->days} * 86'400})) return {};
  return out_of_range(std::string(field).c_str(), value->days);
}

Result<void> not_before(std::string_view field, std::optional<Date> later,
                        std::optional<Date> earlier) {
  if (!later || !earlier || *later >= *earlier) return {};
  return bad_input(
      fmt::format("{}: {} is before came_on, {}", field, to_string(*later), to_string(*earlier)));
}

Result<void> named(const std::string& name, const std::string& text, Instant saved_at) {
  return Checks{}
      .that(accept_line("name", name))
      .that(at_most("text", text.size(), max_text_bytes))
      .that(accept_instant("saved_at", saved_at))
      .done();
}

Result<void> offer(const SeenOffer& seen) {
  const Money& price = seen.price;
  return Checks{}
      .that(accept(seen.part))
      .that(slug("seller", seen.seller))
      .that(is_country(seen.market) ? Result<void>{}
                                    : refused("market", seen.market, "a country of ISO 3166-1"))
      .that(date("seen", seen.seen))
      .that(parse_currency(price.currency.view())
                ? Result<void>{}
                : refused("currency", price.currency.view(), "a currency of ISO 4217"))
      .that(price.minor >= 0 && price.minor <= max_minor, ErrorCode::out_of_range,
            fmt::format("price: {} minor units; expected 0 to {}", price.minor, max_minor))
      .that(count("stock", seen.stock, 1'000'000))
      .that(count("delivery_days", seen.delivery_days, 365))
      .that(count("warranty_months", seen.warranty_months, 240))
      .done();
}

}  // namespace

Result<void> accept_line(std::string_view field, std::string_view text) {
  if (auto fits = at_most(field, text.size(), max_line_bytes); !fits) return fits;
  if (auto good = utf8(field, text); !good) return good;
  if (std::ranges::any_of(text, is_control))
    return refused(field, text, "one line without control characters");
  if (trim(text).empty()) return bad_input(fmt::format("{}: is empty; expected a line", field));
  return {};
}

Result<void> accept_prose(std::string_view field, std::string_view text) {
  if (auto fits = at_most(field, text.size(), max_prose_bytes); !fits) return fits;
  if (auto good = utf8(field, text); !good) return good;
  if (std::ranges::any_of(
          text, [](char c) { return is_control(c) && c != '\t' && c != '\n' && c != '\r'; }))
    return bad_input(fmt::format("{}: has control characters beside tabs and line ends", field));
  return {};
}

Result<void> accept_instant(std::string_view field, Instant instant) {
  if (in_range(instant)) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("{}: {} s from 1970 is outside the years 1900 to 2199", field,
                          instant.since_1970_s));
}

Result<void> accept(const NewDocument& document) {
  return named(document.name, document.text, document.saved_at);
}

Result<void> accept(const DocumentChange& change) {
  return named(change.name, change.text, change.saved_at);
}

Result<void> accept(const PartName& part) { return slug("part", part.id); }

Result<void> accept(const PriceBatch& batch) {
  auto head = Checks{}
                  .that(accept_line("origin", batch.origin))
                  .that(accept_instant("appended_at", batch.appended_at))
                  .that(batch.offers.size() <= max_batch_offers, ErrorCode::out_of_range,
                        fmt::format("offers: {} in one batch; at most {} are taken",
                                    batch.offers.size(), max_batch_offers))
                  .done();
  if (!head) return head;
  for (std::size_t i = 0; i < batch.offers.size(); ++i)
    if (auto good = offer(batch.offers[i]); !good)
      return fail(good.error().code, fmt::format("offer {}: {}", i + 1, good.error().message));
  return {};
}

Result<void> accept(const ItemFields& fields) {
  return Checks{}
      .that(accept(fields.part))
      .that(line_or_empty("serial", fields.serial))
      .that(line_or_empty("from_whom", fields.from_whom))
      .that(date("came_on", fields.came_on))
      .that(date("due_back", fields.due_back))
      .that(date("warranty_until", fields.warranty_until))
      .that(date("left_on", fields.left_on))
      .that(!fields.due_back || fields.came == Came::loaned, ErrorCode::bad_input,
            fmt::format("due_back: what is {} is not due back; only loaned things are",
                        word(fields.came)))
      .that(not_before("due_back", fields.due_back, fields.came_on))
      .that(not_before("left_on", fields.left_on, fields.came_on))
      .that(accept_prose("done", fields.done))
      .done();
}

Result<void> accept(const NewRun& run) {
  return Checks{}
      .that(accept_line("machine", run.machine))
      .that(accept_line("title", run.title))
      .that(accept_instant("taken_at", run.taken_at))
      .that(at_most("context", run.context.size(), max_text_bytes))
      .that(at_most("capture", run.capture.size(), max_capture_bytes))
      .done();
}

Result<void> accept(const NewRecord& record) {
  return Checks{}
      .that(accept_line("name", record.name))
      .that(at_most("body", record.body.size(), max_text_bytes))
      .that(accept_instant("frozen_at", record.frozen_at))
      .done();
}

Result<void> accept_erratum(std::string_view text) {
  if (trim(text).empty()) return bad_input("erratum: is empty; expected what is to be corrected");
  return accept_prose("erratum", text);
}

}  // namespace rigproof::store
