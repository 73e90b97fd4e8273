// Oracles: an independent JSON parser, which reads the scene back into the same struct, and the
// schema of docs/schema through an independent validator.
#include "sheet/scene_json.hpp"

#include <gtest/gtest.h>

#include "sheet/sample_scene.hpp"
#include "tests/support/schema_check.hpp"

namespace rigproof::sheet {
namespace {

using nlohmann::json;
using test_support::complaints;
using test_support::schema_of;

template <typename Enum>
Enum named(const std::string& name, int count) {
  for (int i = 0; i < count; ++i)
    if (name_of(static_cast<Enum>(i)) == name) return static_cast<Enum>(i);
  ADD_FAILURE() << "no such word: " << name;
  return {};
}

fit::Scene read_back(const std::string& text) {
  const json doc = json::parse(text);
  fit::Scene out;
  out.title = doc.at("title");
  out.size_mm = doc.at("size_mm");
  for (const json& each : doc.at("boxes")) {
    fit::Box box{.name = each.at("name"), .part_id = each.at("part")};
    box.use = named<fit::Use>(each.at("use"), 10);
    for (std::size_t i = 0; i < 3; ++i) {
      const json& ends = each.at(std::string(1, static_cast<char>('x' + i)));
      box.at[i] = {ends.at(0), ends.at(1), each.at("placed").at(i), each.at("sized").at(i)};
    }
    out.boxes.push_back(box);
  }
  for (const json& each : doc.at("gaps"))
    out.gaps.push_back({each.at("claim"), each.at("where"), named<fit::Axis>(each.at("axis"), 3),
                        each.at("from_mm"), each.at("to_mm"), each.at("at_mm"), each.at("value_mm"),
                        each.at("limit_mm"), each.at("margin_mm"),
                        named<Verdict>(each.at("verdict"), 5)});
  for (const json& each : doc.at("dimensions"))
    out.dimensions.push_back({each.at("text"), named<fit::Axis>(each.at("axis"), 3),
                              each.at("from_mm"), each.at("to_mm"), each.at("plus_minus_mm"),
                              each.at("at_mm")});
  out.notes = doc.at("notes");
  return out;
}

void expect_equal(const fit::Scene& got, const fit::Scene& want) {
  EXPECT_EQ(got.title, want.title);
  EXPECT_EQ(got.size_mm, want.size_mm);
  EXPECT_EQ(got.notes, want.notes);
  ASSERT_EQ(got.boxes.size(), want.boxes.size());
  for (std::size_t i = 0; i < want.boxes.size(); ++i) {
    const fit::Box &a = got.boxes[i], &b = want.boxes[i];
    EXPECT_EQ(std::tie(a.name, a.part_id, a.use), std::tie(b.name, b.part_id, b.use));
    for (std::size_t k = 0; k < 3; ++k)
      EXPECT_EQ(std::tie(a.at[k].low_mm, a.at[k].high_mm, a.at[k].placed, a.at[k].sized),
                std::tie(b.at[k].low_mm, b.at[k].high_mm, b.at[k].placed, b.at[k].sized));
  }
  ASSERT_EQ(got.gaps.size(), want.gaps.size());
  for (std::size_t i = 0; i < want.gaps.size(); ++i) {
    const fit::Gap &a = got.gaps[i], &b = want.gaps[i];
    EXPECT_EQ(std::tie(a.claim_id, a.where, a.axis, a.from_mm, a.to_mm, a.at_mm, a.value_mm,
                       a.limit_mm, a.margin_mm, a.verdict),
              std::tie(b.claim_id, b.where, b.axis, b.from_mm, b.to_mm, b.at_mm, b.value_mm,
                       b.limit_mm, b.margin_mm, b.verdict));
  }
  ASSERT_EQ(got.dimensions.size(), want.dimensions.size());
  for (std::size_t i = 0; i < want.dimensions.size(); ++i) {
    const fit::Dimension &a = got.dimensions[i], &b = want.dimensions[i];
    EXPECT_EQ(std::tie(a.text, a.axis, a.from_mm, a.to_mm, a.plus_minus_mm, a.at_mm),
              std::tie(b.text, b.axis, b.from_mm, b.to_mm, b.plus_minus_mm, b.at_mm));
  }
}

TEST(SceneJson, ReadsBackAsTheSameScene) {
  fit::Scene fine = tower_scene();
  fine.boxes[1].at[2].sized = false;
  fine.gaps[0].margin_mm = 0.1 + 0.2;  // must keep every bit
  fine.dimensions[0].to_mm = 1e6;
  for (const fit::Scene& scene : {fine, small_scene(), fit::Scene{}, crowded_scene(200)})
    expect_equal(read_back(scene_json(scene)), scene);
}

TEST(SceneJson, HoldsToItsSchemaAndTheSchemaRefusesWhatIsNoScene) {
  const json schema = schema_of("scene");
  EXPECT_EQ(complaints(schema, json::parse(scene_json(tower_scene()))), "");
  EXPECT_EQ(complaints(schema, json::parse(scene_json(fit::Scene{}))), "");
  EXPECT_EQ(complaints(schema, json::parse(scene_json(hostile_scene()))), "");
  json doc = json::parse(scene_json(tower_scene()));
  const auto refuses = [&](const char* where, const json& value) {
    json spoiled = doc;
    spoiled.at(json::json_pointer(where)) = value;
    EXPECT_NE(complaints(schema, spoiled), "") << where;
  };
  refuses("/schema", "rigproof.scene/2");
  refuses("/boxes/0/use", "sofa");
  refuses("/boxes/0/x", json::array({1}));
  refuses("/boxes/0/placed", json::array({true, true}));
  refuses("/gaps/0/axis", "w");
  refuses("/gaps/0/verdict", "perhaps");
  refuses("/dimensions/0/plus_minus_mm", -1);
}

}  // namespace
}  // namespace rigproof::sheet
