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
  Date date;
  std::string settled;  ///< confirmed, off, refuted
};

struct Claim {
  std::string id;  ///< engine.name
  Grade grade = Grade::must;
  std::string where;                  ///< which socket, cable, title or market, when an id repeats
  std::vector<std::string> subjects;  ///< part ids
  std::string load;                   ///< idle, title, all-core, everything; empty: does not matter
  std::string statement;              ///< one sentence a person would say
  std::optional<Quantity> value;      ///< absent when unknown
  std::optional<Limit> limit;
  std::optional<Quantity> margin;     ///< signed; positive is room left
  std::optional<double> margin_frac;  ///< of the limit's size
  std::optional<double> odds;
  Verdict verdict = Verdict::unknown;
  Basis basis = Basis::part_data;
  std::string source;
  std::string remedy;
  std::vector<Missing> missing;
  std::optional<Measured> measured;
};

}  // namespace rigproof
