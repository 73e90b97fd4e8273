#include "sheet/physics_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.hpp"
#include "sheet/plot_axes.hpp"
#include "sheet/plot_bounds.hpp"

namespace rigproof::sheet {
namespace {

constexpr const char* not_known = "not known";

std::string power(double watts) { return number_words(watts, "W"); }

void join(std::string& list, const std::string& next) {
  if (!next.empty()) list += (list.empty() ? "" : ", ") + next;
}

std::string load_words(const std::string& load) {
  return load.empty() ? std::string{} : fmt::format("Load: {}. ", load);
}

// `11 K left`, `3 K over`.
std::string kelvin_room(double temp_c, const std::optional<double>& limit_c) {
  if (!limit_c || !std::isfinite(*limit_c)) return {};
  const double room = *limit_c - temp_c;
  return fmt::format("{} K {}", readable(std::abs(room)), room < 0.0 ? "over" : "left");
}

std::map<std::string, double, std::less<>> sums(const HeatPath& path, bool given) {
  std::map<std::string, double, std::less<>> out;
  for (const HeatFlow& flow : path.flows) out[given ? flow.from_id : flow.to_id] += flow.watts;
  return out;
}

// `graphics card 250 W, processor 142 W`: of all places of a kind.
std::string places_words(const HeatPath& path, HeatPlace::Kind kind) {
  const auto watts = sums(path, kind == HeatPlace::Kind::source);
  std::string out;
  for (const HeatPlace& place : path.places)
    if (const auto found = watts.find(place.id); place.kind == kind && found != watts.end())
      join(out, fmt::format("{} {}", place.name, power(found->second)));
  return out;
}

// `84 °C (80 to 88)` at a speed.
std::string spread_words(const SpreadCurve& curve, const std::vector<double>& xs, double x,
                         std::string_view unit) {
  const auto middle = value_at(xs, curve.middle, x);
  if (!middle) return not_known;
  const auto low = value_at(xs, curve.low, x), high = value_at(xs, curve.high, x);
  if (!low || !high) return number_words(middle, unit);
  return fmt::format("{} ({} to {})", number_words(middle, unit), readable(*low), readable(*high));
}

std::vector<double> speeds_told(const SpeedSweep& sweep) {
  if (!drawable_axis(sweep.speed_percent, most_speed_percent)) return {};
  std::vector<double> out = {sweep.speed_percent.front(), sweep.speed_percent.back()};
  const double middle =
      sweep.chosen_percent.value_or(sweep.speed_percent[sweep.speed_percent.size() / 2]);
  if (middle > out[0] && middle < out[1]) out.insert(out.begin() + 1, middle);
  return out;
}

std::string name_in(const HeatPath& path, const std::string& id) {
  for (const HeatPlace& place : path.places)
    if (place.id == id) {
      const std::string temp = degrees(place.temp_c);
      return temp.empty() ? place.name : fmt::format("{} ({})", place.name, temp);
    }
  return id;
}

std::string load_range(const SupplyWindow& window) {
  if (!window.low_w || !window.high_w || !std::isfinite(*window.low_w + *window.high_w))
    return not_known;
  if (*window.low_w == *window.high_w) return power(*window.low_w);
  return fmt::format("{} to {} W", readable(*window.low_w), readable(*window.high_w));
}

std::string room_in(const SupplyWindow& window) {
  if (!window.low_w || !window.high_w || !window.allowed_w) return {};
  const double over = *window.high_w - *window.allowed_w;
  if (!std::isfinite(over) || !std::isfinite(*window.low_w)) return {};
  if (over <= 0.0) return fmt::format("{} W left", readable(-over));
  return fmt::format("{}{} W over", *window.low_w > *window.allowed_w ? "" : "up to ",
                     readable(over));
}

}  // namespace

std::string number_words(const std::optional<double>& value, std::string_view unit) {
  if (!value || !std::isfinite(*value)) return not_known;
  return fmt::format("{}{}{}", readable(*value), unit.empty() ? "" : " ", unit);
}

std::string degrees(const std::optional<double>& temp_c) {
  if (!temp_c || !std::isfinite(*temp_c)) return {};
  return readable(*temp_c) + " \u00B0C";
}

std::string duration_words(double seconds) {
  if (!std::isfinite(seconds)) return not_known;
  if (seconds < 90.0) return readable(seconds, 2) + " s";
  if (seconds < 5400.0) return readable(seconds / 60.0, 2) + " min";
  return readable(seconds / 3600.0, 2) + " h";
}

std::string letter_of(std::size_t index) {
  std::string out(1, static_cast<char>('a' + index % 26));
  if (index >= 26) out += std::to_string(index / 26 + 1);
  return out;
}

std::optional<double> value_at(const std::vector<double>& xs, const std::vector<double>& ys,
                               double x) {
  if (xs.empty() || xs.size() != ys.size() || !(x >= xs.front() && x <= xs.back())) return {};
  const auto next = std::ranges::lower_bound(xs, x);
  const auto i = static_cast<std::size_t>(next - xs.begin());
  const double value = i == 0 || xs[i] == x ? ys[i]
                                            : ys[i - 1] + (x - xs[i - 1]) / (xs[i] - xs[i - 1]) *
                                                              (ys[i] - ys[i - 1]);
  if (!std::isfinite(value)) return {};
  return value;
}

std::string conditions_words(const HeatPath& path) {
  std::string out = "fans at " + number_words(path.fan_speed_percent, "%");
  if (path.cooler_speed_percent)
    out = fmt::format("case {}, the cooler's at {}", out,
                      number_words(path.cooler_speed_percent, "%"));
  return fmt::format("{}, the air around the case at {}", out,
                     number_words(path.room_c, "\u00B0C"));
}

std::string heat_path_words(const HeatPath& path) {
  std::string out = load_words(path.load);
  const std::string given = places_words(path, HeatPlace::Kind::source);
  const std::string leaves = places_words(path, HeatPlace::Kind::outside);
  if (!given.empty()) out += fmt::format("Heat given off: {}. ", given);
  if (!leaves.empty()) out += fmt::format("It leaves by: {}. ", leaves);
  std::string conditions = conditions_words(path);
  conditions.front() = conditions.front() == 'f' ? 'F' : 'C';
  return out + conditions + '.';
}

std::string warming_words(const Warming& warming) {
  std::string out = load_words(warming.load), list;
  for (std::size_t i = 0; i < warming.curves.size(); ++i) {
    const WarmCurve& curve = warming.curves[i];
    if (curve.temp_c.empty() || !std::isfinite(curve.temp_c.back())) continue;
    std::string says = fmt::format("{} {}", curve.name, degrees(curve.temp_c.back()));
    if (const std::string room = kelvin_room(curve.temp_c.back(), curve.limit_c); !room.empty())
      says += fmt::format(", {} of {}", room, degrees(curve.limit_c));
    if (curve.settled_s) says += ", settled after " + duration_words(*curve.settled_s);
    list += (list.empty() ? "" : "; ") + says;
  }
  if (warming.time_s.empty() || list.empty()) return out + "No temperatures are known.";
  out += fmt::format("After {}: {}.", duration_words(warming.time_s.back()), list);
  if (!warming.noise_dba.empty())
    out += fmt::format(" Noise then {}.", number_words(warming.noise_dba.back(), "dB(A)"));
  return out;
}

std::string speed_words(const SpeedSweep& sweep) {
  std::string out = load_words(sweep.load);
  const std::vector<double> told = speeds_told(sweep);
  if (told.empty()) return out + "No speeds to compare are known.";
  std::string list;
  for (const SweepCurve& curve : sweep.temperatures)
    join(list, fmt::format("{} {}", curve.name,
                           spread_words(curve.temp_c, sweep.speed_percent, told[told.size() / 2],
                                        "\u00B0C")));
  if (!sweep.noise_dba.middle.empty())
    join(list, fmt::format("noise {}", spread_words(sweep.noise_dba, sweep.speed_percent,
                                                    told[told.size() / 2], "dB(A)")));
  return out + fmt::format("At {} of the fans' full speed{}: {}.",
                           number_words(told[told.size() / 2], "%"),
                           sweep.chosen_percent ? ", which is chosen" : "", list);
}

std::string windows_words(const SupplyWindows& supply) {
  std::string out;
  for (const SupplyWindow& window : supply.windows)
    out += fmt::format("{}{}: {}", out.empty() ? "" : "; ", window.name, window_words(window));
  if (supply.rated_w > 0.0 && std::isfinite(supply.rated_w))
    out = fmt::format("{}, rated {}. {}", supply.supply, power(supply.rated_w), out);
  return out + ".";
}

std::string window_words(const SupplyWindow& window) {
  const std::string load = load_range(window), room = room_in(window);
  const bool allowed = window.allowed_w && std::isfinite(*window.allowed_w);
  if (load == not_known)
    return allowed ? fmt::format("load not known, {} allowed", power(*window.allowed_w))
                   : "neither load nor limit known";
  if (!allowed) return load + ", no limit stated";
  return fmt::format("{} of {}: {}", load, power(*window.allowed_w), room);
}

PlotTable heat_path_table(const HeatPath& path) {
  PlotTable out{.head = {"From", "To", "Heat"}, .rows = {}, .words = true};
  for (const HeatFlow& flow : path.flows)
    out.rows.push_back({name_in(path, flow.from_id), name_in(path, flow.to_id), power(flow.watts)});
  return out;
}

PlotTable warming_table(const Warming& warming) {
  PlotTable out{.head = {"", "At the end", "Limit", "Room", "Settled after"}, .rows = {}};
  for (std::size_t i = 0; i < warming.curves.size(); ++i) {
    const WarmCurve& curve = warming.curves[i];
    const bool known =
        drawable(curve.temp_c, warming.time_s.size(), most_temp_c) && !curve.temp_c.empty();
    out.rows.push_back({fmt::format("{} {}", letter_of(i), curve.name),
                        known ? degrees(curve.temp_c.back()) : not_known,
                        curve.limit_c ? degrees(curve.limit_c) : "none",
                        known ? kelvin_room(curve.temp_c.back(), curve.limit_c) : "",
                        curve.settled_s ? duration_words(*curve.settled_s) : "not in this time"});
  }
  if (!warming.noise_dba.empty())
    out.rows.push_back({"noise", number_words(warming.noise_dba.back(), "dB(A)"), "", "", ""});
  return out;
}

PlotTable speed_table(const SpeedSweep& sweep) {
  PlotTable out{.head = {""}, .rows = {}};
  const std::vector<double> told = speeds_told(sweep);
  for (const double speed : told)
    out.head.push_back(
        fmt::format("{} %{}", readable(speed), speed == sweep.chosen_percent ? ", chosen" : ""));
  out.head.emplace_back("Limit");
  const auto add = [&](const std::string& name, const SpreadCurve& curve, std::string_view unit,
                       const std::optional<double>& limit) {
    out.rows.push_back({fmt::format("{}, {}", name, unit)});
    for (const double speed : told)
      out.rows.back().push_back(spread_words(curve, sweep.speed_percent, speed, {}));
    out.rows.back().push_back(limit ? number_words(limit, {}) : "none");
  };
  for (std::size_t i = 0; i < sweep.temperatures.size(); ++i)
    add(fmt::format("{} {}", letter_of(i), sweep.temperatures[i].name),
        sweep.temperatures[i].temp_c, "\u00B0C", sweep.temperatures[i].limit_c);
  if (!sweep.noise_dba.middle.empty())
    add("noise", sweep.noise_dba, "dB(A)", sweep.noise_limit_dba);
  return out;
}

PlotTable windows_table(const SupplyWindows& supply) {
  PlotTable out{.head = {"Window", "Load", "Allowed", "Room"}, .rows = {}};
  for (const SupplyWindow& window : supply.windows)
    out.rows.push_back({window.name, load_range(window),
                        window.allowed_w ? number_words(window.allowed_w, "W") : "not stated",
                        room_in(window)});
  return out;
}

}  // namespace rigproof::sheet
