// Where the radiator and the added fans of a build sit in its case.
//
// A case mount is a row of screw holes of one length; fans and radiators take their nominal size of
// it (equations T1 to T3 of README.md). One choice is made for all draws, with every part of the
// build in view that competes for the room.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>

#include "claims/facts.hpp"

namespace rigproof::fit {

/// Mounts of a case beyond this many are not looked at.
inline constexpr int most_mounts = 24;

/// Added fans of one model on one mount.
struct FanGroup {
  Row mount = no_row;  ///< row of case_mounts
  int model = 0;       ///< index in build.of(Kind::fan)
  int count = 0;
};

/// What sits where. Values only, no allocation.
struct Mounting {
  Row radiator = no_row;  ///< row of case_mounts; no_row: no radiator, or no place for it
  std::array<FanGroup, most_mounts> fans{};
  int fan_groups = 0;
  std::array<int, Build::most_of_a_kind> free_places{};  ///< per fan model, before it is placed
  std::array<int, Build::most_of_a_kind> unplaced{};     ///< per fan model, after

  [[nodiscard]] std::span<const FanGroup> groups() const {
    return {fans.data(), static_cast<std::size_t>(fan_groups)};
  }
};

/// The best of all ways to seat radiator and added fans (mount_choice.cpp): the one that leaves no
/// fan over, if any does, and the fewest claims of seat_rules() that the brief does not admit, over
/// the parts the build has so far; then the fewest that may not hold; then the first in the order
/// of radiator_candidates, and of those the one that keeps fans off the fewest mounts. What the
/// author fixed (facts.setup, keys "cooler" and "fan") is taken as it is, fit or not. Remembered
/// in facts.draws. With facts.seats: these.
[[nodiscard]] Mounting choose_mounting(const Facts& facts);

/// Calls `look` with every way that choose_mounting may choose of, each once, whatever the other
/// parts are: they decide which of them is the best, not which there are. Ends when `look` says
/// false. False: it did, or there are more ways than are ever looked at.
bool for_each_mounting(const Facts& facts, const std::function<bool(const Mounting&)>& look);

/// A given way: the radiator there, then each fan model, in the build's order, on the mounts that
/// list its size, those first that cost the card least. A bit of `no_fans` for each mount of the
/// case, in order of rows, that gets none.
[[nodiscard]] Mounting seated(const Facts& facts, Row radiator, std::uint32_t no_fans = 0);

/// Mounts that list the radiator's size, the likeliest first: deep enough (else the deepest first),
/// then those that take the least from the card's length, then those with the shortest way for the
/// tubes, then by row; one that the author gave to the fans comes last. The author's own alone when
/// there is one. Returns how many.
[[nodiscard]] int radiator_candidates(const Facts& facts, std::array<Row, most_mounts>& out);

/// The mounts of the build's case, the first most_mounts of them; none without a case.
[[nodiscard]] std::span<const Row> mounts_of(const Facts& facts);
[[nodiscard]] std::string_view mount_name(const Catalog& catalog, Row mount);

/// The mount that the author gave to "cooler" or "fan"; empty: none.
[[nodiscard]] std::string_view author_mount(const Facts& facts, const char* what);

/// Fans that the case is sold with on this mount; 0 for no_row and where their number is absent.
[[nodiscard]] int fans_sold_on(const Facts& facts, Row mount);

/// The number in the cell, the middle of its class range when absent, or NaN.
[[nodiscard]] double nominal(const Catalog& catalog, ColumnId column, Row row);

/// Does the cooler of the build bring a radiator?
[[nodiscard]] bool has_radiator(const Facts& facts);

/// Does the mount list this nominal radiator size? False also when the cell is absent.
[[nodiscard]] bool takes_radiator(const Catalog& catalog, Row mount, double radiator_mm);

/// (T1) Length of the row of holes: places x smallest listed fan, or the largest radiator if
/// longer.
[[nodiscard]] double row_length_mm(const Catalog& catalog, Row mount);

/// The mount of that name in the build's case; no_row when it has none.
[[nodiscard]] Row find_mount(const Facts& facts, std::string_view name);

/// "with the radiator on front and 2 fans on top"; empty when nothing is mounted.
[[nodiscard]] std::string mounting_text(const Facts& facts, const Mounting& mounting);

}  // namespace rigproof::fit

/// What Facts::seats points to.
struct rigproof::Seats {
  fit::Mounting mounting;
};
