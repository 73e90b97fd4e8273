#include "app/planning.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "app/frame_model.hpp"
#include "base/contract.hpp"

namespace rigproof::app {

std::vector<plan::Requirement> requirements(const Catalog& catalog, const Wish& wish) {
  std::vector<plan::Requirement> out;
  out.reserve(wish.insisted.size() + wish.without.size());
  for (const PartRef& part : wish.insisted)
    out.push_back({fmt::format("insist.{}", catalog.id(part)), 0,
                   fmt::format("{} is in the build", catalog.name(part))});
  for (const PartRef& part : wish.without)
    out.push_back({fmt::format("without.{}", catalog.id(part)), 0,
                   fmt::format("{} is not in the build", catalog.name(part))});
  return out;
}

Wish left_of(const Catalog& catalog, const Wish& wish, const std::set<std::string>& dropped) {
  Wish out = wish;
  std::erase_if(out.insisted, [&](PartRef part) {
    return dropped.contains(fmt::format("insist.{}", catalog.id(part)));
  });
  std::erase_if(out.without, [&](PartRef part) {
    return dropped.contains(fmt::format("without.{}", catalog.id(part)));
  });
  return out;
}

// What a conflict meets in explains it; nothing hangs on it. So often may a search ask about one
// rule whether to go on, once every 64 choices or refusals, before it is left unsettled (ours).
constexpr int most_asked_of_a_rule = 1000;

struct Planning::Parts {
  Parts(const Workshop& shop, const Brief& the_brief, PriceBook the_prices)
      : workshop(shop),
        brief(the_brief),
        prices(std::move(the_prices)),
        verdicts(shop.catalog, searching_rules(), 0),
        frames(make_frame_model(shop.catalog, the_brief, verdicts.draws())) {}
  const Workshop& workshop;
  const Brief& brief;
  PriceBook prices;
  plan::Verdicts verdicts;
  plan::FrameModel frames;
};

Planning::Planning(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Planning::~Planning() = default;

Result<std::unique_ptr<Planning>> Planning::start(const Workshop& workshop, const Brief& brief) {
  auto prices = PriceBook::make(workshop.catalog, brief);
  if (!prices) return tl::unexpected(prices.error());
  return std::unique_ptr<Planning>(
      new Planning(std::make_unique<Parts>(workshop, brief, std::move(*prices))));
}

const Catalog& Planning::catalog() const { return parts_->workshop.catalog; }
const Brief& Planning::brief() const { return parts_->brief; }
const PriceBook& Planning::prices() const { return parts_->prices; }
const plan::FrameModel& Planning::frames() const { return parts_->frames; }

plan::PlanOutcome Planning::plan(const plan::PlanOptions& options) {
  return plan::plan({.catalog = catalog(),
                     .brief = brief(),
                     .prices = prices(),
                     .frames = parts_->frames,
                     .verdicts = parts_->verdicts},
                    options);
}

Result<plan::MpsModel> Planning::integer_program(
    const std::function<bool()>& stop,
    const std::function<void(std::size_t done, std::size_t all)>& values) {
  plan::PlanOptions options;
  options.with_outdone = true;
  options.stop = stop;
  return plan::integer_program({.catalog = catalog(),
                                .brief = brief(),
                                .prices = prices(),
                                .frames = parts_->frames,
                                .verdicts = parts_->verdicts},
                               options, values);
}

Result<plan::Outlook> Planning::outlook(const plan::OutlookOptions& options) {
  return plan::outlook({.catalog = catalog(),
                        .brief = brief(),
                        .prices = prices(),
                        .frames = parts_->frames,
                        .verdicts = parts_->verdicts},
                       options);
}

Result<plan::PlanOutcome> Planning::plan_under(const Brief& other,
                                               const plan::PlanOptions& options) {
  const auto prices = PriceBook::make(catalog(), other, Faulty::skip);
  if (!prices) return tl::unexpected(prices.error());
  const auto frames = make_frame_model(catalog(), other, parts_->verdicts.draws());
  return plan::plan({.catalog = catalog(),
                     .brief = other,
                     .prices = *prices,
                     .frames = frames,
                     .verdicts = parts_->verdicts},
                    options);
}

plan::Staircase Planning::staircase(const plan::PlanOptions& options,
                                    const plan::AskedCaps& asked) {
  return plan::staircase({.catalog = catalog(),
                          .brief = brief(),
                          .prices = prices(),
                          .frames = parts_->frames,
                          .verdicts = parts_->verdicts},
                         options, asked);
}

std::vector<plan::ConflictSet> Planning::conflicts(const LongJob& job, const Wish& wish) {
  std::vector<plan::Requirement> all = plan::requirements(brief(), &catalog());
  std::set<std::string> of_wish;
  for (plan::Requirement& requirement : requirements(catalog(), wish)) {
    of_wish.insert(requirement.path);
    all.push_back(std::move(requirement));
  }
  const auto possible = [&](const std::set<std::string>& dropped) {
    return satisfiable(plan::without(brief(), dropped), left_of(catalog(), wish, dropped), {}, job);
  };
  std::vector<plan::ConflictSet> sets = plan::conflicts(all, possible, of_wish);
  const auto wished = [&](const plan::Requirement& each) { return of_wish.contains(each.path); };
  if (of_wish.empty() || std::ranges::any_of(sets.front().requirements, wished)) return sets;
  // A kept part that is let go has to be bought, and may not be on offer: then less was forbidden
  // with it. Kept parts stay, and what stands against the wish is found among the rest.
  std::erase_if(all, [](const plan::Requirement& each) { return each.path.starts_with("keep."); });
  return plan::conflicts(all, possible, of_wish);
}

Planning::MetIn Planning::met_in(const plan::ConflictSet& conflict, const LongJob& job,
                                 const Wish& wish) {
  std::set<std::string> others;
  for (const plan::Requirement& requirement : plan::requirements(brief()))
    others.insert(requirement.path);
  for (const plan::Requirement& requirement : requirements(catalog(), wish))
    others.insert(requirement.path);
  for (const plan::Requirement& requirement : conflict.requirements) others.erase(requirement.path);
  const Wish wish_alone = left_of(catalog(), wish, others);
  const auto rules_in = [&](const Brief& alone) {
    MetIn out;
    for (const Rule* rule : planning_rules()) {
      if (rule->grade != Grade::must) continue;
      int asked = 0;  // by the search, after a number of choices: the same on every machine
      LongJob briefly = job;
      briefly.stop = [&] { return ++asked > most_asked_of_a_rule || (job.stop && job.stop()); };
      const auto opens = satisfiable(alone, wish_alone, rule->id, briefly);
      if (opens.value_or(false)) out.rules.emplace_back(rule->id);
      if (!opens && asked > most_asked_of_a_rule) ++out.not_settled;
    }
    return out;
  };
  MetIn out = rules_in(plan::without(brief(), others));
  if (!out.rules.empty() || (wish.insisted.empty() && wish.without.empty())) return out;
  std::erase_if(others, [](const std::string& path) { return path.starts_with("keep."); });
  return rules_in(plan::without(brief(), others));  // as in conflicts(): kept parts may be needed
}

std::optional<plan::Scale> Planning::scale_of(const Brief& brief, const std::string& path) {
  return plan::scale_of(catalog(), parts_->verdicts.draws(), brief, path);
}

plan::Relaxation Planning::relaxation(const Brief& beside, const std::string& path,
                                      const std::optional<plan::Scale>& scale, const LongJob& job,
                                      const Wish& wish) {
  if (const MarketGoal* market = plan::market_of_budget(beside, path); market != nullptr) {
    const LeastPrice least = least_price(beside, market->market, job, wish);
    if (!least.known) return {};
    if (!least.minor) return {.how = plan::Easing::not_enough, .to = 0.0, .beyond = {}};
    return {.how = plan::Easing::value, .to = static_cast<double>(*least.minor), .beyond = {}};
  }
  const Wish left = left_of(catalog(), wish, {path});
  return plan::smallest_easing(
      beside, path, scale.value_or(plan::Scale{}),
      [&](const Brief& relaxed) { return satisfiable(relaxed, left, {}, job); });
}

Planning::LeastPrice Planning::least_price(const Brief& brief, const std::string& market,
                                           const LongJob& job, const Wish& wish) {
  const auto outcome = plan_under(plan::for_least_price(brief, market), {.keep = 1,
                                                                         .first_only = false,
                                                                         .without = wish.without,
                                                                         .insisted = wish.insisted,
                                                                         .stop = job.stop,
                                                                         .progress = job.progress});
  if (!outcome || outcome->status == plan::Outcome::Status::not_proven) return {};
  if (outcome->best.empty()) return {.known = true, .minor = {}};
  return {.known = true, .minor = outcome->best.front().prices.front()};
}

std::optional<bool> Planning::satisfiable(const Brief& relaxed, const Wish& wish,
                                          std::string_view without_rule, const LongJob& job) {
  const auto outcome = plan_under(relaxed, {.keep = 1,
                                            .first_only = true,
                                            .without = wish.without,
                                            .insisted = wish.insisted,
                                            .without_rule = without_rule,
                                            .stop = job.stop,
                                            .progress = job.progress});
  if (!outcome) return {};
  if (outcome->status == plan::Outcome::Status::impossible) return false;
  if (outcome->best.empty()) return {};
  return true;
}

std::optional<plan::PlannedChoice> Planning::scored(const Build& build) const {
  plan::PlannedChoice out{
      .build = build, .score = 0, .prices = std::vector<std::int64_t>(brief().markets.size(), 0)};
  for (int k = 0; k < kind_count; ++k)
    for (const Chosen& part : build.of(static_cast<Kind>(k)))
      for (int market = 0; market < prices().markets(); ++market) {
        const auto price = prices().price({static_cast<Kind>(k), part.row}, market, part.count);
        if (!price) return {};
        out.prices[static_cast<std::size_t>(market)] += price->minor * part.count;
      }
  const auto budget = static_cast<double>(brief().markets.front().budget.minor);
  double score = brief().saved_frac * (budget - static_cast<double>(out.prices.front()));
  const bool rated = build.has(Kind::cpu) && build.has(Kind::board) && build.has(Kind::memory);
  if (parts_->frames.has_titles && rated) {
    const Row cpu = build.one(Kind::cpu);
    const int memory =
        parts_->frames.memory_class(cpu, build.one(Kind::board), build.of(Kind::memory).front());
    score = budget * parts_->frames.utility(cpu, memory, build.one(Kind::gpu)) +
            score;  // in the order of (P1)
  }
  out.score = std::llround(score);
  return out;
}

}  // namespace rigproof::app
