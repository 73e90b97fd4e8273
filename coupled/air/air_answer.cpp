#include "coupled/air/air_answer.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>

#include "analysis/air/noise.hpp"

namespace rigproof::coupled {
namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr std::array limit_keys = {"cpu_c", "gpu_c", "exhaust_c"};

double brief_limit(const Brief& brief, const char* key, power::Load load) {
  const auto found = brief.limits.find(key);
  return found != brief.limits.end() && found->second.load == power::name_of(load)
             ? found->second.at_most
             : no_limit;
}

// All that an answer rests on beside catalog and seed.
CellDraws::Key key_of(const Facts& facts, power::Load load, bool full_speed) {
  CellDraws::Key key{0xA1'4000'0000'0001U, 1, 2, 3, full_speed ? 1U : 0U, 0};
  const auto add = [&](std::uint64_t value) {
    for (std::size_t i = 1; i <= 3; ++i) {
      key[i] = (key[i] ^ value) * (0x9E37'79B9'7F4A'7C15U + 2 * i);
      key[i] ^= key[i] >> 29U;
    }
  };
  for (int k = 0; k < kind_count; ++k) {
    for (const Chosen& chosen : facts.build.of(static_cast<Kind>(k))) {
      add(chosen.row);
      add(static_cast<std::uint64_t>(chosen.count));
    }
    add(~std::uint64_t{0});
  }
  if (facts.mounts != nullptr)
    for (const auto& [what, where] : *facts.mounts)
      for (const std::string* text : {&what, &where}) {
        for (const char c : *text) add(static_cast<unsigned char>(c));
        add(256);
      }
  // Where radiator and fans sit hangs on what the brief accepts.
  const auto add_accept = [&](const Accept& accept) {
    add(static_cast<std::uint64_t>(accept.verdict));
    add(static_cast<std::uint64_t>(accept.unknown));
  };
  add_accept(facts.brief.accept);
  for (const auto& [rule, accept] : facts.brief.accept_by_rule) {
    for (const char c : rule) add(static_cast<unsigned char>(c));
    add_accept(accept);
  }
  add(static_cast<std::uint64_t>(load));
  for (const double number :
       {facts.brief.room_c, brief_limit(facts.brief, "cpu_c", load),
        brief_limit(facts.brief, "gpu_c", load), brief_limit(facts.brief, "exhaust_c", load)})
    add(std::bit_cast<std::uint64_t>(number));
  return key;
}

// The numbers of an answer under one key each.
enum Kept : std::uint64_t { speed, cpu, gpu, exhaust, cpu_lost, gpu_lost };

bool remembered(CellDraws& draws, CellDraws::Key key, AirAnswer& out) {
  const auto take = [&](Kept what) {
    key[5] = what;
    return draws.kept(key);
  };
  const Draws* const known = take(speed);
  if (known == nullptr) return false;
  out.known = known->low() > 0.0;
  out.speed_frac = std::abs(known->low());
  out.cpu_c = *take(cpu);
  out.gpu_c = *take(gpu);
  out.exhaust_c = *take(exhaust);
  out.cpu_lost_frac = *take(cpu_lost);
  out.gpu_lost_frac = *take(gpu_lost);
  return true;
}

void remember(CellDraws& draws, CellDraws::Key key, const AirAnswer& answer) {
  const auto put = [&](Kept what, const Draws& value) {
    key[5] = what;
    draws.keep(key, value);
  };
  put(speed, Draws(answer.known ? answer.speed_frac : -answer.speed_frac));
  put(cpu, answer.cpu_c);
  put(gpu, answer.gpu_c);
  put(exhaust, answer.exhaust_c);
  put(cpu_lost, answer.cpu_lost_frac);
  put(gpu_lost, answer.gpu_lost_frac);
}

bool spans(const AirCase& of) {
  bool out = of.leak_cm2.spans() || of.cpu_w.spans() || of.gpu_w.spans() || of.upper_w.spans() ||
             of.lower_w.spans() || of.cpu_w_k.spans() || of.gpu_w_k.spans() ||
             of.cpu_limit_c.spans() || of.gpu_limit_c.spans();
  for (const FanRow& row : of.fans)
    out = out || row.flow_m3_h.spans() || row.pressure_pa.spans() || row.open_frac.spans() ||
          row.filter_pa.spans();
  for (const Opening& opening : of.openings)
    out = out || opening.open_frac.spans() || opening.filter_pa.spans();
  return out;
}

void judge_draws(AirModel& model, const AirCase& of, AirAnswer& out) {
  using Samples = std::array<double, draw_count>;
  Samples cpu_c{};
  Samples gpu_c{};
  Samples exhaust_c{};
  Samples cpu_lost{};
  Samples gpu_lost{};
  out.known = true;
  for (int draw = 0; draw < draw_count && out.known; ++draw) {
    const AirState state = model.at(draw, out.speed_frac);
    const auto d = static_cast<std::size_t>(draw);
    out.known = state.solved;
    cpu_c[d] = state.cpu.temp_c;
    gpu_c[d] = state.gpu.temp_c;
    exhaust_c[d] = state.exhaust_c;
    cpu_lost[d] = state.cpu.lost_frac;
    gpu_lost[d] = state.gpu.lost_frac;
  }
  if (!out.known) return;
  // A class range took part: then the draws' own ends are the range that is known.
  const bool span = spans(of);
  out.cpu_c = Draws::of(cpu_c, span);
  out.gpu_c = Draws::of(gpu_c, span);
  out.exhaust_c = Draws::of(exhaust_c, span);
  out.cpu_lost_frac = Draws::of(cpu_lost, span);
  out.gpu_lost_frac = Draws::of(gpu_lost, span);
}

bool brief_has_limit(const Facts& facts, power::Load load) {
  return std::ranges::any_of(
      limit_keys, [&](const char* key) { return brief_limit(facts.brief, key, load) < no_limit; });
}

// How far draws go beyond their middle, kelvin.
struct Beyond {
  double cpu_k = 0.0, gpu_k = 0.0, exhaust_k = 0.0;
};

// (B9) The limits of the brief that speak of this load, less what the draws go beyond the middle,
// and for processor and card what they slow down at, less a margin.
SpeedLimits speed_limits(const Facts& facts, const AirCase& of, power::Load load,
                         const Beyond& beyond) {
  const auto own = [](const Draws& limit_c) {
    if (limit_c.is_absent()) return no_limit;
    return (limit_c.spans() ? limit_c.low() : limit_c.median()) - margin_k;
  };
  const auto asked = [&](const char* key, double beyond_k) {
    return brief_limit(facts.brief, key, load) - beyond_k;
  };
  return {
      .cpu_c = std::min(own(of.cpu_limit_c), asked("cpu_c", beyond.cpu_k)),
      .gpu_c = of.has_card ? std::min(own(of.gpu_limit_c), asked("gpu_c", beyond.gpu_k)) : no_limit,
      .exhaust_c = asked("exhaust_c", beyond.exhaust_k)};
}

// (B9) First the speed by the middle draw alone; how far the draws go beyond it there is then kept
// free. The slower the fans, the wider the draws, so at the second speed it is enough.
void judge_at_quietest(AirModel& model, const Facts& facts, const AirCase& of, power::Load load,
                       AirAnswer& out) {
  out.speed_frac = quietest_speed_frac(model, speed_limits(facts, of, load, {}));
  judge_draws(model, of, out);
  if (!out.known || !brief_has_limit(facts, load)) return;
  const AirState middle = model.at(AirModel::middle, out.speed_frac);
  const double speed_frac = quietest_speed_frac(
      model, speed_limits(facts, of, load,
                          {.cpu_k = std::max(0.0, out.cpu_c.high() - middle.cpu.temp_c),
                           .gpu_k = std::max(0.0, out.gpu_c.high() - middle.gpu.temp_c),
                           .exhaust_k = std::max(0.0, out.exhaust_c.high() - middle.exhaust_c)}));
  if (speed_frac == out.speed_frac) return;
  out.speed_frac = speed_frac;
  judge_draws(model, of, out);
}

}  // namespace

AirAnswer air_answer(const Facts& facts, power::Load load, bool full_speed, Measure& m) {
  AirAnswer out;
  const AirCase of = air_case(facts, load, m);
  if (of.unknown || of.fans.size() == 0) return out;
  const CellDraws::Key key = key_of(facts, load, full_speed);
  AirModel model(of);
  if (!remembered(facts.draws, key, out)) {
    if (full_speed)
      judge_draws(model, of, out);
    else
      judge_at_quietest(model, facts, of, load, out);
    remember(facts.draws, key, out);
  }
  if (!m.deciding) out.middle = model.at(AirModel::middle, out.speed_frac);
  return out;
}

double quietest_speed_frac(const Facts& facts, const AirCase& of, power::Load load) {
  if (brief_has_limit(facts, load)) {
    Measure m;
    m.deciding = true;
    return air_answer(facts, load, false, m).speed_frac;
  }
  AirModel model(of);
  return quietest_speed_frac(model, speed_limits(facts, of, load, {}));
}

AirAnswer air_at_speed(const Facts& facts, power::Load load, double speed_frac, Measure& m) {
  AirAnswer out;
  const AirCase of = air_case(facts, load, m);
  if (of.unknown || of.fans.size() == 0) return out;
  AirModel model(of);
  out.speed_frac = speed_frac;
  judge_draws(model, of, out);
  out.middle = model.at(AirModel::middle, speed_frac);
  return out;
}

namespace {

// One source as it is heard: `count` of its level and a change of it.
struct HeardSource {
  const Draws* level = nullptr;
  double change_db = 0.0;
  int count = 1;
};
using HeardSources = air::FixedList<HeardSource, most_fan_rows>;

// (A60) of one level a source, taken by `level_of`.
template <class LevelOf>
double sum_dba(const HeardSources& sources, LevelOf level_of) {
  constexpr double per_db = 0.23025850929940457;  // ln 10 / 10
  double power = 0.0;
  for (const HeardSource& source : sources)
    power += source.count * std::exp(per_db * (level_of(*source.level) + source.change_db));
  return std::log(power) / per_db;
}

HeardSources heard_sources(const Facts& facts, const AirCase& of, double speed_frac,
                           double distance_m) {
  const double farther_db = -20.0 * std::log10(distance_m);
  const double slower_db = air::fan_speed_exponent_db * std::log10(speed_frac);
  HeardSources out;
  for (const Sound& sound : of.sounds)
    out.add({.level = &facts.draws.of(sound.level, sound.row),
             .change_db = farther_db + (sound.follows_speed ? slower_db : 0.0),
             .count = sound.count});
  return out;
}

double lowest(const Draws& level) { return level.low(); }
double highest(const Draws& level) { return level.high(); }

}  // namespace

// (B10)
Draws noise_dba(const Facts& facts, const AirCase& of, const Heard& heard, Measure& m) {
  bool known = true;
  for (const Sound& sound : of.sounds)
    known = !m.read(facts, sound.level, sound.row).is_absent() && known;
  if (!known || of.sounds.size() == 0) return Draws::absent();
  const HeardSources sources = heard_sources(facts, of, heard.speed_frac, heard.distance_m);
  if (m.deciding) {
    if (const double high = sum_dba(sources, highest); high <= heard.at_most_dba) return {high};
    if (const double low = sum_dba(sources, lowest); low > heard.at_most_dba) return {low};
  }
  std::array<double, draw_count> samples{};
  for (int draw = 0; draw < draw_count; ++draw)
    samples[static_cast<std::size_t>(draw)] =
        sum_dba(sources, [draw](const Draws& level) { return level[draw]; });
  return Draws::of(samples);
}

Draws noise_at_any_speed(const Facts& facts, const AirCase& of, double distance_m,
                         double at_most_dba) {
  for (const Sound& sound : of.sounds)
    if (facts.draws.of(sound.level, sound.row).is_absent()) return Draws::absent();
  if (of.sounds.size() == 0) return Draws::absent();
  const double least = sum_dba(heard_sources(facts, of, least_speed_frac, distance_m), lowest);
  if (least > at_most_dba) return {least};
  const double most = sum_dba(heard_sources(facts, of, 1.0, distance_m), highest);
  return most <= at_most_dba ? Draws(most) : Draws::absent();
}

}  // namespace rigproof::coupled
