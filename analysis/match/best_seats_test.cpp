// Drives in sockets: against a walk over every way to hand the sockets out, which shares no code.
#include "analysis/match/best_seats.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <tuple>
#include <vector>

#include "base/contract.hpp"

namespace rigproof::match {
namespace {

// What is weighed, and then the sockets drive by drive, none as 99: the smallest is the best.
using Judged = std::tuple<int, int, int, int, std::uint64_t, std::vector<int>>;

struct EveryWay {
  const SeatProblem& problem;
  std::vector<int> sockets;
  Judged best{999, 0, 0, 0, 0, {}};

  void walk(unsigned taken) {
    const std::size_t d = sockets.size();
    if (d == problem.drives) {
      best = std::min(best, judged());
      return;
    }
    for (int s = 0; s < most_sockets; ++s) {
      const auto bit = 1U << static_cast<unsigned>(s);
      if ((problem.fits[d] & bit) == 0 || (taken & bit) != 0) continue;
      sockets.push_back(s);
      walk(taken | bit);
      sockets.pop_back();
    }
    sockets.push_back(99);
    walk(taken);
    sockets.pop_back();
  }

  Judged judged() const {
    int without = 0;
    int unsure = 0;
    int lanes = 0;
    int ports = 0;
    std::uint64_t loss = 0;
    for (std::size_t d = 0; d < problem.drives; ++d) {
      if (sockets[d] == 99) {
        ++without;
        continue;
      }
      const auto s = static_cast<std::size_t>(sockets[d]);
      unsure += static_cast<int>(problem.unsure[d] >> s & 1U);
      lanes = std::max(lanes, int{problem.lanes[s]});
      ports += problem.ports[s];
      loss += problem.loss[d][s];
    }
    return {without, unsure, lanes, std::max(0, ports - problem.spare_ports), loss, sockets};
  }
};

Judged judged(const SeatProblem& problem, const Seats& seats) {
  EveryWay way{problem, {}};
  for (std::size_t d = 0; d < problem.drives; ++d)
    way.sockets.push_back(seats.socket_of[d] < 0 ? 99 : seats.socket_of[d]);
  return way.judged();
}

SeatProblem random_problem(std::mt19937& generator, std::size_t drives, unsigned sockets) {
  const auto below = [&](unsigned n) { return static_cast<unsigned>(generator()) % n; };
  SeatProblem out;
  out.drives = drives;
  for (std::size_t d = 0; d < drives; ++d) {
    for (unsigned s = 0; s < sockets; ++s) {
      if (below(3) == 0) continue;
      out.fits[d] = static_cast<Sockets>(out.fits[d] | 1U << s);
      if (below(6) == 0) out.unsure[d] = static_cast<Sockets>(out.unsure[d] | 1U << s);
      out.loss[d][s] = below(2) == 0 ? 0 : below(5) * 1'000'000;
    }
    if (d > 0 && below(4) == 0) {  // a second piece of the same drive
      out.fits[d] = out.fits[d - 1];
      out.unsure[d] = out.unsure[d - 1];
      out.loss[d] = out.loss[d - 1];
    }
  }
  for (unsigned s = 0; s < sockets; ++s) {
    out.lanes[s] = static_cast<std::int16_t>(below(3) == 0 ? 4 * below(3) : 0);
    if (below(12) == 0) out.lanes[s] = unknown_loss;
    out.ports[s] = static_cast<std::int16_t>(below(2) == 0 ? 1 + below(3) : 0);
    if (below(12) == 0) out.ports[s] = unknown_loss;
  }
  out.spare_ports = static_cast<int>(below(7)) - 1;
  return out;
}

TEST(BestSeats, AreThoseOfEveryWayOnRandomCases) {
  std::mt19937 generator(20261002);
  int without = 0;
  int lanes = 0;
  int ports = 0;
  int budget = 0;  // neither the fastest places nor those of fewest ports: the budget decides
  for (int round = 0; round < 6000; ++round) {
    const auto drives = static_cast<std::size_t>(generator() % 5);
    SeatProblem problem =
        random_problem(generator, drives, static_cast<unsigned>(1 + generator() % 6));
    if (round % 3 == 0) {  // nothing but ports against bandwidth
      problem.lanes = {};
      problem.unsure = {};
      problem.spare_ports = static_cast<int>(1 + generator() % 4);
      for (std::size_t s = 0; s < most_sockets; ++s) {
        problem.ports[s] = static_cast<std::int16_t>(generator() % 4);
        for (auto& loss : problem.loss) loss[s] = static_cast<std::uint32_t>(generator() % 50);
      }
    }
    EveryWay every{problem, {}};
    every.walk(0);
    const Seats seats = first_best_seats(problem);
    ASSERT_EQ(judged(problem, seats), every.best) << "round " << round;
    ASSERT_EQ(std::tuple(seats.without, seats.unsure, seats.lanes, seats.short_ports, seats.loss),
              std::tuple(std::get<0>(every.best), std::get<1>(every.best), std::get<2>(every.best),
                         std::get<3>(every.best), std::get<4>(every.best)));
    const Seats any = best_seats(problem);
    auto same_numbers = judged(problem, any);
    std::get<5>(same_numbers) = std::get<5>(every.best);
    ASSERT_EQ(same_numbers, every.best) << "round " << round;

    without += seats.without > 0 ? 1 : 0;
    lanes += seats.lanes > 0 ? 1 : 0;
    ports += seats.short_ports > 0 ? 1 : 0;
    SeatProblem free = problem;
    free.spare_ports = 100'000;
    SeatProblem none = problem;
    none.spare_ports = 0;
    if (seats.short_ports == 0 && best_seats(free).loss < seats.loss &&
        best_seats(none).loss > seats.loss)
      ++budget;
  }
  EXPECT_GT(without, 500) << "the cases must include hard ones";
  EXPECT_GT(lanes, 500);
  EXPECT_GT(ports, 500);
  EXPECT_GT(budget, 50);
}

// As many as there can be, with a best way that is known: drive d loses nothing in socket
// sockets - 1 - d alone, and something everywhere else; the 16 drives too many lose more.
TEST(BestSeats, OfThirtyTwoDrivesAndSixteenSockets) {
  SeatProblem problem;
  problem.drives = most_drives;
  for (std::size_t d = 0; d < most_drives; ++d) {
    problem.fits[d] = 0xFFFF;
    for (std::size_t s = 0; s < most_sockets; ++s)
      problem.loss[d][s] = d < 16 && s == 15 - d ? 0U : 60'500'000U;
  }
  for (auto& ports : problem.ports) ports = 1;
  problem.spare_ports = 16;
  const Seats seats = first_best_seats(problem);
  EXPECT_EQ(seats.without, 16);
  EXPECT_EQ(seats.loss, 0U);
  for (std::size_t d = 0; d < most_drives; ++d)
    EXPECT_EQ(seats.socket_of[d], d < 16 ? static_cast<int>(15 - d) : -1) << d;
}

// Ranks of what is weighed, one against the next: a place for every drive although it takes lanes;
// no lanes although ports die; no port although bandwidth is lost.
TEST(BestSeats, WhatComesFirst) {
  SeatProblem problem;
  problem.drives = 2;
  problem.fits = {0b011, 0b011};
  problem.lanes = {0, 8};
  EXPECT_EQ(best_seats(problem).without, 0);
  EXPECT_EQ(best_seats(problem).lanes, 8);
  problem.fits = {0b111, 0b011};
  problem.ports[2] = 4;
  problem.spare_ports = 1;
  EXPECT_EQ(best_seats(problem).lanes, 0);
  EXPECT_EQ(best_seats(problem).short_ports, 3);
  problem.lanes = {};
  problem.loss[0][1] = 5'000'000;
  problem.loss[1][1] = 4'000'000;
  const Seats seats = best_seats(problem);
  EXPECT_EQ(seats.short_ports, 0);
  EXPECT_EQ(seats.loss, 4'000'000U);
  problem.spare_ports = 4;
  EXPECT_EQ(best_seats(problem).loss, 0U) << "ports to spare are not missed";
}

TEST(BestSeats, LanesAreTheMostThatOneSocketTakes) {
  SeatProblem problem;
  problem.drives = 2;
  problem.fits = {0b11, 0b11};
  problem.lanes = {8, 8};
  EXPECT_EQ(best_seats(problem).lanes, 8) << "two sockets off one switch: the slot keeps eight";
}

TEST(BestSeats, RefusesWhatItCannotPack) {
  SeatProblem problem;
  problem.drives = most_drives + 1;
  EXPECT_THROW((void)best_seats(problem), ContractViolation);
  problem.drives = 1;
  problem.ports[0] = unknown_loss + 1;
  EXPECT_THROW((void)best_seats(problem), ContractViolation);
}

}  // namespace
}  // namespace rigproof::match
