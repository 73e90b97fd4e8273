#include "coupled/air/air_rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/fit/seat_rules.hpp"
#include "coupled/air/air_answer.hpp"

namespace rigproof {
namespace {

using namespace coupled;
using power::Load;

PartRef one(const Facts& facts, Kind kind) { return {kind, facts.build.one(kind)}; }

bool can_be_computed(const Facts& facts) {
  return facts.build.has(Kind::chassis) && facts.build.has(Kind::cpu) &&
         facts.build.has(Kind::cooler);
}

const PhysicalLimit* limit_of(const Facts& facts, const char* key) {
  const auto found = facts.brief.limits.find(key);
  return found == facts.brief.limits.end() ? nullptr : &found->second;
}

Load load_of(const PhysicalLimit& limit) {
  return power::find_load(limit.load).value_or(Load::everything);
}

std::string speed_words(double speed_frac) {
  return speed_frac >= 1.0 ? std::string("at full speed")
                           : fmt::format("at {:.0f} % of their speed", 100.0 * speed_frac);
}

constexpr std::array air_kinds = {Kind::cpu,     Kind::board,  Kind::memory,  Kind::gpu,
                                  Kind::storage, Kind::cooler, Kind::chassis, Kind::psu,
                                  Kind::fan,     Kind::other};
// Its own cells, those of the loads, and those on which it hangs where things sit.
constexpr auto air_reads = [] {
  std::array<ColumnId, air_cells.size() + power::load_cells.size() + fit::supply_seat_cells.size()>
      all{};
  auto at = std::ranges::copy(air_cells, all.begin()).out;
  at = std::ranges::copy(power::load_cells, at).out;
  std::ranges::copy(fit::supply_seat_cells, at);
  return all;
}();
constexpr std::array<std::string_view, 3> air_keys = {"limits", "room", "accept"};

// --- temperatures under the brief's limit

struct Watched {
  const char* key;
  Kind kind;
  const Draws& (*of)(const AirAnswer&);
};
const Draws& cpu_of(const AirAnswer& answer) { return answer.cpu_c; }
const Draws& gpu_of(const AirAnswer& answer) { return answer.gpu_c; }
const Draws& exhaust_of(const AirAnswer& answer) { return answer.exhaust_c; }
constexpr Watched cpu_watched{"cpu_c", Kind::cpu, cpu_of};
constexpr Watched gpu_watched{"gpu_c", Kind::gpu, gpu_of};
constexpr Watched exhaust_watched{"exhaust_c", Kind::chassis, exhaust_of};

template <const Watched& watched>
int temperature_places(const Facts& facts) {
  return can_be_computed(facts) && facts.build.has(watched.kind) &&
                 limit_of(facts, watched.key) != nullptr
             ? 1
             : 0;
}

template <const Watched& watched>
void measure_temperature(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts, watched.key);
  m.limit = limit.at_most;
  const AirAnswer answer = air_answer(facts, load_of(limit), false, m);
  m.value = watched.of(answer);
  if (!answer.known) m.unknown = true;
}

template <const Watched& watched>
void tell_temperature(const Facts& facts, int, const Measure& m, Telling& out) {
  const PhysicalLimit& limit = *limit_of(facts, watched.key);
  out.subjects = {one(facts, watched.kind)};
  if (watched.kind != Kind::chassis) out.subjects.push_back(one(facts, Kind::chassis));
  out.load = limit.load;
  Measure again;
  const AirAnswer answer = air_answer(facts, load_of(limit), false, again);
  const std::string what =
      watched.kind == Kind::cpu
          ? fmt::format("The processor {}", facts.catalog.name(out.subjects[0]))
      : watched.kind == Kind::gpu ? fmt::format("The card {}", facts.catalog.name(out.subjects[0]))
                                  : std::string("The air that leaves the case");
  out.statement = fmt::format("{} stays as cool as the brief asks, with the case's fans {}.", what,
                              speed_words(answer.speed_frac));
  if (!m.value.is_absent())
    out.remedy =
        "one more fan, a larger cooler, a case with more open faces, or a part that draws less";
}

template <const Watched& watched>
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
          .places = temperature_places<watched>,
          .measure = measure_temperature<watched>,
          .tell = tell_temperature<watched>,
          .concerns = [](const Brief& brief) { return brief.limits.contains(watched.key); }};
}

constexpr Rule cpu_rule = temperature_rule<cpu_watched>(
    "air.cpu-temperature", "the processor's temperature against the brief's limit",
    "The processor would run hotter than was asked for.");
constexpr Rule gpu_rule = temperature_rule<gpu_watched>(
    "air.gpu-temperature", "the card's temperature against the brief's limit",
    "The card would run hotter than was asked for.");
constexpr Rule exhaust_rule = temperature_rule<exhaust_watched>(
    "air.exhaust-temperature", "the air that leaves the case against the brief's limit",
    "The machine would heat its place more than was asked for.");

// --- air.noise

int noise_places(const Facts& facts) {
  return can_be_computed(facts) && limit_of(facts, "noise_dba") != nullptr ? 1 : 0;
}

void measure_noise(const Facts& facts, int, Measure& m) {
  const PhysicalLimit& limit = *limit_of(facts, "noise_dba");
  m.limit = limit.at_most;
  const Load load = load_of(limit);
  const AirCase of = air_case(facts, load, m);
  if (of.unknown || of.fans.size() == 0) {
    m.unknown = true;
    return;
  }
  const double distance_m = limit.distance_m.value_or(1.0);
  if (m.deciding) {
    m.value = noise_at_any_speed(facts, of, distance_m, limit.at_most);
    if (!m.value.is_absent()) return;
  }
  m.value = noise_dba(facts, of,
                      {.speed_frac = quietest_speed_frac(facts, of, load),
                       .distance_m = distance_m,
                       .at_most_dba = limit.at_most},
                      m);
}

void tell_noise(const Facts& facts, int, const Measure& m, Telling& out) {
  const PhysicalLimit& limit = *limit_of(facts, "noise_dba");
  out.subjects = {one(facts, Kind::chassis), one(facts, Kind::cooler)};
  for (const Chosen& fan : facts.build.of(Kind::fan)) out.subjects.push_back({Kind::fan, fan.row});
  if (facts.build.has(Kind::gpu)) out.subjects.push_back(one(facts, Kind::gpu));
  out.load = limit.load;
  Measure again;
  const AirCase of = air_case(facts, load_of(limit), again);
  std::string speed;
  if (!of.unknown && of.fans.size() > 0)
    speed = ", with its fans " + speed_words(quietest_speed_frac(facts, of, load_of(limit)));
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
  const PartRef part = one(facts, place == 0 ? Kind::cpu : Kind::gpu);
  out.subjects = {part, one(facts, Kind::chassis)};
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
    .equation = "1 - power that its temperature limit allows / power asked <= 2 %, (B6)",
    .source = "coupled/air/README.md",
    .places = power_places,
    .measure = measure_power,
    .tell = tell_power};

constexpr std::array<const Rule*, 5> rules = {&cpu_rule, &gpu_rule, &exhaust_rule, &noise_rule,
                                              &power_rule};

}  // namespace

std::span<const Rule* const> air_rules() { return rules; }

}  // namespace rigproof
