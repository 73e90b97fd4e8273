// All that is printed as JSON holds to its schema in docs/schema; and the schemas refuse what they
// should: each is tried on output with one thing spoiled.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"
#include "tests/support/schema_check.hpp"

namespace rigproof::cli_test {
namespace {

using test_support::complaints;
using testing::IsEmpty;

struct Printed {
  std::string schema;
  std::vector<std::string> args;
};

// A catalog's own table pasted over it, with one cell that is not there and one row more.
std::vector<std::string> an_import(const Folder& folder) {
  write_bytes(folder / "map.toml",
              "[mapping]\ntable = \"fan\"\n[provenance]\nsource = \"x\"\nseen = 2026-10-01\n"
              "[columns.id]\nfrom = \"id\"\n[columns.name]\nfrom = \"name\"\n"
              "[columns.speed_rpm]\nfrom = \"rpm\"\n");
  const Table fans = table_of(bytes_of(std::filesystem::path(demo_catalog) / "fan.csv"));
  write_bytes(folder / "fans.txt",
              "id,name,rpm\n" + fans.at(1).at(0) + ",,1234\nnew-fan,New Fan,900\n");
  return {"import",    folder / "fans.txt", "--mapping", folder / "map.toml",
          "--catalog", demo_catalog,        "--json"};
}

std::vector<Printed> everything(const Folder& folder) {
  return {
      {"check", {"check", demo_catalog, "--json"}},
      {"check", {"check", demo_catalog, "--json", "--brief", living_room}},
      {"import", an_import(folder)},
      {"rules", {"rules", "--json"}},
      {"plan", {"plan", living_room, "--catalog", demo_catalog, "--json"}},
      {"plan", {"plan", high_refresh, "--catalog", demo_catalog, "--json", "--best", "9"}},
      {"plan", {"plan", impossible, "--catalog", demo_catalog, "--json"}},
      {"claims", {"claims", evening_chair, "--catalog", demo_catalog, "--json"}},
      {"claims", {"claims", friday_shelf, "--catalog", demo_catalog, "--json"}},
      {"claims",
       {"claims", evening_chair, "--catalog", demo_catalog, "--json", "--brief", living_room}},
      {"fit", {"fit", evening_chair, "--catalog", demo_catalog, "--json"}},
      {"fit", {"fit", friday_shelf, "--catalog", demo_catalog, "--json"}},
      {"fit", {"fit", friday_shelf, "--catalog", demo_catalog, "--json", "--brief", living_room}},
      {"power", {"power", evening_chair, "--catalog", demo_catalog, "--json", "--show-work"}},
      {"power",
       {"power", friday_shelf, "--catalog", demo_catalog, "--json", "--brief", living_room,
        "--beside", evening_chair}},
      {"air", {"air", evening_chair, "--catalog", demo_catalog, "--json", "--show-work"}},
      {"air", {"air", friday_shelf, "--catalog", demo_catalog, "--json", "--brief", living_room}},
      {"frontier",
       {"frontier", living_room, "--catalog", demo_catalog, "--json", "--from", "900", "--to",
        "1600"}},
      {"outlook", {"outlook", high_refresh, "--catalog", demo_catalog, "--json"}},
      {"outlook", {"outlook", impossible, "--catalog", demo_catalog, "--json"}},
      {"insist", {"insist", living_room, "orrvane-larch-16", "--catalog", demo_catalog, "--json"}},
      {"insist", {"insist", living_room, "fjellum-pillar", "--catalog", demo_catalog, "--json"}},
      {"repair", {"repair", living_room, friday_shelf, "--catalog", demo_catalog, "--json"}},
      {"sheet", {"sheet", evening_chair, "-o", folder / "s", "--catalog", demo_catalog, "--json"}}};
}

TEST(Schema, EveryOutputHoldsToIts) {
  const Folder folder;
  for (const Printed& printed : everything(folder)) {
    const Ran ran = rigproof(printed.args);
    EXPECT_THAT(ran.err, IsEmpty());
    EXPECT_THAT(schema_complaints(printed.schema, ran.out), IsEmpty())
        << printed.args[0] << ' ' << printed.args[1];
    EXPECT_EQ(json_of(ran.out).at("schema"), "rigproof." + printed.schema + "/1");
    EXPECT_TRUE(ran.out.ends_with("\n"));
  }
}

// Without any one of the keys it requires, or with a word in a number's place, nothing passes.
TEST(Schema, RefusesSpoiledOutput) {
  const Folder folder;
  for (const Printed& printed : everything(folder)) {
    const nlohmann::json whole = json_of(rigproof(printed.args).out);
    const nlohmann::json schema = test_support::schema_of(printed.schema);
    const nlohmann::json required = schema.at("required");
    EXPECT_GE(required.size(), 2U);
    for (const nlohmann::json& key : required) {
      nlohmann::json spoiled = whole;
      spoiled.erase(key.get<std::string>());
      EXPECT_NE(complaints(schema, spoiled), "") << printed.schema << " without " << key;
      spoiled[key.get<std::string>()] = 1.5;
      EXPECT_NE(complaints(schema, spoiled), "") << printed.schema << ", a number for " << key;
    }
  }
}

TEST(Schema, RefusesSpoiledInsides) {
  const Folder folder;
  std::map<std::vector<std::string>, nlohmann::json> printed;  // each command is run once
  const auto spoiled = [&](const char* schema, const std::vector<std::string>& args,
                           const char* pointer, const nlohmann::json& now) {
    if (!printed.contains(args)) printed[args] = json_of(rigproof(args).out);
    nlohmann::json json = printed[args];
    json.at(nlohmann::json::json_pointer(pointer)) = now;
    return complaints(test_support::schema_of(schema), json);
  };
  const std::vector<std::string> check = {"check", demo_catalog, "--json"};
  EXPECT_NE(spoiled("check", check, "/tables/0/rows", -1), "");
  EXPECT_NE(spoiled("check", check, "/tables/0/table", "CPU!"), "");
  EXPECT_NE(spoiled("check", check, "/rules/0/rule", "no engine"), "");
  EXPECT_NE(spoiled("check", check, "/look_up/0/settles", 0.5), "");
  EXPECT_NE(spoiled("check", check, "/columns/0/unknown", 0), "");
  const std::vector<std::string> import = an_import(folder);
  EXPECT_NE(spoiled("import", import, "/changed/0/cells", nlohmann::json::array()), "");
  EXPECT_NE(spoiled("import", import, "/new/0/line", 0), "");
  EXPECT_NE(spoiled("import", import, "/provenance/method", "guessed"), "");
  const std::vector<std::string> rules = {"rules", "--json"};
  EXPECT_NE(spoiled("rules", rules, "/rules/0/grade", "should"), "");
  EXPECT_NE(spoiled("rules", rules, "/rules/0/in_a_plan", "three"), "");
  EXPECT_NE(spoiled("rules", rules, "/rules/0/id", "no engine"), "");
  EXPECT_NE(
      spoiled("sheet",
              {"sheet", evening_chair, "-o", folder / "s", "--catalog", demo_catalog, "--json"},
              "/files/0", 3),
      "");
  const std::vector<std::string> frontier = {"frontier",   living_room, "--catalog",
                                             demo_catalog, "--json",    "--from",
                                             "1000",       "--to",      "1100"};
  EXPECT_NE(spoiled("frontier", frontier, "/steps/0/price/minor", 0.5), "");
  EXPECT_NE(spoiled("frontier", frontier, "/steps/1/changes/0/swaps", 0), "");
  const std::vector<std::string> outlook = {"outlook", high_refresh, "--catalog", demo_catalog,
                                            "--json"};
  EXPECT_NE(spoiled("outlook", outlook, "/possible/how", "guessed"), "");
  EXPECT_NE(spoiled("outlook", outlook, "/possible/low", "few"), "");
  EXPECT_NE(spoiled("outlook", outlook, "/without/0/count/builds", -1), "");
  EXPECT_NE(spoiled("outlook", outlook, "/all/digits", "1.5e20"), "");
  const std::vector<std::string> repair = {"repair",    living_room,  friday_shelf,
                                           "--catalog", demo_catalog, "--json"};
  EXPECT_NE(spoiled("repair", repair, "/wrong/0/what", "luck"), "");
  EXPECT_NE(spoiled("repair", repair, "/differences/claim_changes/0/to", 1), "");
  const std::vector<std::string> fit = {"fit", evening_chair, "--catalog", demo_catalog, "--json"};
  EXPECT_NE(spoiled("fit", fit, "/standoffs/used", "a, b"), "");
  EXPECT_NE(spoiled("fit", fit, "/fasteners/0/known", "surely"), "");
  EXPECT_NE(spoiled("fit", fit, "/scene/boxes/0/use", "ornament"), "");
  EXPECT_NE(spoiled("fit", fit, "/scene/gaps/0/margin_mm", "2 mm"), "");
  const std::vector<std::string> plan = {"plan", high_refresh, "--catalog", demo_catalog, "--json"};
  EXPECT_NE(spoiled("plan", plan, "/status", "likely"), "");
  EXPECT_NE(spoiled("plan", plan, "/builds/0/score/minor", 12.5), "");
  EXPECT_NE(spoiled("plan", plan, "/builds/0/claims/0/verdict", "maybe"), "");
}

// Shown, not only said: the listed rules are the ids that claims carry.
TEST(Schema, RulesAreThoseTheClaimsSpeakOf) {
  std::set<std::string> ids;
  const Json rules = json_of(rigproof({"rules", "--json"}).out);
  for (const Json& rule : rules.at("rules")) EXPECT_TRUE(ids.insert(rule.at("id")).second);
  EXPECT_GE(ids.size(), 20U);
  const Json claims =
      json_of(rigproof({"claims", friday_shelf, "--catalog", demo_catalog, "--json"}).out);
  for (const Json& claim : claims.at("claims"))
    EXPECT_TRUE(ids.contains(claim.at("id"))) << claim.at("id");
}

// The pages have their own words for some rules: none of a rule that is not there any more.
TEST(Schema, WordsOfThePagesAreOfRulesThatAreThere) {
  std::set<std::string> ids;
  const Json rules = json_of(rigproof({"rules", "--json"}).out);
  for (const Json& rule : rules.at("rules")) ids.insert(rule.at("id"));
  const std::string words = bytes_of("web/src/lib/rule_words.ts");
  int named = 0;
  for (const std::string engine : {"match", "fit", "power", "forecast", "air", "market"}) {
    const std::string begin = "'" + engine + ".";
    for (std::size_t at = words.find(begin); at != std::string::npos;
         at = words.find(begin, at + 1)) {
      const std::string id = words.substr(at + 1, words.find('\'', at + 1) - at - 1);
      EXPECT_TRUE(ids.contains(id)) << id;
      ++named;
    }
  }
  EXPECT_GE(named, 40);
}

// Rows counted here by a loop over the files.
TEST(Schema, CheckCountsWhatIsThere) {
  const Json check = json_of(rigproof({"check", demo_catalog, "--json"}).out);
  std::size_t parts = 0;
  for (const Json& table : check.at("tables")) {
    if (!table.at("present").get<bool>()) continue;
    const std::string name = table.at("table");
    const Table rows = table_of(bytes_of(std::filesystem::path(demo_catalog) / (name + ".csv")));
    EXPECT_EQ(table.at("rows"), rows.size() - 1) << name;
    EXPECT_LE(table.at("unknown").get<std::size_t>() + table.at("sourced").get<std::size_t>(),
              table.at("cells").get<std::size_t>())
        << name;
    for (const char* kind : {"cpu", "board", "memory", "gpu", "storage", "cooler", "case", "psu",
                             "fan", "display", "other"})
      if (name == kind) parts += rows.size() - 1;
  }
  EXPECT_EQ(check.at("parts"), parts);
  EXPECT_EQ(check.at("skipped_rows"), 0);
}

}  // namespace
}  // namespace rigproof::cli_test
