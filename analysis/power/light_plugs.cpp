#include "analysis/power/light_plugs.hpp"

#include <algorithm>
#include <array>
#include <functional>
#include <limits>

#include "base/contract.hpp"

namespace rigproof::power {
namespace {

constexpr int most_steps = 200'000;

// Depth first over the plugs, the largest first, each on the outlets with most left first.
class Sharer {
 public:
  Sharer(std::span<const double> gives_a, std::span<const double> plugs_a)
      : outlets_(gives_a.size()), plugs_(plugs_a.size()) {
    std::ranges::copy(gives_a, left_.begin());
    std::ranges::copy(plugs_a, drawn_.begin());
    std::ranges::sort(drawn_.begin(), drawn_.begin() + static_cast<std::ptrdiff_t>(plugs_),
                      std::greater<>());
    for (const double each : gives_a) sum_left_ += each;
    for (const double each : plugs_a) sum_left_ -= each;
  }

  double best() {
    place(0);
    return best_;
  }

 private:
  [[nodiscard]] double least_left() const {
    return *std::ranges::min_element(left_.begin(),
                                     left_.begin() + static_cast<std::ptrdiff_t>(outlets_));
  }
  // However the rest is shared, the tightest outlet has no more than this.
  [[nodiscard]] double bound() const {
    return std::min(least_left(), sum_left_ / static_cast<double>(outlets_));
  }

  void place(std::size_t plug) {
    if (++steps_ > most_steps && best_ > -std::numeric_limits<double>::infinity()) return;
    if (bound() <= best_) return;
    if (plug == plugs_) {
      best_ = least_left();
      return;
    }
    std::array<double, most_light_outlets> tried;
    std::size_t tried_count = 0;
    for (std::size_t turn = 0; turn < outlets_; ++turn) {
      // The outlet with most left of those whose state was not tried: equal ones are the same.
      std::size_t next = outlets_;
      for (std::size_t o = 0; o < outlets_; ++o) {
        const auto end = tried.begin() + static_cast<std::ptrdiff_t>(tried_count);
        if (std::find(tried.begin(), end, left_[o]) != end) continue;
        if (next == outlets_ || left_[o] > left_[next]) next = o;
      }
      if (next == outlets_) return;
      tried[tried_count++] = left_[next];
      const double before = left_[next];
      left_[next] -= drawn_[plug];
      place(plug + 1);
      left_[next] = before;
    }
  }

  std::array<double, most_light_outlets> left_{};
  std::array<double, most_light_plugs> drawn_{};
  std::size_t outlets_;
  std::size_t plugs_;
  double sum_left_ = 0.0;
  double best_ = -std::numeric_limits<double>::infinity();
  int steps_ = 0;
};

}  // namespace

double share_lights(std::span<const double> gives_a, std::span<const double> plugs_a) {
  RP_EXPECT(gives_a.size() <= most_light_outlets && plugs_a.size() <= most_light_plugs);
  if (gives_a.empty()) return -std::numeric_limits<double>::infinity();
  return Sharer(gives_a, plugs_a).best();
}

}  // namespace rigproof::power
