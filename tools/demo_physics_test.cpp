// Would a practitioner believe each row of the demo? Every check states its reason.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>
#include <string>

#include "tools/demo_catalog.hpp"

namespace rigproof::demo {
namespace {

const Catalog& catalog() { return demo_catalog(); }
double number(ColumnId column, Row row) { return catalog().number(column, row); }
std::string_view id(Kind kind, Row row) { return catalog().id({kind, row}); }

/// Rows of a part table, for range-based loops.
std::vector<Row> rows_of_kind(Kind kind) {
  std::vector<Row> out(catalog().rows(table_of(kind)));
  for (Row row = 0; row < out.size(); ++row) {
    out[row] = row;
  }
  return out;
}

double always(Row chassis, std::string_view limits) {
  for (const Row r : catalog().rows_of(table("case_clearances"), {Kind::chassis, chassis})) {
    if (catalog().word(column("case_clearances", "limits"), r) == limits &&
        catalog().word(column("case_clearances", "when"), r) == "always") {
      return number(column("case_clearances", "by_mm"), r);
    }
  }
  return no_number;
}

// PCIe CEM: 75 W through the slot; inputs carry 75, 150 and 600 W. Values from memory, the same as
// in analysis/power/connectors.hpp, written out here so that a slip there does not hide one here.
TEST(DemoPhysics, CardsStayWithinSlotAndInputs) {
  const std::map<std::string_view, double> carries_w = {
      {"pcie6", 75}, {"pcie8", 150}, {"12v-2x6", 600}};
  for (const Row card : rows_of_kind(Kind::gpu)) {
    const double slot_w = number(column("gpu", "slot_power_w"), card);
    if (!std::isnan(slot_w)) {
      EXPECT_LE(slot_w, 75.0) << id(Kind::gpu, card);
    }
    const auto inputs = catalog().rows_of(table("gpu_inputs"), {Kind::gpu, card});
    if (inputs.empty() || std::isnan(slot_w)) {
      continue;
    }
    double through_inputs_w = 0.0;
    for (const Row input : inputs) {
      through_inputs_w += number(column("gpu_inputs", "count"), input) *
                          carries_w.at(catalog().word(column("gpu_inputs", "connector"), input));
    }
    const double power_w = number(column("gpu", "sustained_power_w"), card);
    EXPECT_GE(through_inputs_w + slot_w, power_w) << id(Kind::gpu, card);
    EXPECT_GE(through_inputs_w, power_w - slot_w) << id(Kind::gpu, card);
  }
}

// A card is carried by its chip: power differs by at most 15 % between cards of one chip, memory
// and bandwidth not at all, speeds by at most 8 % (makers' clock settings; common practice, no
// source).
TEST(DemoPhysics, CardsOfOneChipAreAlike) {
  std::map<std::string_view, std::vector<Row>> by_chip;
  for (const Row card : rows_of_kind(Kind::gpu)) {
    by_chip[catalog().word(column("gpu", "chip"), card)].push_back(card);
  }
  const auto spread = [](const std::vector<Row>& cards, ColumnId column) {
    double low = INFINITY;
    double high = 0.0;
    for (const Row card : cards) {
      low = std::min(low, number(column, card));
      high = std::max(high, number(column, card));
    }
    return high / low - 1.0;
  };
  for (const auto& [chip, cards] : by_chip) {
    EXPECT_GE(cards.size(), 2U) << chip;
    EXPECT_LE(spread(cards, column("gpu", "sustained_power_w")), 0.15) << chip;
    EXPECT_LE(spread(cards, column("gpu", "raster_speed")), 0.08) << chip;
    EXPECT_EQ(spread(cards, column("gpu", "video_memory_gib")), 0.0) << chip;
    EXPECT_EQ(spread(cards, column("gpu", "bandwidth_gb_s")), 0.0) << chip;
  }
}

// Heat needs surface: no card gets by with less than 5 cubic centimetres of cooler a watt (ours, a
// guard against slips), and none is longer than 350 mm.
TEST(DemoPhysics, CardsAreLargeEnoughForTheirPower) {
  for (const Row card : rows_of_kind(Kind::gpu)) {
    const double length_mm = number(column("gpu", "length_mm"), card);
    const double height_mm = number(column("gpu", "height_mm"), card);
    if (std::isnan(length_mm) || std::isnan(height_mm)) {
      continue;
    }
    const double volume_cm3 =
        length_mm * height_mm * number(column("gpu", "thickness_mm"), card) / 1000.0;
    EXPECT_GE(volume_cm3, 5.0 * number(column("gpu", "sustained_power_w"), card))
        << id(Kind::gpu, card);
    EXPECT_GE(length_mm, 160.0) << id(Kind::gpu, card);
    EXPECT_LE(length_mm, 350.0) << id(Kind::gpu, card);
  }
}

// There is a reference of each: speed 1 is said to be that of an invented part.
TEST(DemoPhysics, ReferencePartsExist) {
  bool cpu = false;
  for (const Row row : rows_of_kind(Kind::cpu)) {
    cpu = cpu || number(column("cpu", "frame_speed"), row) == 1.0;
  }
  bool card = false;
  for (const Row row : rows_of_kind(Kind::gpu)) {
    card = card || (number(column("gpu", "raster_speed"), row) == 1.0 &&
                    number(column("gpu", "ray_speed"), row) == 1.0);
  }
  EXPECT_TRUE(cpu);
  EXPECT_TRUE(card);
}

// Package power while a title runs is below the all-core one, and that is below the peak.
TEST(DemoPhysics, ProcessorPowersAreOrdered) {
  for (const Row row : rows_of_kind(Kind::cpu)) {
    const double title_w = number(column("cpu", "title_power_w"), row);
    const double peak_w = number(column("cpu", "peak_power_w"), row);
    const double sustained_w = number(column("cpu", "sustained_power_w"), row);
    if (!std::isnan(title_w)) {
      EXPECT_LE(title_w, 1.05 * sustained_w) << id(Kind::cpu, row);
    }
    if (!std::isnan(peak_w)) {
      EXPECT_GE(peak_w, sustained_w) << id(Kind::cpu, row);
    }
  }
}

// Every processor has a board that feeds it and takes its memory, and a cooler that carries its
// heat.
TEST(DemoPhysics, EveryProcessorHasBoardsAndCoolers) {
  for (const Row cpu : rows_of_kind(Kind::cpu)) {
    const double power_w = number(column("cpu", "sustained_power_w"), cpu);
    const auto socket = catalog().word(column("cpu", "socket"), cpu);
    int boards = 0;
    for (const Row board : rows_of_kind(Kind::board)) {
      if (catalog().word(column("board", "socket"), board) == socket &&
          number(column("board", "cpu_sustained_w"), board) >= power_w &&
          catalog().has_token(column("cpu", "memory_types"), cpu,
                              catalog().word(column("board", "memory_type"), board))) {
        ++boards;
      }
    }
    EXPECT_GE(boards, 2) << id(Kind::cpu, cpu);
    int coolers = 0;
    for (const Row cooler : rows_of_kind(Kind::cooler)) {
      for (const Row r : catalog().rows_of(table("cooler_sockets"), {Kind::cooler, cooler})) {
        if (catalog().word(column("cooler_sockets", "socket"), r) == socket &&
            number(column("cooler", "rated_heat_w"), cooler) >= power_w) {
          ++coolers;
        }
      }
    }
    EXPECT_GE(coolers, 5) << id(Kind::cpu, cpu);
  }
}

// Enough choice everywhere: three boards and five coolers a socket.
TEST(DemoPhysics, EverySocketHasBoardsAndCoolers) {
  std::map<std::string_view, int> boards;
  std::map<std::string_view, int> coolers;
  for (const Row board : rows_of_kind(Kind::board)) {
    ++boards[catalog().word(column("board", "socket"), board)];
  }
  for (Row r = 0; r < catalog().rows(table("cooler_sockets")); ++r) {
    ++coolers[catalog().word(column("cooler_sockets", "socket"), r)];
  }
  EXPECT_EQ(boards.size(), 3U);
  for (const auto& [socket, count] : boards) {
    EXPECT_GE(count, 3) << socket;
    EXPECT_GE(coolers[socket], 5) << socket;
  }
}

// Mini-ITX boards have room for two memory slots and one card slot (170 x 170 mm).
TEST(DemoPhysics, BoardsHaveWhatTheirOutlineHolds) {
  for (const Row board : rows_of_kind(Kind::board)) {
    const auto form = catalog().word(column("board", "form_factor"), board);
    if (form == "Mini-ITX") {
      EXPECT_LE(number(column("board", "memory_slots"), board), 2) << id(Kind::board, board);
      EXPECT_LE(catalog().rows_of(table("board_slots"), {Kind::board, board}).size(), 1U)
          << id(Kind::board, board);
    }
    bool fits = false;
    for (const Row chassis : rows_of_kind(Kind::chassis)) {
      fits = fits || catalog().has_token(column("case", "form_factors"), chassis, form);
    }
    EXPECT_TRUE(fits) << id(Kind::board, board);
    EXPECT_FALSE(catalog().rows_of(table("board_m2"), {Kind::board, board}).empty())
        << id(Kind::board, board);
  }
}

// Litres are what the outside measures say, less at most 3 % for feet and handles.
TEST(DemoPhysics, VolumesAgreeWithMeasures) {
  for (const Row chassis : rows_of_kind(Kind::chassis)) {
    const double box_l = number(column("case", "width_mm"), chassis) *
                         number(column("case", "height_mm"), chassis) *
                         number(column("case", "depth_mm"), chassis) / 1e6;
    EXPECT_NEAR(number(column("case", "volume_l"), chassis), box_l, 0.03 * box_l)
        << id(Kind::chassis, chassis);
  }
}

// What is inside is smaller than the outside: a card leaves 10 mm for front and bracket; a cooler
// stands on about 45 mm of panel, cable room, board and processor when the board stands beside the
// card, and a radiator is no longer than its face less 30 mm for its end tanks and the walls (ours,
// from geometry).
TEST(DemoPhysics, InsideIsSmallerThanOutside) {
  for (const Row chassis : rows_of_kind(Kind::chassis)) {
    const double width_mm = number(column("case", "width_mm"), chassis);
    const double height_mm = number(column("case", "height_mm"), chassis);
    const double depth_mm = number(column("case", "depth_mm"), chassis);
    if (const double card_mm = always(chassis, "card-length"); !std::isnan(card_mm)) {
      EXPECT_LE(card_mm, depth_mm - 10.0) << id(Kind::chassis, chassis);
    }
    const double across_board_mm =
        std::min(width_mm, height_mm);  // the board stands, or lies in a flat case
    if (const double cooler_mm = always(chassis, "cooler-height"); !std::isnan(cooler_mm)) {
      EXPECT_LE(cooler_mm, across_board_mm - 45.0) << id(Kind::chassis, chassis);
    }
    for (const Row mount : catalog().rows_of(table("case_mounts"), {Kind::chassis, chassis})) {
      const auto face = catalog().word(column("case_mounts", "face"), mount);
      const double longest_mm = face == "front" || face == "rear" ? height_mm : depth_mm;
      for (const double radiator_mm : {120.0, 140.0, 240.0, 280.0, 360.0, 420.0}) {
        if (catalog().has_token(column("case_mounts", "radiators_mm"), mount,
                                std::to_string(static_cast<int>(radiator_mm)))) {
          EXPECT_LE(radiator_mm + 30.0, longest_mm)
              << catalog().row_key(table("case_mounts"), mount);
        }
      }
    }
  }
}

// A row of fan places of the smallest size is no longer than the face it is on.
TEST(DemoPhysics, FansFitTheirFaces) {
  for (Row mount = 0; mount < catalog().rows(table("case_mounts")); ++mount) {
    const Row chassis = catalog().reference(column("case_mounts", "case"), mount);
    const auto face = catalog().word(column("case_mounts", "face"), mount);
    const double longest_mm = face == "front" || face == "rear"
                                  ? number(column("case", "height_mm"), chassis)
                                  : number(column("case", "depth_mm"), chassis);
    const auto sizes = catalog().word(column("case_mounts", "fan_sizes_mm"), mount);
    const double smallest_mm = std::stod(std::string(sizes));  // sizes are written smallest first
    EXPECT_LE(smallest_mm * number(column("case_mounts", "fan_places"), mount), longest_mm)
        << catalog().row_key(table("case_mounts"), mount);
  }
}

// What a mount or a cage in use takes is less than there is, and the case has that mount or bay.
TEST(DemoPhysics, ConditionalClearancesAreSmaller) {
  for (Row r = 0; r < catalog().rows(table("case_clearances")); ++r) {
    const auto when = catalog().word(column("case_clearances", "when"), r);
    if (when == "always") {
      continue;
    }
    const Row chassis = catalog().reference(column("case_clearances", "case"), r);
    const double whole_mm = always(chassis, catalog().word(column("case_clearances", "limits"), r));
    EXPECT_LT(number(column("case_clearances", "by_mm"), r), whole_mm);
    bool named = when == "bay-3.5" && number(column("case", "bays_3_5"), chassis) > 0;
    for (const Row mount : catalog().rows_of(table("case_mounts"), {Kind::chassis, chassis})) {
      named = named || catalog().word(column("case_mounts", "mount"), mount) == when;
    }
    EXPECT_TRUE(named) << catalog().row_key(table("case_clearances"), r);
  }
}

// Loops: n fans of one size make the radiator. A flat pump, a tall tower.
TEST(DemoPhysics, CoolersAreOfOnePiece) {
  for (const Row cooler : rows_of_kind(Kind::cooler)) {
    const bool liquid = catalog().word(column("cooler", "type"), cooler) == "liquid";
    EXPECT_EQ(liquid, !catalog().absent(column("cooler", "radiator_mm"), cooler))
        << id(Kind::cooler, cooler);
    if (liquid) {
      EXPECT_EQ(
          number(column("cooler", "fans"), cooler) * number(column("cooler", "fan_mm"), cooler),
          number(column("cooler", "radiator_mm"), cooler))
          << id(Kind::cooler, cooler);
    } else {
      EXPECT_LE(number(column("cooler", "height_mm"), cooler), 170.0) << id(Kind::cooler, cooler);
    }
  }
}

// A maker does not put plugs on a supply that it cannot feed: card plugs carry at most 1.5 times
// the rating in all (common practice, no source), and every supply feeds a board.
TEST(DemoPhysics, SuppliesHaveCablesForTheirRating) {
  for (const Row psu : rows_of_kind(Kind::psu)) {
    std::map<std::string_view, double> plugs;
    for (const Row r : catalog().rows_of(table("psu_cables"), {Kind::psu, psu})) {
      plugs[catalog().word(column("psu_cables", "connector"), r)] =
          number(column("psu_cables", "count"), r);
    }
    const double rated_w = number(column("psu", "rated_power_w"), psu);
    EXPECT_EQ(plugs["atx24"], 1) << id(Kind::psu, psu);
    EXPECT_GE(plugs["eps8"], 1) << id(Kind::psu, psu);
    EXPECT_LE(150.0 * plugs["pcie8"], rated_w) << id(Kind::psu, psu);
    if (rated_w < 600.0) {
      EXPECT_EQ(plugs["12v-2x6"], 0) << id(Kind::psu, psu);
    }
    const auto form = catalog().word(column("psu", "form"), psu);
    const double length_mm = number(column("psu", "length_mm"), psu);
    if (form == "SFX") {
      EXPECT_EQ(length_mm, 100.0);  // SFX: 125 x 100 x 63.5 mm
    }
    if (form == "SFX-L") {
      EXPECT_EQ(length_mm, 130.0);  // SFX-L: 125 x 130 x 63.5 mm
    }
    if (form == "ATX") {
      EXPECT_GE(length_mm, 140.0);  // ATX: 150 x 140 x 86 mm at the least
    }
  }
}

// A memory kit is faster or slower around its generation: DDR4 up to 4000, DDR5 from 4800 on.
TEST(DemoPhysics, MemoryIsOfItsGeneration) {
  for (const Row kit : rows_of_kind(Kind::memory)) {
    const bool old = catalog().word(column("memory", "memory_type"), kit) == "DDR4";
    const double mt_s = number(column("memory", "speed_mt_s"), kit);
    EXPECT_EQ(old, mt_s < 4400.0) << id(Kind::memory, kit);
    // First word after 8 to 18 ns: CL clocks at half the transfer rate.
    const double first_word_ns = 2000.0 * number(column("memory", "latency_clocks"), kit) / mt_s;
    EXPECT_GE(first_word_ns, 8.0) << id(Kind::memory, kit);
    EXPECT_LE(first_word_ns, 18.0) << id(Kind::memory, kit);
  }
}

// Prices new in euro with tax, within a tenth of the ranges the workshop asked for.
TEST(DemoPhysics, PricesAreOfTheirKind) {
  struct Range {
    double low, high;
  };
  const std::map<Kind, Range> ranges = {{Kind::cpu, {85, 650}},     {Kind::board, {80, 420}},
                                        {Kind::memory, {25, 260}},  {Kind::gpu, {180, 1900}},
                                        {Kind::storage, {35, 300}}, {Kind::cooler, {0, 180}},
                                        {Kind::chassis, {45, 220}}, {Kind::psu, {45, 300}}};
  for (Row row = 0; row < catalog().rows(table("offers")); ++row) {
    const PartRef part = catalog().part(column("offers", "part"), row);
    const auto range = ranges.find(part.kind);
    if (range == ranges.end() || catalog().word(column("offers", "currency"), row) != "EUR" ||
        catalog().word(column("offers", "condition"), row) != "new") {
      continue;
    }
    const double euro =
        static_cast<double>(catalog().minor(column("offers", "price"), row).value_or(-1)) / 100.0;
    EXPECT_GE(euro, 0.9 * range->second.low) << catalog().id(part);
    EXPECT_LE(euro, 1.1 * range->second.high) << catalog().id(part);
  }
}

// Newer families do more per watt: the best of one's cards beats the best of the older by a fifth.
TEST(DemoPhysics, NewerChipsAreMoreEfficient) {
  std::map<std::string, double> best_per_w;
  for (const Row card : rows_of_kind(Kind::gpu)) {
    const std::string chip(catalog().word(column("gpu", "chip"), card));
    double& best = best_per_w[chip.substr(0, chip.find('-'))];
    best = std::max(best, number(column("gpu", "raster_speed"), card) /
                              number(column("gpu", "sustained_power_w"), card));
  }
  EXPECT_GT(best_per_w.at("gannet"), 1.2 * best_per_w.at("dunlin"));
  EXPECT_GT(best_per_w.at("marl"), 1.2 * best_per_w.at("basalt"));
}

}  // namespace
}  // namespace rigproof::demo
