// What to look up first: which absent cells cost verdicts, and how many each would settle.
//
// The definition stands in docs/decisions/0006-what-to-look-up-first.md. In short: every judgement
// of every planning rule over the parts of a catalog that is unknown because m cells are absent
// gives each of these cells 1/m of a verdict, and one whole verdict "alone" where m is 1.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "claims/rule.hpp"

namespace rigproof::app {

/// Groups of look-alikes that are paired, per kind and rule of two kinds.
inline constexpr std::size_t most_groups = 500;
/// Combinations that are judged, per rule of three or more kinds; and how many each part meets.
inline constexpr std::size_t most_combinations = 4000;
inline constexpr std::size_t companies_of_a_part = 4;

struct RuleCost {
  const Rule* rule = nullptr;
  bool sampled = false;               ///< a rule of three or more kinds
  std::uint64_t judgements = 0;       ///< made over the parts counted
  std::uint64_t unknown = 0;          ///< of these, unknown because of absent cells
  std::uint64_t parts_set_aside = 0;  ///< by the caps above; 0: all were counted
};

/// How much one absent cell (or whole relation of a part) would settle.
struct CellWorth {
  ColumnId column;
  Row row = no_row;  ///< no_row: the part has no row at all in the relation
  PartRef part;      ///< whose it is; row no_row when it belongs to none
  std::uint64_t alone = 0;
  double share = 0.0;  ///< sum of 1/m, the whole ones included
  struct ByRule {
    std::uint16_t rule = 0;  ///< index into LookUp::rules
    std::uint64_t alone = 0;
    double share = 0.0;
  };
  std::vector<ByRule> rules;
};

struct LookUp {
  std::vector<RuleCost> rules;   ///< those that made a judgement, in the rulebook's order
  std::vector<CellWorth> cells;  ///< the one that settles most first
  bool stopped = false;          ///< by the user: what is there was counted, the rest was not
};

struct LookUpJob {
  std::function<bool()> stop;                                     ///< may be empty
  std::function<void(std::size_t done, std::size_t all)> report;  ///< rules; may be empty
};

/// Counts over a catalog, under a brief where there is one: then the parts are those it may use
/// (bought in all its markets, kept or forced), else all there are. `prices` goes with the brief.
struct LookUpInput {
  const Catalog& catalog;
  std::span<const Rule* const> rules;
  const Brief* brief = nullptr;
  const PriceBook* prices = nullptr;
};
[[nodiscard]] LookUp what_to_look_up(const LookUpInput& input, const LookUpJob& job = {});

/// The row part of its name, `part` or `part/2`, as claims name a missing cell.
[[nodiscard]] std::string row_name(const Catalog& catalog, const CellWorth& cell);
/// The column part; "*" for a whole relation.
[[nodiscard]] std::string_view column_name(const CellWorth& cell);

}  // namespace rigproof::app
