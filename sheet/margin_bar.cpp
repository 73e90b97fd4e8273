#include "sheet/margin_bar.hpp"

#include <algorithm>
#include <cmath>

namespace rigproof::sheet {
namespace {

std::optional<double> limit_size(const Claim& claim) {
  if (claim.margin && claim.margin->value != 0.0 && claim.margin_frac.value_or(0.0) != 0.0)
    return std::abs(claim.margin->value / *claim.margin_frac);
  if (claim.limit && claim.limit->text.empty() && claim.limit->value != 0.0)
    return std::abs(claim.limit->value);
  return std::nullopt;
}

std::optional<double> measured_room(const Claim& claim) {
  if (!claim.measured || !claim.limit || !claim.limit->text.empty()) return std::nullopt;
  const double over = claim.measured->value - claim.limit->value;
  if (claim.limit->relation == Relation::at_most) return -over;
  if (claim.limit->relation == Relation::at_least) return over;
  return std::nullopt;
}

}  // namespace

std::optional<Spread> spread_of(const Quantity& quantity) {
  if (!quantity.low || !quantity.high || *quantity.low == *quantity.high) return std::nullopt;
  return Spread{std::min(*quantity.low, *quantity.high), std::max(*quantity.low, *quantity.high)};
}

MarginBar margin_bar(const Claim& claim) {
  MarginBar bar;
  bar.unknown = claim.verdict == Verdict::unknown;
  const std::optional<double> size = limit_size(claim);
  if (!bar.unknown && claim.margin_frac) {
    bar.middle = claim.margin_frac;
    const auto spread = claim.margin ? spread_of(*claim.margin) : std::nullopt;
    if (spread && size) bar.spread = Spread{spread->low / *size, spread->high / *size};
  }
  if (const auto room = measured_room(claim); room && size) bar.measured = *room / *size;
  return bar;
}

}  // namespace rigproof::sheet
