// A mixed-integer linear program as rows and columns, and its text in free-format MPS.
//
// It is always a minimisation: MPS has no agreed way to say otherwise. A constant of the objective
// has no place of its own here: readers of MPS disagree about the sign of a right-hand side on the
// objective, so it is written as a column fixed to 1.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_set>
#include <utility>
#include <vector>

namespace rigproof::plan {

/// Names that every reader of free-format MPS takes: no blanks, at most 200 bytes, none twice.
class NameBook {
 public:
  /// The wish with every byte but letters, digits and `_ - + .` made `_`; a number behind it when
  /// the name is taken.
  [[nodiscard]] std::string take(std::string_view wish);

 private:
  std::unordered_set<std::string> taken_;
};

class LinearModel {
 public:
  enum class Kind {
    binary,    ///< 0 or 1
    positive,  ///< 0 or more
    one        ///< fixed to 1: carries the objective's constant
  };
  struct Column {
    std::string name = {};
    Kind kind = Kind::positive;
    double objective = 0.0;                            ///< to be minimised
    std::vector<std::pair<int, double>> entries = {};  ///< row and coefficient, each row once
  };
  enum class Sense { at_most, equal };
  struct Row {
    std::string name = {};
    Sense sense = Sense::at_most;
    double limit = 0.0;  ///< the right-hand side
  };

  std::string name = {};
  std::vector<Row> rows = {};
  std::vector<Column> columns = {};

  /// Names are made legal and unique, rows and columns apart.
  int add_row(std::string_view wish, Sense sense, double limit);
  int add_column(Column column);
  /// Adds to what the column already has in this row when it is the row it entered last.
  void enter(int row, int column, double coefficient);
  [[nodiscard]] std::size_t entries() const;

 private:
  NameBook row_names_;
  NameBook column_names_;
};

/// The text: `comment` first, each of its lines behind an asterisk, then the model. Numbers are the
/// shortest that read back the same.
[[nodiscard]] std::string mps_text(const LinearModel& model, std::string_view comment);

}  // namespace rigproof::plan
