#include "app/power_of_build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/power/card_plugs.hpp"
#include "analysis/power/conductors.hpp"
#include "analysis/power/connectors.hpp"
#include "analysis/power/energy.hpp"
#include "analysis/power/load_cases.hpp"
#include "analysis/power/power_rules.hpp"
#include "analysis/power/wall.hpp"
#include "app/power_work.hpp"
#include "app/remedies.hpp"

namespace rigproof::app {
namespace {

using power::Load;

std::optional<Quantity> known(const Draws& draws, std::string_view unit) {
  if (draws.is_absent()) return {};
  return quantity(draws, unit);
}

std::string pieces(int count, std::string_view name) {
  return count == 1 ? std::string(name) : fmt::format("{} x {}", count, name);
}

void add_parts(const Facts& facts, sheet::Power& out) {
  const power::PowerTerms terms = power::power_terms(facts, Load::everything);
  for (std::size_t i = 0; i < terms.count; ++i) {
    const PartRef part{terms.all[i].kind, terms.all[i].row};
    out.parts.push_back({.part = pieces(terms.all[i].count, facts.catalog.name(part)),
                         .part_id = std::string(facts.catalog.id(part)),
                         .by_load = {}});
  }
  for (const Load load : power::loads_of(facts.brief)) {
    out.loads.emplace_back(power::name_of(facts.brief, load));
    const power::PowerTerms under = power::power_terms(facts, load);
    Measure m;
    for (std::size_t i = 0; i < under.count; ++i)
      out.parts[i].by_load.push_back(known(power::power_w(facts, under.all[i], load, m), "W"));
    const Draws sum = power::load_w(facts, load, m);
    out.sums.push_back(known(sum, "W"));
    const double rated_w =
        facts.build.has(Kind::psu)
            ? facts.catalog.number(column("psu", "rated_power_w"), facts.build.one(Kind::psu))
            : no_number;
    if (rated_w > 0.0 && !sum.is_absent())
      out.share_frac.push_back(quantity(sum * (1.0 / rated_w), ""));
  }
  if (out.share_frac.size() != out.loads.size()) out.share_frac.clear();
}

// The wall of one market, by load.
sheet::PowerWall wall_of(const Facts& facts, std::size_t market, std::string where) {
  sheet::PowerWall out;
  out.where = std::move(where);
  for (const Load load : power::loads_of(facts.brief)) {
    Measure m;
    const power::Wall wall = power::wall_power(facts, load, market, m);
    out.mains = wall.mains == power::Mains::v115 ? "115 V" : "230 V";
    out.mains_stated = wall.mains_stated;
    out.by_load.push_back(known(wall.wall_w, "W"));
    out.bound.push_back(wall.below_certified);
  }
  return out;
}

bool uses_hours(const Brief& brief) {
  return std::ranges::any_of(power::loads_of(brief),
                             [&](Load load) { return power::hours_per_day(brief, load) > 0.0; });
}

void add_energy(const Facts& facts, const Facts* other, std::size_t market,
                sheet::PowerWall& wall) {
  Measure m;
  const power::Energy own = power::energy_of(facts, market, m);
  const std::string unit(facts.brief.markets[market].budget.currency.view());
  const double price = power::mean_kwh_price(facts, market);
  if (!std::isnan(price)) {
    wall.kwh_price = price;
    wall.currency = unit;
  }
  wall.kwh_per_year = known(own.kwh_per_year, "kWh");
  wall.cost_per_year = known(own.cost_per_year, unit);
  if (other == nullptr) return;
  const Draws beside = power::cost_beside_per_year(facts, *other, market, m);
  if (beside.is_absent()) return;
  wall.cost_beside_other = quantity(beside, unit);
  wall.odds_cheaper = static_cast<double>(Draws::at_most(beside, 0.0).count()) / draw_count;
}

std::string hours_words(const Brief& brief) {
  std::string out;
  for (const Load load : power::loads_of(brief)) {
    const double hours = power::hours_per_day(brief, load);
    if (hours > 0.0)
      out +=
          fmt::format("{}{:g} h {}", out.empty() ? "" : ", ", hours, power::name_of(brief, load));
  }
  return out;
}

void add_walls(const Facts& facts, const Facts* other, sheet::Power& out) {
  out.hours = hours_words(facts.brief);
  if (!facts.build.has(Kind::psu)) return;
  const Brief& brief = facts.brief;
  for (std::size_t i = 0; i < brief.markets.size(); ++i) {
    out.walls.push_back(wall_of(facts, i, brief.markets[i].market));
    if (uses_hours(brief)) add_energy(facts, other, i, out.walls.back());
  }
}

// --- plugs

struct Fed {
  std::string_view connector;
  std::string feeds;
  int plugs;
  Draws load_w;
};

std::vector<Fed> fed_plugs(const Facts& facts, Measure& m) {
  std::vector<Fed> out;
  const Row card = facts.build.one(Kind::gpu);
  if (card != no_row) {
    const Draws through = power::card_plugs_w(facts, card, m);
    for (const Row row : facts.catalog.rows_of(table("gpu_inputs"), {Kind::gpu, card}))
      if (power::card_input_rated_w(facts.catalog, row) > 0.0)
        out.push_back({facts.catalog.word(power::card_input_connector, row),
                       std::string(facts.catalog.name({Kind::gpu, card})),
                       static_cast<int>(facts.catalog.number(power::card_input_count, row)),
                       through * power::card_input_share(facts.catalog, card, row)});
  }
  const Row board = facts.build.one(Kind::board);
  const Row cpu = facts.build.one(Kind::cpu);
  const double eps =
      board == no_row ? no_number : facts.catalog.number(column("board", "eps8_inputs"), board);
  if (cpu != no_row && eps > 0.0)
    out.push_back({"eps8", std::string(facts.catalog.name({Kind::board, board})),
                   static_cast<int>(eps), m.read(facts, column("cpu", "sustained_power_w"), cpu)});
  return out;
}

// The supply's longest cable of that name, as far as it is stated.
struct Cable {
  double length_m = no_number;
  double gauge_awg = no_number;
};
Cable cable_of(const Facts& facts, std::string_view connector) {
  Cable out;
  if (!facts.build.has(Kind::psu)) return out;
  for (const Row row :
       facts.catalog.rows_of(table("psu_cables"), {Kind::psu, facts.build.one(Kind::psu)})) {
    if (facts.catalog.word(column("psu_cables", "connector"), row) != connector) continue;
    const double length_m = facts.catalog.number(column("psu_cables", "length_mm"), row) / 1000.0;
    if (length_m < out.length_m) continue;  // false where either is not stated
    out.length_m = length_m;
    out.gauge_awg = facts.catalog.number(column("psu_cables", "gauge_awg"), row);
  }
  return out;
}

// Warm copper resists more: what runs in a case is some 40 degrees warm (common practice).
constexpr double wire_c = 40.0;

void add_plugs(const Facts& facts, sheet::Power& out) {
  Measure m;
  for (const Fed& fed : fed_plugs(facts, m)) {
    const auto plug = power::plug_named(fed.connector);
    if (!plug || fed.plugs <= 0) continue;
    const int circuits = plug->circuits * fed.plugs;
    const double per_w = power::contact_current_a(1.0, power::fan_rail_v, circuits, 1, 1.0);
    const Draws even_a = fed.load_w * per_w;
    sheet::PowerPlug line{.plug = pieces(fed.plugs, fed.connector),
                          .feeds = fed.feeds,
                          .contact = known(even_a, "A"),
                          .contact_at_most_a = plug->contact_a,
                          .drop_v = {},
                          .loss_w = {}};
    const Cable cable = cable_of(facts, fed.connector);
    if (!std::isnan(cable.length_m) && !std::isnan(cable.gauge_awg) && !fed.load_w.is_absent()) {
      const int gauge = static_cast<int>(cable.gauge_awg);
      const auto amps = [](double watts) { return watts / power::fan_rail_v; };
      line.drop_v =
          quantity(Draws::increasing(fed.load_w,
                                     [&](double watts) {
                                       return power::cable_drop_v(amps(watts), circuits,
                                                                  cable.length_m, gauge, wire_c);
                                     }),
                   "V");
      line.loss_w =
          quantity(Draws::increasing(fed.load_w,
                                     [&](double watts) {
                                       return power::cable_loss_w(amps(watts), circuits,
                                                                  cable.length_m, gauge, wire_c);
                                     }),
                   "W");
    }
    out.plugs.push_back(std::move(line));
  }
}

void add_notes(const Facts& facts, sheet::Power& out) {
  out.notes.emplace_back(
      "Losses of the supply are the most that its certified level allows; below its lowest "
      "certified load no more is known than that they are no larger than there.");
  out.notes.emplace_back(
      "Idle, what states one power alone is taken to draw 0.3 to 1 of it (common practice, no "
      "source).");
  if (std::ranges::any_of(out.plugs, [](const auto& plug) { return !plug.drop_v; }))
    out.notes.emplace_back(
        "What a cable drops needs its length and gauge (psu_cables.csv); some are not stated.");
  if (facts.brief.markets.empty())
    out.notes.emplace_back(
        "Without a brief nothing is known of markets, hours and prices: give one with --brief.");
}

}  // namespace

sheet::Power power_of_build(const Workshop& workshop, const BuildFile& build,
                            const PowerAsked& asked) {
  const Brief none;
  const Brief& brief = asked.brief != nullptr ? *asked.brief : none;
  CellDraws draws(workshop.catalog);
  const auto facts_of = [&](const BuildFile& file) {
    return Facts{.catalog = workshop.catalog,
                 .brief = brief,
                 .prices = nullptr,
                 .build = file.build,
                 .draws = draws,
                 .setup = &file.setup};
  };
  const Facts facts = facts_of(build);
  sheet::Power out;
  out.build = build.name;
  out.brief = brief.name;
  if (asked.other != nullptr) out.other = asked.other->name;
  if (facts.build.has(Kind::psu))
    out.supply = workshop.catalog.name({Kind::psu, facts.build.one(Kind::psu)});
  add_parts(facts, out);
  const std::optional<Facts> other =
      asked.other != nullptr ? std::optional(facts_of(*asked.other)) : std::nullopt;
  add_walls(facts, other ? &*other : nullptr, out);
  add_plugs(facts, out);
  out.claims = all_claims(power_rules(), facts);
  add_swaps({.catalog = workshop.catalog,
             .brief = brief,
             .prices = nullptr,
             .build = build.build,
             .setup = &build.setup},
            out.claims, asked.stop);
  if (asked.show_work) out.work = power_work(facts);
  add_notes(facts, out);
  return out;
}

}  // namespace rigproof::app
