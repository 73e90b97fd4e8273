// Keys under which it is remembered what was found of a case: mixed from all that it rests on.
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <string_view>

#include "coupled/air/air_case.hpp"

namespace rigproof::coupled {

// Mixes what a case rests on into three words.
class Mixer {
 public:
  Mixer& add(std::uint64_t value) {
    for (std::size_t i = 0; i < words_.size(); ++i) {
      words_[i] = (words_[i] ^ value) * (0x9E37'79B9'7F4A'7C15U + 2 * i);
      words_[i] ^= words_[i] >> 29U;
    }
    return *this;
  }
  Mixer& add(double value) { return add(std::bit_cast<std::uint64_t>(value)); }
  Mixer& add(std::string_view text) {
    for (const char c : text) add(std::uint64_t{static_cast<unsigned char>(c)});
    return add(std::uint64_t{256});
  }
  // Ends and eight samples: of two orders of 256 one in 256^8 has them in common.
  Mixer& add(const Draws& draws) {
    if (draws.is_absent()) return add(std::uint64_t{1});
    add(draws.low()).add(draws.high());
    if (draws.is_certain()) return *this;
    constexpr int apart = draw_count / 8;
    for (int draw = 0; draw < draw_count; draw += apart) add(draws[draw]);
    return *this;
  }
  [[nodiscard]] const std::array<std::uint64_t, 3>& words() const { return words_; }

 private:
  std::array<std::uint64_t, 3> words_{1, 2, 3};
};

/// What air goes which way, and what leads heat into it at a given speed: all of a case but its
/// heat, its card's own conductance, and what only follows.
inline void add_flows(const AirCase& of, Mixer& mixer) {
  for (const FanRow& row : of.fans) {
    mixer.add(static_cast<std::uint64_t>(row.inside))
        .add(std::uint64_t{row.blows_in ? 1U : 0U})
        .add(static_cast<std::uint64_t>(row.count))
        .add(row.size_m)
        .add(row.flow_m3_h)
        .add(row.pressure_pa)
        .add(row.open_frac)
        .add(row.filter_pa)
        .add(row.radiator_m);
    if (row.measured != nullptr) mixer.add(row.what);
  }
  for (const Opening& opening : of.openings)
    mixer.add(static_cast<std::uint64_t>(opening.inside))
        .add(opening.area_m2)
        .add(opening.open_frac)
        .add(opening.filter_pa);
  mixer
      .add(std::uint64_t{(of.has_card ? 1U : 0U) + (of.liquid ? 2U : 0U) +
                         (of.cooler_has_fans ? 4U : 0U)})
      .add(of.between_m2)
      .add(of.outside_c);
  for (const Draws* draws : {&of.leak_cm2, &of.cpu_w_k, &of.cooler_flow_m3_h}) mixer.add(*draws);
}

}  // namespace rigproof::coupled
