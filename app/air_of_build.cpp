#include "app/air_of_build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/air/noise.hpp"
#include "analysis/fit/mounting.hpp"
#include "app/air_warm.hpp"
#include "app/air_work.hpp"
#include "app/remedies.hpp"
#include "base/text.hpp"
#include "coupled/air/air_apart.hpp"
#include "coupled/air/air_noise.hpp"
#include "coupled/air/air_rules.hpp"

namespace rigproof::app {
namespace {

using coupled::AirCase;
using coupled::AirState;
using coupled::Watched;
using power::Load;

constexpr double m3_h_per_m3_s = 3600.0;
constexpr double percent = 100.0;

sheet::AirPart part_line(const Facts& facts, Kind kind, const Draws& temp_c, const Draws& lost,
                         const coupled::Kept& kept, const Draws& asked_w) {
  return {.what = std::string(facts.catalog.name({kind, facts.build.one(kind)})),
          .temp_c = quantity(temp_c, "degC"),
          .power_w = kept.power_w,
          .asked_w = coupled::middle_of(asked_w),
          .lost_percent = quantity(lost * 100.0, "%")};
}

void add_sources(const Facts& facts, const AirCase& of, const coupled::FanSpeeds& speeds,
                 double distance_m, sheet::AirLoad& out) {
  for (const coupled::Sound& sound : of.sounds) {
    const auto part = facts.catalog.find_part(sound.what);
    const std::string name(part ? facts.catalog.name(*part) : sound.what);
    const bool own = part && part->kind == Kind::chassis;
    sheet::AirSource line{
        .what = fmt::format("{}{}{}",
                            sound.count > 1 ? fmt::format("{} x ", sound.count) : std::string(),
                            name, own ? ", its own fans" : ""),
        .level_dba = {}};
    const Draws& level = facts.draws.of(sound.level, sound.row);
    if (!level.is_absent()) {
      const double change_db = 10.0 * std::log10(static_cast<double>(sound.count)) +
                               coupled::heard_change_db(sound, speeds, distance_m);
      line.level_dba = quantity(level + Draws(change_db), "dB(A)");
    }
    out.sources.push_back(std::move(line));
  }
}

std::string watched_words(Watched which) {
  switch (which) {
    case Watched::cpu:
      return "processor";
    case Watched::gpu:
      return "card";
    case Watched::coolant:
      return "liquid of the loop";
    case Watched::stage:
      return "power stage of the board";
    case Watched::drive:
      return "hottest drive";
    case Watched::exhaust:
      break;
  }
  return "air that leaves";
}

// By mount, the most first; what is next to nothing is left out.
std::vector<sheet::AirInlet> inlets(const Facts& facts, const AirCase& of,
                                    const coupled::FanSpeeds& speeds) {
  using What = coupled::AirModel::WayFlow::What;
  constexpr double least_m3_h = 0.05;
  std::vector<sheet::AirInlet> out;
  coupled::AirModel model(of);
  for (const auto& way : model.flows_at(coupled::AirModel::middle, speeds)) {
    if (way.from != coupled::Room::outside) continue;
    const bool gap = way.what == What::gaps;
    const Row mount = gap                      ? no_row
                      : way.what == What::fans ? of.fans[way.index].mount
                                               : of.openings[way.index].mount;
    const std::string where = gap ? "gaps" : std::string(fit::mount_name(facts.catalog, mount));
    auto at = std::ranges::find(out, where, &sheet::AirInlet::where);
    if (at == out.end()) {
      const double filter_pa =
          gap ? 0.0 : coupled::middle_of(facts.draws.of(column("case_mounts", "filter_pa"), mount));
      at = out.insert(at, {.where = where, .flow_m3_h = 0.0, .filtered = filter_pa > 0.0});
    }
    at->flow_m3_h += m3_h_per_m3_s * way.flow_m3_s;
  }
  std::erase_if(out, [](const sheet::AirInlet& inlet) { return inlet.flow_m3_h < least_m3_h; });
  std::ranges::stable_sort(out, std::ranges::greater(), &sheet::AirInlet::flow_m3_h);
  return out;
}

Draws with_room(const Draws& level_dba, double room_dba) {
  return Draws::increasing(level_dba,
                           [&](double own_dba) { return air::together_dba(own_dba, room_dba); });
}

// What is not heard is not worth a second setting.
void add_apart(const coupled::FanSpeeds& speeds, const Draws& level_dba, sheet::AirLoad& out) {
  constexpr double least_gain_db = 0.1;
  if (!out.noise_dba || !(out.noise_dba->value - coupled::middle_of(level_dba) >= least_gain_db))
    return;
  out.apart = {.speed_percent = percent * speeds.chassis_frac,
               .cooler_speed_percent = percent * speeds.cooler_frac,
               .noise_dba = quantity(level_dba, "dB(A)")};
}

sheet::AirLoad load_line(const Facts& facts, Load load, const AirAsked& asked, double distance_m,
                         sheet::Air& all) {
  sheet::AirLoad out;
  out.load = power::name_of(facts.brief, load);
  Measure m;
  const AirCase of = coupled::air_case(facts, load, m);
  const coupled::AirAnswer answer = coupled::air_answer(facts, load, false, m);
  if (!answer.known) return out;
  const AirState& state = answer.middle;
  const coupled::FanSpeeds& speeds = answer.speeds;
  out.known = true;
  out.speed_percent = percent * speeds.chassis_frac;
  out.cooler_speed_percent = percent * speeds.cooler_frac;
  out.speed_set = answer.from == coupled::SpeedsFrom::settings;
  out.speed_found = answer.from != coupled::SpeedsFrom::no_speed;
  if (const auto which = coupled::holds_speed(facts, of, load, answer))
    out.held_by = watched_words(*which);
  out.parts.push_back(part_line(facts, Kind::cpu, answer.temp_c[Watched::cpu], answer.cpu_lost_frac,
                                state.cpu, of.cpu_w));
  if (of.has_card) {
    out.parts.push_back(part_line(facts, Kind::gpu, answer.temp_c[Watched::gpu],
                                  answer.gpu_lost_frac, state.gpu, of.gpu_w));
    out.lower_c = state.lower_c;
  }
  for (const Watched which : {Watched::coolant, Watched::stage, Watched::drive})
    if (!answer.temp_c[which].is_absent())
      out.followers.push_back({watched_words(which), quantity(answer.temp_c[which], "degC")});
  out.warm = warm_lines(facts, {&of, speeds, {}}, load);
  out.stalled = state.stalled;
  out.blown_backwards = state.blown_backwards;
  out.upper_c = state.upper_c;
  out.exhaust_c = quantity(answer.temp_c[Watched::exhaust], "degC");
  out.through_m3_h = state.through_m3_s * m3_h_per_m3_s;
  const double volume_l =
      facts.catalog.number(column("case", "volume_l"), facts.build.one(Kind::chassis));
  if (volume_l > 0.0) out.changes_per_minute = state.through_m3_s * 60.0 / (volume_l / 1000.0);
  out.pressure_pa = state.upper_pa;
  out.by_fans_percent = 100.0 * state.filtered_frac;
  out.inlets = inlets(facts, of, speeds);
  add_sources(facts, of, speeds, distance_m, out);
  Measure quiet;
  const auto level_at = [&](const coupled::SpeedDraws& at) {
    return coupled::noise_dba(facts, of, {.speeds = at, .distance_m = distance_m}, quiet);
  };
  const Draws level = level_at(answer.speeds_by_draw);
  if (!level.is_absent()) {
    out.noise_dba = quantity(level, "dB(A)");
    if (const auto& room = facts.brief.room_noise_dba)
      out.with_room_dba = quantity(with_room(level, *room), "dB(A)");
    if (const auto apart = coupled::quietest_apart(facts, of, load, answer))
      add_apart(*apart, level_at(*apart), out);
  }
  if (asked.show_work)
    for (std::string& line : air_work(facts, of, load, answer, out))
      all.work.push_back(std::move(line));
  return out;
}

// A speed that is asked for is a setting of one point.
Setup setup_of(const BuildFile& build, const AirAsked& asked) {
  Setup out = build.setup;
  const auto put = [&](FanGroup group, double frac) {
    if (frac > 0.0) out.fans[static_cast<std::size_t>(group)] = FanSetting::still(percent * frac);
  };
  for (const FanGroup group : all_fan_groups) put(group, asked.speed_frac);
  put(FanGroup::cooler, asked.cooler_speed_frac);
  return out;
}

// The cells without which there is no answer, as claims name them.
void add_missing(const Facts& facts, sheet::Air& out) {
  static constexpr std::array every = {Kind::chassis};
  const Rule probe{
      .id = "air.state",
      .about = "",
      .kinds = every,
      .source = "coupled/air/README.md",
      .places = [](const Facts&) { return 1; },
      .measure =
          [](const Facts& all, int, Measure& m) {
            (void)coupled::air_case(all, Load::everything, m);
            m.unknown = true;
          },
      .tell = [](const Facts&, int, const Measure&,
                 Telling& telling) { telling.statement = "The air of the build is known."; }};
  out.missing = explain(probe, facts, 0).missing;
  std::erase_if(out.missing,
                [&](const Missing& cell) { return cell.how.empty() && cell.column.empty(); });
}

}  // namespace

sheet::Air air_of_build(const Workshop& workshop, const BuildFile& build, const AirAsked& asked) {
  const Brief none;
  const Brief& brief = asked.brief != nullptr ? *asked.brief : none;
  CellDraws draws(workshop.catalog);
  const Setup setup = setup_of(build, asked);
  const Facts facts{.catalog = workshop.catalog,
                    .brief = brief,
                    .prices = nullptr,
                    .build = build.build,
                    .draws = draws,
                    .setup = &setup};
  sheet::Air out;
  out.build = build.name;
  out.brief = brief.name;
  out.room_c = brief.room_c;
  out.room_stated = brief.room_stated;
  const auto limit = brief.limits.find("noise_dba");
  out.distance_m = limit != brief.limits.end() ? limit->second.distance_m.value_or(asked.distance_m)
                                               : asked.distance_m;
  if (!facts.build.has(Kind::chassis) || !facts.build.has(Kind::cpu) ||
      !facts.build.has(Kind::cooler)) {
    out.notes.emplace_back(
        "The build has no case, no processor or no cooler: there is no air to speak of.");
    return out;
  }
  for (const Load load : power::loads_of(brief))
    out.loads.push_back(load_line(facts, load, asked, out.distance_m, out));
  if (std::ranges::none_of(out.loads, &sheet::AirLoad::known)) {
    add_missing(facts, out);
    if (out.missing.empty())
      out.notes.emplace_back(
          "No fan moves air through this case: draught by warmth alone is not computed, so nothing "
          "is known of its air.");
  }
  out.claims = all_claims(air_rules(), facts);
  for (Claim& claim : all_claims(air_told_rules(), facts)) out.claims.push_back(std::move(claim));
  add_swaps({.catalog = workshop.catalog,
             .brief = brief,
             .prices = nullptr,
             .build = build.build,
             .setup = &setup},
            out.claims, asked.stop);
  if (std::ranges::any_of(setup.fans, [](const auto& setting) { return !setting; }))
    out.notes.emplace_back(
        "Fans that are not set run together at one share of full speed: the least that keeps every "
        "limit of the brief, and each part 5 K below where it slows itself down.");
  out.notes.emplace_back(
      "Two rooms of air, mixed each: around the processor and below the card. Air comes in at "
      "front, "
      "bottom and side and goes out at top and rear (common practice).");
  out.notes.emplace_back(
      "Vents and meshes are computed as sharp-edged plates at high speed; at the speeds of a case "
      "that is an estimate.");
  return out;
}

}  // namespace rigproof::app
