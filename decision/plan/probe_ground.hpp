// A tree of choices to be counted: slots with options, costs against caps, pairs that may not meet.
// Walked whole where it is small, else probed at random (Knuth).
//
// It knows no PC. What else a choice has to satisfy is asked of a judge, slot by slot.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "decision/plan/search.hpp"

namespace rigproof::plan {

struct GroundSlot {
  std::vector<std::span<const std::int64_t>> costs;  ///< [option], one per cap, >= 0
  std::vector<bool> open;                            ///< [option] false: it may not stand at all
  std::vector<double> favor = {};  ///< [option] > 0, drawn so much more often; empty: all alike
};

class ProbeGround {
 public:
  /// What a walk or a probe has chosen so far.
  struct Path {
    std::vector<int> choice;            ///< [slot], -1 open
    std::vector<std::uint64_t> domain;  ///< [level x words]
    std::vector<std::int64_t> left;     ///< [level x caps] money
    std::vector<double> open;           ///< for draw(): options of each later slot
    std::vector<double> weights;        ///< for draw(), of the options below
    std::vector<int> drawn_from;
  };

  /// `tables` and what the costs look at must outlive this.
  ProbeGround(const std::vector<GroundSlot>& slots, std::vector<std::int64_t> caps,
              std::span<const PairTable> tables);

  [[nodiscard]] Path start() const;
  [[nodiscard]] int slots() const { return static_cast<int>(slots_.size()); }
  /// Puts an option into the next slot: what it forbids in later slots is gone, its cost is paid.
  void enter(Path& path, int slot, int option) const;
  /// Draws one of the options that no table forbids with those chosen and that leaves enough for
  /// the cheapest of the rest; u in [0, 1). Returns 1 / its probability, or 0 when there is none.
  ///
  /// The probability is in proportion to the fillings of the slots behind it within what is left of
  /// one cap, (L2), and to the share of them that no table forbids with it: the nearer that is to
  /// the truth, the less the weights differ. It is above 0 for every option that can be chosen, so
  /// whatever it is, the weights are unbiased.
  [[nodiscard]] double draw(Path& path, int slot, double u) const;
  /// The same options, in order.
  void options(const Path& path, int slot, std::vector<int>& out) const;

 private:
  struct SlotGround {
    int options = 0;
    std::size_t first_word = 0;
    std::size_t words = 0;
    std::vector<std::int64_t> costs;     // [option x caps]
    std::vector<double> scaled;          // [option] cost of the guiding cap in steps
    std::vector<double> favor;           // [option]
    std::vector<double> share;           // [option] of later fillings that no table forbids
    std::vector<std::uint64_t> forbids;  // [option x words behind]: what is left of later slots
    std::size_t words_behind = 0;
    std::vector<std::int64_t> least_behind;  // [cap] of all later slots
    std::vector<std::size_t> touched;  // later slots of which some option of this one forbids some
    std::vector<double> ways;          // [step] to fill this and all later slots
  };
  [[nodiscard]] const std::uint64_t* domain_of(const Path& path, int slot) const {
    return path.domain.data() + static_cast<std::size_t>(slot) * words_ +
           slots_[static_cast<std::size_t>(slot)].first_word;
  }
  [[nodiscard]] bool affordable(const Path& path, int slot, int option) const;
  void count_open(Path& path, int slot) const;
  [[nodiscard]] double share_left(const Path& path, int slot, int option) const;
  void add_slots(const std::vector<GroundSlot>& from);
  void add_tables(std::span<const PairTable> tables);
  void add_least();
  void add_ways();
  void add_shares();

  std::vector<SlotGround> slots_;
  std::vector<std::int64_t> caps_;
  std::size_t words_ = 0;
  std::vector<std::uint64_t> all_open_;
  int guide_ = -1;  // the cap that guides; -1: none binds
  double steps_per_unit_ = 0.0;
};

}  // namespace rigproof::plan
