#include "analysis/power/load_cases.hpp"

#include <algorithm>

#include "analysis/power/connectors.hpp"

namespace rigproof::power {
namespace {

constexpr std::array<std::string_view, given_loads> names = {"idle", "title", "all-core",
                                                             "everything"};

// Of what has one stated power: boards, memory, drives, fans do not rest altogether.
constexpr double least_idle_frac = 0.3;

// The processor and the card state a power for each load; other kinds one.
struct Cells {
  Kind kind;
  std::array<ColumnId, 4> by_load;
};
constexpr Cells processor{Kind::cpu,
                          {column("cpu", "idle_power_w"), column("cpu", "title_power_w"),
                           column("cpu", "sustained_power_w"), column("cpu", "sustained_power_w")}};
constexpr Cells card{Kind::gpu,
                     {column("gpu", "idle_power_w"), column("gpu", "sustained_power_w"),
                      column("gpu", "idle_power_w"), column("gpu", "sustained_power_w")}};
constexpr Cells one_power(Kind kind, ColumnId cell) { return {kind, {cell, cell, cell, cell}}; }
constexpr std::array cells = {processor,
                              one_power(Kind::board, column("board", "power_w")),
                              one_power(Kind::memory, column("memory", "power_w")),
                              card,
                              one_power(Kind::storage, column("storage", "power_w")),
                              one_power(Kind::cooler, column("cooler", "power_w")),
                              one_power(Kind::fan, column("fan", "current_a")),
                              one_power(Kind::other, column("other", "power_w"))};

bool has_idle_cell(Kind kind) { return kind == Kind::cpu || kind == Kind::gpu; }

// (P0) A load of the brief's own lies between idle and sustained power.
Draws cell_under(const Facts& facts, const PowerTerm& term, Load load, Measure& m) {
  const OwnLoad* own = own_load(facts.brief, load);
  if (own == nullptr || !has_idle_cell(term.kind)) return m.read(facts, term.cell, term.row);
  const double frac = term.kind == Kind::cpu ? own->cpu_frac : own->gpu_frac;
  const Cells& cells_of = term.kind == Kind::cpu ? processor : card;
  Draws out = 0.0;
  if (frac > 0.0) out += m.read(facts, term.cell, term.row) * frac;
  if (frac < 1.0) out += m.read(facts, cells_of.by_load.front(), term.row) * (1.0 - frac);
  return out;
}

}  // namespace

const OwnLoad* own_load(const Brief& brief, Load load) {
  const int at = static_cast<int>(load) - given_loads;
  return at < 0 ? nullptr : &brief.loads[static_cast<std::size_t>(at)];
}

std::string_view name_of(const Brief& brief, Load load) {
  const OwnLoad* own = own_load(brief, load);
  return own != nullptr ? own->name : names[static_cast<std::size_t>(load)];
}

std::optional<Load> find_load(const Brief& brief, std::string_view name) {
  for (const Load load : loads_of(brief))
    if (name_of(brief, load) == name) return load;
  return {};
}

double hours_per_day(const Brief& brief, Load load) {
  const OwnLoad* own = own_load(brief, load);
  return own != nullptr ? own->hours_per_day
                        : brief.use.hours_per_day[static_cast<std::size_t>(load)];
}

bool works_card(const Brief& brief, Load load) {
  const OwnLoad* own = own_load(brief, load);
  return own != nullptr ? own->gpu_frac > 0.0 : load == Load::title || load == Load::everything;
}

PowerTerms power_terms(const Facts& facts, Load load) {
  PowerTerms out;
  const Load given = own_load(facts.brief, load) != nullptr ? Load::everything : load;
  for (const Cells& each : cells)
    for (const Chosen& part : facts.build.of(each.kind)) {
      if (out.count == most_terms) return out;
      out.all[out.count++] = {.kind = each.kind,
                              .row = part.row,
                              .cell = each.by_load[static_cast<std::size_t>(given)],
                              .count = part.count};
    }
  return out;
}

Draws power_w(const Facts& facts, const PowerTerm& term, Load load, Measure& m) {
  const Draws cell = cell_under(facts, term, load, m);
  if (cell.is_absent()) return Draws::absent();
  const double volts = term.kind == Kind::fan ? fan_rail_v : 1.0;
  const double factor = volts * term.count;
  Draws all = factor == 1.0 ? cell : cell * factor;
  return load != Load::idle || has_idle_cell(term.kind) ? all : at_rest(all, term.kind);
}

Draws at_rest(const Draws& under_load, Kind kind) {
  const Draws least = under_load * least_idle_frac;
  return Draws::between(least, under_load, stream("power", rigproof::name_of(kind), "idle"));
}

Draws load_w(const Facts& facts, Load load, Measure& m) {
  const PowerTerms terms = power_terms(facts, load);
  Draws sum = 0.0;
  for (std::size_t i = 0; i < terms.count; ++i) sum += power_w(facts, terms.all[i], load, m);
  return sum;
}

}  // namespace rigproof::power
