// Bad input: the place is named, what is wrong and what was expected, exit 2, nothing on standard
// output. Places (line, column) are counted in the test from the file it wrote, not copied.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "folder.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

void expect_bad(const Ran& ran, const std::string& says) {
  EXPECT_EQ(ran.exit_code, 2) << ran.err;
  EXPECT_EQ(ran.signal, 0);
  EXPECT_THAT(ran.out, IsEmpty());
  EXPECT_THAT(ran.err, HasSubstr(says));
}

std::string at(const std::string& file, std::size_t line, std::size_t column) {
  return file + ":" + std::to_string(line) + ":" + std::to_string(column) + ": ";
}

// A table of the demo with one cell changed; gives the place of the cell.
struct Spoiled {
  Table table;
  std::size_t line = 0, column = 0;  // 1-based, as messages count; column in characters
};
Spoiled with_cell(const std::string& csv, std::size_t row, const std::string& column,
                  const std::string& now) {
  Spoiled out{.table = table_of(csv), .line = row + 1};
  const std::size_t c = column_of(out.table, column);
  out.table.at(row).at(c) = now;
  out.column = 1;
  for (std::size_t before = 0; before < c; ++before)
    out.column += csv_of({{out.table[row][before]}}).size();  // + its comma
  return out;
}

TEST(BadCatalog, FolderThatIsNotThere) {
  for (const auto& args :
       {std::vector<std::string>{"check", "no/such/folder"},
        {"plan", living_room, "--catalog", "no/such/folder"},
        {"claims", evening_chair, "--catalog", "no/such/folder"},
        {"sheet", evening_chair, "-o", "never", "--catalog", "no/such/folder"}}) {
    const Ran ran = rigproof(args);
    expect_bad(ran, "");
    EXPECT_EQ(ran.err, "no/such/folder: there is no such folder\n");
  }
  EXPECT_FALSE(std::filesystem::exists("never"));
}

TEST(BadCatalog, FolderThatIsAFile) {
  const Ran ran = rigproof({"check", living_room});
  expect_bad(ran, living_room + ": is not a folder; expected a folder of .csv tables\n");
}

TEST(BadCatalog, EmptyFolder) {
  const Folder folder;
  const Ran ran = rigproof({"check", folder.path().string()});
  expect_bad(ran, folder.path().string() +
                      ": holds no .csv table; expected at least one, such as cpu.csv");
  EXPECT_THAT(ran.err, HasSubstr("docs/first-hour.md"));
}

// Other tables name processors and sellers; without their tables each such row is wrong at its
// place.
TEST(BadCatalog, RowsOfATableThatIsNotThere) {
  for (const std::string table : {"cpu", "sellers"}) {
    const Folder folder;
    copy_demo(folder.path());
    std::filesystem::remove(folder / (table + ".csv"));
    for (const auto& args : {std::vector<std::string>{"check", folder.path().string()},
                             {"plan", living_room, "--catalog", folder.path().string()}}) {
      const Ran ran = rigproof(args);
      expect_bad(ran, ": there is no such row in " + table + ".csv; expected an id that exists");
    }
  }
}

TEST(BadCatalog, TableWithAnUnknownName) {
  const Folder folder;
  copy_demo(folder.path());
  std::filesystem::rename(folder / "fan.csv", folder / "fam.csv");
  expect_bad(rigproof({"check", folder.path().string()}), folder / "fam.csv");
}

TEST(BadCatalog, BinaryTable) {
  const Folder folder;
  copy_demo(folder.path());
  std::string noise(20000, '\0');
  std::mt19937 draw(7);
  for (char& c : noise) c = static_cast<char>(draw() & 0xFFU);
  write_bytes(folder / "cpu.csv", noise);
  expect_bad(rigproof({"check", folder.path().string()}), folder / "cpu.csv:");
  // This very program is a binary file as well.
  write_bytes(folder / "cpu.csv", bytes_of(RIGPROOF_PROGRAM).substr(0, 100000));
  const Ran ran = rigproof({"plan", living_room, "--catalog", folder.path().string()});
  expect_bad(ran, folder / "cpu.csv:1:");
  EXPECT_THAT(ran.err,
              HasSubstr("not a text file: there is a NUL byte; expected a CSV table in UTF-8"));
  EXPECT_LT(ran.err.size(), 3000U) << "the table is quoted at length";
}

TEST(BadCatalog, BriefBuildAndTableThatAreFolders) {
  expect_bad(rigproof({"plan", "demo/briefs", "--catalog", demo_catalog}),
             "demo/briefs: is a folder; expected a file\n");
  expect_bad(rigproof({"claims", "demo", "--catalog", demo_catalog}),
             "demo: is a folder; expected a file\n");
  const Folder folder;
  copy_demo(folder.path());
  std::filesystem::remove(folder / "fan.csv");
  std::filesystem::create_directory(folder / "fan.csv");
  expect_bad(rigproof({"check", folder.path().string()}),
             folder / "fan.csv: is a folder; expected a file\n");
}

TEST(BadCatalog, NegativePriceAndSkipBad) {
  const Folder folder;
  Spoiled offers;
  copy_demo(folder.path(), [&](const std::string& name, const std::string& bytes) {
    if (name != "offers") return bytes;
    offers = with_cell(bytes, 5, "price", "-12.50");
    return csv_of(offers.table);
  });
  const std::string says =
      at(folder / "offers.csv", offers.line, offers.column) + "the amount is negative;";
  const std::string where = folder.path().string();
  const Ran refused = rigproof({"check", where});
  expect_bad(refused, says);
  EXPECT_THAT(refused.err, HasSubstr("got \"-12.50\"\n1 complaint in all\n"));

  const Ran skipped = rigproof({"check", where, "--skip-bad"});
  EXPECT_EQ(skipped.exit_code, 0);
  EXPECT_THAT(skipped.err, StartsWith("left out:\n" + says));
  EXPECT_THAT(skipped.out, StartsWith(where + ": 634 parts; 1 bad row was left out.\n"));

  const Ran plan = rigproof({"plan", living_room, "--catalog", where, "--skip-bad"});
  EXPECT_EQ(plan.exit_code, 0);
  EXPECT_THAT(plan.err, StartsWith("left out:\n" + says));
  EXPECT_THAT(plan.out, HasSubstr("1 bad row of the catalog was left out."));
}

TEST(BadCatalog, EveryBadRowIsListedInOneGo) {
  const Folder folder;
  copy_demo(folder.path(), [&](const std::string& name, const std::string& bytes) {
    if (name != "offers") return bytes;
    Table table = table_of(bytes);
    for (std::size_t row = 1; row <= 130; ++row) table[row][column_of(table, "price")] = "much";
    return csv_of(table);
  });
  const Ran ran = rigproof({"check", folder.path().string()});
  expect_bad(ran, "130 complaints in all");
  std::size_t listed = 0;
  for (std::size_t i = ran.err.find("offers.csv:"); i != std::string::npos;
       i = ran.err.find("offers.csv:", i + 1))
    ++listed;
  EXPECT_EQ(listed, 100U);
}

TEST(BadCatalog, IdThatAppearsTwice) {
  const Folder folder;
  std::string id;
  std::size_t rows = 0;
  copy_demo(folder.path(), [&](const std::string& name, const std::string& bytes) {
    if (name != "gpu") return bytes;
    Table table = table_of(bytes);
    table.push_back(table.at(3));
    id = table[3][0];
    rows = table.size();
    return csv_of(table);
  });
  const std::string file = folder / "gpu.csv";
  expect_bad(rigproof({"check", folder.path().string()}),
             at(file, rows, 1) + "the id \"" + id +
                 "\" appears twice; expected an id of its own; the first stands in " + file +
                 ":4; got");
}

TEST(BadCatalog, DanglingReference) {
  const Folder folder;
  Spoiled cables;
  copy_demo(folder.path(), [&](const std::string& name, const std::string& bytes) {
    if (name != "psu_cables") return bytes;
    cables = with_cell(bytes, 9, "psu", "a-supply-nobody-sells");
    return csv_of(cables.table);
  });
  expect_bad(rigproof({"check", folder.path().string()}),
             at(folder / "psu_cables.csv", cables.line, cables.column));
  EXPECT_THAT(rigproof({"check", folder.path().string()}).err,
              HasSubstr("got \"a-supply-nobody-sells\""));
}

TEST(BadCatalog, OffersInTwoCurrenciesForOneMarket) {
  const Folder folder;
  Spoiled offers;
  copy_demo(folder.path(), [&](const std::string& name, const std::string& bytes) {
    if (name != "offers") return bytes;
    const Table table = table_of(bytes);
    std::size_t row = table.size() - 1;  // the last of market IE: the others came before it
    while (table[row][column_of(table, "market")] != "IE") --row;
    offers = with_cell(bytes, row, "currency", "USD");
    return csv_of(offers.table);
  });
  const Ran ran = rigproof({"check", folder.path().string()});
  expect_bad(ran, at(folder / "offers.csv", offers.line, offers.column) +
                      "the market IE has offers in two currencies; expected EUR");
  EXPECT_THAT(ran.err, HasSubstr("got \"USD\""));
}

// ------------------------------------------------------------------------------------------ briefs

struct BadBrief : testing::Test {
  Folder folder;
  std::string file = folder / "brief.toml";
  Ran plan(const std::string& text) const {
    write_bytes(file, text);
    return rigproof({"plan", file, "--catalog", demo_catalog});
  }
};

TEST_F(BadBrief, OffersInAnotherCurrencyThanTheMarkets) {
  const std::string text =
      changed(bytes_of(living_room), "currency = \"EUR\"", "currency = \"USD\"");
  const Ran ran = plan(text);
  expect_bad(ran, "the offer is in EUR, but " + file + ":" +
                      std::to_string(line_of(text, "[[markets]]")) + " states USD for market IE");
  EXPECT_THAT(ran.err, HasSubstr("offers.csv:"));
}

TEST_F(BadBrief, UnknownKeyNamesTheNearestAndTheLine) {
  std::string text = bytes_of(living_room);
  const std::size_t first = text.find("\nfloor_fps");
  ASSERT_NE(first, std::string::npos);
  text.replace(first + 1, 9, "flor_fps");
  expect_bad(
      plan(text),
      at(file, static_cast<std::size_t>(line_of(text, "flor_fps")), 1) +
          "unknown key in [[titles]]; expected \"floor_fps\", the nearest key; got \"flor_fps\"");
}

TEST_F(BadBrief, KeptPartThatDoesNotExist) {
  const std::string text = changed(bytes_of(high_refresh), "storage = \"pellant-shale-2-tb\"",
                                   "storage = \"pellant-shalf-2-tb\"");
  expect_bad(plan(text),
             at(file, static_cast<std::size_t>(line_of(text, "storage = \"pellant")), 11) +
                 "no such storage in the catalog; expected \"pellant-shale-2-tb\", the nearest "
                 "storage id; got \"pellant-shalf-2-tb\"");
}

TEST_F(BadBrief, TitleThatDoesNotExist) {
  const std::string text =
      changed(bytes_of(living_room), "title = \"slow-tide\"", "title = \"slow-tied\"");
  expect_bad(plan(text),
             at(file, static_cast<std::size_t>(line_of(text, "title = \"slow-tied\"")), 9));
  EXPECT_THAT(plan(text).err, HasSubstr("\"slow-tide\""));
}

TEST_F(BadBrief, RuleUnderAcceptThatDoesNotExist) {
  const std::string text =
      bytes_of(living_room) + "\n[accept.\"fit.card-lenght\"]\nunknown = \"accept\"\n";
  expect_bad(plan(text), file + ":" + std::to_string(line_of(text, "[accept.")) +
                             ": no rule has this id; expected a rule id, such as "
                             "\"fit.card-length\"; got \"fit.card-lenght\"");
}

TEST_F(BadBrief, NegativeBudget) {
  const std::string text =
      changed(bytes_of(impossible), "budget = \"700.00\"", "budget = \"-700.00\"");
  expect_bad(plan(text), at(file, static_cast<std::size_t>(line_of(text, "budget")), 10));
}

TEST_F(BadBrief, MarketWithoutItsSalesTax) {
  const std::string text = changed(bytes_of(living_room), "sales_tax = \"0.0725\"\n", "");
  const Ran ran = plan(text);
  expect_bad(ran, "market US states no sales_tax");
  EXPECT_THAT(ran.err, HasSubstr(file + ":"));
}

TEST_F(BadBrief, NotToml) {
  expect_bad(plan("[brief\nname = 3"), file + ":1:");
  expect_bad(plan(""), file);
  expect_bad(plan(std::string("\x7f"
                              "ELF\0\0\1",
                              7)),
             file + ":1:");
}

TEST(BadBuild, PartThatDoesNotExist) {
  const Folder folder;
  const std::string file = folder / "build.toml";
  const std::string text =
      changed(bytes_of(evening_chair), "grenwick-kettle-750", "grenwick-kettle-75");
  write_bytes(file, text);
  for (const auto& args : {std::vector<std::string>{"claims", file, "--catalog", demo_catalog},
                           {"sheet", file, "-o", folder / "out", "--catalog", demo_catalog}}) {
    expect_bad(rigproof(args), at(file, static_cast<std::size_t>(line_of(text, "psu")), 7));
    EXPECT_THAT(rigproof(args).err, HasSubstr("\"grenwick-kettle-750\""));
  }
  EXPECT_FALSE(std::filesystem::exists(folder / "out")) << "bad input left a folder behind";
}

TEST(BadBuild, FileThatIsNotThere) {
  expect_bad(rigproof({"claims", "no.toml", "--catalog", demo_catalog}),
             "no.toml: there is no such file\n");
  for (const char* command : {"claims", "fit"})
    expect_bad(rigproof({command, evening_chair, "--catalog", demo_catalog, "--brief", "no.toml"}),
               "no.toml: there is no such file\n");
}

// A part of the build that nobody sells in a market of the brief is no bad input but a claim that
// fails, which names part and market.
TEST(BadBuild, PartWithoutAnOfferInTheMarketIsAClaim) {
  const Folder folder;
  const Ran ran = rigproof({"sheet", friday_shelf, "-o", folder / "out", "--catalog", demo_catalog,
                            "--brief", living_room});
  EXPECT_EQ(ran.exit_code, 1);
  const Table claims = table_of(bytes_of(folder / "out/claims.csv"));
  const auto says = [&](const std::string& market, const std::string& part) {
    return std::any_of(claims.begin(), claims.end(), [&](const Row& row) {
      return row[0] == "market.offer" && row[column_of(claims, "where")] == market + ": " + part &&
             row[column_of(claims, "verdict")] == "fails";
    });
  };
  // By hand from offers.csv: the board's one offer in GB has none in stock. In the US there is one
  // of 2026-09-23, eight days old, with 18.
  EXPECT_TRUE(says("GB", "pollwright-joist-v4-mini-wifi"));
  EXPECT_FALSE(says("US", "pollwright-joist-v4-mini-wifi"));
}

}  // namespace
}  // namespace rigproof::cli_test
