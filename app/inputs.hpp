// What can be asked for beside a catalog, declared once for each question: the options of the
// command line, what the HTTP API reads and its description are derived from one `declare`.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/given.hpp"
#include "app/measured.hpp"

namespace rigproof::app {

/// How one input is called and told. `of` is what stands for its value in help (`BRIEF`,
/// `PERCENT`).
struct Said {
  std::string name;  ///< lower case, words joined by `_`; the command line writes `-`
  std::string of;
  std::string meaning;
};

/// One pass over the inputs of a question, in the order in which they are told. Whoever passes sets
/// the values, or describes them.
class Inputs {
 public:
  virtual ~Inputs() = default;
  /// What the question is about: has to be given, and needs no name where order tells.
  virtual void subject(const Said& said, Given& value, GivenKind kind) = 0;
  /// One that may be left out.
  virtual void beside(const Said& said, Given& value, GivenKind kind) = 0;
  /// A list where order tells, without a name; may be empty.
  virtual void list(const Said& said, std::vector<std::string>& values) = 0;
  /// A named list: given several times.
  virtual void several(const Said& said, std::vector<std::string>& values) = 0;
  virtual void text(const Said& said, std::string& value) = 0;  ///< has to be given
  virtual void whole(const Said& said, int& value, int least, int most) = 0;
  virtual void maybe_whole(const Said& said, std::optional<int>& value, int least, int most) = 0;
  /// In: `unit` in words, for messages.
  virtual void number(const Said& said, double& value, double least, double most,
                      std::string_view unit) = 0;
  virtual void flag(const Said& said, bool& value) = 0;
  /// Seconds above 0 and up to a week. In: `and_then` ends the sentence: what is answered then.
  virtual void time_limit(std::string_view and_then, std::optional<double>& limit_s) = 0;
  /// Values measured on the parts, in place of the catalog's (docs/measured.md).
  virtual void measured(MeasuredInput& value) = 0;
};

inline constexpr double longest_time_limit_s = 604'800.0;  // a week: longer than anybody waits

}  // namespace rigproof::app
