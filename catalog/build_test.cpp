// Build files: read, refused, written and read back.
#include "catalog/build.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalog/brief_keys.hpp"
#include "catalog/small_catalog.hpp"

namespace rigproof {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;

const Catalog& parts() {
  static const Catalog catalog = small_catalog();
  return catalog;
}

auto read(std::string_view toml) { return read_build(toml, "b.toml", parts()); }

std::string complaint(std::string_view rest) {
  const auto build = read("name = \"a\"\n" + std::string(rest));
  if (build) return "no complaint";
  if (build.error().count() != 1) return build.error().report();
  return to_string(build.error().shown().front());
}

// Rows as small_catalog() lists them.
TEST(BuildFile, TheExampleOfThePageReadsAsWritten) {
  const auto file = read(build_example());
  ASSERT_TRUE(file) << file.error().report();
  EXPECT_EQ(file->name, "Loft cinema, first try");
  EXPECT_EQ(file->build.one(Kind::cpu), 0U);
  EXPECT_EQ(file->build.one(Kind::board), no_row);
  EXPECT_THAT(file->build.of(Kind::storage), ElementsAre(Chosen{0, 1}, Chosen{1, 1}));
  EXPECT_THAT(file->build.of(Kind::fan), ElementsAre(Chosen{0, 3}));
  EXPECT_EQ(file->build.one(Kind::chassis), 0U);
  EXPECT_THAT(file->setup.mounts,
              ElementsAre(std::pair("drive-one", "M2-1"), std::pair("fan", "front")));
}

TEST(BuildFile, MistakesAreNamedAtTheirPlace) {
  EXPECT_EQ(complaint("cpu = \"quick-eigt\"\n"),
            "b.toml:2:7: no such cpu in the catalog; expected \"quick-eight\", the nearest cpu id; "
            "got \"quick-eigt\"");
  EXPECT_THAT(complaint("cpus = \"quick-six\"\n"),
              AllOf(HasSubstr("b.toml:2:1: unknown key"), HasSubstr("\"cpu\"")));
  EXPECT_THAT(complaint("psu = \"quick-six\"\n"),
              HasSubstr("is a part of kind cpu; expected one of kind psu"));
  EXPECT_THAT(complaint("fan = []\n"), HasSubstr("b.toml:2:7: fan: the list is empty"));
  EXPECT_THAT(complaint("fan = [\"calm-fan\", \"calm-fan\"]\n"),
              HasSubstr("b.toml:2:20: this part stands twice"));
  EXPECT_THAT(complaint("fan = { id = \"calm-fan\", cuont = 2 }\n"),
              HasSubstr("\"count\", the nearest key"));
  EXPECT_THAT(complaint("fan = { count = 2 }\n"), HasSubstr("has no id"));
  EXPECT_THAT(complaint("fan = 3\n"), HasSubstr("a string: the id of a part"));
  EXPECT_THAT(complaint("fan = [[\"calm-fan\"]]\n"), HasSubstr("fan: is a list"));
  EXPECT_EQ(to_string(read("cpu = \"quick-six\"\n").error().shown().front())
                .find("b.toml:1:1: the file has no name"),
            0U);
}

TEST(BuildFile, CountsGoFromOneToTwelve) {
  const auto with = [](std::string_view count) {
    return complaint(fmt::format("fan = {{ id = \"calm-fan\", count = {} }}\n", count));
  };
  EXPECT_EQ(with("1"), "no complaint");
  EXPECT_EQ(with("12"), "no complaint");
  for (const char* wrong : {"0", "13", "-1", "2.0", "\"2\"", "9223372036854775807"})
    EXPECT_THAT(with(wrong), HasSubstr("count: ")) << wrong;
}

TEST(BuildFile, SomeKindsAreThereOnce) {
  EXPECT_THAT(complaint("cpu = [\"quick-six\", \"quick-eight\"]\n"),
              HasSubstr("more than one cpu"));
  for (const char* part : {"cpu = \"quick-six\"", "board = \"plain-board\"", "memory = \"pair-32\"",
                           "gpu = \"broad-card\"", "cooler = \"tall-tower\"",
                           "case = \"white-case\"", "psu = \"owned-psu\""}) {
    const std::string line = part;
    const std::size_t at = line.find('"');
    EXPECT_EQ(complaint(line + '\n'), "no complaint");
    EXPECT_THAT(complaint(line.substr(0, at) + "{ id = " + line.substr(at) + ", count = 2 }\n"),
                HasSubstr("more than one"));
  }
}

TEST(BuildFile, FourDifferentPartsOfAKindAndNoMore) {
  EXPECT_EQ(complaint("fan = [\"calm-fan\", \"fan-b\", \"fan-c\", \"fan-d\"]\n"), "no complaint");
  EXPECT_THAT(complaint("fan = [\"calm-fan\", \"fan-b\", \"fan-c\", \"fan-d\", \"fan-e\"]\n"),
              HasSubstr("too many different parts of kind fan; expected at most 4"));
}

TEST(BuildFile, MountsSpeakOfWhatIsInTheBuild) {
  EXPECT_EQ(complaint("[mounts]\ncooler = \"top\"\n"), "no complaint");
  EXPECT_THAT(complaint("[mounts]\ncoolr = \"top\"\n"), HasSubstr("\"cooler\""));
  EXPECT_THAT(complaint("storage = \"drive-one\"\n[mounts]\ndrive-two = \"M2-1\"\n"),
              AllOf(HasSubstr("unknown key in [mounts]"), HasSubstr("\"drive-one\"")));
  EXPECT_THAT(complaint("[mounts]\nfan = 1\n"), HasSubstr("not the name of a place"));
}

std::string fan_point(std::string_view fans, std::string_view follows, int temp_c, int percent) {
  return fmt::format(
      "[[fan_speeds]]\nfans = \"{}\"\nfollows = \"{}\"\ntemp_c = {}\nspeed_percent = {}\n", fans,
      follows, temp_c, percent);
}

TEST(BuildFile, FansTurnByStraightLinesBetweenTheirPoints) {
  const auto file =
      read("name = \"a\"\ngpu = \"broad-card\"\n" + fan_point("cooler", "cpu", 40, 30) +
           fan_point("case", "gpu", 50, 20) + fan_point("cooler", "cpu", 80, 100));
  ASSERT_TRUE(file) << file.error().report();
  const auto& [chassis, cooler] = file->setup.fans;
  ASSERT_TRUE(chassis && cooler);
  EXPECT_EQ(chassis->follows, FanSetting::Follows::gpu);
  EXPECT_EQ(cooler->follows, FanSetting::Follows::cpu);
  EXPECT_DOUBLE_EQ(cooler->speed_frac_at(0.0), 0.3);
  EXPECT_DOUBLE_EQ(cooler->speed_frac_at(40.0), 0.3);
  EXPECT_DOUBLE_EQ(cooler->speed_frac_at(60.0), 0.65);
  EXPECT_DOUBLE_EQ(cooler->speed_frac_at(80.0), 1.0);
  EXPECT_DOUBLE_EQ(cooler->speed_frac_at(200.0), 1.0);
  EXPECT_DOUBLE_EQ(chassis->speed_frac_at(99.0), 0.2);
}

TEST(BuildFile, FanPointsThatMakeNoCurveAreRefusedAtTheirCell) {
  const std::string first = "gpu = \"broad-card\"\n" + fan_point("case", "cpu", 50, 40);
  EXPECT_THAT(complaint(first + fan_point("case", "gpu", 60, 50)),
              HasSubstr("b.toml:10:11: these fans follow another temperature already"));
  EXPECT_THAT(complaint(first + fan_point("case", "cpu", 50, 50)),
              HasSubstr("b.toml:11:10: no hotter than the point before"));
  EXPECT_THAT(complaint(first + fan_point("case", "cpu", 60, 30)),
              HasSubstr("b.toml:12:17: slower than at the colder point before"));
  EXPECT_EQ(complaint(first + fan_point("cooler", "gpu", 40, 30)), "no complaint");
  EXPECT_THAT(complaint(fan_point("case", "gpu", 40, 30)),
              HasSubstr("b.toml:4:11: the build has nothing of this temperature"));
  EXPECT_THAT(complaint(fan_point("case", "coolant", 40, 30)),
              HasSubstr("nothing of this temperature"));
  EXPECT_THAT(complaint(fan_point("rear", "cpu", 40, 30)), HasSubstr("case"));
  EXPECT_THAT(complaint(fan_point("case", "cpu", 40, 130)), HasSubstr("speed_percent"));
  EXPECT_THAT(complaint(fan_point("case", "cpu", -300, 30)), HasSubstr("temp_c"));
  EXPECT_THAT(complaint("[[fan_speeds]]\nfans = \"case\"\nfollows = \"cpu\"\ntemp_c = nan\n"
                        "speed_percent = 30\n"),
              HasSubstr("temp_c"));
}

TEST(BuildFile, WhatIsWrittenReadsBackTheSame) {
  BuildFile file;
  file.name = "a \"quoted\" \\ name # \xC3\xA9 = [x]";
  ASSERT_TRUE(file.build.add(Kind::cpu, 1));
  ASSERT_TRUE(file.build.add(Kind::storage, 1));
  ASSERT_TRUE(file.build.add(Kind::storage, 0, 2));
  ASSERT_TRUE(file.build.add(Kind::fan, 4, 12));
  ASSERT_TRUE(file.build.add(Kind::chassis, 1));
  file.setup.mounts = {{"cooler", "top \"rear\""}, {"drive-two", "M2-1"}};
  file.setup.fans[1] = FanSetting{.follows = FanSetting::Follows::cpu,
                                  .points = {{.temp_c = 30.1, .speed_percent = 28.7},
                                             {.temp_c = 45.0, .speed_percent = 100.0}}};
  const std::string text = write_build(file, parts());
  EXPECT_THAT(text, HasSubstr("cpu = \"quick-six\"\n"));
  EXPECT_THAT(text, HasSubstr("storage = [\"drive-two\", { id = \"drive-one\", count = 2 }]\n"));
  const auto again = read(text);
  ASSERT_TRUE(again) << again.error().report() << text;
  EXPECT_EQ(again->name, file.name);
  EXPECT_TRUE(again->build == file.build);
  EXPECT_EQ(again->setup, file.setup);
}

TEST(Build, IsFullAtFourAndComparesByWhatIsChosen) {
  Build a;
  for (Row row = 0; row < 4; ++row) EXPECT_TRUE(a.add(Kind::fan, row));
  EXPECT_FALSE(a.add(Kind::fan, 4));
  Build b = a;
  EXPECT_TRUE(a == b);
  b.clear(Kind::fan);
  EXPECT_FALSE(a == b);
  EXPECT_FALSE(b.has(Kind::fan));
  EXPECT_TRUE(b == Build{});  // what stood there before does not count
}

}  // namespace
}  // namespace rigproof
