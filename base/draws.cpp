#include "base/draws.hpp"

#include <algorithm>
#include <cmath>
#include <new>
#include <numeric>
#include <utility>

#include "base/contract.hpp"

namespace rigproof {
namespace {

// A 64-bit mixer: the finaliser of SplitMix64. Source: [steele-2014] section 5 (constants looked up
// in copies of its code).
std::uint64_t mix(std::uint64_t z) {
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31U);
}

// FNV-1a over the bytes, then a separator that no UTF-8 text contains. Source: [fnv-hash].
std::uint64_t hash(std::uint64_t state, std::string_view text) {
  for (const char c : text) state = (state ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
  return (state ^ 0xFFU) * 0x100000001B3ULL;
}

// The stream's own order of 0...255 (Fisher-Yates).
std::array<int, draw_count> permutation(Stream stream) {
  std::array<int, draw_count> order;
  std::iota(order.begin(), order.end(), 0);
  std::uint64_t state = stream.seed;
  for (int i = draw_count - 1; i > 0; --i) {
    state += 0x9E3779B97F4A7C15ULL;
    const auto j = mix(state) % static_cast<std::uint64_t>(i + 1);
    std::swap(order[static_cast<std::size_t>(i)], order[j]);
  }
  return order;
}

// Under the address sanitizer memory goes back, so that it sees who still reads it.
#ifdef RP_SANITIZED
constexpr bool recycles = false;
#else
constexpr bool recycles = true;
#endif

// One free list a thread for memory of one size. It ends with its thread; what is given back later
// still, by other things of the thread that end, goes back at once.
template <class T>
class Recycling {
 public:
  using value_type = T;
  Recycling() = default;
  template <class U>
  Recycling(const Recycling<U>&) {}  // NOLINT: allocators convert

  [[nodiscard]] T* allocate(std::size_t count) {
    static_assert(sizeof(T) >= sizeof(Free) && alignof(T) >= alignof(Free));
    if (!recycles || count != 1 || free_ == nullptr) return std::allocator<T>().allocate(count);
    Free* const first = free_;
    free_ = first->next;
    return reinterpret_cast<T*>(first);
  }
  void deallocate(T* memory, std::size_t count) noexcept {
    if (!recycles || count != 1 || ended_) return std::allocator<T>().deallocate(memory, count);
    if (free_ == nullptr) static_cast<void>(&end_);  // made, so that it ends
    free_ = new (memory) Free{free_};
  }
  friend bool operator==(const Recycling&, const Recycling&) { return true; }

 private:
  struct Free {
    Free* next;
  };
  struct End {
    End() = default;
    End(const End&) = delete;
    End& operator=(const End&) = delete;
    ~End() {
      ended_ = true;
      while (free_ != nullptr) {
        Free* const first = std::exchange(free_, free_->next);
        std::allocator<T>().deallocate(reinterpret_cast<T*>(first), 1);
      }
    }
  };
  inline static thread_local Free* free_ = nullptr;
  inline static thread_local bool ended_ = false;
  inline static thread_local End end_;
};

}  // namespace

Stream stream(std::string_view table, std::string_view row_key, std::string_view column,
              std::uint64_t seed) {
  std::uint64_t state = 0xCBF29CE484222325ULL ^ mix(seed + 0x9E3779B97F4A7C15ULL);
  state = hash(hash(hash(state, table), row_key), column);
  return Stream{mix(state)};
}

std::shared_ptr<Draws::Block> Draws::fresh_block() {
  return std::allocate_shared_for_overwrite<Block>(Recycling<Block>());
}

Draws Draws::uniform(double low, double high, Stream stream) {
  RP_EXPECT(std::isfinite(low) && std::isfinite(high));
  if (low == high) return {low};
  return of_cell(low, high, stream, false);
}

Draws Draws::span(double low, double high, Stream stream) {
  return of_cell(low, high, stream, true);
}

Draws Draws::of_cell(double low, double high, Stream stream, bool spans) {
  RP_EXPECT(std::isfinite(low) && std::isfinite(high) && low <= high);
  Draws out(low);
  out.certain_ = false;
  out.spans_ = spans;
  out.high_ = high;
  out.block_ = fresh_block();
  out.block_->made = false;
  out.block_->with_ends = spans;
  out.block_->low = low;
  out.block_->high = high;
  out.block_->stream = stream;
  return out;
}

void Draws::Block::make() {
  const auto order = permutation(stream);
  for (std::size_t i = 0; i < draw_count; ++i)
    samples[i] = with_ends ? std::min(high, low + (high - low) * order[i] / (draw_count - 1))
                           : low + (high - low) * (order[i] + 0.5) / draw_count;
  made = true;
}

Draws Draws::absent() {
  Draws out(0.0);
  out.absent_ = true;
  return out;
}

Draws Draws::of(const Samples& samples, bool spans) {
  RP_EXPECT(std::ranges::none_of(samples, [](double sample) { return std::isnan(sample); }));
  const auto [low, high] = std::ranges::minmax_element(samples);
  Draws out(*low);
  out.high_ = *high;
  out.spans_ = spans;
  if (out.low_ == out.high_ && !spans) return out;
  out.certain_ = false;
  out.block_ = fresh_block();
  out.block_->samples = samples;
  return out;
}

Draws Draws::within(double low, double high) const {
  Draws out = *this;
  if (out.certain_ && low < high) (void)out.own();
  out.low_ = std::min(low, out.low_);
  out.high_ = std::max(high, out.high_);
  return out;
}

Draws Draws::between(const Draws& a, const Draws& b, Stream stream) {
  if (a.absent_ || b.absent_) return absent();
  const Draws share = span(0.0, 1.0, stream);
  Samples samples{};
  for (int draw = 0; draw < draw_count; ++draw)
    samples[static_cast<std::size_t>(draw)] = a[draw] + share[draw] * (b[draw] - a[draw]);
  return of(samples, true).within(a.low_, b.high_);
}

double Draws::quantile(double p) const {
  RP_EXPECT(p >= 0.0 && p <= 1.0);
  if (certain_) return low_;
  Samples parted = samples();  // only two neighbors in order are wanted, not the order of all
  const double position = draw_count * p + 0.5;  // type 5: m = 1/2
  const double floor = std::floor(position);
  const auto index = [](double j) {
    return static_cast<std::ptrdiff_t>(std::clamp(j, 1.0, double{draw_count}) - 1.0);
  };
  const auto at = parted.begin() + index(floor);
  std::ranges::nth_element(parted, at);
  const double low = *at;
  const double high =
      index(floor + 1.0) == index(floor) ? low : *std::min_element(at + 1, parted.end());
  return low + (position - floor) * (high - low);
}

double Draws::mean() const {
  if (certain_) return low_;
  double sum = 0.0;
  for (const double sample : samples()) sum += sample;
  return sum / draw_count;
}

Draws::Samples& Draws::own() {
  if (certain_) {
    block_ = fresh_block();
    block_->samples.fill(low_);
    certain_ = false;
  } else if (block_.use_count() > 1) {
    const auto shared = block_;
    if (!shared->made) shared->make();
    block_ = fresh_block();
    block_->samples = shared->samples;
  } else if (!block_->made) {
    block_->make();
  }
  return block_->samples;
}

void Draws::take_marks(const Draws& other) {
  absent_ = absent_ || other.absent_;
  spans_ = spans_ || other.spans_;
}

Draws& Draws::operator+=(const Draws& other) {
  take_marks(other);
  if (!other.certain_ && certain_ && low_ == 0.0) {  // nothing added to: the samples are shared
    block_ = other.block_;
    certain_ = false;
  } else if (!other.certain_) {
    const auto kept = other.block_;  // also when other is *this
    const Samples& added = other.samples();
    Samples& ours = own();
    for (std::size_t i = 0; i < draw_count; ++i) ours[i] += added[i];
  } else if (!certain_) {
    for (double& sample : own()) sample += other.low_;
  }
  low_ += other.low_;
  high_ += other.high_;
  return *this;
}

Draws& Draws::operator-=(const Draws& other) {
  take_marks(other);
  if (!other.certain_) {
    const auto kept = other.block_;  // also when other is *this
    const Samples& taken = other.samples();
    Samples& ours = own();
    for (std::size_t i = 0; i < draw_count; ++i) ours[i] -= taken[i];
  } else if (!certain_) {
    for (double& sample : own()) sample -= other.low_;
  }
  const double other_low = other.low_;  // `a -= a` must not read a half-written hull
  low_ -= other.high_;
  high_ -= other_low;
  return *this;
}

Draws& Draws::operator*=(double factor) {
  if (!certain_) {
    for (double& sample : own()) sample *= factor;
  }
  const double a = low_ * factor;
  const double b = high_ * factor;
  low_ = std::min(a, b);
  high_ = std::max(a, b);
  return *this;
}

Draws Draws::larger(const Draws& a, const Draws& b) {
  Draws out = a;
  out.take_marks(b);
  if (!(a.certain_ && b.certain_)) {
    Samples& samples = out.own();
    for (int i = 0; i < draw_count; ++i)
      samples[static_cast<std::size_t>(i)] = std::max(a[i], b[i]);
  }
  out.low_ = std::max(a.low_, b.low_);
  out.high_ = std::max(a.high_, b.high_);
  return out;
}

Draws Draws::smaller(const Draws& a, const Draws& b) {
  Draws out = a;
  out.take_marks(b);
  if (!(a.certain_ && b.certain_)) {
    Samples& samples = out.own();
    for (int i = 0; i < draw_count; ++i)
      samples[static_cast<std::size_t>(i)] = std::min(a[i], b[i]);
  }
  out.low_ = std::min(a.low_, b.low_);
  out.high_ = std::min(a.high_, b.high_);
  return out;
}

DrawSet Draws::at_most(const Draws& a, const Draws& b) {
  RP_EXPECT(!a.absent_ && !b.absent_);
  DrawSet set;
  if (a.high_ <= b.low_) return set.set();
  if (a.low_ > b.high_) return set;
  for (int i = 0; i < draw_count; ++i) set[static_cast<std::size_t>(i)] = a[i] <= b[i];
  return set;
}

}  // namespace rigproof
