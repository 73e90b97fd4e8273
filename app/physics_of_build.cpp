#include "app/physics_of_build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "analysis/power/load_cases.hpp"
#include "analysis/power/power_rules.hpp"
#include "base/text.hpp"
#include "coupled/air/air_answer.hpp"
#include "coupled/air/air_heat_path.hpp"
#include "coupled/air/air_noise.hpp"
#include "coupled/air/air_warming.hpp"

namespace rigproof::app {
namespace {

using coupled::AirModel;
using coupled::AirState;
using coupled::HeatEnd;
using coupled::Watched;
using power::Load;
using sheet::HeatPlace;

// 5 and 95 % of the draws, as everywhere.
constexpr double low_quantile = 0.05;
constexpr double high_quantile = 0.95;

class Pictures {
 public:
  Pictures(const Facts& facts, Load load) : facts_(facts), load_(load) {
    Measure m;
    of_ = coupled::air_case(facts, load, m);
    answer_ = coupled::air_answer(facts, load, false, m);
    load_name_ = power::name_of(facts.brief, load);
  }
  [[nodiscard]] bool known() const { return answer_.known; }

  std::optional<sheet::HeatPath> heat_path() {
    AirModel model(of_);
    const auto moves = coupled::heat_moves(model, answer_.speeds);
    if (moves.empty()) return {};
    const AirState& state = answer_.middle;
    sheet::HeatPath out{.load = load_name_,
                        .fan_speed_percent = 100.0 * answer_.speeds.chassis_frac,
                        .room_c = of_.outside_c,
                        .places = {},
                        .flows = {}};
    if (!answer_.speeds.are_one()) out.cooler_speed_percent = 100.0 * answer_.speeds.cooler_frac;
    const auto source = [&](const char* id, std::string name, HeatEnd to, double watts,
                            std::optional<double> temp_c) {
      if (!(watts > 0.0)) return;
      out.places.push_back({id, std::move(name), HeatPlace::Kind::source, temp_c});
      out.flows.push_back({id, id_of(to), watts});
    };
    source("processor", name(Kind::cpu), HeatEnd::cpu, state.cpu.power_w, state.cpu.temp_c);
    if (of_.has_card)
      source("card-chip", name(Kind::gpu), HeatEnd::gpu, state.gpu.power_w, state.gpu.temp_c);
    source("board", "board, memory and all else above", HeatEnd::upper,
           coupled::middle_of(of_.upper_w), {});
    source("below", of_.has_card ? "drives and all else below" : "all else", HeatEnd::lower,
           coupled::middle_of(of_.lower_w), {});
    out.places.push_back({id_of(HeatEnd::cpu), name(Kind::cooler), HeatPlace::Kind::body, {}});
    if (of_.has_card)
      out.places.push_back(
          {id_of(HeatEnd::gpu), "the card's own cooler", HeatPlace::Kind::body, {}});
    out.places.push_back({id_of(HeatEnd::upper),
                          of_.has_card ? "around the processor" : "inside the case",
                          HeatPlace::Kind::room, state.upper_c});
    if (of_.has_card)
      out.places.push_back(
          {id_of(HeatEnd::lower), "below the card", HeatPlace::Kind::room, state.lower_c});
    out.places.push_back(
        {id_of(HeatEnd::outside), "outside", HeatPlace::Kind::outside, of_.outside_c});
    for (const coupled::HeatMove& move : moves)
      out.flows.push_back({id_of(move.from), id_of(move.to), move.watts});
    return out;
  }

  std::optional<sheet::Warming> warming() {
    Measure m;
    const auto warm =
        coupled::warming(facts_, nullptr, {&of_, answer_.speeds, coupled::settings_of(facts_)}, m);
    if (!warm) return {};
    sheet::Warming out{
        .load = load_name_, .time_s = warm->time_s, .curves = {}, .noise_dba = {}, .notes = {}};
    static constexpr std::array<const char*, 3> names = {"processor", "card", "liquid of the loop"};
    for (const coupled::Warmed which : coupled::all_warmed) {
      const auto& of = (*warm)[which];
      if (!of) continue;
      sheet::WarmCurve curve{.name = names[static_cast<std::size_t>(which)], .temp_c = of->temp_c};
      if (of->limit_c < coupled::no_limit_c) curve.limit_c = of->limit_c;
      if (!of->settled_s.is_absent()) curve.settled_s = of->settled_s.median();
      out.curves.push_back(std::move(curve));
    }
    out.notes.emplace_back("From the temperature of the room on.");
    add_noise_over_time(warm->speeds, out);
    return out;
  }

  std::optional<sheet::SpeedSweep> speed_sweep() {
    sheet::SpeedSweep out;
    out.load = load_name_;
    for (const Watched which : coupled::all_watched)
      if (!answer_.temp_c[which].is_absent())
        out.temperatures.push_back({words_of(which), {}, limit_of(which)});
    constexpr int points = 16;
    for (int i = 0; i < points; ++i) {
      const double speed_frac =
          coupled::least_speed_frac + (1.0 - coupled::least_speed_frac) * i / double{points - 1};
      Measure m;
      const auto at = coupled::air_at_speeds(facts_, load_, speed_frac, m);
      if (!at.known) return {};
      out.speed_percent.push_back(100.0 * speed_frac);
      std::size_t curve = 0;
      for (const Watched which : coupled::all_watched)
        if (!answer_.temp_c[which].is_absent())
          add(at.temp_c[which], out.temperatures[curve++].temp_c);
      add_noise(speed_frac, out);
    }
    const auto noise = facts_.brief.limits.find("noise_dba");
    if (noise != facts_.brief.limits.end()) out.noise_limit_dba = noise->second.at_most;
    if (answer_.speeds.are_one()) out.chosen_percent = 100.0 * answer_.speeds.chassis_frac;
    return out;
  }

 private:
  static std::string id_of(HeatEnd end) {
    static constexpr std::array<const char*, 5> ids = {"cooler", "card", "upper", "lower",
                                                       "outside"};
    return ids[static_cast<std::size_t>(end)];
  }
  static std::string words_of(Watched which) {
    static constexpr std::array<const char*, 6> words = {"processor",          "card",
                                                         "liquid of the loop", "power stage",
                                                         "hottest drive",      "air that leaves"};
    return words[static_cast<std::size_t>(which)];
  }
  std::string name(Kind kind) const {
    return std::string(facts_.catalog.name(part_of(facts_, kind)));
  }
  // Of the brief where it has one under this load; else where the part slows itself down.
  std::optional<double> limit_of(Watched which) const {
    double limit_c = coupled::brief_limit_c(facts_.brief, which, load_);
    const Draws* own = which == Watched::cpu                   ? &of_.cpu_limit_c
                       : which == Watched::gpu && of_.has_card ? &of_.gpu_limit_c
                                                               : nullptr;
    if (own != nullptr && !own->is_absent()) limit_c = std::min(limit_c, coupled::middle_of(*own));
    return limit_c < coupled::no_limit_c ? std::optional(limit_c) : std::nullopt;
  }
  static void add(const Draws& draws, sheet::SpreadCurve& to) {
    to.middle.push_back(draws.median());
    to.low.push_back(draws.spans() ? draws.low() : draws.quantile(low_quantile));
    to.high.push_back(draws.spans() ? draws.high() : draws.quantile(high_quantile));
  }
  // Fans that stay at one speed make one level, which needs no curve.
  void add_noise_over_time(const std::vector<coupled::FanSpeeds>& speeds, sheet::Warming& out) {
    Measure m;
    const auto level_dba = [&](const coupled::FanSpeeds& at) {
      const Draws level =
          coupled::noise_dba(facts_, of_, {.speeds = at, .distance_m = distance_m()}, m);
      return level.is_absent() ? std::nullopt : std::optional(level.median());
    };
    for (const coupled::FanSpeeds& at : speeds)
      if (const auto level = level_dba(at)) out.noise_dba.push_back(*level);
    const auto still = level_dba(answer_.speeds);
    if (speeds.empty() && still)
      out.notes.push_back(fmt::format(
          "The fans turn at one speed, so the noise is one level: {} dB(A).", readable(*still)));
    if (!speeds.empty())
      out.notes.emplace_back(
          "The fans follow the temperatures as they are set; settled is meant with the speeds at "
          "the end.");
  }
  [[nodiscard]] double distance_m() const {
    const auto limit = facts_.brief.limits.find("noise_dba");
    return limit == facts_.brief.limits.end() ? 1.0 : limit->second.distance_m.value_or(1.0);
  }
  void add_noise(double speed_frac, sheet::SpeedSweep& out) {
    Measure m;
    const Draws level =
        coupled::noise_dba(facts_, of_, {.speeds = speed_frac, .distance_m = distance_m()}, m);
    if (!level.is_absent()) add(level, out.noise_dba);
  }

  const Facts& facts_;
  Load load_;
  std::string load_name_;
  coupled::AirCase of_;
  coupled::AirAnswer answer_;
};

void put_window(const Rule& rule, const Facts& facts, int place, std::string name,
                sheet::SupplyWindows& out) {
  Measure m;
  rule.measure(facts, place, m);
  sheet::SupplyWindow window;
  window.name = std::move(name);
  if (!m.unknown && !m.value.is_absent()) {
    const Quantity load = quantity(m.value, "W");
    window.low_w = load.low.value_or(load.value);
    window.high_w = load.high.value_or(load.value);
  }
  if (!m.limit.is_absent() && !m.unknown)
    window.allowed_w = m.limit.spans() ? m.limit.low() : m.limit.median();
  out.windows.push_back(std::move(window));
}

std::optional<sheet::SupplyWindows> supply_windows(const Facts& facts) {
  if (!facts.build.has(Kind::psu)) return {};
  const PartRef psu = part_of(facts, Kind::psu);
  sheet::SupplyWindows out{.supply = std::string(facts.catalog.name(psu)),
                           .rated_w = facts.catalog.number(column("psu", "rated_power_w"), psu.row),
                           .windows = {}};
  static constexpr std::array<const char*, 4> names = {"100 us", "1 ms", "10 ms", "100 ms"};
  for (const Rule* rule : power_rules()) {
    if (rule->id == "power.excursions")
      for (int place = 0; place < rule->places(facts); ++place)
        put_window(*rule, facts, place, names[static_cast<std::size_t>(place)], out);
  }
  for (const Rule* rule : power_rules())
    if (rule->id == "power.sustained" && rule->places(facts) > 0)
      put_window(*rule, facts, 0, "sustained", out);
  if (out.windows.empty() || !(out.rated_w > 0.0)) return {};
  return out;
}

}  // namespace

std::optional<sheet::Physics> physics_of_build(const Catalog& catalog, const Brief& brief,
                                               const Build& build, const Setup* setup) {
  CellDraws draws(catalog);
  const Facts facts{.catalog = catalog,
                    .brief = brief,
                    .prices = nullptr,
                    .build = build,
                    .draws = draws,
                    .setup = setup};
  sheet::Physics out;
  out.supply_windows = supply_windows(facts);
  if (build.has(Kind::chassis) && build.has(Kind::cpu) && build.has(Kind::cooler)) {
    const auto noise = brief.limits.find("noise_dba");
    const Load load = noise == brief.limits.end()
                          ? Load::everything
                          : power::find_load(brief, noise->second.load).value_or(Load::everything);
    Pictures pictures(facts, load);
    if (pictures.known()) {
      out.heat_path = pictures.heat_path();
      out.warming = pictures.warming();
      out.speed_sweep = pictures.speed_sweep();
    }
  }
  if (!out.supply_windows && !out.heat_path && !out.warming && !out.speed_sweep) return {};
  return out;
}

}  // namespace rigproof::app
