// Verdicts of rules over options, each distinct case judged once.
//
// Two parts that agree in every cell a rule reads (and none of these cells is uncertain) look the
// same to it: a kind is grouped by those cells, and a rule is asked once for each combination of
// groups. What a rule does not read it cannot depend on; a test compares with asking for every
// part.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "claims/rule.hpp"
#include "decision/plan/known_verdicts.hpp"
#include "decision/plan/options.hpp"

namespace rigproof::plan {

/// One slot's filling, for a rule that looks at several.
struct Filling {
  Kind kind;
  const SlotOption* option;
};

/// Remembers verdicts over many plans of one catalog, apart for every different thing a rule reads
/// of the brief; what the brief accepts is applied afterwards. Not for several threads.
class Verdicts {
 public:
  Verdicts(const Catalog& catalog, std::span<const Rule* const> rules, std::uint64_t seed);
  Verdicts(const Verdicts&) = delete;
  Verdicts& operator=(const Verdicts&) = delete;
  ~Verdicts();

  [[nodiscard]] std::span<const Rule* const> rules() const { return rules_; }
  /// To be called before a plan; both must outlive it.
  void use(const Brief& brief, const PriceBook& prices);

  /// Group of an option as rule `rule` sees it; equal numbers mean equal for the rule.
  [[nodiscard]] std::uint32_t group(std::size_t rule, Kind kind, const SlotOption& option);
  /// Parts of a kind with equal numbers are the same to every rule and to the frame rates: all that
  /// is left to tell them apart are price and name.
  [[nodiscard]] std::uint32_t look(Kind kind, Row row);
  /// Groups by kind, ~0 for kinds outside the scope. Made with group().
  using Groups = KnownVerdicts::Groups;
  [[nodiscard]] static Groups no_groups() {
    Groups groups;
    groups.fill(~0U);
    return groups;
  }
  /// What is asked of a case: is every place of the rule admitted, or does none fail in every draw?
  enum class Ask { admitted, not_failing };
  /// For these fillings (all kinds of its scope, any order). `groups` are theirs; the fillings are
  /// looked at only when this case was never judged.
  [[nodiscard]] bool admits(std::size_t rule, const Groups& groups,
                            std::span<const Filling> fillings, Ask ask = Ask::admitted);
  /// The same for a case that was judged before; else nothing.
  [[nodiscard]] std::optional<bool> known(std::size_t rule, const Groups& groups,
                                          Ask ask = Ask::admitted) const;
  [[nodiscard]] CellDraws& draws() { return draws_; }
  /// Would the rule admit the same builds under both? False: one of them may say more of it.
  [[nodiscard]] bool reads_alike(std::size_t rule, const Brief& a, const Brief& b) const;

 private:
  struct PerRule;
  // Numbers of parts that look the same through some columns.
  struct Numbers {
    std::vector<std::uint32_t> of_row;  // ~0 when not yet known
    std::unordered_map<std::string, std::uint32_t> by_cells;
    std::uint32_t count = 0;
  };
  [[nodiscard]] std::uint32_t number(Numbers& numbers, Kind kind, Row row,
                                     std::span<const ColumnId> reads);
  [[nodiscard]] bool append_part(std::string& key, Kind kind, Row row,
                                 std::span<const ColumnId> reads) const;
  std::uint8_t judged(const Rule& rule, std::span<const Filling> fillings);

  const Catalog* catalog_;
  std::span<const Rule* const> rules_;
  const Brief* brief_ = nullptr;
  const PriceBook* prices_ = nullptr;
  CellDraws draws_;
  std::vector<std::unique_ptr<PerRule>> per_rule_;
  // Through all columns that the rules of grade must read of which this brief asks.
  struct Looks {
    std::vector<ColumnId> reads;  // once each
    std::array<Numbers, kind_count> of_kind;
  };
  [[nodiscard]] std::vector<ColumnId> read_by_any(const Brief& brief) const;
  std::map<std::string, Looks> looks_by_asked_;  // by which rules that are
  Looks* looks_ = nullptr;
  std::string key_;
};

}  // namespace rigproof::plan
