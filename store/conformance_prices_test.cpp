// Price series: whole batches or nothing, each offer once, the oldest first.
#include <functional>

#include "store/accept.hpp"
#include "store/conformance.hpp"

namespace rigproof::store {
namespace {

SeenOffer full_offer() {
  SeenOffer offer = an_offer();
  offer.condition = Condition::refurbished;
  offer.stock = 0;
  offer.delivery_days = 365;
  offer.warranty_months = 0;
  offer.link_kind = LinkKind::commission;
  offer.tax_included = false;
  offer.price.minor = max_minor;
  return offer;
}

TEST_P(StoreConformance, EveryFieldOfAnOfferComesBack) {
  const std::vector<SeenOffer> given{an_offer(), full_offer()};
  const auto appended = store().append_prices(a_batch(given, "page of 2 October"));
  ASSERT_TRUE(appended) << appended.error().message;
  EXPECT_EQ(appended->added, 2U);
  EXPECT_EQ(appended->known, 0U);
  reopen();
  const auto series = store().price_series(given[0].part);
  ASSERT_TRUE(series) << series.error().message;
  ASSERT_EQ(series->size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ((*series)[i].offer, given[i]);
    EXPECT_EQ((*series)[i].origin, "page of 2 October");
    EXPECT_EQ(to_string((*series)[i].appended_at), "2026-10-02T07:30:00Z");
  }
}

TEST_P(StoreConformance, EveryWordOfAnOfferIsTaken) {
  std::vector<SeenOffer> offers;
  for (int kind = 0; kind < kind_count; ++kind) {
    offers.push_back(an_offer());
    offers.back().part.kind = static_cast<Kind>(kind);
  }
  for (const Condition condition : {Condition::brand_new, Condition::refurbished, Condition::used})
    for (const LinkKind link : {LinkKind::plain, LinkKind::commission}) {
      offers.push_back(an_offer());
      offers.back().condition = condition;
      offers.back().link_kind = link;
    }
  const auto appended = store().append_prices(a_batch(offers));
  ASSERT_TRUE(appended) << appended.error().message;
  EXPECT_EQ(appended->added, offers.size());
  for (int kind = 0; kind < kind_count; ++kind)
    EXPECT_FALSE(store().price_series({.kind = static_cast<Kind>(kind), .id = "card-a"})->empty());
}

TEST_P(StoreConformance, WordsAreThoseOfTheCatalog) {
  const auto choices = [](ColumnId column) { return std::string(spec(column).choices); };
  EXPECT_EQ(choices(column("offers", "condition")), "new|refurbished|used");
  EXPECT_EQ(word(Condition::brand_new), "new");
  EXPECT_EQ(choices(column("offers", "link_kind")), "plain|commission");
  EXPECT_EQ(word(LinkKind::commission), "commission");
}

TEST_P(StoreConformance, AppendingTheSameAgainChangesNothing) {
  const auto batch = a_batch({an_offer(), full_offer(), an_offer()});
  const auto first = store().append_prices(batch);
  ASSERT_TRUE(first);
  EXPECT_EQ(first->added, 2U);
  EXPECT_EQ(first->known, 1U) << "twice in one batch";
  const auto before = *store().price_series(an_offer().part);
  auto again = batch;
  again.origin = "the same page under another name";
  again.appended_at = at("2026-10-03T00:00:00Z");
  const auto second = opened()->append_prices(again);
  ASSERT_TRUE(second);
  EXPECT_EQ(second->added, 0U);
  EXPECT_EQ(second->known, 3U);
  EXPECT_EQ(*store().price_series(an_offer().part), before);
}

TEST_P(StoreConformance, WhateverDiffersMakesAnotherOffer) {
  const std::vector<std::function<void(SeenOffer&)>> changes{
      [](SeenOffer&) {},
      [](SeenOffer& o) { o.seller = "south-shop"; },
      [](SeenOffer& o) { o.market = "GB"; },
      [](SeenOffer& o) { o.seen = day("2026-10-02"); },
      [](SeenOffer& o) { o.condition = Condition::used; },
      [](SeenOffer& o) { o.price.minor += 1; },
      [](SeenOffer& o) { o.price = money("USD", o.price.minor); },
      [](SeenOffer& o) { o.tax_included = false; },
      [](SeenOffer& o) { o.stock = 0; },
      [](SeenOffer& o) { o.stock = 3; },
      [](SeenOffer& o) { o.delivery_days = 0; },
      [](SeenOffer& o) { o.warranty_months = 0; },
      [](SeenOffer& o) { o.link_kind = LinkKind::plain; }};
  std::vector<SeenOffer> offers;
  for (const auto& change : changes) {
    offers.push_back(an_offer());
    change(offers.back());
  }
  EXPECT_EQ(store().append_prices(a_batch(offers))->added, changes.size());
  EXPECT_EQ(store().append_prices(a_batch(offers))->known, changes.size());
}

TEST_P(StoreConformance, SeriesOfOnePartTheOldestFirst) {
  std::vector<SeenOffer> offers;
  for (const char* seen : {"2026-10-03", "2025-12-31", "2026-10-01", "2026-10-03"}) {
    offers.push_back(an_offer());
    offers.back().seen = day(seen);
    offers.back().price.minor = 100 - static_cast<std::int64_t>(offers.size());
  }
  SeenOffer other = an_offer();
  other.part.id = "card-ab";
  offers.push_back(other);
  ASSERT_TRUE(store().append_prices(a_batch(offers)));
  const auto series = store().price_series(an_offer().part);
  ASSERT_TRUE(series);
  std::vector<std::int64_t> minors;
  for (const PricePoint& point : *series) minors.push_back(point.offer.price.minor);
  EXPECT_EQ(minors, (std::vector<std::int64_t>{98, 97, 99, 96}));
  EXPECT_TRUE(store().price_series({.kind = Kind::cpu, .id = "card-a"})->empty());
}

TEST_P(StoreConformance, OneBadOfferKeepsTheWholeBatchOut) {
  const std::vector<std::pair<std::function<void(SeenOffer&)>, ErrorCode>> faults{
      {[](SeenOffer& o) { o.part.id = "Card A"; }, ErrorCode::bad_input},
      {[](SeenOffer& o) { o.seller = ""; }, ErrorCode::bad_input},
      {[](SeenOffer& o) { o.market = "ie"; }, ErrorCode::bad_input},
      {[](SeenOffer& o) { o.market = "QQ"; }, ErrorCode::bad_input},
      {[](SeenOffer& o) { o.price.currency = {}; }, ErrorCode::bad_input},
      {[](SeenOffer& o) { o.price.currency = {{'Q', 'Q', 'Q'}}; }, ErrorCode::bad_input},
      {[](SeenOffer& o) { o.price.minor = -1; }, ErrorCode::out_of_range},
      {[](SeenOffer& o) { o.price.minor = max_minor + 1; }, ErrorCode::out_of_range},
      {[](SeenOffer& o) { o.seen = {2'000'000'000}; }, ErrorCode::out_of_range},
      {[](SeenOffer& o) { o.stock = -1; }, ErrorCode::out_of_range},
      {[](SeenOffer& o) { o.delivery_days = 366; }, ErrorCode::out_of_range},
      {[](SeenOffer& o) { o.warranty_months = 241; }, ErrorCode::out_of_range}};
  for (const auto& [spoil, code] : faults) {
    auto batch = a_batch({an_offer(), full_offer()});
    spoil(batch.offers[1]);
    const auto refused = store().append_prices(batch);
    ASSERT_EQ(refusal(refused), code);
    EXPECT_TRUE(refused.error().message.starts_with("offer 2: ")) << refused.error().message;
  }
  EXPECT_EQ(refusal(store().append_prices(a_batch({an_offer()}, ""))), ErrorCode::bad_input);
  EXPECT_TRUE(store().price_series(an_offer().part)->empty());
}

TEST_P(StoreConformance, EmptyBatchIsNoFault) {
  const auto appended = store().append_prices(a_batch({}));
  ASSERT_TRUE(appended) << appended.error().message;
  EXPECT_EQ(appended->added + appended->known, 0U);
}

TEST_P(StoreConformance, BatchBeyondTheLimitIsRefused) {
  const auto refused =
      store().append_prices(a_batch(std::vector<SeenOffer>(max_batch_offers + 1, an_offer())));
  EXPECT_EQ(refusal(refused), ErrorCode::out_of_range);
}

TEST_P(StoreConformance, TenThousandPricesGoInAsOneBatch) {
  std::vector<SeenOffer> offers;
  for (int i = 0; i < 10'000; ++i) {
    offers.push_back(an_offer());
    offers.back().part.id = "card-" + std::to_string(i % 500);
    offers.back().seen.days += i / 500;
  }
  ASSERT_EQ(store().append_prices(a_batch(offers))->added, 10'000U);
  EXPECT_EQ(store().price_series({.kind = Kind::gpu, .id = "card-499"})->size(), 20U);
}

}  // namespace
}  // namespace rigproof::store
