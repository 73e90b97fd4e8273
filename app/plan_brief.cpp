#include "app/plan_brief.hpp"

#include <fmt/format.h>

#include <array>

#include "app/describe.hpp"
#include "app/titles.hpp"

namespace rigproof::app {
namespace {

std::string_view status_text(plan::Outcome::Status status) {
  switch (status) {
    case plan::Outcome::Status::proven: return "proven";
    case plan::Outcome::Status::not_proven: return "not proven";
    case plan::Outcome::Status::impossible: return "impossible";
  }
  return {};
}

sheet::Proof proof_of(const Planning& planning, const plan::PlanOutcome& outcome) {
  sheet::Proof proof;
  proof.status = status_text(outcome.status);
  proof.bound = in_first_currency(planning.brief(), outcome.bound);
  proof.nodes = outcome.nodes;
  proof.leaves = outcome.leaves;
  for (const plan::Pruned& pruned : outcome.pruned)
    if (pruned.count > 0) proof.pruned.push_back({pruned.why, pruned.count});
  proof.note =
      "Proven means: no build of this catalog, under this brief and this model, stands before the first one. "
      "Delivery charges are not in the prices.";
  return proof;
}

// Score of a build draw by draw: the frame term varies, the money saved does not.
std::array<double, draw_count> score_draws(const Planning& planning, const plan::PlannedChoice& choice) {
  std::array<double, draw_count> scores{};
  const Brief& brief = planning.brief();
  const auto budget = static_cast<double>(brief.markets.front().budget.minor);
  scores.fill(brief.saved_frac * (budget - static_cast<double>(choice.prices.front())));
  if (!planning.frames().has_titles) return scores;
  const Row cpu = choice.build.one(Kind::cpu);
  const int memory = planning.frames().memory_class(cpu, choice.build.one(Kind::board), choice.build.of(Kind::memory).front());
  const auto utility = planning.frames().utility_draws(cpu, memory, choice.build.one(Kind::gpu));
  for (std::size_t i = 0; i < draw_count; ++i) scores[i] += budget * utility[i];
  return scores;
}

// In which share of the draws each listed build is the best of those listed (the first wins a tie).
void add_odds_best(const Planning& planning, const std::vector<plan::PlannedChoice>& choices, sheet::Plan& view) {
  std::vector<std::array<double, draw_count>> scores;
  for (const auto& choice : choices) scores.push_back(score_draws(planning, choice));
  std::vector<int> wins(choices.size(), 0);
  for (std::size_t i = 0; i < draw_count; ++i) {
    std::size_t best = 0;
    for (std::size_t b = 1; b < scores.size(); ++b)
      if (scores[b][i] > scores[best][i]) best = b;
    ++wins[best];
  }
  for (std::size_t b = 0; b < choices.size(); ++b)
    view.builds[b].odds_best = static_cast<double>(wins[b]) / draw_count;
}

void add_conflict(Planning& planning, const LongJob& job, sheet::Plan& view) {
  const plan::ConflictSet set = planning.conflict(job);
  sheet::Conflict conflict;
  for (const plan::Requirement& requirement : set.requirements)
    conflict.requirements.push_back({requirement.path, requirement.line, requirement.says});
  for (const sheet::PrunedLine& pruned : view.proof.pruned)
    if (pruned.why != "bound" && pruned.why != "caps" && pruned.why != "no option left") conflict.through.push_back(pruned.why);
  if (!set.known) view.notes.emplace_back("Stopped before the conflict was irreducible: fewer requirements may suffice.");
  if (set.requirements.empty())
    view.notes.emplace_back("Whatever the brief drops, this catalog holds no complete build: some kind of part is missing, has no "
                            "offer, or fits nothing else.");
  else
    view.conflicts.push_back(std::move(conflict));
}

void add_notes(const Planning& planning, sheet::Plan& view) {
  const Brief& brief = planning.brief();
  for (const auto& [worth, money] : brief.worths)
    view.notes.push_back(fmt::format("worths.{} ({}) is not judged yet and counts nothing in the score: its engine is not there.",
                                     worth, to_string(money)));
  if (!brief.supply_reserve_frac) view.notes.emplace_back("The brief asks for no reserve of the supply (limits.supply_reserve_frac).");
  if (brief.display) view.notes.emplace_back("The display is taken as stated; whether its link carries the picture is not judged yet.");
  if (view.builds.size() > 1)
    view.notes.emplace_back("Odds of being best are counted among the builds listed, over 256 draws.");
}

}  // namespace

sheet::PlannedBuild view_of(Planning& planning, const plan::PlannedChoice& choice, const Mounts* mounts) {
  const Brief& brief = planning.brief();
  sheet::PlannedBuild view;
  view.score = in_first_currency(brief, choice.score);
  for (std::size_t m = 0; m < brief.markets.size(); ++m) {
    view.markets.push_back(brief.markets[m].market);
    view.prices.push_back({brief.markets[m].budget.currency, choice.prices[m]});
  }
  CellDraws draws(planning.catalog());
  view.parts = part_lines(planning.catalog(), brief, choice.build, mounts);
  view.titles = title_lines(planning.catalog(), brief, choice.build, draws);
  view.odds_all_hold = odds_all_hold(planning.catalog(), brief, &planning.prices(), choice.build, mounts);
  view.claims = claims_of(planning.catalog(), brief, &planning.prices(), choice.build, mounts);
  return view;
}

Planned plan_brief(const Workshop& workshop, Planning& planning, const PlanRequest& request) {
  Planned out;
  const auto outcome = planning.plan({.keep = request.best, .first_only = false, .banned = {}, .stop = request.job.stop,
                                      .progress = request.job.progress});
  out.status = outcome.status;
  out.choices = outcome.best;
  out.view.brief_name = planning.brief().name;
  out.view.brief_file = planning.brief().file;
  out.view.as_of = planning.brief().as_of;
  out.view.proof = proof_of(planning, outcome);
  for (const plan::PlannedChoice& choice : outcome.best) out.view.builds.push_back(view_of(planning, choice));
  if (!outcome.best.empty()) {
    add_odds_best(planning, outcome.best, out.view);
    out.standing = standing(out.view.builds.front().claims);
  }
  if (outcome.status == plan::Outcome::Status::impossible) add_conflict(planning, request.job, out.view);
  out.stopped = request.job.stop && request.job.stop();
  add_notes(planning, out.view);
  if (!workshop.skipped.empty())
    out.view.notes.push_back(
        workshop.skipped.count() == 1 ? "1 bad row of the catalog was left out."
                                      : fmt::format("{} bad rows of the catalog were left out.", workshop.skipped.count()));
  return out;
}

}  // namespace rigproof::app
