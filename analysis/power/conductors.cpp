#include "analysis/power/conductors.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/contract.hpp"

namespace rigproof::power {
namespace {

constexpr double copper_ohm_m = 1.7241e-8;  // annealed, at 20 degrees [iec-60028]
constexpr double copper_per_k = 0.00393;    // at 20 degrees
constexpr double gauge_36_m = 0.127e-3;     // [astm-b258]
constexpr double gauge_ratio = 92.0;        // of the diameters of 0000 and 36, 39 steps apart

constexpr std::array plugs = {
    Plug{"pcie6", 2, 75.0, 8.0, "common practice, no source"},
    Plug{"pcie8", 3, 150.0, 8.0, "common practice, no source"},
    Plug{"12v-2x6", 6, 600.0, 9.2, "[pcie-cem-5], from memory"},
    Plug{"eps8", 4, 0.0, 7.0, "common practice, no source"},
    Plug{"eps4", 2, 0.0, 7.0, "common practice, no source"},
};

}  // namespace

double ohm_per_m(int gauge_awg, double wire_c) {
  RP_EXPECT(gauge_awg >= 0 && gauge_awg <= 40);
  const double diameter_m = gauge_36_m * std::pow(gauge_ratio, (36.0 - gauge_awg) / 39.0);
  const double area_m2 = std::numbers::pi * diameter_m * diameter_m / 4.0;
  return copper_ohm_m / area_m2 * (1.0 + copper_per_k * (wire_c - 20.0));
}

std::optional<Plug> plug_named(std::string_view name) {
  const auto found = std::ranges::find(plugs, name, &Plug::name);
  return found == plugs.end() ? std::nullopt : std::optional(*found);
}

double contact_current_a(double load_w, double rail_v, int circuits, int plug_count,
                         double uneven) {
  RP_EXPECT(rail_v > 0.0 && circuits > 0 && plug_count > 0 && uneven >= 1.0);
  return uneven * load_w / (rail_v * circuits * plug_count);
}

double cable_drop_v(double load_a, int circuits, double length_m, int gauge_awg, double wire_c) {
  RP_EXPECT(circuits > 0);
  return load_a / circuits * 2.0 * length_m * ohm_per_m(gauge_awg, wire_c);
}

double cable_loss_w(double load_a, int circuits, double length_m, int gauge_awg, double wire_c) {
  return load_a * cable_drop_v(load_a, circuits, length_m, gauge_awg, wire_c);
}

}  // namespace rigproof::power
