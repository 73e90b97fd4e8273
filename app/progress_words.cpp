#include "app/progress_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/wording.hpp"

namespace rigproof::app {

std::string progress_words(const plan::Progress& progress, Currency currency) {
  std::string looked_at = fmt::format("{} choices looked at, ", sheet::grouped(progress.nodes));
  if (progress.stairs > 0)
    looked_at = fmt::format("{} {} found, now looking for the best under {}; {}", progress.stairs,
                            progress.stairs == 1 ? "step" : "steps",
                            to_string(Money{currency, progress.under_cap}), looked_at);
  if (!progress.has_best)
    return looked_at +
           fmt::format("none scores over {}", to_string(Money{currency, progress.bound}));
  const std::int64_t gap = std::max<std::int64_t>(0, progress.bound - progress.best_score);
  const double of_best = progress.best_score > 0 ? 100.0 * static_cast<double>(gap) /
                                                       static_cast<double>(progress.best_score)
                                                 : 0.0;
  return looked_at +
         fmt::format("best {}, at most {} more{}", to_string(Money{currency, progress.best_score}),
                     to_string(Money{currency, gap}),
                     progress.best_score > 0 ? fmt::format(" ({:.1f} %)", of_best) : "");
}

std::string counting_words(std::size_t done, std::size_t all) {
  return fmt::format("counting what empty cells cost: rule {} of {}", done + 1, all);
}

}  // namespace rigproof::app
