// What a conflict is said to open with, put into the brief by hand: there a build exists, a cent, a
// frame a second or a tenth of a litre nearer to the wish there is none. The other conflict's
// demands are taken out, as the easing takes them.
#include <gtest/gtest.h>

#include <filesystem>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

std::string money(std::int64_t minor) {
  const std::string cents = std::to_string(minor % 100);
  return std::to_string(minor / 100) + (cents.size() < 2 ? ".0" : ".") + cents;
}

class Relaxed : public testing::Test {
 protected:
  const std::string given = bytes_of(impossible);
  const std::string without_size = changed(changed(given, "volume_l = { at_most = 12 }\n", ""),
                                           "[keep]\ncase = \"ottermill-drift-50\"\n", "");
  const std::string without_speed =
      changed(changed(given, "\"700.00\"", "\"99999.00\""), "floor_fps = 60\n", "") +
      "\n[accept]\nunknown = \"accept\"\n";

  // Asked once for all tests: it takes a while.
  static const Json& conflicts() {
    static const Json found =
        json_of(rigproof({"plan", impossible, "--catalog", demo_catalog, "--json"}).out)
            .at("conflicts");
    return found;
  }
  static Json easing(const std::string& path) {
    for (const Json& conflict : conflicts())
      for (const Json& requirement : conflict)
        if (requirement.at("path") == path) return requirement.at("relaxation");
    ADD_FAILURE() << path << " is in no conflict";
    return {};
  }
  // The name as titles.csv has it, read by this test's own reader; the path keeps the id.
  static std::string title_name(const std::string& id) {
    const Table titles = table_of(bytes_of(std::filesystem::path(demo_catalog) / "titles.csv"));
    for (const Row& row : titles)
      if (row.at(0) == id) return row.at(column_of(titles, "name"));
    ADD_FAILURE() << id;
    return id;
  }
  static bool none(const std::string& text) {
    const Folder folder;
    write_bytes(folder / "b.toml", text);
    return rigproof({"plan", folder / "b.toml", "--catalog", demo_catalog, "--best", "1"})
               .exit_code == 3;
  }

  void expect_budget_to_the_cent() {
    const std::int64_t least = easing("markets.IE.budget").at("money_to").at("minor");
    EXPECT_EQ(easing("markets.IE.budget").at("money_by").at("minor"), least - 70000);
    EXPECT_FALSE(none(changed(without_size, "\"700.00\"", '"' + money(least) + '"')));
    EXPECT_TRUE(none(changed(without_size, "\"700.00\"", '"' + money(least - 1) + '"')));
  }

  void expect_floor_to_the_frame() {
    const Json floor = easing("titles.wide-fallow.floor_fps");
    const int most = floor.at("value_to");
    EXPECT_EQ(floor.at("step"), 1);
    const auto asking = [&](int fps) {
      return changed(without_size, "floor_fps = 60\n", "floor_fps = " + std::to_string(fps) + "\n");
    };
    EXPECT_FALSE(none(asking(most)));
    EXPECT_TRUE(none(asking(most + 1)));
  }

  // By hand from case.csv: the kept case is stated at 49.2 l.
  void expect_volume_of_the_kept_case() {
    const Json volume = easing("limits.volume_l");
    EXPECT_EQ(volume.at("value_to"), 49.2);
    EXPECT_FALSE(volume.contains("step"));
    EXPECT_FALSE(none(changed(without_speed, "at_most = 12", "at_most = 49.2")));
    EXPECT_TRUE(none(changed(without_speed, "at_most = 12", "at_most = 49.1")));
  }

  void expect_letting_the_case_go() {
    EXPECT_EQ(easing("keep.case").at("how"), "drop");
    EXPECT_TRUE(none(without_speed));
    EXPECT_FALSE(none(changed(without_speed, "case = \"ottermill-drift-50\"\n", "")));
  }
};

// One test, so that the conflicts are asked for once.
TEST_F(Relaxed, TitlesAreCalledByTheirNames) {
  int titles = 0;
  for (const Json& conflict : conflicts())
    for (const Json& requirement : conflict) {
      const auto path = requirement.at("path").get<std::string>();
      if (!path.starts_with("titles.")) continue;
      const std::string id = path.substr(7, path.find('.', 7) - 7);
      const auto says = requirement.at("says").get<std::string>();
      EXPECT_NE(title_name(id), id);
      EXPECT_NE(says.find(" in " + title_name(id) + " at "), std::string::npos) << says;
      EXPECT_EQ(says.find(id), std::string::npos) << says;
      ++titles;
    }
  EXPECT_GE(titles, 1);
}

// The name is the catalog's own, read from its table.
TEST_F(Relaxed, AKeptPartIsCalledByItsName) {
  int kept = 0;
  for (const Json& conflict : conflicts())
    for (const Json& requirement : conflict) {
      if (requirement.at("path") != "keep.case") continue;
      const auto says = requirement.at("says").get<std::string>();
      EXPECT_EQ(says, "Ottermill Drift 50 is kept and must be used");
      ++kept;
    }
  EXPECT_EQ(kept, 1);
  EXPECT_NE(bytes_of(std::filesystem::path(demo_catalog) / "case.csv")
                .find("ottermill-drift-50,Ottermill Drift 50,"),
            std::string::npos);
}

TEST_F(Relaxed, EachEasingOfTheDemoIsSmallest) {
  expect_budget_to_the_cent();
  expect_floor_to_the_frame();
  expect_volume_of_the_kept_case();
  expect_letting_the_case_go();
}

}  // namespace
}  // namespace rigproof::cli_test
