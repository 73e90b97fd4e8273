// A thread that made draws and ended has given all of their memory back, also what it kept to use
// again.
#include <gtest/gtest.h>

#include <atomic>
#include <cstdlib>
#include <new>
#include <thread>
#include <vector>

#include "base/draws.hpp"

namespace {
std::atomic<long> held = 0;  // pieces of memory that are in use
}

// Not inlined: seen through, malloc and delete look like a mismatch to the compiler.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++held;
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* memory) noexcept {
  if (memory != nullptr) --held;
  std::free(memory);
}
[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept {
  if (memory != nullptr) --held;
  std::free(memory);
}

namespace rigproof {
namespace {

std::vector<Draws> many() {
  const Stream of_one = stream("table", "row", "column", 1);
  std::vector<Draws> draws;
  for (int i = 0; i < 100; ++i) draws.push_back(Draws::uniform(0, 1 + i, of_one));
  return draws;
}

TEST(DrawsThread, GivesItsMemoryBack) {
  long most = 0;
  const auto run = [](auto work) { std::thread(work).join(); };
  run([&] { many(); });  // what the runtime keeps of a first thread
  const long before = held;
  run([&] {
    const auto draws = many();
    most = held;
  });
  EXPECT_GE(most, before + 100);
  EXPECT_EQ(held, before);
}

// Of what outlives the free list: destroyed after it, as it was made before.
TEST(DrawsThread, ALateOneToo) {
  const auto run = [](bool late) {
    std::thread([late] {
      thread_local std::vector<Draws> outlives;
      if (late) outlives = many();
      many();
    }).join();
  };
  run(false);
  const long before = held;
  run(true);
  EXPECT_EQ(held, before);
}

}  // namespace
}  // namespace rigproof
