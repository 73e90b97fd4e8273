// The traps of the demo: complete builds that are sound but for one mistake, which one claim names.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

struct TrapPart {
  std::string_view kind, id;
  int count = 1;
};

struct Trap {
  std::string_view name;           ///< the build is builds/trap-NAME.toml
  std::string_view rule;           ///< the rule whose claim does not hold
  std::string_view wrong, remedy;  ///< for somebody who never built one
  std::vector<TrapPart> changes;   ///< against one plain build that holds
  TrapPart cure;                   ///< one part swapped or added that takes the mistake away
  bool unknown = false;            ///< the claim is unknown instead of failing
  bool tells = false;              ///< the claim only tells: a plan may walk in
};

[[nodiscard]] std::vector<Trap> traps();
/// The build's file; `cured` with the remedy in place.
[[nodiscard]] std::string build_of(const Trap& trap, bool cured);

}  // namespace rigproof::demo
