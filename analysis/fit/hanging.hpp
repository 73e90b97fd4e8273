// What hangs down from the top of a case: on which mounts, how deep and how wide; and the two ways
// in which it stays clear of something under it. Shared by (T9) and (T12).
#pragma once

#include <array>
#include <string>
#include <vector>

#include "analysis/fit/mounting.hpp"
#include "claims/rule.hpp"

namespace rigproof::fit {

/// Mounts on the top that something hangs from, in the order in which they were given something.
struct Hanging {
  Mounting mounting;
  std::array<Row, most_mounts> mounts{};
  int count = 0;
};
[[nodiscard]] Hanging hanging(const Facts& facts);

/// How far it hangs down from this mount: the radiator with its fans, or the thickest added fan.
/// Absent cells are noted in `m`, here and below.
[[nodiscard]] Draws hanging_depth_mm(const Facts& facts, const Hanging& hung, Row mount,
                                     Measure& m);
/// From the board's face to the nearer side of what hangs there: its middle less half the width of
/// its fans.
[[nodiscard]] Draws room_beside_mm(const Facts& facts, const Hanging& hung, Row mount, Measure& m);

/// The radiator and fans that hang from the mount: what a claim about them speaks of.
void add_hanging_parts(const Facts& facts, const Hanging& hung, Row mount,
                       std::vector<PartRef>& subjects);
/// "The radiator of NAME with its fans", "What the added fans take".
[[nodiscard]] std::string hanging_words(const Facts& facts, const Hanging& hung, Row mount);

/// One of the two ways past a thing: a length and the room for it.
struct Way {
  Draws value;
  Draws limit;

  /// A cell of it is absent and has no class range.
  [[nodiscard]] bool wanting() const { return value.is_absent() || limit.is_absent(); }
  /// Over class ranges only what holds over all of them.
  [[nodiscard]] bool holds() const;
  [[nodiscard]] double room_mm() const { return limit.median() - value.median(); }
};

/// Which of two ways makes the claim: the first that holds, else the one with more room. nullptr:
/// neither holds and one is wanting, so that nobody knows.
[[nodiscard]] const Way* way_past(const Way& first, const Way& second);

/// Fills `m` with the way that makes the claim. `first` and `second` read a way's cells through the
/// Measure they are given; a way that is not needed is not missed.
template <class First, class Second>
void compare_ways(Measure& m, First first, Second second) {
  const auto take = [&](Measure& read, const Way& way) {
    m = read;
    m.value = way.value;
    m.limit = way.limit;
  };
  Measure read_first = m;
  const Way one = first(read_first);
  if (one.holds()) return take(read_first, one);
  Measure read_second = m;
  const Way other = second(read_second);
  if (const Way* const taken = way_past(one, other))
    return take(taken == &one ? read_first : read_second, *taken);
  // The way that is not known may hold: what it wants has to be looked up.
  if (one.wanting()) (void)first(m);
  if (other.wanting()) (void)second(m);
  m.unknown = true;
}

}  // namespace rigproof::fit
