#include "app/runner_up.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "app/describe.hpp"
#include "app/differences.hpp"
#include "app/titles.hpp"
#include "base/text.hpp"

namespace rigproof::app {
namespace {

std::string plain_change(Money money) {
  money.minor = std::abs(money.minor);
  return to_string(money);
}

void compare_titles(const sheet::PlannedBuild& chosen, const sheet::PlannedBuild& other,
                    sheet::RunnerUp& out) {
  for (const sheet::TitleChange& title : title_changes(chosen.titles, other.titles)) {
    if (!title.from_fps || !title.to_fps) {
      (title.to_fps ? out.gains : out.loses)
          .push_back(
              fmt::format("the rate in {} is {}known", title.name, title.to_fps ? "" : "un"));
      continue;
    }
    const double change = title.to_fps->value - title.from_fps->value;
    (change > 0 ? out.gains : out.loses)
        .push_back(fmt::format("{} fps {} in {}", readable(std::fabs(change), 2),
                               change > 0 ? "more" : "fewer", title.name));
  }
}

// The first market's change stands in the runner-up itself.
void compare_prices(const sheet::PlannedBuild& chosen, const sheet::PlannedBuild& other,
                    sheet::RunnerUp& out) {
  for (std::size_t m = 1; m < chosen.prices.size(); ++m) {
    const Money change{chosen.prices[m].currency, other.prices[m].minor - chosen.prices[m].minor};
    if (change.minor == 0) continue;
    (change.minor < 0 ? out.gains : out.loses)
        .push_back(fmt::format("{} {} in {}", plain_change(change),
                               change.minor < 0 ? "less" : "more", chosen.markets[m]));
  }
}

double sum_of(const Catalog& catalog, const Build& build, Kind kind, ColumnId each,
              const ColumnId* factor) {
  double sum = 0.0;
  for (const Chosen& part : build.of(kind))
    sum += part.count * catalog.number(each, part.row) *
           (factor != nullptr ? catalog.number(*factor, part.row) : 1.0);
  return sum;
}

void compare_size(double now, double then, std::string_view unit, std::string_view of_what,
                  sheet::RunnerUp& out) {
  if (std::isnan(now) || std::isnan(then) || now == then) return;
  (then > now ? out.gains : out.loses)
      .push_back(fmt::format("{} {} {} of {}", readable(std::fabs(then - now), 4), unit,
                             then > now ? "more" : "less", of_what));
}

void compare_sizes(const Catalog& catalog, const Build& chosen, const Build& other,
                   sheet::RunnerUp& out) {
  constexpr ColumnId modules = column("memory", "modules");
  const auto memory = [&](const Build& build) {
    return sum_of(catalog, build, Kind::memory, column("memory", "module_gib"), &modules);
  };
  const auto storage = [&](const Build& build) {
    return sum_of(catalog, build, Kind::storage, column("storage", "capacity_gb"), nullptr);
  };
  compare_size(memory(chosen), memory(other), "GiB", "memory", out);
  compare_size(storage(chosen), storage(other), "GB", "storage", out);
}

int count_of(const std::vector<Claim>& claims, Verdict verdict) {
  int count = 0;
  for (const Claim& claim : claims)
    count += claim.grade == Grade::must && claim.verdict == verdict ? 1 : 0;
  return count;
}

void compare_claims(const sheet::PlannedBuild& chosen, const sheet::PlannedBuild& other,
                    sheet::RunnerUp& out) {
  for (const Verdict verdict : {Verdict::thin, Verdict::unknown}) {
    const int change = count_of(other.claims, verdict) - count_of(chosen.claims, verdict);
    if (change == 0) continue;
    (change < 0 ? out.gains : out.loses)
        .push_back(fmt::format("{} {} {} claim{}", std::abs(change), change < 0 ? "fewer" : "more",
                               name_of(verdict), std::abs(change) == 1 ? "" : "s"));
  }
}

// Which other places change along with it.
void tell_swaps_along(const Catalog& catalog, const Build& chosen, const Build& other, Kind kind,
                      sheet::RunnerUp& out) {
  std::string along;
  for (int k = 0; k < kind_count; ++k) {
    const Kind beside = static_cast<Kind>(k);
    if (beside == kind) continue;
    const auto a = chosen.of(beside);
    const auto b = other.of(beside);
    if (std::equal(a.begin(), a.end(), b.begin(), b.end())) continue;
    along += fmt::format("{}{}", along.empty() ? "" : "; ", names_in(catalog, other, beside));
  }
  if (!along.empty()) out.loses.push_back("changes along with it: " + along);
}

std::string why_text(const sheet::RunnerUp& runner, const plan::PlanOutcome& outcome) {
  if (outcome.best.empty() && runner.others_fixed) return {};  // the runner-up's words say it
  if (outcome.best.empty())
    return outcome.status == plan::Outcome::Status::impossible
               ? "No build satisfies the brief without it."
               : "Stopped before a build without it was found.";
  if (runner.score_change.minor < 0) return "Chosen for the score.";
  if (runner.score_change.minor > 0) return "Another choice would score more.";
  if (runner.price_change.minor > 0)
    return "Chosen for the price: the next choice scores the same.";
  if (runner.price_change.minor < 0) return "Another choice scores the same for less.";
  return "As good as the next choice, at the same price.";
}

// The brief with every other part of the build forced, where it has one piece of its kind: a brief
// cannot force more.
Brief others_fixed(const Brief& brief, const Catalog& catalog, const Build& build, Kind free) {
  Brief out = brief;
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    const auto parts = build.of(kind);
    const bool one = parts.size() == 1 && parts.front().count == 1;
    const auto names = [&](const ForcedPart& each) { return each.kind == kind; };
    if (kind == free || !one || std::ranges::any_of(out.keep, names) ||
        std::ranges::any_of(out.because, names))
      continue;
    out.because.push_back({kind, std::string(catalog.id({kind, parts.front().row})), ""});
  }
  return out;
}

}  // namespace

bool add_reasons(Planning& planning, const plan::PlannedChoice& choice, sheet::PlannedBuild& view,
                 Beside beside, const LongJob& job) {
  const Catalog& catalog = planning.catalog();
  const Brief& brief = planning.brief();
  for (sheet::PartLine& line : view.parts) {
    if (job.stop && job.stop()) return false;
    if (line.origin == sheet::Origin::kept) continue;
    if (line.origin == sheet::Origin::forced) {
      const auto free = planning.plan_under(
          plan::without(brief, {"because." + line.kind}),
          {.keep = 1, .first_only = false, .stop = job.stop, .progress = job.progress});
      const auto bound = planning.plan(
          {.keep = 1, .first_only = false, .stop = job.stop, .progress = job.progress});
      const bool both = free && free->status == plan::Outcome::Status::proven &&
                        bound.status == plan::Outcome::Status::proven;
      if (both)
        line.because_cost =
            in_first_currency(brief, free->best.front().score - bound.best.front().score);
      continue;
    }
    const auto part = catalog.find_part(line.id);
    if (!part) continue;
    const plan::PlanOptions without_it{.keep = 1,
                                       .first_only = false,
                                       .without = {*part},
                                       .stop = job.stop,
                                       .progress = job.progress};
    const auto outcome =
        beside == Beside::everything
            ? planning.plan(without_it)
            : planning
                  .plan_under(others_fixed(brief, catalog, choice.build, part->kind), without_it)
                  .value_or(plan::PlanOutcome{});
    sheet::RunnerUp runner{.name = {},
                           .id = {},
                           .score_change = in_first_currency(brief, 0),
                           .price_change = in_first_currency(brief, 0),
                           .gains = {},
                           .loses = {},
                           .others_fixed = beside == Beside::nothing};
    if (!outcome.best.empty()) {
      const plan::PlannedChoice& other = outcome.best.front();
      const sheet::PlannedBuild other_view = view_of(planning, other);
      runner.name = names_in(catalog, other.build, part->kind);
      if (const auto parts = other.build.of(part->kind); !parts.empty())
        runner.id = std::string(catalog.id({part->kind, parts.front().row}));
      runner.score_change.minor = other.score - choice.score;
      runner.price_change.minor = other.prices.front() - choice.prices.front();
      compare_titles(view, other_view, runner);
      compare_prices(view, other_view, runner);
      compare_sizes(catalog, choice.build, other.build, runner);
      compare_claims(view, other_view, runner);
      tell_swaps_along(catalog, choice.build, other.build, part->kind, runner);
    }
    line.why = why_text(runner, outcome);
    line.runner_up = std::move(runner);
  }
  return true;
}

}  // namespace rigproof::app
