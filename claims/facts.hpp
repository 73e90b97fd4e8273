// Facts: all that a rule may look at. Values only; a rule reads no file and knows no clock.
#pragma once

#include <any>
#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <unordered_map>

#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "catalog/catalog.hpp"
#include "catalog/price_book.hpp"

namespace rigproof {

/// Draws of cells, made once each. Not for several threads: give each thread its own; the contents
/// depend on catalog and seed alone.
class CellDraws {
 public:
  explicit CellDraws(const Catalog& catalog, std::uint64_t seed = 0)
      : catalog_(&catalog), seed_(seed) {}
  [[nodiscard]] const Draws& of(ColumnId column, Row row);
  [[nodiscard]] std::uint64_t seed() const { return seed_; }

  /// Draws that an engine made from cells and would make again: kept under a key of the engine's
  /// own (first word: which of its functions) that says all they rest on.
  using Key = std::array<std::uint64_t, 6>;
  [[nodiscard]] const Draws* kept(const Key& key) const;
  void keep(const Key& key, const Draws& draws) { kept_.emplace(key, draws); }
  /// What else an engine found out and would look for again; empty when first asked for. One type
  /// for one key. The reference stays good.
  template <class T>
  [[nodiscard]] T& memory(const Key& key) {
    std::any& place = memories_[key];
    if (!place.has_value()) place.emplace<T>();
    return std::any_cast<T&>(place);
  }

 private:
  const Catalog* catalog_;
  std::uint64_t seed_;
  struct KeyHash {
    std::size_t operator()(const Key& key) const;
  };
  std::unordered_map<std::uint64_t, Draws> made_;
  std::unordered_map<Key, Draws, KeyHash> kept_;
  std::unordered_map<Key, std::any, KeyHash> memories_;
};

/// Where parts of a build sit, once an engine has settled it: made and read by that engine alone
/// (analysis/fit/mounting.hpp).
struct Seats;

struct Facts {
  const Catalog& catalog;
  const Brief& brief;       ///< an empty brief (no markets, no titles) when a build is judged alone
  const PriceBook* prices;  ///< null when the brief has no markets
  const Build& build;       ///< in the planner: only the kinds of the rule's scope are set
  CellDraws& draws;
  const Setup* setup = nullptr;  ///< what the author of a build fixed; null: the engine chooses
  const Seats* seats = nullptr;  ///< a way to seat things that is tried; null: the best is sought
};

/// The only part of its kind; its row is no_row where there is none.
[[nodiscard]] inline PartRef part_of(const Facts& facts, Kind kind) {
  return {kind, facts.build.one(kind)};
}

}  // namespace rigproof
