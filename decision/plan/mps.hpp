// A problem of the search as an integer program that any outside solver can read and prove again.
//
// Equations (M1) to (M7) of MPS.md. A binary column for every option, and for the value of the head
// continuous columns that the options fix. The program is a minimisation of *minus* the score,
// since MPS knows no other: the score is minus the optimum, before it is rounded to whole units.
//
// Exact but for the checks over several slots that have too many cases to be written as rows. These
// are left out and named: what is written is then a relaxation, its best score never below the
// true one.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "decision/plan/linear_model.hpp"
#include "decision/plan/search.hpp"

namespace rigproof::plan {

/// What the head value depends on, where that is less than every option of the head. Two steps:
/// options fall into classes; the classes of some slots act only through one joint class.
struct HeadClasses {
  /// By head slot and option, 0, 1, 2...: heads whose options are of the same classes have one
  /// value.
  std::vector<std::vector<int>> of_option = {};
  /// Slots that act through `joint` alone, ascending; empty: none.
  std::vector<int> joined = {};
  /// Joint class, 0, 1, 2..., of the options of the joined slots; of the others nothing is read.
  std::function<int(std::span<const int> head)> joint = {};
};

struct MpsOptions {
  std::string name = "problem";
  /// Lines that stand first, as comments.
  std::string comment = {};
  /// How the column of an option is called; without it by slot and number. Made legal and unique.
  std::function<std::string(int slot, int option)> option_name = {};
  std::vector<std::string> cap_names = {};  ///< of the first resources; the others get a number
  /// Without it every combination of options of the head is a class of its own.
  const HeadClasses* head_classes = nullptr;
  /// A check with more combinations of classes in its scope is left out and named.
  std::size_t most_check_cases = 100'000;
  /// A head of more combinations of classes is refused: the file would help nobody.
  std::size_t most_head_columns = 4'000'000;
  std::function<bool()> stop = {};
  /// Head values asked so far, and all.
  std::function<void(std::size_t done, std::size_t all)> progress = {};
};

struct MpsModel {
  LinearModel linear = {};
  /// Column of the first option of each slot; the others follow it.
  std::vector<int> first_column = {};
  /// Checks that are not in the program, by name with how many of that name, sorted by name.
  std::vector<Pruned> left_out = {};
  std::string comment = {};  ///< what the file says of itself
};

/// Errors: out_of_range (a head of too many classes), stopped.
[[nodiscard]] Result<MpsModel> mps_model(const Problem& problem, const MpsOptions& options);

/// The whole file.
[[nodiscard]] std::string mps_text(const MpsModel& model);

}  // namespace rigproof::plan
