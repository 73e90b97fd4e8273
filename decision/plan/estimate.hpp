// What many independent probes say of a number that nobody counted: the middle and a 90 % interval.
#pragma once

#include <span>

namespace rigproof::plan {

struct Estimate {
  double value = 0.0;
  double low = 0.0;   ///< 5 %
  double high = 0.0;  ///< 95 %
};

/// From the means of batches of equally many probes, each mean unbiased for a number that is not
/// negative. `largest`: the most that one probe added to the mean of all.
///
/// The spread is that of the batch means, (L4); their number is small, so it is widened as
/// Student's t asks. The interval is that of a gamma distribution of this mean and spread, (L5):
/// next to normal where many probes counted, skewed to the right where few did.
///
/// In:     at least two means, finite, not negative.
/// Source: [law-batches] for the batches, [fay-feuer] equations 1 and 2 for the interval,
///         [wilson-hilferty] for its quantiles.
[[nodiscard]] Estimate estimate_of(std::span<const double> batch_means, double largest);

}  // namespace rigproof::plan
