#include "analysis/fit/layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>

#include "analysis/fit/layout_frame.hpp"
#include "analysis/fit/layout_gaps.hpp"
#include "analysis/fit/meetings.hpp"

namespace rigproof::fit {
namespace {

// Sizes that stand for what no table states; what is drawn with them is marked as not sized.
constexpr double usual_fan_depth_mm = 25.0;
constexpr double usual_tower_mm = 120.0;
constexpr double usual_socket_mm = 85.0;  // from the rear, and from the upper edge
constexpr double usual_behind_board_mm = 25.0;
constexpr double dimm_length_mm = 133.35;  // JEDEC MO-309, MO-329: looked up on a page about sizes

class Layout {
 public:
  explicit Layout(const Facts& facts)
      : facts_(facts),
        catalog_(facts.catalog),
        frame_(frame_of(facts)),
        mounting_(choose_mounting(facts)) {}

  Scene boxes() {
    scene_.size_mm = frame_.size_mm;
    add_outline();
    if (facts_.build.has(Kind::board)) add_board();
    if (facts_.build.has(Kind::psu)) add_supply();
    if (facts_.build.has(Kind::memory)) add_memory();
    add_own_fans();
    add_fans();
    add_radiator();
    if (facts_.build.has(Kind::gpu)) add_card();
    if (facts_.build.has(Kind::cooler)) add_cooler();
    if (facts_.build.has(Kind::storage))
      note("Drives are not drawn: no table says where they sit.");
    return std::move(scene_);
  }
  [[nodiscard]] const CaseFrame& frame() const { return frame_; }
  [[nodiscard]] const Mounting& mounting() const { return mounting_; }

 private:
  void note(std::string text) {
    if (std::ranges::find(scene_.notes, text) == scene_.notes.end())
      scene_.notes.push_back(std::move(text));
  }
  std::string id(Kind kind) const {
    return std::string(catalog_.id({kind, facts_.build.one(kind)}));
  }
  double number(ColumnId column, Row row) const { return nominal(catalog_, column, row); }

  void add(std::string name, std::string part_id, Use use, Extent x, Extent y, Extent z) {
    scene_.boxes.push_back(
        {.name = std::move(name), .part_id = std::move(part_id), .use = use, .at = {x, y, z}});
  }

  void add_outline() {
    const auto [depth_mm, width_mm, height] = frame_.size_mm;
    const bool sized = depth_mm > 0.0 && width_mm > 0.0 && height > 0.0;
    if (!sized) note("The case does not state its outside: its outline is not to scale.");
    const double panel_mm = frame_.panel.at_mm;
    add("case", id(Kind::chassis), Use::outline,
        span_of(0.0, depth_mm > 0.0 ? depth_mm : frame_.front.at_mm, true, depth_mm > 0.0),
        span_of(panel_mm - (width_mm > 0.0 ? width_mm : panel_mm + usual_behind_board_mm), panel_mm,
                frame_.panel.stated, width_mm > 0.0),
        span_of(0.0, height > 0.0 ? height : frame_.board_top.at_mm, true, height > 0.0));
    if (!frame_.panel.stated) note("How far the side panel stands from the board is not stated.");
  }

  void add_board() {
    const bool sized = frame_.form_factor.has_value();
    const double width_mm = sized ? frame_.board.width_mm : 244.0;
    const double depth_mm = sized ? frame_.board.depth_mm : 244.0;
    if (!sized) note("The board states no outline that a standard fixes.");
    if (!frame_.board_top.stated)
      note("How far the board lies below the top is not stated: it is drawn dashed.");
    const double top_mm = frame_.board_top.at_mm;
    add("board", id(Kind::board), Use::board, span_of(0.0, depth_mm, true, sized),
        span_of(-board_thickness_mm, 0.0, true),
        span_of(top_mm - width_mm, top_mm, frame_.board_top.stated, sized));
  }

  void add_supply() {
    const Row supply = facts_.build.one(Kind::psu);
    const auto body = supply_body(catalog_.word(column("psu", "form"), supply));
    const double length_mm = number(column("psu", "length_mm"), supply);
    const double width_mm = body ? body->width_mm : 150.0;
    const double body_mm = body ? body->height_mm : 86.0;
    note(
        "No table says where the supply's chamber is: the supply is drawn dashed, low at the "
        "rear.");
    add("supply", id(Kind::psu), Use::supply,
        span_of(0.0, std::isnan(length_mm) ? 140.0 : length_mm, false, !std::isnan(length_mm)),
        span_of(0.0, width_mm, false, body.has_value()),
        span_of(0.0, body_mm, false, body.has_value()));
  }

  // Where the slots lie on a board is no standard.
  void add_memory() {
    note("Where memory slots and socket lie on a board is no standard: they are drawn dashed.");
    double tallest_mm = 0.0;
    bool sized = true;
    for (const Chosen& kit : facts_.build.of(Kind::memory)) {
      const double kit_mm = number(column("memory", "height_mm"), kit.row);
      sized = sized && !catalog_.absent(column("memory", "height_mm"), kit.row);
      tallest_mm = std::max(tallest_mm, kit_mm);
    }
    const double front_mm =
        std::min(frame_.board.depth_mm > 0.0 ? frame_.board.depth_mm : 170.0, 170.0);
    const double top_mm = frame_.board_top.at_mm - 10.0;
    add("memory", id(Kind::memory), Use::memory,
        span_of(front_mm - 40.0, front_mm - 12.0, false, false),
        span_of(0.0, tallest_mm, true, sized), span_of(top_mm - dimm_length_mm, top_mm, false));
  }

  void add_cooler() {
    const Row cooler = facts_.build.one(Kind::cooler);
    const double height = catalog_.number(column("cooler", "height_mm"), cooler);
    const double fan_mm = catalog_.number(column("cooler", "fan_mm"), cooler);
    const bool liquid = has_radiator(facts_);
    const double wide_mm = liquid ? 70.0 : std::isnan(fan_mm) ? usual_tower_mm : fan_mm;
    const double deep_mm = liquid ? 70.0 : 0.7 * wide_mm;
    const Row board = facts_.build.one(Kind::board);
    const ColumnId from_edge = column("board", "socket_from_edge_mm");
    const double edge_mm = board == no_row ? no_number : catalog_.number(from_edge, board);
    const double above_mm = catalog_.number(column("cooler", "above_socket_mm"), cooler);
    const double tall_mm = liquid || std::isnan(above_mm) ? wide_mm : 2.0 * above_mm;
    add(liquid ? "pump" : "cooler", id(Kind::cooler), Use::cooler,
        around(usual_socket_mm, deep_mm, false, false),
        span_of(0.0, std::isnan(height) ? 60.0 : height, true, !std::isnan(height)),
        around(frame_.board_top.at_mm - (std::isnan(edge_mm) ? usual_socket_mm : edge_mm), tall_mm,
               frame_.board_top.stated && !std::isnan(edge_mm), !liquid && !std::isnan(above_mm)));
  }

  void add_card() {
    const Row card = facts_.build.one(Kind::gpu);
    const auto size = [&](ColumnId cell, double usual_mm) {
      const double mm = number(cell, card);
      return std::pair(std::isnan(mm) ? usual_mm : mm, !catalog_.absent(cell, card));
    };
    const auto [length_mm, length_known] = size(column("gpu", "length_mm"), 267.0);
    const auto [tall_mm, tall_known] = size(column("gpu", "height_mm"), 111.0);
    const auto [thick_mm, thick_known] = size(column("gpu", "thickness_mm"), 40.0);
    const Plane slot = slot_z(frame_, first_card_position());
    if (!facts_.build.has(Kind::board))
      note("Without a board the card's slot is not known: the card is drawn dashed.");
    const bool inside = slot.at_mm - thick_mm >= 0.0;
    if (slot.stated && inside)
      note("Slots are placed by one source that may be 1.6 mm off; no claim rests on it.");
    if (!inside) note("The card may stand elsewhere than in the board's slot: it is drawn dashed.");
    const double top_mm = inside ? slot.at_mm : thick_mm;
    add("card", id(Kind::gpu), Use::card, span_of(0.0, length_mm, true, length_known),
        span_of(0.0, tall_mm, true, tall_known),
        span_of(top_mm - thick_mm, top_mm, slot.stated && inside, thick_known));
    add_bend(card, scene_.boxes.back().at);
  }

  // It begins where the card ends: where that is not known, neither is this.
  void add_bend(Row card, const std::array<Extent, 3>& beside) {
    const std::string_view side = catalog_.word(column("gpu", "plug_side"), card);
    const ColumnId bend_column = column("gpu", "plug_bend_mm");
    const double bend_mm = number(bend_column, card);
    const bool sized = !catalog_.absent(bend_column, card);
    const auto& [length, tall, z] = beside;
    const double length_mm = length.high_mm;
    const double tall_mm = tall.high_mm;
    if (side == "end")
      add("plug and bend", "", Use::bend,
          span_of(length_mm, length_mm + bend_mm, length.sized, sized),
          span_of(0.3 * tall_mm, 0.7 * tall_mm, false, false), z);
    if (side == "top")
      add("plug and bend", "", Use::bend, around(0.6 * length_mm, 40.0, false, false),
          span_of(tall_mm, tall_mm + bend_mm, tall.sized, sized), z);
  }

  // The slot a card goes into: the first full-length one.
  int first_card_position() const {
    if (!facts_.build.has(Kind::board)) return 1;
    for (const Row row :
         catalog_.rows_of(table("board_slots"), {Kind::board, facts_.build.one(Kind::board)})) {
      if (catalog_.word(column("board_slots", "length"), row) != "x16") continue;
      const double position = catalog_.number(column("board_slots", "position"), row);
      return std::isnan(position) ? 1 : static_cast<int>(position);
    }
    return 1;
  }

  // What a mount bears: so deep from its face, so long along it, so wide across it.
  struct Hung {
    std::string name, part_id;
    Use use;
    double depth_mm, length_mm, width_mm;
    bool depth_known;
    bool length_known = true;
    bool width_known = true;
    bool before_front = false;  // the case's own front fans: the stated room begins behind them
  };

  void hang(Row mount, const Hung& what) {
    const std::string_view face = catalog_.word(column("case_mounts", "face"), mount);
    double& used_mm = used_mm_[mount];
    const double row_mm = std::max(row_length_mm(catalog_, mount), what.length_mm);
    const auto along = [&](double middle_mm) {
      const double low_mm = middle_mm - 0.5 * row_mm + used_mm;
      return span_of(low_mm, low_mm + what.length_mm, false, what.length_known);
    };
    const auto across = [&](double middle_mm, bool placed) {
      return around(middle_mm, what.width_mm, placed, what.width_known);
    };
    const double middle_y = 0.5 * frame_.panel.at_mm;
    const auto [depth_mm, width_mm, tall_mm] = frame_.size_mm;
    if (face == "front") {
      // What takes nothing from the card's room (T4) stands before it, as the case's own fans do.
      const auto beside_mm = taken_beside_mm(mount);
      const bool before = what.before_front || !beside_mm;
      const double high_mm = frame_.front.at_mm + (before ? what.depth_mm : -*beside_mm);
      if (!what.before_front && !beside_mm)
        note("What the front mount takes of the card's room is not stated: it is drawn before it.");
      add(what.name, what.part_id, what.use,
          span_of(high_mm - what.depth_mm, high_mm,
                  frame_.front.stated && (what.before_front || beside_mm), what.depth_known),
          across(middle_y, false), along(0.5 * tall_mm));
    } else if (face == "rear") {
      add(what.name, what.part_id, what.use, span_of(0.0, what.depth_mm, true, what.depth_known),
          across(middle_y, false), along(frame_.board_top.at_mm - 0.5 * row_mm));
    } else if (face == "side") {
      const double y_mm = frame_.panel.at_mm;
      add(what.name, what.part_id, what.use, along(0.5 * depth_mm),
          span_of(y_mm - what.depth_mm, y_mm, frame_.panel.stated, what.depth_known),
          across(0.5 * tall_mm, false));
    } else {
      const bool top = face == "top";
      const double middle_mm =
          catalog_.number(column("case_mounts", "middle_from_board_mm"), mount);
      const bool stated = top && !std::isnan(middle_mm);
      const double high_mm = top ? top_z(mount) : what.depth_mm;
      add(what.name, what.part_id, what.use, along(0.5 * depth_mm),
          across(stated ? middle_mm : middle_y, stated),
          span_of(high_mm - what.depth_mm, high_mm, !top || tall_mm > 0.0, what.depth_known));
    }
    scene_.boxes.back().mount = catalog_.word(column("case_mounts", "mount"), mount);
    used_mm += what.length_mm;
  }

  // From where things hang down: so far above the board as the mount states, else the case's top.
  double top_z(Row mount) const {
    const double beyond_mm = catalog_.number(column("case_mounts", "beyond_board_mm"), mount);
    if (!std::isnan(beyond_mm)) return frame_.board_top.at_mm + beyond_mm;
    return frame_.size_mm[2] > 0.0 ? frame_.size_mm[2] : frame_.board_top.at_mm;
  }

  // What the mount takes of the card's room beside the thickness of what sits there.
  std::optional<double> taken_beside_mm(Row mount) const {
    const PartRef chassis{Kind::chassis, facts_.build.one(Kind::chassis)};
    for (const Row row : catalog_.rows_of(table("case_clearances"), chassis))
      if (catalog_.word(column("case_clearances", "limits"), row) == "card-length" &&
          catalog_.word(column("case_clearances", "when"), row) ==
              catalog_.word(column("case_mounts", "mount"), mount))
        return catalog_.number(column("case_clearances", "by_mm"), row);
    return {};
  }

  void add_own_fans() {
    const PartRef chassis{Kind::chassis, facts_.build.one(Kind::chassis)};
    for (const Row row : catalog_.rows_of(table("case_fans"), chassis)) {
      const double count = catalog_.number(column("case_fans", "count"), row);
      const Row mount = find_mount(facts_, catalog_.word(column("case_fans", "mount"), row));
      if (mount == no_row || mount == mounting_.radiator || !(count > 0.0)) continue;
      const double size_mm = catalog_.number(column("case_fans", "size_mm"), row);
      note("How thick a case's own fans are is not stated.");
      hang(mount, {.name = fan_name(static_cast<int>(count), size_mm),
                   .part_id = id(Kind::chassis),
                   .use = Use::fan,
                   .depth_mm = usual_fan_depth_mm,
                   .length_mm = count * size_mm,
                   .width_mm = size_mm,
                   .depth_known = false,
                   .before_front = true});
    }
  }

  static std::string fan_name(int count, double size_mm) {
    return count == 1 ? fmt::format("fan {:g}", size_mm)
                      : fmt::format("{} fans {:g}", count, size_mm);
  }

  void add_fans() {
    for (const FanGroup& group : mounting_.groups()) {
      const Row fan = facts_.build.of(Kind::fan)[static_cast<std::size_t>(group.model)].row;
      const double size_mm = catalog_.number(column("fan", "size_mm"), fan);
      hang(group.mount, {.name = fan_name(group.count, size_mm),
                         .part_id = std::string(catalog_.id({Kind::fan, fan})),
                         .use = Use::fan,
                         .depth_mm = number(column("fan", "thickness_mm"), fan),
                         .length_mm = group.count * size_mm,
                         .width_mm = size_mm,
                         .depth_known = !catalog_.absent(column("fan", "thickness_mm"), fan)});
    }
  }

  void add_radiator() {
    if (mounting_.radiator == no_row) return;
    const Row cooler = facts_.build.one(Kind::cooler);
    const double size_mm = catalog_.number(column("cooler", "radiator_mm"), cooler);
    const double fan_mm = catalog_.number(column("cooler", "fan_mm"), cooler);
    const ColumnId thickness = column("cooler", "radiator_thickness_mm");
    const ColumnId fan_thickness = column("cooler", "fan_thickness_mm");
    const bool size_known = !std::isnan(size_mm);
    hang(mounting_.radiator,
         {.name = size_known ? fmt::format("radiator {:g}", size_mm) : "radiator",
          .part_id = id(Kind::cooler),
          .use = Use::radiator,
          .depth_mm = number(thickness, cooler) + number(fan_thickness, cooler),
          .length_mm = size_known ? size_mm : 2.0 * usual_tower_mm,
          .width_mm = std::isnan(fan_mm) ? usual_tower_mm : fan_mm,
          .depth_known =
              !catalog_.absent(thickness, cooler) && !catalog_.absent(fan_thickness, cooler),
          .length_known = size_known,
          .width_known = !std::isnan(fan_mm)});
  }

  const Facts& facts_;
  const Catalog& catalog_;
  CaseFrame frame_;
  Mounting mounting_;
  Scene scene_;
  std::map<Row, double> used_mm_;  // of a mount's row, from its one end
};

}  // namespace

Scene scene_of(const Facts& facts, std::span<const Claim> claims, std::string_view title) {
  if (!facts.build.has(Kind::chassis)) {
    Scene empty;
    empty.title = title;
    empty.notes.emplace_back("The build has no case: there is nothing to draw it in.");
    return empty;
  }
  Layout layout(facts);
  Scene scene = layout.boxes();
  scene.title = title;
  add_gaps(layout.frame(), claims, scene);
  add_dimensions(scene);
  add_meetings(scene);
  return scene;
}

}  // namespace rigproof::fit
