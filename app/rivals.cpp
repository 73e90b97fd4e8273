#include "app/rivals.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "base/contract.hpp"

namespace rigproof::app {
namespace {

using Group = std::pair<Row, int>;  // processor, chip; -1 is no card
constexpr double most_memory_cases = 2e6;
constexpr double never = std::numeric_limits<double>::infinity();

Group group_of(const Planning& planning, const Build& build) {
  const Row gpu = build.one(Kind::gpu);
  return {build.one(Kind::cpu), gpu == no_row ? -1 : planning.frames().chip(gpu)};
}

// The 13th smallest: a number is above more than twelve of them exactly when it is above this one.
double thirteenth(DrawScores values) {
  std::ranges::nth_element(values, values.begin() + rival_above_draws);
  return values[rival_above_draws];
}

// The same in every draw: then the order of the means is the order in each.
bool certain(const DrawScores& values) {
  const auto [least, most] = std::ranges::minmax(values);
  return most - least < 1e-9 * (1.0 + std::abs(most));
}

// For each group, the mean score above which its best build could be a rival of the first build.
class Thresholds {
 public:
  Thresholds(const Planning& planning, const DrawScores& first)
      : planning_(planning),
        first_(first),
        worth_(static_cast<double>(planning.brief().markets.front().budget.minor)),
        first_thirteenth_(thirteenth(first)),
        first_certain_(certain(first)),
        cpus_(buyable(Kind::cpu)),
        gpus_(buyable(Kind::gpu)),
        boards_(buyable(Kind::board)),
        kits_(buyable(Kind::memory)) {
    for (int market = 0; market < planning.prices().markets(); ++market) {
      rest_minor_.push_back(0);
      for (const Kind kind : needed_kinds)
        if (kind != Kind::cpu) rest_minor_.back() += cheapest(kind, market);
    }
  }

  /// Memory classes are looked for over every processor, board and kit: in a whole market that
  /// would take longer than the plan.
  [[nodiscard]] bool too_many() const {
    return static_cast<double>(cpus_.size()) * static_cast<double>(boards_.size()) *
               static_cast<double>(kits_.size()) >
           most_memory_cases;
  }

  /// Of all groups but these. False: stopped.
  bool find(const std::set<Group>& but, const LongJob& job) {
    for (const Row cpu : cpus_) {
      add_without_card(cpu, but);
      const std::vector<Row> cards = cards_within_reach(cpu);
      if (cards.empty()) continue;
      const std::vector<int> classes = memory_classes(cpu, cards.front());
      for (const Row gpu : cards) {
        const Group group{cpu, planning_.frames().chip(gpu)};
        if (but.contains(group)) continue;
        if (job.stop && job.stop()) return false;
        double& mean = by_group_.try_emplace(group, never).first->second;
        for (const int memory : classes) {
          const double needed = threshold(cpu, memory, gpu);
          if (needed == never) break;  // slower memory is not better in any draw
          mean = std::min(mean, needed);
        }
      }
    }
    return true;
  }

  /// Could a group that is not among these be a rival, if no build of it scores over `mean`?
  [[nodiscard]] bool any_within(double mean, const std::set<Group>& but) const {
    return std::ranges::any_of(by_group_, [&](const auto& entry) {
      return mean > entry.second && !but.contains(entry.first);
    });
  }

 private:
  const Catalog& catalog() const { return planning_.catalog(); }

  std::int64_t price(Kind kind, Row row, int market) const {  // of a buyable part; 0: no part
    if (row == no_row) return 0;
    const auto price = planning_.prices().price({kind, row}, market);
    RP_EXPECT(price.has_value());
    return price ? price->minor : 0;
  }

  std::vector<Row> buyable(Kind kind) const {
    std::vector<Row> out;
    for (Row row = 0; row < catalog().rows(table_of(kind)); ++row) {
      bool everywhere = true;
      for (int market = 0; market < planning_.prices().markets(); ++market)
        everywhere = everywhere && planning_.prices().price({kind, row}, market);
      if (everywhere) out.push_back(row);
    }
    return out;
  }

  std::int64_t cheapest(Kind kind, int market) const {
    std::optional<std::int64_t> out;
    for (const Row row : buyable(kind))
      out = std::min(out.value_or(max_minor), price(kind, row, market));
    return out.value_or(0);
  }

  // The least that a build with these two costs; nullopt: over a budget whatever else is in it.
  std::optional<std::int64_t> least_price(Row cpu, Row gpu) const {
    std::vector<std::int64_t> least;
    for (int market = 0; market < planning_.prices().markets(); ++market) {
      const auto m = static_cast<std::size_t>(market);
      least.push_back(price(Kind::cpu, cpu, market) + price(Kind::gpu, gpu, market) +
                      rest_minor_[m]);
      if (least.back() > planning_.brief().markets[m].budget.minor) return {};
    }
    return least.front();
  }

  double money_left(std::int64_t price) const {
    return planning_.brief().saved_frac * (worth_ - static_cast<double>(price));
  }

  // Without a card every draw scores the same.
  void add_without_card(Row cpu, const std::set<Group>& but) {
    const auto least = least_price(cpu, no_row);
    if (!first_certain_ && least && money_left(*least) + 1.0 > first_thirteenth_ &&
        !but.contains({cpu, -1}))
      by_group_.try_emplace({cpu, -1}, first_thirteenth_);
  }

  // (R4), for a processor and a card with the fastest memory of all.
  std::vector<Row> cards_within_reach(Row cpu) const {
    double mt_s = 0.0;
    for (const Row kit : kits_)
      mt_s = std::max(mt_s, planning_.frames().fastest_mt_s(cpu, {kit, 1}));
    std::vector<Row> out;
    for (const Row gpu : gpus_) {
      const auto least = least_price(cpu, gpu);
      const double most = worth_ * planning_.frames().utility_most(cpu, mt_s, gpu);
      // Two that score the same in every draw are no rivals.
      if (!least || (first_certain_ && most <= 0.0)) continue;
      if (most + money_left(*least) + 1.0 > first_thirteenth_) out.push_back(gpu);
    }
    return out;
  }

  // The fastest first, as any card shows it.
  std::vector<int> memory_classes(Row cpu, Row gpu) const {
    std::map<int, double> found;
    for (const Row board : boards_)
      for (const Row kit : kits_)
        found.try_emplace(planning_.frames().memory_class(cpu, board, {kit, 1}), 0.0);
    std::vector<int> out;
    for (auto& [memory, utility] : found) {
      utility = planning_.frames().utility(cpu, memory, gpu);
      out.push_back(memory);
    }
    std::ranges::stable_sort(out, std::ranges::greater{},
                             [&](int memory) { return found[memory]; });
    return out;
  }

  // (R3); never when (R4) does not hold with the triple's own draws.
  double threshold(Row cpu, int memory, Row gpu) const {
    const DrawScores utility = planning_.frames().utility_draws(cpu, memory, gpu);
    if (first_certain_ && certain(utility)) return never;
    double mean = 0.0;
    for (const double draw : utility) mean += draw / draw_count;
    const auto least = least_price(cpu, gpu);
    if (!least) return never;
    const double left = money_left(*least);
    DrawScores needed{};
    int ahead = 0;
    for (std::size_t i = 0; i < needed.size(); ++i) {
      needed[i] = first_[i] - worth_ * (utility[i] - mean);
      ahead += worth_ * utility[i] + left + 1.0 > first_[i] ? 1 : 0;
    }
    return ahead > rival_above_draws ? thirteenth(needed) : never;
  }

  const Planning& planning_;
  const DrawScores& first_;
  double worth_;
  double first_thirteenth_;
  bool first_certain_;
  std::vector<Row> cpus_, gpus_, boards_, kits_;
  // Per market: the cheapest of every kind that a machine needs, but the processor.
  std::vector<std::int64_t> rest_minor_;
  std::map<Group, double> by_group_;
};

std::set<Group> groups_of(const Planning& planning,
                          const std::vector<plan::PlannedChoice>& choices) {
  std::set<Group> out;
  for (const plan::PlannedChoice& choice : choices) out.insert(group_of(planning, choice.build));
  return out;
}

void count_odds(const Planning& planning, Compared& out) {
  std::vector<DrawScores> scores;
  scores.reserve(out.choices.size());
  for (const plan::PlannedChoice& choice : out.choices)
    scores.push_back(score_draws(planning, choice));
  std::vector<int> wins(scores.size(), 0);
  std::vector<int> behind(scores.size(), 0);
  for (std::size_t i = 0; i < draw_count; ++i) {
    std::size_t best = 0;
    for (std::size_t b = 1; b < scores.size(); ++b) {
      if (scores[b][i] > scores[best][i]) best = b;
      behind[b] += scores[0][i] > scores[b][i] ? 1 : 0;
    }
    ++wins[best];
  }
  for (std::size_t b = 0; b < scores.size(); ++b) {
    out.odds_best.push_back(static_cast<double>(wins[b]) / draw_count);
    out.odds_first_beats.push_back(static_cast<double>(behind[b]) / draw_count);
  }
}

}  // namespace

DrawScores score_draws(const Planning& planning, const plan::PlannedChoice& choice) {
  DrawScores scores{};
  const Brief& brief = planning.brief();
  const auto budget = static_cast<double>(brief.markets.front().budget.minor);
  scores.fill(brief.saved_frac * (budget - static_cast<double>(choice.prices.front())));
  if (!planning.frames().has_titles) return scores;
  const Row cpu = choice.build.one(Kind::cpu);
  const int memory = planning.frames().memory_class(cpu, choice.build.one(Kind::board),
                                                    choice.build.of(Kind::memory).front());
  const auto utility = planning.frames().utility_draws(cpu, memory, choice.build.one(Kind::gpu));
  for (std::size_t i = 0; i < draw_count; ++i) scores[i] += budget * utility[i];
  return scores;
}

Compared compare_listed(const Planning& planning, const std::vector<plan::PlannedChoice>& choices) {
  Compared out;
  out.choices = choices;
  count_odds(planning, out);
  return out;
}

Compared compare_rivals(Planning& planning, const std::vector<plan::PlannedChoice>& proven,
                        int asked, const LongJob& job, std::int64_t most_nodes) {
  RP_EXPECT(!proven.empty());
  Compared out;
  out.choices = proven;
  const DrawScores first = score_draws(planning, proven.front());
  Thresholds thresholds(planning, first);
  out.settled = !planning.frames().has_titles || std::cmp_less(proven.size(), asked);
  bool going =
      !out.settled && !thresholds.too_many() && thresholds.find(groups_of(planning, proven), job);
  for (int keep = asked; going;) {
    // Groups that were not compared score no more than the last that was, in whole units.
    const double most = static_cast<double>(out.choices.back().score) + 1.0;
    out.settled = std::cmp_less(out.choices.size(), keep) ||
                  !thresholds.any_within(most, groups_of(planning, out.choices));
    if (out.settled || keep == most_compared) break;
    keep = std::min(std::max(2 * keep, 16), most_compared);
    std::int64_t nodes = 0;
    const auto more =
        planning.plan({.keep = keep,
                       .first_only = false,
                       .stop = [&] { return nodes > most_nodes || (job.stop && job.stop()); },
                       .progress =
                           [&](const plan::Progress& now) {
                             nodes = now.nodes;
                             if (job.progress) job.progress(now);
                           }});
    most_nodes -= nodes;
    going = more.status == plan::Outcome::Status::proven;
    if (going) out.choices = more.best;
  }
  count_odds(planning, out);
  return out;
}

}  // namespace rigproof::app
