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

struct AirSource {
  std::string what;                   ///< "3 x Harbour Case fans"
  std::optional<Quantity> level_dba;  ///< at the distance, at this speed; absent: not known
};

struct AirLoad {
  std::string load;
  double speed_percent = 100.0;  ///< of the case's fans
  bool known = false;
  std::vector<AirPart> parts;
  double upper_c = 0.0;
  std::optional<double> lower_c;  ///< where there is a card
  std::optional<Quantity> exhaust_c;
  double through_m3_h = 0.0;
  double changes_per_minute = 0.0;  ///< of the case's air; 0: its volume is not stated
  double pressure_pa = 0.0;         ///< inside against outside
  double by_fans_percent = 0.0;     ///< of the air that enters
  std::vector<AirSource> sources;
  std::optional<Quantity> noise_dba;
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
