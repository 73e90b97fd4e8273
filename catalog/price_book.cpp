#include "catalog/price_book.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "base/contract.hpp"
#include "base/text.hpp"

namespace rigproof {
namespace {

constexpr ColumnId offer_part = column("offers", "part");
constexpr ColumnId offer_market = column("offers", "market");
constexpr ColumnId offer_seen = column("offers", "seen");
constexpr ColumnId offer_condition = column("offers", "condition");
constexpr ColumnId offer_price = column("offers", "price");
constexpr ColumnId offer_currency = column("offers", "currency");
constexpr ColumnId offer_tax_included = column("offers", "tax_included");
constexpr ColumnId offer_stock = column("offers", "stock");
constexpr int offers = table("offers");

bool admissible(const Catalog& catalog, const Brief& brief, Row row) {
  const std::string_view condition = catalog.word(offer_condition, row);
  if (std::ranges::find(brief.conditions, condition) == brief.conditions.end()) return false;
  const auto seen = catalog.date(offer_seen, row);
  if (!seen || *seen > brief.as_of) return false;
  const auto& most_days = brief.offers_not_older_than_days;
  if (most_days && days_between(*seen, brief.as_of) > *most_days) return false;
  const double stock = catalog.number(offer_stock, row);
  return !(stock < 1.0);  // NaN: unknown, which does not exclude
}

constexpr ColumnId offer_seller = column("offers", "seller");

// Are these admissible lines of one part all of the same seller?
template <class Lines>
bool same_seller(const Lines& lines) {
  return std::ranges::all_of(lines,
                             [&](const auto& line) { return line.seller == lines.front().seller; });
}

std::optional<int> market_of(const Brief& brief, std::string_view code) {
  const auto at = std::ranges::find(brief.markets, code, &MarketGoal::market);
  if (at == brief.markets.end()) return {};
  return static_cast<int>(at - brief.markets.begin());
}

// `file:line`; of the entry of that market.
std::string place_of(const Brief& brief, const MarketGoal& goal) {
  const auto at = brief.lines.find("markets." + goal.market);
  return at == brief.lines.end() ? brief.file : fmt::format("{}:{}", brief.file, at->second);
}

// What is wrong with one market's offers: the first row of each sort, and how many there are.
struct Faults {
  Row tax_row = no_row;
  std::size_t tax_count = 0;
  Row currency_row = no_row;
  std::size_t currency_count = 0;
};

void note(Row row, Row& first, std::size_t& count) {
  if (count++ == 0) first = row;
}

std::string describe(const Catalog& catalog, const Brief& brief, const MarketGoal& goal,
                     const Faults& faults) {
  std::string out;
  if (faults.tax_count > 0)
    out += fmt::format(
        "{}: market {} states no sales_tax, but {} of its offers exclude tax, the first one at "
        "offers.csv:{}; expected sales_tax = \"...\" in this [[markets]]\n",
        place_of(brief, goal), goal.market, faults.tax_count, catalog.line(offers, faults.tax_row));
  if (faults.currency_count > 0)
    out += fmt::format(
        "offers.csv:{}: the offer is in {}, but {} states {} for market {}; {} such offers\n",
        catalog.line(offers, faults.currency_row),
        excerpt(catalog.word(offer_currency, faults.currency_row)), place_of(brief, goal),
        goal.budget.currency.view(), goal.market, faults.currency_count);
  return out;
}

}  // namespace

Result<PriceBook> PriceBook::make(const Catalog& catalog, const Brief& brief, Faulty faulty) {
  PriceBook book;
  for (std::size_t k = 0; k < kind_count; ++k)
    book.first_[k + 1] = book.first_[k] + catalog.rows(static_cast<int>(k));
  for (const ForcedPart& part : brief.keep) {
    const auto found = catalog.find_part(part.id);
    if (!found || found->kind != part.kind)
      return bad_input(fmt::format("{}: [keep] names {}, which is no {} of this catalog",
                                   brief.file, excerpt(part.id), name_of(part.kind)));
    book.kept_.push_back(*found);
  }
  book.books_.assign(brief.markets.size(), std::vector<std::vector<Line>>(book.first_[kind_count]));

  std::vector<Faults> faults(brief.markets.size());
  for (Row row = 0; row < catalog.rows(offers); ++row) {
    const auto market = market_of(brief, catalog.word(offer_market, row));
    if (!market || !admissible(catalog, brief, row)) continue;
    const auto m = static_cast<std::size_t>(*market);
    const MarketGoal& goal = brief.markets[m];
    const auto given_minor = catalog.minor(offer_price, row);
    const auto given_tax = catalog.flag(offer_tax_included, row);
    if (!given_minor || !given_tax) continue;  // never: required columns of a catalog that loaded
    const std::int64_t minor = *given_minor;
    const bool tax_included = *given_tax;
    if (catalog.word(offer_currency, row) != goal.budget.currency.view()) {
      note(row, faults[m].currency_row, faults[m].currency_count);
    } else if (!tax_included && !goal.sales_tax) {
      note(row, faults[m].tax_row, faults[m].tax_count);
    } else {
      const double stock = catalog.number(offer_stock, row);
      const PartRef part = catalog.part(offer_part, row);
      book.books_[m][book.flat(part)].push_back(
          {.minor = tax_included ? minor : with_tax(minor, goal.sales_tax.value_or(DecimalRate{})),
           .offer = row,
           .stock = stock >= 1.0 ? stock : std::numeric_limits<double>::infinity(),
           .seller = catalog.reference(offer_seller, row)});
    }
  }
  std::string wrong;
  for (std::size_t m = 0; m < faults.size(); ++m)
    wrong += describe(catalog, brief, brief.markets[m], faults[m]);
  if (!wrong.empty() && faulty == Faulty::refuse) return bad_input(std::string(trim(wrong)));

  if (brief.lone_offers_not_older_than_days)
    for (auto& market : book.books_)
      for (auto& lines : market)
        if (same_seller(lines))
          std::erase_if(lines, [&](const Line& line) {
            const auto seen = catalog.date(offer_seen, line.offer);
            return !seen ||
                   days_between(*seen, brief.as_of) > *brief.lone_offers_not_older_than_days;
          });

  for (auto& market : book.books_)
    for (auto& lines : market)
      std::ranges::sort(lines, [&](const Line& x, const Line& y) {
        if (x.minor != y.minor) return x.minor < y.minor;
        const auto seen_x = catalog.date(offer_seen, x.offer);
        const auto seen_y = catalog.date(offer_seen, y.offer);
        return seen_x != seen_y ? seen_x > seen_y : x.offer < y.offer;
      });
  return book;
}

std::optional<Price> PriceBook::price(PartRef part, int market, int count) const {
  RP_EXPECT(market >= 0 && market < markets() && count >= 1);
  if (kept(part)) return Price{};
  for (const Line& line : books_[static_cast<std::size_t>(market)][flat(part)])
    if (line.stock >= count) return Price{line.minor, line.offer};
  return {};
}

bool PriceBook::of_one_seller(PartRef part, int market) const {
  RP_EXPECT(market >= 0 && market < markets());
  if (kept(part)) return false;
  const auto& lines = books_[static_cast<std::size_t>(market)][flat(part)];
  return !lines.empty() && same_seller(lines);
}

bool PriceBook::kept(PartRef part) const { return std::ranges::find(kept_, part) != kept_.end(); }

std::size_t PriceBook::flat(PartRef part) const {
  const auto k = static_cast<std::size_t>(part.kind);
  RP_EXPECT(k < kind_count && part.row < first_[k + 1] - first_[k]);
  return first_[k] + part.row;
}

}  // namespace rigproof
