#include "analysis/match/drive_places.hpp"

#include "base/contract.hpp"

namespace rigproof::match {
namespace {

struct Search {
  std::span<const Sockets> fits;
  std::array<std::int8_t, most_sockets>& drive_in;
  Sockets tried = 0;

  // Gives `drive` a socket, moving others along an alternating path.
  bool settle(int drive) {
    for (int s = 0; s < most_sockets; ++s) {
      const auto bit = static_cast<Sockets>(1U << static_cast<unsigned>(s));
      const auto at = static_cast<std::size_t>(s);
      if ((fits[static_cast<std::size_t>(drive)] & bit) == 0 || (tried & bit) != 0) continue;
      tried = static_cast<Sockets>(tried | bit);
      if (drive_in[at] >= 0 && !settle(drive_in[at])) continue;
      drive_in[at] = static_cast<std::int8_t>(drive);
      return true;
    }
    return false;
  }
};

}  // namespace

Places place_drives(std::span<const Sockets> fits) {
  RP_EXPECT(fits.size() <= 127);
  Places out;
  out.drive_in.fill(-1);
  for (int drive = 0; drive < static_cast<int>(fits.size()); ++drive) {
    if (Search{fits, out.drive_in}.settle(drive)) continue;
    if (out.without++ == 0) out.first_without = drive;
  }
  return out;
}

}  // namespace rigproof::match
