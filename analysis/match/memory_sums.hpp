// Memory in all: modules and GiB of every kit chosen, counts respected. Not for other engines.
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

}  // namespace rigproof::match
