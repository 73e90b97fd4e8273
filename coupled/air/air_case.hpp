// The air of a build, as numbers: rooms of its case, openings, fans, radiators, and what gives off
// heat. Gathered once from the tables, then asked for one draw at a time. Equations (B1) to (B8)
// and (B11) of README.md.
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string_view>

#include "analysis/air/fan_curve.hpp"
#include "analysis/air/fixed_list.hpp"
#include "analysis/power/load_cases.hpp"
#include "claims/rule.hpp"

namespace rigproof::coupled {

/// Rooms: the outside, where the processor sits, and below the card, where there is one.
enum class Room : std::size_t { outside, upper, lower };

/// Equal fans side by side on one mount, with the opening they blow through.
struct FanRow {
  Row mount = no_row;
  std::string_view what;  ///< the part's id, for what is not known of it
  Room inside = Room::upper;
  bool blows_in = true;
  int count = 0;
  double size_m = 0.0;
  Draws flow_m3_h;    ///< free flow of one
  Draws pressure_pa;  ///< shut-off pressure of one
  Draws open_frac;
  Draws filter_pa;          ///< at 1 m/s
  double radiator_m = 0.0;  ///< thickness of the radiator before them; 0: none
  /// By measured points; null: by free flow and shut-off pressure.
  std::shared_ptr<const air::FanCurve> measured = nullptr;
  [[nodiscard]] FanGroup group() const {
    return radiator_m > 0.0 ? FanGroup::cooler : FanGroup::chassis;
  }
};

/// A part of a mount without fans.
struct Opening {
  Row mount = no_row;
  Room inside = Room::upper;
  double area_m2 = 0.0;
  Draws open_frac;
  Draws filter_pa;
};

/// What makes sound: its level stands in a cell, which may be absent.
struct Sound {
  ColumnId level{};
  Row row = no_row;
  double change_db = 0.0;  ///< from where and how it was measured to 1 m and full speed
  std::string_view what;   ///< the part's id
  int count = 1;
  std::optional<FanGroup> fans;  ///< whose speed it follows; none: as stated
};

inline constexpr std::size_t most_fan_rows = 24;
inline constexpr std::size_t most_openings = 24;

using Sounds = air::FixedList<Sound, most_fan_rows>;
/// What sounds whatever the case's fans do: the card where the load works it, and the supply.
[[nodiscard]] Sounds steady_sounds(const Facts& facts, power::Load load);

struct AirCase {
  air::FixedList<FanRow, most_fan_rows> fans;
  air::FixedList<Opening, most_openings> openings;
  Sounds sounds;
  Draws leak_cm2;
  bool has_card = false;
  double between_m2 = 0.0;  ///< open area between upper and lower room
  Draws cpu_w, gpu_w;       ///< what the load asks of them
  Draws upper_w, lower_w;   ///< other heat in the rooms
  Draws cpu_w_k;            ///< (B5) of an air cooler to its air, fans at full speed
  bool liquid = false;
  bool cooler_has_fans = true;  ///< else nothing moves its air but the case's
  Draws cooler_flow_m3_h;       ///< (B6) free flow of all fans of a radiator
  Draws gpu_w_k;                ///< (B5)
  Draws cpu_limit_c, gpu_limit_c;
  /// (B11) Absent where there is none, or a cell of it is.
  Draws stage_k_w = Draws::absent();
  Draws drive_rise_k = Draws::absent();
  Draws plate_k_w = Draws::absent();
  double outside_c = 24.0;
  bool unknown = false;  ///< a cell without a class range is absent: noted in the Measure
};

/// The middle of what a number may be; contract: not absent. The middle draw is made of these.
[[nodiscard]] inline double middle_of(const Draws& draws) {
  return draws.is_certain() ? draws.low() : 0.5 * (draws.low() + draws.high());
}

/// A class range stands in for one of the numbers that its steady state rests on.
[[nodiscard]] bool case_spans(const AirCase& of);

/// Absent cells are noted in `m`.
[[nodiscard]] AirCase air_case(const Facts& facts, power::Load load, Measure& m);

/// (B5) Of the build's cooler with its fans at full speed, and of its card; W/K.
[[nodiscard]] Draws cooler_w_k(const Facts& facts, Measure& m);
[[nodiscard]] Draws card_w_k(const Facts& facts, Measure& m);

/// (B11) How much hotter than the air around it the board's stage is for each watt of the
/// processor; than the air below the card the hottest drive; than its liquid the processor, for
/// each watt. Absent cells are noted in `m`; absent too where there is no such part.
[[nodiscard]] Draws stage_k_w(const Facts& facts, Measure& m);
[[nodiscard]] Draws drive_rise_k(const Facts& facts, power::Load load, Measure& m);
[[nodiscard]] Draws plate_k_w(const Facts& facts, Measure& m);
/// The same of an air cooler too: than what stores its heat.
[[nodiscard]] Draws base_k_w(const Facts& facts, Measure& m);

/// The cells it reads beside those of the seats and the loads.
inline constexpr std::array air_cells = {column("cpu", "limit_c"),
                                         column("gpu", "limit_c"),
                                         column("gpu", "rise_k"),
                                         column("gpu", "noise_dba"),
                                         column("board", "stage_rise_k"),
                                         column("board", "cpu_sustained_w"),
                                         column("storage", "rise_k"),
                                         column("cooler", "plate_rise_k"),
                                         column("gpu", "length_mm"),
                                         column("cooler", "type"),
                                         column("cooler", "rated_heat_w"),
                                         column("cooler", "rise_at_rating_k"),
                                         column("cooler", "fan_mm"),
                                         column("cooler", "fans"),
                                         column("cooler", "flow_m3_h"),
                                         column("cooler", "pressure_pa"),
                                         column("cooler", "noise_dba"),
                                         column("cooler", "radiator_thickness_mm"),
                                         column("fan", "size_mm"),
                                         column("fan", "flow_m3_h"),
                                         column("fan", "pressure_pa"),
                                         column("fan", "noise_dba"),
                                         column("fan_points", "flow_m3_h"),
                                         column("fan_points", "pressure_pa"),
                                         column("case", "leak_cm2"),
                                         column("case", "supply_chamber"),
                                         column("case", "width_mm"),
                                         column("case", "depth_mm"),
                                         column("case_mounts", "face"),
                                         column("case_mounts", "open_frac"),
                                         column("case_mounts", "filter_pa"),
                                         column("case_fans", "mount"),
                                         column("case_fans", "size_mm"),
                                         column("case_fans", "count"),
                                         column("case_fans", "flow_m3_h"),
                                         column("case_fans", "pressure_pa"),
                                         column("case_fans", "noise_dba"),
                                         column("psu", "noise_dba"),
                                         column("noise_points", "load"),
                                         column("noise_points", "level_dba"),
                                         column("noise_points", "distance_m"),
                                         column("noise_points", "speed_percent"),
                                         column("psu", "efficiency"),
                                         column("psu", "rated_power_w")};

}  // namespace rigproof::coupled
