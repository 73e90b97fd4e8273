// The planes of a case against which everything is placed. Internal to the layout.
#pragma once

#include <optional>

#include "analysis/fit/mounting.hpp"
#include "analysis/fit/scene.hpp"
#include "analysis/fit/standards.hpp"

namespace rigproof::fit {

/// A plane's place, and whether tables or standards state it.
struct Plane {
  double at_mm = 0.0;
  bool stated = false;
};

struct CaseFrame {
  std::array<double, 3> size_mm{};  ///< outside, by Axis; 0: not stated
  Plane front;                      ///< x: where the room behind the card's bracket ends
  Plane panel;                      ///< y: the inside of the panel that opens, as coolers meet it
  Plane board_top;                  ///< z: the board's upper edge
  std::optional<FormFactor> form_factor;  ///< of the board
  Outline board;
};
[[nodiscard]] CaseFrame frame_of(const Facts& facts);

/// The cell of the case's row that always holds for `limits`; nothing when it states none.
[[nodiscard]] std::optional<double> stated_room_mm(const Facts& facts, std::string_view limits);

/// The middle of slot `position` along z, and whether board and slot are placed.
[[nodiscard]] Plane slot_z(const CaseFrame& frame, int position);

[[nodiscard]] inline Extent span_of(double low_mm, double high_mm, bool placed, bool sized = true) {
  return {.low_mm = low_mm, .high_mm = high_mm, .placed = placed, .sized = sized};
}
[[nodiscard]] inline Extent around(double middle_mm, double size_mm, bool placed,
                                   bool sized = true) {
  return span_of(middle_mm - 0.5 * size_mm, middle_mm + 0.5 * size_mm, placed, sized);
}

}  // namespace rigproof::fit
