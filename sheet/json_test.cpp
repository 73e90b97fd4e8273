// Oracles: the published contract (DESIGN section 8) spelled out by hand, the schemas of
// docs/schema through an independent validator, and an independent JSON parser.
#include "sheet/json.hpp"

#include <gmock/gmock.h>

#include <functional>
#include <nlohmann/json.hpp>

#include "sheet/hostile.hpp"
#include "sheet/json_writer.hpp"
#include "tests/support/schema_check.hpp"

namespace rigproof::sheet {
namespace {

using nlohmann::json;
using test_support::complaints;
using test_support::schema_of;

TEST(JsonSchema, AcceptsWhatTheWritersWrite) {
  const json plan = schema_of("plan");
  EXPECT_EQ(complaints(plan, json::parse(plan_json(sample_plan()))), "");
  EXPECT_EQ(complaints(plan, json::parse(plan_json(sample_conflict()))), "");
  EXPECT_EQ(complaints(schema_of("claims"), json::parse(claims_json("b", sample_claims()))), "");
}

TEST(JsonSchema, ARivalAndAnIntegerProgramAreInIt) {
  Plan plan = sample_plan();
  plan.builds.at(1).rival = true;
  plan.integer_program = IntegerProgram{
      .file = "plan.mps", .columns = 7, .rows = 5, .left_out = {{"fit.card-length", 2}}};
  const json d = json::parse(plan_json(plan));
  EXPECT_EQ(complaints(schema_of("plan"), d), "");
  EXPECT_FALSE(d["builds"][0].contains("rival"));
  EXPECT_EQ(d["builds"][1]["rival"], true);
  EXPECT_EQ(d["integer_program"]["file"], "plan.mps");
  EXPECT_EQ(d["integer_program"]["left_out"]["fit.card-length"], 2);
}

TEST(JsonSchema, RefusesWrongDocuments) {
  struct Wrong {
    const char* what;
    std::function<void(json&)> spoil;
  };
  const std::vector<Wrong> wrongs = {
      {"another version", [](json& d) { d["schema"] = "rigproof.plan/2"; }},
      {"no version", [](json& d) { d.erase("schema"); }},
      {"another status", [](json& d) { d["status"] = "optimal"; }},
      {"money as a float", [](json& d) { d["builds"][0]["score"]["minor"] = 12.5; }},
      {"money as a number", [](json& d) { d["builds"][0]["score"] = 1512.33; }},
      {"currency in lower case",
       [](json& d) { d["builds"][0]["prices"]["IE"]["currency"] = "eur"; }},
      {"half an interval",
       [](json& d) { d["builds"][0]["titles"][0]["rendered_fps"].erase("high"); }},
      {"a quantity without unit",
       [](json& d) { d["builds"][0]["titles"][0]["rendered_fps"].erase("unit"); }},
      {"a fan that is no list", [](json& d) { d["builds"][0]["parts"]["fan"] = "tidewell-120"; }},
      {"no fans at all in the list",
       [](json& d) { d["builds"][0]["parts"]["fan"] = json::array(); }},
      {"an unknown kind", [](json& d) { d["builds"][0]["parts"]["toaster"] = "x"; }},
      {"odds above one", [](json& d) { d["builds"][0]["odds_best"] = 1.01; }},
      {"an unknown verdict", [](json& d) { d["builds"][0]["claims"][0]["verdict"] = "maybe"; }},
      {"an unknown basis", [](json& d) { d["builds"][0]["claims"][0]["basis"] = "guess"; }},
      {"a claim without subjects", [](json& d) { d["builds"][0]["claims"][0].erase("subjects"); }},
      {"a limit with word and number",
       [](json& d) { d["builds"][0]["claims"][0]["limit"]["text"] = "x"; }},
      {"a missing cell as text",
       [](json& d) { d["builds"][0]["claims"][0]["missing"] = {"board.csv"}; }},
      {"an empty conflict", [](json& d) { d["conflicts"] = json::array({json::array()}); }},
      {"a conflict of bare paths", [](json& d) { d["conflicts"] = {{"markets.IE.budget"}}; }},
      {"negative nodes", [](json& d) { d["proof"]["nodes"] = -1; }},
      {"no proof", [](json& d) { d.erase("proof"); }},
  };
  const json schema = schema_of("plan");
  const json good = json::parse(plan_json(sample_plan()));
  for (const Wrong& wrong : wrongs) {
    json document = good;
    wrong.spoil(document);
    EXPECT_NE(complaints(schema, document), "") << wrong.what;
  }
  const json claims = schema_of("claims");
  json document = json::parse(claims_json("b", sample_claims()));
  document["claims"] = json::object();
  EXPECT_NE(complaints(claims, document), "");
}

TEST(JsonSchema, OtherKeysMayStandBeside) {
  json document = json::parse(plan_json(sample_plan()));
  document["builds"][0]["mood"] = "fine";
  document["later"] = 1;
  EXPECT_EQ(complaints(schema_of("plan"), document), "");
}

TEST(PlanJson, KeepsTheContract) {
  const json d = json::parse(plan_json(sample_plan()));
  EXPECT_EQ(d["schema"], "rigproof.plan/1");
  EXPECT_EQ(d["status"], "proven");
  const json& build = d["builds"][0];
  EXPECT_EQ(build["score"], json::parse(R"({"currency": "EUR", "minor": 151233})"));
  EXPECT_EQ(build["prices"]["IE"], json::parse(R"({"currency": "EUR", "minor": 134190})"));
  EXPECT_EQ(build["parts"]["cpu"], "kestle-6c");
  EXPECT_EQ(
      build["parts"]["fan"],
      json::parse(
          R"([{"id": "tidewell-120", "count": 2}, {"id": "tarnholt-case-41-fan", "count": 1}])"));
  EXPECT_EQ(build["parts"]["storage"], json::parse(R"([{"id": "sable-2t", "count": 1}])"));
  EXPECT_EQ(build["titles"][0]["title"], "harbour-lights");
  EXPECT_EQ(build["titles"][0]["target_fps"], 60);
  for (const char* key : {"rendered_fps", "displayed_fps", "p99_frame_time_fps"})
    for (const char* inner : {"value", "low", "high", "unit"})
      EXPECT_TRUE(build["titles"][0][key].contains(inner)) << key << inner;
  EXPECT_EQ(build["odds_best"], 0.62);
  EXPECT_EQ(build["odds_all_hold"], 0.41);
  EXPECT_EQ(build["claims"].size(), 40U);
  EXPECT_EQ(d["proof"]["bound"]["minor"], 151233);
  EXPECT_EQ(d["proof"]["nodes"], 48213);
  EXPECT_EQ(d["proof"]["leaves"], 312);
  EXPECT_EQ(d["proof"]["pruned"]["over a budget"], 6120);
  EXPECT_EQ(d["conflicts"], json::array());
  const json conflict = json::parse(plan_json(sample_conflict()));
  EXPECT_EQ(conflict["builds"], json::array());
  EXPECT_EQ(conflict["conflicts"][0][0],
            json::parse(
                R"({"path": "markets.IE.budget", "line": 7, "says": "at most 600.00 EUR in IE",
                    "relaxation": {"how": "value", "says": "38.00 EUR more: 638.00 EUR",
                                   "money_to": {"currency": "EUR", "minor": 63800},
                                   "money_by": {"currency": "EUR", "minor": 3800}}})"));
  EXPECT_FALSE(conflict["conflicts"][0][1].contains("relaxation"));
}

TEST(JsonSchema, RefusesSpoiledRelaxations) {
  const json schema = schema_of("plan");
  const json good = json::parse(plan_json(sample_conflict()));
  const std::vector<std::pair<const char*, json>> wrongs = {{"how", "somehow"},  {"says", ""},
                                                            {"money_to", 63800}, {"unit", "stone"},
                                                            {"value_by", -1.0},  {"step", 0.0}};
  for (const auto& [key, value] : wrongs) {
    json document = good;
    document["conflicts"][0][0]["relaxation"][key] = value;
    EXPECT_NE(complaints(schema, document), "") << key;
  }
}

TEST(ClaimJson, KeepsTheContract) {
  const json d = json::parse(claims_json("loft", sample_claims()));
  EXPECT_EQ(d["schema"], "rigproof.claims/1");
  EXPECT_EQ(d["build"], "loft");
  const json& certain = d["claims"][2];  // fit.psu-length, 140 of 190 mm
  EXPECT_EQ(certain["value"], json::parse(R"({"value": 140, "unit": "mm"})"));
  EXPECT_EQ(certain["limit"],
            json::parse(R"({"relation": "at_most", "value": 190, "unit": "mm"})"));
  EXPECT_EQ(certain["margin"]["value"], 50);
  EXPECT_EQ(certain["grade"], "must");
  EXPECT_EQ(certain["basis"], "part data");
  EXPECT_FALSE(certain.contains("measured"));
  const json& unknown = d["claims"].back();
  EXPECT_EQ(unknown["verdict"], "unknown");
  for (const char* key : {"value", "limit", "margin", "margin_frac", "odds"})
    EXPECT_FALSE(unknown.contains(key)) << key;
  EXPECT_EQ(unknown["missing"][0]["table"], "titles.csv");
  json noise;
  for (const json& claim : d["claims"])
    if (claim["id"] == "air.noise") noise = claim;
  EXPECT_EQ(
      noise["measured"],
      json::parse(
          R"({"value": 32.3, "log": "room-log-3", "date": "2026-10-09", "settled": "confirmed"})"));
}

TEST(JsonWriter, NumbersAreTheShortestThatReadBack) {
  JsonWriter out;
  out.begin_array();
  for (const double value : {0.1, 12.0, 1.0 / 3.0, 1e300, -0.07, 5e-324}) out.number(value);
  out.end_array();
  const std::string text = out.take();
  // 17 digits would give 0.10000000000000001; the shortest forms are known by definition of the
  // double.
  EXPECT_EQ(text, "[\n  0.1,\n  12,\n  0.3333333333333333,\n  1e+300,\n  -0.07,\n  5e-324\n]\n");
  EXPECT_EQ(json::parse(text)[2].get<double>(), 1.0 / 3.0);
}

TEST(JsonWriter, HostileTextSurvivesExactly) {
  const std::string text = "a\"\\\b\n\x01\x7f<\xE2\x80\xAE\xE2\x80\xA8\xF0\x9F\x94\xA7";
  EXPECT_EQ(json::parse(claims_json(text, {}))["build"], text);
  EXPECT_EQ(json::parse(claims_json("x\xFFy", {}))["build"], "x\xEF\xBF\xBDy");
}

}  // namespace
}  // namespace rigproof::sheet
