// The rule: the function that makes one kind of claim. Planner and claims page use the very same
// one.
//
// A rule is a constant record of plain functions. `measure` says what is compared with what and
// allocates nothing; from it judge() makes the small finding the planner needs, and explain() the
// whole claim, for those that are shown. Rules about several places (one claim for every connector,
// title or market) have places() > 1.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/draws.hpp"
#include "claims/claim.hpp"
#include "claims/facts.hpp"

namespace rigproof {

/// An absent cell, or (row == no_row) a part without any row in a relation.
struct MissingCell {
  ColumnId column;
  Row row = no_row;
  PartRef parent;
  friend bool operator==(const MissingCell&, const MissingCell&) = default;
};

/// A cell that a rule read, for the working of its claim.
struct SeenCell {
  ColumnId column;
  Row row = no_row;
  friend bool operator==(const SeenCell&, const SeenCell&) = default;
};

/// What a rule compares. Filled by Rule::measure through the readers below, which note every absent
/// cell: a claim with an absent cell that no class range stands for is unknown.
struct Measure {
  Draws value = Draws::absent();  ///< set both before comparing; what is left absent is not shown
  Draws limit = Draws::absent();
  bool is_text = false;  ///< words are compared instead of numbers
  bool text_holds = false;
  std::string_view value_text;
  std::string_view limit_text;
  std::array<MissingCell, 8> missing{};
  int missing_count = 0;  ///< cells absent, class range or not
  bool unknown = false;   ///< something needed is absent and has no class range
  /// Only the verdict is asked, not the number: a rule may then compare a cheaper bound, provided
  /// that it holds in exactly the same draws.
  bool deciding = false;
  /// Besides: not even in which draws, only how it is called and whether it holds in none at all.
  bool verdict_alone = false;
  /// Cells read, each once, the first ones in reading order; only while not deciding.
  std::array<SeenCell, 32> seen{};
  int seen_count = 0;
  int seen_beyond = 0;  ///< read as well, not kept
  SeenCell claimed;     ///< the cell that `value` is; row no_row: it is none alone

  /// A number; absent cells are noted, and give their class range or an absent Draws.
  const Draws& read(const Facts& facts, ColumnId column, Row row);
  /// The same of a cell that is the number claimed, with nothing done to it.
  const Draws& read_claimed(const Facts& facts, ColumnId column, Row row);
  /// A word; "" when absent (then the claim is unknown).
  std::string_view read_word(const Facts& facts, ColumnId column, Row row);
  /// A flag; false when absent (then the claim is unknown).
  bool read_flag(const Facts& facts, ColumnId column, Row row);
  /// Rows of a relation; none at all means the relation is unknown for this part.
  std::span<const Row> read_rows(const Facts& facts, int relation, PartRef part);
  /// A cell that the rule looked at past these readers, such as the words of a relation's rows.
  void note_seen(ColumnId column, Row row);
  /// Words compared for equality or membership.
  void compare_text(std::string_view what, std::string_view against, bool holds);
  /// Each cell is kept once, the first eight of them.
  void note_missing(MissingCell cell, bool has_class_range);
};

/// The texts of a claim. Formatting lives here, never in measure.
struct Telling {
  std::string statement;  ///< true or not: says what is claimed, "The card fits the case."
  std::string where;
  std::string load;
  std::string remedy;      ///< shown unless it holds
  std::string limit_text;  ///< words gathered from several rows; else Measure::limit_text is shown
  std::vector<PartRef> subjects;
};

struct Rule {
  std::string_view id;
  std::string_view about;  ///< one line for the list of rules
  /// What would go wrong at the table if it did not hold: one sentence for somebody who never built
  /// a machine. Every `must` has one.
  std::string_view consequence = {};
  Grade grade = Grade::must;
  std::span<const Kind> kinds = {};      ///< its scope, in Kind order
  std::span<const ColumnId> reads = {};  ///< columns it reads (relations included)
  std::span<const std::string_view> brief_keys =
      {};  ///< brief paths it reads, such as "musts.wifi"
  Relation relation = Relation::at_most;
  std::string_view unit = {};  ///< of value, limit and margin; "" for words
  Basis basis = Basis::part_data;
  /// What is compared, as one reads it: "card length <= room, (T4)". Shown with the numbers.
  std::string_view equation = {};
  std::string_view source = {};  ///< "[key] place", or "common practice, no source", or "part data"
  /// How many claims it makes of this build; 0: it does not apply (a part of it is not there).
  int (*places)(const Facts&) = nullptr;
  void (*measure)(const Facts&, int place, Measure&) = nullptr;
  void (*tell)(const Facts&, int place, const Measure&, Telling&) = nullptr;
  /// For units that belong to the place, such as a market's currency; null: `unit`.
  std::string_view (*unit_at)(const Facts&, int place) = nullptr;
  /// Measured units in one shown unit: money is compared in whole minor units and shown in major
  /// ones (100 for EUR). Null: 1.
  double (*divisor_at)(const Facts&, int place) = nullptr;
  /// Sums that are at most a capacity: the kind whose part states the capacity (the limit). The
  /// other kinds add terms that are never negative and do not depend on each other, so that known
  /// terms over the capacity fail whatever the absent ones are, and a planner may bound the sum.
  std::optional<Kind> capacity = {};
  /// Kinds of the scope that only ever make it worse: a build that is not admitted without them is
  /// not admitted with them, so that a planner may ask the rule before they are chosen. This holds
  /// of all such rules together, see docs/decisions/0010; and where an unknown is admitted it holds
  /// of what fails for certain.
  std::span<const Kind> burdens = {};
  /// Asked by a planner alone, of parts that are chosen before others, and never told. Where it
  /// fails in every draw, the rule with the same id fails, or is unknown, in every build with these
  /// parts: so it is not asked where the brief admits what is unknown of that rule.
  bool foretells = false;
  /// Can this brief make it have a place? Null: whatever the brief. A planner leaves out those of
  /// which it says no.
  bool (*concerns)(const Brief&) = nullptr;
  /// Rules that hang on one choice, under a name that people understand. They read the same cells
  /// of the same kinds, and a planner asks them together. Empty: the rule stands alone.
  std::string_view family = {};
};

/// What the planner needs of a claim.
struct Finding {
  DrawSet holds;  ///< all 256 set or unset when certain; empty when unknown
  Verdict verdict = Verdict::unknown;
};

/// No draw and no value of a class range holds: whatever else only takes from its room, it fails.
[[nodiscard]] inline bool fails_for_certain(const Finding& finding) {
  return finding.verdict == Verdict::fails && finding.holds.none();
}

[[nodiscard]] Finding judge(const Rule& rule, const Facts& facts, int place);
/// The verdict, and no draws where there are none: which draws is not asked.
[[nodiscard]] Finding judge_verdict(const Rule& rule, const Facts& facts, int place);
[[nodiscard]] Finding judge(const Rule& rule, const Measure& measure);
[[nodiscard]] Claim explain(const Rule& rule, const Facts& facts, int place);

/// The median and [5 %, 95 %]; over a class range the whole range, since it has no distribution; a
/// certain number has no interval. Not for absent draws.
[[nodiscard]] Quantity quantity(const Draws& draws, std::string_view unit);

/// All claims of a build, rule by rule in the rulebook's order.
[[nodiscard]] std::vector<Claim> all_claims(std::span<const Rule* const> rulebook,
                                            const Facts& facts);

/// May a build with this verdict enter a plan? `tells` always may.
[[nodiscard]] bool admitted(const Rule& rule, Verdict verdict, const Brief& brief);

}  // namespace rigproof
