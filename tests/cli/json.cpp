#include "json.hpp"

#include <gtest/gtest.h>

#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include "folder.hpp"

namespace rigproof::cli_test {

Json json_of(const std::string& text) {
  Json json = Json::parse(text, nullptr, false);
  EXPECT_FALSE(json.is_discarded()) << text.substr(0, 500);
  return json.is_discarded() ? Json() : json;
}

std::string schema_complaints(const std::string& name, const std::string& text) {
  using Adapter = valijson::adapters::NlohmannJsonAdapter;
  const auto rules = nlohmann::json::parse(bytes_of("docs/schema/" + name + ".schema.json"));
  const auto subject = nlohmann::json::parse(text, nullptr, false);
  if (subject.is_discarded()) return "not JSON";
  valijson::Schema schema;
  valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(Adapter(rules), schema);
  valijson::ValidationResults results;
  valijson::Validator(valijson::Validator::kStrongTypes)
      .validate(schema, Adapter(subject), &results);
  std::string out;
  for (valijson::ValidationResults::Error error; results.popError(error);) {
    for (const std::string& step : error.context) out += step;
    out += ": " + error.description + "\n";
  }
  return out;
}

}  // namespace rigproof::cli_test
