// Invented pictures of air and power for the sample sheet. What flows in flows out everywhere;
// temperatures follow exponentials and powers of the fans' speed.
#include <cmath>

#include "sheet/sample.hpp"

namespace rigproof::sheet {
namespace {

using Kind = HeatPlace::Kind;

// 402 W come in and leave: 190 + 74 + 64 + 26 + 48.
HeatPath heat_path() {
  return {.load = "playing",
          .fan_speed_percent = 62.0,
          .room_c = 22.0,
          .places = {{"cpu", "processor", Kind::source, 78.0},
                     {"memory", "memory", Kind::source, 52.0},
                     {"stage", "power stage", Kind::source, 74.0},
                     {"card", "graphics card", Kind::source, 71.0},
                     {"drive", "drive", Kind::source, 55.0},
                     {"psu", "power supply", Kind::source, 48.0},
                     {"tower", "tower cooler", Kind::body, 61.0},
                     {"card-cooler", "card's cooler", Kind::body, 58.0},
                     {"upper", "air over the card", Kind::room, 40.3},
                     {"lower", "air under the card", Kind::room, 37.2},
                     {"chamber", "supply chamber", Kind::room, 33.0},
                     {"top", "top vents", Kind::outside, 40.3},
                     {"rear", "rear fan", Kind::outside, 40.3},
                     {"walls", "walls", Kind::outside, {}},
                     {"slots", "slot vents", Kind::outside, 37.2},
                     {"outlet", "supply's outlet", Kind::outside, 33.0}},
          .flows = {{"cpu", "tower", 96.0},
                    {"tower", "upper", 96.0},
                    {"memory", "upper", 8.0},
                    {"stage", "upper", 16.0},
                    {"card", "card-cooler", 228.0},
                    {"card-cooler", "lower", 206.0},
                    {"card-cooler", "slots", 22.0},
                    {"drive", "lower", 6.0},
                    {"lower", "upper", 158.0},
                    {"lower", "slots", 42.0},
                    {"lower", "walls", 12.0},
                    {"upper", "rear", 190.0},
                    {"upper", "top", 74.0},
                    {"upper", "walls", 14.0},
                    {"psu", "chamber", 48.0},
                    {"chamber", "outlet", 48.0}}};
}

// From the room's 22 degrees on: a fast part, and a slow one whose last kelvin is the settling.
WarmCurve warm_curve(const char* name, double fast_k, double slow_k, double slow_s, double limit_c,
                     const std::vector<double>& times) {
  WarmCurve out{.name = name, .temp_c = {}, .limit_c = limit_c};
  for (const double t : times)
    out.temp_c.push_back(22.0 + fast_k * (1.0 - std::exp(-t / 9.0)) +
                         slow_k * (1.0 - std::exp(-t / slow_s)));
  const double settled_s = slow_s * std::log(slow_k);
  if (settled_s <= times.back()) out.settled_s = settled_s;
  return out;
}

Warming warming() {
  Warming out{.load = "playing", .time_s = {}, .curves = {}, .noise_dba = {}, .notes = {}};
  for (double t = 0.0; t <= 2700.0; t += t < 60.0 ? 3.0 : 30.0) out.time_s.push_back(t);
  out.curves = {warm_curve("processor", 38.0, 18.0, 420.0, 95.0, out.time_s),
                warm_curve("graphics card", 30.0, 19.0, 300.0, 83.0, out.time_s),
                warm_curve("memory", 0.0, 30.0, 500.0, 85.0, out.time_s),
                warm_curve("drive", 0.0, 33.0, 900.0, 70.0, out.time_s)};
  for (const double t : out.time_s)
    out.noise_dba.push_back(26.1 + 6.0 * (1.0 - std::exp(-t / 420.0)));
  out.notes = {"Settled: the last kelvin is left to go."};
  return out;
}

// Above the room by a part of its own and one that falls with the 0.8th power of the speed.
SweepCurve sweep_curve(const char* name, double own_k, double air_k, double limit_c,
                       const std::vector<double>& speeds) {
  SweepCurve out{.name = name, .temp_c = {}, .limit_c = limit_c};
  for (const double speed : speeds) {
    const double air = air_k * std::pow(62.0 / speed, 0.8);
    out.temp_c.middle.push_back(22.0 + own_k + air);
    out.temp_c.low.push_back(22.0 + 0.95 * own_k + 0.9 * air);
    out.temp_c.high.push_back(22.0 + 1.05 * own_k + 1.12 * air);
  }
  return out;
}

SpeedSweep speed_sweep() {
  SpeedSweep out{.load = "playing", .speed_percent = {}, .temperatures = {}, .noise_dba = {}};
  for (double speed = 30.0; speed <= 100.0; speed += 5.0) out.speed_percent.push_back(speed);
  out.temperatures = {sweep_curve("processor", 32.0, 24.0, 95.0, out.speed_percent),
                      sweep_curve("graphics card", 21.0, 28.0, 83.0, out.speed_percent),
                      sweep_curve("drive", 13.0, 20.0, 70.0, out.speed_percent)};
  for (const double speed : out.speed_percent) {
    const double fans = 31.4 + 50.0 * std::log10(speed / 62.0);
    const double all = 10.0 * std::log10(std::pow(10.0, 2.4) + std::pow(10.0, fans / 10.0));
    out.noise_dba.middle.push_back(all);
    out.noise_dba.low.push_back(all - 1.4);
    out.noise_dba.high.push_back(all + 1.6);
  }
  out.noise_limit_dba = 34.0;
  out.chosen_percent = 62.0;
  return out;
}

SupplyWindows supply_windows() {
  return {.supply = "Veldrun 750 gold",
          .rated_w = 750.0,
          .windows = {{"100 us", 1150.0, 1310.0, 1500.0},
                      {"1 ms", 1011.0, 1137.0, 1170.0},
                      {"10 ms", {}, {}, 1050.0},
                      {"100 ms", 602.0, 664.0, {}},
                      {"sustained", 526.0, 570.0, 750.0}}};
}

}  // namespace

Physics sample_physics() {
  return {.heat_path = heat_path(),
          .warming = warming(),
          .speed_sweep = speed_sweep(),
          .supply_windows = supply_windows()};
}

}  // namespace rigproof::sheet
