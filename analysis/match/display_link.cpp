#include "analysis/match/display_link.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace rigproof::match {
namespace {

// Lane or link rates in Gbit/s, and what their coding leaves.
constexpr double coding_8b10b = 8.0 / 10.0;
constexpr double coding_128b132b = 0.9671;  // with the link layer's share: the usable part
constexpr double coding_16b18b = 16.0 / 18.0 * 0.98;  // 2 %: blocks and error correction
constexpr double hbr = 4 * 2.7 * coding_8b10b;
constexpr double hbr2 = 4 * 5.4 * coding_8b10b;
constexpr double hbr3 = 4 * 8.1 * coding_8b10b;
constexpr double uhbr10 = 40.0 * coding_128b132b;
constexpr double uhbr13_5 = 54.0 * coding_128b132b;
constexpr double uhbr20 = 80.0 * coding_128b132b;
constexpr double tmds_340 = 10.2 * coding_8b10b;
constexpr double tmds_600 = 18.0 * coding_8b10b;

constexpr auto dp = LinkFamily::displayport;
constexpr auto hdmi = LinkFamily::hdmi;

// A version up to DisplayPort 1.4 and HDMI 2.0 is taken at its fastest rate, as the trade writes
// it; later versions have rates that makers state apart. Sources: [vesa-displayport] lane rates and
// codings, [hdmi-forum] TMDS and FRL rates and codings.
constexpr std::array links = {
    DisplayLink{"DisplayPort-1.1", dp, hbr, hbr},
    DisplayLink{"DisplayPort-1.2", dp, hbr2, hbr2},
    DisplayLink{"DisplayPort-1.3", dp, hbr3, hbr3},
    DisplayLink{"DisplayPort-1.4", dp, hbr3, hbr3},
    DisplayLink{"DisplayPort-2.0", dp, hbr3, uhbr20},
    DisplayLink{"DisplayPort-2.1", dp, hbr3, uhbr20},
    DisplayLink{"DisplayPort-2.0-UHBR10", dp, uhbr10, uhbr10},
    DisplayLink{"DisplayPort-2.1-UHBR10", dp, uhbr10, uhbr10},
    DisplayLink{"DisplayPort-2.0-UHBR13.5", dp, uhbr13_5, uhbr13_5},
    DisplayLink{"DisplayPort-2.1-UHBR13.5", dp, uhbr13_5, uhbr13_5},
    DisplayLink{"DisplayPort-2.0-UHBR20", dp, uhbr20, uhbr20},
    DisplayLink{"DisplayPort-2.1-UHBR20", dp, uhbr20, uhbr20},
    DisplayLink{"HDMI-1.4", hdmi, tmds_340, tmds_340},
    DisplayLink{"HDMI-2.0", hdmi, tmds_600, tmds_600},
    DisplayLink{"HDMI-2.1", hdmi, tmds_600, 48.0 * coding_16b18b},
    DisplayLink{"HDMI-2.1-FRL18", hdmi, 18.0 * coding_16b18b, 18.0 * coding_16b18b},
    DisplayLink{"HDMI-2.1-FRL24", hdmi, 24.0 * coding_16b18b, 24.0 * coding_16b18b},
    DisplayLink{"HDMI-2.1-FRL32", hdmi, 32.0 * coding_16b18b, 32.0 * coding_16b18b},
    DisplayLink{"HDMI-2.1-FRL40", hdmi, 40.0 * coding_16b18b, 40.0 * coding_16b18b},
    DisplayLink{"HDMI-2.1-FRL48", hdmi, 48.0 * coding_16b18b, 48.0 * coding_16b18b},
};

}  // namespace

double cvt_rb2_clock_mhz(double width_px, double height_px, double refresh_hz) {
  constexpr double least_blank_us = 460.0;
  constexpr double least_blank_lines = 15.0;  // front porch 1, sync 8, back porch 6
  constexpr double blank_px = 80.0;
  const double line_us = (1e6 / refresh_hz - least_blank_us) / height_px;
  const double blank_lines =
      std::max(least_blank_lines, std::floor(least_blank_us / line_us) + 1.0);
  const double pixels_s = (width_px + blank_px) * (height_px + blank_lines) * refresh_hz;
  return std::floor(pixels_s / 1e3) / 1e3;
}

double gbit_s(const Picture& picture, bool compressed) {
  constexpr double compressed_bits = 8.0;
  const double bits = 3.0 * picture.bits_per_channel;
  return cvt_rb2_clock_mhz(picture.width_px, picture.height_px, picture.refresh_hz) *
         (compressed ? std::min(bits, compressed_bits) : bits) / 1e3;
}

std::optional<DisplayLink> find_display_link(std::string_view name) {
  const auto* const found = std::ranges::find(links, name, &DisplayLink::name);
  if (found == links.end()) return std::nullopt;
  return *found;
}

}  // namespace rigproof::match
