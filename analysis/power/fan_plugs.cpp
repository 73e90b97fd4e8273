#include "analysis/power/fan_plugs.hpp"

#include <algorithm>
#include <array>

namespace rigproof::power {
namespace {

using Left = std::array<int, most_fan_groups>;  // fans of each group without a plug yet

class Plugger {
 public:
  Plugger(std::span<const FanGroup> groups, const FanHeaders& headers, std::span<const FanHub> hubs)
      : groups_(groups), headers_(headers), hubs_(hubs) {}

  FanPlugging best() {
    Left left{};
    for (std::size_t g = 0; g < groups_.size(); ++g) left[g] = groups_[g].count;
    hub(0, left, headers_.count, std::numeric_limits<double>::infinity());
    return best_;
  }

 private:
  void hub(std::size_t h, Left& left, int headers_left, double least_left_a) {
    if (h == hubs_.size()) return on_headers(left, headers_left, least_left_a);
    const bool needs_header = hubs_[h].on_header;
    const double gives_a =
        needs_header ? std::min(hubs_[h].gives_a, headers_.gives_a) : hubs_[h].gives_a;
    hub(h + 1, left, headers_left, least_left_a);  // not used
    if (needs_header && headers_left == 0) return;
    fill(h, 0, left, headers_left - (needs_header ? 1 : 0), least_left_a, hubs_[h].outputs,
         gives_a);
  }

  // How many of each group, from g on, go on hub h.
  void fill(std::size_t h, std::size_t g, Left& left, int headers_left, double least_left_a,
            int outputs_left, double left_a) {
    if (best_.possible && std::min(least_left_a, left_a) <= best_.left_a) return;
    if (g == groups_.size()) {
      hub(h + 1, left, headers_left, std::min(least_left_a, left_a));
      return;
    }
    const int all = left[g];
    for (int here = 0; here <= all; ++here) {
      const int outputs = groups_[g].chains ? std::min(here, 1) : here;
      if (outputs > outputs_left) break;
      left[g] = all - here;
      fill(h, g + 1, left, headers_left, least_left_a, outputs_left - outputs,
           left_a - here * groups_[g].current_a);
    }
    left[g] = all;
  }

  void on_headers(const Left& left, int headers_left, double least_left_a) {
    Left shares{};  // headers of each chain
    double most_a = 0.0;
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      if (left[g] == 0) continue;
      shares[g] = groups_[g].chains ? 1 : left[g];
      headers_left -= shares[g];
    }
    if (headers_left < 0) return;
    const auto share_a = [&](std::size_t g) {
      if (left[g] == 0) return 0.0;
      if (!groups_[g].chains) return groups_[g].current_a;
      const int longest = (left[g] + shares[g] - 1) / shares[g];
      return longest * groups_[g].current_a;
    };
    for (; headers_left > 0; --headers_left) {
      std::size_t largest = groups_.size();
      for (std::size_t g = 0; g < groups_.size(); ++g)
        if (groups_[g].chains && shares[g] < left[g] &&
            (largest == groups_.size() || share_a(g) > share_a(largest)))
          largest = g;
      if (largest == groups_.size()) break;
      ++shares[largest];
    }
    for (std::size_t g = 0; g < groups_.size(); ++g) most_a = std::max(most_a, share_a(g));
    const double left_a =
        headers_.count == 0 ? least_left_a : std::min(least_left_a, headers_.gives_a - most_a);
    if (best_.possible && left_a <= best_.left_a) return;
    best_ = {.possible = true, .left_a = left_a};
  }

  std::span<const FanGroup> groups_;
  FanHeaders headers_;
  std::span<const FanHub> hubs_;
  FanPlugging best_;
};

}  // namespace

FanPlugging plug_fans(std::span<const FanGroup> groups, const FanHeaders& headers,
                      std::span<const FanHub> hubs) {
  if (groups.size() > most_fan_groups) return {};
  return Plugger(groups, headers, hubs.first(std::min<std::size_t>(hubs.size(), most_fan_hubs)))
      .best();
}

}  // namespace rigproof::power
