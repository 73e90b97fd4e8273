// What every part of a build draws from the supply under each load: equation (P0) of README.md.
#pragma once

#include <array>
#include <optional>
#include <ranges>
#include <string_view>

#include "claims/rule.hpp"

namespace rigproof::power {

/// These four, and after them the brief's own in their order.
enum class Load : int { idle, title, all_core, everything };
inline constexpr int given_loads = 4;

/// All that there are under this brief, which outlives them.
[[nodiscard]] inline auto loads_of(const Brief& brief) {
  return std::views::iota(0, given_loads + static_cast<int>(brief.loads.size())) |
         std::views::transform([](int i) { return static_cast<Load>(i); });
}
/// Null for the four.
[[nodiscard]] const OwnLoad* own_load(const Brief& brief, Load load);
/// As in briefs and claims: "idle", "title", "all-core", "everything", or what the brief calls it.
[[nodiscard]] std::string_view name_of(const Brief& brief, Load load);
[[nodiscard]] std::optional<Load> find_load(const Brief& brief, std::string_view name);
/// Hours of a day under it.
[[nodiscard]] double hours_per_day(const Brief& brief, Load load);
/// Whether the card is at work under it, and so is heard.
[[nodiscard]] bool works_card(const Brief& brief, Load load);

/// Where a part's power stands, and for how many of it.
struct PowerTerm {
  Kind kind;
  Row row = no_row;
  ColumnId cell;
  int count = 1;
};
/// The terms of a build, in Kind order; at most most_terms, further ones do not exist.
inline constexpr std::size_t most_terms = 48;
struct PowerTerms {
  std::array<PowerTerm, most_terms> all{};
  std::size_t count = 0;
};
[[nodiscard]] PowerTerms power_terms(const Facts& facts, Load load);

/// (P0) Of all `count` pieces, W. Absent cells are noted in `m` and span their class range, or
/// leave it absent. What states one power alone draws 0.3 to 1 of it when idle (common practice,
/// no source).
[[nodiscard]] Draws power_w(const Facts& facts, const PowerTerm& term, Load load, Measure& m);

/// Of what states one power, or what goes with it: 0.3 to 1 of it, at rest.
[[nodiscard]] Draws at_rest(const Draws& under_load, Kind kind);

/// The sum over all terms: what the supply gives. Absent where a term is.
[[nodiscard]] Draws load_w(const Facts& facts, Load load, Measure& m);

/// The cells that it may read, for lists of rules.
inline constexpr std::array load_cells = {
    column("cpu", "idle_power_w"),      column("cpu", "title_power_w"),
    column("cpu", "sustained_power_w"), column("board", "power_w"),
    column("memory", "power_w"),        column("gpu", "idle_power_w"),
    column("gpu", "sustained_power_w"), column("storage", "power_w"),
    column("cooler", "power_w"),        column("fan", "current_a"),
    column("other", "power_w")};
inline constexpr std::array load_kinds = {Kind::cpu, Kind::board,   Kind::memory,
                                          Kind::gpu, Kind::storage, Kind::cooler,
                                          Kind::psu, Kind::fan,     Kind::other};

}  // namespace rigproof::power
