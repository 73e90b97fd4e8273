// A first look at a brief's tree: which options rarely come to anything, so that the probes that
// count are drawn where builds are. Internal to the outlook.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "decision/plan/outlook_judge.hpp"

namespace rigproof::plan::internal {

struct PilotWork {
  int probes = 0;
  std::uint64_t seed = 0;
  const std::function<bool()>& stop;
};

/// Of the probes that come to an end: fewer is seldom.
inline constexpr double seldom = 0.03;

/// Some hundred probes, whose random numbers nothing else uses: what is learned from them moves the
/// probabilities of the probes that count, not what these expect.
class Pilot {
 public:
  Pilot(Stock& stock, Verdicts& verdicts, const Brief& brief, const PilotWork& work);

  /// (L6): the share of an option's probes that no rule refused for it, nearer to its slot's where
  /// it was drawn seldom. Rules that `forget` are as if they had refused nothing. The options may
  /// be those of another stock: they are found by their parts.
  [[nodiscard]] Favors favors(const Stock& stock,
                              const std::function<bool(std::size_t rule)>& forget) const;
  [[nodiscard]] const Judge& judge() const { return judge_; }
  /// The share of the probes of the last rounds that nothing refused.
  [[nodiscard]] double leaf_share() const;
  /// The share of the probes that a rule refused.
  [[nodiscard]] double refused_by(std::size_t rule) const;

 private:
  struct Ended {
    std::vector<int> choice;  // -1 behind the slot where it ended
    std::size_t rule;         // that refused it; none: ~0
    std::vector<int> over;    // slots it looked at
  };
  const Stock& stock_;
  Judge judge_;
  std::vector<Ended> ended_;
  std::size_t last_rounds_from_ = 0;
};

}  // namespace rigproof::plan::internal
