#include "coupled/air/air_decide.hpp"

#include <algorithm>
#include <bit>

#include "coupled/air/air_answer.hpp"

namespace rigproof::coupled {
namespace {

// Mixes what a case rests on into three words.
class Mixer {
 public:
  Mixer& add(std::uint64_t value) {
    for (std::size_t i = 0; i < words_.size(); ++i) {
      words_[i] = (words_[i] ^ value) * (0x9E37'79B9'7F4A'7C15U + 2 * i);
      words_[i] ^= words_[i] >> 29U;
    }
    return *this;
  }
  Mixer& add(double value) { return add(std::bit_cast<std::uint64_t>(value)); }
  Mixer& add(std::string_view text) {
    for (const char c : text) add(std::uint64_t{static_cast<unsigned char>(c)});
    return add(std::uint64_t{256});
  }
  // Ends and two of its samples: two cells differ in them unless they are the same number.
  Mixer& add(const Draws& draws) {
    if (draws.is_absent()) return add(std::uint64_t{1});
    constexpr int another = 101;
    return add(draws.low()).add(draws.high()).add(draws[0]).add(draws[another]);
  }
  [[nodiscard]] const std::array<std::uint64_t, 3>& words() const { return words_; }

 private:
  std::array<std::uint64_t, 3> words_{1, 2, 3};
};

// All of a case but the heat beside processor and card, and what only follows.
void add_case(const AirCase& of, Mixer& mixer) {
  for (const FanRow& row : of.fans) {
    mixer.add(static_cast<std::uint64_t>(row.inside))
        .add(std::uint64_t{row.blows_in ? 1U : 0U})
        .add(static_cast<std::uint64_t>(row.count))
        .add(row.size_m)
        .add(row.flow_m3_h)
        .add(row.pressure_pa)
        .add(row.open_frac)
        .add(row.filter_pa)
        .add(row.radiator_m);
    if (row.measured != nullptr) mixer.add(row.what);
  }
  for (const Opening& opening : of.openings)
    mixer.add(static_cast<std::uint64_t>(opening.inside))
        .add(opening.area_m2)
        .add(opening.open_frac)
        .add(opening.filter_pa);
  mixer.add(std::uint64_t{(of.has_card ? 1U : 0U) + (of.liquid ? 2U : 0U)})
      .add(of.between_m2)
      .add(of.outside_c);
  for (const Draws* draws : {&of.leak_cm2, &of.cpu_w, &of.gpu_w, &of.cpu_w_k, &of.cooler_flow_m3_h,
                             &of.gpu_w_k, &of.cpu_limit_c, &of.gpu_limit_c})
    mixer.add(*draws);
}

using Heat = std::array<const Draws*, 5>;
Heat heat_of(const AirCase& of) {
  return {&of.upper_w, &of.lower_w, &of.stage_k_w, &of.drive_rise_k, &of.plate_k_w};
}

// What was decided for cases that differ in heat alone, kept with the draws of cells: the least heat
// at which something held in no draw, or the most at which it held in all.
class Decided {
 public:
  Decided(CellDraws& draws, const Mixer& mixer, std::uint64_t what) : draws_(draws) {
    const auto& words = mixer.words();
    key_ = {0xA1'4000'0000'0002U, words[0], words[1], words[2], what, 0};
  }
  [[nodiscard]] bool at_least_as_hot_as_one(const Heat& heat) const {
    return any([&](std::size_t i, std::size_t part) { return at_most(kept(i, part), heat[part]); });
  }
  [[nodiscard]] bool at_most_as_hot_as_one(const Heat& heat) const {
    return any([&](std::size_t i, std::size_t part) { return at_most(heat[part], kept(i, part)); });
  }
  void add(const Heat& heat) {
    std::size_t i = 0;
    while (i < most && kept(i, 0) != nullptr) ++i;
    if (i == most) return;
    for (std::size_t part = 0; part < heat.size(); ++part) draws_.keep(key(i, part), *heat[part]);
  }

 private:
  static constexpr std::size_t most = 12;

  [[nodiscard]] CellDraws::Key key(std::size_t i, std::size_t part) const {
    CellDraws::Key out = key_;
    out[5] = i * std::tuple_size_v<Heat> + part;
    return out;
  }
  [[nodiscard]] const Draws* kept(std::size_t i, std::size_t part) const {
    return draws_.kept(key(i, part));
  }
  static bool at_most(const Draws* a, const Draws* b) {
    if (a->is_absent() || b->is_absent()) return a->is_absent() && b->is_absent();
    return a->spans() == b->spans() && Draws::at_most(*a, *b).all();
  }
  template <class Fits>
  bool any(Fits fits) const {
    for (std::size_t i = 0; i < most && kept(i, 0) != nullptr; ++i) {
      bool all = true;
      for (std::size_t part = 0; all && part < std::tuple_size_v<Heat>; ++part) all = fits(i, part);
      if (all) return true;
    }
    return false;
  }

  CellDraws& draws_;
  CellDraws::Key key_;
};

constexpr std::uint64_t cool = 100;   // all temperatures in all draws
constexpr std::uint64_t quiet = 101;  // the level in all draws
constexpr std::uint64_t loud = 102;   // in none

Mixer mixed(const Facts& facts, const AirCase& of, power::Load load) {
  Mixer mixer;
  add_case(of, mixer);
  for (const Watched which : all_watched) mixer.add(brief_limit_c(facts.brief, which, load));
  return mixer;
}

}  // namespace

// Where every draw can be kept it is, at full speed too; where not, full speed it is (B9). So full
// speed tells in which draws it holds.
Draws decided_temp_c(const Facts& facts, const AirCase& of, power::Load load, Watched which) {
  const double limit_c = brief_limit_c(facts.brief, which, load);
  const Mixer mixer = mixed(facts, of, load);
  const Heat heat = heat_of(of);
  Decided all(facts.draws, mixer, cool);
  Decided none(facts.draws, mixer, static_cast<std::uint64_t>(which));
  if (all.at_most_as_hot_as_one(heat)) return {limit_c};
  if (none.at_least_as_hot_as_one(heat)) return {limit_c + 1.0};
  Measure m;
  m.deciding = true;
  const AirAnswer answer = air_answer(facts, load, true, m);
  if (!answer.known) return Draws::absent();
  const bool all_hold = std::ranges::all_of(all_watched, [&](Watched each) {
    const Draws& temp = answer.temp_c[each];
    return temp.is_absent() || temp.high() <= brief_limit_c(facts.brief, each, load);
  });
  const Draws& temp = answer.temp_c[which];
  if (temp.is_absent()) return temp;
  if (all_hold) all.add(heat);
  if (temp.low() > limit_c) none.add(heat);
  return temp;
}

Draws decided_noise_dba(const Facts& facts, const AirCase& of, power::Load load, double distance_m,
                        double at_most_dba) {
  const auto level_at = [&](double speed_frac) {
    Measure m;
    m.deciding = true;
    return noise_dba(
        facts, of,
        {.speed_frac = speed_frac, .distance_m = distance_m, .at_most_dba = at_most_dba}, m);
  };
  const NoiseSteps steps = noise_steps(facts, of.sounds, distance_m, at_most_dba);
  Mixer mixer = mixed(facts, of, load);
  mixer.add(static_cast<std::uint64_t>(steps.last_of_all + 1))
      .add(static_cast<std::uint64_t>(steps.first_of_none));
  const Heat heat = heat_of(of);
  Decided all(facts.draws, mixer, quiet);
  Decided none(facts.draws, mixer, loud);
  if (all.at_most_as_hot_as_one(heat)) return level_at(speed_of_step(steps.last_of_all));
  if (none.at_least_as_hot_as_one(heat)) return level_at(speed_of_step(steps.first_of_none));
  AirModel model(of);
  const Limits limits = limits_of(facts.brief, of, load);
  SpeedSearch search(model, limits);
  const auto middle = search.least_of_middle();
  // No draw lets the fans turn slower than the middle one does.
  const int at_least = middle.value_or(speed_steps);
  if (at_least >= steps.first_of_none) {
    none.add(heat);
    return level_at(speed_of_step(steps.first_of_none));
  }
  if (!middle) return level_at(1.0);
  if (*middle <= steps.last_of_all && search.all_keep(steps.last_of_all)) {
    all.add(heat);
    return level_at(speed_of_step(steps.last_of_all));
  }
  const auto least = search.least(*middle);
  return level_at(least ? speed_of_step(*least) : 1.0);
}

}  // namespace rigproof::coupled
