#include "analysis/fit/standards.hpp"

#include <algorithm>

namespace rigproof::fit {
namespace {

constexpr Hole hole(char letter, double x_in, double y_in) {
  return {.letter = letter, .x_mm = inches_mm(x_in), .y_mm = inches_mm(y_in)};
}
constexpr Hole of(Hole hole, bool atx, bool microatx, bool mini_itx) {
  hole.atx = atx;
  hole.microatx = microatx;
  hole.mini_itx = mini_itx;
  return hole;
}
// The specification says that R and S hold the board towards its front edge, which sits badly with
// y = 6.5 in. R is required on a full-width microATX board, S is not: [microatx-1-2] 2.2, looked
// up.
constexpr Hole doubtful(Hole hole, bool may_be_left) {
  hole.doubtful = true;
  hole.may_be_left = may_be_left;
  return hole;
}

// Columns: ATX, microATX, Mini-ITX. Sets: [microatx-1-2] Figure 2 and [mini-itx-addendum]. A, G and
// K are ATX's own; B comes from the full-AT pattern; F was optional before ATX 2.1.
constexpr std::array holes = {of(hole('A', 11.35, 0.40), true, false, false),
                              of(hole('B', 8.25, 0.40), false, true, false),
                              of(hole('C', 6.45, 0.40), true, true, true),
                              of(hole('F', 0.25, 1.30), true, true, true),
                              of(hole('G', 11.35, 6.50), true, false, false),
                              of(hole('H', 6.45, 6.50), true, true, true),
                              of(hole('J', 0.25, 6.50), true, true, true),
                              of(hole('K', 11.35, 9.35), true, false, false),
                              of(hole('L', 6.45, 9.35), true, true, false),
                              of(hole('M', 0.25, 9.35), true, true, false),
                              doubtful(of(hole('R', 9.05, 6.50), false, true, false), false),
                              doubtful(of(hole('S', 8.25, 6.50), false, true, false), true)};

constexpr double hole_c_x_mm = holes[2].x_mm;
static_assert(holes[2].letter == 'C');

// [board-cad]: 47.29 mm from hole B of a microATX board, which lies 45.72 mm from C. The same file
// draws the first slot of a microATX board 80 mm from the slots' edge, 1.58 mm farther out.
constexpr double first_slot_from_hole_c_mm = 47.29 - 45.72;
constexpr double slot_plus_minus_mm = 1.6;

constexpr Body supply(double width_mm, double height_mm, double length_mm, Known known) {
  return {.width_mm = width_mm,
          .height_mm = height_mm,
          .length_mm = length_mm,
          .plus_minus_mm = 1.0,
          .known = known};
}

}  // namespace

std::string_view name_of(Known known) {
  switch (known) {
    using enum Known;
    case looked_up:
      return "looked up";
    case computed:
      return "computed";
    case from_memory:
      return "from memory";
    case common_practice:
      return "common practice, no source";
    case doubtful:
      return "doubtful";
    case not_known:
      return "not known";
  }
  return "not known";
}

std::optional<FormFactor> form_factor_of(std::string_view word) {
  for (const FormFactor form_factor : all_form_factors)
    if (name_of(form_factor) == word) return form_factor;
  return std::nullopt;
}

std::string_view name_of(FormFactor form_factor) {
  switch (form_factor) {
    using enum FormFactor;
    case atx:
      return "ATX";
    case microatx:
      return "microATX";
    case mini_itx:
      return "Mini-ITX";
  }
  return "";
}

Outline outline_of(FormFactor form_factor) {
  switch (form_factor) {
    using enum FormFactor;
    case atx:  // [microatx-1-2] Table 3, which gives both; [atx-2-2] section 3
      return {.width_mm = inches_mm(12.0), .depth_mm = inches_mm(9.6), .known = Known::looked_up};
    case microatx:  // [microatx-1-2] Table 3
      return {.width_mm = inches_mm(9.6), .depth_mm = inches_mm(9.6), .known = Known::looked_up};
    case mini_itx:  // [mini-itx-addendum] Table 1
      return {.width_mm = 170.0, .depth_mm = 170.0, .known = Known::looked_up};
  }
  return {};
}

bool Hole::is_of(FormFactor form_factor) const {
  switch (form_factor) {
    case FormFactor::atx:
      return atx;
    case FormFactor::microatx:
      return microatx;
    case FormFactor::mini_itx:
      return mini_itx;
  }
  return false;
}

std::span<const Hole> mounting_holes() { return holes; }

const Hole* find_hole(char letter) {
  const auto* const found = std::ranges::find(holes, letter, &Hole::letter);
  return found == holes.end() ? nullptr : found;
}

// (S3)
Span aperture_x() {
  const double high_mm = hole_c_x_mm - aperture_from_hole_c_mm;
  return {.low_mm = high_mm - aperture_width_mm, .high_mm = high_mm};
}

int most_slots(FormFactor form_factor) {
  switch (form_factor) {
    case FormFactor::atx:
      return 7;
    case FormFactor::microatx:
      return 4;
    case FormFactor::mini_itx:
      return 1;
  }
  return 0;
}

// (S2)
std::optional<SlotPlace> slot_place(FormFactor form_factor, int slot) {
  if (slot < 1 || slot > most_slots(form_factor)) return std::nullopt;
  return SlotPlace{.x_mm = hole_c_x_mm - first_slot_from_hole_c_mm + slot_pitch_mm * (slot - 1),
                   .plus_minus_mm = slot_plus_minus_mm,
                   .known = Known::doubtful};
}

std::optional<Body> supply_body(std::string_view form) {
  using enum Known;
  // [supply-outlines] for all; deeper ATX bodies are common, 160 to 200 mm.
  if (form == "ATX") return supply(150.0, 86.0, 140.0, looked_up);
  if (form == "SFX") return supply(125.0, 63.5, 100.0, from_memory);
  if (form == "SFX-L") return supply(125.0, 63.5, 130.0, common_practice);  // no standard has it
  if (form == "TFX") return supply(85.0, 65.0, 175.0, from_memory);
  return std::nullopt;
}

std::optional<FanPitch> fan_pitch(double size_mm) {
  struct Row {
    double size_mm;
    FanPitch pitch;
  };
  using enum Known;
  // [fan-drawings]; 200 mm: 154 is the most frequent, 110, 170 and 180 occur.
  static constexpr std::array rows = {
      Row{40.0, {32.0, 0.3, looked_up}},   Row{60.0, {50.0, 0.3, looked_up}},
      Row{80.0, {71.5, 0.3, looked_up}},   Row{92.0, {82.5, 0.3, from_memory}},
      Row{120.0, {105.0, 0.3, looked_up}}, Row{140.0, {124.5, 0.5, from_memory}},
      Row{200.0, {154.0, 44.0, doubtful}}};
  const auto* const found = std::ranges::find(rows, size_mm, &Row::size_mm);
  if (found == rows.end()) return std::nullopt;
  return found->pitch;
}

std::string_view name_of(Screw screw) {
  switch (screw) {
    using enum Screw;
    case unc_6_32:
      return "6-32 UNC";
    case m3:
      return "M3";
    case m2:
      return "M2";
    case fan:
      return "fan screw, cuts its own thread";
    case unc_6_32_or_m3:
      return "6-32 UNC or M3";
  }
  return "";
}

std::optional<DriveForm> drive_form(std::string_view mounting) {
  // [sff-8201] A4, A6 and the highest A1; bodies of 5, 7, 9.5 and 15 mm are common. Screw: A26.
  if (mounting == "bay-2.5")
    return DriveForm{.body = {.width_mm = 69.85,
                              .height_mm = 19.05,
                              .length_mm = 100.45,
                              .known = Known::looked_up},
                     .screw = Screw::m3,
                     .screws = 4,
                     .screw_known = Known::looked_up};
  // [sff-8301] Table 3-1: A3, A2 and the highest A1; 17.8 and 26.1 mm are common.
  if (mounting == "bay-3.5")
    return DriveForm{.body = {.width_mm = 101.6,
                              .height_mm = 42.0,
                              .length_mm = 147.0,
                              .known = Known::looked_up},
                     .screw = Screw::unc_6_32,
                     .screws = 4,
                     .screw_known = Known::looked_up};
  return std::nullopt;
}

std::optional<M2Size> m2_size(std::string_view code) {
  if (code.starts_with("M.2-")) code.remove_prefix(4);
  if (code.size() < 4 || code.size() > 5) return std::nullopt;
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  if (!std::ranges::all_of(code, digit)) return std::nullopt;
  const auto number = [](std::string_view digits) {
    int value = 0;
    for (const char c : digits) value = 10 * value + (c - '0');
    return value;
  };
  const M2Size size{.width_mm = number(code.substr(0, 2)), .length_mm = number(code.substr(2))};
  const bool known = std::ranges::find(m2_widths_mm, size.width_mm) != m2_widths_mm.end() &&
                     std::ranges::find(m2_lengths_mm, size.length_mm) != m2_lengths_mm.end();
  return known ? std::optional(size) : std::nullopt;
}

}  // namespace rigproof::fit
