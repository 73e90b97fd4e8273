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
    return (limit_c.spans() ? limit_c.low() : limit_c.median()) - margin_k;
  };
  Limits out{};
  for (const Watched which : all_watched)
    out.every_draw[which] = brief_limit_c(brief, which, load);
  out.middle = out.every_draw;
  out.middle[Watched::cpu] = std::min(out.middle[Watched::cpu], own(of.cpu_limit_c));
  if (of.has_card)
    out.middle[Watched::gpu] = std::min(out.middle[Watched::gpu], own(of.gpu_limit_c));
  return out;
}

bool SpeedSearch::middle_keeps(int step) {
  return keeps(model_.at(AirModel::middle, speed_of_step(step)), limits_.middle);
}

bool SpeedSearch::draw_keeps(int draw, int step) {
  return within(model_.at(draw, speed_of_step(step)), limits_.every_draw);
}

bool SpeedSearch::asks_every_draw() const {
  return std::ranges::any_of(limits_.every_draw.all,
                             [](double limit_c) { return limit_c < no_limit_c; });
}

template <class Kept>
std::optional<int> SpeedSearch::first(int from_step, Kept kept) {
  if (!kept(speed_steps)) return {};
  if (from_step >= speed_steps || kept(from_step)) return from_step;
  int low = from_step;
  int high = speed_steps;
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (kept(middle) ? high : low) = middle;
  }
  return high;
}

std::optional<int> SpeedSearch::least_of_middle() {
  return first(0, [&](int step) { return middle_keeps(step); });
}

// (B9) Each draw that does not keep the step so far moves it to its own least.
std::optional<int> SpeedSearch::least(int from_step) {
  auto step = first(from_step, [&](int at) { return middle_keeps(at); });
  if (!step || !asks_every_draw()) return step;
  for (int draw = 0; draw < draw_count && step; ++draw)
    if (!draw_keeps(draw, *step))
      step = first(*step, [&](int at) { return draw_keeps(draw, at); });
  return step;
}

bool SpeedSearch::all_keep(int step) {
  if (!middle_keeps(step)) return false;
  if (!asks_every_draw()) return true;
  for (int draw = 0; draw < draw_count; ++draw)
    if (!draw_keeps(draw, step)) return false;
  return true;
}

double quietest_speed_frac(AirModel& model, const Limits& limits) {
  const auto step = SpeedSearch(model, limits).least();
  return step ? speed_of_step(*step) : 1.0;
}

}  // namespace rigproof::coupled
