#include "coupled/air/air_rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "coupled/air/air_answer.hpp"
#include "coupled/air/air_decide.hpp"
#include "coupled/air/air_limits.hpp"
#include "coupled/air/air_noise.hpp"

namespace rigproof {
namespace {

using namespace coupled;
using power::Load;

std::string share_words(double speed_frac) {
  return speed_frac >= 1.0 ? std::string("at full speed")
                           : fmt::format("at {:.0f} % of their speed", 100.0 * speed_frac);
}

std::string speed_words(FanSpeeds speeds) {
  if (speeds.are_one()) return "its fans " + share_words(speeds.chassis_frac);
  return fmt::format("the case's fans {} and the cooler's {}", share_words(speeds.chassis_frac),
                     share_words(speeds.cooler_frac));
}

// --- temperatures under the brief's limit

Kind kind_of(Watched which) {
  constexpr std::array kinds = {Kind::cpu,   Kind::gpu,     Kind::cooler,
                                Kind::board, Kind::storage, Kind::chassis};
  return kinds[static_cast<std::size_t>(which)];
}

bool is_there(const Facts& facts, Watched which) {
  if (!facts.build.has(kind_of(which))) return false;
  return which != Watched::coolant ||
         facts.catalog.word(column("cooler", "type"), facts.build.one(Kind::cooler)) != "air";
}

template <Watched which>
int temperature_places(const Facts& facts) {
  return can_be_computed(facts) && is_there(facts, which) &&
                 limit_of(facts.brief, limit_key(which)) != nullptr
             ? 1
             : 0;
}

// The cells that only this temperature rests on: where they are absent the air itself is known.
void note_own_cells(const Facts& facts, Watched which, Load load, Measure& m) {
  if (which == Watched::stage) (void)stage_k_w(facts, m);
  if (which == Watched::drive) (void)drive_rise_k(facts, load, m);
  if (which == Watched::coolant) (void)plate_k_w(facts, m);
}

template <Watched which>
void measure_temperature(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts.brief, limit_key(which));
  m.limit = limit.at_most;
  const Load load = load_of(facts.brief, limit);
  note_own_cells(facts, which, load, m);
  if (m.deciding && settings_of(facts) == nullptr) {
    const AirCase of = air_case(facts, load, m);
    if (!of.unknown && of.fans.size() > 0)
      m.value = decided_temp_c(facts, of, load, which, m.verdict_alone);
    if (m.value.is_absent()) m.unknown = true;
    return;
  }
  const AirAnswer answer = air_answer(facts, load, false, m);
  m.value = answer.temp_c[which];
  if (!answer.known || m.value.is_absent()) m.unknown = true;
}

std::string subject_words(const Facts& facts, Watched which, PartRef part) {
  const std::string_view name = facts.catalog.name(part);
  switch (which) {
    case Watched::cpu:
      return fmt::format("The processor {}", name);
    case Watched::gpu:
      return fmt::format("The card {}", name);
    case Watched::coolant:
      return fmt::format("The liquid of {}", name);
    case Watched::stage:
      return fmt::format("The power stage of {}", name);
    case Watched::drive:
      return facts.build.of(Kind::storage).size() == 1 ? fmt::format("The drive {}", name)
                                                       : std::string("The hottest drive");
    case Watched::exhaust:
      break;
  }
  return "The air that leaves the case";
}

template <Watched which>
void tell_temperature(const Facts& facts, int, const Measure& m, Telling& out) {
  const PhysicalLimit& limit = *limit_of(facts.brief, limit_key(which));
  for (const Chosen& part : facts.build.of(kind_of(which)))
    out.subjects.push_back({kind_of(which), part.row});
  const PartRef first = out.subjects.front();
  if (which != Watched::exhaust) out.subjects.push_back(part_of(facts, Kind::chassis));
  out.load = limit.load;
  Measure again;
  const AirAnswer answer = air_answer(facts, load_of(facts.brief, limit), false, again);
  out.statement = fmt::format("{} stays as cool as the brief asks, with {}.",
                              subject_words(facts, which, first), speed_words(answer.speeds));
  if (!m.value.is_absent())
    out.remedy =
        "one more fan, a larger cooler, a case with more open faces, or a part that draws less";
}

template <Watched which>
constexpr Rule temperature_rule(std::string_view id, std::string_view about,
                                std::string_view consequence) {
  return {.id = id,
          .about = about,
          .consequence = consequence,
          .grade = Grade::must,
          .kinds = air_kinds,
          .reads = air_reads,
          .brief_keys = air_keys,
          .relation = Relation::at_most,
          .unit = "degC",
          .basis = Basis::model,
          .equation = "temperature at the quietest fan speed that keeps all limits <= limit, (B9)",
          .source = "coupled/air/README.md",
          .places = temperature_places<which>,
          .measure = measure_temperature<which>,
          .tell = tell_temperature<which>,
          .concerns = [](const Brief& brief) { return brief.limits.contains(limit_key(which)); }};
}

constexpr Rule cpu_rule = temperature_rule<Watched::cpu>(
    "air.cpu-temperature", "the processor's temperature against the brief's limit",
    "The processor would run hotter than was asked for.");
constexpr Rule gpu_rule = temperature_rule<Watched::gpu>(
    "air.gpu-temperature", "the card's temperature against the brief's limit",
    "The card would run hotter than was asked for.");
constexpr Rule coolant_rule = temperature_rule<Watched::coolant>(
    "air.coolant-temperature", "the temperature of a loop's liquid against the brief's limit",
    "The liquid would grow hotter than was asked for; tubes and pump age faster.");
constexpr Rule stage_rule = temperature_rule<Watched::stage>(
    "air.stage-temperature", "the temperature of the board's power stage against the brief's limit",
    "The board's power stage would run hotter than was asked for.");
constexpr Rule drive_rule = temperature_rule<Watched::drive>(
    "air.drive-temperature", "the temperature of the hottest drive against the brief's limit",
    "A drive would run hotter than was asked for, and may slow itself down.");
constexpr Rule exhaust_rule = temperature_rule<Watched::exhaust>(
    "air.exhaust-temperature", "the air that leaves the case against the brief's limit",
    "The machine would heat its place more than was asked for.");

// --- air.noise

int noise_places(const Facts& facts) {
  return can_be_computed(facts) && limit_of(facts.brief, "noise_dba") != nullptr ? 1 : 0;
}

void measure_noise(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts.brief, "noise_dba");
  m.limit = limit.at_most;
  const Load load = load_of(facts.brief, limit);
  const AirCase of = air_case(facts, load, m);
  if (of.unknown || of.fans.size() == 0) {
    m.unknown = true;
    return;
  }
  const double distance_m = limit.distance_m.value_or(1.0);
  if (m.deciding && settings_of(facts) == nullptr) {
    m.value = noise_at_any_speed(facts, of, distance_m, limit.at_most);
    if (!m.value.is_absent()) return;
    const bool known = std::ranges::none_of(of.sounds, [&](const Sound& sound) {
      return facts.draws.of(sound.level, sound.row).is_absent();
    });
    if (known && of.sounds.size() > 0) {
      m.value = decided_noise_dba(facts, of, load, distance_m, limit.at_most);
      return;
    }
  }
  m.value = noise_dba(facts, of,
                      {.speeds = air_answer(facts, load, false, m).speeds_by_draw,
                       .distance_m = distance_m,
                       .at_most_dba = limit.at_most},
                      m);
}

void tell_noise(const Facts& facts, int, const Measure& m, Telling& out) {
  const PhysicalLimit& limit = *limit_of(facts.brief, "noise_dba");
  out.subjects = {part_of(facts, Kind::chassis), part_of(facts, Kind::cooler)};
  for (const Chosen& fan : facts.build.of(Kind::fan)) out.subjects.push_back({Kind::fan, fan.row});
  if (facts.build.has(Kind::gpu)) out.subjects.push_back(part_of(facts, Kind::gpu));
  out.load = limit.load;
  Measure again;
  const AirAnswer answer = air_answer(facts, load_of(facts.brief, limit), false, again);
  std::string speed;
  if (answer.known) speed = ", with " + speed_words(answer.speeds);
  out.statement = fmt::format("The machine is no louder than the brief allows at {:g} m{}.",
                              limit.distance_m.value_or(1.0), speed);
  if (!m.value.is_absent())
    out.remedy = "quieter fans or a quieter card, a larger cooler, or parts that draw less";
}

constexpr Rule noise_rule = {
    .id = "air.noise",
    .about = "the level of all that makes sound against the brief's limit",
    .consequence = "The machine would be louder than was asked for.",
    .grade = Grade::must,
    .kinds = air_kinds,
    .reads = air_reads,
    .brief_keys = air_keys,
    .relation = Relation::at_most,
    .unit = "dB(A)",
    .basis = Basis::model,
    .equation = "10 lg sum of 10^(level / 10) at the quietest fan speed <= limit, (B10)",
    .source = "coupled/air/README.md",
    .places = noise_places,
    .measure = measure_noise,
    .tell = tell_noise,
    .concerns = [](const Brief& brief) { return brief.limits.contains("noise_dba"); }};

// --- air.full-power: processor and card with everything at work, fans at full speed

constexpr double allowed_loss_frac = 0.02;

int power_places(const Facts& facts) {
  if (!can_be_computed(facts)) return 0;
  Measure m;
  const AirCase of = air_case(facts, Load::everything, m);
  if (of.unknown) return 0;  // told by what is missing where a limit asks
  return of.has_card ? 2 : 1;
}

void measure_power(const Facts& facts, int place, Measure& m) {
  m.limit = 100.0 * allowed_loss_frac;
  const AirAnswer answer = air_answer(facts, Load::everything, true, m);
  m.value = (place == 0 ? answer.cpu_lost_frac : answer.gpu_lost_frac) * 100.0;
  if (!answer.known) m.unknown = true;
}

void tell_power(const Facts& facts, int place, const Measure&, Telling& out) {
  const PartRef part = part_of(facts, place == 0 ? Kind::cpu : Kind::gpu);
  out.subjects = {part, part_of(facts, Kind::chassis)};
  out.where = place == 0 ? "processor" : "card";
  out.load = "everything";
  Measure again;
  const AirAnswer answer = air_answer(facts, Load::everything, true, again);
  const Kept& kept = place == 0 ? answer.middle.cpu : answer.middle.gpu;
  out.statement =
      fmt::format("The {} {} keeps its full power{}, with every fan at full speed.", out.where,
                  facts.catalog.name(part),
                  answer.known ? fmt::format(", at {:.0f} degC", kept.temp_c) : std::string());
  out.remedy = "one more fan, a larger cooler, or a case with more open faces";
}

constexpr Rule power_rule = {
    .id = "air.full-power",
    .about = "what processor and card lose of their power because they would grow too hot",
    .consequence =
        "Under full load the part would slow itself down and be slower than it is sold for.",
    .grade = Grade::tells,
    .kinds = air_kinds,
    .reads = air_reads,
    .brief_keys = air_keys,
    .relation = Relation::at_most,
    .unit = "%",
    .basis = Basis::model,
    .equation = "1 - power that its temperature limit allows / power asked <= 2 %, (B7), (A41)",
    .source = "coupled/air/README.md",
    .places = power_places,
    .measure = measure_power,
    .tell = tell_power};

constexpr std::array<const Rule*, 8> rules = {&cpu_rule,   &gpu_rule,   &coolant_rule,
                                              &stage_rule, &drive_rule, &exhaust_rule,
                                              &noise_rule, &power_rule};

}  // namespace

std::span<const Rule* const> air_rules() { return rules; }

}  // namespace rigproof
