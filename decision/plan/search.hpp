// The search core: choose one option in every slot so that the score is highest, and prove it.
//
// It knows no PC. A problem is slots with options, integer costs against caps, tables that forbid
// pairs of options, checks over a few slots, and a score. The first slots in order are the *head*:
// they carry the part of the score that is costly to compute, bounded from above cheaply.
// Everything after the head, the *tail*, adds a plain number an option and a price.
//
//   score(choice) = round( head_value(head choice) + sum over tail slots of value(option)
//                          + money_weight x (budget - sum of costs[0]) )           (P1, see README)
//
// added in exactly that order, slots ascending, then std::llround once.
//
// Order of builds: higher score, then lower cost 0, then the lexicographically smaller rank vector
// (Option::rank in slot order of `rank_order`). The result is exact: no build that satisfies
// everything stands before the ones returned.
//
// Limits, each an RP_EXPECT: 1 to 64 slots; costs 0 to 1e15; |budget| at most 6.4e16; |value| and
// |head_value| at most 1e15; money_weight 0 to 16. So no sum leaves 64 bits. One search, one
// thread.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace rigproof::plan {

struct Option {
  std::vector<std::int64_t> costs = {};  ///< one per resource, >= 0, each at most 1e15
  double value = 0.0;                    ///< added to the score, tail slots only, finite
  int rank = 0;  ///< tie order inside the slot, unique: smaller stands first
};

/// Which options of slot `first` and slot `second` may meet; first < second. Options may be put
/// into classes that are alike to the table: then rows and columns are classes.
struct PairTable {
  int first = 0;
  int second = 0;
  std::string why = {};                  ///< counted under this name when it prunes
  std::vector<std::uint64_t> bits = {};  ///< row-major, rows padded to whole words; 1 is allowed
  int words_per_row = 0;
  std::vector<int> row_class = {};     ///< [option of first]; empty: each option is its own class
  std::vector<int> column_class = {};  ///< [option of second], likewise
  [[nodiscard]] static PairTable all_allowed(int first, int second, int rows, int columns,
                                             std::string why);
  void forbid(int row, int column);
  [[nodiscard]] bool allows(int row, int column) const;
  /// Of options, whatever their classes.
  [[nodiscard]] bool allowed(int first_option, int second_option) const;
};

/// A condition over several slots. Must be a pure function of the options of its scope: it is asked
/// as soon as all but the last slot of the scope have an option, for those options of the last one
/// on which a bound rests, and in any case before a build is accepted.
struct Check {
  std::vector<int> scope = {};  ///< slot indices, ascending, at least one
  std::string why = {};
  /// Gets the option of every slot; only those of the scope are sure to be set (-1 is none yet).
  std::function<bool(std::span<const int> choice)> holds = {};
  /// The class of an option of a slot of the scope: options of one class are equal to the check.
  /// Nothing the search needs, but who writes a check out needs fewer cases. Empty: not known.
  std::function<std::uint32_t(int slot, int option)> class_of = {};
};

struct Slot {
  std::string name = {};
  std::vector<Option> options = {};  ///< may be empty: then nothing satisfies the problem
};

struct Problem {
  std::vector<Slot> slots = {};
  std::vector<std::int64_t> caps = {};  ///< one per resource; resource 0 is the price of the score
  std::vector<PairTable> tables = {};
  std::vector<Check> checks = {};
  int head = 0;  ///< how many slots, from the first, form the head
  /// Admissible: >= head_value of every completion, up to one unit of rounding; may be +infinity.
  /// Gets the options of the first n slots, 1 <= n <= head. Not asked when head is 0.
  std::function<double(std::span<const int> first_options)> head_bound = {};
  /// Optional: admissible like head_bound, looser and much cheaper. It decides in which order heads
  /// are looked at more closely.
  std::function<double(std::span<const int> first_options)> head_ceiling = {};
  /// Optional, admissible like head_bound, for 1 <= n < head: bounds head_value - money_weight x
  /// (cost 0 of slot n's option), over completions whose option of slot n costs at most
  /// `most_cost`. -infinity when there is none.
  std::function<double(std::span<const int> first_options, std::int64_t most_cost)> next_bound = {};
  /// Exact; may be costly: asked at most once for a head. Not asked when head is 0 (it is then 0).
  std::function<double(std::span<const int> head_options)> head_value = {};
  double money_weight = 0.0;  ///< >= 0
  std::int64_t budget = 0;    ///< the "first budget" of the score; caps[0] may differ
  /// Slot indices in the order ties compare them; empty: 0, 1, 2...
  std::vector<int> rank_order = {};
  int group_slots = 0;  ///< best K: the best build per group (0: every build is a group)...
  /// ...of the first group_slots options; group_slots <= head. Empty when group_slots is 0.
  std::function<int(std::span<const int> first_options)> group = {};
};

struct Solution {
  std::vector<int> choice = {};          ///< option index per slot
  std::int64_t score = 0;                ///< whole units
  std::vector<std::int64_t> costs = {};  ///< per resource
};

/// A table or check counts the options it struck out of a partial choice; "bound", "caps" and
/// "no option left" count the partial choices given up. Reasons of the same name share a line.
struct Pruned {
  std::string why = {};
  std::int64_t count = 0;
};

struct Outcome {
  enum class Status { proven, not_proven, impossible } status = Status::impossible;
  std::vector<Solution> best = {};  ///< at most `keep`, best first, one per group
  std::int64_t bound = 0;   ///< no build scores more; best[0].score when proven; 0 when impossible
  std::int64_t nodes = 0;   ///< partial choices entered
  std::int64_t leaves = 0;  ///< complete choices reached
  std::int64_t head_values = 0;     ///< how often head_value was asked
  std::vector<Pruned> pruned = {};  ///< bound, caps, no option left, tables, checks; zeros too
};

struct Progress {
  std::int64_t nodes = 0;
  std::int64_t bound = 0;
  bool has_best = false;
  std::int64_t best_score = 0;
  std::int64_t stairs = 0;     ///< of a staircase: how many were found so far...
  std::int64_t under_cap = 0;  ///< ...and the cap under which the next one is looked for
};

struct SearchOptions {
  int keep = 1;
  /// Feasibility: cheap options first, no bound, ends at the first build that satisfies everything.
  /// Status is then `not_proven` with that build, or `impossible`.
  bool first_only = false;
  std::function<bool()> stop = {};  ///< true ends the search, not proven
  std::function<void(const Progress&)> progress = {};
  int ask_every = 64;  ///< nodes between two calls of stop and progress
  /// Is told of every partial choice (option per slot, -1 open) and what it is believed to come to
  /// at most: no build under it that satisfies everything scores more.
  std::function<void(std::span<const int> choice, std::int64_t bound)> look = {};
};

/// Same input, same bytes out. Throws ContractViolation on a malformed problem (wrong sizes,
/// negative cost) and when a head_value shows that head_bound was not admissible.
[[nodiscard]] Outcome search(const Problem& problem, const SearchOptions& options);

}  // namespace rigproof::plan
