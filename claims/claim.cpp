#include "claims/claim.hpp"

#include "base/contract.hpp"
#include "base/draws.hpp"

namespace rigproof {

std::string_view name_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::holds:
      return "holds";
    case Verdict::thin:
      return "thin";
    case Verdict::doubtful:
      return "doubtful";
    case Verdict::fails:
      return "fails";
    case Verdict::unknown:
      return "unknown";
  }
  return {};
}

std::string_view name_of(Grade grade) { return grade == Grade::must ? "must" : "tells"; }

std::string_view name_of(Basis basis) {
  switch (basis) {
    case Basis::standard:
      return "standard";
    case Basis::handbook:
      return "handbook";
    case Basis::part_data:
      return "part data";
    case Basis::model:
      return "model";
    case Basis::measured:
      return "measured";
    case Basis::common_practice:
      return "common practice";
  }
  return {};
}

std::string_view name_of(Relation relation) {
  switch (relation) {
    case Relation::at_most:
      return "at_most";
    case Relation::at_least:
      return "at_least";
    case Relation::equals:
      return "equals";
    case Relation::one_of:
      return "one_of";
  }
  return {};
}

Verdict verdict_of(int draws_that_hold) {
  RP_EXPECT(draws_that_hold >= 0 && draws_that_hold <= draw_count);
  if (draws_that_hold >= 244) return Verdict::holds;
  if (draws_that_hold >= 128) return Verdict::thin;
  if (draws_that_hold >= 13) return Verdict::doubtful;
  return Verdict::fails;
}

}  // namespace rigproof
