// Where a sheet's statements come from, gathered once for all writers.
#pragma once

#include <string>
#include <vector>

#include "sheet/model.hpp"

namespace rigproof::sheet {

struct SourceUse {
  std::string source;
  std::string uses;  ///< "3 claims", "1 claim and 2 cautions"
};

/// Every source named by a claim or a caution, once each, most used first, then in order of first
/// use.
[[nodiscard]] std::vector<SourceUse> sources_of(const Sheet& sheet);

}  // namespace rigproof::sheet
