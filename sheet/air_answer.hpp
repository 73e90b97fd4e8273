// The answer of `rigproof air`: how much air goes through a build, how hot it gets, what power it
// keeps up and how loud it is, load by load. Filled by app/, written by air_text and air_json.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "claims/claim.hpp"

namespace rigproof::sheet {

/// The processor or the card under a load.
struct AirPart {
  std::string what;  ///< the part's name
  std::optional<Quantity> temp_c;
  double power_w = 0.0;  ///< kept up, on the middle draw
  double asked_w = 0.0;
  std::optional<Quantity> lost_percent;
};

/// What only has a temperature: the liquid of a loop, the board's power stage, the drives.
struct AirFollower {
  std::string what;
  Quantity temp_c;
};

/// How long something takes to be warm, from the room's temperature on, and to be at rest again.
struct AirWarm {
  std::string what;
  std::optional<Quantity> warm_s;  ///< until 1 K from its end
  std::optional<Quantity> rest_s;  ///< until 1 K from where it is when idle
  std::optional<double> slows_after_s;
};

struct AirSource {
  std::string what;                   ///< "3 x Harbour Case fans"
  std::optional<Quantity> level_dba;  ///< at the distance, at this speed; absent: not known
};

/// The case's fans and the cooler's each at a speed of their own.
struct AirApart {
  double speed_percent = 100.0;  ///< of the case's fans
  double cooler_speed_percent = 100.0;
  Quantity noise_dba;
};

/// Where air enters the case.
struct AirInlet {
  std::string where;  ///< a mount of the case; "gaps"
  double flow_m3_h = 0.0;
  bool filtered = false;
};

struct AirLoad {
  std::string load;
  double speed_percent = 100.0;         ///< of the case's fans
  double cooler_speed_percent = 100.0;  ///< of the cooler's
  bool known = false;
  std::vector<AirPart> parts;
  std::vector<AirFollower> followers;
  std::vector<AirWarm> warm;
  double upper_c = 0.0;
  std::optional<double> lower_c;  ///< where there is a card
  std::optional<Quantity> exhaust_c;
  double through_m3_h = 0.0;
  double changes_per_minute = 0.0;  ///< of the case's air; 0: its volume is not stated
  double pressure_pa = 0.0;         ///< inside against outside
  double by_fans_percent = 0.0;     ///< of the air that enters
  std::vector<AirInlet> inlets;     ///< the most first
  std::string held_by;              ///< the limit that sets the speed; empty: none does
  bool speed_found = true;          ///< false: not even full speed keeps every limit
  bool speed_set = false;           ///< by settings, not sought
  std::optional<AirApart> apart;    ///< what speeds of their own would do
  bool stalled = false;             ///< a fan works in its stall range: less air is claimed
  bool blown_backwards = false;     ///< a fan is blown through against its way
  std::vector<AirSource> sources;
  std::optional<Quantity> noise_dba;
  std::optional<Quantity> with_room_dba;  ///< where the brief states the room's own level
};

struct Air {
  std::string build;
  std::string brief;  ///< name; empty: none
  double room_c = 24.0;
  bool room_stated = false;
  double distance_m = 1.0;
  std::vector<AirLoad> loads;
  std::vector<Claim> claims;      ///< those of this engine, in the rulebook's order
  std::vector<Missing> missing;   ///< cells without which nothing is known
  std::vector<std::string> work;  ///< equations with the numbers in, when asked for
  std::vector<std::string> notes;
};

inline constexpr const char* air_schema = "rigproof.air/1";

struct TextStyle;
[[nodiscard]] std::string air_text(const Air& air, const TextStyle& style);
[[nodiscard]] std::string air_json(const Air& air);

}  // namespace rigproof::sheet
