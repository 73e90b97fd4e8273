// Check as users run it: counts against loops over the files, warnings at their place, and an exit
// code that stays 0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::Not;

Table demo_table(const std::string& name) {
  return table_of(bytes_of(demo_catalog + "/" + name + ".csv"));
}

TEST(Check, EmptyCellsByColumnAsALoopCountsThem) {
  const Json check = json_of(rigproof({"check", demo_catalog, "--json"}).out);
  std::size_t looked_at = 0;
  for (const Json& column : check.at("columns")) {
    const Table rows = demo_table(column.at("table"));
    std::size_t empty = rows.size() - 1;
    const auto& header = rows.at(0);
    const auto at = std::ranges::find(header, column.at("column").get<std::string>());
    if (at != header.end()) {
      empty = 0;
      for (std::size_t r = 1; r < rows.size(); ++r)
        empty += rows[r][static_cast<std::size_t>(at - header.begin())].empty() ? 1U : 0U;
    }
    EXPECT_EQ(column.at("unknown"), empty) << column;
    EXPECT_EQ(column.at("cells"), rows.size() - 1) << column;
    ++looked_at;
  }
  EXPECT_GT(looked_at, 10U);
}

TEST(Check, WhatIsToBeLookedUpIsReallyMissing) {
  const Json check = json_of(rigproof({"check", demo_catalog, "--json", "--top", "1000"}).out);
  ASSERT_FALSE(check.at("look_up").empty());
  EXPECT_EQ(check.at("look_up").size(), check.at("cells_that_settle"));
  double last = 1e300;
  for (const Json& cell : check.at("look_up")) {
    const double settles = cell.at("settles");
    EXPECT_LE(settles, last);
    last = settles;
    EXPECT_GE(cell.at("settles_with_shares").get<double>(), settles);
    double by_rules = 0.0;
    for (const Json& rule : cell.at("rules"))
      by_rules += rule.at("settles_with_shares").get<double>();
    EXPECT_NEAR(by_rules, cell.at("settles_with_shares").get<double>(), 1e-6 * by_rules);
    const Table rows = demo_table(cell.at("table"));
    const std::string row = cell.at("row");
    if (cell.at("column") == "*") {
      for (std::size_t r = 1; r < rows.size(); ++r) EXPECT_NE(rows[r][0], row) << cell;
      continue;
    }
    const auto at = std::ranges::find(rows[0], cell.at("column").get<std::string>());
    bool found = at == rows[0].end();  // a column the file does not have is empty everywhere
    for (std::size_t r = 1; r < rows.size() && at != rows[0].end(); ++r)
      if (rows[r][0] == row || row.starts_with(rows[r][0] + "/"))
        found = found || rows[r][static_cast<std::size_t>(at - rows[0].begin())].empty();
    EXPECT_TRUE(found) << cell;
  }
}

// A fan of 2.5 A, some five to ten times what fans take: allowed, listed with its place, exit 0.
TEST(Check, AnUnusualValueIsAWarningAtItsPlace) {
  const Folder folder;
  const std::string catalog = folder / "catalog";
  std::string id;
  std::string place;
  copy_demo(catalog, [&](const std::string& name, const std::string& bytes) {
    if (name != "fan") return bytes;
    Table rows = table_of(bytes);
    const std::size_t column = column_of(rows, "current_a");
    id = rows[3][0];
    rows[3][column] = "2.5";
    std::size_t at = 1;
    for (std::size_t c = 0; c < column; ++c) at += rows[3][c].size() + 1;
    place = catalog + "/fan.csv:4:" + std::to_string(at);
    return csv_of(rows);
  });
  const Ran ran = rigproof({"check", catalog});
  EXPECT_EQ(ran.exit_code, 0);
  std::string flat = ran.out;  // lines are wrapped
  std::ranges::replace(flat, '\n', ' ');
  while (flat.find("  ") != std::string::npos) flat.erase(flat.find("  "), 1);
  EXPECT_THAT(flat, HasSubstr(place + ": current_a of " + id + " is 2.5 A; usual is"));
  EXPECT_THAT(flat, HasSubstr("worth a second look (a unit mixed up?)"));
  const Json json = json_of(rigproof({"check", catalog, "--json"}).out);
  bool found = false;
  for (const Json& one : json.at("second_look"))
    if (one.at("row") == id && one.at("column") == "current_a") {
      found = true;
      EXPECT_EQ(one.at("value"), 2.5);
      EXPECT_EQ(one.at("line"), 4);
      EXPECT_EQ(one.at("unit"), "A");
    }
  EXPECT_TRUE(found);
  EXPECT_THAT(rigproof({"check", demo_catalog}).out, Not(HasSubstr("current_a of " + id)));
}

TEST(Check, MethodsAddUpAndOffersAreCounted) {
  const Json check = json_of(rigproof({"check", demo_catalog, "--json"}).out);
  for (const Json& table : check.at("tables")) {
    std::uint64_t sum = 0;
    for (const Json& count : table.at("methods")) sum += count.get<std::uint64_t>();
    EXPECT_EQ(sum, table.at("sourced").get<std::uint64_t>()) << table;
  }
  std::set<std::string> offered;
  const Table offers = demo_table("offers");
  for (std::size_t r = 1; r < offers.size(); ++r) offered.insert(offers[r][0]);
  std::size_t without = 0;
  for (const char* kind : {"cpu", "board", "memory", "gpu", "storage", "cooler", "case", "psu",
                           "fan", "display", "other"}) {
    const Table rows = demo_table(kind);
    for (std::size_t r = 1; r < rows.size(); ++r) without += offered.contains(rows[r][0]) ? 0U : 1U;
  }
  std::size_t said = 0;
  for (const Json& kind : check.at("not_offered")) said += kind.at("parts").get<std::size_t>();
  EXPECT_EQ(said, without);
}

TEST(Check, ABriefNarrowsTheCount) {
  const auto judged = [](const Json& check) {
    std::uint64_t sum = 0;
    for (const Json& rule : check.at("rules"))
      if (rule.at("rule") == "match.socket") sum += rule.at("judgements").get<std::uint64_t>();
    return sum;
  };
  const Json all = json_of(rigproof({"check", demo_catalog, "--json"}).out);
  const Json some =
      json_of(rigproof({"check", demo_catalog, "--json", "--brief", living_room}).out);
  EXPECT_EQ(some.at("brief"), living_room);
  EXPECT_FALSE(all.contains("brief"));
  EXPECT_GT(judged(some), 0U);
  EXPECT_LT(judged(some), judged(all));
  EXPECT_EQ(judged(all), (demo_table("cpu").size() - 1) * (demo_table("board").size() - 1))
      << "every processor with every board";
}

TEST(Check, TextBeginsWithWhatIsWrongAndWhatToLookUp) {
  const Ran ran = rigproof({"check", demo_catalog, "--top", "2"});
  EXPECT_EQ(ran.exit_code, 0);
  const std::size_t wrong = ran.out.find("nothing wrong");
  const std::size_t first = ran.out.find("LOOK UP FIRST");
  const std::size_t tables = ran.out.find("WHERE CELLS COME FROM");
  ASSERT_NE(tables, std::string::npos);
  EXPECT_LT(wrong, first);
  EXPECT_LT(first, tables);
  EXPECT_THAT(ran.out, testing::AllOf(HasSubstr("\n  1   "), HasSubstr("\n  2   "),
                                      Not(HasSubstr("\n  3   "))));
}

}  // namespace
}  // namespace rigproof::cli_test
