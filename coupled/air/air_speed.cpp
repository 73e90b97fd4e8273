#include "coupled/air/air_speed.hpp"

#include <algorithm>
#include <cmath>

namespace rigproof::coupled {

double brief_limit_c(const Brief& brief, Watched which, power::Load load) {
  const auto found = brief.limits.find(limit_key(which));
  return found != brief.limits.end() && found->second.load == power::name_of(brief, load)
             ? found->second.at_most
             : no_limit_c;
}

Limits limits_of(const Brief& brief, const AirCase& of, power::Load load) {
  const auto own = [](const Draws& limit_c) {
    if (limit_c.is_absent()) return no_limit_c;
    return (limit_c.spans() ? limit_c.low() : middle_of(limit_c)) - margin_k;
  };
  Limits out{};
  for (const Watched which : all_watched) out.every_draw[which] = brief_limit_c(brief, which, load);
  out.middle = out.every_draw;
  out.middle[Watched::cpu] = std::min(out.middle[Watched::cpu], own(of.cpu_limit_c));
  if (of.has_card)
    out.middle[Watched::gpu] = std::min(out.middle[Watched::gpu], own(of.gpu_limit_c));
  return out;
}

bool SpeedSearch::keeps_at(int draw, int step) {
  const AirState state = steering_.at(draw, speed_of_step(step)).state;
  return draw == AirModel::middle ? keeps(state, limits_.middle)
                                  : within(state, limits_.every_draw);
}

bool SpeedSearch::asks_every_draw() const {
  return std::ranges::any_of(limits_.every_draw.all,
                             [](double limit_c) { return limit_c < no_limit_c; });
}

// The least step in [low, high) that this draw keeps; `high` where there is none.
int SpeedSearch::first(int draw, int low, int high) {
  if (low >= high || keeps_at(draw, low)) return low;
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (keeps_at(draw, middle) ? high : low) = middle;
  }
  return high;
}

// (B9) Each draw that does not keep the step so far moves it to its own least.
SpeedSearch::Least SpeedSearch::least(int low, int high, int hottest) {
  Least out{.step = first(AirModel::middle, low, high)};
  if (!asks_every_draw()) return out;
  // The middle one among them, each until all have kept the same step.
  constexpr int all = draw_count + 1;
  const bool from_middle = hottest == AirModel::middle;  // which has just kept it
  int kept = from_middle ? 1 : 0;
  for (int next = from_middle ? 1 : hottest + 1; kept < all && out.step < high;
       next = (next + 1) % all) {
    const int draw = next - 1;
    const int step = first(draw, out.step, high);
    kept = step > out.step ? 1 : kept + 1;
    if (step > out.step) out = {.step = step, .draw = draw};
  }
  return out;
}

double quietest_speed_frac(AirModel& model, const Limits& limits) {
  AirSteering steering(model, nullptr);
  return speed_of(SpeedSearch(steering, limits).least());
}

}  // namespace rigproof::coupled
