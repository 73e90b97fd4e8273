#include "analysis/fit/layout_frame.hpp"

#include <algorithm>
#include <cmath>

#include "analysis/fit/room.hpp"

namespace rigproof::fit {
namespace {

double or_zero(double number) { return std::isnan(number) ? 0.0 : number; }

// What stands for sizes that a case does not state; all drawn with them is marked.
constexpr double usual_room_behind_bracket_mm = 330.0;
constexpr double usual_room_above_board_mm = 160.0;

// The room above the board under the highest of the case's tops: that one is the case's own.
std::optional<double> beyond_board_mm(const Facts& facts, PartRef chassis) {
  std::optional<double> most;
  for (const Row row : facts.catalog.rows_of(table("case_mounts"), chassis)) {
    const double beyond = facts.catalog.number(column("case_mounts", "beyond_board_mm"), row);
    if (!std::isnan(beyond)) most = std::max(most.value_or(beyond), beyond);
  }
  return most;
}

// A case that does not state its height is drawn no lower than its board.
double usual_board_top_mm(double height_mm, const CaseFrame& frame) {
  if (height_mm > 0.0) return 0.92 * height_mm;
  return frame.form_factor ? frame.board.width_mm : outline_of(FormFactor::microatx).width_mm;
}

}  // namespace

std::optional<double> stated_room_mm(const Facts& facts, std::string_view limits) {
  const Row row = always_row(facts, limits);
  if (row == no_row) return {};
  const double by_mm = facts.catalog.number(column("case_clearances", "by_mm"), row);
  if (std::isnan(by_mm)) return {};
  return by_mm;
}

CaseFrame frame_of(const Facts& facts) {
  CaseFrame frame;
  const PartRef chassis{Kind::chassis, facts.build.one(Kind::chassis)};
  const Catalog& catalog = facts.catalog;
  frame.size_mm = {or_zero(catalog.number(column("case", "depth_mm"), chassis.row)),
                   or_zero(catalog.number(column("case", "width_mm"), chassis.row)),
                   or_zero(catalog.number(column("case", "height_mm"), chassis.row))};
  const auto [depth_mm, width_mm, height_mm] = frame.size_mm;
  const auto plane = [](std::optional<double> stated, double usual_mm) {
    return Plane{.at_mm = stated.value_or(usual_mm), .stated = stated.has_value()};
  };
  frame.front =
      plane(stated_room_mm(facts, "card-length"),
            depth_mm > 0.0 ? std::max(0.0, depth_mm - 82.0) : usual_room_behind_bracket_mm);
  frame.panel = plane(stated_room_mm(facts, "cooler-height"),
                      width_mm > 0.0 ? std::max(0.0, width_mm - 50.0) : usual_room_above_board_mm);
  if (facts.build.has(Kind::board))
    frame.form_factor =
        form_factor_of(catalog.word(column("board", "form_factor"), facts.build.one(Kind::board)));
  if (frame.form_factor) frame.board = outline_of(*frame.form_factor);
  const auto beyond_mm = beyond_board_mm(facts, chassis);
  const bool stated = beyond_mm && height_mm > 0.0;
  frame.board_top = {
      .at_mm = stated ? height_mm - *beyond_mm : usual_board_top_mm(height_mm, frame),
      .stated = stated};
  return frame;
}

Plane slot_z(const CaseFrame& frame, int position) {
  const auto place =
      frame.form_factor ? slot_place(*frame.form_factor, position) : std::optional<SlotPlace>{};
  const double below_mm = place ? place->x_mm : 165.0 + slot_pitch_mm * (position - 1);
  return {.at_mm = frame.board_top.at_mm - below_mm, .stated = frame.board_top.stated && place};
}

}  // namespace rigproof::fit
