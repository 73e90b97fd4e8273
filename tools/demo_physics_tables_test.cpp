// Would a practitioner believe the demo's relations: slots, sockets, headers, firmware, links?
// Every check states its reason.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>

#include "tools/demo_catalog.hpp"

namespace rigproof::demo {
namespace {

const Catalog& catalog() { return demo_catalog(); }
double number(ColumnId column, Row row) { return catalog().number(column, row); }
std::string_view word(ColumnId column, Row row) { return catalog().word(column, row); }
std::string id(PartRef part) { return std::string(catalog().id(part)); }

std::vector<PartRef> parts_of(Kind kind) {
  std::vector<PartRef> out;
  for (Row row = 0; row < catalog().rows(table_of(kind)); ++row) out.push_back({kind, row});
  return out;
}

// Rear slots are 0.800 inches apart (ATX 2.2 Figure 3 and PCIe CEM, from memory): a card of that
// thickness fills so many and no more, and a case with that many has about that room.
constexpr double slot_pitch_mm = 20.32;

TEST(DemoSlots, CardsFillAsManyAsTheirThicknessNeeds) {
  int known = 0;
  for (const PartRef card : parts_of(Kind::gpu)) {
    const double slots = number(column("gpu", "slots"), card.row);
    const double thickness_mm = number(column("gpu", "thickness_mm"), card.row);
    if (std::isnan(slots) || std::isnan(thickness_mm)) continue;
    ++known;
    EXPECT_LE(thickness_mm, slots * slot_pitch_mm) << id(card);
    EXPECT_GT(thickness_mm, (slots - 1) * slot_pitch_mm) << id(card);
  }
  EXPECT_GT(known, 120);
}

TEST(DemoSlots, CasesHaveTheRoomOfTheirSlots) {
  for (Row row = 0; row < catalog().rows(table("case_clearances")); ++row) {
    if (word(column("case_clearances", "limits"), row) != "card-thickness" ||
        word(column("case_clearances", "when"), row) != "always")
      continue;
    const Row chassis = catalog().reference(column("case_clearances", "case"), row);
    const double room_mm = number(column("case_clearances", "by_mm"), row);
    const double slots = number(column("case", "card_slots"), chassis);
    EXPECT_GE(room_mm, slots * slot_pitch_mm - 2.0) << id({Kind::chassis, chassis});
    EXPECT_LE(room_mm, (slots + 1) * slot_pitch_mm) << id({Kind::chassis, chassis});
  }
}

// ATX has seven slot positions, microATX four, Mini-ITX one (their specifications, from memory). A
// connector has no more lanes than contacts for them.
TEST(DemoSlots, BoardsHaveThePositionsOfTheirOutline) {
  const std::map<std::string_view, double> positions = {
      {"ATX", 7}, {"microATX", 4}, {"Mini-ITX", 1}};
  const std::map<std::string_view, double> most_lanes = {
      {"x1", 1}, {"x4", 4}, {"x8", 8}, {"x16", 16}};
  for (const PartRef board : parts_of(Kind::board)) {
    double last = 0;
    for (const Row slot : catalog().rows_of(table("board_slots"), board)) {
      const double position = number(column("board_slots", "position"), slot);
      EXPECT_GT(position, last) << id(board);
      EXPECT_LE(position, positions.at(word(column("board", "form_factor"), board.row)))
          << id(board);
      EXPECT_LE(number(column("board_slots", "pcie_lanes"), slot),
                most_lanes.at(word(column("board_slots", "length"), slot)))
          << id(board);
      last = position;
    }
    EXPECT_GT(last, 0.0) << id(board);
  }
}

// A drive socket has four lanes at most (M.2 key M). What one takes from a card's slot or from SATA
// ports is there to be taken.
TEST(DemoSlots, DriveSocketsTakeOnlyWhatThereIs) {
  int sharing = 0;
  for (Row socket = 0; socket < catalog().rows(table("board_m2")); ++socket) {
    const PartRef board{Kind::board, catalog().reference(column("board_m2", "board"), socket)};
    EXPECT_LE(number(column("board_m2", "pcie_lanes"), socket), 4.0);
    EXPECT_LE(number(column("board_m2", "sata_ports_off"), socket),
              number(column("board", "sata_ports"), board.row));
    const double shares = number(column("board_m2", "shares_slot"), socket);
    if (shares == 0.0) continue;
    ++sharing;
    bool found = false;
    for (const Row slot : catalog().rows_of(table("board_slots"), board)) {
      if (number(column("board_slots", "slot"), slot) != shares) continue;
      found = true;
      EXPECT_LT(number(column("board_m2", "slot_lanes_left"), socket),
                number(column("board_slots", "pcie_lanes"), slot));
    }
    EXPECT_TRUE(found) << id(board);
  }
  EXPECT_GE(sharing, 5);
}

// A card with nothing to plug in is fed by the slot alone, so within 75 W. Others have a bend in
// the range of the schema's class, 25 to 40 mm (common practice, no source).
TEST(DemoCards, PlugsAndInputsAgree) {
  for (const PartRef card : parts_of(Kind::gpu)) {
    const auto inputs = catalog().rows_of(table("gpu_inputs"), card);
    const auto side = word(column("gpu", "plug_side"), card.row);
    if (inputs.empty() || side.empty()) continue;
    const bool bare = std::ranges::all_of(
        inputs, [](Row row) { return number(column("gpu_inputs", "count"), row) == 0.0; });
    EXPECT_EQ(bare, side == "none") << id(card);
    if (bare) {
      EXPECT_LE(number(column("gpu", "sustained_power_w"), card.row), 75.0) << id(card);
      continue;
    }
    const double bend_mm = number(column("gpu", "plug_bend_mm"), card.row);
    if (std::isnan(bend_mm)) continue;
    EXPECT_GE(bend_mm, 25.0) << id(card);
    EXPECT_LE(bend_mm, 40.0) << id(card);
  }
}

// A small card may have half the lanes, a large one has all sixteen; nobody sells one below the
// third generation any more.
TEST(DemoCards, LinksSuitTheirSpeed) {
  for (const PartRef card : parts_of(Kind::gpu)) {
    const double generation = number(column("gpu", "pcie_generation"), card.row);
    EXPECT_GE(generation, 3.0) << id(card);
    EXPECT_LE(generation, 5.0) << id(card);
    const double lanes = number(column("gpu", "pcie_lanes"), card.row);
    if (std::isnan(lanes)) continue;
    EXPECT_TRUE(lanes == 8.0 || lanes == 16.0) << id(card);
    if (number(column("gpu", "sustained_power_w"), card.row) > 200.0) {
      EXPECT_EQ(lanes, 16.0) << id(card);
    }
  }
}

// Every slot is filled once; two modules of a four-slot board come into different channels (slots 1
// and 2 are one channel, 3 and 4 the other). Four modules run no faster than two.
TEST(DemoMemory, BoardsFillTheirChannels) {
  int known = 0;
  for (const PartRef board : parts_of(Kind::board)) {
    const double slots = number(column("board", "memory_slots"), board.row);
    EXPECT_GE(number(column("board", "module_max_gib"), board.row) * slots,
              number(column("board", "memory_max_gib"), board.row))
        << id(board);
    EXPECT_LE(number(column("board", "memory_full_mt_s"), board.row),
              number(column("board", "memory_max_mt_s"), board.row))
        << id(board);
    const std::string order(word(column("board", "memory_fill_order"), board.row));
    if (order.empty()) continue;
    ++known;
    ASSERT_EQ(static_cast<double>(order.size() + 1) / 2, slots) << id(board);
    std::set<char> each;
    for (std::size_t i = 0; i < order.size(); i += 2) each.insert(order[i]);
    EXPECT_EQ(static_cast<double>(each.size()), slots) << id(board);
    if (slots == 4.0) {
      EXPECT_NE((order[0] - '1') / 2, (order[2] - '1') / 2) << id(board);
    }
  }
  EXPECT_GE(known, 100);
}

// The stage gives more for seconds than for long, and no more than its inputs carry: 28 A through
// an 8-pin and 14 A through a 4-pin at 12 V less 5 % (analysis/power, P4; written out here again).
TEST(DemoBoards, StagesAreFed) {
  for (const PartRef board : parts_of(Kind::board)) {
    const double peak_w = number(column("board", "cpu_peak_w"), board.row);
    if (const double long_w = number(column("board", "cpu_sustained_w"), board.row);
        !std::isnan(long_w)) {
      EXPECT_GE(peak_w, long_w) << id(board);
    }
    const double inputs_a = 28.0 * number(column("board", "eps8_inputs"), board.row) +
                            14.0 * number(column("board", "eps4_inputs"), board.row);
    EXPECT_LE(peak_w / 11.4, inputs_a) << id(board);
  }
}

// Releases are numbered without a gap and follow in time; what the shops have is among them; a
// processor starts with one of them, is of the board's socket and takes its memory.
TEST(DemoBoards, FirmwareAndSupportAreOfOnePiece) {
  for (const PartRef board : parts_of(Kind::board)) {
    int last = 0;
    std::optional<Date> day;
    for (const Row release : catalog().rows_of(table("board_firmware"), board)) {
      EXPECT_EQ(number(column("board_firmware", "place"), release), ++last) << id(board);
      const auto released = catalog().date(column("board_firmware", "released"), release);
      ASSERT_TRUE(released);
      if (day) {
        EXPECT_GT(*released, *day) << id(board);
      }
      day = released;
    }
    if (last == 0) continue;  // a hole
    const double first_shipped = number(column("board", "firmware_shipped_first"), board.row);
    const double last_shipped = number(column("board", "firmware_shipped_last"), board.row);
    if (!std::isnan(first_shipped)) {
      EXPECT_LE(first_shipped, last_shipped) << id(board);
    }
    EXPECT_LE(last_shipped, last) << id(board);
    const auto listed = catalog().rows_of(table("cpu_support"), board);
    EXPECT_GE(listed.size(), 5U) << id(board);
    for (const Row row : listed) {
      const Row cpu = catalog().reference(column("cpu_support", "cpu"), row);
      EXPECT_LE(number(column("cpu_support", "firmware"), row), last) << id(board);
      EXPECT_EQ(word(column("cpu", "socket"), cpu), word(column("board", "socket"), board.row));
      EXPECT_TRUE(catalog().has_token(column("cpu", "memory_types"), cpu,
                                      word(column("board", "memory_type"), board.row)));
    }
  }
}

// Fan headers give 1 to 3 A (common practice, no source). Every board has one for the processor's
// fan, and one for the case at least.
TEST(DemoHeaders, BoardsFeedFans) {
  int known = 0;
  for (const PartRef board : parts_of(Kind::board)) {
    std::map<std::string_view, double> count;
    for (const Row row : catalog().rows_of(table("board_headers"), board)) {
      const auto header = word(column("board_headers", "header"), row);
      count[header] = number(column("board_headers", "count"), row);
      const double current_a = number(column("board_headers", "current_a"), row);
      const bool feeds = header.find("usb") == std::string_view::npos && count[header] > 0.0;
      EXPECT_EQ(feeds, !std::isnan(current_a)) << id(board) << " " << header;
      if (!feeds) continue;
      EXPECT_GE(current_a, 1.0) << id(board);
      EXPECT_LE(current_a, 3.0) << id(board);
    }
    if (count.empty()) continue;  // a hole
    ++known;
    EXPECT_EQ(count["cpu-fan"], 1.0) << id(board);
    EXPECT_GE(count["fan"], 1.0) << id(board);
  }
  EXPECT_GE(known, 100);
}

// What is unknown of nearly nothing: cases, coolers and fans say what they plug in.
TEST(DemoHeaders, PartsSayWhatTheyPlugIn) {
  for (const Kind kind : {Kind::chassis, Kind::cooler, Kind::fan}) {
    int silent = 0;
    for (const PartRef part : parts_of(kind))
      if (catalog().rows_of(table("part_headers"), part).empty()) ++silent;
    EXPECT_LE(silent, 1) << name_of(kind);
  }
}

// A hub or set of lights fed by a SATA plug has three contacts of 1.5 A: 4.5 A (Serial ATA, looked
// up). An adapter of old drive plugs gives no more at 12 V than one contact of 11 A each takes
// (maker data of that plug, looked up), at 75 W a 6-pin input and 54 W a SATA plug.
TEST(DemoOthers, GiveNoMoreThanTheyTake) {
  for (Row row = 0; row < catalog().rows(table("other_hubs")); ++row) {
    const double current_a = number(column("other_hubs", "current_a"), row);
    if (!std::isnan(current_a)) {
      EXPECT_LE(current_a, 4.5);
    }
  }
  const std::map<std::string_view, double> carries_w = {
      {"peripheral4", 132}, {"pcie6", 75}, {"pcie8", 150}, {"sata", 54}};
  int known = 0;
  for (Row row = 0; row < catalog().rows(table("other_adapters")); ++row) {
    const auto gives = carries_w.find(word(column("other_adapters", "gives"), row));
    if (gives == carries_w.end()) continue;
    ++known;
    EXPECT_LE(gives->second * number(column("other_adapters", "gives_count"), row),
              carries_w.at(word(column("other_adapters", "takes"), row)) *
                  number(column("other_adapters", "takes_count"), row));
  }
  EXPECT_GE(known, 2);
}

// A loose cable belongs to a family that a supply of the demo has.
TEST(DemoOthers, CableSetsHaveASupply) {
  std::set<std::string_view> families;
  for (const PartRef psu : parts_of(Kind::psu))
    families.insert(word(column("psu", "cable_family"), psu.row));
  for (Row row = 0; row < catalog().rows(table("other_cables")); ++row)
    EXPECT_TRUE(families.contains(word(column("other", "cable_family"),
                                       catalog().reference(column("other_cables", "other"), row))));
}

// What reaches over memory leaves the lowest module (31 mm) room, and less than its own height; a
// pump block reaches over nothing.
TEST(DemoCoolers, LeaveRoomForMemory) {
  int over = 0;
  for (const PartRef cooler : parts_of(Kind::cooler)) {
    const double covers = number(column("cooler", "covers_memory_slots"), cooler.row);
    const double under_mm = number(column("cooler", "memory_clearance_mm"), cooler.row);
    if (covers == 0.0) {
      EXPECT_TRUE(std::isnan(under_mm)) << id(cooler);
      continue;
    }
    EXPECT_EQ(word(column("cooler", "type"), cooler.row), "air") << id(cooler);
    if (std::isnan(under_mm)) continue;
    ++over;
    EXPECT_GE(under_mm, 31.0) << id(cooler);
    EXPECT_LT(under_mm, number(column("cooler", "height_mm"), cooler.row)) << id(cooler);
  }
  EXPECT_GE(over, 10);
}

// A fan gives the air no more power than it takes: a straight line between free flow and shut-off
// has its largest product in the middle, a quarter of both.
TEST(DemoFans, GiveLessThanTheyTake) {
  for (const PartRef fan : parts_of(Kind::fan)) {
    const double electrical_w = 12.0 * number(column("fan", "current_a"), fan.row);
    const double air_w = number(column("fan", "flow_m3_h"), fan.row) / 3600.0 *
                         number(column("fan", "pressure_pa"), fan.row) / 4.0;
    if (std::isnan(electrical_w) || std::isnan(air_w)) continue;
    EXPECT_LT(air_w, 0.5 * electrical_w) << id(fan);
  }
}

// Reduced blanking, version 2: 80 pixels beside the picture, and lines above it that last 460 us
// and are fifteen at least (VESA CVT 1.2; the rule of the lines looked up, the rest from memory).
double pixels_per_s(double width_px, double height_px, double refresh_hz) {
  const double line_us = (1e6 / refresh_hz - 460.0) / height_px;
  const double blank_lines = std::max(std::floor(460.0 / line_us) + 1.0, 15.0);
  return refresh_hz * (width_px + 80.0) * (height_px + blank_lines);
}

// The published example of that rule: 6016x3384 at 120 Hz needs 2 620 304 640 pixels a second.
TEST(DemoDisplays, BlankingIsThePublishedOne) {
  EXPECT_EQ(pixels_per_s(6016, 3384, 120), 2620304640.0);
}

// Every display can be fed at its fastest by one of its own inputs: uncompressed, or, where it
// takes compression, at 8 bits a pixel (DSC). Payloads in Gbit/s: HBR3 25.92, UHBR13.5 52.22,
// FRL 42.67.
TEST(DemoDisplays, CanBeFedAtTheirFastest) {
  const std::map<std::string_view, double> payload_gbit_s = {
      {"DisplayPort-1.4", 25.92}, {"DisplayPort-2.1-UHBR13.5", 52.22}, {"HDMI-2.1", 42.67}};
  for (const PartRef display : parts_of(Kind::display)) {
    const double bits = number(column("display", "bits_per_channel"), display.row);
    const double rate = pixels_per_s(number(column("display", "width_px"), display.row),
                                     number(column("display", "height_px"), display.row),
                                     number(column("display", "refresh_hz"), display.row)) /
                        1e9;
    bool fed = false;
    for (const Row input : catalog().rows_of(table("display_inputs"), display)) {
      const double payload = payload_gbit_s.at(word(column("display_inputs", "link"), input));
      const bool compressed =
          catalog().flag(column("display_inputs", "compression"), input) == true;
      fed = fed || rate * (compressed ? 8.0 : 3.0 * (std::isnan(bits) ? 8.0 : bits)) <= payload;
    }
    EXPECT_TRUE(fed) << id(display);
  }
}

// A warranty is longest for new things and never stated for years on a used one.
TEST(DemoOffersPhysics, WarrantiesSuitTheCondition) {
  for (Row row = 0; row < catalog().rows(table("offers")); ++row) {
    const double months = number(column("offers", "warranty_months"), row);
    if (std::isnan(months)) continue;
    const auto condition = word(column("offers", "condition"), row);
    if (condition == "new") {
      EXPECT_GE(months, 24.0);
    }
    if (condition == "refurbished") {
      EXPECT_LE(months, 12.0);
    }
    if (condition == "used") {
      EXPECT_LE(months, 3.0);
    }
  }
}

}  // namespace
}  // namespace rigproof::demo
