// The same input gives the same bytes: twice, in any locale, from any folder; and the same catalog
// written down in another way gives the same plan.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>
#include <set>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

std::vector<std::string> plan_args(const std::string& brief, const std::string& catalog) {
  return {"plan", brief, "--catalog", catalog, "--json", "--best", "8"};
}

const std::vector<std::string> briefs = {living_room, high_refresh, impossible};

// The plan of a brief from the demo as it lies there, made once.
const std::string& as_it_lies(const std::string& brief) {
  static std::map<std::string, std::string> made;
  const auto [at, fresh] = made.try_emplace(brief);
  if (fresh) at->second = rigproof(plan_args(brief, demo_catalog)).out;
  return at->second;
}

TEST(SameBytes, TwiceAndInAnyLocale) {
  const Folder folder;
  for (const std::string& brief : briefs)
    for (const bool json : {true, false}) {
      if (brief == impossible && !json) continue;  // its conflicts take a while to find
      auto args = plan_args(brief, demo_catalog);
      if (!json) std::erase(args, "--json");
      const Ran first = rigproof(args);
      EXPECT_EQ(rigproof(args).out, first.out);
      for (const char* locale : {"de_DE.UTF-8", "C", "tr_TR.UTF-8"}) {
        if (brief == impossible && locale[0] == 'C') continue;
        EXPECT_EQ(run({.args = args, .env = {{"LC_ALL", locale}, {"LANG", locale}}}).out, first.out)
            << locale;
      }
    }
}

TEST(SameBytes, SheetTwiceAndInAnyLocale) {
  const Folder folder;
  for (const char* name : {"a", "b"})
    ASSERT_EQ(
        run({.args = {"plan", living_room, "--catalog", demo_catalog, "--sheet", folder / name},
             .env = {{"LC_ALL", name[0] == 'a' ? "C" : "de_DE.UTF-8"},
                     {"TZ", name[0] == 'a' ? "UTC" : "Pacific/Apia"}}})
            .exit_code,
        0);
  ASSERT_EQ(folder.names("a").size(), 7U);
  for (const std::string& name : folder.names("a"))
    EXPECT_EQ(bytes_of(folder / ("a/" + name)), bytes_of(folder / ("b/" + name))) << name;
}

// Builds and scores, without what counts steps of the search.
Json answer(const std::string& text) {
  Json plan = json_of(text);
  Json out = {{"status", plan.at("status")},
              {"builds", Json::array()},
              {"conflicts", plan.at("conflicts")}};
  for (const Json& build : plan.at("builds"))
    out["builds"].push_back({{"score", build.at("score")},
                             {"prices", build.at("prices")},
                             {"parts", build.at("parts")},
                             {"odds_all_hold", build.at("odds_all_hold")},
                             {"odds_best", build.at("odds_best")}});
  return out;
}

// Rows of a table in any order: ties are decided by ids, never by rows. Not all the words of a
// claim need be the same (which of two equal offers is named), so builds, scores and odds are
// compared.
TEST(SameBytes, ShuffledRowsGiveTheSamePlan) {
  for (const unsigned seed : {1U, 2U, 3U}) {
    const Folder folder;
    std::mt19937 draw(seed);
    copy_demo(folder.path(), [&](const std::string&, const std::string& bytes) {
      Table table = table_of(bytes);
      std::shuffle(table.begin() + 1, table.end(), draw);
      return csv_of(table);
    });
    for (const std::string& brief : briefs) {
      if (brief == impossible && seed > 1) continue;
      EXPECT_EQ(answer(rigproof(plan_args(brief, folder.path().string())).out).dump(1),
                answer(as_it_lies(brief)).dump(1))
          << brief << ", seed " << seed;
    }
  }
}

// A decimal point becomes a comma in columns that hold only numbers and nothing.
std::string with_decimal_commas(const std::string& bytes) {
  Table table = table_of(bytes);
  for (std::size_t c = 0; c < table[0].size(); ++c) {
    const bool numbers = std::all_of(table.begin() + 1, table.end(), [&](const Row& row) {
      return row[c].find_first_not_of("0123456789.-") == std::string::npos &&
             std::ranges::count(row[c], '.') <= 1;
    });
    if (!numbers) continue;
    for (std::size_t r = 1; r < table.size(); ++r) std::ranges::replace(table[r][c], '.', ',');
  }
  return csv_of(table, ';', "\r\n");
}

TEST(SameBytes, OtherDialectsOfCsvGiveTheSamePlan) {
  using Change = std::function<std::string(const std::string&, const std::string&)>;
  const std::pair<const char*, Change> dialects[] = {
      {"CRLF", [](const std::string&,
                  const std::string& bytes) { return csv_of(table_of(bytes), ',', "\r\n"); }},
      {"BOM", [](const std::string&, const std::string& bytes) { return "\xEF\xBB\xBF" + bytes; }},
      {"semicolon",
       [](const std::string&, const std::string& bytes) { return csv_of(table_of(bytes), ';'); }},
      {"semicolon, decimal comma, CRLF, BOM",
       [](const std::string&, const std::string& bytes) {
         return "\xEF\xBB\xBF" + with_decimal_commas(bytes);
       }},
  };
  for (const auto& [name, change] : dialects) {
    const Folder folder;
    copy_demo(folder.path(), change);
    ASSERT_NE(bytes_of(folder / "offers.csv"), bytes_of(demo_catalog + "/offers.csv")) << name;
    for (const std::string& brief : briefs) {
      // Its conflicts take a while: one dialect, the farthest from the demo's own, stands for all.
      if (brief == impossible && name != dialects[std::size(dialects) - 1].first) continue;
      const Ran ran = rigproof(plan_args(brief, folder.path().string()));
      EXPECT_TRUE(ran.err.empty()) << name << ": " << ran.err.substr(0, 500);
      EXPECT_TRUE(ran.out == as_it_lies(brief)) << name << ' ' << brief;
    }
  }
}

TEST(SameBytes, FromAnotherFolder) {
  const Folder folder;
  copy_demo(folder / "catalog");
  write_bytes(folder / "brief.toml", bytes_of(high_refresh));
  const Ran here = rigproof(plan_args(high_refresh, demo_catalog));
  const Ran there =
      run({.args = plan_args("brief.toml", "catalog"), .folder = folder.path().string()});
  EXPECT_EQ(changed(there.out, "\"brief_file\": \"brief.toml\"",
                    "\"brief_file\": \"" + high_refresh + "\""),
            here.out);
}

}  // namespace
}  // namespace rigproof::cli_test
