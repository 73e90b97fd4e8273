#include "coupled/air/air_answer.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

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
  if (const OwnLoad* own = power::own_load(facts.brief, load); own != nullptr)
    for (const double frac : {own->cpu_frac, own->gpu_frac})
      add(std::bit_cast<std::uint64_t>(frac));
  add(std::bit_cast<std::uint64_t>(facts.brief.room_c));
  for (const Watched which : all_watched)
    add(std::bit_cast<std::uint64_t>(brief_limit_c(facts.brief, which, load)));
  return key;
}

// The numbers of an answer under one key each.
enum Kept : std::uint64_t { speed, cpu_lost, gpu_lost, first_temp };

bool remembered(CellDraws& draws, CellDraws::Key key, AirAnswer& out) {
  const auto take = [&](std::uint64_t what) {
    key[5] = what;
    return draws.kept(key);
  };
  const Draws* const known = take(speed);
  if (known == nullptr) return false;
  out.known = known->low() > 0.0;
  out.speed_frac = std::abs(known->low());
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
  put(speed, Draws(answer.known ? answer.speed_frac : -answer.speed_frac));
  for (std::size_t i = 0; i < all_watched.size(); ++i) put(first_temp + i, answer.temp_c.all[i]);
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

bool follower_spans(const AirCase& of, Watched which) {
  return (which == Watched::stage && of.stage_k_w.spans()) ||
         (which == Watched::drive && of.drive_rise_k.spans()) ||
         (which == Watched::coolant && of.plate_k_w.spans());
}

void judge_draws(AirModel& model, const AirCase& of, AirAnswer& out) {
  using Samples = std::array<double, draw_count>;
  ByWatched<Samples> temps{};
  Samples cpu_lost{};
  Samples gpu_lost{};
  out.known = true;
  for (int draw = 0; draw < draw_count && out.known; ++draw) {
    const AirState state = model.at(draw, out.speed_frac);
    const auto d = static_cast<std::size_t>(draw);
    out.known = state.solved;
    for (const Watched which : all_watched) temps[which][d] = temp_c(state, which);
    cpu_lost[d] = state.cpu.lost_frac;
    gpu_lost[d] = state.gpu.lost_frac;
  }
  if (!out.known) return;
  // A class range took part: then the draws' own ends are the range that is known.
  const bool span = spans(of);
  for (const Watched which : all_watched)
    out.temp_c[which] = std::isnan(temps[which].front())
                            ? Draws::absent()
                            : Draws::of(temps[which], span || follower_spans(of, which));
  out.cpu_lost_frac = Draws::of(cpu_lost, span);
  out.gpu_lost_frac = Draws::of(gpu_lost, span);
}

}  // namespace

AirAnswer air_answer(const Facts& facts, power::Load load, bool full_speed, Measure& m) {
  AirAnswer out;
  const AirCase of = air_case(facts, load, m);
  if (of.unknown || of.fans.size() == 0) return out;
  const CellDraws::Key key = key_of(facts, load, full_speed);
  AirModel model(of);
  if (!remembered(facts.draws, key, out)) {
    if (!full_speed) out.speed_frac = quietest_speed_frac(model, limits_of(facts.brief, of, load));
    judge_draws(model, of, out);
    remember(facts.draws, key, out);
  }
  if (!m.deciding) out.middle = model.at(AirModel::middle, out.speed_frac);
  return out;
}

std::optional<Watched> holds_speed(const Facts& facts, const AirCase& of, power::Load load,
                                   const AirAnswer& answer) {
  if (!answer.known || answer.speed_frac <= least_speed_frac) return {};
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

}  // namespace rigproof::coupled
