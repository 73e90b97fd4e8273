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
        line.seller = std::string(catalog.word(column("sellers", "name"), seller));
        line.seen = catalog.date(column("offers", "seen"), price->offer);
        if (line.seen) line.age_days = days_between(*line.seen, brief.as_of);
        line.tax_note = tax_note(catalog, market, price->offer);
        line.commission = catalog.word(column("offers", "link_kind"), price->offer) == "commission";
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

// A supply or a cable set of this build was there before: other cables may lie beside it.
bool keeps_supply_or_cables(const Catalog& catalog, const Brief& brief, const Build& build) {
  return std::ranges::any_of(brief.keep, [&](const ForcedPart& part) {
    const auto found = catalog.find_part(part.id);
    if (!found || std::ranges::find(build.of(found->kind), found->row, &Chosen::row) ==
                      build.of(found->kind).end())
      return false;
    return found->kind == Kind::psu ||
           (found->kind == Kind::other &&
            catalog.word(column("other", "what"), found->row) == "cable-set");
  });
}

}  // namespace

Money in_first_currency(const Brief& brief, std::int64_t minor) {
  return {brief.markets.front().budget.currency, minor};
}

std::vector<sheet::PartLine> part_lines(const Catalog& catalog, const Brief& brief,
                                        const Build& build, const Mounts* mounts) {
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
      if (mounts != nullptr)
        for (const std::string& key : {line.kind, line.id})
          if (const auto fixed = mounts->find(key); fixed != mounts->end())
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

std::vector<sheet::Caution> cautions(const Catalog& catalog, const Brief& brief,
                                     const Build& build) {
  std::vector<sheet::Caution> out = {
      {"Mains",
       "Switch off and unplug before opening the case. The supply itself is not for users to open: "
       "parts inside stay "
       "charged to hundreds of volts after unplugging. It needs an earthed socket. Local codes and "
       "licensed people decide "
       "about circuits.",
       "IEC 62368-1, from memory"},
      {"Static",
       "Touch bare metal of the case, or wear a wrist strap of about 1 megohm, before touching "
       "parts: they are damaged far below what "
       "a person feels.",
       "ANSI/ESD S20.20 and IEC 61340-5-1, from memory"},
      {"Standoffs", "Only where the board has a hole: a stray standoff can cut or short a trace.",
       "microATX 1.2 section 2.2, looked up"},
      {"Edges and fans", "Unfinished sheet edges cut. Stop fans before reaching in.",
       "common practice, no source"},
  };
  const auto add = [&](std::string subject, std::string text, std::string source) {
    out.push_back({std::move(subject), std::move(text), std::move(source)});
  };
  if (const Row cooler = build.one(Kind::cooler);
      cooler != no_row && catalog.word(column("cooler", "type"), cooler) == "liquid")
    add("Liquid",
        "Coolant beside mains: look for leaks with the machine unpowered first; coolants can be "
        "harmful if swallowed.",
        "common practice, no source");
  if (keeps_supply_or_cables(catalog, brief, build))
    add("Kept supply or cables",
        "Use only cables of this supply's own family. Cables of another set can fit and still "
        "destroy hardware: never mix them, and keep other sets apart.",
        "common practice, no source");
  if (build.has(Kind::gpu))
    add("Long card",
        "Support a heavy card while the machine is carried; take it out for transport.",
        "common practice, no source");
  add("Glass and lifting",
      "Tempered glass breaks all at once: lay panels on something soft, away from hard floors. "
      "Lift with both hands.",
      "EN 12150-1 and NIOSH 1994, from memory");
  return out;
}

}  // namespace rigproof::app
