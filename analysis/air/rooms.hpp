// How many rooms of air the networks of this engine hold.
#pragma once

#include <cstddef>

namespace rigproof::air {

inline constexpr std::size_t most_rooms = 12;  ///< with the outside

}  // namespace rigproof::air
