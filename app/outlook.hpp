// Use case `outlook`: how many builds a brief leaves possible, and which of its requirements
// forbids most of the rest, as numbers and as sentences.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "app/asks.hpp"
#include "app/planning.hpp"
#include "decision/plan/outlook.hpp"
#include "sheet/answers.hpp"
#include "sheet/text.hpp"

namespace rigproof::app {

struct OutlookRequest {
  std::uint64_t seed = 0;  ///< seed_of() the brief's bytes
  LongJob job;
};

/// Of the bytes of a brief: the same brief, the same probes, the same numbers.
[[nodiscard]] std::uint64_t seed_of(std::string_view bytes);

/// One requirement, and what there would be without it.
struct OutlookLine {
  plan::Requirement requirement;
  std::string noun;  ///< "the budget in IE"
  plan::BuildCount count;
  std::string says;  ///< "About 2.1 million."
};

struct OutlookAnswer {
  sheet::Asked asked;
  std::string all;  ///< builds that the slots allow, every digit
  double all_builds = 0.0;
  plan::BuildCount possible;
  std::vector<OutlookLine> without;    ///< the one that forbids most first
  std::vector<std::string> sentences;  ///< how many are left, then what forbids most
  std::vector<std::string> notes;      ///< how the numbers were found
  bool stopped = false;
};

/// Errors: out_of_range (plan::outlook).
[[nodiscard]] Result<OutlookAnswer> outlook_of(Planning& planning, const OutlookRequest& request);

/// docs/schema/outlook.schema.json.
[[nodiscard]] std::string outlook_json(const OutlookAnswer& answer);
[[nodiscard]] std::string outlook_text(const OutlookAnswer& answer, const sheet::TextStyle& style);

}  // namespace rigproof::app
