// A list with a fixed number of places: values of the air engine allocate nothing.
#pragma once

#include <array>
#include <cstddef>

#include "base/contract.hpp"

namespace rigproof::air {

template <class T, std::size_t Most>
class FixedList {
 public:
  static constexpr std::size_t most = Most;

  /// Contract: not full. A reader of files counts before it adds.
  void add(const T& item) {
    RP_EXPECT(size_ < Most);
    items_[size_++] = item;
  }
  void clear() { size_ = 0; }

  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool full() const { return size_ == Most; }
  [[nodiscard]] T& operator[](std::size_t i) { return items_[i]; }
  [[nodiscard]] const T& operator[](std::size_t i) const { return items_[i]; }
  [[nodiscard]] const T* begin() const { return items_.data(); }
  [[nodiscard]] const T* end() const { return items_.data() + size_; }

 private:
  std::array<T, Most> items_{};
  std::size_t size_ = 0;
};

}  // namespace rigproof::air
