// Oracles: an independent JSON parser and the schema of docs/schema through an independent
// validator.
#include "sheet/physics_json.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "sheet/hostile.hpp"
#include "tests/support/schema_check.hpp"

namespace rigproof::sheet {
namespace {

using nlohmann::json;
using test_support::complaints;
using test_support::schema_of;

TEST(PhysicsJson, HoldsToItsSchemaAndTheSchemaRefusesWhatIsNone) {
  const json schema = schema_of("physics");
  const json doc = json::parse(physics_json(sample_physics()));
  EXPECT_EQ(complaints(schema, doc), "");
  EXPECT_EQ(complaints(schema, json::parse(physics_json({}))), "");
  EXPECT_EQ(complaints(schema, json::parse(physics_json(*hostile_sheet().physics))), "");
  const auto refuses = [&](const char* where, const json& value) {
    json spoiled = doc;
    spoiled.at(json::json_pointer(where)) = value;
    EXPECT_NE(complaints(schema, spoiled), "") << where;
  };
  refuses("/schema", "rigproof.physics/2");
  refuses("/heat_path/places/0/kind", "sofa");
  refuses("/heat_path/flows/0/power_w", "much");
  refuses("/warming/time_s", json::array());
  refuses("/warming/curves/0/name", 7);
  refuses("/speed_sweep/noise_dba/low", 3);
  refuses("/supply_windows/windows/0/allowed_w", nullptr);
}

TEST(PhysicsJson, SaysWhatTheStructsSay) {
  const Physics want = sample_physics();
  const json doc = json::parse(physics_json(want));
  const json& path = doc.at("heat_path");
  EXPECT_EQ(path.at("places").at(0),
            json::parse(R"({"id": "cpu", "name": "processor", "kind": "source", "temp_c": 78})"));
  EXPECT_EQ(path.at("flows").at(0),
            json::parse(R"({"from": "cpu", "to": "tower", "power_w": 96})"));
  EXPECT_FALSE(path.at("places").at(13).contains("temp_c"));  // the walls have none
  EXPECT_EQ(doc.at("warming").at("curves").at(1).at("temp_c").get<std::vector<double>>(),
            want.warming->curves[1].temp_c);
  EXPECT_FALSE(doc.at("warming").at("curves").at(3).contains("settled_s"));
  EXPECT_EQ(doc.at("speed_sweep").at("noise_dba").at("high").get<std::vector<double>>(),
            want.speed_sweep->noise_dba.high);
  EXPECT_EQ(doc.at("speed_sweep").at("chosen_percent"), 62);
  EXPECT_EQ(doc.at("supply_windows").at("windows").at(2),
            json::parse(R"({"name": "10 ms", "allowed_w": 1050})"));
}

TEST(PhysicsJson, WhatIsNoNumberHasNoKey) {
  Physics physics = sample_physics();
  physics.heat_path->room_c = std::numeric_limits<double>::quiet_NaN();
  physics.heat_path->flows[0].watts = std::numeric_limits<double>::infinity();
  physics.warming->curves[0].temp_c[5] = std::numeric_limits<double>::quiet_NaN();
  physics.warming->curves[0].limit_c = -std::numeric_limits<double>::infinity();
  const json doc = json::parse(physics_json(physics));
  EXPECT_EQ(complaints(schema_of("physics"), doc), "");
  EXPECT_FALSE(doc.at("heat_path").contains("room_c"));
  EXPECT_FALSE(doc.at("heat_path").at("flows").at(0).contains("power_w"));
  EXPECT_FALSE(doc.at("warming").at("curves").at(0).contains("temp_c"));
  EXPECT_FALSE(doc.at("warming").at("curves").at(0).contains("limit_c"));
}

}  // namespace
}  // namespace rigproof::sheet
