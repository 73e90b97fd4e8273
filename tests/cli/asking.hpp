// Shared by the tests of the questions asked of a plan: they ask about the demo, most about its
// living room.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {

inline constexpr std::int64_t living_room_budget = 150'000;  // written in the brief

inline std::int64_t minor(const Json& money) { return money.at("minor").get<std::int64_t>(); }

/// `12.50` of 1250.
inline std::string plain(std::int64_t money_minor) {
  const std::string cents = std::to_string(money_minor % 100);
  return std::to_string(money_minor / 100) + (cents.size() < 2 ? ".0" : ".") + cents;
}

/// A command asked about the demo catalog.
inline Ran ask(std::vector<std::string> args) {
  args.insert(args.end(), {"--catalog", demo_catalog});
  return rigproof(args);
}

inline Json answer(std::vector<std::string> args) {
  args.emplace_back("--json");
  return json_of(ask(std::move(args)).out);
}

/// The best build of the living room, as `plan` prints it.
inline const Json& best_plan() {
  static const Json found = answer({"plan", living_room, "--best", "1"}).at("builds").at(0);
  return found;
}

}  // namespace rigproof::cli_test
