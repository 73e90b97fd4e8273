// The order of claims wherever they are shown: nearest to failing first; and which of them are
// folded into the short list.
#pragma once

#include <vector>

#include "sheet/model.hpp"

namespace rigproof::sheet {

/// Musts that fail, are doubtful, thin, unknown; what is only told and does not hold; what holds.
/// Within a verdict the smaller share of room left first, claims without a margin last; then `must`
/// before `tells`, lower odds, id, where: a total order, so that the same claims give the same
/// page. The pointers live as long as `claims`.
[[nodiscard]] std::vector<const Claim*> nearest_first(const std::vector<Claim>& claims);

/// Holds with more than this share of its limit left: nothing to look at first. A choice of layout,
/// not a judgement: the verdict is the claim's own.
inline constexpr double plenty_frac = 0.25;

/// Goes into the short list: it holds, nothing about it was measured, and it has plenty of room, is
/// met exactly and certain, or is a matter of yes and no.
[[nodiscard]] bool has_plenty(const Claim& claim);

struct ClaimOrder {
  std::vector<const Claim*> near;    ///< shown at length
  std::vector<const Claim*> plenty;  ///< folded
};
[[nodiscard]] ClaimOrder split_claims(const std::vector<Claim>& claims);

/// Runs of three and more claims of one id in the short list are told as one group.
inline constexpr std::size_t group_size = 3;
/// How many claims from `at` on have the id of the one at `at`; at least 1.
[[nodiscard]] std::size_t run_of_one_id(const std::vector<const Claim*>& claims, std::size_t at);

/// The price lines of a market in the order of the sheet's parts; others after them.
[[nodiscard]] std::vector<PriceLine> prices_in_order(const MarketPrices& market,
                                                     const std::vector<PartLine>& parts);

/// The cells absent over all claims, each once, with what hangs on it: first the unknown claims
/// that wait for it, then those that were given over the usual range of its class. Most first, then
/// in order of the claims.
struct MissingCount {
  Missing cell;
  int claims = 0;  ///< unknown without it
  int ranges = 0;  ///< given all the same, over the usual range of its class
  std::vector<const Claim*> waiting = {};  ///< the unknown ones
};
[[nodiscard]] std::vector<MissingCount> cells_to_look_up(const std::vector<Claim>& claims);

/// The musts that fail or are doubtful, nearest first: what would go wrong.
[[nodiscard]] std::vector<const Claim*> what_goes_wrong(const std::vector<Claim>& claims);

}  // namespace rigproof::sheet
