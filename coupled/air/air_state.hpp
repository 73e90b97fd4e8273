// One steady state of a build's air at given fan speeds, for one draw: flows, temperatures, and the
// power that processor and card keep up. Equations (B3) to (B8) and (B11) of README.md.
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <vector>

#include "analysis/air/flow_network.hpp"
#include "analysis/air/heat_network.hpp"
#include "coupled/air/air_case.hpp"
#include "coupled/air/air_watched.hpp"
#include "coupled/air/fan_speeds.hpp"

namespace rigproof::coupled {

/// Of one part that holds its own temperature limit.
struct Kept {
  double power_w = 0.0;
  double temp_c = std::numeric_limits<double>::quiet_NaN();  ///< NaN: there is none
  double lost_frac = 0.0;                                    ///< of what the load asks
};

struct AirState {
  bool solved = false;  ///< flows and heat balance closed
  Kept cpu, gpu;
  double upper_c = 0.0, lower_c = 0.0;
  double exhaust_c = 0.0;  ///< of all air that leaves
  /// (B11); NaN where there is none, or its cells are absent.
  double coolant_c = std::numeric_limits<double>::quiet_NaN();
  double stage_c = std::numeric_limits<double>::quiet_NaN();
  double drive_c = std::numeric_limits<double>::quiet_NaN();  ///< of the hottest
  double through_m3_s = 0.0;                                  ///< that leaves the case
  double upper_pa = 0.0;                                      ///< above the outside
  double least_pa = 0.0;                                      ///< of its rooms, likewise
  double filtered_frac = 0.0;    ///< of the air that enters, through fans (and their filters)
  bool stalled = false;          ///< a fan by points works below its hump: less air is claimed
  bool blown_backwards = false;  ///< others push air through a fan against its way
};

[[nodiscard]] double temp_c(const AirState& state, Watched which);

/// Speeds are sought not below this: what 4-wire fans hold without stopping (common practice, no
/// source).
inline constexpr double least_speed_frac = 0.25;

class AirModel {
 public:
  /// Contract: !of.unknown, and it outlives the model.
  explicit AirModel(const AirCase& of);
  AirModel(const AirModel&) = delete;
  AirModel& operator=(const AirModel&) = delete;

  /// `draw` 0 to draw_count - 1, or `middle`: every number in the middle of what it may be.
  [[nodiscard]] AirState at(int draw, FanSpeeds speeds);
  static constexpr int middle = -1;

  /// Its heat network at these speeds, with the heat of the rooms; that of the bodies is the
  /// asker's. Body 0 is the processor with its cooler, body 1 the card. None where the flows did
  /// not close.
  [[nodiscard]] std::optional<air::HeatNetwork> network_at(int draw, FanSpeeds speeds);
  static constexpr std::size_t cpu_body = 0;
  static constexpr std::size_t gpu_body = 1;

  /// What goes which way, with the flows of that network.
  struct WayFlow {
    enum class What { fans, opening, gaps, between } what;
    std::size_t index = 0;  ///< of AirCase::fans or openings
    Room from, to;
    double flow_m3_s = 0.0;        ///< >= 0
    double fan_pressure_pa = 0.0;  ///< that the fans give; 0: none
  };
  [[nodiscard]] std::vector<WayFlow> flows_at(int draw, FanSpeeds speeds);

  /// What the load asks of them.
  [[nodiscard]] double asked_cpu_w(int draw) const;
  [[nodiscard]] double asked_gpu_w(int draw) const;

 private:
  struct Path {
    std::size_t row;  ///< of fans, or none
    bool is_fan = false;
    WayFlow::What what = WayFlow::What::gaps;
  };
  void lay_paths(int draw, FanSpeeds speeds);
  bool solve_flow(int draw, FanSpeeds speeds);
  [[nodiscard]] air::HeatNetwork heat_network(int draw, FanSpeeds speeds) const;
  [[nodiscard]] bool is_radiator(std::size_t path) const;
  void solve_heat(int draw, FanSpeeds speeds, AirState& out);
  void add_followers(int draw, AirState& out) const;
  void add_flows(const air::HeatState& state, AirState& out) const;

  struct Number {
    const Draws* draws = nullptr;
    double middle = 0.0;
    [[nodiscard]] double at(int draw) const {
      return draw == AirModel::middle ? middle : (*draws)[draw];
    }
  };
  static Number number(const Draws& draws) {
    return {&draws, draws.is_absent() ? 0.0 : middle_of(draws)};
  }
  struct FanNumbers {
    Number flow_m3_h, pressure_pa, open_frac, filter_pa;
  };
  struct OpeningNumbers {
    Number open_frac, filter_pa;
  };

  const AirCase& of_;
  air::FixedList<FanNumbers, most_fan_rows> fan_numbers_;
  air::FixedList<OpeningNumbers, most_openings> opening_numbers_;
  Number leak_cm2_, cpu_w_, gpu_w_, upper_w_, lower_w_, cpu_w_k_, cooler_flow_m3_h_, gpu_w_k_,
      cpu_limit_c_, gpu_limit_c_, stage_k_w_, drive_rise_k_, plate_k_w_;
  std::vector<air::FanCurve> curves_;  // by row of fans, at their middle
  std::vector<air::FlowPath> paths_;
  std::vector<Path> kinds_;
  air::FlowSolution flow_;
  bool warm_ = false;
  std::size_t rooms_ = 2;
};

/// Temperatures not to be passed; infinity: none.
using SpeedLimits = ByWatched<double>;
inline constexpr double no_limit_c = std::numeric_limits<double>::infinity();

/// False too where the state is not solved.
[[nodiscard]] bool within(const AirState& state, const SpeedLimits& limits);
/// Within the limits, with nothing slowed down.
[[nodiscard]] bool keeps(const AirState& state, const SpeedLimits& limits);

}  // namespace rigproof::coupled
