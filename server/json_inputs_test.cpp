// Inputs of the questions as JSON: what is taken, what is not, and that the description of them
// says the same as the reader does.
#include "server/json_inputs.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "server/questions.hpp"
#include "tests/support/schema_check.hpp"

namespace rigproof::server {
namespace {

using testing::HasSubstr;

const Json text = {{"text", "x = 1"}};

std::string said(std::string_view question, const Json& inputs) {
  const auto checked = question_named(question)->check(inputs);
  return checked ? "" : checked.error().message;
}

TEST(JsonInputs, TakesWhatIsAskedFor) {
  EXPECT_EQ(said("plan", {{"brief", text}}), "");
  EXPECT_EQ(said("plan", {{"brief", text}, {"best", 50}, {"time_limit_s", 0.5}}), "");
  EXPECT_EQ(said("plan", {{"brief", text}, {"best", 50.0}}), "") << "a whole number all the same";
  EXPECT_EQ(said("plan", {{"brief", text}, {"best", nullptr}}), "") << "left out";
  EXPECT_EQ(said("insist", {{"brief", text}, {"parts", {"a"}}, {"without", Json::array()}}), "");
  EXPECT_EQ(said("air", {{"build", text}, {"speed", 10}, {"distance", 0.1}, {"show_work", true}}),
            "");
  EXPECT_EQ(said("frontier", {{"brief", text}, {"from", "900"}, {"to", "1600"}}), "");
}

TEST(JsonInputs, TellsWhatIsWrong) {
  for (const Json& wrong : {Json(1), Json("id"), Json::array(), Json::object(), Json(true),
                            Json{{"text", 1}}, Json{{"text", nullptr}}, Json{{"name", "x"}}})
    EXPECT_THAT(said("plan", {{"brief", wrong}}), HasSubstr("brief: expected the id of a brief"))
        << wrong;
  EXPECT_THAT(said("plan", Json::object()), HasSubstr("brief: expected a brief"));
  for (const Json& wrong : {Json(0), Json(51), Json(1.5), Json("3"), Json(true), Json::array(),
                            Json(1e300), Json(-1), Json(std::nan("")), Json(9e18)})
    EXPECT_THAT(said("plan", {{"brief", text}, {"best", wrong}}),
                HasSubstr("best: expected a whole number, 1 to 50"))
        << wrong;
  for (const Json& wrong : {Json(0), Json(-1), Json(604801), Json("1"), Json(std::nan(""))})
    EXPECT_THAT(said("plan", {{"brief", text}, {"time_limit_s", wrong}}),
                HasSubstr("time_limit_s: expected"))
        << wrong;
  for (const Json& wrong : {Json(9.9), Json(100.1), Json("50"), Json::object()})
    EXPECT_THAT(said("air", {{"build", text}, {"speed", wrong}}), HasSubstr("speed: expected"));
  for (const Json& wrong : {Json(1), Json("yes"), Json("true")})
    EXPECT_THAT(said("air", {{"build", text}, {"show_work", wrong}}),
                HasSubstr("show_work: expected true or false"));
  for (const Json& wrong :
       {Json("a"), Json{1}, Json{{"a", "b"}}, Json(std::vector<std::string>(201))})
    EXPECT_THAT(said("insist", {{"brief", text}, {"parts", wrong}}), HasSubstr("parts: expected"));
  for (const Json& wrong : {Json(900), Json(), Json::array()})
    EXPECT_THAT(said("frontier", {{"brief", text}, {"from", wrong}, {"to", "1"}}),
                HasSubstr("from: expected a text"));
  EXPECT_THAT(said("plan", {{"brief", text}, {"bets", 3}}), HasSubstr("bets: not asked for here"));
  EXPECT_THAT(said("plan", {{"brief", text}, {"parts", Json::array()}}), HasSubstr("parts"));
}

// Each input that the description refuses the reader refuses too, and the other way round.
TEST(JsonInputs, TheDescriptionSaysTheSame) {
  const Json values[] = {Json(0),       Json(1),    Json(10), Json(50),       Json(51),
                         Json(100),     Json(1.5),  Json(-3), Json("x"),      Json(true),
                         Json::array(), Json{"a"},  Json{1},  Json(604800),   Json(604801),
                         Json(1000),    Json(1001), text,     Json::object(), Json(0.05)};
  std::size_t tried = 0;
  for (const Question& question : questions()) {
    Json whole = Json::object();
    for (const auto& name : question.inputs.value("required", Json::array())) {
      const Json& one = question.inputs["properties"][name.get<std::string>()];
      whole[name.get<std::string>()] = one.contains("$ref") ? text : Json("x");
    }
    for (const auto& [name, schema] : question.inputs["properties"].items()) {
      Json alone = schema;
      if (schema.contains("$ref"))
        alone = {{"type", "object"},
                 {"properties", {{"text", {{"type", "string"}}}}},
                 {"required", {"text"}}};
      for (const Json& value : values) {
        Json inputs = whole;
        inputs[name] = value;
        const bool described =
            test_support::complaints(nlohmann::json(alone), nlohmann::json(value)).empty();
        EXPECT_EQ(said(question.name, inputs).empty(), described)
            << question.name << ' ' << name << ' ' << value << ' ' << said(question.name, inputs);
        ++tried;
      }
    }
  }
  EXPECT_GT(tried, 500U);
}

TEST(Body, IsAnObjectAndNotTooDeep) {
  const auto deep = [](std::size_t levels) {
    return R"({"x": )" + std::string(levels - 1, '[') + std::string(levels - 1, ']') + "}";
  };
  EXPECT_TRUE(object_of(deep(32)));
  EXPECT_THAT(object_of(deep(33)).error().message, HasSubstr("deeper than 32"));
  EXPECT_FALSE(object_of(std::string(10'000'000, '[')));
  EXPECT_FALSE(object_of(std::string(10'000'000, '{')));
  EXPECT_TRUE(object_of(R"({"x": "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[["})")) << "in a text";
  EXPECT_TRUE(object_of(R"({"x": "\"[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[["})"));
  for (const char* bad : {"", " ", "{", "nul", "1", "\"x\"", "[]", "{\"x\": NaN}", "{\"x\": 1e999}",
                          "{\"x\": 'y'}", "{\"x\": 1,}", "{} {}", "{\"x\": \"\xff\"}"})
    EXPECT_FALSE(object_of(bad)) << bad;
  EXPECT_FALSE(object_of("{\"x\": 1, \"y\": 2}", {"x"}));
}

}  // namespace
}  // namespace rigproof::server
