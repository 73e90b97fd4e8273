// What the pictures of air and power show: where the heat of a build goes, how warm it gets with
// time and with the fans' speed, and what its supply is asked for. Plain numbers, filled by app/.
//
// Units as in the names: temperatures in degrees Celsius, powers in watts, times in seconds, speeds
// in per cent of the fans' full speed, levels in dB(A). A number that is not finite counts as not
// known; a picture that cannot be drawn is left out with a sentence (plots.hpp).
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace rigproof::sheet {

/// A place heat comes from, goes through or ends in.
struct HeatPlace {
  enum class Kind {
    source,  ///< gives heat off: a chip, a drive
    body,    ///< takes it up and hands it on: a cooler, a radiator
    room,    ///< air of a part of the case
    outside  ///< where it leaves to
  };
  std::string id;    ///< unique in its path
  std::string name;  ///< for people
  Kind kind = Kind::room;
  std::optional<double> temp_c = {};
};

struct HeatFlow {
  std::string from_id, to_id;
  double watts = 0.0;  ///< >= 0, on the balance of all that goes both ways
};

/// Steady: what flows into a body or a room flows out of it.
struct HeatPath {
  std::string load;
  double fan_speed_percent = 0.0;
  std::optional<double> cooler_speed_percent = {};  ///< where the cooler's fans turn otherwise
  double room_c = 0.0;                              ///< of the air around the case
  std::vector<HeatPlace> places;
  std::vector<HeatFlow> flows;
};

struct WarmCurve {
  std::string name;
  std::vector<double> temp_c;  ///< one for each time
  std::optional<double> limit_c = {};
  std::optional<double> settled_s = {};  ///< from then on it stays near its end
};

/// From the moment a load begins.
struct Warming {
  std::string load;
  std::vector<double> time_s;  ///< rising
  std::vector<WarmCurve> curves;
  std::vector<double> noise_dba;  ///< one for each time; empty: not known
  std::vector<std::string> notes;
};

/// A quantity at each speed, with its 90 % interval where one is known.
struct SpreadCurve {
  std::vector<double> middle;     ///< one for each speed
  std::vector<double> low, high;  ///< both empty, or one for each speed
};

struct SweepCurve {
  std::string name;
  SpreadCurve temp_c;
  std::optional<double> limit_c = {};
};

/// The same load at one speed of the fans after another, each settled.
struct SpeedSweep {
  std::string load;
  std::vector<double> speed_percent;  ///< rising
  std::vector<SweepCurve> temperatures;
  SpreadCurve noise_dba;                       ///< empty: not known
  std::optional<double> noise_limit_dba = {};  ///< at most this
  std::optional<double> chosen_percent = {};   ///< where the plan runs them
  std::vector<std::string> notes = {};
};

/// The highest mean load over any window of this length, against what the supply allows for it.
struct SupplyWindow {
  std::string name;  ///< "100 us", "1 ms", "10 ms", "100 ms", "sustained"
  std::optional<double> low_w = {}, high_w = {};  ///< 90 % interval; absent: not known
  std::optional<double> allowed_w = {};           ///< absent: not stated
};

struct SupplyWindows {
  std::string supply;
  double rated_w = 0.0;
  std::vector<SupplyWindow> windows;  ///< shortest first
};

struct Physics {
  std::optional<HeatPath> heat_path = {};
  std::optional<Warming> warming = {};
  std::optional<SpeedSweep> speed_sweep = {};
  std::optional<SupplyWindows> supply_windows = {};
};

}  // namespace rigproof::sheet
