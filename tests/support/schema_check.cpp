#include "tests/support/schema_check.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

namespace rigproof::test_support {

using nlohmann::json;

json schema_of(const std::string& name) {
  std::ifstream in("docs/schema/" + name + ".schema.json");
  EXPECT_TRUE(in) << "tests run from the top of the tree";
  return in ? json::parse(in) : json();
}

std::string complaints(const json& schema, const json& document) {
  using Adapter = valijson::adapters::NlohmannJsonAdapter;
  valijson::Schema rules;
  valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(Adapter(schema), rules);
  valijson::ValidationResults results;
  if (valijson::Validator(valijson::Validator::kStrongTypes)
          .validate(rules, Adapter(document), &results))
    return {};
  std::string out;
  for (valijson::ValidationResults::Error error; results.popError(error);) {
    for (const std::string& step : error.context) out += step;
    out += ": " + error.description + "\n";
  }
  return out.empty() ? "invalid" : out;
}

}  // namespace rigproof::test_support
