// How far a requirement that stands in a conflict has to be eased, and no further.
//
// A requirement with a number is eased along a scale: all values, looser and looser, at which any
// part of the catalog changes sides, or where builds change sides (rates, power), whole steps. The
// first value on it under which a build exists is the smallest easing: easing only ever admits
// more, so it is found by halving. Budgets have no scale: the least price of any build is exact.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/catalog.hpp"
#include "claims/facts.hpp"
#include "decision/plan/requirements.hpp"

namespace rigproof::plan {

enum class EasedIn { liters, reserve_frac, gib, gb, fps, days };

struct Scale {
  EasedIn in = EasedIn::liters;
  double asked = 0.0;
  double step = 0.0;           ///< 0: no other value can matter; else whole steps of this size
  std::vector<double> values;  ///< from the nearest to what is asked to the farthest
};

/// The scale of a requirement of the brief (its path); nullopt: a budget or a yes-or-no demand.
/// Whole steps: 1 fps down to 1 for floors, 0.01 down to 0 for the supply's reserve. Of the
/// catalog: volumes of cases upwards, memory of kits and storage of one or two drives downwards,
/// ages of offers upwards; an uncertain cell gives each of its draws and both ends of its hull.
[[nodiscard]] std::optional<Scale> scale_of(const Catalog& catalog, CellDraws& draws,
                                            const Brief& brief, const std::string& path);

/// The market whose budget a path names; null: it names another requirement.
[[nodiscard]] const MarketGoal* market_of_budget(const Brief& brief, const std::string& path);

/// The brief with one such requirement at another value. The path must be one that has a scale.
[[nodiscard]] Brief eased(const Brief& brief, const std::string& path, double to);

enum class Easing {
  value,       ///< a value on the scale opens it
  drop,        ///< no value does, leaving the requirement out does
  not_enough,  ///< not even leaving it out opens it
  stopped      ///< not settled
};

struct Relaxation {
  Easing how = Easing::stopped;
  double to = 0.0;  ///< with `value`: the first on the scale under which a build exists
  std::optional<double> beyond;  ///< with `value`: the one before it, under which there is none
};

/// The first value of the scale under which `brief` can be satisfied. `brief` cannot be as it is.
/// About log2(values) + 1 questions; one that has no answer (stopped) ends it.
[[nodiscard]] Relaxation smallest_easing(const Brief& brief, const std::string& path,
                                         const Scale& scale, const Satisfiable& satisfiable);

/// A brief under which the best build is the one of least price in this market, whatever its
/// budget: the score is then 1e14 minus the price. All else is demanded as before.
[[nodiscard]] Brief for_least_price(const Brief& brief, const std::string& market);

}  // namespace rigproof::plan
