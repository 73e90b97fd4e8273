#include "cli/inputs.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/session.hpp"

namespace rigproof::cli {
namespace {

// `cooler_speed` -> `--cooler-speed`.
std::string option_of(const app::Said& said) {
  std::string name = "--" + said.name;
  std::ranges::replace(name, '_', '-');
  return name;
}

// CLI::Range would let a NaN pass.
CLI::Validator between(double least, double most, const std::string& unit) {
  return {[=](const std::string& text) {
            double value = 0.0;
            if (CLI::detail::lexical_cast(text, value) && value >= least && value <= most)
              return std::string();
            return fmt::format("expected {:g} to {:g} {}, got {}", least, most, unit, text);
          },
          "", unit};
}

// Empty: good.
std::string complaint_about_limit(const std::string& text) {
  double seconds = 0.0;
  if (CLI::detail::lexical_cast(text, seconds) && seconds > 0.0 &&
      seconds <= app::longest_time_limit_s)
    return {};
  return "expected a number of seconds above 0 and up to 604800 (a week), got " + text;
}

}  // namespace

void OptionInputs::catalog() {
  if (catalog_ == nullptr) return;
  add_catalog(app_, *catalog_);
  catalog_ = nullptr;
}

void OptionInputs::subject(const app::Said& said, app::Given& value, app::GivenKind /*kind*/) {
  app_.add_option(said.of, value.name, said.meaning)->required();
}

void OptionInputs::list(const app::Said& said, std::vector<std::string>& values) {
  app_.add_option(said.of, values, said.meaning)->expected(0, -1);
}

void OptionInputs::beside(const app::Said& said, app::Given& value, app::GivenKind /*kind*/) {
  catalog();
  app_.add_option(option_of(said), value.name, said.meaning)->type_name(said.of);
}

void OptionInputs::several(const app::Said& said, std::vector<std::string>& values) {
  catalog();
  app_.add_option(option_of(said), values, said.meaning)
      ->type_name(said.of)
      ->expected(1)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
}

void OptionInputs::text(const app::Said& said, std::string& value) {
  catalog();
  app_.add_option(option_of(said), value, said.meaning)->required()->type_name(said.of);
}

void OptionInputs::whole(const app::Said& said, int& value, int least, int most) {
  catalog();
  app_.add_option(option_of(said), value, said.meaning)
      ->type_name(said.of)
      ->check(CLI::Range(least, most))
      ->capture_default_str();
}

void OptionInputs::maybe_whole(const app::Said& said, std::optional<int>& value, int least,
                               int most) {
  catalog();
  app_.add_option(option_of(said), value, said.meaning)
      ->type_name(said.of)
      ->check(CLI::Range(least, most));
}

void OptionInputs::number(const app::Said& said, double& value, double least, double most,
                          std::string_view unit) {
  catalog();
  app_.add_option(option_of(said), value, said.meaning)
      ->check(between(least, most, std::string(unit)))
      ->type_name(said.of);
}

void OptionInputs::flag(const app::Said& said, bool& value) {
  catalog();
  app_.add_flag(option_of(said), value, said.meaning);
}

void OptionInputs::time_limit(std::string_view and_then, std::optional<double>& limit_s) {
  catalog();
  app_.add_option("--time-limit", limit_s,
                  "Stop looking after so many seconds, " + std::string(and_then))
      ->type_name("SECONDS")
      ->check(CLI::Validator(complaint_about_limit, "", "seconds"));
}

void OptionInputs::measured(app::MeasuredInput& value) {
  catalog();
  app_.add_option("--measured", value.file,
                  "Values measured on the parts, in place of the catalog's (CSV, docs/measured.md; "
                  "- is standard input)")
      ->type_name("FILE");
  app_.add_option("--measure", value.lines,
                  "One such value: TABLE,ROW,COLUMN,VALUE or with its half-width after it; may be "
                  "given several times")
      ->type_name("CELL")
      ->allow_extra_args(false);
}

}  // namespace rigproof::cli
