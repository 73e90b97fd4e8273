// What the titles of a brief are worth on one stage of a frame alone, option by option. The worth
// of a pair is at most what its worse stage allows, title by title.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace rigproof::plan {

class StageWorths {
 public:
  /// One number a title, the same titles for every option.
  void add(const std::vector<double>& worths) {
    titles_ = worths.size();
    worths_.insert(worths_.end(), worths.begin(), worths.end());
  }
  [[nodiscard]] double sum(int option) const {
    double sum = 0.0;
    for (std::size_t t = 0; t < titles_; ++t) sum += of(option)[t];
    return sum;
  }
  /// Of an option here and one of the other stage.
  [[nodiscard]] double together(int option, const StageWorths& others, int other) const {
    const double* const a = of(option);
    const double* const b = others.of(other);
    double sum = 0.0;
    for (std::size_t t = 0; t < titles_; ++t) sum += std::min(a[t], b[t]);
    return sum;
  }
  /// Is `a` worth at least as much as `b` in every title?
  [[nodiscard]] bool at_least(int a, int b) const {
    return std::equal(of(a), of(a) + titles_, of(b), [](double x, double y) { return x >= y; });
  }

 private:
  [[nodiscard]] const double* of(int option) const {
    return worths_.data() + static_cast<std::size_t>(option) * titles_;
  }
  std::size_t titles_ = 0;
  std::vector<double> worths_;  ///< [option x titles + title]
};

}  // namespace rigproof::plan
