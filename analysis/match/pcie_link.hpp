// What a PCI Express link carries, by generation and lanes.
//
// Payload after line coding, one direction, before packet headers: 2.5 and 5 GT/s with 8b/10b, 8,
// 16 and 32 GT/s with 128b/130b, 64 and 128 GT/s with 242 of 256 bytes of a flit. A link runs at
// the lower generation and the fewer lanes of its two ends. Source: [pcie-rates].
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

namespace rigproof::match {

inline constexpr int newest_pcie = 7;
/// GB/s (1e9 bytes a second) of one lane; index: generation - 1.
inline constexpr std::array<double, newest_pcie> pcie_lane_gb_s = {
    2.5 / 8 * 8 / 10,     5.0 / 8 * 8 / 10,     8.0 / 8 * 128 / 130,  16.0 / 8 * 128 / 130,
    32.0 / 8 * 128 / 130, 64.0 / 8 * 242 / 256, 128.0 / 8 * 242 / 256};

/// One end of a link, or the link itself. NaN: not known.
struct PcieLink {
  double generation = 0.0;
  double lanes = 0.0;

  [[nodiscard]] bool known() const { return !std::isnan(generation) && !std::isnan(lanes); }
  /// GB/s. In: known; generation 1 to 7, as the schema has it.
  [[nodiscard]] double gb_s() const {
    const int at = std::clamp(static_cast<int>(generation), 1, newest_pcie) - 1;
    return pcie_lane_gb_s[static_cast<std::size_t>(at)] * lanes;
  }
};

/// What two ends agree on; not known where either is not.
[[nodiscard]] inline PcieLink between(const PcieLink& a, const PcieLink& b) {
  if (!a.known() || !b.known()) return {std::nan(""), std::nan("")};
  return {std::min(a.generation, b.generation), std::min(a.lanes, b.lanes)};
}

}  // namespace rigproof::match
