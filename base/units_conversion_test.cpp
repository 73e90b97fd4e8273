// Against published factors: [nist-sp811] Appendix B, from memory, seven printed digits (the last
// one may be off by one half); prefixes by definition [iec-80000-13].
#include <gtest/gtest.h>

#include <algorithm>

#include "base/units.hpp"

namespace rigproof {
namespace {

double converted(double value, std::string_view from, std::string_view to) {
  const auto how = conversion(from, to);
  return how ? (*how)(value) : -1.0;
}

TEST(UnitConversion, ReproducesPrintedFactors) {
  struct Row {
    std::string_view from, to;
    double printed;
  };
  for (const Row& row :
       {Row{"in", "mm", 25.4}, Row{"ft", "mm", 304.8}, Row{"CFM", "m3/h", 4.719474e-4 * 3600.0},
        Row{"mmH2O", "Pa", 9.80665}, Row{"inH2O", "Pa", 249.0889}, Row{"lb", "g", 453.5924},
        Row{"oz", "g", 28.34952}, Row{"in3", "l", 1.638706e-5 * 1000.0},
        Row{"ft3", "l", 2.831685e-2 * 1000.0}, Row{"in2", "cm2", 6.4516}})
    EXPECT_NEAR(converted(1.0, row.from, row.to), row.printed, 1e-6 * row.printed) << row.from;
}

TEST(UnitConversion, PrefixesAreDecimalOrBinary) {
  EXPECT_DOUBLE_EQ(converted(2.0, "TB", "GB"), 2000.0);
  EXPECT_DOUBLE_EQ(converted(1.0, "GiB", "GB") * 1e9, 1073741824.0);
  EXPECT_DOUBLE_EQ(converted(1.0, "TiB", "GB") * 1e9, 1099511627776.0);
  EXPECT_DOUBLE_EQ(converted(16384.0, "MiB", "GiB"), 16.0);
  EXPECT_DOUBLE_EQ(converted(0.75, "kW", "W"), 750.0);
  EXPECT_DOUBLE_EQ(converted(8.0, "Gbit/s", "GB/s"), 1.0);
  EXPECT_DOUBLE_EQ(converted(250000.0, "ns", "ms"), 0.25);
}

// Water freezes at 32 degF and boils at 212 degF; both scales meet at -40.
TEST(UnitConversion, TemperaturesHaveAnOffset) {
  EXPECT_NEAR(converted(32.0, "degF", "degC"), 0.0, 1e-12);
  EXPECT_NEAR(converted(212.0, "degF", "degC"), 100.0, 1e-12);
  EXPECT_NEAR(converted(-40.0, "degF", "degC"), -40.0, 1e-12);
  EXPECT_NEAR(converted(273.15, "K", "degC"), 0.0, 1e-12);
}

TEST(UnitConversion, IsOnlyWithinAQuantity) {
  EXPECT_FALSE(conversion("cm", "W"));
  EXPECT_FALSE(conversion("MW", "W")) << "capital letters count";
  EXPECT_FALSE(conversion("", "mm"));
  EXPECT_EQ(converted(5.0, "mm", "mm"), 5.0);
  const auto units = units_like("mm");
  EXPECT_EQ(units.front(), "mm");
  EXPECT_NE(std::ranges::find(units, "in"), units.end());
}

// What two ways give must agree: through meters or at once, through l/s or at once.
TEST(UnitConversion, WaysRoundAgree) {
  EXPECT_DOUBLE_EQ(converted(converted(7.0, "ft", "m"), "m", "mm"), converted(7.0, "ft", "mm"));
  EXPECT_DOUBLE_EQ(converted(1.0, "ft3", "l") / 60.0 * 3.6, converted(1.0, "CFM", "m3/h"));
  EXPECT_DOUBLE_EQ(converted(converted(3.0, "GiB", "GB"), "GB", "GiB"), 3.0);
}

}  // namespace
}  // namespace rigproof
