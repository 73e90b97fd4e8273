// How many builds a brief leaves possible, and how many there would be without each of its
// requirements: counted where that is quick, else estimated from random probes. Equations (L1) to
// (L6) in README.md.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "decision/plan/planner.hpp"
#include "decision/plan/requirements.hpp"

namespace rigproof::plan {

/// How many builds satisfy something.
struct BuildCount {
  enum class How {
    counted,     ///< every one was looked at: exact
    estimated,   ///< from probes, with a 90 % interval
    few_found,   ///< fewer than five probes did: too few to say how many; no interval
    at_least,    ///< likewise, but no fewer than with the requirement, of which more is known
    none_found,  ///< no probe ended in a build: there may be some all the same
    not_known    ///< stopped before
  } how = How::not_known;
  double builds = 0.0;      ///< where how is few_found or at_least: to put in order, not to tell
  double low = 0.0;         ///< 5 %; equal to builds when counted
  double high = 0.0;        ///< 95 %
  std::int64_t probes = 0;  ///< random ones; 0 when counted
  std::int64_t found = 0;   ///< of these, the ones that ended in a build
  std::int64_t leaves = 0;  ///< builds looked at by rules that are costly to ask
};

/// More probes and leaves narrow the intervals and take longer, each in proportion.
struct OutlookOptions {
  std::uint64_t seed = 0;
  int pilot_probes = 400;  ///< to learn from; not counted (L6)
  int exact_nodes = 3000;  ///< a tree of no more partial choices is walked whole; 0: none is
  int probes = 1024;       ///< of the brief itself, and of all that share them
  int probes_each = 256;   ///< of each requirement that has probes of its own
  int costly_leaves = 30;  ///< builds whose physics is judged, likewise (L3)
  int costly_leaves_each = 6;
  std::function<bool()> stop = {};
};

struct WithoutOne {
  Requirement requirement;
  BuildCount count;  ///< with everything else kept
};

struct Outlook {
  std::string all;  ///< builds that the slots alone allow, whatever they cost: every digit
  double all_builds = 0.0;
  BuildCount possible;
  std::vector<WithoutOne> without;  ///< in the order of requirements()
  bool stopped = false;
};

/// Same input, same seed, same numbers. What is counted without a requirement contains what is
/// counted with it: a kept part that need not be used may still be used, and costs nothing.
/// Errors: out_of_range when a slot has too many fillings to look at each (pairs of drives).
[[nodiscard]] Result<Outlook> outlook(const PlanInput& input, const OutlookOptions& options);

/// The builds that can be formed: one part or filling for each slot, whatever it costs, whether it
/// is on offer, whatever the rules say. Every digit.
[[nodiscard]] Result<std::string> formable_builds(const Catalog& catalog, const Brief& brief);

}  // namespace rigproof::plan
