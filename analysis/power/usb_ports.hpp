// The best way to plug USB 2 plugs into headers and hubs: the one that leaves most where least is
// left.
#pragma once

#include <limits>
#include <span>

namespace rigproof::power {

/// Ports that give alike: the board's headers, or one hub.
struct UsbOutlet {
  int ports = 0;
  double each_a = 0.0;                                     ///< what one port gives
  double all_a = std::numeric_limits<double>::infinity();  ///< what all together give
};

/// What is left on the tightest port or hub, and what that port or hub gives.
struct UsbTightest {
  double left_a = std::numeric_limits<double>::infinity();
  double gives_a = 0.0;
};

/// In: what each plug draws, in A, the thirstiest first (contract); at most 32 outlets and 64 plugs
/// (contract). A plug takes one port.
/// Out: max over ways of the least of (each_a - drawn) over plugs and (all_a - sum drawn) over
/// outlets in use; left_a is infinite without plugs, -infinite where they have too few ports.
///
/// Exact where no outlet has a finite all_a, else while 20 000 partial ways suffice, as they do for
/// up to eight plugs on three outlets; beyond that the best way met so far, which never says more
/// is left than is.
[[nodiscard]] UsbTightest share_usb(std::span<const UsbOutlet> outlets,
                                    std::span<const double> drawn_a);

inline constexpr std::size_t most_usb_outlets = 32;
inline constexpr std::size_t most_usb_plugs = 64;

}  // namespace rigproof::power
