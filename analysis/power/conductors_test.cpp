// Wire against the published gauge table, contacts against arithmetic; excursions against the
// design guide's table.
#include "analysis/power/conductors.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "analysis/power/excursions.hpp"

namespace rigproof::power {
namespace {

// ohm per 1000 ft at 20 degrees. How known: looked up, a public wire table (16 to 24); the rest
// computed and agreeing (check-values B5). 1000 ft = 304.8 m exactly.
TEST(Wire, ResistanceOfTheGauges) {
  const struct {
    int gauge;
    double ohm_per_1000_ft;
  } rows[] = {{12, 1.588},  {14, 2.525},  {16, 4.015},  {18, 6.385}, {20, 10.152},
              {22, 16.141}, {24, 25.668}, {26, 40.814}, {28, 64.897}};
  for (const auto& row : rows)
    EXPECT_NEAR(ohm_per_m(row.gauge) * 304.8, row.ohm_per_1000_ft, 1e-3 * row.ohm_per_1000_ft)
        << row.gauge;
}

// mohm/m at 60 degrees, same table: computed.
TEST(Wire, WarmCopperResistsMore) {
  EXPECT_NEAR(1e3 * ohm_per_m(18, 60.0), 24.241, 0.001);
  EXPECT_NEAR(1e3 * ohm_per_m(16, 60.0), 15.245, 0.001);
}

// Check-values B5, computed: 18 AWG, 0.60 m, three pairs, 12.5 A; 16 AWG, six pairs, 50 A.
TEST(Wire, DropAndLossOfTwoCables) {
  EXPECT_NEAR(cable_drop_v(12.5, 3, 0.60, 18), 0.1047, 0.00005);
  EXPECT_NEAR(cable_loss_w(12.5, 3, 0.60, 18), 1.309, 0.0005);
  EXPECT_NEAR(cable_drop_v(50.0, 6, 0.60, 16), 0.1318, 0.0001);
  EXPECT_NEAR(cable_loss_w(50.0, 6, 0.60, 16), 6.588, 0.002);
}

// Check-values B3, computed from the card specification's ratings: 150 W over three circuits 4.17
// A each, 75 W over two 3.13 A, 600 W over six 8.33 A.
TEST(Contact, EvenShares) {
  const auto even = [](const char* plug, double load_w) {
    return contact_current_a(load_w, 12.0, plug_named(plug)->circuits, 1, 1.0);
  };
  EXPECT_NEAR(even("pcie8", 150.0), 4.17, 0.005);
  EXPECT_NEAR(even("pcie6", 75.0), 3.13, 0.005);
  EXPECT_NEAR(even("12v-2x6", 600.0), 8.33, 0.005);
  EXPECT_NEAR(contact_current_a(300.0, 12.0, 3, 2, 1.1), 4.583, 0.001);
}

// 9.2 A with all contacts loaded carry 662 W, 1.10 times what the plug is for (from memory).
TEST(Contact, TheWidePlugHasATenthInHand) {
  const Plug plug = *plug_named("12v-2x6");
  EXPECT_NEAR(plug.contact_a * plug.circuits * 12.0, 662.0, 0.5);
  EXPECT_NEAR(plug.contact_a * plug.circuits * 12.0 / plug.rated_w, 1.10, 0.005);
  EXPECT_FALSE(plug_named("sata"));
}

// Table 3-3 of the design guide; how known: looked up (check-values B2).
TEST(Excursions, TheTwoColumns) {
  const auto wide = excursion_table("ATX-3.0", 1000.0, true);
  ASSERT_TRUE(wide);
  EXPECT_EQ(wide->at_most_frac, (std::array<double, 4>{2.0, 1.8, 1.6, 1.2}));
  EXPECT_EQ(wide->duty_frac, (std::array<double, 4>{0.05, 0.08, 0.125, 0.25}));
  const std::array<double, 4> second = {1.5, 1.45, 1.35, 1.1};
  EXPECT_EQ(excursion_table("ATX-3.1", 450.0, true)->at_most_frac, second);
  EXPECT_EQ(excursion_table("ATX-3.1", 750.0, false)->at_most_frac, second);
  EXPECT_FALSE(excursion_table("ATX-2.53", 750.0, true));
  EXPECT_FALSE(excursion_table("", 750.0, true));
}

// Table 3-4: with its rest between, each excursion keeps the root mean square at the rating. 1000
// W; period = time / duty. Looked up; the last column of the check computed.
TEST(Excursions, TheGuidesOwnExample) {
  const auto wide = excursion_table("ATX-3.1", 1000.0, true);
  constexpr std::array rest_w = {918.0, 897.0, 882.0, 924.0};
  for (std::size_t i = 0; i < rest_w.size(); ++i) {
    const double duty = wide->duty_frac[i];
    const double peak_w = wide->at_most_frac[i] * 1000.0;
    EXPECT_NEAR(std::sqrt(duty * peak_w * peak_w + (1.0 - duty) * rest_w[i] * rest_w[i]), 1000.0,
                1.0);
  }
}

}  // namespace
}  // namespace rigproof::power
