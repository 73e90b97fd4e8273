// Where the radiator and the added fans of a build sit in its case.
//
// A case mount is a row of screw holes of one length; fans and radiators take their nominal size of
// it (equations T1 to T3 of README.md). The choice is made before anything is judged, from stated
// values alone (the middle of a class range where a cell is absent), so that it is the same in
// every draw and everywhere the same parts are asked about. Whether the choice holds is for the
// rules.
#pragma once

#include <array>
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

/// The author's mounts (facts.mounts, keys "cooler" and "fan") are taken as they are, fit or not.
/// Otherwise the radiator takes, among the mounts that list its size, the one with enough depth
/// that leaves the most room for the card; ties go to the order of rows; a mount the author gave to
/// the fans comes last. If none is deep enough, the deepest. Then each fan model, in the build's
/// order, fills the mounts that list its size, again those first that cost the card least.
[[nodiscard]] Mounting choose_mounting(const Facts& facts);

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
