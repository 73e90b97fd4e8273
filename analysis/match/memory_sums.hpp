// Memory in all: modules and GiB of every kit chosen, counts respected; and what claims about kits
// share. Not for other engines.
#pragma once

#include "analysis/match/rule_words.hpp"

namespace rigproof::match {

/// Modules of all kits; absent when a kit's number of modules is.
inline Draws all_modules(const Facts& facts, Measure& m) {
  Draws sum = 0.0;
  for (const Chosen& kit : facts.build.of(Kind::memory))
    sum += m.read(facts, column("memory", "modules"), kit.row) * kit.count;
  return sum;
}

/// Modules times their size, over all kits.
inline Draws all_memory_gib(const Facts& facts, Measure& m) {
  Draws sum = 0.0;
  for (const Chosen& kit : facts.build.of(Kind::memory)) {
    const Draws& modules = m.read(facts, column("memory", "modules"), kit.row);
    const Draws& module_gib = m.read(facts, column("memory", "module_gib"), kit.row);
    sum += product(modules, module_gib) * kit.count;
  }
  return sum;
}

/// Every kit as a subject of the claim.
inline void all_kits(const Facts& facts, Telling& t) {
  for (int i = 0; i < different(facts, Kind::memory); ++i)
    t.subjects.push_back(nth(facts, Kind::memory, i));
}

/// Which kit, where a build mixes several.
inline void where_kit(const Facts& facts, PartRef kit, Telling& t) {
  if (different(facts, Kind::memory) > 1) t.where = std::string(facts.catalog.id(kit));
}

}  // namespace rigproof::match
