// For tests only: what must hold of every gap of every scene, whatever the build.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include "analysis/fit/scene.hpp"
#include "claims/claim.hpp"

namespace rigproof::fit_test {

/// How far a gap may be from its claim's margin. Where all is certain: rounding of doubles. Else a
/// gap runs between medians, and the claim tells the median of the 256 differences: with half-width
/// a on either side (two equal tolerances spread a median most) its standard error is a/16, and the
/// 90 % interval is 2.7 a wide; an eighth of that interval is more than five standard errors.
inline double rounding_mm(const Claim& claim) {
  const Quantity& margin = *claim.margin;
  return 1e-9 + (margin.low && margin.high ? (*margin.high - *margin.low) / 8.0 : 0.0);
}

inline const fit::Gap* gap_for(const fit::Scene& scene, const Claim& claim) {
  const auto found = std::ranges::find_if(scene.gaps, [&](const fit::Gap& gap) {
    return gap.claim_id == claim.id && gap.where == claim.where;
  });
  return found == scene.gaps.end() ? nullptr : &*found;
}

/// Every gap is as long as its claim's margin, repeats its numbers, and none is in a wrong order.
inline void expect_true_gaps(const fit::Scene& scene, std::span<const Claim> claims) {
  double last = -std::numeric_limits<double>::infinity();
  for (const fit::Gap& gap : scene.gaps) {
    const auto claim = std::ranges::find_if(claims, [&](const Claim& each) {
      return each.id == gap.claim_id && each.where == gap.where;
    });
    ASSERT_NE(claim, claims.end()) << gap.claim_id;
    ASSERT_TRUE(claim->value && claim->limit && claim->margin) << gap.claim_id;
    EXPECT_EQ(gap.value_mm, claim->value->value) << gap.claim_id;
    EXPECT_EQ(gap.limit_mm, claim->limit->value) << gap.claim_id;
    EXPECT_EQ(gap.margin_mm, claim->margin->value) << gap.claim_id;
    EXPECT_EQ(gap.verdict, claim->verdict) << gap.claim_id;
    EXPECT_NEAR(gap.to_mm - gap.from_mm, gap.margin_mm, rounding_mm(*claim))
        << gap.claim_id << " from " << gap.from_mm << " to " << gap.to_mm;
    EXPECT_NEAR(gap.at_mm[static_cast<std::size_t>(gap.axis)], 0.5 * (gap.from_mm + gap.to_mm),
                1e-9);
    // The share of the room; where there is none (a limit of 0 or less), what is missing itself.
    const double share =
        claim->limit->value > 0.0 ? gap.margin_mm / claim->limit->value : gap.margin_mm;
    EXPECT_GE(share, last) << gap.claim_id << " stands behind a wider gap";
    last = share;
  }
}

/// No number that is none, nothing that ends before it begins.
inline void expect_real_numbers(const fit::Scene& scene) {
  for (const fit::Box& box : scene.boxes)
    for (const fit::Extent& extent : box.at) {
      EXPECT_TRUE(std::isfinite(extent.low_mm) && std::isfinite(extent.high_mm)) << box.name;
      EXPECT_LE(extent.low_mm, extent.high_mm) << box.name;
    }
  for (const fit::Gap& gap : scene.gaps) {
    for (const double mm : {gap.from_mm, gap.to_mm, gap.at_mm[0], gap.at_mm[1], gap.at_mm[2],
                            gap.value_mm, gap.limit_mm, gap.margin_mm})
      EXPECT_TRUE(std::isfinite(mm)) << gap.claim_id;
  }
  for (const fit::Dimension& dimension : scene.dimensions) {
    for (const double mm : {dimension.at_mm[0], dimension.at_mm[1], dimension.at_mm[2],
                            dimension.plus_minus_mm, dimension.to_mm})
      EXPECT_TRUE(std::isfinite(mm)) << dimension.text;
    EXPECT_LT(dimension.from_mm, dimension.to_mm) << dimension.text;
  }
}

}  // namespace rigproof::fit_test
