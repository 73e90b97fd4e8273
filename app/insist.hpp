// Use case `insist`: the best build with some parts in it, or without some, beside the best one.
#pragma once

#include <string>
#include <vector>

#include "app/planning.hpp"
#include "app/workshop.hpp"
#include "sheet/answers.hpp"

namespace rigproof::app {

/// From ids as typed. Each part once, however often it is named. Errors: bad_input for an id that
/// is no part (with the ids nearest to it), for a part both insisted on and done without, and for
/// more parts of a kind than a plan takes.
[[nodiscard]] Result<Wish> wish_of(const Catalog& catalog, const std::vector<std::string>& insisted,
                                   const std::vector<std::string>& without);

struct Insisted {
  sheet::Insist view;
  std::optional<plan::PlannedChoice> choice;  ///< the build with the wish
  bool stopped = false;
  Standing standing = Standing::nothing_fails;  ///< of that build
};

[[nodiscard]] Insisted insist_on(const Workshop& workshop, Planning& planning, const Wish& wish,
                                 const LongJob& job);

}  // namespace rigproof::app
