#include "analysis/fit/fit_rules.hpp"

#include <vector>

namespace rigproof {

std::span<const Rule* const> fit_rules() {
  static const std::vector<const Rule*> all = [] {
    std::vector<const Rule*> rules;
    for (const auto family : {fit::clearance_rules(), fit::card_rules(), fit::memory_height_rules(),
                              fit::over_board_rules(), fit::over_cooler_rules(), fit::loop_rules(),
                              fit::mount_rules(), fit::cable_rules()})
      rules.insert(rules.end(), family.begin(), family.end());
    return rules;
  }();
  return all;
}

}  // namespace rigproof
