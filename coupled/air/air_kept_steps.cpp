#include "coupled/air/air_kept_steps.hpp"

#include <algorithm>
#include <vector>

#include "coupled/air/air_mixer.hpp"

namespace rigproof::coupled {
namespace {

// What makes limits harder to keep, at the same flows, the larger it is: heat, and what its bodies
// lack in conductance and in temperature they may come to. (B24)
using Hardness = std::array<double, 9>;

double middle_or(const Draws& draws, double otherwise) {
  return draws.is_absent() ? otherwise : middle_of(draws);
}

Hardness hardness_of(const AirCase& of, const SpeedLimits& middle) {
  return {middle_or(of.cpu_w, 0.0),
          middle_or(of.gpu_w, 0.0),
          middle_or(of.upper_w, 0.0),
          middle_or(of.lower_w, 0.0),
          -middle_or(of.gpu_w_k, 0.0),
          -middle_or(of.cpu_limit_c, no_limit_c),
          -middle_or(of.gpu_limit_c, no_limit_c),
          -middle[Watched::cpu],
          -middle[Watched::gpu]};
}

bool no_harder(const Hardness& a, const Hardness& b) {
  for (std::size_t i = 0; i < a.size(); ++i)
    if (!(a[i] <= b[i])) return false;
  return true;
}

// Of one case: steps below `none_below` do not keep its limits, the step `kept` does.
struct Found {
  Hardness hardness{};
  int none_below = 0;
  int kept = no_step;
};
using FoundOfFlows = std::vector<Found>;

// What the temperatures of followers hang on beside that, where the brief limits them.
CellDraws::Key key_of(const AirCase& of, const SpeedLimits& middle) {
  Mixer mixer;
  add_flows(of, mixer);
  for (const Watched which : all_watched) {
    if (which == Watched::cpu || which == Watched::gpu) continue;
    mixer.add(middle[which]);
    if (middle[which] >= no_limit_c) continue;
    for (const Draws* draws : {&of.cpu_w, &of.stage_k_w, &of.drive_rise_k, &of.plate_k_w})
      mixer.add(*draws);
  }
  const auto& words = mixer.words();
  return {0xA1'4000'0000'0004U, words[0], words[1], words[2], 0, 0};
}

}  // namespace

bool none_keeps(CellDraws& draws, const AirCase& of, const SpeedLimits& middle, int steps) {
  auto& known = draws.memory<FoundOfFlows>(key_of(of, middle));
  Found now{.hardness = hardness_of(of, middle)};
  Found* same = nullptr;
  for (Found& other : known) {
    const bool easier = no_harder(other.hardness, now.hardness);
    const bool harder = no_harder(now.hardness, other.hardness);
    if (easier) now.none_below = std::max(now.none_below, other.none_below);
    if (harder) now.kept = std::min(now.kept, other.kept);
    if (easier && harder) same = &other;
  }
  if (now.none_below >= steps) return true;
  if (now.kept < steps) return false;
  AirModel model(of);
  for (int step = steps - 1; step >= now.none_below; --step) {
    const AirState state = model.at(AirModel::middle, speed_of_step(step));
    if (!state.solved) return false;
    if (!keeps(state, middle)) continue;
    now.kept = step;
    break;
  }
  const bool none = now.kept >= steps;
  if (none) now.none_below = steps;
  if (same != nullptr)
    *same = now;
  else
    known.push_back(now);
  return none;
}

}  // namespace rigproof::coupled
