#include "app/insist.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/conflicting.hpp"
#include "app/differences.hpp"
#include "app/plan_brief.hpp"
#include "base/text.hpp"

namespace rigproof::app {
namespace {

// Ids that hold the word, or the nearest one by spelling; at most four.
std::string near_ids(const Catalog& catalog, const std::string& word) {
  constexpr std::size_t most = 4;
  std::vector<std::string_view> all;
  std::vector<std::string_view> holding;
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    for (Row row = 0; row < catalog.rows(table_of(kind)); ++row) {
      all.push_back(catalog.id({kind, row}));
      if (!word.empty() && all.back().find(word) != std::string_view::npos)
        holding.push_back(all.back());
    }
  }
  if (holding.empty())
    if (const auto near = nearest(word, all)) holding.push_back(*near);
  if (holding.empty()) return {};
  std::string out = "; did you mean ";
  for (std::size_t i = 0; i < std::min(holding.size(), most); ++i)
    out += fmt::format("{}{}", i == 0 ? "" : ", ", holding[i]);
  if (holding.size() > most) out += fmt::format(" or another of {}", holding.size());
  return out + "?";
}

Result<std::vector<PartRef>> parts_of(const Catalog& catalog, const std::vector<std::string>& ids) {
  std::vector<PartRef> out;
  for (const std::string& id : ids) {
    const auto part = catalog.find_part(id);
    if (!part)
      return bad_input(
          fmt::format("\"{}\": no part of the catalog has this id{}", id, near_ids(catalog, id)));
    if (std::ranges::find(out, *part) == out.end()) out.push_back(*part);
  }
  return out;
}

// How many different parts of a kind a build may have.
int most_of(Kind kind) {
  if (kind == Kind::storage) return 2;
  return kind == Kind::other ? Build::most_of_a_kind : 1;
}

// Too many of a kind: said at once, since no easing of any brief can help.
std::optional<std::string> too_many(const Catalog& catalog, const std::vector<PartRef>& insisted) {
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    std::string ids;
    int count = 0;
    for (const PartRef& part : insisted) {
      if (part.kind != kind) continue;
      ids += fmt::format("{}{}", count == 0 ? "" : ", ", catalog.id(part));
      ++count;
    }
    if (count > most_of(kind))
      return fmt::format(
          "a plan takes at most {} of kind {}, these are {}: {}",
          most_of(kind) == 1 ? std::string("one part") : fmt::format("{} parts", most_of(kind)),
          name_of(kind), count, ids);
  }
  return {};
}

// What the wish would cost if money were no matter.
void tell_unbudgeted(Planning& planning, const Wish& wish, const LongJob& job,
                     sheet::Insist& view) {
  const Brief& brief = planning.brief();
  Brief lifted = plan::for_least_price(brief, brief.markets.front().market);
  for (MarketGoal& market : lifted.markets) market.budget.minor = most_budget_minor;
  const auto cheapest = planning.plan_under(lifted, {.without = wish.without,
                                                     .insisted = wish.insisted,
                                                     .stop = job.stop,
                                                     .progress = job.progress});
  if (!cheapest || cheapest->status != plan::Outcome::Status::proven) return;
  for (std::size_t m = 0; m < brief.markets.size(); ++m) {
    const Money price{brief.markets[m].budget.currency, cheapest->best.front().prices[m]};
    view.markets.push_back(brief.markets[m].market);
    view.unbudgeted_prices.push_back(price);
    view.over_budgets.push_back({price.currency, price.minor - brief.markets[m].budget.minor});
  }
}

void tell_conflicts(Planning& planning, const Wish& wish, const LongJob& job, sheet::Insist& view) {
  if (!wish.insisted.empty() || !wish.without.empty()) tell_unbudgeted(planning, wish, job, view);
  Conflicting found = conflicting(planning, job, wish);
  view.conflicts = std::move(found.conflicts);
  view.notes.insert(view.notes.end(), found.notes.begin(), found.notes.end());
}

}  // namespace

Result<Wish> wish_of(const Catalog& catalog, const std::vector<std::string>& insisted,
                     const std::vector<std::string>& without) {
  auto in = parts_of(catalog, insisted);
  if (!in) return tl::unexpected(in.error());
  auto out = parts_of(catalog, without);
  if (!out) return tl::unexpected(out.error());
  for (const PartRef& part : *in)
    if (std::ranges::find(*out, part) != out->end())
      return bad_input(fmt::format("{}: is both insisted on and done without", catalog.id(part)));
  if (const auto says = too_many(catalog, *in)) return bad_input(*says);
  return Wish{.insisted = std::move(*in), .without = std::move(*out)};
}

Insisted insist_on(const Workshop& workshop, Planning& planning, const Wish& wish,
                   const LongJob& job) {
  Insisted out;
  sheet::Insist& view = out.view;
  const Brief& brief = planning.brief();
  view.asked = asked_under(brief);
  const auto moved = [&](PartRef part) {
    return moved_part(planning.catalog(), brief, planning.prices(), part, 1);
  };
  for (const PartRef& part : wish.insisted) view.insisted.push_back(moved(part));
  for (const PartRef& part : wish.without) view.without.push_back(moved(part));

  const auto free = planning.plan({.stop = job.stop, .progress = job.progress});
  if (!free.best.empty()) view.free = view_of(planning, free.best.front());
  const auto with = planning.plan({.without = wish.without,
                                   .insisted = wish.insisted,
                                   .stop = job.stop,
                                   .progress = job.progress});
  const auto stopped = [](const plan::PlanOutcome& outcome) {
    return outcome.status == plan::Outcome::Status::not_proven;
  };
  view.status = status_text(with.status);
  if (!with.best.empty()) {
    const plan::PlannedChoice& choice = out.choice.emplace(with.best.front());
    const sheet::PlannedBuild& wished = view.with.emplace(view_of(planning, choice));
    out.standing = standing(wished.claims);
    if (view.free && !stopped(free) && !stopped(with))
      view.differences =
          differences(planning, {free.best.front().build, *view.free}, {choice.build, wished});
  }
  if (stopped(free) || stopped(with))
    view.notes.emplace_back(
        "Stopped before both builds were proven: what lies between them is not told.");
  const bool hopeless = free.status == plan::Outcome::Status::impossible;
  if (hopeless) view.notes.emplace_back("Nothing satisfies the brief even without this wish.");
  if (hopeless || with.status == plan::Outcome::Status::impossible)
    tell_conflicts(planning, hopeless ? Wish{} : wish, job, view);
  out.stopped = job.stop && job.stop();
  for (std::string& note : notes_on(brief, workshop, view.with.has_value()))
    view.notes.push_back(std::move(note));
  return out;
}

}  // namespace rigproof::app
