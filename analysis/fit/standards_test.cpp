// The numbers that standards fix, against the check values of the project (A1 to A5 there), with
// how each of those is known repeated beside it. R and S are tested for their doubtful mark alone.
#include "analysis/fit/standards.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>
#include <stdexcept>
#include <string>

#include "base/units.hpp"

namespace rigproof::fit {
namespace {

using enum FormFactor;

const Hole& hole(char letter) {
  const Hole* found = find_hole(letter);
  if (found == nullptr) throw std::invalid_argument(std::string("no hole ") + letter);
  return *found;
}

std::string letters_of(FormFactor form_factor) {
  std::string letters;
  for (const Hole& each : mounting_holes())
    if (each.is_of(form_factor)) letters += each.letter;
  return letters;
}

// How known: ATX and microATX looked up (microATX 1.2 Table 3), Mini-ITX looked up (a public CAD
// file, and since then the addendum's Table 1). The table prints 305 and 244 mm beside the inches:
// half a millimetre of rounding.
TEST(BoardOutlines, AreThoseOfTheTable) {
  EXPECT_NEAR(outline_of(atx).width_mm, 305.0, 0.5);
  EXPECT_NEAR(outline_of(atx).depth_mm, 244.0, 0.5);
  EXPECT_NEAR(outline_of(microatx).width_mm, 244.0, 0.5);
  EXPECT_NEAR(outline_of(microatx).depth_mm, 244.0, 0.5);
  EXPECT_DOUBLE_EQ(outline_of(mini_itx).width_mm, 170.0);
  EXPECT_DOUBLE_EQ(outline_of(mini_itx).depth_mm, 170.0);
  for (const FormFactor each : all_form_factors)
    EXPECT_EQ(outline_of(each).known, Known::looked_up) << name_of(each);
}

TEST(BoardOutlines, ExtendedAtxHasNone) {  // boards under that name are 257 to 330 mm deep
  EXPECT_FALSE(form_factor_of("Extended ATX"));
  EXPECT_FALSE(form_factor_of("E-ATX"));
  EXPECT_FALSE(form_factor_of("atx"));  // the catalog's words, letter by letter
  EXPECT_FALSE(form_factor_of(""));
  EXPECT_EQ(form_factor_of("microATX"), microatx);
}

// How known: looked up in two public CAD files and a third for Mini-ITX, which agree; the drawing
// was not opened. The check values print both inches and mm; these are their mm.
TEST(MountingHoles, LieWhereTheTableSays) {
  struct Row {
    char letter;
    double x_mm, y_mm;
  };
  for (const Row& row : {Row{'A', 288.29, 10.16}, Row{'B', 209.55, 10.16}, Row{'C', 163.83, 10.16},
                         Row{'F', 6.35, 33.02}, Row{'G', 288.29, 165.10}, Row{'H', 163.83, 165.10},
                         Row{'J', 6.35, 165.10}, Row{'K', 288.29, 237.49}, Row{'L', 163.83, 237.49},
                         Row{'M', 6.35, 237.49}}) {
    EXPECT_NEAR(hole(row.letter).x_mm, row.x_mm, 0.005) << row.letter;
    EXPECT_NEAR(hole(row.letter).y_mm, row.y_mm, 0.005) << row.letter;
  }
}

// How known: looked up, a CAD file for Mini-ITX that measures from C, along y first. Its numbers
// are differences and share no table with the places above.
TEST(MountingHoles, MiniItxDifferencesFromC) {
  const Hole& c = hole('C');
  EXPECT_NEAR(hole('F').y_mm - c.y_mm, 22.86, 0.005);
  EXPECT_NEAR(c.x_mm - hole('F').x_mm, 157.48, 0.005);
  EXPECT_NEAR(hole('H').y_mm - c.y_mm, 154.94, 0.005);
  EXPECT_NEAR(hole('H').x_mm, c.x_mm, 0.005);
  EXPECT_NEAR(hole('J').y_mm - c.y_mm, 154.94, 0.005);
  EXPECT_NEAR(c.x_mm - hole('J').x_mm, 157.48, 0.005);
}

// How known: from memory, the drawing's own dimensions in inches: they follow from the places.
TEST(MountingHoles, DrawingDimensionsFollow) {
  EXPECT_NEAR(hole('A').x_mm - hole('F').x_mm, 11.100 * 25.4, 0.005);
  EXPECT_NEAR(hole('A').x_mm - hole('C').x_mm, 4.900 * 25.4, 0.005);
  EXPECT_NEAR(hole('H').y_mm - hole('C').y_mm, 6.100 * 25.4, 0.005);
  EXPECT_NEAR(hole('L').y_mm - hole('C').y_mm, 8.950 * 25.4, 0.005);
  EXPECT_NEAR(hole('F').y_mm - hole('C').y_mm, 0.900 * 25.4, 0.005);
  EXPECT_NEAR(hole('C').y_mm, 0.400 * 25.4, 0.005);
  EXPECT_NEAR(outline_of(atx).width_mm - hole('A').x_mm, 0.650 * 25.4, 0.005);
}

// How known: looked up, microATX 1.2 Figure 2 table; the intersection is computed.
TEST(MountingHoles, SetsOfTheFormFactors) {
  EXPECT_EQ(letters_of(atx), "ACFGHJKLM");
  EXPECT_EQ(letters_of(microatx), "BCFHJLMRS");
  EXPECT_EQ(letters_of(mini_itx), "CFHJ");
  std::string shared;
  for (const Hole& each : mounting_holes())
    if (each.atx && each.microatx) shared += each.letter;
  EXPECT_EQ(shared, "CFHJLM");
}

TEST(MountingHoles, OnlyRAndSAreDoubtful) {
  std::string doubtful;
  for (const Hole& each : mounting_holes())
    if (each.doubtful) doubtful += each.letter;
  EXPECT_EQ(doubtful, "RS");
}

// How known: looked up, microATX 1.2 section 2.2: R required on a full-width board, S optional.
TEST(MountingHoles, OnlySMayBeLeftOut) {
  for (const Hole& each : mounting_holes())
    EXPECT_EQ(each.may_be_left, each.letter == 'S') << each.letter;
}

TEST(MountingHoles, LieInsideTheOutline) {
  for (const FormFactor form_factor : all_form_factors)
    for (const Hole& each : mounting_holes()) {
      if (!each.is_of(form_factor) || each.doubtful) continue;
      const Outline outline = outline_of(form_factor);
      const double radius_mm = hole_diameter_mm / 2.0;
      EXPECT_GT(each.x_mm, radius_mm) << name_of(form_factor) << each.letter;
      EXPECT_GT(each.y_mm, radius_mm) << name_of(form_factor) << each.letter;
      EXPECT_LT(each.x_mm, outline.width_mm - radius_mm) << name_of(form_factor) << each.letter;
      EXPECT_LT(each.y_mm, outline.depth_mm - radius_mm) << name_of(form_factor) << each.letter;
    }
}

TEST(MountingHoles, LettersAreUniqueAndInOrder) {
  std::set<char> seen;
  char last = 0;
  for (const Hole& each : mounting_holes()) {
    EXPECT_TRUE(seen.insert(each.letter).second) << each.letter;
    EXPECT_GT(each.letter, last);
    last = each.letter;
  }
  EXPECT_EQ(seen.size(), 12U);
  EXPECT_EQ(find_hole('D'), nullptr);
}

TEST(Standards, InchesAreThoseOfTheUnitTable) {
  const auto table = conversion("in", "mm");
  ASSERT_TRUE(table);
  for (const double inches : {0.062, 1.0, 12.0})
    EXPECT_NEAR(inches_mm(inches), (*table)(inches), 1e-12) << inches;
}

// How known: hole diameter looked up (a CAD file) and from memory for the clause; thickness,
// aperture, keep-out and the height above it looked up (microATX 1.2 Figure 4 notes); pitch from
// memory; standoff height common practice, no source (1/4 in is 6.35 mm).
TEST(Standards, PlainNumbersOfTheBoard) {
  EXPECT_NEAR(hole_diameter_mm, 3.96, 0.005);
  EXPECT_NEAR(board_thickness_mm, 1.57, 0.006);
  EXPECT_DOUBLE_EQ(board_thickness_plus_minus_frac, 0.10);
  EXPECT_NEAR(aperture_width_mm, 158.75, 0.005);
  EXPECT_NEAR(aperture_height_mm, 44.45, 0.005);
  EXPECT_NEAR(aperture_keep_out_mm, 2.54, 0.005);
  EXPECT_NEAR(board_top_above_aperture_mm, 3.81, 0.005);
  EXPECT_NEAR(slot_pitch_mm, 20.32, 0.005);
  EXPECT_NEAR(standoff_height_mm, 6.5, 0.2);
}

// How known: looked up. One CAD file puts the opening's edge 0.65 + 5.196 in from the slots' edge
// of an ATX board: independent of the 7.52 mm that the code uses. The sum 6.35 + 7.52 + 158.75 =
// 172.62 mm, for a Mini-ITX board of 170.18 mm (6.7 in), is from the source of the 7.52: it checks
// only that the code counts from the right hole and in the right direction.
TEST(Aperture, LiesWhereAnotherFilePutsIt) {
  const Span aperture = aperture_x();
  EXPECT_NEAR(outline_of(atx).width_mm - aperture.high_mm, (0.65 + 5.196) * 25.4, 0.05);
  EXPECT_NEAR(170.18 - aperture.low_mm, 172.62, 0.05);
  EXPECT_NEAR(aperture.high_mm - aperture.low_mm, 158.75, 0.005);
}

// How known: 4 looked up (microATX 1.2 section 2.3.1), 7 looked up on a web page (from memory for
// the clause), 1 common practice.
TEST(Slots, NumberOfThem) {
  EXPECT_EQ(most_slots(atx), 7);
  EXPECT_EQ(most_slots(microatx), 4);
  EXPECT_EQ(most_slots(mini_itx), 1);
}

// How known: doubtful. One CAD file: 47.29 - 45.72 + 6.35 mm from the slots' edge of a Mini-ITX
// board of 170.18 mm; its microATX board has 80 mm from the edge of 243.84 mm instead. The
// half-width must reach both.
TEST(Slots, HalfWidthReachesBothPlacesFound) {
  const auto first = slot_place(mini_itx, 1);
  ASSERT_TRUE(first);
  EXPECT_EQ(first->known, Known::doubtful);
  const double from_mini_itx_mm = 170.18 - (47.29 - 45.72 + 6.35);
  const double from_microatx_mm = 243.84 - 80.0;
  EXPECT_LE(std::abs(first->x_mm - from_mini_itx_mm), first->plus_minus_mm);
  EXPECT_LE(std::abs(first->x_mm - from_microatx_mm), first->plus_minus_mm);
}

// The pitch is from memory. microATX is ATX less three slots: 60.96 mm of width, computed from the
// outlines that were looked up, so the last slot of both leaves the same rim.
TEST(Slots, AreOnePitchApartAndInsideTheBoard) {
  for (const FormFactor form_factor : all_form_factors) {
    for (int slot = 1; slot <= most_slots(form_factor); ++slot) {
      const auto place = slot_place(form_factor, slot);
      ASSERT_TRUE(place) << slot;
      EXPECT_LT(place->x_mm + place->plus_minus_mm, outline_of(form_factor).width_mm) << slot;
      EXPECT_DOUBLE_EQ(place->x_mm, slot_place(atx, slot)->x_mm) << slot;
      if (slot > 1) {
        EXPECT_NEAR(place->x_mm - slot_place(form_factor, slot - 1)->x_mm, 20.32, 1e-9);
      }
    }
    EXPECT_FALSE(slot_place(form_factor, most_slots(form_factor) + 1));
    EXPECT_FALSE(slot_place(form_factor, 0));
  }
  EXPECT_NEAR(outline_of(atx).width_mm - slot_place(atx, 7)->x_mm,
              outline_of(microatx).width_mm - slot_place(microatx, 4)->x_mm, 1e-9);
}

TEST(Bodies, Supplies) {
  const auto is = [](std::string_view form, double width_mm, double height_mm, double length_mm,
                     Known known) {
    const auto body = supply_body(form);
    ASSERT_TRUE(body) << form;
    EXPECT_DOUBLE_EQ(body->width_mm, width_mm) << form;
    EXPECT_DOUBLE_EQ(body->height_mm, height_mm) << form;
    EXPECT_DOUBLE_EQ(body->length_mm, length_mm) << form;
    EXPECT_DOUBLE_EQ(body->plus_minus_mm, 1.0) << form;
    EXPECT_EQ(body->known, known) << form;
  };
  is("ATX", 150.0, 86.0, 140.0, Known::looked_up);          // looked up
  is("SFX", 125.0, 63.5, 100.0, Known::from_memory);        // from memory
  is("SFX-L", 125.0, 63.5, 130.0, Known::common_practice);  // common practice, no source
  is("TFX", 85.0, 65.0, 175.0, Known::from_memory);         // from memory
  EXPECT_FALSE(supply_body("Flex"));
  EXPECT_FALSE(supply_body(""));
}

TEST(Bodies, FanPitches) {
  struct Row {
    double size_mm, pitch_mm, plus_minus_mm;
    Known known;
  };
  for (const Row& row : {Row{40, 32.0, 0.3, Known::looked_up},         // looked up
                         Row{60, 50.0, 0.3, Known::looked_up},         // looked up
                         Row{80, 71.5, 0.3, Known::looked_up},         // looked up
                         Row{92, 82.5, 0.3, Known::from_memory},       // from memory
                         Row{120, 105.0, 0.3, Known::looked_up},       // looked up
                         Row{140, 124.5, 0.5, Known::from_memory}}) {  // from memory
    const auto pitch = fan_pitch(row.size_mm);
    ASSERT_TRUE(pitch) << row.size_mm;
    EXPECT_DOUBLE_EQ(pitch->pitch_mm, row.pitch_mm);
    EXPECT_DOUBLE_EQ(pitch->plus_minus_mm, row.plus_minus_mm);
    EXPECT_EQ(pitch->known, row.known) << row.size_mm;
  }
  // Doubtful, common practice: 154 mm is the most frequent, 110, 170 and 180 occur.
  const auto largest = fan_pitch(200);
  ASSERT_TRUE(largest);
  EXPECT_EQ(largest->known, Known::doubtful);
  for (const double seen_mm : {110.0, 154.0, 170.0, 180.0})
    EXPECT_LE(std::abs(largest->pitch_mm - seen_mm), largest->plus_minus_mm) << seen_mm;
  EXPECT_FALSE(fan_pitch(180));
  EXPECT_FALSE(fan_pitch(120.5));
}

// How known: looked up, a public library that repeats the tables of SFF-8201 and SFF-8301; 3.5 in
// and 2.5 in name the discs, not these bodies. 4.000 in is printed there beside 101.60 mm, 5.787 in
// beside 147.00 mm and 1.654 in beside 42.00 mm. Screws: looked up there; the check values have
// 6-32 and M3 as common practice.
TEST(Bodies, Drives) {
  const auto large = drive_form("bay-3.5");
  ASSERT_TRUE(large);
  EXPECT_NEAR(large->body.width_mm, 4.000 * 25.4, 0.02);
  EXPECT_NEAR(large->body.length_mm, 5.787 * 25.4, 0.02);
  EXPECT_NEAR(large->body.height_mm, 1.654 * 25.4, 0.02);
  EXPECT_EQ(large->screw, Screw::unc_6_32);
  const auto small = drive_form("bay-2.5");
  ASSERT_TRUE(small);
  EXPECT_NEAR(small->body.width_mm, 2.750 * 25.4, 0.02);  // 69.85 mm, from memory in inches
  EXPECT_DOUBLE_EQ(small->body.length_mm, 100.45);
  EXPECT_EQ(small->screw, Screw::m3);
  EXPECT_EQ(small->screw_known, Known::looked_up);
  EXPECT_FALSE(drive_form("M.2-2280"));
}

// How known: looked up, a leaflet on M.2 size codes.
TEST(M2, CodesAreWidthThenLength) {
  const auto size = m2_size("M.2-22110");
  ASSERT_TRUE(size);
  EXPECT_EQ(size->width_mm, 22);
  EXPECT_EQ(size->length_mm, 110);
  ASSERT_TRUE(m2_size("2280"));
  EXPECT_EQ(m2_size("2280")->length_mm, 80);
  EXPECT_FALSE(m2_size("2281"));
  EXPECT_FALSE(m2_size("2380"));
  EXPECT_FALSE(m2_size("bay-2.5"));
  EXPECT_FALSE(m2_size("M.2-"));
  EXPECT_FALSE(m2_size("M.2-221100"));
  EXPECT_FALSE(m2_size("22-80"));
}

TEST(Known, EveryWordIsItsOwn) {
  std::set<std::string_view> words;
  for (const Known known : {Known::looked_up, Known::computed, Known::from_memory,
                            Known::common_practice, Known::doubtful, Known::not_known})
    EXPECT_TRUE(words.insert(name_of(known)).second) << name_of(known);
}

}  // namespace
}  // namespace rigproof::fit
