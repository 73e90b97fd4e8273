// Import as users run it: preview, writing, standard input, bad rows; what is written is read by
// code that shares nothing with the catalog.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

const std::string map_of_coolers = R"([mapping]
table = "cooler"
decimal = "comma"
unknown = "-"
[match]
by = "maker_code"
from = "Art."
[provenance]
source = "two pages, read by hand"
seen = 2026-10-02
method = "measured"
[columns.id]
from = "What"
make = "slug"
[columns.name]
from = "What"
[columns.maker_code]
from = "Art."
[columns.type]
constant = "air"
[columns.height_mm]
from = "High"
unit = "cm"
)";

struct Setting {
  Folder folder;
  std::string catalog = folder / "catalog";
  std::string mapping = folder / "map.toml";
  std::string pasted = folder / "pasted.txt";
  std::string code, id;  // of the demo's second cooler

  Setting() {
    copy_demo(catalog);
    write_bytes(mapping, map_of_coolers);
    const Table coolers = table_of(bytes_of(catalog + "/cooler.csv"));
    id = coolers.at(2).at(column_of(coolers, "id"));
    code = coolers.at(2).at(column_of(coolers, "maker_code"));
    write_bytes(pasted,
                "High\tArt.\tWhat\n12,35\t" + code + "\tThe tall one\n15,9\tNEW-1\tQuite New 9\n");
  }
  [[nodiscard]] std::vector<std::string> args(std::initializer_list<std::string> more = {}) const {
    std::vector<std::string> all = {"import", pasted, "--mapping", mapping, "--catalog", catalog};
    all.insert(all.end(), more);
    return all;
  }
};

TEST(Import, PreviewChangesNothing) {
  const Setting s;
  const Ran ran = rigproof(s.args());
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.err, IsEmpty());
  EXPECT_THAT(ran.out,
              testing::AllOf(HasSubstr("2 rows for cooler.csv"), HasSubstr("1 new, 1 changed"),
                             HasSubstr(s.id), HasSubstr("-> 123.5 mm"), HasSubstr("quite-new-9"),
                             HasSubstr("159 mm"), HasSubstr("nothing is written without --write")));
  for (const char* table : {"/cooler.csv", "/provenance.csv"})
    EXPECT_EQ(bytes_of(s.catalog + table), bytes_of(demo_catalog + table));
}

TEST(Import, WritesOnlyTheRowsItSpeaksOf) {
  const Setting s;
  ASSERT_EQ(rigproof(s.args({"--write"})).exit_code, 0);
  const std::string before = bytes_of(demo_catalog + "/cooler.csv");
  const std::string after = bytes_of(s.catalog + "/cooler.csv");
  const Table old_rows = table_of(before);
  const Table new_rows = table_of(after);
  ASSERT_EQ(new_rows.size(), old_rows.size() + 1);
  const std::size_t height = column_of(new_rows, "height_mm");
  EXPECT_EQ(new_rows[2][height], "123.5");
  EXPECT_EQ(new_rows.back()[height], "159");
  EXPECT_EQ(new_rows.back()[0], "quite-new-9");
  for (std::size_t r = 0; r < old_rows.size(); ++r) {
    const bool untouched = r != 2;
    EXPECT_EQ(new_rows[r] == old_rows[r], untouched) << r;
  }
  // Byte for byte up to the changed row, and from the next one on.
  const std::size_t start = before.find("\n" + s.id + ",") + 1;
  const std::size_t rest = before.find('\n', start);
  EXPECT_EQ(after.substr(0, start), before.substr(0, start));
  EXPECT_THAT(after, HasSubstr(before.substr(rest)));
  EXPECT_THAT(
      bytes_of(s.catalog + "/provenance.csv"),
      HasSubstr("cooler," + s.id + ",height_mm,\"two pages, read by hand\",2026-10-02,measured"));
  EXPECT_EQ(rigproof({"check", s.catalog}).exit_code, 0);
  const Ran again = rigproof(s.args({"--write"}));
  EXPECT_EQ(again.exit_code, 0);
  EXPECT_THAT(again.out, HasSubstr("Nothing to write"));
  EXPECT_EQ(bytes_of(s.catalog + "/cooler.csv"), after);
}

TEST(Import, BadRowsRefuseAllUnlessTheyAreLeftOut) {
  const Setting s;
  write_bytes(s.pasted, bytes_of(s.pasted) + "tall\tNEW-2\tOther\n");
  const Ran refused = rigproof(s.args({"--write"}));
  EXPECT_EQ(refused.exit_code, 2);
  EXPECT_THAT(refused.out, IsEmpty());
  EXPECT_THAT(refused.err, HasSubstr(s.pasted + ":4:1: not a number as this table writes them"));
  EXPECT_EQ(bytes_of(s.catalog + "/cooler.csv"), bytes_of(demo_catalog + "/cooler.csv"));
  const Ran skipped = rigproof(s.args({"--write", "--skip-bad", "--json"}));
  EXPECT_EQ(skipped.exit_code, 0);
  EXPECT_THAT(skipped.err, HasSubstr(":4:1: "));
  const Json json = json_of(skipped.out);
  EXPECT_EQ(json.at("left_out"), 1);
  EXPECT_EQ(json.at("written"), true);
  EXPECT_EQ(json.at("rows"), 3);
}

TEST(Import, ReadsStandardInput) {
  const Setting s;
  const std::string out = s.folder / "out.json";
  const std::string command = std::string(RIGPROOF_PROGRAM) + " import - --mapping " + s.mapping +
                              " --catalog " + s.catalog + " --json < " + s.pasted + " > " + out;
  ASSERT_EQ(std::system(command.c_str()), 0);
  const Json json = json_of(bytes_of(out));
  EXPECT_EQ(json.at("pasted"), "-");
  EXPECT_EQ(json.at("changed").at(0).at("row"), s.id);
  EXPECT_EQ(json.at("new").at(0).at("row"), "quite-new-9");
  EXPECT_EQ(json.at("written"), false);
}

TEST(Import, MappingErrorsHaveTheirPlace) {
  const Setting s;
  write_bytes(s.mapping, changed(map_of_coolers, "columns.height_mm", "columns.heigth_mm"));
  const Ran ran = rigproof(s.args());
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, testing::AllOf(HasSubstr(s.mapping + ":"), HasSubstr("\"height_mm\"")));
}

TEST(Import, OtherTablesAreFedTheSameWay) {
  const Setting s;
  write_bytes(s.mapping, R"([mapping]
table = "sellers"
[provenance]
source = "x"
seen = 2026-10-02
[columns.id]
from = "id"
[columns.name]
from = "id"
[columns.market]
from = "market"
[columns.currency]
from = "currency"
[columns.shipping_upper]
from = "shipping"
)");
  write_bytes(s.pasted, "id,market,currency,shipping\nnew-shop,IE,EUR,5\nother-shop,XX,EUR,5\n");
  const Ran ran = rigproof(s.args({"--write"}));
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr(":3:12: market is not a known market"));
  EXPECT_EQ(bytes_of(s.catalog + "/sellers.csv"), bytes_of(demo_catalog + "/sellers.csv"));
}

}  // namespace
}  // namespace rigproof::cli_test
