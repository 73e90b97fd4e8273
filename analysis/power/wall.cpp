#include "analysis/power/wall.hpp"

#include <cmath>

namespace rigproof::power {
namespace {

// Between the two voltages of the certification lies nothing that is sold as mains.
constexpr double least_230_v = 180.0;

}  // namespace

Mains mains_of(const Facts& facts, std::size_t market) {
  if (market >= facts.brief.markets.size()) return Mains::v115;
  const auto volts = facts.brief.markets[market].mains_v;
  return volts && *volts >= least_230_v ? Mains::v230 : Mains::v115;
}

// (P13)
Wall wall_power(const Facts& facts, Load load, std::size_t market, Measure& m) {
  Wall out;
  out.mains = mains_of(facts, market);
  out.mains_stated = market < facts.brief.markets.size() && facts.brief.markets[market].mains_v;
  out.load_w = load_w(facts, load, m);
  const Row psu = facts.build.one(Kind::psu);
  const std::string_view level = m.read_word(facts, column("psu", "efficiency"), psu);
  const Draws& rated = m.read(facts, column("psu", "rated_power_w"), psu);
  if (rated.is_absent() || level.empty()) return out;
  out.curve =
      LossCurve::make(level, out.mains, facts.catalog.number(column("psu", "rated_power_w"), psu));
  if (!out.curve || out.load_w.is_absent()) return out;
  const LossCurve& curve = *out.curve;
  const Draws most = Draws::increasing(
      out.load_w, [&](double given_w) { return given_w + curve.most_loss_w(given_w); });
  out.below_certified = out.load_w.low() < curve.lowest_w();
  out.wall_w =
      out.below_certified
          ? Draws::between(out.load_w, most, stream("power", "wall", name_of(facts.brief, load)))
          : most;
  return out;
}

}  // namespace rigproof::power
