// Nothing here asks for memory once its inputs are right.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <new>

#include "analysis/air/noise.hpp"
#include "analysis/air/random_network.hpp"
#include "analysis/air/regulated.hpp"
#include "analysis/air/transient.hpp"

namespace {
long allocations = 0;
}

void* operator new(std::size_t size) {
  ++allocations;
  if (void* out = std::malloc(size)) return out;
  throw std::bad_alloc();
}
void operator delete(void* at) noexcept { std::free(at); }
void operator delete(void* at, std::size_t) noexcept { std::free(at); }

namespace rigproof::air {
namespace {

TEST(Allocation, NoneInTheWholePartOnHeat) {
  std::mt19937_64 generator(3);
  const HeatNetwork network =
      trial::random_network(generator, {.rooms = 6, .bodies = 5, .streams = 3, .loop = true});
  const std::array<RegulatedBody, 2> bodies{
      {{.body = 2, .limits = {.limit_w = 300.0, .limit_c = 70.0}},
       {.body = 3, .limits = {.limit_w = 200.0, .limit_c = 70.0}}}};
  const std::array<double, 10> capacity{30, 0, 30, 30, 0, 400, 300, 150, 200, 80};
  const std::array<double, 10> start{25, 25, 25, 25, 25, 25, 25, 25, 25, 25};
  const std::array<NoiseSource, 2> sources{
      {{.name = "fan", .level_dba = 22.0}, {.name = "pump", .level_dba = {}}}};
  std::array<double, 20> curve{};
  double sum = 0.0;
  const long before = allocations;
  const auto field = HeatField::of(network);
  sum += field->state().body_c[0];
  sum += (*sustained_powers(*regulated_parts(*field, bodies)))[0].power_w;
  const auto transient = Transient::of(field->balance(), capacity, start);
  sum += (*transient->temps_c(100.0))[5];
  const bool sampled = transient->sample(std::array{1.0, 2.0}, curve).has_value();
  const auto reached = transient->time_to_reach_s(5, 26.0, 1e5);
  const auto settled = transient->time_to_settle_s(5, 0.5);
  sum += *transient->slowest_time_constant_s();
  sum += noise_sum(sources)->level_dba;
  sum += *effectiveness(Arrangement::cross_unmixed, 3.0, 0.4);
  const long after = allocations;
  EXPECT_EQ(after - before, 0);
  EXPECT_TRUE(std::isfinite(sum) && sampled && reached && settled);
}

}  // namespace
}  // namespace rigproof::air
