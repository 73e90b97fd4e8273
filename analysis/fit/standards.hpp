// The geometry that standards fix for boards, supplies, fans and drives, each number beside where
// it stands and how we know it. Makers' own sizes are the catalog's business, not this file's.
//
// Frame of a board: component side up, mm. y = 0 is the rear edge (the connectors), y grows to the
// front; x = 0 is the edge away from the expansion slots, x grows towards them. Equations S1 to S4
// of README.md. No specification of a board was opened by us: "looked up" means page texts and
// public CAD files, named in docs/sources.bib under the keys.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>

namespace rigproof::fit {

/// How a number is known.
enum class Known {
  looked_up,        ///< read in a copy or second source of the document
  computed,         ///< follows from numbers that were looked up
  from_memory,      ///< nobody looked it up
  common_practice,  ///< no document fixes it
  doubtful,         ///< sources disagree, or the one there is may be misread
  not_known
};
[[nodiscard]] std::string_view name_of(Known known);  ///< "looked up", "from memory"...

/// (S1) Inches are exact in the board standards.
constexpr double inches_mm(double inches) { return 25.4 * inches; }

// --- boards

/// Outlines of the catalog's words. Extended ATX has no fixed size and is none of them.
enum class FormFactor { atx, microatx, mini_itx };
inline constexpr std::array all_form_factors = {FormFactor::atx, FormFactor::microatx,
                                                FormFactor::mini_itx};
[[nodiscard]] std::optional<FormFactor> form_factor_of(std::string_view word);
[[nodiscard]] std::string_view name_of(FormFactor form_factor);  ///< as in the catalog

/// The largest board of that form factor; many are less deep.
struct Outline {
  double width_mm = 0.0;  ///< along x
  double depth_mm = 0.0;  ///< along y
  Known known = Known::not_known;
};
[[nodiscard]] Outline outline_of(FormFactor form_factor);

struct Hole {
  char letter = '?';
  double x_mm = 0.0, y_mm = 0.0;
  bool atx = false, microatx = false, mini_itx = false;
  bool doubtful = false;     ///< the place is: never compute with it
  bool may_be_left = false;  ///< a full-width board of the form factor may leave it out

  [[nodiscard]] bool is_of(FormFactor form_factor) const;
};
/// All positions, by letter. Coordinates: looked up in public CAD files that agree [board-cad], the
/// drawing itself was not opened. Which form factor has which: looked up, [microatx-1-2] Figure 2.
[[nodiscard]] std::span<const Hole> mounting_holes();
/// nullptr when no position has that letter (D, E, I, N, O, P and Q have none).
[[nodiscard]] const Hole* find_hole(char letter);

/// Diameter of a mounting hole: looked up in a public CAD file [board-cad] (3.96 mm); that it is
/// [atx-2-2]'s is from memory.
inline constexpr double hole_diameter_mm = inches_mm(0.156);
/// Typical: looked up, [microatx-1-2] Figure 4 notes; plus-minus 10 %.
inline constexpr double board_thickness_mm = inches_mm(0.062);
inline constexpr double board_thickness_plus_minus_frac = 0.10;
/// Height of a standoff, 1/4 in or 6.5 mm: common practice, no source.
inline constexpr double standoff_height_mm = 6.5;
/// Farthest that a standoff's foot or head reaches from its axis: ours, an M3 or 6-32 standoff is 5
/// to 6 mm across its flats (common practice, no source).
inline constexpr double standoff_reach_mm = 3.5;

/// The opening for the rear connectors: looked up, [microatx-1-2] Figure 4 notes.
inline constexpr double aperture_width_mm = inches_mm(6.25);
inline constexpr double aperture_height_mm = inches_mm(1.75);
inline constexpr double aperture_keep_out_mm = inches_mm(0.1);
/// Top face of the board down to the lower edge of the opening: looked up, same notes.
inline constexpr double board_top_above_aperture_mm = inches_mm(0.150);
/// (S3) From hole C to the edge of the opening beside the slots, towards x = 0: looked up in three
/// public CAD files that agree [board-cad].
inline constexpr double aperture_from_hole_c_mm = 7.52;
/// Where the opening lies along x; the same for all form factors, since C is.
struct Span {
  double low_mm = 0.0, high_mm = 0.0;
};
[[nodiscard]] Span aperture_x();

// --- expansion slots

/// From memory for [atx-2-2] Figure 3 and [pcie-cem-5]; two public CAD files step by it
/// [board-cad].
inline constexpr double slot_pitch_mm = inches_mm(0.8);
/// ATX 7: looked up on a web page, the clause of [atx-2-2] from memory. microATX 4: looked up,
/// [microatx-1-2] 2.3.1. Mini-ITX 1: common practice.
[[nodiscard]] int most_slots(FormFactor form_factor);

/// The middle of a slot's connector, which is the middle of the card's board.
struct SlotPlace {
  double x_mm = 0.0;
  double plus_minus_mm = 0.0;
  Known known = Known::not_known;
};
/// (S2) Slot 1 is the one nearest to the processor, as `board_slots.position` counts. Nothing when
/// the form factor has no such slot. Always doubtful: the only source found is one CAD file, whose
/// two boards disagree by 1.58 mm [board-cad]; good for drawing, not for a verdict.
[[nodiscard]] std::optional<SlotPlace> slot_place(FormFactor form_factor, int slot);

// --- bodies

struct Body {
  double width_mm = 0.0;
  double height_mm = 0.0;
  double length_mm = 0.0;      ///< what the form states; makers' bodies may be longer
  double plus_minus_mm = 0.0;  ///< 0: the document's own sizes are limits
  Known known = Known::not_known;
};
/// Supplies by the catalog's words ATX, SFX, SFX-L, TFX; width and height are of the rear face.
[[nodiscard]] std::optional<Body> supply_body(std::string_view form);

struct FanPitch {
  double pitch_mm = 0.0;  ///< between neighbouring screw holes, both ways
  double plus_minus_mm = 0.0;
  Known known = Known::not_known;
};
/// In: frame size. Nothing for sizes whose pitch we do not know (180 mm).
[[nodiscard]] std::optional<FanPitch> fan_pitch(double size_mm);

enum class Screw {
  unc_6_32,  ///< No. 6-32 UNC
  m3,
  m2,
  fan,  ///< cuts its own thread in a fan's frame
  unc_6_32_or_m3
};
[[nodiscard]] std::string_view name_of(Screw screw);

struct DriveForm {
  Body body;  ///< length and height are the most it may have
  Screw screw = Screw::m3;
  int screws = 0;  ///< commonly used of its holes: common practice, no source
  Known screw_known = Known::not_known;
};
/// By the catalog's words bay-2.5 (SFF-8201) and bay-3.5 (SFF-8301).
[[nodiscard]] std::optional<DriveForm> drive_form(std::string_view mounting);

/// Module lengths the M.2 nomenclature knows: looked up, a leaflet [pcie-m2].
inline constexpr std::array m2_lengths_mm = {16, 26, 30, 38, 42, 60, 80, 110};
/// Module widths: looked up, same leaflet.
inline constexpr std::array m2_widths_mm = {12, 16, 22, 30};
struct M2Size {
  int width_mm = 0, length_mm = 0;
};
/// "M.2-2280" or "2280": 22 x 80. Nothing when width or length is none of those above.
[[nodiscard]] std::optional<M2Size> m2_size(std::string_view code);
/// M2, 3 mm long, one a module: from memory, and many boards have a clip instead.
inline constexpr Screw m2_screw = Screw::m2;

}  // namespace rigproof::fit
