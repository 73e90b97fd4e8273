#include "app/frontier.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/describe.hpp"
#include "app/differences.hpp"
#include "app/plan_brief.hpp"

namespace rigproof::app {
namespace {

// How much score every 50 of money more buys, rounded to whole minor units.
Money per_50(Money gain, Money price_change) {
  const double share = static_cast<double>(sheet::fifty_in(gain.currency).minor) /
                       static_cast<double>(price_change.minor);
  return {gain.currency, std::llround(static_cast<double>(gain.minor) * share)};
}

Standing worse(Standing a, Standing b) {
  if (a == Standing::fails || b == Standing::fails) return Standing::fails;
  return a == Standing::unknown ? a : b;
}

class Climber {
 public:
  Climber(Planning& planning, const FrontierRequest& request, Frontier& out)
      : planning_(planning), request_(request), out_(out), view_(out.view) {}

  void climb() {
    const plan::Staircase found = planning_.staircase(
        {.stop = request_.job.stop, .progress = request_.job.progress},
        {.from = request_.from_minor, .to = request_.to_minor, .ends = settled_in_order()});
    view_.searches = found.searches;
    view_.nodes = found.nodes;
    view_.status = !found.complete ? "not proven" : found.stairs.empty() ? "impossible" : "proven";
    for (std::size_t i = 0; i < found.stairs.size(); ++i) add_step(found.stairs, i);
    for (const plan::Staircase::Caps& caps : found.unsettled)
      view_.unsettled.push_back({.from = money(caps.from), .to = money(caps.to)});
    if (!found.complete) return;
    tell_nine_tenths();
    if (found.stairs.empty())
      tell_least_price();
    else if (found.stairs.front().choice.prices.front() > request_.from_minor)
      view_.least_price = money(found.stairs.front().choice.prices.front());
    if (found.stairs.empty()) return;
    if (found.stairs.back().choice.prices.front() < request_.to_minor)
      view_.runs_out_at = money(found.stairs.back().choice.prices.front());
    look_past_other_budgets(found.stairs.back().choice.score);
  }

 private:
  // What lies at the brief's own budget and below it first, then what a little more buys, then much
  // more: dear builds are many, and may take long. The shares are ours.
  std::vector<std::int64_t> settled_in_order() const {
    const std::int64_t budget = planning_.brief().markets.front().budget.minor;
    return {budget, budget + budget / 16, budget + budget / 8, budget + budget / 4};
  }

  Money money(std::int64_t minor) const { return in_first_currency(planning_.brief(), minor); }

  void add_step(const std::vector<plan::Staircase::Stair>& stairs, std::size_t i) {
    const plan::PlannedChoice& choice = stairs[i].choice;
    sheet::FrontierStep step{.build = view_of(planning_, choice),
                             .thin = 0,
                             .unknown = 0,
                             .covers_to = money(stairs[i].covers_to),
                             .gain = {},
                             .per_50 = {},
                             .slots = {},
                             .titles = {}};
    if (choice.prices.front() > planning_.brief().markets.front().budget.minor)
      judge_under_asked_budget(choice.build, step.build);
    out_.standing = worse(out_.standing, standing(step.build.claims));
    for (const Claim& claim : step.build.claims) {
      step.thin += claim.grade == Grade::must && claim.verdict == Verdict::thin ? 1 : 0;
      step.unknown += claim.grade == Grade::must && claim.verdict == Verdict::unknown ? 1 : 0;
    }
    step.build.claims.clear();
    if (i > 0 && stairs[i - 1].covers_to + 1 == choice.prices.front()) {
      const plan::PlannedChoice& below = stairs[i - 1].choice;
      step.gain = money(choice.score - below.score);
      step.per_50 = per_50(*step.gain, money(choice.prices.front() - below.prices.front()));
      step.slots = slot_changes(planning_, below.build, choice.build);
      step.titles = title_changes(view_.steps.back().build.titles, step.build.titles);
    }
    view_.steps.push_back(std::move(step));
  }

  // Over the brief's own budget a build is judged as if the brief gave as much as is asked about.
  void judge_under_asked_budget(const Build& build, sheet::PlannedBuild& view) const {
    Brief richer = planning_.brief();
    richer.markets.front().budget.minor = request_.to_minor;
    view.claims = claims_of(planning_.catalog(), richer, &planning_.prices(), build);
    view.odds_all_hold = odds_all_hold(planning_.catalog(), richer, &planning_.prices(), build);
  }

  // Where most of what money can buy here is had.
  void tell_nine_tenths() {
    if (view_.steps.size() < 3) return;
    const std::int64_t first = view_.steps.front().build.score.minor;
    const std::int64_t all = view_.steps.back().build.score.minor - first;
    for (const sheet::FrontierStep& step : view_.steps)
      if (10 * (step.build.score.minor - first) >= 9 * all) {
        view_.nine_tenths_at = step.build.prices.front();
        return;
      }
  }

  void tell_least_price() {
    const auto least = planning_.least_price(
        planning_.brief(), planning_.brief().markets.front().market, request_.job);
    if (!least.known)
      view_.notes.emplace_back("Stopped before the least price of any build was known.");
    if (least.minor) view_.least_price = money(*least.minor);
    if (least.known && !least.minor)
      view_.notes.emplace_back(
          "No budget of this market opens the brief: other demands stand against each other. The "
          "command plan names them.");
  }

  // More money in one market buys nothing while the parts are too dear in another.
  void look_past_other_budgets(std::int64_t best_score) {
    Brief lifted = planning_.brief();
    if (lifted.markets.size() < 2) return;
    for (std::size_t m = 1; m < lifted.markets.size(); ++m)
      lifted.markets[m].budget.minor = most_budget_minor;
    const auto more = planning_.plan_under(lifted, {.stop = request_.job.stop,
                                                    .progress = request_.job.progress,
                                                    .first_cap = request_.to_minor});
    if (more && more->status == plan::Outcome::Status::not_proven)
      view_.notes.emplace_back(
          "Stopped before it was known whether budgets of other markets stand in the way.");
    if (!more || more->status != plan::Outcome::Status::proven) return;
    if (more->best.front().score > best_score)
      view_.other_budgets_cost = money(more->best.front().score - best_score);
  }

  Planning& planning_;
  const FrontierRequest& request_;
  Frontier& out_;
  sheet::Frontier& view_;
};

Result<std::int64_t> budget_of(const std::string& option, const std::string& text,
                               const Currency& currency) {
  const auto money = parse_money(text, currency);
  if (!money) return bad_input(fmt::format("{}: {}", option, money.error().message));
  if (money->minor < 0 || money->minor > most_budget_minor)
    return bad_input(fmt::format("{}: a budget is between 0 and {}, not {}", option,
                                 to_string(Money{currency, most_budget_minor}), to_string(*money)));
  return money->minor;
}

}  // namespace

Result<FrontierRequest> frontier_request(const FrontierAsk& ask, const Brief& brief) {
  const Currency& currency = brief.markets.front().budget.currency;
  const auto from = budget_of("from", ask.from, currency);
  if (!from) return tl::unexpected(from.error());
  const auto to = budget_of("to", ask.to, currency);
  if (!to) return tl::unexpected(to.error());
  if (*from > *to)
    return bad_input(fmt::format("from {} is more than to {}", to_string(Money{currency, *from}),
                                 to_string(Money{currency, *to})));
  return FrontierRequest{.from_minor = *from, .to_minor = *to, .job = {}};
}

Frontier frontier_of(const Workshop& workshop, Planning& planning, const FrontierRequest& request) {
  Frontier out;
  const Brief& brief = planning.brief();
  out.view.asked = asked_under(brief);
  out.view.from = in_first_currency(brief, request.from_minor);
  out.view.to = in_first_currency(brief, request.to_minor);
  out.view.counted_from = brief.markets.front().budget;
  Climber(planning, request, out).climb();
  out.stopped = request.job.stop && request.job.stop();
  for (std::string& note : notes_on(brief, workshop, !out.view.steps.empty()))
    out.view.notes.push_back(std::move(note));
  return out;
}

}  // namespace rigproof::app
