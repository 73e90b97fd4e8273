// A table's file with some rows changed and some added: everything else stays byte for byte.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "catalog/import.hpp"

namespace rigproof {

struct Rewritten {
  std::string bytes;
  std::vector<std::string_view> new_columns;  ///< put at the end, since the file had no such column
};

/// `bytes` is the table's file as it was loaded (without a complaint); empty: a new file with every
/// column of the schema. Changed rows keep the cells that did not change, new ones come last, all
/// in the file's own order of columns, separator, decimal sign and line ends. Where a new column is
/// needed every row gets one more, empty, cell.
[[nodiscard]] Rewritten rewrite_table(const Catalog& catalog, const ImportPlan& plan,
                                      std::string_view bytes);

}  // namespace rigproof
