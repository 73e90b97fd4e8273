#include "decision/plan/outlook_pilot.hpp"

#include <algorithm>
#include <map>
#include <span>
#include <utility>

#include "decision/plan/probe_numbers.hpp"

namespace rigproof::plan::internal {
namespace {

constexpr std::size_t no_rule = ~std::size_t{0};
constexpr int rounds = 5;
constexpr int most_rounds = 20;
constexpr int ask_every = 32;
constexpr double prior_probes = 4.0;
constexpr double least_favor = 0.02;

using Words = std::vector<std::pair<Row, int>>;

Words words_of(const SlotOption& option) {
  Words out;
  for (const Chosen& part : option.parts) out.emplace_back(part.row, part.count);
  std::ranges::sort(out);
  return out;
}

// The favors of one slot for the options of another stock's.
std::vector<double> carried_over(const KindSlot& from, const std::vector<double>& favors,
                                 const KindSlot& to) {
  std::map<Words, double> by_words;
  double sum = 0.0;
  for (std::size_t o = 0; o < favors.size(); ++o) {
    by_words.emplace(words_of(from.options[o]), favors[o]);
    sum += favors[o];
  }
  const double mean = favors.empty() ? 1.0 : sum / static_cast<double>(favors.size());
  std::vector<double> out;
  for (const SlotOption& option : to.options) {
    const auto known = by_words.find(words_of(option));
    out.push_back(known == by_words.end() ? mean : known->second);
  }
  return out;
}

}  // namespace

Pilot::Pilot(Stock& stock, Verdicts& verdicts, const Brief& brief, const PilotWork& work)
    : stock_(stock), judge_(stock, verdicts, {&brief}, Judge::Models::in_their_slot) {
  std::vector<std::int64_t> caps;
  caps.reserve(brief.markets.size());
  for (const MarketGoal& market : brief.markets) caps.push_back(market.budget.minor);
  const int a_round = std::max(work.probes / rounds, 1);
  for (int round = 0; round < rounds || (round < most_rounds && leaf_share() < seldom); ++round) {
    last_rounds_from_ = round < 2 ? 0 : static_cast<std::size_t>((round - 1) * a_round);
    // Each round is drawn by what the earlier ones have learned: more of its probes come far.
    const ProbeGround ground(judge_.ground(favors(stock, [](std::size_t) { return false; })), caps,
                             judge_.tables());
    ProbeGround::Path path = ground.start();
    for (int probe = round * a_round; probe < (round + 1) * a_round; ++probe) {
      if (probe % ask_every == 0 && work.stop && work.stop()) return;
      ProbeNumbers numbers(work.seed, static_cast<std::uint64_t>(probe));
      Judged judged{.choice = {}, .standing = judge_.all()};
      std::ranges::fill(path.choice, -1);
      for (int slot = 0; slot < ground.slots() && judged.standing != 0; ++slot) {
        if (ground.draw(path, slot, numbers.next()) == 0.0) break;
        judge_.ask_at(slot, path.choice, judged);
      }
      ended_.push_back({.choice = path.choice,
                        .rule = judged.refused_by,
                        .over = std::move(judged.refused_over)});
    }
  }
}

Favors Pilot::favors(const Stock& stock,
                     const std::function<bool(std::size_t rule)>& forget) const {
  Favors out;
  for (std::size_t s = 0; s < stock_.slots().size(); ++s) {
    const std::size_t options = stock_.slots()[s].options.size();
    std::vector<double> tried(options, 0.0);
    std::vector<double> refused(options, 0.0);
    double all_tried = 0.0;
    double all_refused = 0.0;
    for (const Ended& probe : ended_) {
      if (probe.choice[s] < 0) continue;
      const auto option = static_cast<std::size_t>(probe.choice[s]);
      ++tried[option];
      ++all_tried;
      if (probe.rule == no_rule || forget(probe.rule)) continue;
      if (std::ranges::find(probe.over, static_cast<int>(s)) == probe.over.end()) continue;
      ++refused[option];
      ++all_refused;
    }
    const double usual = all_tried == 0.0 ? 1.0 : 1.0 - all_refused / all_tried;
    std::vector<double> of_slot(options);
    for (std::size_t o = 0; o < options; ++o)
      of_slot[o] = std::max(
          (tried[o] - refused[o] + prior_probes * usual) / (tried[o] + prior_probes), least_favor);
    out.push_back(std::move(of_slot));
  }
  if (&stock == &stock_) return out;
  Favors carried;
  for (const KindSlot& slot : stock.slots()) {
    std::vector<double> of_slot(slot.options.size(), 1.0);
    for (std::size_t s = 0; s < out.size(); ++s)
      if (stock_.slots()[s].kind == slot.kind)
        of_slot = carried_over(stock_.slots()[s], out[s], slot);
    carried.push_back(std::move(of_slot));
  }
  return carried;
}

double Pilot::leaf_share() const {
  const std::span<const Ended> last(ended_.begin() + static_cast<std::ptrdiff_t>(last_rounds_from_),
                                    ended_.end());
  if (last.empty()) return 1.0;
  const auto leaves = std::ranges::count_if(last, [](const Ended& probe) {
    return probe.rule == no_rule && std::ranges::find(probe.choice, -1) == probe.choice.end();
  });
  return static_cast<double>(leaves) / static_cast<double>(last.size());
}

double Pilot::refused_by(std::size_t rule) const {
  if (ended_.empty()) return 0.0;
  const auto refused = std::ranges::count(ended_, rule, &Ended::rule);
  return static_cast<double>(refused) / static_cast<double>(ended_.size());
}

}  // namespace rigproof::plan::internal
