// What was measured on the parts in the hand, in place of the catalog's cells: for one answer, not
// for the catalog.
#pragma once

#include <string>
#include <vector>

#include "app/workshop.hpp"
#include "catalog/measured.hpp"

namespace rigproof::app {

struct MeasuredInput {
  std::string file;                ///< CSV, catalog/measured.hpp; "-": standard input; empty: none
  std::vector<std::string> lines;  ///< TABLE,ROW,COLUMN,VALUE[,PLUS_MINUS]: a line each
  [[nodiscard]] bool empty() const { return file.empty() && lines.empty(); }
};

struct MeasuredWorkshop {
  Workshop workshop;                ///< with the cells as measured
  std::vector<MeasuredCell> cells;  ///< those that were, in the order given
};

/// A cell of `lines` that `file` has too is refused. Errors: io; bad_input with all complaints, and
/// when rows of the catalog were left out.
[[nodiscard]] Result<MeasuredWorkshop> with_measured(const Workshop& workshop,
                                                     const MeasuredInput& input);

}  // namespace rigproof::app
