// What a brief asks for, one requirement at a time, and which few of them stand against each other.
#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "catalog/brief.hpp"
#include "catalog/catalog.hpp"

namespace rigproof::plan {

/// One thing the brief demands that can make it impossible, named by its path in the file.
struct Requirement {
  std::string
      path;      ///< "markets.IE.budget", "titles.harbour-lights.floor_fps", "accept.unknown"...
  int line = 0;  ///< in the brief; 0: a default that no line states
  std::string says;  ///< for people: "at most 600.00 EUR in IE"
};

/// In the order of the file (those without a line last). In: `catalog` has the names of titles;
/// null: ids stand for them.
[[nodiscard]] std::vector<Requirement> requirements(const Brief& brief,
                                                    const Catalog* catalog = nullptr);

/// The brief without these requirements: budgets without bound, floors gone, parts free to
/// choose...
[[nodiscard]] Brief without(const Brief& brief, const std::set<std::string>& paths);

/// Is there a build under this brief? nullopt: stopped before it was known.
using Satisfiable = std::function<std::optional<bool>(const Brief&)>;

struct ConflictSet {
  bool known = false;  ///< false: stopped, `requirements` may be reducible
  std::vector<Requirement>
      requirements;  ///< empty and known: the catalog alone cannot make a build
};

/// Irreducible sets of requirements of a brief that nothing satisfies, by deletion in file order:
/// with any one of its members dropped (the set alone, the others already dropped) a build exists.
/// The sets share no requirement: each is found with all of the earlier ones dropped, until what is
/// left can be satisfied. Easing one member of every set is needed, and enough unless sets that
/// overlap these stand behind them. Ends early when stopped or when a set is empty. One question
/// per requirement and set. Method: deletion filter, [chinneck-1991].
[[nodiscard]] std::vector<ConflictSet> conflicts(const Brief& brief,
                                                 const Satisfiable& satisfiable);

/// Is there a build with the requirements of these paths dropped? nullopt: stopped.
using SatisfiableWithout = std::function<std::optional<bool>(const std::set<std::string>& dropped)>;

/// The same for any list of requirements, in the order of the list: also for demands that no brief
/// states. Dropping more must never forbid more. Those of the paths in `shared` may stand in
/// several sets: they are not dropped between two, so that every set that stands against them is
/// found. Ends with a set of nothing else.
[[nodiscard]] std::vector<ConflictSet> conflicts(const std::vector<Requirement>& all,
                                                 const SatisfiableWithout& satisfiable,
                                                 const std::set<std::string>& shared = {});

}  // namespace rigproof::plan
