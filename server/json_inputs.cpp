#include "server/json_inputs.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/text.hpp"

namespace rigproof::server {
namespace {

constexpr std::size_t most_of_a_list = 200;

std::string name_of(app::GivenKind kind) {
  return kind == app::GivenKind::brief ? "brief" : "build";
}

}  // namespace

const Json* JsonInputs::find(const std::string& name) {
  asked_.insert(name);
  const auto found = json_.find(name);
  return found == json_.end() || found->is_null() ? nullptr : &*found;
}

void JsonInputs::wrong(const std::string& name, const std::string& expected) {
  if (wrong_.empty()) wrong_ = fmt::format("{}: expected {}", name, expected);
}

Result<void> JsonInputs::finish() const {
  if (!wrong_.empty()) return bad_input(wrong_);
  for (const auto& [name, value] : json_.items())
    if (!asked_.contains(name))
      return bad_input(fmt::format("{}: not asked for here", excerpt(name)));
  return {};
}

void JsonInputs::given(const app::Said& said, app::Given& value, app::GivenKind kind) {
  const Json* json = find(said.name);
  if (json == nullptr) return;
  const auto text = json->is_object() ? json->find("text") : json->end();
  if (!json->is_object() || text == json->end() || !text->is_string()) {
    wrong(said.name, fmt::format("the id of a {0}, or {{\"text\": a {0} as TOML}}", name_of(kind)));
    return;
  }
  value.text = text->get<std::string>();
  const auto name = json->find("name");
  value.name = name != json->end() && name->is_string() ? name->get<std::string>() : name_of(kind);
}

void JsonInputs::subject(const app::Said& said, app::Given& value, app::GivenKind kind) {
  given(said, value, kind);
  if (value.empty()) wrong(said.name, fmt::format("a {}", name_of(kind)));
}

void JsonInputs::beside(const app::Said& said, app::Given& value, app::GivenKind kind) {
  given(said, value, kind);
}

void JsonInputs::list(const app::Said& said, std::vector<std::string>& values) {
  const Json* json = find(said.name);
  if (json == nullptr) return;
  const auto is_text = [](const Json& item) { return item.is_string(); };
  if (!json->is_array() || json->size() > most_of_a_list ||
      !std::all_of(json->begin(), json->end(), is_text)) {
    wrong(said.name, fmt::format("a list of up to {} texts", most_of_a_list));
    return;
  }
  values = json->get<std::vector<std::string>>();
}

void JsonInputs::several(const app::Said& said, std::vector<std::string>& values) {
  list(said, values);
}

void JsonInputs::text(const app::Said& said, std::string& value) {
  const Json* json = find(said.name);
  if (json != nullptr && json->is_string())
    value = json->get<std::string>();
  else
    wrong(said.name, "a text");
}

void JsonInputs::whole(const app::Said& said, int& value, int least, int most) {
  std::optional<int> found;
  maybe_whole(said, found, least, most);
  value = found.value_or(value);
}

void JsonInputs::maybe_whole(const app::Said& said, std::optional<int>& value, int least,
                             int most) {
  const Json* json = find(said.name);
  if (json == nullptr) return;
  const double number = json->is_number() ? json->get<double>() : std::nan("");
  if (number >= least && number <= most && number == std::floor(number))
    value = static_cast<int>(number);
  else
    wrong(said.name, fmt::format("a whole number, {} to {}", least, most));
}

void JsonInputs::number(const app::Said& said, double& value, double least, double most,
                        std::string_view unit) {
  const Json* json = find(said.name);
  if (json == nullptr) return;
  const double number = json->is_number() ? json->get<double>() : std::nan("");
  if (number >= least && number <= most)
    value = number;
  else
    wrong(said.name, fmt::format("{:g} to {:g} {}", least, most, unit));
}

void JsonInputs::flag(const app::Said& said, bool& value) {
  const Json* json = find(said.name);
  if (json == nullptr) return;
  if (json->is_boolean())
    value = json->get<bool>();
  else
    wrong(said.name, "true or false");
}

void JsonInputs::time_limit(std::string_view /*and_then*/, std::optional<double>& limit_s) {
  const Json* json = find("time_limit_s");
  if (json == nullptr) return;
  const double number = json->is_number() ? json->get<double>() : std::nan("");
  if (number > 0.0 && number <= app::longest_time_limit_s)
    limit_s = number;
  else
    wrong("time_limit_s", "a number of seconds above 0 and up to 604800 (a week)");
}

void JsonInputs::measured(app::MeasuredInput& value) {
  list({.name = "measured", .of = "", .meaning = ""}, value.lines);
}

Json SchemaInputs::schema() const {
  Json out = {{"type", "object"}, {"properties", properties_}, {"additionalProperties", false}};
  if (!required_.empty()) out["required"] = required_;
  return out;
}

void SchemaInputs::add(const std::string& name, const std::string& meaning, Json schema) {
  schema["description"] = meaning;
  properties_[name] = std::move(schema);
}

void SchemaInputs::subject(const app::Said& said, app::Given& value, app::GivenKind kind) {
  beside(said, value, kind);
  required_.push_back(said.name);
}

void SchemaInputs::beside(const app::Said& said, app::Given& /*value*/, app::GivenKind kind) {
  add(said.name, said.meaning, {{"$ref", "#/components/schemas/Given"}});
  given_.emplace_back(said.name, kind);
}

void SchemaInputs::list(const app::Said& said, std::vector<std::string>& /*values*/) {
  add(said.name, said.meaning,
      {{"type", "array"}, {"items", {{"type", "string"}}}, {"maxItems", most_of_a_list}});
}

void SchemaInputs::several(const app::Said& said, std::vector<std::string>& values) {
  list(said, values);
}

void SchemaInputs::text(const app::Said& said, std::string& /*value*/) {
  add(said.name, said.meaning, {{"type", "string"}});
  required_.push_back(said.name);
}

void SchemaInputs::whole(const app::Said& said, int& value, int least, int most) {
  add(said.name, said.meaning,
      {{"type", "integer"}, {"minimum", least}, {"maximum", most}, {"default", value}});
}

void SchemaInputs::maybe_whole(const app::Said& said, std::optional<int>& /*value*/, int least,
                               int most) {
  add(said.name, said.meaning, {{"type", "integer"}, {"minimum", least}, {"maximum", most}});
}

void SchemaInputs::number(const app::Said& said, double& /*value*/, double least, double most,
                          std::string_view unit) {
  add(said.name, fmt::format("{} ({})", said.meaning, unit),
      {{"type", "number"}, {"minimum", least}, {"maximum", most}});
}

void SchemaInputs::flag(const app::Said& said, bool& /*value*/) {
  add(said.name, said.meaning, {{"type", "boolean"}, {"default", false}});
}

void SchemaInputs::time_limit(std::string_view and_then, std::optional<double>& /*limit_s*/) {
  add("time_limit_s", fmt::format("Stop looking after so many seconds, {}", and_then),
      {{"type", "number"}, {"exclusiveMinimum", 0}, {"maximum", app::longest_time_limit_s}});
}

void SchemaInputs::measured(app::MeasuredInput& /*value*/) {
  add("measured",
      "Values measured on the parts, in place of the catalog's: TABLE,ROW,COLUMN,VALUE or with its "
      "half-width after it, each",
      {{"type", "array"}, {"items", {{"type", "string"}}}, {"maxItems", most_of_a_list}});
}

}  // namespace rigproof::server
