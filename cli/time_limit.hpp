// A time limit that the user sets for a search: when it began, and whether it is over.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>

#include "app/planning.hpp"

namespace rigproof::cli {

/// Begins when it is made. Without a limit it is never over.
class TimeLimit {
 public:
  explicit TimeLimit(std::optional<double> limit_s);
  [[nodiscard]] bool over() const;
  [[nodiscard]] std::optional<double> limit_s() const { return limit_s_; }
  /// The same job, stopped by whichever comes first. This object must outlive it.
  [[nodiscard]] app::LongJob within(const app::LongJob& job) const;

 private:
  std::optional<double> limit_s_;
  double began_s_;
};

/// The option `--time-limit SECONDS`: more than 0, at most a week, decimals allowed. `and_then`
/// ends the sentence: with what the command answers then.
void add_time_limit(CLI::App& app, std::optional<double>& limit_s, const std::string& and_then);

}  // namespace rigproof::cli
