// Claims about the wall: the brief's limit, the circuit the machine hangs on, and what a year of it
// costs.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/power/energy.hpp"
#include "analysis/power/power_families.hpp"
#include "analysis/power/power_rules.hpp"
#include "analysis/power/wall.hpp"

namespace rigproof::power {
namespace {

std::string_view mains_words(Mains mains) { return mains == Mains::v115 ? "115 V" : "230 V"; }

std::span<const MarketGoal> markets_of(const Facts& facts) { return facts.brief.markets; }

// --- power.wall: the worst market decides, and that is the one with the lower voltage

const PhysicalLimit* wall_limit(const Facts& facts) {
  const auto found = facts.brief.limits.find("wall_power_w");
  return found == facts.brief.limits.end() ? nullptr : &found->second;
}

std::size_t hardest_market(const Facts& facts) {
  const auto markets = markets_of(facts);
  for (std::size_t i = 0; i < markets.size(); ++i)
    if (mains_of(facts, i) == Mains::v115) return i;
  return 0;
}

int wall_places(const Facts& facts) {
  return facts.build.has(Kind::psu) && wall_limit(facts) != nullptr ? 1 : 0;
}

Load limited_load(const Facts& facts) {
  return find_load(facts.brief, wall_limit(facts)->load).value_or(Load::everything);
}

void measure_wall(const Facts& facts, int, Measure& m) {
  m.limit = wall_limit(facts)->at_most;
  m.value = wall_power(facts, limited_load(facts), hardest_market(facts), m).wall_w;
  if (m.value.is_absent()) m.unknown = true;
}

void tell_wall(const Facts& facts, int, const Measure& m, Telling& out) {
  out.subjects = {part_of(facts, Kind::psu)};
  out.load = name_of(facts.brief, limited_load(facts));
  out.statement = fmt::format("The machine draws no more at the wall than the brief allows ({}).",
                              mains_words(mains_of(facts, hardest_market(facts))));
  if (!m.value.is_absent())
    out.remedy = "a processor or card that draws less, or a supply of a better level";
}

constexpr std::array<std::string_view, 2> wall_keys = {"limits.wall_power_w", "markets"};

constexpr Rule wall_rule = {
    .id = "power.wall",
    .about = "power at the wall against the brief's limit",
    .consequence = "The machine would draw more at the wall than was asked for.",
    .grade = Grade::must,
    .kinds = load_kinds,
    .reads = wall_cells,
    .brief_keys = wall_keys,
    .relation = Relation::at_most,
    .unit = "W",
    .basis = Basis::standard,
    .equation = "load + loss of the supply <= limit, (P13)",
    .source = "[eighty-plus] program table",
    .places = wall_places,
    .measure = measure_wall,
    .tell = tell_wall,
    .concerns = [](const Brief& brief) { return brief.limits.contains("wall_power_w"); }};

// --- power.circuit: one claim for each market that states its circuit

const MarketGoal* market_with_circuit(const Facts& facts, int place) {
  for (const MarketGoal& market : markets_of(facts))
    if (market.circuit_a && market.mains_v && place-- == 0) return &market;
  return nullptr;
}

int circuit_places(const Facts& facts) {
  if (!facts.build.has(Kind::psu)) return 0;
  int places = 0;
  while (market_with_circuit(facts, places) != nullptr) ++places;
  return places;
}

// Where the rule for continuous loads is law; elsewhere the circuit's rating itself is compared.
constexpr double continuous_frac = 0.8;
bool has_continuous_rule(const MarketGoal& market) { return market.market == "US"; }

// (P15)
void measure_circuit(const Facts& facts, int place, Measure& m) {
  const MarketGoal& market = *market_with_circuit(facts, place);
  const auto index = static_cast<std::size_t>(&market - markets_of(facts).data());
  m.value = wall_power(facts, Load::everything, index, m).wall_w;
  if (m.value.is_absent()) m.unknown = true;
  m.limit = market.circuit_a.value_or(0.0) * market.mains_v.value_or(0.0);
  if (has_continuous_rule(market)) m.limit *= continuous_frac;
}

void tell_circuit(const Facts& facts, int place, const Measure&, Telling& out) {
  const MarketGoal& market = *market_with_circuit(facts, place);
  out.subjects = {part_of(facts, Kind::psu)};
  out.where = market.market;
  out.load = "everything";
  out.statement = fmt::format(
      "A circuit of {:g} A at {:g} V carries the machine for hours, with nothing else on it.",
      market.circuit_a.value_or(0.0), market.mains_v.value_or(0.0));
  out.remedy =
      "another circuit, or a machine that draws less; local code and a licensed electrician decide";
}

constexpr std::array<std::string_view, 1> market_keys = {"markets"};

constexpr Rule circuit_rule = {
    .id = "power.circuit",
    .about = "power at the wall against the circuit the brief states for a market",
    .consequence =
        "The breaker would trip in the middle of work, with nothing wrong in the machine.",
    .grade = Grade::must,
    .kinds = load_kinds,
    .reads = wall_cells,
    .brief_keys = market_keys,
    .relation = Relation::at_most,
    .unit = "W",
    .basis = Basis::standard,
    .equation = "load + loss of the supply <= circuit x mains, in the US 0.8 of it, (P15)",
    .source = "[nec-210] continuous loads; other markets: the circuit's own rating",
    .places = circuit_places,
    .measure = measure_circuit,
    .tell = tell_circuit,
    .concerns = [](const Brief& brief) {
      return std::ranges::any_of(brief.markets, [](const MarketGoal& market) {
        return market.circuit_a && market.mains_v;
      });
    }};

// --- power.running-cost, in the money of the market that was the first in the brief

std::size_t cost_market(const Facts& facts) {
  const auto markets = markets_of(facts);
  const auto found =
      std::ranges::find(markets, facts.brief.running_cost_market, &MarketGoal::market);
  return found == markets.end() ? 0 : static_cast<std::size_t>(found - markets.begin());
}

int cost_places(const Facts& facts) {
  return facts.build.has(Kind::psu) && facts.brief.running_cost_per_year &&
                 !markets_of(facts).empty()
             ? 1
             : 0;
}

void measure_cost(const Facts& facts, int, Measure& m) {
  m.limit = facts.brief.running_cost_per_year.value_or(0.0);
  m.value = energy_of(facts, cost_market(facts), m).cost_per_year;
  if (m.value.is_absent()) m.unknown = true;
}

void tell_cost(const Facts& facts, int, const Measure& m, Telling& out) {
  const MarketGoal& market = markets_of(facts)[cost_market(facts)];
  out.subjects = {part_of(facts, Kind::psu)};
  out.where = market.market;
  out.statement = fmt::format("A year of use costs no more for energy than the brief allows ({}).",
                              market.market);
  if (m.value.is_absent() && !market.kwh_price)
    out.remedy = fmt::format("state kwh_price of {} in the brief", market.market);
  else
    out.remedy = "a machine that draws less, or fewer hours of it";
}

std::string_view currency_of(const Facts& facts, int) {
  return markets_of(facts)[cost_market(facts)].budget.currency.view();
}

constexpr std::array<std::string_view, 3> cost_keys = {"limits.running_cost_per_year", "markets",
                                                       "use"};

constexpr Rule cost_rule = {
    .id = "power.running-cost",
    .about = "what a year of energy costs against the brief's limit",
    .consequence = "The machine would cost more to run than was planned.",
    .grade = Grade::must,
    .kinds = load_kinds,
    .reads = wall_cells,
    .brief_keys = cost_keys,
    .relation = Relation::at_most,
    .unit = "",
    .basis = Basis::standard,
    .equation = "sum over loads of hours x power at the wall x price of energy <= limit, (P14)",
    .source = "[eighty-plus] program table; the brief",
    .places = cost_places,
    .measure = measure_cost,
    .tell = tell_cost,
    .unit_at = currency_of,
    .concerns = [](const Brief& brief) { return brief.running_cost_per_year.has_value(); }};

// --- what processor and card take alone is a part of what the wall gives: for planners

constexpr std::array hungriest = {Kind::cpu, Kind::gpu};

int early_wall_places(const Facts& facts) { return wall_limit(facts) != nullptr ? 1 : 0; }

void measure_early_wall(const Facts& facts, int, Measure& m) {
  m.limit = wall_limit(facts)->at_most;
  m.value = load_w(facts, limited_load(facts), m);
  if (m.value.is_absent()) m.unknown = true;
}

constexpr Rule early_wall = {
    .id = "power.wall",
    .about = "processor and card alone",
    .kinds = hungriest,
    .reads = load_cells,
    .brief_keys = wall_keys,
    .places = early_wall_places,
    .measure = measure_early_wall,
    .foretells = true,
    .concerns = [](const Brief& brief) { return brief.limits.contains("wall_power_w"); }};

int early_cost_places(const Facts& facts) {
  return facts.brief.running_cost_per_year && !markets_of(facts).empty() ? 1 : 0;
}

void measure_early_cost(const Facts& facts, int, Measure& m) {
  m.limit = facts.brief.running_cost_per_year.value_or(0.0);
  const double price = mean_kwh_price(facts, cost_market(facts));
  m.value = kwh_of_parts_per_year(facts, m) * price;
  if (std::isnan(price) || m.value.is_absent()) m.unknown = true;
}

constexpr Rule early_cost = {
    .id = "power.running-cost",
    .about = "processor and card alone",
    .kinds = hungriest,
    .reads = load_cells,
    .brief_keys = cost_keys,
    .places = early_cost_places,
    .measure = measure_early_cost,
    .foretells = true,
    .concerns = [](const Brief& brief) { return brief.running_cost_per_year.has_value(); }};

constexpr std::array<const Rule*, 3> rules = {&wall_rule, &circuit_rule, &cost_rule};
constexpr std::array<const Rule*, 2> foretelling = {&early_wall, &early_cost};

}  // namespace

std::span<const Rule* const> wall_rules() { return rules; }

}  // namespace rigproof::power

std::span<const rigproof::Rule* const> rigproof::power_foretelling_rules() {
  return power::foretelling;
}
