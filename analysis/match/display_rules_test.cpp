// Display links: clocks and fits against the check values, unknown ends, compression, packets.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "analysis/match/display_link.hpp"
#include "analysis/match/match_rules.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using match::cvt_rb2_clock_mhz;
using match::find_display_link;
using match::gbit_s;
using test_support::missing_cells;
using test_support::rule_of;
using test_support::Scene;
using test_support::TestTables;
using testing::ElementsAre;
using testing::HasSubstr;

const Rule& rule() { return rule_of(match_rules(), "match.display-link"); }

// Check values F1, column "RB v2": computed outside this program from the rule of VESA CVT 1.2
// (horizontal blanking, 460 us and the rule for lines looked up in a gist; the rest from memory).
// Tolerance: the clock exact to the 0.001 MHz printed, Gbit/s half a unit of the last digit.
TEST(PixelClock, ReducedBlankingTwoOfTheTable) {
  struct Row {
    int width, height, hz;
    double clock_mhz, bits_24, bits_30;
  };
  for (const Row& row : {Row{1920, 1080, 60, 133.320, 3.200, 4.000},
                         Row{1920, 1080, 120, 274.560, 6.589, 8.237},
                         Row{1920, 1080, 144, 333.216, 7.997, 9.996},
                         Row{1920, 1080, 165, 385.770, 9.258, 11.573},
                         Row{1920, 1080, 240, 583.200, 13.997, 17.496},
                         Row{2560, 1440, 60, 234.590, 5.630, 7.038},
                         Row{2560, 1440, 120, 483.120, 11.595, 14.494},
                         Row{2560, 1440, 144, 586.586, 14.078, 17.598},
                         Row{2560, 1440, 165, 679.100, 16.298, 20.373},
                         Row{2560, 1440, 240, 1025.798, 24.619, 30.774},
                         Row{3440, 1440, 60, 312.787, 7.507, 9.384},
                         Row{3440, 1440, 120, 644.160, 15.460, 19.325},
                         Row{3440, 1440, 144, 782.115, 18.771, 23.463},
                         Row{3440, 1440, 165, 905.467, 21.731, 27.164},
                         Row{3440, 1440, 240, 1367.731, 32.826, 41.032},
                         Row{3840, 2160, 60, 522.614, 12.543, 15.678},
                         Row{3840, 2160, 120, 1075.804, 25.819, 32.274},
                         Row{3840, 2160, 144, 1306.206, 31.349, 39.186},
                         Row{3840, 2160, 165, 1512.218, 36.293, 45.367},
                         Row{3840, 2160, 240, 2285.203, 54.845, 68.556}}) {
    const std::string mode = std::to_string(row.width) + " at " + std::to_string(row.hz);
    EXPECT_NEAR(cvt_rb2_clock_mhz(row.width, row.height, row.hz), row.clock_mhz, 1e-6) << mode;
    const auto rate = [&](double bits) {
      return gbit_s({double(row.width), double(row.height), double(row.hz), bits}, false);
    };
    EXPECT_NEAR(rate(8), row.bits_24, 0.5e-3) << mode;
    EXPECT_NEAR(rate(10), row.bits_30, 0.5e-3 + 1e-6) << mode;
  }
}

// F1, worked check (looked up in the same gist): 6016x3384 at 120 Hz has 198 blank lines,
// 2 620 304 640 pixels a second, 20.96 Gbit/s at 8 bits a pixel.
TEST(PixelClock, WorkedCheckCompressed) {
  EXPECT_NEAR(cvt_rb2_clock_mhz(6016, 3384, 120), 2620.304, 1e-6);
  EXPECT_NEAR(gbit_s({6016, 3384, 120, 10}, true), 20.96, 0.005);
}

// F2: payloads. DisplayPort looked up and computed; usable share of UHBR from memory; HDMI from
// memory and computed. FRL is held 2 % lower than the table's line rate (from memory, its note).
TEST(DisplayLinks, PayloadsOfTheTable) {
  for (const auto& [name, gbit] : {std::pair{"DisplayPort-1.1", 8.64},
                                   {"DisplayPort-1.2", 17.28},
                                   {"DisplayPort-1.4", 25.92},
                                   {"DisplayPort-2.1-UHBR10", 38.68},
                                   {"DisplayPort-2.1-UHBR13.5", 52.22},
                                   {"DisplayPort-2.1-UHBR20", 77.37},
                                   {"HDMI-1.4", 8.16},
                                   {"HDMI-2.0", 14.40},
                                   {"HDMI-2.1-FRL18", 16.00 * 0.98},
                                   {"HDMI-2.1-FRL24", 21.33 * 0.98},
                                   {"HDMI-2.1-FRL32", 28.44 * 0.98},
                                   {"HDMI-2.1-FRL40", 35.56 * 0.98},
                                   {"HDMI-2.1-FRL48", 42.67 * 0.98}}) {
    const auto link = find_display_link(name);
    ASSERT_TRUE(link) << name;
    EXPECT_NEAR(link->low_gbit_s, gbit, 0.0051) << name;
    EXPECT_EQ(link->low_gbit_s, link->high_gbit_s) << name;
  }
  EXPECT_FALSE(find_display_link("DisplayPort-9"));
  EXPECT_FALSE(find_display_link(""));
}

struct Ends {
  std::string width, height, hz, bits;
  std::string output, output_compression;
  std::string input, input_compression;
};

TestTables tables_of(const Ends& ends) {
  TestTables tables;
  tables.row("gpu", {{"id", "card"}, {"name", "Card"}}).row("gpu", {{"id", "gpu-bare"}});
  tables.row("gpu_outputs", {{"gpu", "card"},
                             {"link", ends.output},
                             {"count", "3"},
                             {"compression", ends.output_compression}});
  tables.row("display", {{"id", "screen"},
                         {"name", "Screen"},
                         {"width_px", ends.width},
                         {"height_px", ends.height},
                         {"refresh_hz", ends.hz},
                         {"bits_per_channel", ends.bits}});
  if (!ends.input.empty())
    tables.row("display_inputs", {{"display", "screen"},
                                  {"link", ends.input},
                                  {"count", "1"},
                                  {"compression", ends.input_compression}});
  return tables;
}

Claim claim(const Ends& ends) {
  Scene scene(tables_of(ends));
  return scene.take("card").take("screen").claim(rule());
}

Ends same_ends(std::string width, std::string height, std::string hz, std::string bits,
               const std::string& link) {
  return {
      std::move(width), std::move(height), std::move(hz), std::move(bits), link, "no", link, "no"};
}

// F2, fit checks (computed from the two tables); the packets take 1 to 2 % of each link.
TEST(DisplayLinkFits, OfTheTable) {
  const auto verdict = [](const char* width, const char* height, const char* hz, const char* bits,
                          const char* link) {
    return claim(same_ends(width, height, hz, bits, link)).verdict;
  };
  EXPECT_EQ(verdict("2560", "1440", "165", "10", "DisplayPort-1.4"), Verdict::holds);
  EXPECT_EQ(verdict("2560", "1440", "165", "10", "DisplayPort-1.2"), Verdict::fails);
  EXPECT_EQ(verdict("3840", "2160", "120", "8", "DisplayPort-1.4"), Verdict::fails)
      << "0.4 % are left of the link, and packets take more";
  EXPECT_EQ(verdict("3840", "2160", "120", "10", "DisplayPort-1.4"), Verdict::fails);
  EXPECT_EQ(verdict("3840", "2160", "120", "10", "HDMI-2.1-FRL48"), Verdict::holds);
  EXPECT_EQ(verdict("3840", "2160", "144", "10", "DisplayPort-2.1-UHBR10"), Verdict::fails);
  EXPECT_EQ(verdict("3840", "2160", "144", "10", "DisplayPort-2.1-UHBR13.5"), Verdict::holds);
  EXPECT_EQ(verdict("3840", "2160", "144", "10", "HDMI-2.1-FRL48"), Verdict::holds);
  EXPECT_EQ(verdict("3840", "2160", "240", "8", "DisplayPort-2.1-UHBR20"), Verdict::holds);
  EXPECT_EQ(verdict("3840", "2160", "240", "8", "DisplayPort-2.1-UHBR13.5"), Verdict::fails);
}

TEST(DisplayLinkFits, ValueLimitAndBits) {
  const Claim eight = claim(same_ends("2560", "1440", "165", "", "DisplayPort-1.4"));
  EXPECT_NEAR(eight.value->value, 16.298, 0.5e-3) << "8 bits a channel where nothing is said";
  EXPECT_NEAR(eight.limit->value, 25.92 * 0.985, 1e-3) << "the middle of 1 and 2 %";
  EXPECT_THAT(eight.statement, HasSubstr("2560x1440 at 165 Hz, 8 bit a channel"));
  EXPECT_THAT(eight.statement, HasSubstr("DisplayPort-1.4, without compression"));
  EXPECT_EQ(eight.basis, Basis::standard);
}

// 3840x2160 with need = p of the link: it holds where packets take at most 1 - p. At 118.74 Hz the
// clock is 1063.6 MHz: 25.527 Gbit/s, 98.48 % of 25.92; (1.52 - 1) / (2 - 1) = 52 % of the draws.
TEST(DisplayLinkFits, ThinWherePacketsDecide) {
  const Claim thin = claim(same_ends("3840", "2160", "118.74", "8", "DisplayPort-1.4"));
  const double share = thin.value->value / 25.92;
  ASSERT_GT(share, 0.982);
  ASSERT_LT(share, 0.985);
  EXPECT_EQ(thin.verdict, Verdict::thin);
  EXPECT_NEAR(*thin.odds, (1.0 - share - 0.01) / 0.01, 1.5 / 256) << "stratified draws";
}

TEST(DisplayLinkFits, TheSlowerEndDecides) {
  Ends ends = same_ends("3840", "2160", "144", "8", "DisplayPort-2.1-UHBR20");
  EXPECT_EQ(claim(ends).verdict, Verdict::holds);
  ends.input = "DisplayPort-1.4";
  EXPECT_EQ(claim(ends).verdict, Verdict::fails);
  ends.input = "HDMI-2.1-FRL48";
  const Claim apart = claim(ends);
  EXPECT_EQ(apart.verdict, Verdict::fails) << "no link of one family";
  EXPECT_EQ(apart.limit->value, 0.0);
  EXPECT_THAT(apart.statement, HasSubstr("no link of one family"));
}

// 3840x2160 at 120, 30 bit is 32.27 Gbit/s; compressed to 8 bits a pixel 8.61 (F2: HBR3 only so).
TEST(Compression, OnlyIfBothEndsDeclareIt) {
  Ends ends = same_ends("3840", "2160", "120", "10", "DisplayPort-1.4");
  EXPECT_EQ(claim(ends).verdict, Verdict::fails);
  ends.output_compression = "yes";
  EXPECT_EQ(claim(ends).verdict, Verdict::fails) << "the display says no";
  ends.input_compression = "yes";
  const Claim both = claim(ends);
  EXPECT_EQ(both.verdict, Verdict::holds);
  EXPECT_NEAR(both.value->value, 1075.804 * 8 / 1000, 1e-3);
  EXPECT_THAT(both.statement, HasSubstr("with compression"));
  ends.input_compression = "";
  const Claim open = claim(ends);
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open),
              ElementsAre("display_inputs.screen/DisplayPort-1.4.compression"));
  ends = same_ends("2560", "1440", "144", "8", "DisplayPort-1.4");
  ends.input_compression = "";
  EXPECT_EQ(claim(ends).verdict, Verdict::holds) << "it does not matter here";
}

TEST(DisplayLinkUnknown, LinksThatTheTableDoesNotKnow) {
  Ends ends = same_ends("2560", "1440", "144", "8", "Lightpipe-3");
  const Claim strange = claim(ends);
  EXPECT_EQ(strange.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(strange), ElementsAre("gpu_outputs.card/Lightpipe-3.link",
                                                  "display_inputs.screen/Lightpipe-3.link"));
  // A version that leaves its rate open: from 14.40 to 41.8 Gbit/s.
  EXPECT_EQ(claim(same_ends("2560", "1440", "120", "8", "HDMI-2.1")).verdict, Verdict::holds);
  EXPECT_EQ(claim(same_ends("3840", "2160", "240", "8", "HDMI-2.1")).verdict, Verdict::fails);
  const Claim open = claim(same_ends("3840", "2160", "144", "8", "HDMI-2.1"));
  EXPECT_EQ(open.verdict, Verdict::unknown);
  EXPECT_THAT(missing_cells(open),
              ElementsAre("gpu_outputs.card/HDMI-2.1.link", "display_inputs.screen/HDMI-2.1.link"));
}

TEST(DisplayLinkUnknown, AbsentCellsAreNamed) {
  Ends ends = same_ends("2560", "", "144", "8", "DisplayPort-1.4");
  EXPECT_THAT(missing_cells(claim(ends)), ElementsAre("display.screen.height_px"));
  ends = same_ends("2560", "1440", "144", "8", "DisplayPort-1.4");
  ends.input = "";
  EXPECT_THAT(missing_cells(claim(ends)), ElementsAre("display_inputs.screen.*"));
  Scene bare(tables_of(same_ends("2560", "1440", "144", "8", "DisplayPort-1.4")));
  EXPECT_THAT(missing_cells(bare.take("gpu-bare").take("screen").claim(rule())),
              ElementsAre("gpu_outputs.gpu-bare.*"));
}

TEST(BriefsDisplay, OnlyTheCardsOutputsCount) {
  Ends ends = same_ends("3840", "2160", "144", "8", "DisplayPort-2.1-UHBR10");
  ends.output_compression = "yes";
  Scene scene(tables_of(ends));
  scene.take("card");
  EXPECT_EQ(scene.places(rule()), 0) << "nobody asked";
  scene.brief.display = DisplayGoal{3840, 2160, 144.0};
  const Claim fed = scene.claim(rule());
  EXPECT_EQ(fed.verdict, Verdict::holds);
  EXPECT_THAT(fed.statement, HasSubstr("the card's outputs alone count"));
  scene.brief.display = DisplayGoal{3840, 2160, 240.0};
  EXPECT_EQ(scene.claim(rule()).verdict, Verdict::fails)
      << "no compression unless the display declares it too";
  EXPECT_EQ(scene.take("screen").places(rule()), 1);
  EXPECT_NEAR(scene.claim(rule()).value->value, 31.349, 0.5e-3)
      << "the part's own numbers win: 144 Hz";
  Scene none(tables_of(ends));
  none.brief.display = DisplayGoal{1920, 1080, 60.0};
  const Claim board = none.claim(rule());
  EXPECT_EQ(board.verdict, Verdict::unknown);
  EXPECT_THAT(board.statement, HasSubstr("no table says"));
}

}  // namespace
}  // namespace rigproof
