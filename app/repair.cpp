#include "app/repair.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/conflicting.hpp"
#include "app/differences.hpp"
#include "app/plan_brief.hpp"

namespace rigproof::app {
namespace {

// The line of the brief that names the part a claim is about; 0: none does.
int line_of(const Brief& brief, const Claim& claim) {
  for (const auto& [list, key] : {std::pair{&brief.keep, "keep"}, {&brief.because, "because"}})
    for (const ForcedPart& part : *list) {
      const auto line = brief.lines.find(fmt::format("{}.{}", key, name_of(part.kind)));
      if (part.id == claim.where && line != brief.lines.end()) return line->second;
    }
  return 0;
}

std::string says_of(const Claim& claim) {
  if (claim.verdict == Verdict::unknown) return "Not known: " + claim.statement;
  return claim.consequence.empty() ? claim.statement : claim.consequence;
}

// What no plan would have: more of a kept part than there is, and claims that the brief does not
// accept.
std::vector<sheet::Wrong> wrong_with(const Planning& planning, const Build& build,
                                     const std::vector<Claim>& claims) {
  const Brief& brief = planning.brief();
  std::vector<sheet::Wrong> out;
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    const auto line = brief.lines.find(fmt::format("keep.{}", name_of(kind)));
    for (const Chosen& part : build.of(kind))
      if (part.count > 1 && planning.prices().kept({kind, part.row}))
        out.push_back(
            {.what = "part",
             .id = std::string(planning.catalog().id({kind, part.row})),
             .says = fmt::format("[keep] has one piece of it, the build has {}.", part.count),
             .line = line == brief.lines.end() ? 0 : line->second});
  }
  for (const Claim& claim : claims) {
    if (claim.grade != Grade::must) continue;
    const auto rule = std::ranges::find(rulebook(), std::string_view(claim.id), &Rule::id);
    if (rule == rulebook().end() || admitted(**rule, claim.verdict, brief)) continue;
    out.push_back({.what = "claim",
                   .id = claim.id,
                   .says = says_of(claim),
                   .line = line_of(brief, claim),
                   .claim = claim});
  }
  return out;
}

class Mender {
 public:
  Mender(Planning& planning, const RepairRequest& request, Repaired& out)
      : planning_(planning), request_(request), out_(out), view_(out.view) {}

  void mend() {
    const Build& build = request_.build.build;
    auto scored = planning_.scored(build);
    if (!std::ranges::all_of(needed_kinds, [&](Kind kind) { return build.has(kind); }))
      scored.reset();  // what is missing would cost something
    const sheet::PlannedBuild now = view_of(
        planning_, scored.value_or(plan::PlannedChoice{
                       .build = build,
                       .score = 0,
                       .prices = std::vector<std::int64_t>(planning_.brief().markets.size(), 0)}));
    if (scored) {
      view_.score_now = now.score;
      view_.markets = now.markets;
      view_.prices_now = now.prices;
    }
    view_.wrong = wrong_with(planning_, build, now.claims);
    if (!any_build_at_all()) return;
    const auto [swaps, mended] = fewest_swaps();
    if (!mended) return;
    out_.choice = mended;
    view_.swaps = swaps;
    const sheet::PlannedBuild& repaired = view_.repaired.emplace(view_of(planning_, *mended));
    out_.standing = standing(repaired.claims);
    view_.differences =
        differences(planning_, {build, now, scored.has_value()}, {mended->build, repaired});
    try_one_more(swaps, *mended, repaired);
  }

 private:
  plan::PlanOutcome within(int swaps) {
    return planning_.plan({.stop = request_.job.stop,
                           .progress = request_.job.progress,
                           .stay_near = &request_.build.build,
                           .most_swaps = swaps});
  }

  bool any_build_at_all() {
    // Also of what only this build has, such as a third drive: hence near it, however far.
    constexpr int any_number = 1000;
    const auto any = planning_.plan({.first_only = true,
                                     .stop = request_.job.stop,
                                     .progress = request_.job.progress,
                                     .stay_near = &request_.build.build,
                                     .most_swaps = any_number});
    if (!any.best.empty()) return true;
    if (any.status != plan::Outcome::Status::impossible) {
      view_.status = status_text(any.status);
      return false;
    }
    view_.status = status_text(any.status);
    Conflicting found = conflicting(planning_, request_.job);
    view_.conflicts = std::move(found.conflicts);
    view_.notes.insert(view_.notes.end(), found.notes.begin(), found.notes.end());
    return false;
  }

  // Ends: some build satisfies the brief, and it is not more swaps away than both have parts.
  std::pair<int, std::optional<plan::PlannedChoice>> fewest_swaps() {
    for (int swaps = 0; !request_.most_swaps || swaps <= *request_.most_swaps; ++swaps) {
      const plan::PlanOutcome outcome = within(swaps);
      if (outcome.status == plan::Outcome::Status::impossible) continue;
      view_.status = status_text(outcome.status);
      if (outcome.best.empty()) return {};
      return {swaps, outcome.best.front()};  // the fewest, though perhaps not the best of these
    }
    view_.status = "out of reach";
    return {};
  }

  void try_one_more(int swaps, const plan::PlannedChoice& mended,
                    const sheet::PlannedBuild& mended_view) {
    const plan::PlanOutcome more = within(swaps + 1);
    if (more.status != plan::Outcome::Status::proven) return;
    view_.one_more_known = true;
    const plan::PlannedChoice& best = more.best.front();
    if (best.score <= mended.score) return;
    const sheet::PlannedBuild view = view_of(planning_, best);
    view_.one_more = differences(planning_, {mended.build, mended_view}, {best.build, view});
    view_.one_more_from_build = slot_changes(planning_, request_.build.build, best.build);
  }

  Planning& planning_;
  const RepairRequest& request_;
  Repaired& out_;
  sheet::Repair& view_;
};

}  // namespace

Repaired repair(const Workshop& workshop, Planning& planning, const RepairRequest& request) {
  Repaired out;
  out.view.asked = asked_under(planning.brief());
  out.view.build_name = request.build.name;
  out.view.build_file = request.file;
  out.view.asked_at_most = request.most_swaps;
  Mender(planning, request, out).mend();
  out.stopped = request.job.stop && request.job.stop();
  if (!request.build.setup.mounts.empty())
    out.view.notes.emplace_back(
        "Where the build file fixes mounts, that is not kept: where parts sit is decided anew.");
  for (std::string& note : notes_on(planning.brief(), workshop, out.view.repaired.has_value()))
    out.view.notes.push_back(std::move(note));
  return out;
}

}  // namespace rigproof::app
