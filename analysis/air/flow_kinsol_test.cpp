// Random networks against a general library: the laws of the paths and the balances of the rooms as
// one system of equations, solved by SUNDIALS KINSOL. Its fan laws and equations are written anew
// in kinsol_flow.cpp; its start is one flow everywhere, not our answer.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "analysis/air/kinsol_flow.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::air {
namespace {

using namespace by_sundials;
using test_support::Kind;
using test_support::Random;
using test_support::RandomNetwork;

constexpr int networks = rigproof::test_support::sanitized ? 100 : 1000;

// Starts, as shares of the largest flow of a fan.
constexpr std::array<double, 4> starts_frac = {0.3, -0.2, 0.05, 1.0};

struct Tally {
  int solved = 0;
  int solved_at_once = 0;
  int sharp = 0;              // networks whose flows KINSOL itself knows to 1e-10 m3/s
  std::array<int, 6> fans{};  // by FanState
  double worst_m3_s = 0.0;
  double most_allowed_m3_s = 0.0;
  double worst_pressure_frac = 0.0;
};

// How far two sets of flows may lie apart that keep all balances and leave gaps of `laws_pa`
// together in the laws. With d the difference in a path, (A13) gives
//   sum of (h(Q + d) - h(Q)) d = sum of gap d <= laws_pa D,  D the largest |d|.
// Every h rises at least as b Q|Q|, so no term on the left is negative, and that of the path of D
// is at least b D^2 max(D, |Q|) / 2.
double apart_m3_s(const std::vector<PathByHand>& paths, const Flows& flows, double laws_pa) {
  double out = 0.0;
  for (std::size_t k = 0; k < paths.size(); ++k) {
    const double square = 2.0 * laws_pa / paths[k].resistance.square_pa_s2_m6;
    out = std::max(out, std::min(std::sqrt(square), square / std::abs(flows.flow_m3_s[k])));
  }
  return out;
}

std::optional<Flows> solved_by_kinsol(FlowByKinsol& kinsol, Tally& tally) {
  for (const double start_frac : starts_frac) {
    auto out = kinsol.solve(start_frac * kinsol.scale().flow_m3_s);
    if (!out) continue;
    ++tally.solved;
    if (start_frac == starts_frac.front()) ++tally.solved_at_once;
    return out;
  }
  return std::nullopt;
}

void compare(const RandomNetwork& net, Tally& tally) {
  const auto ours = solve_flow(net.rooms, net.paths);
  ASSERT_TRUE(ours && ours->converged);
  for (std::size_t k = 0; k < net.paths.size(); ++k)
    ++tally.fans[static_cast<std::size_t>(ours->fan[k])];
  FlowByKinsol kinsol(net.rooms, by_hand(net));
  const auto theirs = solved_by_kinsol(kinsol, tally);
  if (!theirs) return;  // counted
  const std::size_t count = net.paths.size();
  const Flows our_flows{
      .flow_m3_s = {ours->flow_m3_s.begin(), ours->flow_m3_s.begin() + count},
      .pressure_pa = {ours->pressure_pa.begin(), ours->pressure_pa.begin() + net.rooms}};
  const Gap our_gap = gap_of(kinsol.paths(), our_flows);
  const Gap their_gap = gap_of(kinsol.paths(), *theirs);
  const double scale_pa = kinsol.scale().pressure_pa;
  // Ours keeps the laws that were written by hand, as closely as KINSOL is asked to.
  EXPECT_LE(our_gap.laws_pa, static_cast<double>(count) * function_tolerance * scale_pa);
  EXPECT_LE(std::max(our_gap.balance_m3_s, their_gap.balance_m3_s), 1e-15);
  // Balances close but for rounding: 1e-12 m3/s more.
  const double apart = apart_m3_s(kinsol.paths(), *theirs, our_gap.laws_pa + their_gap.laws_pa);
  for (std::size_t k = 0; k < count; ++k) {
    const double off = std::abs(our_flows.flow_m3_s[k] - theirs->flow_m3_s[k]);
    EXPECT_LE(off, apart + 1e-12) << "path " << k;
    tally.worst_m3_s = std::max(tally.worst_m3_s, off);
  }
  if (apart <= 1e-10) ++tally.sharp;
  tally.most_allowed_m3_s = std::max(tally.most_allowed_m3_s, apart);
  // Up to 31 laws stand in a row between a room and the outside, each kept to 1e-13, twice.
  for (std::size_t room = 0; room < net.rooms; ++room) {
    const double off = std::abs(our_flows.pressure_pa[room] - theirs->pressure_pa[room]) / scale_pa;
    EXPECT_LE(off, 1e-11) << "room " << room;
    tally.worst_pressure_frac = std::max(tally.worst_pressure_frac, off);
  }
}

Tally compare_all(const char* name, unsigned seed, const Kind& kind) {
  Random random(seed);
  Tally tally;
  for (int i = 0; i < networks; ++i) {
    SCOPED_TRACE(i);
    compare(RandomNetwork(random, kind), tally);
  }
  std::printf(
      "%s: %d of %d solved by KINSOL, %d from the first start; flows %.1e m3/s apart at most (%.1e "
      "allowed at most, 1e-10 or less in %d), pressures %.1e of the fans'\n",
      name, tally.solved, networks, tally.solved_at_once, tally.worst_m3_s, tally.most_allowed_m3_s,
      tally.sharp, tally.worst_pressure_frac);
  EXPECT_GE(tally.solved, networks * 98 / 100);
  // KINSOL's tolerance and b >= 1e3 alone say 1e-6; where something flows everywhere it is sharper.
  EXPECT_LE(tally.most_allowed_m3_s, 1e-6);
  EXPECT_GE(tally.sharp, networks / 5);
  return tally;
}

int fans_in(const Tally& tally, FanState state) {
  return tally.fans[static_cast<std::size_t>(state)];
}

TEST(FlowKinsol, AgreesOnSmallNetworks) { compare_all("up to 6 rooms", 31, Kind{}); }

TEST(FlowKinsol, AgreesOnLargeNetworks) {
  compare_all("up to 12 rooms", 32, {.most_rooms = 12, .most_more_paths = 20});
}

TEST(FlowKinsol, AgreesWhereFansStallOrStandOrAreBlownBackwards) {
  const Tally tally = compare_all("humps and stopped fans", 33,
                                  {.fan_frac = 0.6, .hump_frac = 0.7, .stopped_frac = 0.2});
  EXPECT_GE(fans_in(tally, FanState::stalled), networks / 20);
  EXPECT_GE(fans_in(tally, FanState::stopped), networks / 20);
  EXPECT_GE(fans_in(tally, FanState::blown_backwards), networks / 20);
  EXPECT_GE(fans_in(tally, FanState::beyond_free_flow), networks / 50);
}

TEST(FlowKinsol, AgreesWhereAllAreSquaresAndFewBlow) {
  compare_all("squares, few fans", 34, {.with_linear = false, .fan_frac = 0.15});
}

}  // namespace
}  // namespace rigproof::air
