// For tests only: seeded random numbers and words for made-up tables.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <random>
#include <string>

namespace rigproof::test_plan {

class RandomNumbers {
 public:
  explicit RandomNumbers(std::uint64_t seed) : random_(seed) {}

  int number(int low, int high) {
    return low + static_cast<int>(random_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool chance(int percent) { return number(1, 100) <= percent; }
  std::string text(int low, int high, int step = 1) {
    return std::to_string(low + step * number(0, (high - low) / step));
  }
  std::string pick(std::initializer_list<const char*> words) {
    return *(words.begin() + number(0, static_cast<int>(words.size()) - 1));
  }
  std::string decimal(int low, int high) {
    const int hundredths = number(low, high);
    return std::to_string(hundredths / 100) + "." + (hundredths % 100 < 10 ? "0" : "") +
           std::to_string(hundredths % 100);
  }

 private:
  std::mt19937_64 random_;
};

}  // namespace rigproof::test_plan
