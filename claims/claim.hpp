// The claim: one computed statement about a build. All engines speak it; pages and files show it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"

namespace rigproof {

enum class Verdict { holds, thin, doubtful, fails, unknown };
enum class Grade { must, tells };  ///< must: excludes in a plan and counts for the exit code
enum class Basis { standard, handbook, part_data, model, measured, common_practice };
enum class Relation { at_most, at_least, equals, one_of };

[[nodiscard]] std::string_view name_of(Verdict verdict);
[[nodiscard]] std::string_view name_of(Grade grade);
[[nodiscard]] std::string_view name_of(Basis basis);        ///< "part data", "common practice"...
[[nodiscard]] std::string_view name_of(Relation relation);  ///< "at_most"...

/// The one place where odds become a verdict. In: number of the 256 draws in which it holds.
/// holds >= 244 (.95), thin >= 128 (.5), doubtful >= 13 (.05), else fails.
[[nodiscard]] Verdict verdict_of(int draws_that_hold);

/// A number with its 90 % interval (5 to 95 %), or a text.
struct Quantity {
  double value = 0.0;               ///< the median
  std::optional<double> low, high;  ///< absent when certain
  std::string unit;
  std::string text;  ///< set instead of the numbers when the value is a word
};

struct Limit {
  Relation relation = Relation::at_most;
  double value = 0.0;
  std::string unit;
  std::string text;  ///< set when the limit is a word or several
};

/// An absent cell and how to get it.
struct Missing {
  std::string table, row, column, how;
};

struct Measured {
  double value = 0.0;
  std::string log;
  std::optional<Date> date;  ///< absent: nobody said
  std::string settled;       ///< confirmed, off, refuted; empty: nothing was claimed before
};

/// One number or word that a claim rests on, as it was read.
struct WorkingCell {
  std::string part;  ///< whose it is; empty: of no part
  std::string meaning;
  std::string table, row, column;
  Quantity value;         ///< a number, or a word; text "not known" when absent
  std::string certainty;  ///< "plus-minus 2 mm", "usual range of its class"; empty: as stated
  std::string source;     ///< what provenance.csv says of it; empty: nothing
  bool claimed = false;   ///< the claim's value is this very cell
};

/// How a claim was computed: what is compared, and every cell that went in, in reading order.
struct Working {
  std::string equation;  ///< in words and symbols, with its number in the engine's README
  std::vector<WorkingCell> cells;
  int cells_left_out = 0;  ///< more were read than are kept
};

/// One part for another: the remedy as something that can be done. Found by trying (app/).
struct Swap {
  std::string kind;
  std::string out;  ///< id; empty: the part is added
  std::string in;   ///< id; empty: the part is left out
  int count = 1;    ///< pieces of `in`
};

/// The same parts put together or set otherwise: a remedy that costs nothing. Found by trying.
struct Adjustment {
  std::string radiator_at = {};  ///< a mount of the case; empty: it stays
  std::string fans_at = {};
  std::optional<double> case_speed_percent = {};  ///< both, or none
  std::optional<double> cooler_speed_percent = {};
};

struct Claim {
  std::string id;  ///< engine.name
  Grade grade = Grade::must;
  std::string where;                  ///< which socket, cable, title or market, when an id repeats
  std::vector<std::string> subjects;  ///< part ids
  std::string load;                   ///< idle, title, all-core, everything; empty: does not matter
  std::string statement;              ///< one sentence a person would say
  std::string consequence = {};       ///< what would go wrong; empty where it holds
  std::optional<Quantity> value;      ///< absent when unknown
  std::optional<Limit> limit;
  std::optional<Quantity> margin;     ///< signed; positive is room left
  std::optional<double> margin_frac;  ///< of the limit's size
  std::optional<double> odds;
  Verdict verdict = Verdict::unknown;
  Basis basis = Basis::part_data;
  std::string source;
  std::string remedy;
  std::optional<Swap> swap =
      {};  ///< the smallest change found that makes it hold and breaks nothing
  std::optional<Adjustment> adjustment = {};  ///< likewise; where there is one no swap is sought
  std::vector<Missing> missing;
  Working working = {};
  std::optional<Measured> measured;
};

}  // namespace rigproof
