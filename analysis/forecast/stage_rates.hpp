// How many frames a second one stage alone would allow, for many parts: the numbers on which the
// bounds (F7) and (F11) rest. The same formulas and draws as speeds.hpp, put so that a whole market
// is done in passes over plain arrays; they agree to rounding, which a test holds them to.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "claims/facts.hpp"

namespace rigproof::forecast {

/// Over the draws; both 0 when a cell that matters is absent.
struct StageRate {
  double mean_fps = 0.0;
  double most_fps = 0.0;
};

/// For the titles of the brief in `facts`, by their place in it. Facts must outlive it.
class StageRates {
 public:
  explicit StageRates(const Facts& facts) : facts_(facts) {}

  /// (F4) with memory at this effective rate, MT/s.
  [[nodiscard]] std::vector<StageRate> cpu(Row cpu, double mt_s);
  /// (F4), (F5), (F9)
  [[nodiscard]] std::vector<StageRate> gpu(Row gpu);

 private:
  using Samples = std::array<double, draw_count>;
  // What a title asks of a card of speed 1 in one rendered frame, draw by draw: milliseconds times
  // the card's speed.
  struct Asked {
    Samples shading{};
    Samples ray{};
    Samples traffic{};
    bool rays = false;  // of any draw
    bool moves = false;
  };
  [[nodiscard]] std::optional<Samples> cell(ColumnId column, Row row) const;
  [[nodiscard]] std::optional<Asked> asked_of_gpu(const TitleGoal& goal) const;
  [[nodiscard]] const std::optional<Samples>& rates_at_speed_1(std::size_t title, double mt_s);

  const Facts& facts_;
  std::vector<std::optional<Asked>> of_gpu_;                                 // [title], once asked
  std::map<std::pair<std::size_t, double>, std::optional<Samples>> of_cpu_;  // by title and MT/s
};

}  // namespace rigproof::forecast
