#include "app/describe.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"

namespace rigproof::app {
namespace {

// Where a part sits and when it comes on the sheet. Drives depend on their mounting.
struct Place {
  int order;
  std::string name;
};

Place place_of(const Catalog& catalog, Kind kind, Row row) {
  switch (kind) {
    case Kind::board:
      return {0, "board tray"};
    case Kind::cpu:
      return {1, "processor socket"};
    case Kind::cooler:
      return {2, catalog.word(column("cooler", "type"), row) == "liquid"
                     ? "on the processor, radiator on a face"
                     : "on the processor"};
    case Kind::memory:
      return {3, "memory slots"};
    case Kind::storage: {
      const std::string_view mounting = catalog.word(column("storage", "mounting"), row);
      if (mounting.starts_with("M.2")) return {4, "drive socket on the board"};
      return {6, mounting.empty() ? "drive place not stated" : "drive cage"};
    }
    case Kind::gpu:
      return {5, "card slot"};
    case Kind::chassis:
      return {7, "around it all"};
    case Kind::fan:
      return {8, "case faces"};
    case Kind::psu:
      return {9, "supply chamber"};
    case Kind::other:
      return {10, "small parts"};
    case Kind::display:
      return {11, "beside the machine"};
  }
  return {12, ""};
}

void mark_origin(const Brief& brief, sheet::PartLine& line) {
  for (const ForcedPart& part : brief.keep)
    if (part.id == line.id) {
      line.origin = sheet::Origin::kept;
      line.why = "Already there: costs nothing here and must be used.";
    }
  for (const ForcedPart& part : brief.because)
    if (part.id == line.id) {
      line.origin = sheet::Origin::forced;
      line.why = part.why;
    }
}

std::string tax_note(const Catalog& catalog, const MarketGoal& market, Row offer) {
  if (catalog.flag(column("offers", "tax_included"), offer).value_or(false)) return "tax included";
  if (!market.sales_tax) return "no tax";
  const DecimalRate& rate = *market.sales_tax;
  double percent = static_cast<double>(rate.numerator) * 100.0;
  for (int i = 0; i < rate.decimals; ++i) percent /= 10.0;
  return fmt::format("{} % sales tax added", shortest(percent));
}

std::int64_t shipping_upper(const Catalog& catalog, const std::vector<Row>& sellers,
                            bool& complete) {
  std::int64_t sum = 0;
  for (const Row seller : sellers) {
    const auto upper = catalog.minor(column("sellers", "shipping_upper"), seller);
    complete = complete && upper.has_value();
    sum += upper.value_or(0);
  }
  return sum;
}

// Whether no second seller has an offer there that the brief admits; what stands alone is vouched
// for by nobody.
bool stands_alone(const Catalog& catalog, const Brief& brief, PartRef part, Row offer) {
  const std::string_view market = catalog.word(column("offers", "market"), offer);
  const Row seller = catalog.reference(column("offers", "seller"), offer);
  for (const Row other : catalog.rows_of(table("offers"), part)) {
    if (catalog.word(column("offers", "market"), other) != market ||
        catalog.reference(column("offers", "seller"), other) == seller)
      continue;
    const auto seen = catalog.date(column("offers", "seen"), other);
    if (!seen || *seen > brief.as_of) continue;
    if (brief.offers_not_older_than_days &&
        days_between(*seen, brief.as_of) > *brief.offers_not_older_than_days)
      continue;
    const std::string_view condition = catalog.word(column("offers", "condition"), other);
    if (std::ranges::find(brief.conditions, condition) == brief.conditions.end()) continue;
    if (!(catalog.number(column("offers", "stock"), other) < 1.0)) return false;
  }
  return true;
}

// The last day on which the brief, asked again then, would still count the offer.
std::optional<Date> good_until(const Brief& brief, const sheet::PriceLine& line) {
  std::optional<int> days = brief.offers_not_older_than_days;
  if (line.alone && brief.lone_offers_not_older_than_days)
    days = std::min(days.value_or(*brief.lone_offers_not_older_than_days),
                    *brief.lone_offers_not_older_than_days);
  if (!days || !line.seen) return {};
  return Date{line.seen->days + *days};
}

std::optional<int> whole_number(const Catalog& catalog, ColumnId cell, Row row) {
  if (catalog.absent(cell, row)) return {};
  return static_cast<int>(catalog.number(cell, row));  // a count within its column's bounds
}

void put_offer(const Catalog& catalog, const Brief& brief, const MarketGoal& market, PartRef part,
               Row offer, sheet::PriceLine& line) {
  const Row seller = catalog.reference(column("offers", "seller"), offer);
  line.seller = std::string(catalog.word(column("sellers", "name"), seller));
  line.seen = catalog.date(column("offers", "seen"), offer);
  if (line.seen) line.age_days = days_between(*line.seen, brief.as_of);
  line.tax_note = tax_note(catalog, market, offer);
  line.commission = catalog.word(column("offers", "link_kind"), offer) == "commission";
  line.condition = std::string(catalog.word(column("offers", "condition"), offer));
  line.stock = whole_number(catalog, column("offers", "stock"), offer);
  line.warranty_months = whole_number(catalog, column("offers", "warranty_months"), offer);
  line.alone = stands_alone(catalog, brief, part, offer);
  line.good_until = good_until(brief, line);
}

sheet::MarketPrices price_market(const Catalog& catalog, const Brief& brief,
                                 const PriceBook& prices, const Build& build, int index) {
  const MarketGoal& market = brief.markets[static_cast<std::size_t>(index)];
  const Currency currency = market.budget.currency;
  sheet::MarketPrices out{.market = market.market,
                          .lines = {},
                          .total = {currency, 0},
                          .budget = market.budget,
                          .left = {currency, 0},
                          .shipping_upper = {currency, 0},
                          .note = {}};
  std::vector<Row> sellers;
  std::string without;
  for (int k = 0; k < kind_count; ++k)
    for (const Chosen& part : build.of(static_cast<Kind>(k))) {
      const PartRef ref{static_cast<Kind>(k), part.row};
      const auto price = prices.price(ref, index, part.count);
      if (!price) {
        without += fmt::format("{}{}", without.empty() ? "" : ", ", catalog.name(ref));
        continue;
      }
      sheet::PriceLine line{.part_id = std::string(catalog.id(ref)),
                            .part_name = std::string(catalog.name(ref)),
                            .count = part.count,
                            .each = {currency, price->minor},
                            .line = {currency, price->minor * part.count},
                            .seller = {},
                            .seen = {},
                            .age_days = 0,
                            .tax_note = "already there",
                            .commission = false};
      if (price->offer != no_row) {
        const Row seller = catalog.reference(column("offers", "seller"), price->offer);
        put_offer(catalog, brief, market, ref, price->offer, line);
        if (std::ranges::find(sellers, seller) == sellers.end()) sellers.push_back(seller);
      }
      out.total.minor += line.line.minor;
      out.lines.push_back(std::move(line));
    }
  out.left.minor = out.budget.minor - out.total.minor;
  bool complete = true;
  out.shipping_upper.minor = shipping_upper(catalog, sellers, complete);
  out.note = fmt::format(
      "Each part at its cheapest admissible offer; delivery from {} seller{} is not in the total "
      "and adds at most {}{}.",
      sellers.size(), sellers.size() == 1 ? "" : "s", to_string(out.shipping_upper),
      complete ? "" : " beside sellers that state none");
  if (!without.empty()) out.note += fmt::format(" No admissible offer: {}.", without);
  return out;
}

}  // namespace

Money in_first_currency(const Brief& brief, std::int64_t minor) {
  return {brief.markets.front().budget.currency, minor};
}

std::vector<sheet::PartLine> part_lines(const Catalog& catalog, const Brief& brief,
                                        const Build& build, const Setup* setup) {
  std::vector<std::pair<int, sheet::PartLine>> lines;
  for (int k = 0; k < kind_count; ++k) {
    const Kind kind = static_cast<Kind>(k);
    for (const Chosen& part : build.of(kind)) {
      const PartRef ref{kind, part.row};
      Place place = place_of(catalog, kind, part.row);
      const auto table = static_cast<std::uint8_t>(table_of(kind));
      sheet::PartLine line;
      line.kind = std::string(name_of(kind));
      line.id = std::string(catalog.id(ref));
      if (setup != nullptr)
        for (const std::string& key : {line.kind, line.id})
          if (const auto fixed = setup->mounts.find(key); fixed != setup->mounts.end())
            place.name += ": " + fixed->second;
      line.place = std::move(place.name);
      line.name = std::string(catalog.name(ref));
      line.maker = std::string(catalog.word({table, 2}, part.row));
      line.maker_code = std::string(catalog.word({table, 3}, part.row));
      line.count = part.count;
      mark_origin(brief, line);
      lines.emplace_back(place.order, std::move(line));
    }
  }
  std::ranges::stable_sort(lines, {}, [](const auto& entry) { return entry.first; });
  std::vector<sheet::PartLine> out;
  out.reserve(lines.size());
  for (auto& entry : lines) out.push_back(std::move(entry.second));
  return out;
}

std::vector<sheet::MarketPrices> market_prices(const Catalog& catalog, const Brief& brief,
                                               const PriceBook& prices, const Build& build) {
  std::vector<sheet::MarketPrices> out;
  out.reserve(static_cast<std::size_t>(prices.markets()));
  for (int market = 0; market < prices.markets(); ++market)
    out.push_back(price_market(catalog, brief, prices, build, market));
  return out;
}

}  // namespace rigproof::app
