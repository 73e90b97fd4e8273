#include "app/adjustments.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "coupled/air/air_apart.hpp"
#include "coupled/air/air_limits.hpp"

namespace rigproof::app {
namespace {

constexpr double percent = 100.0;

class Finder {
 public:
  explicit Finder(const JudgedBuild& judged)
      : in_(judged),
        draws_(judged.catalog),
        setup_(judged.setup != nullptr ? *judged.setup : Setup{}) {}

  std::vector<AdjustedSetup> find() {
    add_mounts();
    add_speeds();
    return std::move(out_);
  }

 private:
  void add(Adjustment what) {
    Setup changed = with_adjustment(setup_, what);
    if (changed == setup_) return;
    if (std::ranges::find(out_, changed, &AdjustedSetup::setup) != out_.end()) return;
    out_.push_back({std::move(what), std::move(changed)});
  }

  // A tower's place is the socket; fans that are not there have none.
  void add_mounts() {
    const Row chassis = in_.build.one(Kind::chassis);
    if (chassis == no_row) return;
    const Row cooler = in_.build.one(Kind::cooler);
    const bool radiator =
        cooler != no_row && in_.catalog.word(column("cooler", "type"), cooler) == "liquid";
    const bool fans = in_.build.has(Kind::fan);
    std::vector<std::string> places;
    for (const Row row : in_.catalog.rows_of(table("case_mounts"), {Kind::chassis, chassis}))
      places.emplace_back(in_.catalog.word(column("case_mounts", "mount"), row));
    for (const std::string& place : places) {
      if (radiator) add({.radiator_at = place});
      if (fans) add({.fans_at = place});
    }
    if (!radiator || !fans) return;
    for (const std::string& one : places)
      for (const std::string& other : places)
        if (one != other) add({.radiator_at = one, .fans_at = other});
  }

  void add_speeds() {
    if (!coupled::can_be_computed(facts())) return;
    for (const power::Load load : power::loads_of(in_.brief))
      if (std::ranges::any_of(in_.brief.limits, [&](const auto& limit) {
            return limit.second.load == power::name_of(in_.brief, load);
          }))
        add_speeds_under(load);
  }

  void add_speeds_under(power::Load load) {
    Measure m;
    m.deciding = true;
    const auto answer = coupled::air_answer(facts(), load, false, m);
    if (!answer.known || answer.from != coupled::SpeedsFrom::least) return;
    add(at(answer.speeds));
    const coupled::AirCase of = coupled::air_case(facts(), load, m);
    if (const auto apart = coupled::quietest_apart(facts(), of, load, answer)) add(at(*apart));
  }

  // As a person sets them, a whole per cent, up.
  static Adjustment at(const coupled::FanSpeeds& speeds) {
    return {.case_speed_percent = std::ceil(percent * speeds.chassis_frac - 1e-9),
            .cooler_speed_percent = std::ceil(percent * speeds.cooler_frac - 1e-9)};
  }

  // With speeds sought, whatever is set.
  [[nodiscard]] Facts facts() {
    unset_.mounts = setup_.mounts;
    return {.catalog = in_.catalog,
            .brief = in_.brief,
            .prices = in_.prices,
            .build = in_.build,
            .draws = draws_,
            .setup = &unset_};
  }

  const JudgedBuild& in_;
  CellDraws draws_;
  Setup setup_;
  Setup unset_;
  std::vector<AdjustedSetup> out_;
};

}  // namespace

std::vector<AdjustedSetup> adjustments(const JudgedBuild& judged) { return Finder(judged).find(); }

std::string words_of(const Adjustment& adjustment) {
  std::string out;
  const auto put = [&](std::string words) {
    out += (out.empty() ? "" : " and ") + std::move(words);
  };
  if (!adjustment.radiator_at.empty())
    put(fmt::format("mount the radiator at \"{}\"", adjustment.radiator_at));
  if (!adjustment.fans_at.empty()) put(fmt::format("mount the fans at \"{}\"", adjustment.fans_at));
  if (!adjustment.case_speed_percent || !adjustment.cooler_speed_percent) return out;
  if (*adjustment.case_speed_percent == *adjustment.cooler_speed_percent)
    put(fmt::format("set all fans to {} %", readable(*adjustment.case_speed_percent)));
  else
    put(fmt::format("set the case's fans to {} % and the cooler's to {} %",
                    readable(*adjustment.case_speed_percent),
                    readable(*adjustment.cooler_speed_percent)));
  return out;
}

Setup with_adjustment(const Setup& setup, const Adjustment& adjustment) {
  Setup out = setup;
  if (!adjustment.radiator_at.empty()) out.mounts["cooler"] = adjustment.radiator_at;
  if (!adjustment.fans_at.empty()) out.mounts["fan"] = adjustment.fans_at;
  const auto put = [&](FanGroup group, const std::optional<double>& speed_percent) {
    if (speed_percent)
      out.fans[static_cast<std::size_t>(group)] = FanSetting::still(*speed_percent);
  };
  put(FanGroup::chassis, adjustment.case_speed_percent);
  put(FanGroup::cooler, adjustment.cooler_speed_percent);
  return out;
}

}  // namespace rigproof::app
