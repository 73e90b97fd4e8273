// The room a case leaves for a card, a cooler or a supply, with everything mounted that is mounted.
#pragma once

#include <array>
#include <string_view>

#include "analysis/fit/mounting.hpp"
#include "claims/rule.hpp"

namespace rigproof::fit {

/// The row of case_clearances that always holds for `limits` ("card-length"...); no_row when the
/// build's case states none.
[[nodiscard]] Row always_row(const Facts& facts, std::string_view limits);

/// `when` of a row that speaks of bays begins so; the whole word is that of `storage.mounting`.
inline constexpr std::string_view bay_prefix = "bay-";

/// (T4) The stated clearance less, for every mount in use that takes from it, the row's by_mm and
/// the depth of what sits there, and less by_mm for bays in use. The stated clearance is read as
/// that of the case as sold, its own fans in place; they take nothing more. Absent cells are noted
/// in `measure`; without a row that always holds the room is absent. Only grows when a radiator or
/// fans are left out.
[[nodiscard]] Draws room_mm(const Facts& facts, std::string_view limits, Measure& measure);

/// Depth of the cooler's radiator with its fans. Absent cells are noted in `measure`.
[[nodiscard]] Draws radiator_stack_mm(const Facts& facts, Measure& measure);

/// Every cell that room_mm may read, for the lists of the rules that ask it.
inline constexpr std::array room_cells = {
    column("case_clearances", "limits"),   column("case_clearances", "when"),
    column("case_clearances", "by_mm"),    column("case_mounts", "mount"),
    column("case_mounts", "fan_sizes_mm"), column("case_mounts", "fan_places"),
    column("case_mounts", "radiators_mm"), column("case_mounts", "depth_mm"),
    column("case_fans", "mount"),          column("case_fans", "size_mm"),
    column("case_fans", "count"),          column("cooler", "type"),
    column("cooler", "radiator_mm"),       column("cooler", "radiator_thickness_mm"),
    column("cooler", "fan_thickness_mm"),  column("fan", "size_mm"),
    column("fan", "thickness_mm"),         column("storage", "mounting")};

}  // namespace rigproof::fit
