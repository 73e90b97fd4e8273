#include "json.hpp"

#include <gtest/gtest.h>

#include "tests/support/schema_check.hpp"

namespace rigproof::cli_test {

Json json_of(const std::string& text) {
  Json json = Json::parse(text, nullptr, false);
  EXPECT_FALSE(json.is_discarded()) << text.substr(0, 500);
  return json.is_discarded() ? Json() : json;
}

std::string schema_complaints(const std::string& name, const std::string& text) {
  const auto document = nlohmann::json::parse(text, nullptr, false);
  if (document.is_discarded()) return "not JSON";
  return test_support::complaints(test_support::schema_of(name), document);
}

}  // namespace rigproof::cli_test
