// The inputs of a question (app/asks.hpp) read from JSON, and described as JSON Schema.
#pragma once

#include <set>
#include <string>

#include "app/inputs.hpp"
#include "server/request.hpp"

namespace rigproof::server {

/// Reads each declared input from an object. A brief or a build is `{"name": "...", "text": "..."}`
/// (ids of documents were put in place before). The first thing wrong is kept; the values are not
/// to be used then.
class JsonInputs final : public app::Inputs {
 public:
  explicit JsonInputs(const Json& json) : json_(json) {}
  /// To be called after the pass. Errors: bad_input, naming the input; one that nobody asked for.
  [[nodiscard]] Result<void> finish() const;

  void subject(const app::Said& said, app::Given& value, app::GivenKind kind) override;
  void beside(const app::Said& said, app::Given& value, app::GivenKind kind) override;
  void list(const app::Said& said, std::vector<std::string>& values) override;
  void several(const app::Said& said, std::vector<std::string>& values) override;
  void text(const app::Said& said, std::string& value) override;
  void whole(const app::Said& said, int& value, int least, int most) override;
  void maybe_whole(const app::Said& said, std::optional<int>& value, int least, int most) override;
  void number(const app::Said& said, double& value, double least, double most,
              std::string_view unit) override;
  void flag(const app::Said& said, bool& value) override;
  void time_limit(std::string_view and_then, std::optional<double>& limit_s) override;
  void measured(app::MeasuredInput& value) override;

 private:
  [[nodiscard]] const Json* find(const std::string& name);
  void wrong(const std::string& name, const std::string& expected);
  void given(const app::Said& said, app::Given& value, app::GivenKind kind);

  const Json& json_;
  std::set<std::string> asked_;
  std::string wrong_;
};

/// The same declarations as JSON Schema (draft 2020-12, as OpenAPI 3.1 takes it), and the names of
/// those that hold a brief or a build.
class SchemaInputs final : public app::Inputs {
 public:
  [[nodiscard]] Json schema() const;
  [[nodiscard]] const std::vector<std::pair<std::string, app::GivenKind>>& given() const {
    return given_;
  }

  void subject(const app::Said& said, app::Given& value, app::GivenKind kind) override;
  void beside(const app::Said& said, app::Given& value, app::GivenKind kind) override;
  void list(const app::Said& said, std::vector<std::string>& values) override;
  void several(const app::Said& said, std::vector<std::string>& values) override;
  void text(const app::Said& said, std::string& value) override;
  void whole(const app::Said& said, int& value, int least, int most) override;
  void maybe_whole(const app::Said& said, std::optional<int>& value, int least, int most) override;
  void number(const app::Said& said, double& value, double least, double most,
              std::string_view unit) override;
  void flag(const app::Said& said, bool& value) override;
  void time_limit(std::string_view and_then, std::optional<double>& limit_s) override;
  void measured(app::MeasuredInput& value) override;

 private:
  void add(const std::string& name, const std::string& meaning, Json schema);

  Json properties_ = Json::object();
  Json required_ = Json::array();
  std::vector<std::pair<std::string, app::GivenKind>> given_;
};

}  // namespace rigproof::server
