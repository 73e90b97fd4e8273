// Which drive goes into which socket, best and exactly. Knows numbers only; drive_seats.hpp makes
// them from a build.
//
// Equation (1) of README.md. Of all ways to give drives sockets of their own the best one has, in
// this order: the fewest drives without a socket; the fewest places of which it is not sure that
// they fit; the fewest lanes taken from the card; the fewest ports lost beyond those to spare; the
// least bandwidth lost. Lanes are a largest value (a slot keeps the fewest lanes that any socket in
// use leaves it), so socket by socket those that take more than a threshold are closed, the lowest
// threshold that costs no place is kept. The rest is a sum over places: an assignment problem with
// packed whole costs, solved by shortest augmenting paths with potentials ([kuhn-1955],
// [munkres-1957]). Ports to spare are a budget; where both ends of it disagree, branches over the
// sockets that cost ports settle it, exactly. No allocation.
#pragma once

#include <array>
#include <cstdint>
#include <span>

#include "analysis/match/drive_places.hpp"

namespace rigproof::match {

inline constexpr std::size_t most_drives = 32;
/// Lanes or ports taken where that is not known: more than there can be.
inline constexpr int unknown_loss = 1000;

struct SeatProblem {
  std::size_t drives = 0;                          ///< <= most_drives
  std::array<Sockets, most_drives> fits{};         ///< sockets a drive may use
  std::array<Sockets, most_drives> unsure{};       ///< those of them that may turn out not to fit
  std::array<std::int16_t, most_sockets> lanes{};  ///< taken from the card while in use
  std::array<std::int16_t, most_sockets> ports{};  ///< dead while in use
  int spare_ports = 0;                             ///< may be lost; negative: lacking already
  std::array<std::array<std::uint32_t, most_sockets>, most_drives> loss{};  ///< bandwidth, < 2^26
};

struct Seats {
  int without = 0;
  int unsure = 0;
  int lanes = 0;           ///< largest over sockets in use
  int short_ports = 0;     ///< lost beyond those to spare; never negative
  std::uint64_t loss = 0;  ///< sum over drives that have a socket
  std::array<std::int16_t, most_drives> socket_of{};  ///< -1: none

  /// Ports that are dead because of these places; two sockets are taken to cost different ports.
  [[nodiscard]] int ports(const SeatProblem& problem) const;
};

/// One of the best; its five numbers are those of every best one.
[[nodiscard]] Seats best_seats(const SeatProblem& problem);
/// Of the best ones that in which the first drive has the lowest socket, then the second, and so
/// on; none comes last.
[[nodiscard]] Seats first_best_seats(const SeatProblem& problem);

}  // namespace rigproof::match
