#include "coupled/air/air_answer.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

#include "base/contract.hpp"

namespace rigproof::coupled {
namespace {

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
  if (facts.setup != nullptr)
    for (const auto& [what, where] : facts.setup->mounts)
      for (const std::string* text : {&what, &where}) {
        for (const char c : *text) add(static_cast<unsigned char>(c));
        add(256);
      }
  if (const FanSettings* settings = settings_of(facts); settings != nullptr)
    for (const auto& setting : *settings) {
      if (!setting) continue;
      add(static_cast<std::uint64_t>(setting->follows));
      for (const FanSetting::Point& point : setting->points) {
        add(std::bit_cast<std::uint64_t>(point.temp_c));
        add(std::bit_cast<std::uint64_t>(point.speed_percent));
      }
      add(~std::uint64_t{1});
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
  if (const OwnLoad* own = power::own_load(facts.brief, load); own != nullptr)
    for (const double frac : {own->cpu_frac, own->gpu_frac})
      add(std::bit_cast<std::uint64_t>(frac));
  add(std::bit_cast<std::uint64_t>(facts.brief.room_c));
  for (const Watched which : all_watched)
    add(std::bit_cast<std::uint64_t>(brief_limit_c(facts.brief, which, load)));
  return key;
}

// The numbers of an answer under one key each.
enum Kept : std::uint64_t {
  whole,
  chassis,
  cooler,
  middle_chassis,
  middle_cooler,
  cpu_lost,
  gpu_lost,
  first_temp
};

bool remembered(CellDraws& draws, CellDraws::Key key, AirAnswer& out) {
  const auto take = [&](std::uint64_t what) {
    key[5] = what;
    return draws.kept(key);
  };
  const Draws* const known = take(whole);
  if (known == nullptr) return false;
  out.known = known->low() >= 0.0;
  if (out.known) out.from = static_cast<SpeedsFrom>(static_cast<int>(known->low()));
  out.speeds_by_draw = {*take(chassis), *take(cooler)};
  out.speeds = {take(middle_chassis)->low(), take(middle_cooler)->low()};
  for (std::size_t i = 0; i < all_watched.size(); ++i) out.temp_c.all[i] = *take(first_temp + i);
  out.cpu_lost_frac = *take(cpu_lost);
  out.gpu_lost_frac = *take(gpu_lost);
  return true;
}

void remember(CellDraws& draws, CellDraws::Key key, const AirAnswer& answer) {
  const auto put = [&](std::uint64_t what, const Draws& value) {
    key[5] = what;
    draws.keep(key, value);
  };
  put(whole, Draws(answer.known ? static_cast<double>(answer.from) : -1.0));
  put(chassis, answer.speeds_by_draw.chassis_frac);
  put(cooler, answer.speeds_by_draw.cooler_frac);
  put(middle_chassis, answer.speeds.chassis_frac);
  put(middle_cooler, answer.speeds.cooler_frac);
  for (std::size_t i = 0; i < all_watched.size(); ++i) put(first_temp + i, answer.temp_c.all[i]);
  put(cpu_lost, answer.cpu_lost_frac);
  put(gpu_lost, answer.gpu_lost_frac);
}

bool follower_spans(const AirCase& of, Watched which) {
  return (which == Watched::stage && of.stage_k_w.spans()) ||
         (which == Watched::drive && of.drive_rise_k.spans()) ||
         (which == Watched::coolant && of.plate_k_w.spans());
}

// Fans that follow what a class range leaves open turn at any of its speeds.
bool any_follower_spans(const AirCase& of) {
  return std::ranges::any_of(all_watched, [&](Watched which) { return follower_spans(of, which); });
}

// `run_at(draw)`: speeds and state of a draw. `follow`: the fans turn by what draws differ in.
template <class RunAt>
void judge_draws(RunAt run_at, bool follow, const AirCase& of, AirAnswer& out) {
  using Samples = std::array<double, draw_count>;
  ByWatched<Samples> temps{};
  Samples cpu_lost{};
  Samples gpu_lost{};
  Samples chassis_frac{};
  Samples cooler_frac{};
  out.known = true;
  for (int draw = 0; draw < draw_count && out.known; ++draw) {
    const auto& [speeds, state] = run_at(draw);
    const auto d = static_cast<std::size_t>(draw);
    out.known = state.solved;
    for (const Watched which : all_watched) temps[which][d] = temp_c(state, which);
    chassis_frac[d] = speeds.chassis_frac;
    cooler_frac[d] = speeds.cooler_frac;
    cpu_lost[d] = state.cpu.lost_frac;
    gpu_lost[d] = state.gpu.lost_frac;
  }
  if (!out.known) return;
  // A class range took part: then the draws' own ends are the range that is known.
  const bool span = case_spans(of) || (follow && any_follower_spans(of));
  for (const Watched which : all_watched)
    out.temp_c[which] = std::isnan(temps[which].front())
                            ? Draws::absent()
                            : Draws::of(temps[which], span || follower_spans(of, which));
  out.cpu_lost_frac = Draws::of(cpu_lost, span);
  out.gpu_lost_frac = Draws::of(gpu_lost, span);
  out.speeds_by_draw = follow
                           ? SpeedDraws(Draws::of(chassis_frac, span), Draws::of(cooler_frac, span))
                           : SpeedDraws(out.speeds);
}

// The speed of what no setting steers, (B9); with how it was found.
double sought_frac_of(AirSteering& steering, const Limits& limits, AirAnswer& out) {
  if (!steering.seeks()) {
    out.from = SpeedsFrom::settings;
    return 1.0;
  }
  const auto least = SpeedSearch(steering, limits).least();
  out.from = least.step == no_step ? SpeedsFrom::no_speed : SpeedsFrom::least;
  return speed_of(least);
}

}  // namespace

const FanSettings* settings_of(const Facts& facts) {
  if (facts.setup == nullptr || facts.setup->fans == FanSettings{}) return nullptr;
  return &facts.setup->fans;
}

AirAnswer air_answer(const Facts& facts, power::Load load, bool full_speed, Measure& m) {
  RP_EXPECT(facts.seats == nullptr);
  AirAnswer out;
  const AirCase of = air_case(facts, load, m);
  if (of.unknown || of.fans.size() == 0) return out;
  const CellDraws::Key key = key_of(facts, load, full_speed);
  AirModel model(of);
  AirSteering steering(model, full_speed ? nullptr : settings_of(facts));
  if (!remembered(facts.draws, key, out)) {
    const double sought_frac =
        full_speed ? 1.0 : sought_frac_of(steering, limits_of(facts.brief, of, load), out);
    out.speeds = steering.at(AirModel::middle, sought_frac).speeds;
    judge_draws([&](int draw) { return steering.at(draw, sought_frac); }, steering.follows(), of,
                out);
    remember(facts.draws, key, out);
  }
  if (!m.deciding) out.middle = model.at(AirModel::middle, out.speeds);
  return out;
}

std::optional<Watched> holds_speed(const Facts& facts, const AirCase& of, power::Load load,
                                   const AirAnswer& answer) {
  const bool sought = answer.from == SpeedsFrom::least || answer.from == SpeedsFrom::no_speed;
  if (!answer.known || !sought) return {};
  if (std::min(answer.speeds.chassis_frac, answer.speeds.cooler_frac) <= least_speed_frac)
    return {};
  const Limits limits = limits_of(facts.brief, of, load);
  std::optional<Watched> nearest;
  double least_k = no_limit_c;
  for (const Watched which : all_watched) {
    const Draws& temp = answer.temp_c[which];
    if (temp.is_absent()) continue;
    const double left_k = std::min(limits.middle[which] - temp_c(answer.middle, which),
                                   limits.every_draw[which] - temp.high());
    if (left_k < least_k) {
      nearest = which;
      least_k = left_k;
    }
  }
  return nearest;
}

AirAnswer air_at_speeds(const Facts& facts, power::Load load, FanSpeeds speeds, Measure& m) {
  AirAnswer out;
  const AirCase of = air_case(facts, load, m);
  if (of.unknown || of.fans.size() == 0) return out;
  AirModel model(of);
  out.speeds = speeds;
  judge_draws([&](int draw) { return AirSteering::Run{speeds, model.at(draw, speeds)}; }, false, of,
              out);
  out.middle = model.at(AirModel::middle, speeds);
  return out;
}

}  // namespace rigproof::coupled
