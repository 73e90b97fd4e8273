#include "analysis/fit/meetings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace rigproof::fit {
namespace {

// Less than what is drawn as one line.
constexpr double touching_mm = 0.5;

// Length of what two extents share along an axis; negative: the gap between them.
double shared_mm(const Extent& a, const Extent& b) {
  return std::min(a.high_mm, b.high_mm) - std::max(a.low_mm, b.low_mm);
}

bool hangs(const Box& box) { return box.use == Use::radiator || box.use == Use::fan; }

bool is_placed(const Box& box) {
  return std::ranges::all_of(box.at, [](const Extent& each) { return each.placed && each.sized; });
}

// Pairs that no rule of this engine compares. All others are card, plug, cooler, memory or board
// against something, see the rules' table in README.md.
bool unjudged(const Box& a, const Box& b) {
  if (a.part_id == b.part_id && a.mount == b.mount) return false;
  const auto pair = [&](auto one, auto other) {
    return (one(a) && other(b)) || (one(b) && other(a));
  };
  const auto is = [](Use use) { return [use](const Box& box) { return box.use == use; }; };
  return pair(hangs, hangs) || pair(is(Use::supply), hangs) ||
         pair(is(Use::supply), is(Use::card)) || pair(is(Use::cooler), is(Use::card));
}

std::string words(const Box& box) {
  return box.mount.empty() ? box.name : fmt::format("{} on {}", box.name, box.mount);
}

}  // namespace

double apart_mm(const Box& a, const Box& b) {
  double square = 0.0;
  for (std::size_t axis = 0; axis < a.at.size(); ++axis) {
    const double gap_mm = std::max(0.0, -shared_mm(a.at[axis], b.at[axis]));
    square += gap_mm * gap_mm;
  }
  return std::sqrt(square);
}

double overlap_mm(const Box& a, const Box& b) {
  double least_mm = std::numeric_limits<double>::infinity();
  for (std::size_t axis = 0; axis < a.at.size(); ++axis) {
    const Extent& one = a.at[axis];
    const Extent& other = b.at[axis];
    // Where one lies within the other it is pushed out on the nearer side.
    least_mm = std::min({least_mm, one.high_mm - other.low_mm, other.high_mm - one.low_mm});
  }
  return std::max(0.0, least_mm);
}

void add_meetings(Scene& scene) {
  for (std::size_t i = 0; i < scene.boxes.size(); ++i)
    for (std::size_t j = i + 1; j < scene.boxes.size(); ++j) {
      const Box& a = scene.boxes[i];
      const Box& b = scene.boxes[j];
      if (!unjudged(a, b) || overlap_mm(a, b) <= touching_mm) continue;
      const bool sure = is_placed(a) && is_placed(b);
      scene.notes.push_back(
          fmt::format("As drawn, {} and {} meet, and no claim judges that pair{}: look at it on "
                      "the table.",
                      words(a), words(b), sure ? "" : "; their places are not all stated"));
    }
}

}  // namespace rigproof::fit
