// The rules of a brief, and of what is left of it without one requirement, asked of choices as they
// grow. Internal to the outlook.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "decision/plan/stock.hpp"

namespace rigproof::plan::internal {

/// Which briefs a choice may still satisfy: bit k is brief k of the judge.
using Standing = std::uint64_t;
inline constexpr std::size_t most_briefs = 64;

/// [slot][option]: how much more often it is drawn; see GroundSlot. Empty: all alike.
using Favors = std::vector<std::vector<double>>;

/// A choice that is not refused yet, and the rules of the first brief that refused it: only a brief
/// that changes each of them may still take it.
struct Judged {
  std::vector<int> choice = {};
  Standing standing = 0;
  std::vector<std::size_t> broken = {};
  /// After which nothing stood any more: the slots it looked at.
  std::size_t refused_by = ~std::size_t{0};
  std::vector<int> refused_over = {};
};

class Judge {
 public:
  /// `briefs[0]` is asked along the way. The others ask no more of any build, and change no rule
  /// over one slot or two: only so they can share a tree. All must outlive this.
  /// Models are asked last, since they are slow, but where it is to be learned what they refuse.
  enum class Models { last, in_their_slot };
  /// `before`, of the same stock, may lend the tables of rules that its first brief reads alike.
  Judge(Stock& stock, Verdicts& verdicts, std::vector<const Brief*> briefs,
        Models models = Models::last, const Judge* before = nullptr);

  /// What rules over one slot and, where few cases tell all, two refuse before anything is chosen.
  [[nodiscard]] std::vector<GroundSlot> ground(const Favors& favors) const;
  [[nodiscard]] const std::vector<PairTable>& tables() const { return tables_; }
  [[nodiscard]] const Brief& first_brief() const { return *briefs_.front(); }
  [[nodiscard]] Standing all() const;
  [[nodiscard]] bool has_costly_rules() const { return !costly_.empty(); }

  /// Asks the rules whose last slot has just been filled. The first brief must be in use.
  void ask_at(int slot, std::span<const int> choice, Judged& judged);
  /// Asks the first brief's costly rules of a whole choice.
  void ask_costly(Judged& judged);
  /// Makes brief k the one in use.
  void use(std::size_t k);
  /// Does brief k, which is in use, take what the first one refused?
  [[nodiscard]] bool takes(std::size_t k, const Judged& judged);

 private:
  /// A rule over its slots, or over some of them before the rest is chosen.
  struct Question {
    std::size_t rule;
    std::vector<int> scope;
    Verdicts::Ask ask = Verdicts::Ask::admitted;
  };
  void put(const Question& question, std::span<const int> choice, Judged& judged);
  void add_early();
  [[nodiscard]] bool asked(std::size_t rule, const Brief& brief) const;
  void add_filter(std::size_t rule, int slot);
  [[nodiscard]] bool add_table(std::size_t rule, int first, int second, const Judge* before);

  Stock& stock_;
  Verdicts& verdicts_;
  std::vector<const Brief*> briefs_;
  std::vector<std::vector<bool>> open_;  // [slot][option]
  std::vector<PairTable> tables_;
  std::vector<int> table_of_;  // [rule] in tables_; or one of the following
  enum TableOf { not_made = -1, forbids_nothing = -2 };
  std::vector<std::vector<Question>> asked_at_;  // [slot] those over fewer slots first
  std::vector<Question> costly_;
  std::vector<Standing> changed_by_;  // [rule] briefs that ask less of it
};

/// Would a brief ask the same of the pairs and single fillings of this stock as another?
[[nodiscard]] bool alike_in_pairs(const Stock& stock, const Verdicts& verdicts, const Brief& a,
                                  const Brief& b);

}  // namespace rigproof::plan::internal
