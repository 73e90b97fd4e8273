#include "decision/plan/probe_ground.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "base/contract.hpp"

namespace rigproof::plan {
namespace {

constexpr int word_bits = 64;
constexpr int steps = 512;                        // of the guiding cap
constexpr std::size_t most_words_ahead = 20'000;  // looked at for one slot
constexpr double least_ways = 1e-9;

template <class Look>
void for_each_bit(const std::uint64_t* words, std::size_t count, Look look) {
  for (std::size_t w = 0; w < count; ++w)
    for (std::uint64_t rest = words[w]; rest != 0; rest &= rest - 1)
      look(static_cast<int>(w) * word_bits + std::countr_zero(rest));
}

}  // namespace

ProbeGround::ProbeGround(const std::vector<GroundSlot>& slots, std::vector<std::int64_t> caps,
                         std::span<const PairTable> tables)
    : caps_(std::move(caps)) {
  add_slots(slots);
  add_tables(tables);
  add_least();
  add_ways();
  add_shares();
}

void ProbeGround::add_slots(const std::vector<GroundSlot>& from) {
  for (const GroundSlot& slot : from) {
    SlotGround out;
    out.options = static_cast<int>(slot.costs.size());
    out.first_word = words_;
    out.words = (slot.costs.size() + word_bits - 1) / word_bits;
    words_ += out.words;
    all_open_.resize(words_, 0);
    for (std::size_t o = 0; o < slot.costs.size(); ++o) {
      RP_EXPECT(slot.costs[o].size() == caps_.size());
      out.costs.insert(out.costs.end(), slot.costs[o].begin(), slot.costs[o].end());
      if (slot.open[o])
        all_open_[out.first_word + o / word_bits] |= std::uint64_t{1} << (o % word_bits);
    }
    out.favor = slot.favor;
    out.favor.resize(slot.costs.size(), 1.0);
    slots_.push_back(std::move(out));
  }
}

// One row of bits an option, over all slots behind its own: the AND of its rows in all tables.
void ProbeGround::add_tables(std::span<const PairTable> tables) {
  for (std::size_t s = 0; s < slots_.size(); ++s) {
    SlotGround& slot = slots_[s];
    const std::size_t behind = slot.first_word + slot.words;
    slot.words_behind = words_ - behind;
    slot.forbids.resize(static_cast<std::size_t>(slot.options) * slot.words_behind);
    for (int o = 0; o < slot.options; ++o)
      std::copy(all_open_.begin() + static_cast<std::ptrdiff_t>(behind), all_open_.end(),
                slot.forbids.begin() +
                    static_cast<std::ptrdiff_t>(static_cast<std::size_t>(o) * slot.words_behind));
  }
  for (const PairTable& table : tables) {
    SlotGround& slot = slots_[static_cast<std::size_t>(table.first)];
    const SlotGround& second = slots_[static_cast<std::size_t>(table.second)];
    const std::size_t at = second.first_word - slot.first_word - slot.words;
    if (std::ranges::find(slot.touched, static_cast<std::size_t>(table.second)) ==
        slot.touched.end())
      slot.touched.push_back(static_cast<std::size_t>(table.second));
    // Options of one class share a row.
    std::vector<std::vector<std::uint64_t>> rows(table.bits.size());
    for (int o = 0; o < slot.options; ++o) {
      const auto of = static_cast<std::size_t>(
          table.row_class.empty() ? o : table.row_class[static_cast<std::size_t>(o)]);
      std::vector<std::uint64_t>& allowed = rows[of];
      if (allowed.empty()) {
        allowed.resize(second.words, 0);
        for (int p = 0; p < second.options; ++p)
          if (table.allowed(o, p))
            allowed[static_cast<std::size_t>(p / word_bits)] |= std::uint64_t{1} << (p % word_bits);
      }
      std::uint64_t* row =
          slot.forbids.data() + static_cast<std::size_t>(o) * slot.words_behind + at;
      for (std::size_t w = 0; w < second.words; ++w) row[w] &= allowed[w];
    }
  }
}

void ProbeGround::add_least() {
  std::vector<std::int64_t> behind(caps_.size(), 0);
  for (std::size_t s = slots_.size(); s-- > 0;) {
    SlotGround& slot = slots_[s];
    slot.least_behind = behind;
    for (std::size_t c = 0; c < caps_.size(); ++c) {
      std::int64_t least = -1;
      for_each_bit(all_open_.data() + slot.first_word, slot.words, [&](int o) {
        const std::int64_t cost = slot.costs[static_cast<std::size_t>(o) * caps_.size() + c];
        if (least < 0 || cost < least) least = cost;
      });
      behind[c] += std::max<std::int64_t>(least, 0);
    }
  }
}

// (L2): ways(s, b), the fillings of slots s and behind it within b steps of the guiding cap, each
// cost rounded down. Of the caps that guides which leaves the fewest.
void ProbeGround::add_ways() {
  double fewest = -1.0;
  std::vector<std::vector<double>> best;
  for (std::size_t c = 0; c < caps_.size(); ++c) {
    if (caps_[c] <= 0) continue;
    const double scale = static_cast<double>(steps) / static_cast<double>(caps_[c]);
    std::vector<std::vector<double>> ways(slots_.size() + 1, std::vector<double>(steps + 1, 1.0));
    for (std::size_t s = slots_.size(); s-- > 0;) {
      const SlotGround& slot = slots_[s];
      std::vector<double> at(steps + 1, 0.0);
      for_each_bit(all_open_.data() + slot.first_word, slot.words, [&](int o) {
        const double step =
            static_cast<double>(slot.costs[static_cast<std::size_t>(o) * caps_.size() + c]) * scale;
        if (step <= steps)
          at[static_cast<std::size_t>(step)] += slot.favor[static_cast<std::size_t>(o)];
      });
      std::ranges::fill(ways[s], 0.0);
      for (std::size_t q = 0; q <= steps; ++q) {
        if (at[q] == 0.0) continue;
        for (std::size_t b = q; b <= steps; ++b) ways[s][b] += at[q] * ways[s + 1][b - q];
      }
    }
    if (guide_ >= 0 && ways.front().back() >= fewest) continue;
    fewest = ways.front().back();
    guide_ = static_cast<int>(c);
    steps_per_unit_ = scale;
    best = std::move(ways);
  }
  for (std::size_t s = 0; s < slots_.size(); ++s) {
    SlotGround& slot = slots_[s];
    slot.scaled.assign(static_cast<std::size_t>(slot.options), 0.0);
    if (guide_ < 0) continue;
    slot.ways = std::move(best[s + 1]);
    for (std::size_t o = 0; o < slot.scaled.size(); ++o)
      slot.scaled[o] =
          static_cast<double>(slot.costs[o * caps_.size() + static_cast<std::size_t>(guide_)]) *
          steps_per_unit_;
  }
}

void ProbeGround::add_shares() {
  for (SlotGround& slot : slots_) {
    slot.share.assign(static_cast<std::size_t>(slot.options), 1.0);
    const std::size_t behind = slot.first_word + slot.words;
    for (int o = 0; o < slot.options; ++o)
      for (const SlotGround& later : slots_) {
        if (later.first_word < behind || later.words == 0) continue;
        int open = 0;
        int left = 0;
        for (std::size_t w = 0; w < later.words; ++w) {
          open += std::popcount(all_open_[later.first_word + w]);
          left += std::popcount(slot.forbids[static_cast<std::size_t>(o) * slot.words_behind +
                                             later.first_word - behind + w]);
        }
        slot.share[static_cast<std::size_t>(o)] *=
            open == 0 ? 0.0 : static_cast<double>(left) / static_cast<double>(open);
      }
  }
}

ProbeGround::Path ProbeGround::start() const {
  Path path;
  path.choice.assign(slots_.size(), -1);
  path.domain.resize((slots_.size() + 1) * words_);
  path.left.resize((slots_.size() + 1) * caps_.size());
  std::ranges::copy(all_open_, path.domain.begin());
  std::ranges::copy(caps_, path.left.begin());
  return path;
}

void ProbeGround::enter(Path& path, int slot, int option) const {
  const auto s = static_cast<std::size_t>(slot);
  const auto o = static_cast<std::size_t>(option);
  const SlotGround& of = slots_[s];
  path.choice[s] = option;
  const std::size_t behind = of.first_word + of.words;
  const std::uint64_t* from = path.domain.data() + s * words_ + behind;
  std::uint64_t* to = path.domain.data() + (s + 1) * words_ + behind;
  const std::uint64_t* row = of.forbids.data() + o * of.words_behind;
  for (std::size_t w = 0; w < of.words_behind; ++w) to[w] = from[w] & row[w];
  for (std::size_t c = 0; c < caps_.size(); ++c)
    path.left[(s + 1) * caps_.size() + c] =
        path.left[s * caps_.size() + c] - of.costs[o * caps_.size() + c];
}

bool ProbeGround::affordable(const Path& path, int slot, int option) const {
  const auto s = static_cast<std::size_t>(slot);
  const SlotGround& of = slots_[s];
  for (std::size_t c = 0; c < caps_.size(); ++c)
    if (of.costs[static_cast<std::size_t>(option) * caps_.size() + c] + of.least_behind[c] >
        path.left[s * caps_.size() + c])
      return false;
  return true;
}

void ProbeGround::options(const Path& path, int slot, std::vector<int>& out) const {
  const SlotGround& of = slots_[static_cast<std::size_t>(slot)];
  out.clear();
  for_each_bit(domain_of(path, slot), of.words, [&](int o) {
    if (of.share[static_cast<std::size_t>(o)] > 0.0 && affordable(path, slot, o)) out.push_back(o);
  });
}

void ProbeGround::count_open(Path& path, int slot) const {
  path.open.assign(slots_.size(), 0.0);
  for (const std::size_t t : slots_[static_cast<std::size_t>(slot)].touched) {
    const std::uint64_t* words =
        path.domain.data() + static_cast<std::size_t>(slot) * words_ + slots_[t].first_word;
    int open = 0;
    for (std::size_t w = 0; w < slots_[t].words; ++w) open += std::popcount(words[w]);
    path.open[t] = open;
  }
}

// Of the fillings that are left of all later slots, those that no table forbids with this option.
double ProbeGround::share_left(const Path& path, int slot, int option) const {
  const SlotGround& of = slots_[static_cast<std::size_t>(slot)];
  const std::size_t behind = of.first_word + of.words;
  const std::uint64_t* rows =
      of.forbids.data() + static_cast<std::size_t>(option) * of.words_behind;
  const std::uint64_t* domains = path.domain.data() + static_cast<std::size_t>(slot) * words_;
  double share = 1.0;
  for (const std::size_t t : of.touched) {
    const std::uint64_t* row = rows + slots_[t].first_word - behind;
    const std::uint64_t* domain = domains + slots_[t].first_word;
    int left = 0;
    for (std::size_t w = 0; w < slots_[t].words; ++w) left += std::popcount(row[w] & domain[w]);
    if (left == 0) return 0.0;
    share *= left / path.open[t];
  }
  return share;
}

double ProbeGround::draw(Path& path, int slot, double u) const {
  const auto s = static_cast<std::size_t>(slot);
  const SlotGround& of = slots_[s];
  path.weights.clear();
  path.drawn_from.clear();
  const double left_steps =
      guide_ < 0
          ? 0.0
          : static_cast<double>(path.left[s * caps_.size() + static_cast<std::size_t>(guide_)]) *
                steps_per_unit_;
  const bool look_ahead =
      static_cast<std::size_t>(of.options) * of.words_behind <= most_words_ahead;
  if (look_ahead) count_open(path, slot);
  double sum = 0.0;
  for_each_bit(domain_of(path, slot), of.words, [&](int o) {
    const auto i = static_cast<std::size_t>(o);
    // Without a filling of some later slot that no table forbids with it, nothing can come of it.
    if (of.share[i] == 0.0 || !affordable(path, slot, o)) return;
    const double share = look_ahead ? share_left(path, slot, o) : of.share[i];
    if (share == 0.0) return;
    double weight = share * of.favor[i];
    if (guide_ >= 0) {
      // A step more than is left: rounding must not make a way that there is improbable.
      const double step = std::clamp(left_steps - of.scaled[i] + 1.0, 0.0, double{steps});
      weight *= std::max(of.ways[static_cast<std::size_t>(step)], least_ways);
    }
    sum += weight;
    path.weights.push_back(weight);
    path.drawn_from.push_back(o);
  });
  if (path.drawn_from.empty()) return 0.0;
  std::size_t at = 0;
  double rest = u * sum;
  while (at + 1 < path.weights.size() && rest >= path.weights[at]) rest -= path.weights[at++];
  const double weight = path.weights[at];
  enter(path, slot, path.drawn_from[at]);
  return sum / weight;
}

}  // namespace rigproof::plan
