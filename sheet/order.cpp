#include "sheet/order.hpp"

#include <algorithm>
#include <limits>
#include <tuple>

namespace rigproof::sheet {
namespace {

int rank_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::fails:
      return 0;
    case Verdict::doubtful:
      return 1;
    case Verdict::thin:
      return 2;
    case Verdict::unknown:
      return 3;
    case Verdict::holds:
      return 4;
  }
  return 5;
}

auto key_of(const Claim& claim) {
  constexpr double last = std::numeric_limits<double>::infinity();
  const bool only_told = claim.grade == Grade::tells && claim.verdict != Verdict::holds;
  return std::make_tuple(claim.verdict == Verdict::holds ? 2
                         : only_told                     ? 1
                                                         : 0,
                         rank_of(claim.verdict), claim.margin_frac.value_or(last),
                         claim.grade == Grade::must ? 0 : 1, claim.odds.value_or(1.0),
                         std::cref(claim.id), std::cref(claim.where), std::cref(claim.load));
}

bool same_cell(const Missing& a, const Missing& b) {
  return a.table == b.table && a.row == b.row && a.column == b.column;
}

}  // namespace

std::vector<const Claim*> nearest_first(const std::vector<Claim>& claims) {
  std::vector<const Claim*> out;
  out.reserve(claims.size());
  for (const Claim& claim : claims) out.push_back(&claim);
  std::ranges::stable_sort(out,
                           [](const Claim* a, const Claim* b) { return key_of(*a) < key_of(*b); });
  return out;
}

bool has_plenty(const Claim& claim) {
  if (claim.verdict != Verdict::holds || claim.measured) return false;
  // Met exactly, and certain (one plug for one input): nothing about it can move.
  const bool settled = claim.margin && claim.margin->value == 0.0 && !claim.margin->low;
  return settled || !claim.margin_frac || *claim.margin_frac > plenty_frac;
}

ClaimOrder split_claims(const std::vector<Claim>& claims) {
  ClaimOrder out;
  for (const Claim* claim : nearest_first(claims))
    (has_plenty(*claim) ? out.plenty : out.near).push_back(claim);
  return out;
}

std::size_t run_of_one_id(const std::vector<const Claim*>& claims, std::size_t at) {
  std::size_t end = at + 1;
  while (end < claims.size() && claims[end]->id == claims[at]->id) ++end;
  return end - at;
}

std::vector<PriceLine> prices_in_order(const MarketPrices& market,
                                       const std::vector<PartLine>& parts) {
  std::vector<PriceLine> out = market.lines;
  std::ranges::stable_sort(out, {}, [&](const PriceLine& line) {
    return std::ranges::find(parts, line.part_id, &PartLine::id) - parts.begin();
  });
  return out;
}

std::vector<MissingCount> cells_to_look_up(const std::vector<Claim>& claims) {
  std::vector<MissingCount> out;
  for (const Claim& claim : claims) {
    for (const Missing& cell : claim.missing) {
      auto known =
          std::ranges::find_if(out, [&](const MissingCount& m) { return same_cell(m.cell, cell); });
      if (known == out.end()) known = out.insert(out.end(), MissingCount{.cell = cell});
      if (claim.verdict == Verdict::unknown) {
        ++known->claims;
        known->waiting.push_back(&claim);
      } else {
        ++known->ranges;
      }
    }
  }
  std::ranges::stable_sort(out, [](const MissingCount& a, const MissingCount& b) {
    return std::tie(a.claims, a.ranges) > std::tie(b.claims, b.ranges);
  });
  return out;
}

std::vector<const Claim*> what_goes_wrong(const std::vector<Claim>& claims) {
  std::vector<const Claim*> out = nearest_first(claims);
  std::erase_if(out, [](const Claim* claim) {
    return claim->grade != Grade::must ||
           (claim->verdict != Verdict::fails && claim->verdict != Verdict::doubtful);
  });
  return out;
}

}  // namespace rigproof::sheet
