// Verdicts of one rule by the groups it saw: an open-addressed table, since the search looks here
// many times a node.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "catalog/catalog.hpp"

namespace rigproof::plan {

class KnownVerdicts {
 public:
  using Groups = std::array<std::uint32_t, kind_count>;

  [[nodiscard]] std::optional<std::uint8_t> find(const Groups& groups) const {
    if (entries_.empty()) return {};
    for (std::size_t at = hash(groups) & mask();; at = (at + 1) & mask()) {
      if (!entries_[at].used) return {};
      if (entries_[at].groups == groups) return entries_[at].verdicts;
    }
  }

  /// Of groups that are not known yet.
  void add(const Groups& groups, std::uint8_t verdicts) {
    if (2 * (count_ + 1) > entries_.size()) grow();
    put({.groups = groups, .verdicts = verdicts, .used = true});
    ++count_;
  }

 private:
  struct Entry {
    Groups groups{};
    std::uint8_t verdicts = 0;
    bool used = false;
  };

  [[nodiscard]] std::size_t mask() const { return entries_.size() - 1; }

  // A sum of products, so that the words need not wait for each other.
  static std::size_t hash(const Groups& groups) {
    std::uint64_t sum = 0;
    std::uint64_t odd = 0x9E3779B97F4A7C15ULL;
    for (const std::uint32_t group : groups) {
      sum += group * odd;
      odd = odd * 5 + 2;  // stays odd
    }
    sum ^= sum >> 32U;
    return (sum * 0x9E3779B97F4A7C15ULL) >> 20U;  // the middle bits, which all words have stirred
  }

  void put(const Entry& entry) {
    std::size_t at = hash(entry.groups) & mask();
    while (entries_[at].used) at = (at + 1) & mask();
    entries_[at] = entry;
  }

  void grow() {
    std::vector<Entry> before(entries_.empty() ? 16 : 2 * entries_.size());
    before.swap(entries_);
    for (const Entry& entry : before)
      if (entry.used) put(entry);
  }

  std::vector<Entry> entries_;  // a power of two of them
  std::size_t count_ = 0;
};

}  // namespace rigproof::plan
