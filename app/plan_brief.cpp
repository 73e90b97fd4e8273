#include "app/plan_brief.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/conflicting.hpp"
#include "app/describe.hpp"
#include "app/rivals.hpp"
#include "app/titles.hpp"

namespace rigproof::app {
namespace {

// What the search left out, by reason; parts that cannot be bought are one reason whatever their
// kind.
void add_pruned(const plan::PlanOutcome& outcome, sheet::Proof& proof) {
  constexpr std::string_view no_offer = "no offer: ";
  long long unoffered = 0;
  for (const plan::Pruned& pruned : outcome.pruned)
    if (pruned.why.starts_with(no_offer)) unoffered += pruned.count;
  if (unoffered > 0)
    proof.pruned.push_back({"parts without an admissible offer in every market", unoffered});
  for (const plan::Pruned& pruned : outcome.pruned)
    if (pruned.count > 0 && !pruned.why.starts_with(no_offer))
      proof.pruned.push_back({pruned.why, pruned.count});
}

sheet::Proof proof_of(const Planning& planning, const plan::PlanOutcome& outcome) {
  sheet::Proof proof;
  proof.status = status_text(outcome.status);
  proof.bound = in_first_currency(planning.brief(), outcome.bound);
  proof.nodes = outcome.nodes;
  proof.leaves = outcome.leaves;
  add_pruned(outcome, proof);
  if (outcome.status == plan::Outcome::Status::impossible) {
    proof.note =
        "Impossible means: every combination of this catalog's parts breaks some demand of the "
        "brief.";
    return proof;
  }
  if (outcome.status == plan::Outcome::Status::not_proven && !outcome.best.empty())
    proof.at_most_more =
        in_first_currency(planning.brief(), outcome.bound - outcome.best.front().score);
  proof.note =
      "Proven means: no build of this catalog, under this brief and this model, stands before the "
      "first one. "
      "Delivery charges are not in the prices.";
  return proof;
}

// In whatever order a file lists the parts of a kind.
bool same_parts(const Build& a, const Build& b) {
  for (int k = 0; k < kind_count; ++k)
    if (!std::ranges::is_permutation(a.of(static_cast<Kind>(k)), b.of(static_cast<Kind>(k))))
      return false;
  return true;
}

// Odds of the listed builds, and after them those that are best in more than 5 % of the draws.
void add_rivals(Planning& planning, const PlanRequest& request, bool proven, Planned& out) {
  const std::int64_t most_nodes = std::max(nodes_for_rivals, std::int64_t{out.view.proof.nodes});
  const Compared compared =
      proven ? compare_rivals(planning, out.choices, request.best, request.job, most_nodes)
             : compare_listed(planning, out.choices);
  sheet::Plan& view = out.view;
  for (std::size_t b = 0; b < compared.choices.size(); ++b) {
    const bool listed = b < out.choices.size();
    if (!listed && compared.odds_best[b] * draw_count <= rival_above_draws) continue;
    sheet::PlannedBuild build =
        listed ? std::move(view.builds[b]) : view_of(planning, compared.choices[b]);
    if (compared.choices.size() > 1) build.odds_best = compared.odds_best[b];
    if (b > 0) build.odds_first_beats = compared.odds_first_beats[b];
    build.rival = !listed;
    if (listed)
      view.builds[b] = std::move(build);
    else
      view.builds.push_back(std::move(build));
  }
  view.compared = static_cast<int>(compared.choices.size());
  if (proven && !compared.settled)
    view.notes.emplace_back(
        "Not settled: a build beyond those compared may be best in more than 5 % of the draws.");
}

}  // namespace

std::string_view status_text(plan::Outcome::Status status) {
  switch (status) {
    case plan::Outcome::Status::proven:
      return "proven";
    case plan::Outcome::Status::not_proven:
      return "not proven";
    case plan::Outcome::Status::impossible:
      return "impossible";
  }
  return {};
}

sheet::Proof proof_of_given(Planning& planning, const plan::PlannedChoice& given,
                            const Setup& setup, const LongJob& job) {
  const auto outcome =
      planning.plan({.keep = 1, .first_only = false, .stop = job.stop, .progress = job.progress});
  sheet::Proof unplanned;
  unplanned.status = "not planned";
  if (outcome.status == plan::Outcome::Status::impossible) {
    unplanned.note =
        "This build was given, not planned. No build of this catalog satisfies the whole brief.";
    return unplanned;
  }
  if (outcome.status != plan::Outcome::Status::proven) {
    unplanned.note =
        "This build was given, and the search for a better one was stopped: nothing is proven "
        "about it.";
    return unplanned;
  }
  const plan::PlannedChoice& best = outcome.best.front();
  if (same_parts(best.build, given.build)) {
    sheet::Proof proof = proof_of(planning, outcome);
    proof.note += " This build was given; the search for this sheet came to the very same parts.";
    if (setup != Setup{})
      proof.note += " Mounts and fan speeds are those of its file; what is proven is the parts.";
    return proof;
  }
  unplanned.status = "another build is best";
  unplanned.note = fmt::format(
      "This build was given, not planned. The best build that meets the brief has other parts and "
      "scores {}; this one scores {}. The score is what a build is worth under the brief, not its "
      "price.",
      to_string(in_first_currency(planning.brief(), best.score)),
      to_string(in_first_currency(planning.brief(), given.score)));
  return unplanned;
}

sheet::Asked asked_under(const Brief& brief) {
  return {.brief_name = brief.name,
          .brief_file = brief.file,
          .as_of = brief.as_of,
          .market = brief.markets.front().market};
}

// decision/plan/README.md, The score.
std::string_view why_not_counted(std::string_view worth) {
  return worth == "quiet" ? "the air engine tells how loud a whole build is, but the search has no "
                            "bound of it for "
                            "part of one"
                          : "its engine is not there";
}

std::vector<std::string> notes_on(const Brief& brief, const Workshop& workshop, bool scored) {
  std::vector<std::string> notes;
  if (scored)
    notes.emplace_back(
        "The score is money: the first budget times how far the targets are reached (what goes "
        "over a target counts little), "
        "plus saved_frac of what is left. A build that reaches every target exactly is worth its "
        "budget.");
  for (const auto& [worth, money] : brief.worths)
    notes.push_back(fmt::format("worths.{} ({}) counts nothing in the score: {}.", worth,
                                to_string(money), why_not_counted(worth)));
  if (!brief.supply_reserve_frac)
    notes.emplace_back("The brief asks for no reserve of the supply (limits.supply_reserve_frac).");
  if (!workshop.skipped.empty())
    notes.push_back(
        workshop.skipped.count() == 1
            ? "1 bad row of the catalog was left out."
            : fmt::format("{} bad rows of the catalog were left out.", workshop.skipped.count()));
  return notes;
}

sheet::PlannedBuild view_of(Planning& planning, const plan::PlannedChoice& choice,
                            const Setup* setup) {
  const Brief& brief = planning.brief();
  sheet::PlannedBuild view;
  view.score = in_first_currency(brief, choice.score);
  for (std::size_t m = 0; m < brief.markets.size(); ++m) {
    view.markets.push_back(brief.markets[m].market);
    view.prices.push_back({brief.markets[m].budget.currency, choice.prices[m]});
  }
  CellDraws draws(planning.catalog());
  view.parts = part_lines(planning.catalog(), brief, choice.build, setup);
  view.titles = title_lines(planning.catalog(), brief, choice.build, draws);
  view.odds_all_hold =
      odds_all_hold(planning.catalog(), brief, &planning.prices(), choice.build, setup);
  view.claims = claims_of(planning.catalog(), brief, &planning.prices(), choice.build, setup);
  return view;
}

Planned plan_brief(const Workshop& workshop, Planning& planning, const PlanRequest& request) {
  Planned out;
  const auto outcome = planning.plan({.keep = request.best,
                                      .first_only = false,
                                      .stop = request.job.stop,
                                      .progress = request.job.progress});
  out.status = outcome.status;
  out.choices = outcome.best;
  out.view.brief_name = planning.brief().name;
  out.view.brief_file = planning.brief().file;
  out.view.as_of = planning.brief().as_of;
  out.view.proof = proof_of(planning, outcome);
  for (const plan::PlannedChoice& choice : outcome.best)
    out.view.builds.push_back(view_of(planning, choice));
  if (!outcome.best.empty()) {
    add_rivals(planning, request, outcome.status == plan::Outcome::Status::proven, out);
    out.standing = standing(out.view.builds.front().claims);
  }
  if (outcome.status == plan::Outcome::Status::impossible) {
    Conflicting found = conflicting(planning, request.job);
    out.view.conflicts = std::move(found.conflicts);
    for (std::string& note : found.notes) out.view.notes.push_back(std::move(note));
  }
  out.stopped = request.job.stop && request.job.stop();
  for (std::string& note : notes_on(planning.brief(), workshop, !out.view.builds.empty()))
    out.view.notes.push_back(std::move(note));
  if (out.view.builds.size() > 1)
    out.view.notes.push_back(fmt::format(
        "Odds of being best are counted over 256 draws, among the best builds of {} pairs of "
        "processor and chip; builds that are best in more than 5 % of the draws are listed even "
        "beyond the number asked for.",
        out.view.compared));
  return out;
}

}  // namespace rigproof::app
