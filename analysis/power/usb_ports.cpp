#include "analysis/power/usb_ports.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "base/contract.hpp"

namespace rigproof::power {
namespace {

constexpr int most_steps = 20'000;
constexpr double infinite = std::numeric_limits<double>::infinity();

struct State {
  int ports = 0;
  double each_a = 0.0;
  double all_left_a = 0.0;
  bool operator==(const State&) const = default;
};

// Depth first over the plugs, the thirstiest first, each on the ports that give most first. Where
// no outlet has a sum to keep, the first way is the best.
class Sharer {
 public:
  Sharer(std::span<const UsbOutlet> outlets, std::span<const double> drawn_a)
      : outlets_(outlets), drawn_(drawn_a) {
    for (std::size_t o = 0; o < outlets.size(); ++o) {
      state_[o] = {outlets[o].ports, outlets[o].each_a, outlets[o].all_a};
      one_way_ = one_way_ && std::isinf(outlets[o].all_a);
    }
  }

  UsbTightest best() {
    place(0, {});
    return best_;
  }

 private:
  [[nodiscard]] bool done() const {
    const bool any = best_.left_a > -infinite;
    return any && (one_way_ || steps_ > most_steps);
  }

  void place(std::size_t plug, UsbTightest so_far) {
    if (++steps_; done() || so_far.left_a <= best_.left_a) return;
    if (plug == drawn_.size()) {
      best_ = so_far;
      return;
    }
    std::array<State, most_usb_outlets> tried;
    auto tried_end = tried.begin();
    while (!done()) {
      // Of those whose state was not tried: equal ones are the same.
      std::size_t next = outlets_.size();
      double most_a = -infinite;
      for (std::size_t o = 0; o < outlets_.size(); ++o) {
        if (state_[o].ports == 0 || std::find(tried.begin(), tried_end, state_[o]) != tried_end)
          continue;
        const double gives_a = std::min(state_[o].each_a, state_[o].all_left_a);
        if (next == outlets_.size() || gives_a > most_a) {
          next = o;
          most_a = gives_a;
        }
      }
      if (next == outlets_.size()) return;
      State& state = state_[next];
      const State before = state;
      *tried_end++ = before;
      --state.ports;
      state.all_left_a -= drawn_[plug];
      UsbTightest now = so_far;
      if (const double left_a = before.each_a - drawn_[plug]; left_a < now.left_a)
        now = {left_a, before.each_a};
      if (state.all_left_a < now.left_a) now = {state.all_left_a, outlets_[next].all_a};
      place(plug + 1, now);
      state = before;
    }
  }

  std::span<const UsbOutlet> outlets_;
  std::span<const double> drawn_;
  std::array<State, most_usb_outlets> state_{};
  bool one_way_ = true;
  UsbTightest best_{-infinite, 0.0};
  int steps_ = 0;
};

}  // namespace

UsbTightest share_usb(std::span<const UsbOutlet> outlets, std::span<const double> drawn_a) {
  RP_EXPECT(outlets.size() <= most_usb_outlets && drawn_a.size() <= most_usb_plugs);
  RP_EXPECT(std::ranges::is_sorted(drawn_a, std::greater<>()));
  return Sharer(outlets, drawn_a).best();
}

}  // namespace rigproof::power
