// What the rule files of this engine share: parts of a build, their names, and words for cells.
// Not for other engines.
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "claims/rule.hpp"

namespace rigproof::match {

/// "part data": the claim compares what two makers state.
inline constexpr std::string_view part_data = "part data";
inline constexpr std::string_view habit = "common practice, no source";
/// What `psu.cable_family` says of a supply whose cables do not come off.
inline constexpr std::string_view fixed_cables = "fixed";

/// The only part of a kind (the first, where there are several); row no_row when there is none.
[[nodiscard]] PartRef only(const Facts& facts, Kind kind);
/// The i-th different part of a kind.
[[nodiscard]] PartRef nth(const Facts& facts, Kind kind, int i);
[[nodiscard]] int different(const Facts& facts, Kind kind);

/// 1 when every one of these kinds is in the build: the places of most rules.
template <Kind... kinds>
int once_with(const Facts& facts) {
  return (facts.build.has(kinds) && ...) ? 1 : 0;
}
/// A place for every different part of kind `each` when the other kind is there too.
template <Kind other, Kind each>
int once_for_each(const Facts& facts) {
  return facts.build.has(other) ? different(facts, each) : 0;
}

/// The place-th index whose flag is set, -1 when there are fewer.
template <std::size_t n>
int nth_set(const std::array<bool, n>& flags, int place) {
  for (std::size_t i = 0; i < n; ++i)
    if (flags[i] && place-- == 0) return static_cast<int>(i);
  return -1;
}
template <std::size_t n>
int how_many(const std::array<bool, n>& flags) {
  int sum = 0;
  for (const bool flag : flags) sum += flag ? 1 : 0;
  return sum;
}

/// Draw by draw; absent when either is.
[[nodiscard]] Draws product(const Draws& a, const Draws& b);

/// Sets value and limit of a counted need, equation (2), after the needing parts were read. Where
/// some of them are not known the others may already be too many: then it fails all the same.
void set_need(double known_need, const Draws& offered, bool need_unknown, Measure& m);

/// What `from` read was looked at by the claim of `m`; of no effect on the verdict.
void take_seen(const Measure& from, Measure& m);
/// What `from` found absent is needed: the claim of `m` is unknown.
void take_missing(const Measure& from, Measure& m);

// Texts; these allocate and belong in `tell`.
[[nodiscard]] std::string name(const Facts& facts, PartRef part);
/// The cell as a person reads it: a word, `DDR4, DDR5` for tokens, a plain number; "not known".
[[nodiscard]] std::string cell(const Facts& facts, ColumnId column, Row row);
/// A whole number of things.
[[nodiscard]] std::string number(double value);
[[nodiscard]] std::string counted(double count, std::string_view one, std::string_view several);
/// `a`, `a and b`, `a, b and c`.
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace rigproof::match
