// Oracle: the sentences a practitioner would say, worked out by hand.
#include "app/relaxations.hpp"

#include <gtest/gtest.h>

namespace rigproof::app {
namespace {

using plan::EasedIn;
using plan::Easing;
using plan::Relaxation;
using plan::Scale;

std::string said(EasedIn in, double asked, double to) {
  const Scale scale{.in = in, .asked = asked, .step = 0.0, .values = {to}};
  return told({.how = Easing::value, .to = to, .beyond = asked}, {}, "x", scale).says;
}

TEST(RelaxationWords, AreThoseOfTheTrade) {
  EXPECT_EQ(said(EasedIn::liters, 12.0, 14.5), "2.5 l more: 14.5 l");
  EXPECT_EQ(said(EasedIn::gb, 3000.0, 2000.0), "1 TB less: 2 TB");
  EXPECT_EQ(said(EasedIn::gb, 2000.0, 1500.0), "500 GB less: 1.5 TB");
  EXPECT_EQ(said(EasedIn::gib, 48.0, 32.0), "16 GiB less: 32 GiB");
  EXPECT_EQ(said(EasedIn::days, 14.0, 26.0), "12 days older offers: 26 days");
  EXPECT_EQ(said(EasedIn::days, 14.0, 15.0), "1 day older offers: 15 days");
  EXPECT_EQ(said(EasedIn::fps, 60.0, 54.0), "6 fps less: 54 fps (looked for in whole fps)");
  EXPECT_EQ(said(EasedIn::reserve_frac, 0.2, 0.13),
            "7 percentage points less: 13 % (looked for in whole per cent)");
}

// What is rounded is rounded so that it still opens the conflict.
TEST(RelaxationWords, RoundTowardsMore) {
  EXPECT_EQ(said(EasedIn::liters, 12.0, 14.5012), "2.51 l more: 14.51 l");
  EXPECT_EQ(said(EasedIn::gb, 1000.0, 500.009), "499.99 GB less: 500 GB");
}

TEST(RelaxationWords, MoneyIsExact) {
  Brief brief;
  const Currency euro = parse_currency("EUR").value_or(Currency{});
  brief.markets = {{.market = "IE", .budget = {euro, 60000}, .sales_tax = {}}};
  const auto out =
      told({.how = Easing::value, .to = 63801.0, .beyond = {}}, brief, "markets.IE.budget", {});
  EXPECT_EQ(out.says, "38.01 EUR more: 638.01 EUR");
  ASSERT_TRUE(out.money_by && out.money_to);
  EXPECT_EQ(out.money_by->minor, 3801);
  EXPECT_EQ(out.money_to->minor, 63801);
}

TEST(RelaxationWords, YesOrNo) {
  const Relaxation drop{.how = Easing::drop, .to = 0.0, .beyond = {}};
  EXPECT_EQ(told(drop, {}, "keep.case", {}).says, "letting the kept part go");
  EXPECT_EQ(told(drop, {}, "musts.wifi", {}).says, "leaving it out");
  EXPECT_EQ(told(drop, {}, "musts.memory_gb", Scale{}).says, "nothing short of leaving it out");
}

}  // namespace
}  // namespace rigproof::app
