// The best way to share light plugs among outlets: the one that leaves most on the outlet that is
// left with least.
#pragma once

#include <span>

namespace rigproof::power {

/// In: what each outlet gives, and what each plug draws, in A, >= 0 and not NaN; at most 32 of
/// each (contract). Any number of plugs share an outlet (lights hang on one another or on a
/// splitter); one plug is not split.
/// Out: max over ways of min over outlets of (gives - drawn); without plugs the least that an
/// outlet gives; -inf without outlets.
///
/// Exact while a search of `most_steps` partial ways suffices, as it does for up to a dozen plugs
/// on four outlets; beyond that the best way met so far, which never says more is left than is.
[[nodiscard]] double share_lights(std::span<const double> gives_a, std::span<const double> plugs_a);

inline constexpr std::size_t most_light_plugs = 32;
inline constexpr std::size_t most_light_outlets = 32;

}  // namespace rigproof::power
