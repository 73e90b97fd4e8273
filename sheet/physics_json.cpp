#include "sheet/physics_json.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace rigproof::sheet {
namespace {

std::string_view name_of(HeatPlace::Kind kind) {
  constexpr std::array<std::string_view, 4> names = {"source", "body", "room", "outside"};
  return names.at(static_cast<std::size_t>(kind));
}

void put(JsonWriter& out, std::string_view name, const std::optional<double>& value) {
  if (value && std::isfinite(*value)) out.member(name, *value);
}

void put(JsonWriter& out, std::string_view name, const std::vector<double>& values) {
  if (values.empty() || !std::ranges::all_of(values, [](double v) { return std::isfinite(v); }))
    return;
  out.key(name);
  out.begin_array();
  for (const double value : values) out.number(value);
  out.end_array();
}

void put(JsonWriter& out, std::string_view name, const std::vector<std::string>& texts) {
  out.key(name);
  out.begin_array();
  for (const std::string& text : texts) out.text(text);
  out.end_array();
}

template <class T, class Put>
void put_each(JsonWriter& out, std::string_view name, const std::vector<T>& values,
              const Put& put_one) {
  out.key(name);
  out.begin_array();
  for (const T& value : values) {
    out.begin_object();
    put_one(value);
    out.end_object();
  }
  out.end_array();
}

void put_heat_path(JsonWriter& out, const HeatPath& path) {
  out.key("heat_path");
  out.begin_object();
  out.member("load", path.load);
  put(out, "fan_speed_percent", std::optional(path.fan_speed_percent));
  put(out, "cooler_speed_percent", path.cooler_speed_percent);
  put(out, "room_c", std::optional(path.room_c));
  put_each(out, "places", path.places, [&](const HeatPlace& place) {
    out.member("id", place.id);
    out.member("name", place.name);
    out.member("kind", name_of(place.kind));
    put(out, "temp_c", place.temp_c);
  });
  put_each(out, "flows", path.flows, [&](const HeatFlow& flow) {
    out.member("from", flow.from_id);
    out.member("to", flow.to_id);
    put(out, "power_w", std::optional(flow.watts));
  });
  out.end_object();
}

void put_warming(JsonWriter& out, const Warming& warming) {
  out.key("warming");
  out.begin_object();
  out.member("load", warming.load);
  put(out, "time_s", warming.time_s);
  put_each(out, "curves", warming.curves, [&](const WarmCurve& curve) {
    out.member("name", curve.name);
    put(out, "temp_c", curve.temp_c);
    put(out, "limit_c", curve.limit_c);
    put(out, "settled_s", curve.settled_s);
  });
  put(out, "noise_dba", warming.noise_dba);
  put(out, "notes", warming.notes);
  out.end_object();
}

void put_spread(JsonWriter& out, std::string_view name, const SpreadCurve& curve) {
  if (curve.middle.empty()) return;
  out.key(name);
  out.begin_object();
  put(out, "value", curve.middle);
  put(out, "low", curve.low);
  put(out, "high", curve.high);
  out.end_object();
}

void put_sweep(JsonWriter& out, const SpeedSweep& sweep) {
  out.key("speed_sweep");
  out.begin_object();
  out.member("load", sweep.load);
  put(out, "speed_percent", sweep.speed_percent);
  put_each(out, "temperatures", sweep.temperatures, [&](const SweepCurve& curve) {
    out.member("name", curve.name);
    put_spread(out, "temp_c", curve.temp_c);
    put(out, "limit_c", curve.limit_c);
  });
  put_spread(out, "noise_dba", sweep.noise_dba);
  put(out, "noise_limit_dba", sweep.noise_limit_dba);
  put(out, "chosen_percent", sweep.chosen_percent);
  put(out, "notes", sweep.notes);
  out.end_object();
}

void put_windows(JsonWriter& out, const SupplyWindows& supply) {
  out.key("supply_windows");
  out.begin_object();
  out.member("supply", supply.supply);
  put(out, "rated_w", std::optional(supply.rated_w));
  put_each(out, "windows", supply.windows, [&](const SupplyWindow& window) {
    out.member("name", window.name);
    put(out, "low_w", window.low_w);
    put(out, "high_w", window.high_w);
    put(out, "allowed_w", window.allowed_w);
  });
  out.end_object();
}

}  // namespace

void write(JsonWriter& out, const Physics& physics) {
  out.begin_object();
  out.member("schema", physics_schema);
  if (physics.heat_path) put_heat_path(out, *physics.heat_path);
  if (physics.warming) put_warming(out, *physics.warming);
  if (physics.speed_sweep) put_sweep(out, *physics.speed_sweep);
  if (physics.supply_windows) put_windows(out, *physics.supply_windows);
  out.end_object();
}

std::string physics_json(const Physics& physics) {
  JsonWriter out;
  write(out, physics);
  return out.take();
}

}  // namespace rigproof::sheet
