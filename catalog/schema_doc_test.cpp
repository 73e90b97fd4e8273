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
