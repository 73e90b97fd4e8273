// The search core: choose one option in every slot so that the score is highest, and prove it.
//
// It knows no PC. A problem is slots with options, integer costs against caps, tables that forbid
// pairs of options, checks over a few slots, and a score. The first slots in order are the *head*: they carry the part of
// the score that is costly to compute, bounded from above cheaply. Everything after the head adds a
// plain number an option and a price.
//
//   score(choice) = round( head_value(head choice) + sum over tail slots of value(option)
//                          + money_weight x (budget - sum of costs[0]) )           (P1, see README)
//
// Order of builds: higher score, then lower cost 0, then the lexicographically smaller rank vector
// (Option::rank in slot order of `rank_order`). The result is exact: no build that satisfies
// everything stands before the ones returned.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace rigproof::plan {

struct Option {
  std::vector<std::int64_t> costs;  ///< one per resource, >= 0, each at most 1e15
  double value = 0.0;               ///< added to the score, tail slots only, finite
  int rank = 0;                     ///< tie order inside the slot, unique: smaller stands first
};

/// `allowed(a, b)` for option a of slot `first` and option b of slot `second`; first < second.
struct PairTable {
  int first = 0;
  int second = 0;
  std::string why;                     ///< counted under this name when it prunes
  std::vector<std::uint64_t> bits;     ///< row-major, rows padded to whole words
  int words_per_row = 0;
  static PairTable all_allowed(int first, int second, int rows, int columns, std::string why);
  void forbid(int row, int column);
  [[nodiscard]] bool allowed(int row, int column) const;
};

/// A condition over several slots, asked as soon as the last slot of its scope has an option.
/// Must be a pure function of the options of its scope.
struct Check {
  std::vector<int> scope;  ///< slot indices, ascending
  std::string why;
  std::function<bool(std::span<const int> choice)> holds;  ///< choice of all slots; only scope is set
};

struct Slot {
  std::string name;
  std::vector<Option> options;  ///< may be empty: then nothing satisfies the problem
};

struct Problem {
  std::vector<Slot> slots;
  std::vector<std::int64_t> caps;   ///< one per resource; resource 0 is the price of the score
  std::vector<PairTable> tables;
  std::vector<Check> checks;
  int head = 0;                     ///< how many slots, from the first, form the head
  /// Admissible: >= head_value of every completion. Gets the options of the first n slots, 1 <= n <= head.
  std::function<double(std::span<const int> first_options)> head_bound;
  std::function<double(std::span<const int> head_options)> head_value;  ///< exact; may be costly
  double money_weight = 0.0;        ///< >= 0
  std::int64_t budget = 0;          ///< the "first budget" of the score; caps[0] may differ
  std::vector<int> rank_order;      ///< slot indices in the order ties compare them; empty: 0, 1, 2...
  int group_slots = 0;              ///< best K: the best build per group...
  std::function<int(std::span<const int> first_options)> group;  ///< ...of the first group_slots options (<= head)
};

struct Solution {
  std::vector<int> choice;          ///< option index per slot
  std::int64_t score = 0;           ///< whole units
  std::vector<std::int64_t> costs;  ///< per resource
};

struct Pruned {
  std::string why;
  std::int64_t count = 0;
};

struct Outcome {
  enum class Status { proven, not_proven, impossible } status = Status::impossible;
  std::vector<Solution> best;   ///< at most `keep`, best first, one per group
  std::int64_t bound = 0;       ///< no build scores more; equals best[0].score when proven
  std::int64_t nodes = 0;       ///< partial choices entered
  std::int64_t leaves = 0;      ///< complete choices reached
  std::vector<Pruned> pruned;   ///< by reason, in a fixed order
};

struct Progress {
  std::int64_t nodes = 0;
  std::int64_t bound = 0;
  bool has_best = false;
  std::int64_t best_score = 0;
};

struct SearchOptions {
  int keep = 1;
  bool first_only = false;      ///< stop at the first build that satisfies everything (feasibility)
  std::function<bool()> stop;   ///< asked every few thousand nodes; true ends the search, not proven
  std::function<void(const Progress&)> progress;
};

/// Same input, same bytes out. Throws ContractViolation on a malformed problem (wrong sizes, negative cost).
[[nodiscard]] Outcome search(const Problem& problem, const SearchOptions& options);

}  // namespace rigproof::plan
