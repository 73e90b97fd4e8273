// Which demands stand against each other when nothing satisfies a brief, or a wish beside it.
#pragma once

#include <string>
#include <vector>

#include "app/planning.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

struct Conflicting {
  std::vector<sheet::Conflict> conflicts;  ///< irreducible, with what they meet in and easings
  std::vector<std::string> notes;          ///< what the catalog lacks; that it was stopped
};

/// In: a session whose brief, with the wish, nothing satisfies. A long job.
[[nodiscard]] Conflicting conflicting(Planning& planning, const LongJob& job,
                                      const Wish& wish = {});

}  // namespace rigproof::app
