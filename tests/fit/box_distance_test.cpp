// Boxes against an outside library: distance and overlap of a hundred thousand random pairs by FCL
// (Flexible Collision Library, Debian libfcl-dev 0.7.0), whose general method for convex bodies
// shares nothing with ours. And what must not matter: mirrors, another origin, which comes first.
#include <fcl/geometry/shape/box.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/distance.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <memory>
#include <random>

#include "analysis/fit/meetings.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::fit {
namespace {

constexpr int pairs = test_support::sanitized ? 10'000 : 100'000;

class RandomBoxes {
 public:
  // Whole and half millimeters, so that many pairs touch exactly or share a side.
  Box box() {
    Box out{.name = "box", .part_id = "box", .use = Use::card, .at = {}};
    for (Extent& extent : out.at) {
      extent.low_mm = 0.5 * std::uniform_int_distribution(-300, 300)(engine_);
      extent.high_mm = extent.low_mm + 0.5 * std::uniform_int_distribution(1, 300)(engine_);
    }
    return out;
  }
  double shift() { return 0.5 * std::uniform_int_distribution(-2000, 2000)(engine_); }

 private:
  std::mt19937 engine_{20261127};
};

// FCL's own box: its sides, moved to its middle.
struct Body {
  explicit Body(const Box& box) {
    fcl::Vector3d side;
    fcl::Vector3d middle;
    for (int axis = 0; axis < 3; ++axis) {
      const Extent& extent = box.at[static_cast<std::size_t>(axis)];
      side[axis] = extent.high_mm - extent.low_mm;
      middle[axis] = 0.5 * (extent.low_mm + extent.high_mm);
    }
    fcl::Transform3d at = fcl::Transform3d::Identity();
    at.translation() = middle;
    object = std::make_unique<fcl::CollisionObjectd>(std::make_shared<fcl::Boxd>(side), at);
  }
  std::unique_ptr<fcl::CollisionObjectd> object;
};

double outside_distance_mm(const Box& a, const Box& b) {
  fcl::DistanceRequestd request;
  request.gjk_solver_type = fcl::GST_INDEP;
  fcl::DistanceResultd result;
  return std::max(0.0, fcl::distance(Body(a).object.get(), Body(b).object.get(), request, result));
}

bool meet_outside(const Box& a, const Box& b) {
  fcl::CollisionRequestd request;
  fcl::CollisionResultd result;
  return fcl::collide(Body(a).object.get(), Body(b).object.get(), request, result) > 0;
}

TEST(BoxDistance, AsTheOutsideLibrarySays) {
  RandomBoxes random;
  int apart = 0;
  int overlapping = 0;
  int touching = 0;
  for (int i = 0; i < pairs && !HasFailure(); ++i) {
    const Box a = random.box();
    const Box b = random.box();
    const double ours_mm = apart_mm(a, b);
    const double deep_mm = overlap_mm(a, b);
    if (ours_mm == 0.0 && deep_mm == 0.0) {  // exactly touching: either answer is right outside
      ++touching;
      EXPECT_NEAR(outside_distance_mm(a, b), 0.0, 1e-5);
      continue;
    }
    EXPECT_EQ(deep_mm > 0.0, meet_outside(a, b)) << i;
    if (deep_mm > 0.0) {
      EXPECT_EQ(ours_mm, 0.0);
      ++overlapping;
      continue;
    }
    EXPECT_NEAR(ours_mm, outside_distance_mm(a, b), 1e-5) << i;
    ++apart;
  }
  EXPECT_GT(apart, pairs / 4);
  EXPECT_GT(overlapping, pairs / 20);
  EXPECT_GT(touching, pairs / 2000);
}

// Moved apart by what overlap_mm says along one of the six ways they just touch; by half a
// millimeter less along every one they still overlap.
TEST(BoxDistance, TheOverlapIsTheShortestWayOut) {
  RandomBoxes random;
  int checked = 0;
  for (int i = 0; i < 20'000; ++i) {
    const Box a = random.box();
    const Box b = random.box();
    const double deep_mm = overlap_mm(a, b);
    if (deep_mm <= 0.5) continue;
    bool out = false;
    for (std::size_t axis = 0; axis < 3; ++axis)
      for (const double way : {-1.0, 1.0}) {
        const auto moved = [&](double by_mm) {
          Box c = b;
          c.at[axis].low_mm += way * by_mm;
          c.at[axis].high_mm += way * by_mm;
          return c;
        };
        EXPECT_GT(overlap_mm(a, moved(deep_mm - 0.5)), 0.0);
        out = out || overlap_mm(a, moved(deep_mm)) == 0.0;
      }
    EXPECT_TRUE(out);
    ++checked;
  }
  EXPECT_GT(checked, 1000);
}

TEST(BoxDistance, MirrorsOriginsAndOrderChangeNothing) {
  RandomBoxes random;
  for (int i = 0; i < 20'000; ++i) {
    const std::array pair = {random.box(), random.box()};
    std::array moved = pair;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const bool mirror = (i >> axis & 1) != 0;
      const double by_mm = random.shift();
      for (Box& box : moved) {
        Extent& extent = box.at[axis];
        const Extent old = extent;
        extent.low_mm = mirror ? by_mm - old.high_mm : by_mm + old.low_mm;
        extent.high_mm = mirror ? by_mm - old.low_mm : by_mm + old.high_mm;
      }
    }
    EXPECT_EQ(apart_mm(moved[0], moved[1]), apart_mm(pair[0], pair[1]));
    EXPECT_EQ(overlap_mm(moved[1], moved[0]), overlap_mm(pair[0], pair[1]));
  }
}

}  // namespace
}  // namespace rigproof::fit
