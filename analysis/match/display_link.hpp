// Display links: what a picture needs, and what a link of a published standard carries. Pure
// numbers; README.md equations (9) and (10).
#pragma once

#include <optional>
#include <string_view>

namespace rigproof::match {

/// A picture as a link sees it.
struct Picture {
  double width_px = 0.0;
  double height_px = 0.0;
  double refresh_hz = 0.0;
  double bits_per_channel = 8.0;
};

/// Pixel clock with reduced blanking, version 2, in MHz: 80 pixels of horizontal blanking, the
/// fewest lines of vertical blanking that last 460 us, at least 15, rounded down to 0.001 MHz.
/// In: width, height > 0; refresh_hz in (0, 1000]. Source: [vesa-cvt-1-2].
[[nodiscard]] double cvt_rb2_clock_mhz(double width_px, double height_px, double refresh_hz);

/// Gbit/s of pixels: clock x bits a pixel; three channels, or the 8 bits a pixel to which stream
/// compression may go down ([vesa-dsc-1-2a]).
[[nodiscard]] double gbit_s(const Picture& picture, bool compressed);

enum class LinkFamily { displayport, hdmi };

/// Payload after line coding, before audio and secondary packets. Where a name leaves the rate
/// open `low` is what a link of that name has at least and `high` what it can have.
struct DisplayLink {
  std::string_view name;
  LinkFamily family;
  double low_gbit_s;
  double high_gbit_s;
};

/// nullopt: no link of that name in the table.
[[nodiscard]] std::optional<DisplayLink> find_display_link(std::string_view name);

/// Share of a link that audio and secondary packets take (common practice, no source).
inline constexpr double packets_low = 0.01;
inline constexpr double packets_high = 0.02;

}  // namespace rigproof::match
