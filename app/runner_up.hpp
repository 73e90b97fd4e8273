// Why each part: the best build that does without it, and what that would gain and lose.
#pragma once

#include "app/plan_brief.hpp"
#include "app/planning.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

/// What a runner-up may change beside the part in question.
enum class Beside {
  everything,  ///< of a planned build: the best build there is without the part
  nothing,     ///< of a given build: the other parts stay (those of which it has one piece)
};

/// Fills `why`, `runner_up` and `because_cost` of every part line of `view`, the view of `choice`.
/// One plan for each part that is free to change, so this is a long job; when stopped, the rest is
/// left without a runner-up and false is returned.
[[nodiscard]] bool add_reasons(Planning& planning, const plan::PlannedChoice& choice,
                               sheet::PlannedBuild& view, Beside beside, const LongJob& job);

}  // namespace rigproof::app
