// Use case `plan`: the best builds of a brief with claims and proof, or why there is none.
#pragma once

#include "app/planning.hpp"
#include "sheet/answers.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

struct PlanRequest {
  int best = 3;  ///< how many builds, one per (cpu, chip)
  LongJob job;
};

struct Planned {
  sheet::Plan view;
  std::vector<plan::PlannedChoice> choices;  ///< beside the first of view.builds; without rivals
  plan::Outcome::Status status = plan::Outcome::Status::impossible;
  bool stopped = false;
  Standing standing = Standing::nothing_fails;  ///< of the best build
};

[[nodiscard]] Planned plan_brief(const Workshop& workshop, Planning& planning,
                                 const PlanRequest& request);

/// What a search of the whole catalog says of a build that was given: proven best where the best
/// build has the very same parts. Its mounts and fan speeds are not searched.
[[nodiscard]] sheet::Proof proof_of_given(Planning& planning, const plan::PlannedChoice& given,
                                          const Setup& setup, const LongJob& job);

/// What a reader must know beside the numbers: how the score is meant, what counts nothing in it,
/// what was left out.
[[nodiscard]] std::vector<std::string> notes_on(const Brief& brief, const Workshop& workshop,
                                                bool scored);

/// The view of any build under the session's brief: parts, titles, prices, claims.
[[nodiscard]] sheet::PlannedBuild view_of(Planning& planning, const plan::PlannedChoice& choice,
                                          const Setup* setup = nullptr);

/// "proven", "not proven" or "impossible".
[[nodiscard]] std::string_view status_text(plan::Outcome::Status status);

/// The brief a question was asked under.
[[nodiscard]] sheet::Asked asked_under(const Brief& brief);

}  // namespace rigproof::app
