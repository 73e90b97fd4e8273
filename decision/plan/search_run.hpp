// One run of the search: its state, and how its parts call each other. Internal to the search.
// search.cpp has the run, its bounds and its end; search_heads.cpp the queue of beginnings of
// heads; search_tails.cpp what is tried depth first behind a full head.
#pragma once

#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <queue>
#include <vector>

#include "decision/plan/search_index.hpp"
#include "decision/plan/search_kept.hpp"
#include "decision/plan/search_levels.hpp"

namespace rigproof::plan::internal {

inline constexpr std::int64_t no_limit = std::numeric_limits<std::int64_t>::max();
inline constexpr double most_head_value = 1e15;
/// Head bounds come from formulas of others: one unit is left for their rounding.
inline constexpr double head_bound_slack = 1.0;
/// At most 2 x 67 roundings separate a bound from the score it bounds, each at most 2^-53 of the
/// largest partial sum: 2^-45 covers them.
inline constexpr double rounding_frac = 0x1p-45;
/// One head_value weighs as much as this share of the nodes between two questions to `stop`.
inline constexpr int head_values_per_question = 16;

inline std::size_t z(int i) { return static_cast<std::size_t>(i); }

/// The largest score that rounds from a number up to x.
inline std::int64_t score_at_most(double x) {
  const double up = std::floor(x + 0.5);
  if (up >= 0x1p63) return no_limit;
  if (up <= -0x1p63) return std::numeric_limits<std::int64_t>::min();
  return static_cast<std::int64_t>(up);
}

/// A head or the beginning of one.
struct Prefix {
  int parent = -1;  ///< in the list of prefixes
  int depth = 0;
  int place = 0;  ///< of the last slot
  std::optional<int> group;
  double upper = 0.0;  ///< of head_value; the value itself when exact
  /// Of head_value and the term of the next slot together.
  double upper_with_next = std::numeric_limits<double>::infinity();
  bool exact = false;
  bool checked = false;
  bool dead = false;    ///< nothing under it satisfies everything
  bool opened = false;  ///< its extensions are listed
};

/// What a prefix or, once it is opened, the best of its extensions not yet taken may still come to.
struct Entry {
  std::int64_t bound = 0;
  std::int64_t least_cost = 0;
  int depth = 0;
  int prefix = 0;
};

/// An option of the next slot, before it is entered.
struct Extension {
  std::int64_t bound = 0;
  std::int64_t least_cost = 0;
  int place = 0;
};

struct StandsBehind {
  bool operator()(const Entry& a, const Entry& b) const {
    if (a.bound != b.bound) return a.bound < b.bound;
    if (a.least_cost != b.least_cost) return a.least_cost > b.least_cost;
    if (a.depth != b.depth) return a.depth < b.depth;
    return a.prefix > b.prefix;
  }
};

class Search {
 public:
  Search(const Problem& problem, const SearchOptions& options)
      : problem_(problem),
        options_(options),
        index_(problem, options),
        pruned_(index_.reasons.size(), 0),
        levels_(index_, pruned_),
        kept_(options.keep),
        until_question_(options.ask_every) {
    levels_.give_up_when([this] {
      --until_question_;
      return asked_to_end();
    });
  }
  Search(const Search&) = delete;
  Search& operator=(const Search&) = delete;

  Outcome run();

 private:
  enum class Go { on, put_back, end };

  void open_root();
  Go visit(Entry entry);
  bool remake(const Entry& entry);
  void open(const Entry& entry);
  void extend(Entry entry);
  void extend_by(const Entry& entry, int place);
  [[nodiscard]] double head_upper(int depth) const;
  [[nodiscard]] double upper_with_next(int depth, std::int64_t least_cost) const;
  Go go_deeper(int level);
  std::optional<Go> try_place(int level, int place);
  Go complete();
  void settle_head_value();
  [[nodiscard]] bool only_slack_is_left() const;
  void keep(double score);
  void put_back(Entry entry);

  [[nodiscard]] std::int64_t bound_of(double terms, double head_upper, bool exact) const;
  [[nodiscard]] std::int64_t bound_of_level(int level) const {
    return bound_of_level(level, prefix_);
  }
  [[nodiscard]] std::int64_t bound_of_level(int level, const Prefix& prefix) const;
  [[nodiscard]] bool may_improve(int level, std::int64_t bound) const;
  [[nodiscard]] bool falls_behind(std::int64_t bound, std::int64_t least_cost) const;
  [[nodiscard]] double least_terms() const;
  [[nodiscard]] bool is_dead(const Entry& entry) const;
  void bury(const Entry& entry);
  [[nodiscard]] bool sure_to_end(const Entry& entry) const;
  [[nodiscard]] double exact_score() const;
  [[nodiscard]] std::int64_t open_bound() const;
  [[nodiscard]] std::int64_t bound_of_everything() const;
  void find_incumbent() { incumbent_ = kept_.to_beat(prefix_.group); }
  void count(Reason reason, std::int64_t by = 1) { pruned_[reason] += by; }
  void enter_node() {
    ++nodes_;
    --until_question_;
  }
  bool asked_to_end();
  Outcome result() const;

  const Problem& problem_;
  const SearchOptions& options_;
  Index index_;
  std::vector<std::int64_t> pruned_;
  Levels levels_;
  KeptBuilds kept_;
  std::vector<Prefix> prefixes_;
  std::vector<std::vector<Extension>> extensions_;  ///< [prefix] not yet taken, the best last
  std::priority_queue<Entry, std::vector<Entry>, StandsBehind> queue_;

  Prefix prefix_;                    ///< the one being visited
  std::int64_t prefix_bound_ = 0;    ///< its bound; everything under it stays below
  const Kept* incumbent_ = nullptr;  ///< what its builds must stand before
  /// Why nothing was found under the partial choice left last: slots that it rests on.
  std::uint64_t conflict_ = 0;
  bool ended_early_ = false;
  int until_question_;
  std::int64_t nodes_ = 0;
  std::int64_t leaves_ = 0;
  std::int64_t head_values_ = 0;
};

}  // namespace rigproof::plan::internal
