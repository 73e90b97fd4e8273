// What becomes of a rule in a plan: decided from its grade and scope alone, so that the list of
// rules can say it and the compiler does it.
#pragma once

#include <string_view>

#include "claims/rule.hpp"

namespace rigproof::plan {

enum class Role {
  not_asked,      ///< only told: it excludes nothing
  option_filter,  ///< over one kind: a check; what it refuses is struck out for good
  pair_table,     ///< over two kinds: a bit table where few cases tell all, else a check
  shadowed,  ///< over three: a check, and tables or checks of what no third part makes good (P6)
  sum,       ///< a sum against a capacity: a resource (P4), checks on beginnings (P5) and the check
  check,     ///< over more: a check, asked when the last kind of its scope is chosen
};

[[nodiscard]] Role role_of(const Rule& rule);
[[nodiscard]] std::string_view name_of(Role role);  ///< "bit table"...

}  // namespace rigproof::plan
