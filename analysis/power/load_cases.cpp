#include "analysis/power/load_cases.hpp"

#include <algorithm>

#include "analysis/power/connectors.hpp"

namespace rigproof::power {
namespace {

constexpr std::array<std::string_view, 4> names = {"idle", "title", "all-core", "everything"};

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

}  // namespace

std::string_view name_of(Load load) { return names[static_cast<std::size_t>(load)]; }

std::optional<Load> find_load(std::string_view name) {
  const auto found = std::ranges::find(names, name);
  if (found == names.end()) return {};
  return all_loads[static_cast<std::size_t>(found - names.begin())];
}

PowerTerms power_terms(const Facts& facts, Load load) {
  PowerTerms out;
  for (const Cells& each : cells)
    for (const Chosen& part : facts.build.of(each.kind)) {
      if (out.count == most_terms) return out;
      out.all[out.count++] = {.kind = each.kind,
                              .row = part.row,
                              .cell = each.by_load[static_cast<std::size_t>(load)],
                              .count = part.count};
    }
  return out;
}

Draws power_w(const Facts& facts, const PowerTerm& term, Load load, Measure& m) {
  const Draws& cell = m.read(facts, term.cell, term.row);
  if (cell.is_absent()) return Draws::absent();
  const double volts = term.kind == Kind::fan ? fan_rail_v : 1.0;
  const double factor = volts * term.count;
  Draws all = factor == 1.0 ? cell : cell * factor;
  if (load != Load::idle || has_idle_cell(term.kind)) return all;
  const Draws least = all * least_idle_frac;
  return Draws::between(least, all, stream("power", rigproof::name_of(term.kind), "idle"));
}

Draws load_w(const Facts& facts, Load load, Measure& m) {
  const PowerTerms terms = power_terms(facts, load);
  Draws sum = 0.0;
  for (std::size_t i = 0; i < terms.count; ++i) sum += power_w(facts, terms.all[i], load, m);
  return sum;
}

}  // namespace rigproof::power
