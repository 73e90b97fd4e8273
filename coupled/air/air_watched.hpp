// The temperatures of a build that a brief may limit: which there are, and the brief's key of each.
#pragma once

#include <array>
#include <cstddef>

namespace rigproof::coupled {

enum class Watched : std::size_t { cpu, gpu, coolant, stage, drive, exhaust };
inline constexpr std::array all_watched = {Watched::cpu,   Watched::gpu,   Watched::coolant,
                                           Watched::stage, Watched::drive, Watched::exhaust};

/// One value for each of them.
template <class T>
struct ByWatched {
  std::array<T, all_watched.size()> all;

  [[nodiscard]] static ByWatched filled(const T& value) {
    ByWatched out;
    out.all.fill(value);
    return out;
  }
  T& operator[](Watched which) { return all[static_cast<std::size_t>(which)]; }
  const T& operator[](Watched which) const { return all[static_cast<std::size_t>(which)]; }
};

/// In [limits] of a brief.
[[nodiscard]] constexpr const char* limit_key(Watched which) {
  constexpr std::array keys = {"cpu_c",         "gpu_c",   "coolant_c",
                               "board_stage_c", "drive_c", "exhaust_c"};
  return keys[static_cast<std::size_t>(which)];
}

}  // namespace rigproof::coupled
