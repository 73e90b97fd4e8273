#include "coupled/air/air_noise.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/air/noise.hpp"

namespace rigproof::coupled {
namespace {

// One source as it is heard: `count` of its level, slower and farther away.
struct HeardSource {
  const Draws* level = nullptr;
  double change_db = 0.0;
  std::optional<FanGroup> fans;
  int count = 1;
};
using HeardSources = air::FixedList<HeardSource, most_fan_rows>;

// What distance and speed change, dB.
struct Change {
  double farther_db = 0.0;
  std::array<double, all_fan_groups.size()> slower_db{};

  Change(FanSpeeds speeds, double distance_m) : farther_db(-20.0 * std::log10(distance_m)) {
    for (const FanGroup group : all_fan_groups)
      slower_db[static_cast<std::size_t>(group)] =
          air::fan_speed_exponent_db * std::log10(speeds.of(group));
  }
  template <class Source>
  [[nodiscard]] double of(const Source& source) const {
    return farther_db + source.change_db +
           (source.fans ? slower_db[static_cast<std::size_t>(*source.fans)] : 0.0);
  }
};

// (A60) of one level a source, taken by `level_of`.
template <class LevelOf>
double sum_dba(const HeardSources& sources, const Change& change, LevelOf level_of) {
  constexpr double per_db = 0.23025850929940457;  // ln 10 / 10
  double power = 0.0;
  for (const HeardSource& source : sources)
    power += source.count * std::exp(per_db * (level_of(*source.level) + change.of(source)));
  return std::log(power) / per_db;
}

HeardSources heard_sources(const Facts& facts, const Sounds& sounds) {
  HeardSources out;
  for (const Sound& sound : sounds)
    out.add({.level = &facts.draws.of(sound.level, sound.row),
             .change_db = sound.change_db,
             .fans = sound.fans,
             .count = sound.count});
  return out;
}

double lowest(const Draws& level) { return level.low(); }
double highest(const Draws& level) { return level.high(); }

}  // namespace

double heard_change_db(const Sound& sound, FanSpeeds speeds, double distance_m) {
  return Change(speeds, distance_m).of(sound);
}

// (B10)
Draws noise_dba(const Facts& facts, const AirCase& of, const Heard& heard, Measure& m) {
  bool known = true;
  for (const Sound& sound : of.sounds)
    known = !m.read(facts, sound.level, sound.row).is_absent() && known;
  if (!known || of.sounds.size() == 0) return Draws::absent();
  const HeardSources sources = heard_sources(facts, of.sounds);
  std::array<double, draw_count> samples{};
  if (!heard.speeds.are_certain()) {
    for (int draw = 0; draw < draw_count; ++draw)
      samples[static_cast<std::size_t>(draw)] =
          sum_dba(sources, {heard.speeds[draw], heard.distance_m},
                  [draw](const Draws& level) { return level[draw]; });
    return Draws::of(samples,
                     heard.speeds.chassis_frac.spans() || heard.speeds.cooler_frac.spans());
  }
  const Change change(heard.speeds[0], heard.distance_m);
  if (m.deciding) {
    if (const double high = sum_dba(sources, change, highest); high <= heard.at_most_dba)
      return {high};
    if (const double low = sum_dba(sources, change, lowest); low > heard.at_most_dba) return {low};
  }
  for (int draw = 0; draw < draw_count; ++draw)
    samples[static_cast<std::size_t>(draw)] =
        sum_dba(sources, change, [draw](const Draws& level) { return level[draw]; });
  return Draws::of(samples);
}

Draws noise_at_any_speed(const Facts& facts, const AirCase& of, double distance_m,
                         double at_most_dba) {
  for (const Sound& sound : of.sounds)
    if (facts.draws.of(sound.level, sound.row).is_absent()) return Draws::absent();
  if (of.sounds.size() == 0) return Draws::absent();
  const HeardSources sources = heard_sources(facts, of.sounds);
  const double least = sum_dba(sources, {least_speed_frac, distance_m}, lowest);
  if (least > at_most_dba) return {least};
  const double most = sum_dba(sources, {1.0, distance_m}, highest);
  return most <= at_most_dba ? Draws(most) : Draws::absent();
}

std::optional<double> least_noise_dba(const Facts& facts, const Sounds& sounds, FanSpeeds speeds,
                                      double distance_m) {
  HeardSources known;
  for (const HeardSource& source : heard_sources(facts, sounds))
    if (!source.level->is_absent()) known.add(source);
  if (known.size() == 0) return {};
  return sum_dba(known, {speeds, distance_m}, lowest);
}

}  // namespace rigproof::coupled
