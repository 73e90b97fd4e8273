// Draws: an uncertain number as 256 seeded joint samples; a certain one is a single double.
//
// Two quantities that read the same cell share its draws, so what two claims have in common stays
// common. Samples are the 256 stratified quantiles of the cell's distribution in an order that
// belongs to the cell (its stream). Beside the samples runs the exact interval of all values the
// inputs allow (the hull), by interval arithmetic: it decides claims that rest on a class range.
// Values only; copies share their samples until one of them is changed, so copying moves a few
// words. Not for several threads: samples that copies share are made at the first look.
#pragma once

#include <array>
#include <bitset>
#include <cstdint>
#include <memory>
#include <string_view>

namespace rigproof {

inline constexpr int draw_count = 256;
using DrawSet = std::bitset<draw_count>;

/// Where a quantity's samples take their order from: a hash of (seed, table, row key, column).
struct Stream {
  std::uint64_t seed = 0;
};
[[nodiscard]] Stream stream(std::string_view table, std::string_view row_key,
                            std::string_view column, std::uint64_t seed = 0);

class Draws {
 public:
  Draws(double certain = 0.0)
      : certain_(true), low_(certain), high_(certain) {}  // NOLINT: a number is one

  /// Uniform on [low, high]: quantiles (k + 1/2)/256. low <= high, both finite.
  [[nodiscard]] static Draws uniform(double low, double high, Stream stream);
  /// A class range stands in for an absent cell: quantiles k/255, ends included, marked as a span.
  [[nodiscard]] static Draws span(double low, double high, Stream stream);
  /// A cell that is absent and has no class range. Arithmetic with it stays absent.
  [[nodiscard]] static Draws absent();
  /// Samples given one by one (engines whose model is not a sum), none NaN. Hull = smallest and
  /// largest.
  [[nodiscard]] static Draws of(const std::array<double, draw_count>& samples, bool spans = false);

  [[nodiscard]] bool is_absent() const { return absent_; }
  [[nodiscard]] bool is_certain() const { return certain_; }
  /// A class range took part: only a verdict that the whole hull shares may be given.
  [[nodiscard]] bool spans() const { return spans_; }
  [[nodiscard]] double low() const { return low_; }    ///< hull
  [[nodiscard]] double high() const { return high_; }  ///< hull
  [[nodiscard]] double operator[](int draw) const {
    return certain_ ? low_ : samples()[static_cast<std::size_t>(draw)];
  }

  /// Hyndman-Fan type 5 quantile of the samples, p in [0, 1]. Source: [hyndman-fan-1996].
  [[nodiscard]] double quantile(double p) const;
  [[nodiscard]] double median() const { return certain_ ? low_ : quantile(0.5); }
  [[nodiscard]] double mean() const;

  Draws& operator+=(const Draws& other);
  Draws& operator-=(const Draws& other);
  Draws& operator*=(double factor);
  friend Draws operator+(Draws a, const Draws& b) { return a += b; }
  friend Draws operator-(Draws a, const Draws& b) { return a -= b; }
  friend Draws operator*(Draws a, double factor) { return a *= factor; }
  /// Sample by sample; the hull follows because both are monotone.
  [[nodiscard]] static Draws larger(const Draws& a, const Draws& b);
  [[nodiscard]] static Draws smaller(const Draws& a, const Draws& b);

  /// Sample by sample through a function that never falls; the hull follows because it does not.
  template <class Function>
  [[nodiscard]] static Draws increasing(const Draws& a, Function function) {
    if (a.is_absent()) return absent();
    if (a.is_certain()) return {function(a.low())};
    Samples samples{};
    for (int draw = 0; draw < draw_count; ++draw)
      samples[static_cast<std::size_t>(draw)] = function(a[draw]);
    return of(samples, a.spans()).within(function(a.low()), function(a.high()));
  }
  /// Anything from a to b, draw by draw, of which no distribution is known: a span. a <= b in
  /// every draw.
  [[nodiscard]] static Draws between(const Draws& a, const Draws& b, Stream stream);

  /// In which draws is a <= b? Neither may be absent.
  [[nodiscard]] static DrawSet at_most(const Draws& a, const Draws& b);

 private:
  using Samples = std::array<double, draw_count>;
  // Samples of a cell are made when one is first looked at: many cells are only ever judged by
  // their hull.
  struct Block {
    Samples samples;
    bool made = true;
    bool with_ends = false;
    double low = 0.0;
    double high = 0.0;
    Stream stream = {};
    void make();
  };
  // From those that were given back, if there are any: sums of draws are made all the time.
  [[nodiscard]] static std::shared_ptr<Block> fresh_block();
  [[nodiscard]] static Draws of_cell(double low, double high, Stream stream, bool spans);
  [[nodiscard]] const Samples& samples() const {
    if (!block_->made) block_->make();
    return block_->samples;
  }
  [[nodiscard]] Samples& own();  // samples that no other Draws sees; a certain number is spread
  void take_marks(const Draws& other);
  [[nodiscard]] Draws within(double low, double high) const;  // another hull, around the samples

  bool certain_ = true;
  bool absent_ = false;
  bool spans_ = false;
  double low_ = 0.0;
  double high_ = 0.0;
  std::shared_ptr<Block> block_;  // null when certain_
};

}  // namespace rigproof
