#include "catalog/why_no_price.hpp"

#include <algorithm>
#include <vector>

#include "base/contract.hpp"

namespace rigproof {
namespace {

constexpr ColumnId offer_market = column("offers", "market");
constexpr ColumnId offer_seller = column("offers", "seller");
constexpr ColumnId offer_seen = column("offers", "seen");
constexpr ColumnId offer_condition = column("offers", "condition");
constexpr ColumnId offer_currency = column("offers", "currency");
constexpr ColumnId offer_tax_included = column("offers", "tax_included");
constexpr ColumnId offer_stock = column("offers", "stock");

class Looker {
 public:
  Looker(const Catalog& catalog, const Brief& brief, PartRef part, const MarketGoal& goal)
      : catalog_(catalog), brief_(brief) {
    for (const Row row : catalog.rows_of(table("offers"), part))
      if (catalog.word(offer_market, row) == goal.market) rows_.push_back(row);
  }

  [[nodiscard]] bool none() const { return rows_.empty(); }
  [[nodiscard]] int age_days(Row row) const {
    return days_between(catalog_.date(offer_seen, row).value_or(brief_.as_of), brief_.as_of);
  }
  [[nodiscard]] NoPrice because(NoPrice::Why why) const {
    NoPrice out{.why = why, .offers = static_cast<int>(rows_.size())};
    if (!rows_.empty()) out.youngest_days = age_days(rows_.front());
    for (const Row row : rows_) {
      out.youngest_days = std::min(out.youngest_days, age_days(row));
      if (const double stock = catalog_.number(offer_stock, row); stock > out.most_stock)
        out.most_stock = stock;
    }
    return out;
  }
  /// Leaves the offers that satisfy a demand; false when none does: then all stay, to be told of.
  template <class Demand>
  bool narrow(Demand demand) {
    if (std::ranges::none_of(rows_, demand)) return false;
    std::erase_if(rows_, [&](Row row) { return !demand(row); });
    return true;
  }
  [[nodiscard]] bool of_one_seller() const {
    return std::ranges::all_of(rows_, [&](Row row) {
      return catalog_.reference(offer_seller, row) ==
             catalog_.reference(offer_seller, rows_.front());
    });
  }

 private:
  const Catalog& catalog_;
  const Brief& brief_;
  std::vector<Row> rows_;
};

}  // namespace

NoPrice why_no_price(const Catalog& catalog, const Brief& brief, PartRef part, int market,
                     int count) {
  using enum NoPrice::Why;
  RP_EXPECT(market >= 0 && static_cast<std::size_t>(market) < brief.markets.size());
  for (const ForcedPart& kept : brief.keep)
    if (kept.id == catalog.id(part)) return {.why = priced};
  const MarketGoal& goal = brief.markets[static_cast<std::size_t>(market)];
  Looker offers(catalog, brief, part, goal);
  if (offers.none()) return offers.because(no_offer);
  if (!offers.narrow([&](Row row) {
        return std::ranges::find(brief.conditions, catalog.word(offer_condition, row)) !=
               brief.conditions.end();
      }))
    return offers.because(other_condition);
  if (!offers.narrow([&](Row row) { return offers.age_days(row) >= 0; }))
    return offers.because(not_yet_seen);
  const auto& most_days = brief.offers_not_older_than_days;
  if (most_days && !offers.narrow([&](Row row) { return offers.age_days(row) <= *most_days; }))
    return offers.because(too_old);
  // No stock stated is not none.
  if (!offers.narrow([&](Row row) { return !(catalog.number(offer_stock, row) < 1.0); }))
    return offers.because(out_of_stock);
  if (!offers.narrow([&](Row row) {
        return catalog.word(offer_currency, row) == goal.budget.currency.view() &&
               (goal.sales_tax || catalog.flag(offer_tax_included, row).value_or(false));
      }))
    return offers.because(other_terms);
  const auto& lone_days = brief.lone_offers_not_older_than_days;
  if (lone_days && offers.of_one_seller() &&
      !offers.narrow([&](Row row) { return offers.age_days(row) <= *lone_days; }))
    return offers.because(lone_too_old);
  if (!offers.narrow([&](Row row) { return !(catalog.number(offer_stock, row) < count); }))
    return offers.because(too_few);
  return {.why = priced};
}

}  // namespace rigproof
