// A small tower whose air can be worked out by hand: for the tests of this folder. Invented.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "coupled/air/air_state.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::coupled {

using power::Load;
using test_support::Scene;
using test_support::TestTables;

inline constexpr double rho_cp =
    1.184 * 1007.0;  // J/(m3 K) of air at 25 degC, [cengel-a15], looked up

struct Made {
  std::string front_fans = "2";
  std::string rear_fans = "1";
  std::string front_open = "0.6";
  std::string cpu_w = "100";
  std::string cpu_limit_c = "95";
  std::string gpu_w = "200";
  std::string rise_k = "50";  // of the cooler at 200 W: 4 W/K
  bool chamber = true;
  bool top_fan = false;  ///< on a mount that is not there without it
  std::string plate_rise_k = "20";
  std::string cooler_j_k = "500";
  std::string case_dba = "30";  ///< each of the case's fans
  std::string cooler_dba = "28";
  std::string cooler_fans = "1";
};

inline TestTables tower(const Made& made = {}) {
  TestTables t;
  t.row("case", {{"id", "box"},
                 {"width_mm", "210"},
                 {"height_mm", "450"},
                 {"depth_mm", "430"},
                 {"leak_cm2", "60"},
                 {"supply_chamber", made.chamber ? "yes" : "no"}});
  const auto mount = [&](const char* name, const char* face, const char* places,
                         const std::string& open) {
    t.row("case_mounts", {{"case", "box"},
                          {"mount", name},
                          {"face", face},
                          {"fan_sizes_mm", "120"},
                          {"fan_places", places},
                          {"radiators_mm", name == std::string_view("front") ? "240" : "none"},
                          {"depth_mm", "60"},
                          {"open_frac", open},
                          {"filter_pa", "0"}});
  };
  mount("front", "front", "3", made.front_open);
  mount("rear", "rear", "1", "0.6");
  const auto fans = [&](const char* name, const std::string& count) {
    t.row("case_fans", {{"case", "box"},
                        {"mount", name},
                        {"size_mm", "120"},
                        {"count", count},
                        {"flow_m3_h", "90"},
                        {"pressure_pa", "15"},
                        {"noise_dba", made.case_dba}});
  };
  fans("front", made.front_fans);
  fans("rear", made.rear_fans);
  if (made.top_fan) {
    mount("top", "top", "1", "0.6");
    fans("top", "1");
  }
  t.row("cpu", {{"id", "cpu"},
                {"idle_power_w", "10"},
                {"title_power_w", made.cpu_w},
                {"sustained_power_w", made.cpu_w},
                {"limit_c", made.cpu_limit_c}});
  t.row("board",
        {{"id", "board"}, {"power_w", "40"}, {"cpu_sustained_w", "200"}, {"stage_rise_k", "50"}});
  t.row("storage", {{"id", "drive"}, {"power_w", "0.1"}, {"rise_k", "30"}});
  t.row("gpu", {{"id", "card"},
                {"length_mm", "300"},
                {"idle_power_w", "10"},
                {"sustained_power_w", made.gpu_w},
                {"rise_k", "40"},
                {"heat_capacity_j_k", "700"},
                {"limit_c", "90"},
                {"noise_dba", "33"}});
  t.row("cooler", {{"id", "tower"},
                   {"type", "air"},
                   {"rated_heat_w", "200"},
                   {"rise_at_rating_k", made.rise_k},
                   {"plate_rise_k", made.plate_rise_k},
                   {"heat_capacity_j_k", made.cooler_j_k},
                   {"power_w", "0"},
                   {"fans", made.cooler_fans},
                   {"noise_dba", made.cooler_dba}});
  t.row("cooler", {{"id", "loop"},
                   {"type", "liquid"},
                   {"rated_heat_w", "250"},
                   {"rise_at_rating_k", "40"},
                   {"plate_rise_k", "15"},
                   {"heat_capacity_j_k", "2000"},
                   {"radiator_mm", "240"},
                   {"radiator_thickness_mm", "27"},
                   {"fan_mm", "120"},
                   {"fan_thickness_mm", "25"},
                   {"fans", "2"},
                   {"flow_m3_h", "100"},
                   {"pressure_pa", "25"},
                   {"power_w", "0"}});
  t.row("fan", {{"id", "fan"},
                {"size_mm", "120"},
                {"thickness_mm", "25"},
                {"current_a", "0.1"},
                {"flow_m3_h", "90"},
                {"pressure_pa", "15"},
                {"noise_dba", "30"}});
  for (const char* table :
       {"case", "case_mounts", "case_fans", "cpu", "board", "gpu", "storage", "cooler", "fan"})
    t.plus_minus(table, "*", "*", 0);
  return t;
}

struct Solved {
  AirCase of;
  AirState state;
};

inline Solved solved(const TestTables& tables, const std::vector<std::string>& parts,
                     Load load = Load::everything, double speed_frac = 1.0, double room_c = 25.0) {
  Scene scene(tables);
  scene.take("box");
  for (const std::string& part : parts) scene.take(part);
  scene.brief.room_c = room_c;
  Measure m;
  Solved out{.of = air_case(scene.facts(), load, m), .state = {}};
  if (out.of.unknown) throw std::runtime_error("a cell is absent");
  AirModel model(out.of);
  out.state = model.at(AirModel::middle, speed_frac);
  return out;
}

inline const std::vector<std::string> whole = {"cpu", "board", "tower", "card"};

}  // namespace rigproof::coupled
