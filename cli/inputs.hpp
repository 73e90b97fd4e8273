// The inputs of a question (app/asks.hpp) as options of a command.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "app/inputs.hpp"

namespace rigproof::cli {

/// Puts `--catalog DIR` after the subjects, where there are any, and every input in its order. In:
/// what is declared outlives the parsing.
class OptionInputs final : public app::Inputs {
 public:
  OptionInputs(CLI::App& app, std::string& catalog) : app_(app), catalog_(&catalog) {}
  /// For a command that takes its catalog otherwise.
  explicit OptionInputs(CLI::App& app) : app_(app) {}

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
  /// Once all is declared: the catalog, where no named input stood in front of which to put it.
  void end() { catalog(); }

 private:
  void catalog();

  CLI::App& app_;
  std::string* catalog_ = nullptr;
};

/// Declares what the question asks for, its catalog among it.
template <class Ask>
void add_inputs(CLI::App& app, Ask& ask, std::string& catalog) {
  OptionInputs inputs(app, catalog);
  declare(inputs, ask);
  inputs.end();
}

}  // namespace rigproof::cli
