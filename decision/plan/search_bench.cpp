// How long a proof takes on a problem of the size and shape of a catalog of parts (all invented):
// plan/prove/demo-size has 40 x 61 x 30 heads and seven tail slots of up to 300 options. Before
// anything is timed, a small problem of the same kind is held against a plain walk over everything.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

#include "decision/plan/search.hpp"

namespace {

using rigproof::plan::Outcome;
using rigproof::plan::PairTable;
using rigproof::plan::Problem;
using rigproof::plan::Slot;

/// SplitMix64: same numbers with every library.
class Numbers {
 public:
  explicit Numbers(std::uint64_t seed) : state_(seed) {}
  double unit() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t x = state_;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
    return static_cast<double>((x ^ (x >> 31)) >> 11) * 0x1p-53;
  }
  double between(double low, double high) { return low + (high - low) * unit(); }

 private:
  std::uint64_t state_;
};

enum SlotOf { cpu, gpu, memory, board, cooler, chassis, drives, storage_fans, fans, supply };

/// A part of the invented catalog; size and power mean what the tables of its slot make of them.
struct Part {
  double speed = 0.0;
  double power_w = 0.0;
  double size = 0.0;  ///< 0 to 1
  int family = 0;     ///< socket, memory type
  std::int64_t price = 0;
};

struct Catalog {
  std::vector<std::vector<Part>> parts;
  std::int64_t budget = 0;
  double most_noise = 900.0;  ///< of the check over nine slots
  double loose_frac = 0.0;    ///< how far the head bound stands above the tightest one we know
};

constexpr int slot_count = 10;
constexpr std::int64_t least_price[slot_count] = {9000, 15000, 6000, 7000, 2500,
                                                  5000, 5000,  0,    1500, 5000};
constexpr std::int64_t price_span[slot_count] = {50000, 140000, 30000, 33000, 14000,
                                                 20000, 25000,  4000,  6000,  18000};

Catalog invent(const std::vector<int>& sizes, std::int64_t budget, std::uint64_t seed) {
  Numbers numbers(seed);
  Catalog catalog{.parts = {}, .budget = budget};
  for (std::size_t s = 0; s < slot_count; ++s) {
    std::vector<Part> of_slot;
    for (int i = 0; i < sizes[s]; ++i) {
      const double level = numbers.unit();
      Part part{.speed = 0.25 + level + numbers.between(-0.1, 0.1), .size = numbers.unit()};
      part.power_w = s == supply ? 400 + 800 * level : 35 + level * (s == gpu ? 400 : 140);
      part.family = static_cast<int>(numbers.between(0, 2));
      const double premium = numbers.between(0.9, 1.25);
      part.price = least_price[s] +
                   static_cast<std::int64_t>(static_cast<double>(price_span[s]) * level * premium);
      of_slot.push_back(part);
    }
    catalog.parts.push_back(std::move(of_slot));
  }
  return catalog;
}

const Part& part(const Catalog& c, std::size_t slot, int option) {
  return c.parts[slot][static_cast<std::size_t>(option)];
}

/// A title's reach: harmonic meeting of processor and card, a little from memory; bounded by each.
constexpr double title_weight[] = {3, 2, 1, 1};
constexpr double card_share[] = {0.9, 0.7, 0.5, 0.35};

double worth(double ratio) { return ratio <= 1 ? ratio : 1 + 0.25 * std::log(ratio); }

double head_score(const Catalog& c, double cpu_speed, double gpu_speed, double memory_speed) {
  double sum = 0.0;
  for (int t = 0; t < 4; ++t) {
    const double from_cpu = cpu_speed * (1 + 0.08 * memory_speed) / (1 - card_share[t]) * 0.45;
    const double from_gpu = gpu_speed / card_share[t] * 0.9;
    const double soft_min = std::pow(std::pow(from_cpu, -6.0) + std::pow(from_gpu, -6.0), -1 / 6.0);
    sum += title_weight[t] * worth(soft_min);
  }
  return static_cast<double>(c.budget) * sum / 7.0;
}

double head_upper(const Catalog& c, double cpu_speed, double gpu_speed, double memory_speed) {
  double sum = 0.0;
  for (int t = 0; t < 4; ++t) {
    const double from_cpu = cpu_speed * (1 + 0.08 * memory_speed) / (1 - card_share[t]) * 0.45;
    const double from_gpu = gpu_speed / card_share[t] * 0.9;
    sum += title_weight[t] * worth(std::min(from_cpu, from_gpu));
  }
  return static_cast<double>(c.budget) * sum / 7.0 * (1 + c.loose_frac);
}

double fastest(const Catalog& c, std::size_t slot) {
  return std::ranges::max_element(c.parts[slot], {}, &Part::speed)->speed;
}

double tail_value(std::size_t slot, const Part& p) {
  switch (slot) {  // quiet and lasting, in money
    case cooler:
      return 4000 * p.size;
    case chassis:
      return 2500 * p.speed;
    case fans:
      return 2000 * p.speed;
    case supply:
      return 3000 * p.size;
    default:
      return 0.0;
  }
}

template <class Allowed>
void add_table(Problem& problem, const Catalog& c, std::size_t a, std::size_t b, const char* why,
               Allowed allowed) {
  const int rows = static_cast<int>(c.parts[a].size());
  const int columns = static_cast<int>(c.parts[b].size());
  PairTable table =
      PairTable::all_allowed(static_cast<int>(a), static_cast<int>(b), rows, columns, why);
  for (int i = 0; i < rows; ++i)
    for (int j = 0; j < columns; ++j)
      if (!allowed(part(c, a, i), part(c, b, j))) table.forbid(i, j);
  problem.tables.push_back(std::move(table));
}

void add_tables(Problem& problem, const Catalog& c) {
  const auto same_family = [](const Part& a, const Part& b) { return a.family == b.family; };
  add_table(problem, c, cpu, board, "socket", same_family);
  add_table(problem, c, memory, board, "memory type", same_family);
  add_table(problem, c, cpu, cooler, "cooler can carry it",
            [](const Part& a, const Part& b) { return a.power_w <= 90 + b.power_w; });
  add_table(problem, c, gpu, chassis, "card is short enough",
            [](const Part& a, const Part& b) { return a.size <= 0.3 + b.size; });
  add_table(problem, c, board, chassis, "board fits",
            [](const Part& a, const Part& b) { return a.size <= 0.5 + b.size; });
  add_table(problem, c, cooler, chassis, "cooler is low enough",
            [](const Part& a, const Part& b) { return a.size <= 0.2 + b.size; });
  add_table(problem, c, board, drives, "sockets for the drives",
            [](const Part& a, const Part& b) { return b.size <= 0.35 + a.speed; });
  add_table(problem, c, chassis, supply, "supply is short enough",
            [](const Part& a, const Part& b) { return b.size <= 0.4 + a.size; });
}

double power_of(const Catalog& c, std::span<const int> choice) {
  return 60.0 + part(c, cpu, choice[cpu]).power_w + part(c, gpu, choice[gpu]).power_w;
}

void add_checks(Problem& problem, const Catalog& c) {
  problem.checks.push_back({.scope = {cpu, gpu, supply},
                            .why = "supply has room",
                            .holds = [&c](std::span<const int> choice) {
                              return power_of(c, choice) * 1.3 <=
                                     part(c, supply, choice[supply]).power_w;
                            }});
  problem.checks.push_back({.scope = {cpu, gpu, cooler, chassis, fans},
                            .why = "stays cool",
                            .holds = [&c](std::span<const int> choice) {
                              const double flow = 1.0 + part(c, fans, choice[fans]).speed +
                                                  part(c, chassis, choice[chassis]).speed;
                              const double heat = power_of(c, choice) / (140.0 * flow);
                              return heat + part(c, cpu, choice[cpu]).power_w /
                                                (60.0 + part(c, cooler, choice[cooler]).power_w) <=
                                     2.8;
                            }});
  problem.checks.push_back(
      {.scope = {cpu, gpu, memory, board, cooler, chassis, drives, storage_fans, fans},
       .why = "quiet enough",
       .holds = [&c](std::span<const int> choice) {
         double noise = 0.0;
         for (std::size_t s = 0; s < supply; ++s)
           noise += part(c, s, choice[s]).power_w * (1.2 - part(c, s, choice[s]).size);
         return noise <= c.most_noise;
       }});
}

/// `c` must outlive the problem.
Problem problem_of(const Catalog& c) {
  Problem problem;
  problem.budget = c.budget;
  problem.caps = {c.budget, c.budget * 108 / 100};
  problem.money_weight = 0.25;
  problem.head = 3;
  Numbers numbers(99);
  for (std::size_t s = 0; s < slot_count; ++s) {
    Slot slot{.name = std::to_string(s)};
    for (std::size_t i = 0; i < c.parts[s].size(); ++i) {
      const Part& p = c.parts[s][i];
      const auto elsewhere =
          static_cast<std::int64_t>(static_cast<double>(p.price) * numbers.between(0.95, 1.15));
      slot.options.push_back(
          {.costs = {p.price, elsewhere}, .value = tail_value(s, p), .rank = static_cast<int>(i)});
    }
    problem.slots.push_back(std::move(slot));
  }
  add_tables(problem, c);
  add_checks(problem, c);
  const double best_gpu = fastest(c, gpu);
  const double best_memory = fastest(c, memory);
  problem.head_bound = [&c, best_gpu, best_memory](std::span<const int> first) {
    return head_upper(c, part(c, cpu, first[0]).speed,
                      first.size() > 1 ? part(c, gpu, first[1]).speed : best_gpu,
                      first.size() > 2 ? part(c, memory, first[2]).speed : best_memory);
  };
  problem.head_value = [&c](std::span<const int> head) {
    return head_score(c, part(c, cpu, head[0]).speed, part(c, gpu, head[1]).speed,
                      part(c, memory, head[2]).speed);
  };
  return problem;
}

/// The slow twin: every combination, every condition at the end.
std::vector<int> best_by_walking(const Problem& p, std::int64_t& best_score) {
  std::vector<int> at(slot_count, 0);
  std::vector<int> best;
  std::int64_t best_cost = 0;
  for (bool more = true; more;) {
    std::vector<std::int64_t> costs(p.caps.size(), 0);
    double score = p.head_value(std::span<const int>(at).first(3));
    for (std::size_t s = 0; s < slot_count; ++s) {
      const auto& option = p.slots[s].options[static_cast<std::size_t>(at[s])];
      if (s >= 3) score += option.value;
      for (std::size_t r = 0; r < costs.size(); ++r) costs[r] += option.costs[r];
    }
    const std::int64_t units =
        std::llround(score + p.money_weight * static_cast<double>(p.budget - costs[0]));
    const auto well = [&] {
      for (std::size_t r = 0; r < costs.size(); ++r)
        if (costs[r] > p.caps[r]) return false;
      for (const PairTable& t : p.tables)
        if (!t.allowed(at[static_cast<std::size_t>(t.first)],
                       at[static_cast<std::size_t>(t.second)]))
          return false;
      return std::ranges::all_of(p.checks, [&](const auto& check) { return check.holds(at); });
    };
    const bool before =
        best.empty() || units > best_score ||
        (units == best_score && costs[0] < best_cost);  // then the earlier one stands
    if (before && well()) {
      best = at;
      best_score = units;
      best_cost = costs[0];
    }
    more = false;
    for (std::size_t s = slot_count; s-- > 0 && !more;) {
      more = ++at[s] < static_cast<int>(p.slots[s].options.size());
      if (!more) at[s] = 0;
    }
  }
  return best;
}

void require(bool holds, const char* what) {
  if (holds) return;
  fmt::print(stderr, "plan/prove: {}\n", what);
  std::exit(1);
}

void hold_against_the_slow_twin() {
  int possible = 0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    Catalog small = invent({4, 5, 3, 4, 4, 4, 5, 2, 2, 4}, 150'000, seed);
    small.most_noise = seed % 2 == 0 ? 900.0 : 500.0;
    const Problem problem = problem_of(small);
    std::int64_t score = 0;
    const std::vector<int> walked = best_by_walking(problem, score);
    const Outcome found = rigproof::plan::search(problem, {});
    require(walked.empty() == found.best.empty(),
            "search and walk disagree on whether a build exists");
    if (walked.empty()) continue;
    ++possible;
    require(found.best[0].score == score && found.best[0].choice == walked,
            "search and walk found different builds");
  }
  require(possible >= 3, "too few of the small problems have an answer to compare");
}

const std::vector<int> demo_sizes{40, 61, 30, 45, 40, 30, 300, 4, 4, 30};

struct Case {
  const char* name;
  std::int64_t budget;
  int keep = 1;
  double most_noise = 900.0;
  double loose_frac = 0.0;
};

void prove(benchmark::State& state, const Case& which) {
  Catalog catalog = invent(demo_sizes, which.budget, 7);
  catalog.most_noise = which.most_noise;
  catalog.loose_frac = which.loose_frac;
  Problem problem = problem_of(catalog);
  if (which.keep > 1) {
    problem.group_slots = 2;
    problem.group = [](std::span<const int> first) { return first[0] * 1000 + first[1]; };
  }
  Outcome outcome;
  for (auto _ : state) {
    outcome = rigproof::plan::search(problem, {.keep = which.keep});
    benchmark::DoNotOptimize(outcome);
  }
  require(outcome.status == Outcome::Status::proven, "the demo-size problem was not proven");
  state.counters["nodes"] = static_cast<double>(outcome.nodes);
  state.counters["leaves"] = static_cast<double>(outcome.leaves);
  state.counters["head_values"] = static_cast<double>(outcome.head_values);
  state.counters["proofs/s"] = benchmark::Counter(1, benchmark::Counter::kIsIterationInvariantRate);
}

}  // namespace

int main(int argc, char** argv) {
  hold_against_the_slow_twin();
  for (const Case& which :
       {Case{"demo-size", 135'000}, Case{"demo-size/low-budget", 90'000},
        Case{"demo-size/high-budget", 250'000}, Case{"demo-size/best-5", 135'000, 5},
        Case{"demo-size/loose-bound", 135'000, 1, 900.0, 0.05},
        Case{"demo-size/quiet", 135'000, 1, 450.0}, Case{"demo-size/quieter", 135'000, 1, 350.0}})
    benchmark::RegisterBenchmark(fmt::format("plan/prove/{}", which.name).c_str(),
                                 [=](benchmark::State& state) { prove(state, which); })
        ->Unit(benchmark::kMillisecond);
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
}
