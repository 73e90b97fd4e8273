// The random numbers of one probe.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>

namespace rigproof::plan::internal {

/// A counter, stirred, [steele-splitmix]: probe i of two trees draws from the same numbers, so that
/// what two counts have in common is mostly drawn in common.
class ProbeNumbers {
 public:
  ProbeNumbers(std::uint64_t seed, std::uint64_t probe)
      : state_(stirred(seed ^ stirred(probe + 1))) {}
  /// [0, 1), 53 bits.
  double next() {
    state_ += odd;
    return static_cast<double>(stirred(state_) >> 11U) * 0x1.0p-53;
  }

 private:
  static constexpr std::uint64_t odd = 0x9E3779B97F4A7C15ULL;
  static constexpr std::uint64_t stirred(std::uint64_t z) {
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
  }
  std::uint64_t state_;
};

}  // namespace rigproof::plan::internal
