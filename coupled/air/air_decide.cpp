#include "coupled/air/air_decide.hpp"

#include <algorithm>

#include "coupled/air/air_answer.hpp"
#include "coupled/air/air_mixer.hpp"

namespace rigproof::coupled {
namespace {

// What makes it hotter beside them: heat in the rooms, and by how much that which only follows is
// hotter, where it is limited.
using Heat = std::array<const Draws*, 4>;
Heat heat_of(const Facts& facts, const AirCase& of, power::Load load) {
  static const Draws nothing = 0.0;
  const auto limited = [&](Watched which, const Draws& rise) {
    return brief_limit_c(facts.brief, which, load) < no_limit_c ? &rise : &nothing;
  };
  return {&of.upper_w, &of.lower_w, limited(Watched::stage, of.stage_k_w),
          limited(Watched::drive, of.drive_rise_k)};
}

// In every draw, and in the middle one, which is made of the hull.
bool at_most(const Draws& a, const Draws& b) {
  if (a.is_absent() || b.is_absent()) return a.is_absent() && b.is_absent();
  return a.spans() == b.spans() && a.low() + a.high() <= b.low() + b.high() &&
         Draws::at_most(a, b).all();
}

// What was found of cases that differ in heat alone, kept with the draws of cells: for each heat
// the least step of the speed that every draw keeps, and the draw that asks for it.
class KnownSteps {
 public:
  KnownSteps(CellDraws& draws, const Mixer& mixer, std::uint64_t what) : draws_(draws) {
    const auto& words = mixer.words();
    key_ = {0xA1'4000'0000'0002U, words[0], words[1], words[2], what, 0};
    std::size_t none = 1;  // the first that is not there, by halving
    while (none < most && kept(none - 1, step_part) != nullptr) none *= 2;
    none = std::min(none, most);
    while (count_ < none) {
      const std::size_t middle = (count_ + none) / 2;
      if (kept(middle, step_part) != nullptr)
        count_ = middle + 1;
      else
        none = middle;
    }
  }

  struct Between {
    int low = 0;
    int high = no_step;
    int hottest = AirModel::middle;  ///< draw of the entry before
  };
  [[nodiscard]] Between between(const Heat& heat) const {
    Between out;
    for (std::size_t n = 0; n < count_ && out.low < out.high; ++n) {
      const std::size_t i = count_ - 1 - n;  // what was found last is most alike
      const int step = static_cast<int>(kept(i, step_part)->low());
      if (step < out.high &&
          all_parts([&](std::size_t part) { return at_most(*heat[part], *kept(i, part)); }))
        out.high = step;
      if (step > out.low &&
          all_parts([&](std::size_t part) { return at_most(*kept(i, part), *heat[part]); }))
        out.low = step;
    }
    if (count_ > 0) out.hottest = static_cast<int>(kept(count_ - 1, draw_part)->low());
    return out;
  }
  void add(const Heat& heat, SpeedSearch::Least found) {
    if (count_ == most) return;
    for (std::size_t part = 0; part < heat.size(); ++part)
      draws_.keep(key(count_, part), *heat[part]);
    draws_.keep(key(count_, step_part), Draws(found.step));
    draws_.keep(key(count_, draw_part), Draws(found.draw));
    ++count_;
  }

 private:
  static constexpr std::size_t most = 250;
  static constexpr std::size_t step_part = std::tuple_size_v<Heat>;
  static constexpr std::size_t draw_part = step_part + 1;

  [[nodiscard]] CellDraws::Key key(std::size_t i, std::size_t part) const {
    CellDraws::Key out = key_;
    out[5] = i * (draw_part + 1) + part;
    return out;
  }
  [[nodiscard]] const Draws* kept(std::size_t i, std::size_t part) const {
    return draws_.kept(key(i, part));
  }
  template <class Fits>
  static bool all_parts(Fits fits) {
    for (std::size_t part = 0; part < std::tuple_size_v<Heat>; ++part)
      if (!fits(part)) return false;
    return true;
  }

  CellDraws& draws_;
  CellDraws::Key key_;
  std::size_t count_ = 0;
};

Mixer mixed(const Facts& facts, const AirCase& of, power::Load load) {
  Mixer mixer;
  add_flows(of, mixer);
  for (const Draws* draws : {&of.cpu_w, &of.gpu_w, &of.gpu_w_k, &of.cpu_limit_c, &of.gpu_limit_c})
    mixer.add(*draws);
  mixer.add(of.plate_k_w);
  for (const Watched which : all_watched) mixer.add(brief_limit_c(facts.brief, which, load));
  return mixer;
}

// (B9), by what is known of cases with more and with less heat.
class LeastStep {
 public:
  LeastStep(const Facts& facts, const AirCase& of, power::Load load, const Mixer& mixer)
      : facts_(facts),
        of_(of),
        load_(load),
        heat_(heat_of(facts, of, load)),
        known_(facts.draws, mixer, static_cast<std::uint64_t>(load)),
        between_(known_.between(heat_)) {}

  [[nodiscard]] int low() const { return between_.low; }
  [[nodiscard]] int high() const { return between_.high; }
  [[nodiscard]] int find() {
    if (between_.low >= between_.high) return between_.high;
    AirModel model(of_);
    AirSteering steering(model, nullptr);
    const Limits limits = limits_of(facts_.brief, of_, load_);
    const auto found =
        SpeedSearch(steering, limits).least(between_.low, between_.high, between_.hottest);
    known_.add(heat_, found);
    return found.step;
  }

 private:
  const Facts& facts_;
  const AirCase& of_;
  power::Load load_;
  Heat heat_;
  KnownSteps known_;
  KnownSteps::Between between_;
};

// Verdicts from best to worst, as the step of a KnownSteps; the last: holds in no draw.
int rank_of(int draws_that_hold) {
  constexpr int worst = 4;
  return draws_that_hold == 0 ? worst : static_cast<int>(verdict_of(draws_that_hold));
}
constexpr int all_ranks = 5;

// A number of that rank, against this limit: in so many draws at it, else above.
Draws ranked(int rank, double limit) {
  constexpr std::array holding = {draw_count, 200, 60, 6, 0};
  std::array<double, draw_count> samples{};
  for (int d = 0; d < draw_count; ++d)
    samples[static_cast<std::size_t>(d)] =
        d < holding[static_cast<std::size_t>(rank)] ? limit : limit + 1.0;
  return Draws::of(samples);
}

}  // namespace

// Where every draw can be kept it is, at full speed too; where not, full speed it is (B9). So full
// speed tells in which draws it holds.
Draws decided_temp_c(const Facts& facts, const AirCase& of, power::Load load, Watched which,
                     bool verdict_alone) {
  const Mixer mixer = mixed(facts, of, load);
  const double limit_c = brief_limit_c(facts.brief, which, load);
  if (LeastStep(facts, of, load, mixer).find() != no_step) return {limit_c};
  constexpr std::uint64_t ranks_of = 1000;
  KnownSteps ranks(facts.draws, mixer, ranks_of + static_cast<std::uint64_t>(which));
  const Heat heat = heat_of(facts, of, load);
  if (verdict_alone) {
    const KnownSteps::Between between = ranks.between(heat);
    if (between.low == std::min(between.high, all_ranks - 1)) return ranked(between.low, limit_c);
  }
  Measure m;
  m.deciding = true;
  const Draws temp = air_answer(facts, load, true, m).temp_c[which];
  if (!temp.is_absent() && !temp.spans())
    ranks.add(heat, {.step = rank_of(static_cast<int>(Draws::at_most(temp, limit_c).count()))});
  return temp;
}

Draws decided_noise_dba(const Facts& facts, const AirCase& of, power::Load load, double distance_m,
                        double at_most_dba) {
  Mixer sounds;
  for (const Sound& sound : of.sounds)
    sounds.add(std::uint64_t{sound.level.table} << 8U | sound.level.column)
        .add(std::uint64_t{sound.row})
        .add(static_cast<std::uint64_t>(sound.count))
        .add(sound.fans ? std::uint64_t{1} + static_cast<std::uint64_t>(*sound.fans) : 0U);
  sounds.add(distance_m).add(at_most_dba);
  const auto& words = sounds.words();
  // Builds that differ in what makes no sound are many.
  const auto level_at = [&](int step) {
    const CellDraws::Key key = {
        0xA1'4000'0000'0003U, words[0], words[1], words[2], static_cast<std::uint64_t>(step), 0};
    if (const Draws* known = facts.draws.kept(key); known != nullptr) return *known;
    Measure m;
    m.deciding = true;
    const Draws level = noise_dba(facts, of,
                                  {.speeds = speed_of_step(std::min(speed_steps, step)),
                                   .distance_m = distance_m,
                                   .at_most_dba = at_most_dba},
                                  m);
    facts.draws.keep(key, level);
    return level;
  };
  LeastStep least(facts, of, load, mixed(facts, of, load));
  Draws quietest = level_at(least.low());
  if (quietest.low() > at_most_dba || least.low() == least.high()) return quietest;
  Draws loudest = level_at(least.high());
  if (loudest.high() <= at_most_dba) return loudest;
  return level_at(least.find());
}

}  // namespace rigproof::coupled
