// What of the limits on air can be said before every part is chosen: asked by a planner alone, so
// that it need not try every memory kit with a card that is too loud. (B12) to (B15) of README.md.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "analysis/fit/mounting.hpp"
#include "coupled/air/air_answer.hpp"
#include "coupled/air/air_kept_steps.hpp"
#include "coupled/air/air_limits.hpp"
#include "coupled/air/air_noise.hpp"
#include "coupled/air/air_rules.hpp"

namespace rigproof {
namespace {

using namespace coupled;
using power::Load;

// What rounding may do between one sum and another, in kelvin and dB.
constexpr double slack = 1e-6;

template <const char* const& key>
int one_place(const Facts& facts) {
  return limit_of(facts.brief, key) != nullptr ? 1 : 0;
}
template <const char* const& key>
bool concerns(const Brief& brief) {
  return limit_of(brief, key) != nullptr;
}
constexpr const char* noise_key = "noise_dba";
constexpr const char* cpu_key = limit_key(Watched::cpu);
constexpr const char* gpu_key = limit_key(Watched::gpu);
constexpr const char* coolant_key = limit_key(Watched::coolant);
constexpr const char* drive_key = limit_key(Watched::drive);
constexpr const char* exhaust_key = limit_key(Watched::exhaust);

constexpr Rule foretelling(Rule rule) {
  rule.grade = Grade::must;
  rule.reads = air_reads;
  rule.brief_keys = air_keys;
  rule.relation = Relation::at_most;
  rule.basis = Basis::model;
  rule.source = "coupled/air/README.md";
  rule.foretells = true;
  return rule;
}

// --- (B12) card and supply are heard whatever the fans do

void measure_steady_noise(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts.brief, noise_key);
  m.limit = limit.at_most;
  const auto level = least_noise_dba(facts, steady_sounds(facts, load_of(facts.brief, limit)), 1.0,
                                     limit.distance_m.value_or(1.0));
  if (level)
    m.value = *level;
  else
    m.unknown = true;
}

constexpr std::array steady_kinds = {Kind::gpu, Kind::psu};
constexpr Rule steady_noise = foretelling({.id = "air.noise",
                                           .about = "card and supply alone",
                                           .kinds = steady_kinds,
                                           .unit = "dB(A)",
                                           .places = one_place<noise_key>,
                                           .measure = measure_steady_noise,
                                           .concerns = concerns<noise_key>});

// --- (B13) a body is hotter than the room by its power over its conductance, or slows down

void hotter_than_room(const Facts& facts, Kind kind, const Draws& w_k, ColumnId limit_c,
                      Measure& m) {
  const PartRef part = part_of(facts, kind);
  const auto load =
      load_of(facts.brief, *limit_of(facts.brief, kind == Kind::cpu ? cpu_key : gpu_key));
  const Draws& slows_at = m.read(facts, limit_c, part.row);
  Draws watts = 0.0;
  const power::PowerTerms terms = power::power_terms(facts, load);
  for (std::size_t i = 0; i < terms.count; ++i)
    if (terms.all[i].kind == kind) watts += power::power_w(facts, terms.all[i], load, m);
  if (m.unknown || watts.is_absent() || w_k.is_absent() || slows_at.is_absent()) {
    m.unknown = true;
    return;
  }
  double least_c = slows_at.high();
  for (int d = 0; d < draw_count; ++d)
    least_c = std::min({least_c, slows_at[d], facts.brief.room_c + watts[d] / w_k[d]});
  m.value = least_c - slack;
}

void measure_card(const Facts& facts, int, Measure& m) {
  m.limit = limit_of(facts.brief, gpu_key)->at_most;
  hotter_than_room(facts, Kind::gpu, card_w_k(facts, m), column("gpu", "limit_c"), m);
}

// Only under an air cooler: a radiator's air takes what the flow through it lets it take.
void measure_processor(const Facts& facts, int, Measure& m) {
  m.limit = limit_of(facts.brief, cpu_key)->at_most;
  const Row cooler = facts.build.one(Kind::cooler);
  if (m.read_word(facts, column("cooler", "type"), cooler) != "air")
    m.unknown = true;
  else
    hotter_than_room(facts, Kind::cpu, cooler_w_k(facts, m), column("cpu", "limit_c"), m);
}

template <const char* const& key, Kind... kinds>
int place_with(const Facts& facts) {
  return (facts.build.has(kinds) && ...) ? one_place<key>(facts) : 0;
}

constexpr std::array card_kinds = {Kind::gpu};
constexpr Rule card_alone = foretelling({.id = "air.gpu-temperature",
                                         .about = "the card in air as cold as the room",
                                         .kinds = card_kinds,
                                         .unit = "degC",
                                         .places = place_with<gpu_key, Kind::gpu>,
                                         .measure = measure_card,
                                         .concerns = concerns<gpu_key>});
constexpr std::array processor_kinds = {Kind::cpu, Kind::cooler};
constexpr Rule processor_alone =
    foretelling({.id = "air.cpu-temperature",
                 .about = "the processor in air as cold as the room",
                 .kinds = processor_kinds,
                 .unit = "degC",
                 .places = place_with<cpu_key, Kind::cpu, Kind::cooler>,
                 .measure = measure_processor,
                 .concerns = concerns<cpu_key>});

// A drive is hotter than the room by its own rise: it does not slow down in this model.
void measure_drives(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts.brief, drive_key);
  m.limit = limit.at_most;
  m.value = drive_rise_k(facts, load_of(facts.brief, limit), m) + Draws(facts.brief.room_c - slack);
  if (m.value.is_absent()) m.unknown = true;
}

constexpr std::array drive_kinds = {Kind::storage};
constexpr Rule drives_alone = foretelling({.id = "air.drive-temperature",
                                           .about = "the drives in air as cold as the room",
                                           .kinds = drive_kinds,
                                           .unit = "degC",
                                           .places = place_with<drive_key, Kind::storage>,
                                           .measure = measure_drives,
                                           .concerns = concerns<drive_key>});

// --- (B14), (B15) less heat at the same flows leaves nothing hotter: with the heat of what is
// chosen alone, wherever radiator and fans may sit

// Calls `hopeless(case, facts)` for every way to seat things until it says false. False: it did, or
// something is not known, or there are too many ways.
template <class Hopeless>
bool wherever_they_sit(const Facts& facts, Load load, Hopeless hopeless) {
  constexpr int most_looked_at = 64;
  int ways = 0;
  return fit::for_each_mounting(facts, [&](const fit::Mounting& mounting) {
    if (++ways > most_looked_at) return false;
    const Seats seats{mounting};
    Facts seated = facts;
    seated.seats = &seats;
    Measure m;
    m.deciding = true;
    const AirCase of = air_case(seated, load, m);
    if (of.unknown || of.fans.size() == 0) return false;
    return hopeless(of, seated);
  });
}

// (B14)
template <Watched which>
void measure_early_temperature(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts.brief, limit_key(which));
  const Load load = load_of(facts.brief, limit);
  m.limit = limit.at_most;
  double least_c = std::numeric_limits<double>::infinity();
  const bool hopeless = wherever_they_sit(facts, load, [&](const AirCase& of, const Facts& seated) {
    AirModel model(of);
    for (int draw = 0; draw < draw_count; ++draw) {
      const AirState state = model.at(draw, 1.0);
      const double now_c = temp_c(state, which);
      if (!state.solved || !(now_c > limit.at_most + slack)) return false;
      least_c = std::min(least_c, now_c);
    }
    return none_keeps(seated.draws, of, limits_of(seated.brief, of, load).middle, speed_steps + 1);
  });
  if (hopeless && std::isfinite(least_c))
    m.value = least_c;
  else
    m.unknown = true;
}

// The least step at which it is louder than that: sound grows with the speed, so by halving.
struct TooLoud {
  int step = 0;
  double dba = 0.0;
};
template <class Level>
std::optional<TooLoud> first_too_loud(Level level, double most_dba) {
  const auto at = [&](int step) { return level(step).value_or(most_dba); };
  if (!(at(speed_steps) > most_dba)) return {};
  int quiet = -1;
  TooLoud out{.step = speed_steps, .dba = at(speed_steps)};
  while (out.step - quiet > 1) {
    const int middle = (quiet + out.step) / 2;
    const double dba = at(middle);
    if (dba > most_dba)
      out = {.step = middle, .dba = dba};
    else
      quiet = middle;
  }
  return out;
}

// (B15)
void measure_early_noise(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts.brief, noise_key);
  const Load load = load_of(facts.brief, limit);
  m.limit = limit.at_most;
  double least_dba = std::numeric_limits<double>::infinity();
  const bool hopeless = wherever_they_sit(facts, load, [&](const AirCase& of, const Facts& seated) {
    const auto level = [&](int step) {
      return least_noise_dba(seated, of.sounds, speed_of_step(step),
                             limit.distance_m.value_or(1.0));
    };
    const auto first = first_too_loud(level, limit.at_most + slack);
    if (!first) return false;
    least_dba = std::min(least_dba, first->dba);
    return none_keeps(seated.draws, of, limits_of(seated.brief, of, load).middle, first->step);
  });
  if (hopeless && std::isfinite(least_dba))
    m.value = least_dba;
  else
    m.unknown = true;
}

constexpr std::array moved_kinds = {Kind::cpu, Kind::gpu, Kind::cooler, Kind::chassis, Kind::fan};
constexpr std::array heard_kinds = {Kind::cpu,     Kind::gpu, Kind::cooler,
                                    Kind::chassis, Kind::psu, Kind::fan};

constexpr Rule early_noise =
    foretelling({.id = "air.noise",
                 .about = "without the heat of board, memory and drives",
                 .kinds = heard_kinds,
                 .unit = "dB(A)",
                 .places = place_with<noise_key, Kind::cpu, Kind::cooler, Kind::chassis>,
                 .measure = measure_early_noise,
                 .concerns = concerns<noise_key>});

template <Watched which, const char* const& key, Kind watched>
constexpr Rule early_temperature(std::string_view id) {
  return foretelling({.id = id,
                      .about = "without the heat of board, memory and drives",
                      .kinds = moved_kinds,
                      .unit = "degC",
                      .places = place_with<key, Kind::cpu, Kind::cooler, Kind::chassis, watched>,
                      .measure = measure_early_temperature<which>,
                      .concerns = concerns<key>});
}
constexpr Rule early_cpu =
    early_temperature<Watched::cpu, cpu_key, Kind::cpu>("air.cpu-temperature");
constexpr Rule early_gpu =
    early_temperature<Watched::gpu, gpu_key, Kind::gpu>("air.gpu-temperature");
constexpr Rule early_coolant =
    early_temperature<Watched::coolant, coolant_key, Kind::cooler>("air.coolant-temperature");
constexpr Rule early_exhaust =
    early_temperature<Watched::exhaust, exhaust_key, Kind::chassis>("air.exhaust-temperature");

constexpr std::array<const Rule*, 9> rules = {&steady_noise, &card_alone,    &processor_alone,
                                              &drives_alone, &early_noise,   &early_cpu,
                                              &early_gpu,    &early_coolant, &early_exhaust};

}  // namespace

std::span<const Rule* const> air_foretelling_rules() { return rules; }

}  // namespace rigproof
