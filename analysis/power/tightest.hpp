// What is left on the tightest of several outlets, as value and limit of a claim. Not for other
// engines.
#pragma once

#include <array>

#include "claims/rule.hpp"

namespace rigproof::power {

/// How a number is taken from its draws: one draw, or the end of its interval that is worst or best
/// for the claim.
struct Pick {
  enum class From { worst, best, draw };
  From from = From::worst;
  int draw = 0;
  [[nodiscard]] double drawn(const Draws& a) const {
    return from == From::draw ? a[draw] : from == From::worst ? a.high() : a.low();
  }
  [[nodiscard]] double given(const Draws& a) const {
    return from == From::draw ? a[draw] : from == From::worst ? a.low() : a.high();
  }
};
inline constexpr Pick worst_pick{Pick::From::worst, 0};
inline constexpr Pick best_pick{Pick::From::best, 0};

enum class Certainty { certain, drawn, spans };
inline Certainty with(Certainty all, const Draws& one) {
  if (one.spans() || all == Certainty::spans) return Certainty::spans;
  return one.is_certain() ? all : Certainty::drawn;
}

/// What is not known otherwise is taken for the worst or for the best.
enum class Take { worst, best };

/// Sets value and limit so that limit - value is what `left_a(pick)` says is left. `left_a` falls
/// with every current drawn and rises with every current given, so that the ends of the interval
/// are at the picks worst and best; `certainty` is that of all numbers it takes. `limit` is what an
/// outlet of the board gives.
template <class Left>
void compare_left(const Draws& limit, Certainty certainty, Left left_a, Measure& m) {
  m.limit = limit;
  if (certainty == Certainty::certain) {
    m.value = limit.low() - left_a(worst_pick);
  } else if (certainty == Certainty::drawn) {
    std::array<double, draw_count> samples;
    for (int i = 0; i < draw_count; ++i)
      samples[static_cast<std::size_t>(i)] = limit[i] - left_a(Pick{Pick::From::draw, i});
    m.value = Draws::of(samples);
  } else {
    const double high_a = limit.low() - left_a(worst_pick);
    double low_a = limit.high() - left_a(best_pick);
    if (low_a > high_a) {  // the tightest outlet is another one: the limit's own width is no part
      m.limit = limit.low();
      low_a = limit.low() - left_a(best_pick);
    }
    m.value = Draws::span(low_a, high_a, stream("power", "outlets", "current_a"));
  }
}

}  // namespace rigproof::power
