// M.2 drives to sockets: the largest number that can have a socket of their own, exactly.
//
// Equation (1) of README.md: a maximum matching between drives and sockets, found by augmenting
// paths (an alternating path that ends in a free socket makes the matching one larger; when there
// is none it is the largest). Source: [berge-1957]. No allocation, O(drives x sockets) steps a
// drive.
#pragma once

#include <array>
#include <cstdint>
#include <span>

namespace rigproof::match {

inline constexpr int most_sockets = 16;  ///< the schema's highest socket number
using Sockets = std::uint16_t;           ///< bit s: socket s of the board's list

struct Places {
  int without = 0;                                   ///< drives that have no socket
  int first_without = -1;                            ///< the first of them in the given order
  std::array<std::int8_t, most_sockets> drive_in{};  ///< drive in each socket; -1: free
};

/// In: for each drive the sockets it fits. Earlier drives keep a place once they have one.
[[nodiscard]] Places place_drives(std::span<const Sockets> fits);

}  // namespace rigproof::match
