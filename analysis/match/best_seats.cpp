#include "analysis/match/best_seats.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

#include "base/contract.hpp"

namespace rigproof::match {
namespace {

using Cost = std::int64_t;
// Packed costs: 16 places of less than 2^26 stay below one port, 16 x 1000 ports below one unsure
// place, 16 of these below one drive without a socket; 32 of those fit well into 63 bits.
constexpr Cost one_port = Cost{1} << 30U;
constexpr Cost one_unsure = one_port << 14U;
constexpr Cost one_without = one_unsure << 5U;
constexpr Cost never = std::numeric_limits<Cost>::max() / 4;
constexpr std::uint32_t most_loss = (1U << 26U) - 1U;

constexpr Sockets bit_of(std::size_t socket) { return static_cast<Sockets>(1U << socket); }

auto numbers(const Seats& seats) {
  return std::tuple(seats.without, seats.unsure, seats.lanes, seats.short_ports, seats.loss);
}

// What is asked, and drives (bits) that may not be left without a socket.
struct Task {
  const SeatProblem& problem;
  std::uint32_t seated = 0;
};

// The assignment problem: a row a drive; a column a socket, then a column a drive for "none".
class Assignment {
 public:
  Assignment(const Task& task, Sockets open, bool ports_count)
      : problem_(task.problem), seated_(task.seated), open_(open), ports_count_(ports_count) {
    drive_in_.fill(-1);
  }

  Seats solve() {
    for (std::size_t drive = 0; drive < problem_.drives; ++drive) enter(drive);
    Seats out;
    out.socket_of.fill(-1);
    for (std::size_t s = 0; s < most_sockets; ++s) {
      if (drive_in_[s] < 0) continue;
      const auto drive = static_cast<std::size_t>(drive_in_[s]);
      out.socket_of[drive] = static_cast<std::int16_t>(s);
      if ((problem_.unsure[drive] & bit_of(s)) != 0) ++out.unsure;
      out.lanes = std::max(out.lanes, int{problem_.lanes[s]});
      out.loss += problem_.loss[drive][s];
    }
    out.without =
        static_cast<int>(std::ranges::count(std::span(out.socket_of).first(problem_.drives), -1));
    out.short_ports = std::max(0, out.ports(problem_) - problem_.spare_ports);
    return out;
  }

 private:
  static constexpr std::size_t most_columns = most_sockets + most_drives;

  [[nodiscard]] Cost cost(std::size_t drive, std::size_t column) const {
    if (column >= most_sockets) return (seated_ >> drive & 1U) != 0 ? never : one_without;
    if ((problem_.fits[drive] & open_ & bit_of(column)) == 0) return never;
    Cost sum = problem_.loss[drive][column];
    if (ports_count_) sum += one_port * problem_.ports[column];
    if ((problem_.unsure[drive] & bit_of(column)) != 0) sum += one_unsure;
    return sum;
  }

  // A cheapest augmenting path from this drive to a free column; reduced costs stay >= 0.
  void enter(std::size_t entering) {
    const std::size_t columns = most_sockets + problem_.drives;
    std::array<Cost, most_columns> distance;
    std::array<std::int16_t, most_columns> from;
    std::array<bool, most_columns> done{};
    distance.fill(never);
    from.fill(-1);
    std::int16_t column = -1;
    std::size_t drive = entering;
    Cost reached = 0;
    do {
      std::int16_t next = -1;
      for (std::size_t c = 0; c < columns; ++c) {
        if (done[c]) continue;
        const Cost step = cost(drive, c);
        if (step < never) {
          const Cost through = reached + step - of_drive_[drive] - of_column_[c];
          if (through < distance[c]) {
            distance[c] = through;
            from[c] = column;
          }
        }
        if (distance[c] < never &&
            (next < 0 || distance[c] < distance[static_cast<std::size_t>(next)]))
          next = static_cast<std::int16_t>(c);
      }
      RP_EXPECT(next >= 0);  // "none" is always there, and who must sit has a socket alone
      column = next;
      const auto at = static_cast<std::size_t>(column);
      reached = distance[at];
      done[at] = true;
      if (drive_in_[at] < 0) break;
      drive = static_cast<std::size_t>(drive_in_[at]);
    } while (true);
    of_drive_[entering] += reached;
    for (std::size_t c = 0; c < columns; ++c) {
      if (!done[c]) continue;
      of_column_[c] -= reached - distance[c];
      if (drive_in_[c] >= 0)
        of_drive_[static_cast<std::size_t>(drive_in_[c])] += reached - distance[c];
    }
    while (column >= 0) {
      const auto at = static_cast<std::size_t>(column);
      const std::int16_t before = from[at];
      drive_in_[at] = before < 0 ? static_cast<std::int16_t>(entering)
                                 : drive_in_[static_cast<std::size_t>(before)];
      column = before;
    }
  }

  const SeatProblem& problem_;
  std::uint32_t seated_;
  Sockets open_;
  bool ports_count_;
  std::array<Cost, most_drives> of_drive_{};  // potentials
  std::array<Cost, most_columns> of_column_{};
  std::array<std::int16_t, most_columns> drive_in_{};
};

Seats assigned(const Task& task, Sockets open, bool ports_count) {
  return Assignment(task, open, ports_count).solve();
}

Sockets in_use(const SeatProblem& problem, const Seats& seats) {
  Sockets out = 0;
  for (std::size_t d = 0; d < problem.drives; ++d)
    if (seats.socket_of[d] >= 0)
      out = static_cast<Sockets>(out | bit_of(static_cast<std::size_t>(seats.socket_of[d])));
  return out;
}

// Every drive that must sit has its socket open: each of them fits one alone, all different.
bool can_seat(const Task& task, Sockets open) {
  for (std::size_t d = 0; d < task.problem.drives; ++d)
    if ((task.seated >> d & 1U) != 0 && (task.problem.fits[d] & open) == 0) return false;
  return true;
}

// Least bandwidth lost while no port that is needed is lost: branches over sockets that cost ports.
struct WithinPorts {
  const Task& task;
  Seats best;  // the best found; one that keeps to the budget stands here from the start

  // `settled`: sockets that may be used for certain, paid from the budget already.
  void search(Sockets open, Sockets settled, int budget) {
    const SeatProblem& problem = task.problem;
    const Seats bound = assigned(task, open, false);
    if (bound.without > best.without || bound.unsure > best.unsure || bound.loss >= best.loss)
      return;
    if (bound.short_ports == 0) {
      best = bound;
      return;
    }
    const Sockets used = in_use(problem, bound);
    for (std::size_t s = 0; s < most_sockets; ++s) {
      if ((used & bit_of(s)) == 0 || (settled & bit_of(s)) != 0 || problem.ports[s] == 0) continue;
      const auto rest = static_cast<Sockets>(open & ~bit_of(s));
      if (can_seat(task, rest)) search(rest, settled, budget);
      if (problem.ports[s] <= budget)
        search(open, static_cast<Sockets>(settled | bit_of(s)), budget - problem.ports[s]);
      return;
    }
  }
};

// Among sockets that take few enough lanes.
Seats best_of(const Task& task, Sockets open) {
  const Seats fastest = assigned(task, open, false);
  if (fastest.short_ports == 0) return fastest;
  const Seats sparing = assigned(task, open, true);
  if (sparing.short_ports > 0) return sparing;
  WithinPorts within{task, sparing};
  within.search(open, 0, task.problem.spare_ports);
  return within.best;
}

Seats best_of(const Task& task) {
  constexpr auto every_socket = static_cast<Sockets>(~0U);
  const Seats most = assigned(task, every_socket, false);
  const auto& lanes = task.problem.lanes;
  auto thresholds = lanes;
  std::ranges::sort(thresholds);
  int before = -1;
  for (const std::int16_t threshold : thresholds) {
    if (threshold == before || threshold >= most.lanes) continue;
    before = threshold;
    Sockets open = 0;
    for (std::size_t s = 0; s < most_sockets; ++s)
      if (lanes[s] <= threshold) open = static_cast<Sockets>(open | bit_of(s));
    if (!can_seat(task, open)) continue;
    const Seats few = assigned(task, open, false);
    if (few.without == most.without && few.unsure == most.unsure) return best_of(task, open);
  }
  Sockets open = 0;
  for (std::size_t s = 0; s < most_sockets; ++s)
    if (lanes[s] <= most.lanes) open = static_cast<Sockets>(open | bit_of(s));
  return best_of(task, open);
}

}  // namespace

int Seats::ports(const SeatProblem& problem) const {
  int sum = 0;
  for (std::size_t d = 0; d < problem.drives; ++d)
    if (socket_of[d] >= 0) sum += problem.ports[static_cast<std::size_t>(socket_of[d])];
  return sum;
}

Seats best_seats(const SeatProblem& problem) {
  RP_EXPECT(problem.drives <= most_drives);
  for (std::size_t d = 0; d < problem.drives; ++d)
    for (const std::uint32_t loss : problem.loss[d]) RP_EXPECT(loss <= most_loss);
  for (std::size_t s = 0; s < most_sockets; ++s)
    RP_EXPECT(problem.lanes[s] >= 0 && problem.lanes[s] <= unknown_loss && problem.ports[s] >= 0 &&
              problem.ports[s] <= unknown_loss);
  return best_of(Task{problem});
}

Seats first_best_seats(const SeatProblem& problem) {
  Seats best = best_seats(problem);
  const auto goal = numbers(best);
  SeatProblem narrowed = problem;
  std::uint32_t seated = 0;
  Sockets taken = 0;
  for (std::size_t d = 0; d < problem.drives; ++d) {
    // Lower sockets than the one it has in a best way; that one is open to it in any case.
    const auto now = [&] {
      return best.socket_of[d] < 0 ? most_sockets : static_cast<int>(best.socket_of[d]);
    };
    for (int s = 0; s < now(); ++s) {
      const Sockets bit = bit_of(static_cast<std::size_t>(s));
      if ((problem.fits[d] & bit) == 0 || (taken & bit) != 0) continue;
      narrowed.fits[d] = bit;
      const Seats other = best_of(Task{narrowed, seated | 1U << d});
      if (numbers(other) == goal) best = other;
    }
    narrowed.fits[d] = 0;
    if (best.socket_of[d] < 0) continue;
    narrowed.fits[d] = bit_of(static_cast<std::size_t>(best.socket_of[d]));
    taken = static_cast<Sockets>(taken | narrowed.fits[d]);
    seated |= 1U << d;
  }
  return best;
}

}  // namespace rigproof::match
