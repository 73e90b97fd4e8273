// The committed page and JSON Schema are what the schema gives. Stale? build/test/bin/rp_schema_doc
// docs
#include "catalog/schema_doc.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "catalog/schema.hpp"

namespace rigproof {
namespace {

std::string committed(const char* file) {  // ctest runs at the top of the tree
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(SchemaDoc, CommittedPageIsFresh) {
  EXPECT_TRUE(committed("docs/catalog.md") == catalog_page())
      << "docs/catalog.md is stale; remake it with: build/test/bin/rp_schema_doc docs";
}

TEST(SchemaDoc, CommittedJsonSchemaIsFresh) {
  EXPECT_TRUE(committed("docs/schema/catalog.schema.json") == catalog_json_schema())
      << "docs/schema/catalog.schema.json is stale; remake it with: build/test/bin/rp_schema_doc "
         "docs";
}

// Read back with a JSON parser and compared, column by column, with the records it was made from.
TEST(SchemaDoc, JsonSchemaIsValidAndWhole) {
  const auto json = nlohmann::json::parse(catalog_json_schema());
  EXPECT_EQ(json.at("$schema"), "http://json-schema.org/draft-07/schema#");
  ASSERT_EQ(json.at("definitions").size(), schema::tables.size());
  for (const TableSpec& table : schema::tables) {
    const auto& row = json.at("definitions").at(std::string(table.name));
    ASSERT_EQ(row.at("properties").size(), table.columns.size()) << table.name;
    std::size_t required = 0;
    for (const ColumnSpec& column : table.columns) {
      const auto& cell = row.at("properties").at(std::string(column.name));
      EXPECT_EQ(cell.at("description"), column.meaning);
      required += column.required ? 1U : 0U;
      if (column.type != Type::number && column.type != Type::count) continue;
      EXPECT_EQ(cell.at("minimum"), column.min) << table.name << '.' << column.name;
      EXPECT_EQ(cell.at("maximum"), column.max) << table.name << '.' << column.name;
    }
    EXPECT_EQ(row.at("required").size(), required) << table.name;
  }
  // By hand, from schema/parts.hpp: a tolerance, a unit, a class range, choices.
  const auto& cooler = json.at("definitions").at("cooler").at("properties");
  EXPECT_EQ(cooler.at("height_mm").at("x-unit"), "mm");
  EXPECT_EQ(cooler.at("height_mm").at("x-tolerance"), 1.0);
  EXPECT_EQ(cooler.at("radiator_thickness_mm").at("x-class-range"), nlohmann::json({27.0, 38.0}));
  EXPECT_EQ(cooler.at("type").at("enum"), nlohmann::json({"air", "liquid"}));
  // A usual range of its own, and one taken over from the class range.
  EXPECT_EQ(cooler.at("radiator_thickness_mm").at("x-usual-range"), nlohmann::json({20.0, 65.0}));
  const auto& card = json.at("definitions").at("gpu").at("properties");
  EXPECT_EQ(card.at("slot_power_w").at("x-usual-range"), nlohmann::json({0.0, 75.0}));
  EXPECT_FALSE(card.at("chip").contains("x-usual-range"));
  const auto& board = json.at("definitions").at("board").at("properties");
  EXPECT_EQ(board.at("atx24_inputs").at("x-usual-range"), nlohmann::json({1.0, 1.0}));
}

// A second look is asked for only inside what may be written at all, and around what an absent cell
// may be.
TEST(SchemaDoc, UsualRangesLieWithinTheAllowedOnesAndAroundTheClass) {
  for (const TableSpec& table : schema::tables)
    for (const ColumnSpec& column : table.columns) {
      if (!column.has_usual_range()) continue;
      EXPECT_TRUE(column.type == Type::number || column.type == Type::count) << column.name;
      EXPECT_GE(column.usual_from(), column.min) << table.name << '.' << column.name;
      EXPECT_LE(column.usual_to(), column.max) << table.name << '.' << column.name;
      EXPECT_LE(column.usual_from(), column.usual_to()) << table.name << '.' << column.name;
      if (column.class_low != column.class_low) continue;
      EXPECT_LE(column.usual_from(), column.class_low) << table.name << '.' << column.name;
      EXPECT_GE(column.usual_to(), column.class_high) << table.name << '.' << column.name;
    }
}

TEST(SchemaDoc, PageSpeaksOfEveryColumn) {
  const std::string page = catalog_page();
  for (const TableSpec& table : schema::tables) {
    const std::size_t section = page.find("## `" + std::string(table.name) + ".csv`");
    ASSERT_NE(section, std::string::npos) << table.name;
    for (const ColumnSpec& column : table.columns)
      EXPECT_NE(page.find("| `" + std::string(column.name) + "` |", section), std::string::npos)
          << column.name;
  }
}

}  // namespace
}  // namespace rigproof
