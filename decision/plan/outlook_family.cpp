#include "decision/plan/outlook_family.hpp"

#include <algorithm>

#include "decision/plan/estimate.hpp"
#include "decision/plan/probe_numbers.hpp"

namespace rigproof::plan::internal {
namespace {

constexpr int most_batches = 32;
constexpr int fewest_batches = 6;
constexpr int enough_found = 5;  // for an interval
constexpr int size_probes = 64;
constexpr int ask_every = 32;

struct Leaf {
  Judged judged = {};
  double weight = 1.0;
  std::size_t batch = 0;
};

std::vector<std::int64_t> caps_of(const Brief& brief) {
  std::vector<std::int64_t> caps;
  caps.reserve(brief.markets.size());
  for (const MarketGoal& market : brief.markets) caps.push_back(market.budget.minor);
  return caps;
}

class Counter {
 public:
  Counter(Stock& stock, Verdicts& verdicts, const std::vector<const Brief*>& briefs,
          const Favors& favors, const FamilyWork& work, const Judge* before)
      : work_(work),
        briefs_(briefs.size()),
        judge_(stock, verdicts, briefs, Judge::Models::last, before),
        ground_(judge_.ground(favors), caps_of(*briefs.front()), judge_.tables()),
        path_(ground_.start()) {
    // Where leaves are costly few are asked, and a batch needs some.
    batches_ = judge_.has_costly_rules()
                   ? std::clamp(work_.costly_leaves / 4, fewest_batches, most_batches)
                   : most_batches;
  }

  std::vector<BuildCount> count() {
    std::vector<BuildCount> out(briefs_);
    if (count_whole(judge_.all(), out)) return out;
    // The first brief asks most: its own tree may be small where that of them all is not.
    const bool first_known = briefs_ > 1 && count_whole(Standing{1}, out);
    if (!stopped_) estimate(first_known, out);
    return out;
  }

 private:
  bool stop_asked() {
    stopped_ = stopped_ || (work_.stop && work_.stop());
    return stopped_;
  }

  // Exact, of the briefs that stand; false: the tree is too large, or it was stopped.
  bool count_whole(Standing standing, std::vector<BuildCount>& out) {
    leaves_.clear();
    nodes_ = 0;
    if (work_.exact_nodes <= 0 || stop_asked() || tree_size(standing) > work_.exact_nodes)
      return false;
    if (!walk(0, {.choice = {}, .standing = standing, .broken = {}})) return false;
    for (Leaf& leaf : leaves_) {
      if (stop_asked()) return false;
      judge_.ask_costly(leaf.judged);
    }
    for (std::size_t k = 0; k < briefs_; ++k) {
      if ((standing >> k & 1U) == 0) continue;
      judge_.use(k);
      double builds = 0.0;
      for (const Leaf& leaf : leaves_) builds += in(k, leaf) ? 1.0 : 0.0;
      out[k] = {.how = BuildCount::How::counted, .builds = builds, .low = builds, .high = builds};
    }
    judge_.use(0);
    return true;
  }

  bool walk(int slot, const Judged& before) {
    std::vector<int> options;
    ground_.options(path_, slot, options);
    for (const int option : options) {
      if (++nodes_ > work_.exact_nodes) return false;
      if (nodes_ % ask_every == 0 && stop_asked()) return false;
      ground_.enter(path_, slot, option);
      Judged judged = before;
      judge_.ask_at(slot, path_.choice, judged);
      if (judged.standing == 0) continue;
      if (slot + 1 < ground_.slots()) {
        if (!walk(slot + 1, judged)) return false;
        continue;
      }
      judged.choice = path_.choice;
      leaves_.push_back({.judged = std::move(judged)});
      if (judge_.has_costly_rules() && static_cast<int>(leaves_.size()) > work_.costly_leaves)
        return false;
    }
    return true;
  }

  // (L1) of the nodes: how many a walk would enter.
  double tree_size(Standing standing) {
    double nodes = 0.0;
    for (int number = 0; number < size_probes; ++number) {
      ProbeNumbers numbers(work_.seed ^ 0x5151U, static_cast<std::uint64_t>(number));
      Leaf leaf;
      leaf.judged.standing = standing;
      (void)descend(numbers, leaf, [&] { nodes += leaf.weight / size_probes; });
    }
    return nodes;
  }

  // One probe, slot by slot; true when it ends in a leaf.
  template <class Entered>
  bool descend(ProbeNumbers& numbers, Leaf& leaf, Entered entered) {
    for (int slot = 0; slot < ground_.slots(); ++slot) {
      leaf.weight *= ground_.draw(path_, slot, numbers.next());
      if (leaf.weight == 0.0) return false;
      entered();
      judge_.ask_at(slot, path_.choice, leaf.judged);
      if (leaf.judged.standing == 0) return false;
    }
    return true;
  }

  void probe(int number) {
    ProbeNumbers numbers(work_.seed, static_cast<std::uint64_t>(number));
    Leaf leaf;
    leaf.judged.standing = judge_.all();
    leaf.batch = static_cast<std::size_t>(std::int64_t{number} * batches_ / work_.probes);
    if (!descend(numbers, leaf, [] {})) return;
    leaf.judged.choice = path_.choice;
    leaves_.push_back(std::move(leaf));
  }

  void estimate(bool first_known, std::vector<BuildCount>& out) {
    leaves_.clear();
    for (int number = 0; number < work_.probes; ++number) {
      if (number % ask_every == 0 && stop_asked()) return;
      probe(number);
    }
    if (judge_.has_costly_rules()) ask_costly();
    if (stopped_) return;
    for (std::size_t k = first_known ? 1 : 0; k < briefs_; ++k) {
      judge_.use(k);
      out[k] = estimated(k);
    }
    judge_.use(0);
  }

  // (L3): of the leaves of a batch, those that may satisfy the first brief apart from those that
  // cannot, so many are drawn by weight and asked what is costly; each stands for its share.
  void ask_costly() {
    std::vector<std::vector<std::size_t>> parts(2 * static_cast<std::size_t>(batches_));
    for (std::size_t i = 0; i < leaves_.size(); ++i)
      parts[2 * leaves_[i].batch + (leaves_[i].judged.standing & 1U)].push_back(i);
    const int most = std::max(work_.costly_leaves / batches_, 1);
    const int most_of_others = std::max(most / 4, 1);
    std::vector<Leaf> kept;
    for (std::size_t part = 0; part < parts.size(); ++part) {
      ProbeNumbers numbers(~work_.seed, part);
      draw_by_weight(parts[part], static_cast<std::size_t>(part % 2 == 1 ? most : most_of_others),
                     numbers.next());
      for (const std::size_t i : parts[part]) {
        if (stop_asked()) return;
        judge_.ask_costly(leaves_[i].judged);
        ++costly_asked_;
        if (leaves_[i].judged.standing != 0) kept.push_back(std::move(leaves_[i]));
      }
    }
    leaves_ = std::move(kept);
  }

  // Leaves at equal distances of the summed weights, from a start at random: each is drawn in
  // proportion to its weight, and what it then weighs makes up for that.
  void draw_by_weight(std::vector<std::size_t>& of, std::size_t most, double u) {
    if (of.size() <= most) return;
    double sum = 0.0;
    for (const std::size_t i : of) sum += leaves_[i].weight;
    const double distance = sum / static_cast<double>(most);
    std::vector<std::size_t> drawn;
    double next = u * distance;
    double passed = 0.0;
    for (const std::size_t i : of) {
      const double weight = leaves_[i].weight;
      int times = 0;
      for (; next < passed + weight && times < static_cast<int>(most); next += distance) ++times;
      passed += weight;
      if (times == 0) continue;
      leaves_[i].weight = distance * times;
      drawn.push_back(i);
    }
    of = std::move(drawn);
  }

  // (L1), with (L4) and (L5).
  BuildCount estimated(std::size_t k) {
    std::vector<double> means(static_cast<std::size_t>(batches_), 0.0);
    std::vector<double> sizes(means.size(), 0.0);
    for (int number = 0; number < work_.probes; ++number)
      ++sizes[static_cast<std::size_t>(std::int64_t{number} * batches_ / work_.probes)];
    BuildCount out{
        .how = BuildCount::How::none_found, .probes = work_.probes, .leaves = costly_asked_};
    double largest = 0.0;
    for (const Leaf& leaf : leaves_) {
      if (!in(k, leaf)) continue;
      ++out.found;
      means[leaf.batch] += leaf.weight / sizes[leaf.batch];
      largest = std::max(largest, leaf.weight / work_.probes);
    }
    if (out.found == 0) return out;
    const Estimate estimate = estimate_of(means, largest);
    out.builds = estimate.value;
    out.how = BuildCount::How::few_found;
    if (out.found < enough_found) return out;
    out.how = BuildCount::How::estimated;
    out.low = estimate.low;
    out.high = estimate.high;
    return out;
  }

  // Brief k is in use.
  bool in(std::size_t k, const Leaf& leaf) {
    if ((leaf.judged.standing >> k & 1U) == 0) return false;
    return leaf.judged.broken.empty() || judge_.takes(k, leaf.judged);
  }

  FamilyWork work_;
  std::size_t briefs_;
  int batches_ = most_batches;
  Judge judge_;
  ProbeGround ground_;
  ProbeGround::Path path_;
  std::vector<Leaf> leaves_;
  int nodes_ = 0;
  std::int64_t costly_asked_ = 0;
  bool stopped_ = false;
};

}  // namespace

std::vector<BuildCount> count_family(Stock& stock, Verdicts& verdicts,
                                     const std::vector<const Brief*>& briefs, const Favors& favors,
                                     const FamilyWork& work, const Judge* before) {
  return Counter(stock, verdicts, briefs, favors, work, before).count();
}

}  // namespace rigproof::plan::internal
