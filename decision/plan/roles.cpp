#include "decision/plan/roles.hpp"

namespace rigproof::plan {

Role role_of(const Rule& rule) {
  if (rule.grade == Grade::tells) return Role::not_asked;
  if (rule.capacity) return Role::sum;
  switch (rule.kinds.size()) {
    case 0:
    case 1:
      return Role::option_filter;
    case 2:
      return Role::pair_table;
    case 3:  // a model is costly to ask: not for every combination
      return rule.basis == Basis::model ? Role::check : Role::shadowed;
    default:
      return Role::check;
  }
}

std::string_view name_of(Role role) {
  switch (role) {
    case Role::not_asked:
      return "only told";
    case Role::option_filter:
      return "filter";
    case Role::pair_table:
      return "bit table";
    case Role::shadowed:
      return "check + tables";
    case Role::sum:
      return "sum";
    case Role::check:
      return "check";
  }
  return {};
}

}  // namespace rigproof::plan
