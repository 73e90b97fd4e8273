// For tests only: counts what operator new hands out. Include in one file of a test program.
#pragma once

#include <cstddef>
#include <cstdlib>
#include <new>

#include "claims/rule.hpp"

namespace rigproof::test_support {

inline std::size_t allocations = 0;

/// Allocations of one measure beside its draws: those of cells are made on first use, and memory
/// that draws gave back is used again (not under the address sanitizer, where nothing is counted).
inline std::size_t allocations_of(const Rule& rule, const Facts& facts, int place) {
  {
    Measure first;
    rule.measure(facts, place, first);
  }
  Measure again;
  [[maybe_unused]] const std::size_t before = allocations;
  rule.measure(facts, place, again);
#ifdef RP_SANITIZED
  return 0;
#else
  return allocations - before;
#endif
}

}  // namespace rigproof::test_support

// Not inlined: seen through, malloc and delete look like a mismatch to the compiler.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++rigproof::test_support::allocations;
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* memory) noexcept { std::free(memory); }
[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
// What std::stable_sort asks for its buffer; its delete is the one above.
[[gnu::noinline]] void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++rigproof::test_support::allocations;
  return std::malloc(size == 0 ? 1 : size);
}
