// What the air of a build is told of beside its limits: how long it takes to be as warm as it gets,
// and by which way air comes in. Equations (B17) and (B23) of README.md.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "coupled/air/air_answer.hpp"
#include "coupled/air/air_limits.hpp"
#include "coupled/air/air_rules.hpp"
#include "coupled/air/air_warming.hpp"

namespace rigproof {
namespace {

using namespace coupled;
using power::Load;

constexpr double s_per_min = 60.0;
// How long people let a full load run before they read the numbers; common practice, no source.
constexpr double usual_run_min = 30.0;

int place_where_known(const Facts& facts) {
  if (!can_be_computed(facts)) return 0;
  Measure m;
  m.deciding = true;
  const AirCase of = air_case(facts, Load::everything, m);
  return of.unknown || of.fans.size() == 0 ? 0 : 1;  // told by what is missing where a limit asks
}

// --- air.steady-time

void measure_steady_time(const Facts& facts, int, Measure& m) {
  m.limit = usual_run_min;
  m.value = Draws::absent();
  const AirAnswer answer = air_answer(facts, Load::everything, false, m);
  const AirCase of = air_case(facts, Load::everything, m);
  const auto warm =
      answer.known ? warming(facts, nullptr, {&of, answer.speeds, {}}, m) : std::nullopt;
  if (warm) {
    if (const auto& cpu = (*warm)[Warmed::cpu]) m.value = cpu->settled_s * (1.0 / s_per_min);
    if (const auto& card = (*warm)[Warmed::gpu]; card && !m.value.is_absent())
      m.value = card->settled_s.is_absent()
                    ? Draws::absent()
                    : Draws::larger(m.value, card->settled_s * (1.0 / s_per_min));
  }
  if (m.value.is_absent()) m.unknown = true;
}

void tell_steady_time(const Facts& facts, int, const Measure& m, Telling& out) {
  for (const Kind kind : {Kind::cpu, Kind::gpu, Kind::cooler})
    if (facts.build.has(kind)) out.subjects.push_back(part_of(facts, kind));
  out.load = "everything";
  out.statement = fmt::format("A run of {:g} min with everything at work shows how hot it gets.",
                              usual_run_min);
  if (!m.value.is_absent())
    out.remedy = fmt::format("run it for {:.0f} min before the numbers are read", m.value.high());
}

constexpr auto steady_reads = [] {
  std::array<ColumnId, air_reads.size() + 2> all{};
  auto at = std::ranges::copy(air_reads, all.begin()).out;
  *at++ = column("cooler", "heat_capacity_j_k");
  *at = column("gpu", "heat_capacity_j_k");
  return all;
}();

constexpr Rule steady_time_rule = {
    .id = "air.steady-time",
    .about =
        "how long it takes to come within 1 K of where it ends, from the room's temperature on",
    .consequence = "Read earlier, temperatures and noise are lower than they will be.",
    .grade = Grade::tells,
    .kinds = air_kinds,
    .reads = steady_reads,
    .brief_keys = air_keys,
    .relation = Relation::at_most,
    .unit = "min",
    .basis = Basis::model,
    .equation = "time until the slower of processor and card is warm <= 30 min, (B17)",
    .source = "coupled/air/README.md",
    .places = place_where_known,
    .measure = measure_steady_time,
    .tell = tell_steady_time};

// --- air.pressure

void measure_pressure(const Facts& facts, int, Measure& m) {
  m.limit = 0.0;
  m.value = Draws::absent();
  const AirAnswer answer = air_answer(facts, Load::everything, false, m);
  const AirCase of = air_case(facts, Load::everything, m);
  if (!answer.known) {
    m.unknown = true;
    return;
  }
  AirModel model(of);
  std::array<double, draw_count> samples{};
  for (int draw = 0; draw < draw_count; ++draw) {
    const AirState state = model.at(draw, answer.speeds_by_draw[draw]);
    if (!state.solved) {
      m.unknown = true;
      return;
    }
    samples[static_cast<std::size_t>(draw)] = state.least_pa;
  }
  m.value = Draws::of(samples, case_spans(of));
}

void tell_pressure(const Facts& facts, int, const Measure&, Telling& out) {
  out.subjects = {part_of(facts, Kind::chassis)};
  for (const Chosen& fan : facts.build.of(Kind::fan)) out.subjects.push_back({Kind::fan, fan.row});
  out.load = "everything";
  out.statement =
      "More air is blown into the case than out of it, so it comes in through the filters and not "
      "through the gaps.";
  out.remedy = "one more fan that blows in, or one that blows out less or slower";
}

constexpr Rule pressure_rule = {
    .id = "air.pressure",
    .about = "pressure in every room of the case against the pressure outside",
    .consequence = "Air comes in through every gap, and dust with it, past the filters.",
    .grade = Grade::tells,
    .kinds = air_kinds,
    .reads = air_reads,
    .brief_keys = air_keys,
    .relation = Relation::at_least,
    .unit = "Pa",
    .basis = Basis::model,
    .equation = "least pressure of a room against outside >= 0, (B23)",
    .source = "coupled/air/README.md",
    .places = place_where_known,
    .measure = measure_pressure,
    .tell = tell_pressure};

constexpr std::array<const Rule*, 2> rules = {&pressure_rule, &steady_time_rule};

}  // namespace

std::span<const Rule* const> air_told_rules() { return rules; }

}  // namespace rigproof
