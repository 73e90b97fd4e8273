// How air goes through a build, as a user asks: against arithmetic of its own words and the claims.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "asking.hpp"
#include "folder.hpp"

namespace rigproof::cli_test {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

Json air_of(const std::string& build, const std::vector<std::string>& more = {}) {
  std::vector<std::string> words = {"air", build};
  words.insert(words.end(), more.begin(), more.end());
  return answer(words);
}

double value(const Json& quantity) { return quantity.at("value").get<double>(); }

// First law over the whole machine, from the printed numbers: heat = 1.184 x 1007 x flow x rise of
// the air, and 1 W/K through the walls of each room. Power is what `power` says.
TEST(Air, TheHeatThatGoesInComesOut) {
  const Json air = air_of(evening_chair, {"--brief", living_room});
  const Json power = answer({"power", evening_chair, "--brief", living_room});
  const double room_c = air.at("room_c").get<double>();
  for (std::size_t i = 0; i < 4; ++i) {
    const Json& load = air.at("loads").at(i);
    ASSERT_TRUE(load.at("known").get<bool>());
    const double by_air_w = 1.184 * 1007.0 * load.at("through_m3_h").get<double>() / 3600.0 *
                            (value(load.at("exhaust")) - room_c);
    const double walls_w =
        load.at("upper_c").get<double>() + load.at("lower_c").get<double>() - 2.0 * room_c;
    const double in_w = value(power.at("sums").at(i));
    EXPECT_NEAR(by_air_w + walls_w, in_w, 0.03 * in_w) << load.at("load");  // medians of draws
  }
}

// Levels of the sources added by hand give the level of the whole.
TEST(Air, TheLevelIsTheSumOfItsSources) {
  const Json air = air_of(evening_chair, {"--brief", living_room});
  ASSERT_EQ(air.at("loads").size(), 4U);
  for (const Json& load : air.at("loads")) {
    double sum = 0.0;
    for (const Json& source : load.at("sources"))
      sum += std::pow(10.0, value(source.at("level")) / 10.0);
    EXPECT_NEAR(value(load.at("noise")), 10.0 * std::log10(sum), 0.15) << load.at("load");
  }
}

// At full speed it is louder and nothing is hotter than at the quietest.
TEST(Air, FullSpeedIsLouderAndCooler) {
  const Json quiet = air_of(evening_chair);
  const Json fast = air_of(evening_chair, {"--speed", "100"});
  for (std::size_t i = 0; i < 4; ++i) {
    const Json& slow = quiet.at("loads").at(i);
    const Json& full = fast.at("loads").at(i);
    EXPECT_EQ(full.at("speed_percent"), 100.0);
    EXPECT_GE(value(full.at("noise")), value(slow.at("noise")));
    EXPECT_LE(value(full.at("parts").at(0).at("temperature")),
              value(slow.at("parts").at(0).at("temperature")) + 1e-9);
  }
}

TEST(Air, TheClaimSaysWhatTheLoadSays) {
  const Json air = air_of(evening_chair, {"--brief", living_room});
  for (const Json& claim : air.at("claims"))
    if (claim.at("id") == "air.noise") {
      EXPECT_NEAR(value(claim.at("value")), value(air.at("loads").at(1).at("noise")), 1e-9);
    }
}

// Both sides of each sum of the working, computed again from its own text.
TEST(Air, TheWorkingCanBeFollowed) {
  int followed = 0;
  const Json worked = air_of(evening_chair, {"--show-work"});
  for (const Json& entry : worked.at("work")) {
    const auto line = entry.get<std::string>();
    double air = 0, watts = 0, w_k = 0, temp = 0;
    const auto at = line.find("processor ");
    if (line.starts_with("(B5)") && at != std::string::npos &&
        std::sscanf(line.c_str() + at, "processor %lf + %lf / %lf = %lf", &air, &watts, &w_k,
                    &temp) == 4) {
      EXPECT_NEAR(air + watts / w_k, temp, 0.01 * temp) << line;
      ++followed;
    }
  }
  EXPECT_EQ(followed, 4);
}

// The balance of the case, level by level, and what follows, from the text again.
TEST(Air, TheWorkingOfFlowAndNoiseCanBeFollowed) {
  int balances = 0;
  int followers = 0;
  const Json worked = air_of(evening_chair, {"--show-work", "--brief", living_room});
  for (const Json& entry : worked.at("work")) {
    const auto line = entry.get<std::string>();
    const auto from = [&](const char* word) { return line.c_str() + line.find(word); };
    double a = 0, b = 0, c = 0, in = 0, d = 0, e = 0, f = 0, out = 0;
    if (line.starts_with("(A14)")) {
      ASSERT_EQ(std::sscanf(from("in by"),
                            "in by fans %lf + openings %lf + gaps %lf = %lf m3/h; out by fans %lf "
                            "+ openings %lf + gaps %lf = %lf m3/h",
                            &a, &b, &c, &in, &d, &e, &f, &out),
                8)
          << line;
      EXPECT_NEAR(a + b + c, in, 0.002 * in) << line;
      EXPECT_NEAR(d + e + f, out, 0.002 * out) << line;
      EXPECT_NEAR(in, out, 0.002 * in) << line;
      ++balances;
    }
    if (line.starts_with("(B11)") && line.find("power stage") != std::string::npos) {
      ASSERT_EQ(
          std::sscanf(from("power stage"), "power stage %lf + %lf x %lf = %lf", &a, &b, &c, &d), 4)
          << line;
      EXPECT_NEAR(a + b * c, d, 0.01 * d) << line;
      ++followers;
    }
  }
  EXPECT_EQ(balances, 4);
  EXPECT_EQ(followers, 4);
}

// What takes longer to be warm than it runs is told with its time, and a load of the brief's own
// stands beside the four.
TEST(Air, TellsHowLongItTakesAndLoadsOfTheBriefsOwn) {
  const Folder folder;
  std::string brief = bytes_of(living_room);
  brief += "\n[[loads]]\nname = \"cutting film\"\ncpu_frac = 0.9\ngpu_frac = 0.3\n";
  write_bytes(folder / "own.toml", brief);
  const Json air = air_of(evening_chair, {"--brief", folder / "own.toml"});
  ASSERT_EQ(air.at("loads").size(), 5U);
  const Json& own = air.at("loads").at(4);
  EXPECT_EQ(own.at("load"), "cutting film");
  const Json& idle = air.at("loads").at(0);
  const Json& most = air.at("loads").at(3);
  for (std::size_t i = 0; i < 2; ++i) {
    const double watts = own.at("parts").at(i).at("power_w").get<double>();
    EXPECT_GT(watts, idle.at("parts").at(i).at("power_w").get<double>());
    EXPECT_LT(watts, most.at("parts").at(i).at("power_w").get<double>());
    EXPECT_GT(value(own.at("warm").at(i).at("warm")), 30.0);
    EXPECT_GT(value(own.at("warm").at(i).at("rest")), 30.0);
  }
  EXPECT_EQ(own.at("followers").size(), 2U);  // power stage and drive
}

TEST(Air, ABuildWithoutItsCellsSaysWhichToLookUp) {
  const Folder folder;
  copy_demo(folder / "catalog", [](const std::string& table, const std::string& bytes) {
    if (table != "case_fans") return bytes;
    Table rows = table_of(bytes);
    for (std::size_t i = 1; i < rows.size(); ++i) rows[i][column_of(rows, "flow_m3_h")] = "";
    return csv_of(rows);
  });
  const Ran ran = rigproof({"air", evening_chair, "--catalog", folder / "catalog"});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("not known"), HasSubstr("LOOK UP"), HasSubstr("flow_m3_h")));
  EXPECT_THAT(ran.err, IsEmpty());
}

TEST(Air, OptionsOutOfRangeAreRefused) {
  for (const char* speed : {"5", "101", "-1", "fast"}) {
    const Ran ran = ask({"air", evening_chair, "--speed", speed});
    EXPECT_EQ(ran.exit_code, 2) << speed;
    EXPECT_THAT(ran.err, Not(IsEmpty())) << speed;
  }
}

}  // namespace
}  // namespace rigproof::cli_test
