// What a build draws, as a user asks: against the claims, the catalog's own bytes and arithmetic.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "asking.hpp"
#include "folder.hpp"

namespace rigproof::cli_test {
namespace {

using testing::AllOf;
using testing::HasSubstr;

Json power_of(const std::string& build, const std::vector<std::string>& more = {}) {
  std::vector<std::string> words = {"power", build};
  words.insert(words.end(), more.begin(), more.end());
  return answer(words);
}

double value(const Json& quantity) { return quantity.at("value").get<double>(); }

// The cell of a part in the demo's bytes.
double cell(const std::string& table, const std::string& id, const std::string& column) {
  const Table rows = table_of(bytes_of("demo/catalog/" + table + ".csv"));
  for (const auto& row : rows)
    if (row.front() == id) return std::stod(row.at(column_of(rows, column)));
  throw std::out_of_range(id);
}

// Everything at work: the sum of what the tables state, and what power.sustained says.
TEST(Power, TheSumIsTheOneTheClaimSpeaksOf) {
  const Json power = power_of(evening_chair);
  const double sum_w = value(power.at("sums").at(3));
  const Json claims = answer({"claims", evening_chair}).at("claims");
  for (const Json& claim : claims)
    if (claim.at("id") == "power.sustained") {
      EXPECT_NEAR(value(claim.at("value")), sum_w, 1e-9);
    }
  const double by_hand_w = cell("cpu", "orrvane-rowan-46", "sustained_power_w") +
                           cell("gpu", "pollwright-beam-marl-40", "sustained_power_w") +
                           cell("board", "nimbeck-terrace-v4-micro-wifi", "power_w") +
                           cell("memory", "ullsmoor-rib-ddr5-2x16-5600-cl36", "power_w") +
                           cell("storage", "dovrelund-cobble-2-tb", "power_w") +
                           cell("cooler", "fjellum-pillar", "power_w");
  EXPECT_NEAR(sum_w, by_hand_w, 0.02 * by_hand_w);  // medians of draws
  double parts_w = 0.0;
  for (const Json& part : power.at("parts")) parts_w += value(part.at("by_load").at(3));
  EXPECT_NEAR(parts_w, sum_w, 0.01 * sum_w);
}

// A gold supply of 750 W at a share x of its rating: between the certified 92 % at half load and 90
// % at a fifth, or 89 % at full load ([eighty-plus], looked up).
TEST(Power, TheWallLiesBetweenTheCertifiedEfficiencies) {
  const Json power = power_of(evening_chair, {"--brief", living_room});
  const double sum_w = value(power.at("sums").at(3));
  const Json& ireland = power.at("walls").at(0);
  EXPECT_EQ(ireland.at("market"), "IE");
  EXPECT_EQ(ireland.at("mains"), "230 V");
  const double efficiency = sum_w / value(ireland.at("by_load").at(3));
  EXPECT_GT(efficiency, 0.89);
  EXPECT_LT(efficiency, 0.925);
  const Json& america = power.at("walls").at(2);
  EXPECT_EQ(america.at("mains"), "115 V");
  EXPECT_GT(value(america.at("by_load").at(3)), value(ireland.at("by_load").at(3)));
}

// Half an hour idle and two and a half of a title a day, two fifths of it at night.
TEST(Power, AYearByItsHours) {
  const Json power = power_of(evening_chair, {"--brief", living_room});
  const Json& ireland = power.at("walls").at(0);
  const double kwh =
      (0.5 * value(ireland.at("by_load").at(0)) + 2.5 * value(ireland.at("by_load").at(1))) *
      365.25 / 1000.0;
  EXPECT_NEAR(value(ireland.at("kwh_per_year")), kwh, 0.02 * kwh);
  EXPECT_NEAR(value(ireland.at("cost_per_year")) / value(ireland.at("kwh_per_year")),
              0.6 * 0.38 + 0.4 * 0.21, 1e-6);
}

TEST(Power, BesideItselfABuildCostsTheSame) {
  const Json same = power_of(evening_chair, {"--brief", living_room, "--beside", evening_chair});
  EXPECT_EQ(value(same.at("walls").at(0).at("cost_beside_other")), 0.0);
  EXPECT_FALSE(same.at("walls").at(0).at("cost_beside_other").contains("low")) << "it is sure";
  const Json other = power_of(
      evening_chair, {"--brief", living_room, "--beside", "demo/builds/trap-weak-stage.toml"});
  const Json back = power_of("demo/builds/trap-weak-stage.toml",
                             {"--brief", living_room, "--beside", evening_chair});
  EXPECT_NEAR(value(other.at("walls").at(1).at("cost_beside_other")),
              -value(back.at("walls").at(1).at("cost_beside_other")), 1e-6);
}

// Each line of the working is true as it stands: both sides are computed again from its own text.
TEST(Power, TheWorkingCanBeFollowed) {
  const Json power = power_of(evening_chair, {"--brief", living_room, "--show-work"});
  int sums = 0;
  int losses = 0;
  for (const Json& entry : power.at("work")) {
    const auto line = entry.get<std::string>();
    if (line.find("= ") == std::string::npos) continue;  // only a bound
    const double right = std::stod(line.substr(line.rfind("= ") + 2));
    if (line.starts_with("(P0)")) {
      std::istringstream words(line.substr(line.find(": ") + 2));
      double sum = 0.0;
      for (std::string word; words >> word && word != "=";)
        if (std::isdigit(static_cast<unsigned char>(word.front())) != 0) sum += std::stod(word);
      EXPECT_NEAR(sum, right, 0.001 * right) << line;
      ++sums;
    }
    if (line.starts_with("(P9)") && line.find("loss = ") != std::string::npos) {
      double c0 = 0, c1 = 0, c2 = 0, p = 0, again = 0;
      ASSERT_EQ(std::sscanf(line.c_str() + line.find("loss = "),
                            "loss = %lf + %lf x %lf + %lf x %lf", &c0, &c1, &p, &c2, &again),
                5)
          << line;
      EXPECT_EQ(p, again);
      EXPECT_NEAR(c0 + c1 * p + c2 * p * p, right, 0.01 * right) << line;
      ++losses;
    }
  }
  EXPECT_EQ(sums, 4);
  EXPECT_GE(losses, 4);
}

TEST(Power, ForPeople) {
  const Ran ran = ask({"power", evening_chair, "--brief", living_room});
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("LOADS, in W"), HasSubstr("at the wall in IE, certified at 230 V"),
                    HasSubstr("A YEAR OF USE"), HasSubstr("Never open a supply")));
  EXPECT_EQ(ran.exit_code, 0);
}

}  // namespace
}  // namespace rigproof::cli_test
