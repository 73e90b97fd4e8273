// A time limit that the user sets for a search: when it began, and whether it is over.
#pragma once

#include <optional>

#include "app/planning.hpp"

namespace rigproof::app {

/// Begins when it is made. Without a limit it is never over.
class TimeLimit {
 public:
  explicit TimeLimit(std::optional<double> limit_s);
  [[nodiscard]] bool over() const;
  [[nodiscard]] std::optional<double> limit_s() const { return limit_s_; }
  /// The same job, stopped by whichever comes first. This object must outlive it.
  [[nodiscard]] LongJob within(const LongJob& job) const;

 private:
  std::optional<double> limit_s_;
  double began_s_;
};

}  // namespace rigproof::app
