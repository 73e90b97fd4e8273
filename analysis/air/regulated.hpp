// Parts that hold their own temperature limit by giving up power.
//
// Equations (A40) to (A43) of README. Temperatures are T = T0 + R P with R >= 0: each part warms
// itself and the others. A part runs at its power limit; where that would be too hot, at its
// temperature limit; where even its least power is too hot, at that, and it is flagged. This is a
// linear complementarity problem with bounds. R comes from a heat balance, whose inverse has
// positive principal minors, and so has every part of it: exactly one answer exists
// ([cottle-pang-stone], [markham-1972]). All 3^n cases are tried, so it is exact. Where no part is
// left too hot, the answer has the highest temperatures of all powers that keep every limit; not in
// general the highest powers, since what one part gives up another may take. A part does not step
// down for another's sake: one may be too hot at its least power through its neighbour. No
// allocation.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>

#include "analysis/air/fixed_list.hpp"
#include "analysis/air/heat_network.hpp"
#include "base/result.hpp"

namespace rigproof::air {

inline constexpr std::size_t most_regulated = 4;

struct PowerLimits {
  double limit_w;        ///< the most it takes, > 0
  double minimum_w = 0;  ///< the least it can be held to, in [0, limit_w]
  /// Of the part's node; infinity: none.
  double limit_c = std::numeric_limits<double>::infinity();
};

enum class Binds : std::uint8_t {
  power,        ///< at its power limit, cool enough
  temperature,  ///< held back by its temperature limit
  minimum,      ///< at its least power and still above its temperature limit: too hot
};

struct RegulatedPart {
  PowerLimits limits;
  double base_c = 0;  ///< with no power in any of the parts
  /// By one watt in each of the parts, K/W, >= 0.
  std::array<double, most_regulated> rise_k_w{};
};
using RegulatedParts = FixedList<RegulatedPart, most_regulated>;

struct Sustained {
  double power_w = 0;
  double temp_c = 0;
  Binds binds = Binds::power;
  double lost_frac = 0;  ///< (A43): 1 - power_w / limit_w
  [[nodiscard]] bool too_hot() const { return binds == Binds::minimum; }
};
using SustainedPowers = FixedList<Sustained, most_regulated>;

/// (A41), (A42).
/// Errors: out_of_range, naming the field and its part; bad_input where the rises are not those of
///         a heat balance (a principal minor is not positive: two parts on one body, for example).
[[nodiscard]] Result<SustainedPowers> sustained_powers(const RegulatedParts& parts);

/// A part of a build: the body that its power goes into and whose temperature it watches.
struct RegulatedBody {
  std::size_t body = 0;
  PowerLimits limits;
};

/// (A40): T0 and R of some bodies of a heat network, all other heat as the network states it; what
/// it states for these bodies is left out.
/// Errors: bad_input for a body that is unknown, named twice, or unbounded, and for more than four.
[[nodiscard]] Result<RegulatedParts> regulated_parts(const HeatField& field,
                                                     std::span<const RegulatedBody> bodies);

}  // namespace rigproof::air
