// A market's boards, coolers, cases, supplies and fans.
#include <algorithm>
#include <array>

#include "tools/make_market_rows.hpp"

namespace rigproof::demo {

namespace {

struct Count {
  std::string_view word;
  int count;
};

// Rows of part, word and count: headers, plugs, sockets.
struct Counted {
  ColumnId part, word, count;
};
void add_counts(Rows& rows, const Counted& in, std::string_view id, std::span<const Count> counts) {
  for (const Count& each : counts) {
    rows.text(in.part, id).text(in.word, each.word).whole(in.count, each.count);
    rows.end_row();
  }
}

constexpr Counted plugs_of_part{column("part_headers", "part"), column("part_headers", "header"),
                                column("part_headers", "count")};

constexpr std::array tier_stage_w = {95, 145, 200, 265};

struct Board {
  std::string id;
  int number, tier;
  char form;  // a, m or i
  bool old;
};

void add_sockets_and_slots(Market& market, const Board& board) {
  Rows& sockets = market.rows(table("board_m2"));
  const int count = board.form == 'i' ? 1 + board.tier / 2 : 1 + board.tier;
  for (int n = 1; n <= count; ++n) {
    sockets.text(column("board_m2", "board"), board.id)
        .whole(column("board_m2", "socket"), n)
        .text(column("board_m2", "lengths_mm"), "42|60|80")
        .text(column("board_m2", "links"), board.old && n == 2 ? "NVMe|SATA" : "NVMe")
        .whole(column("board_m2", "pcie_generation"), board.old || n > 1 ? 4 : 5)
        .whole(column("board_m2", "pcie_lanes"), 4)
        .whole(column("board_m2", "shares_slot"), n == 3 && board.number % 4 == 0 ? 1 : 0);
    if (n == 3 && board.number % 4 == 0) sockets.whole(column("board_m2", "slot_lanes_left"), 8);
    sockets.whole(column("board_m2", "sata_ports_off"), 0);
    sockets.end_row();
  }
  Rows& slots = market.rows(table("board_slots"));
  for (int n = 1; n <= (board.form == 'i' ? 1 : 2); ++n) {
    slots.text(column("board_slots", "board"), board.id)
        .whole(column("board_slots", "slot"), n)
        .whole(column("board_slots", "position"), n == 1 ? 1 : 4)
        .text(column("board_slots", "length"), n == 1 ? "x16" : "x1")
        .whole(column("board_slots", "pcie_generation"), n > 1       ? 3
                                                         : board.old ? 4
                                                                     : 5)
        .whole(column("board_slots", "pcie_lanes"), n == 1 ? 16 : 1);
    slots.end_row();
  }
}

void add_headers(Market& market, const Board& board) {
  const Count headers[] = {{"cpu-fan", 1},
                           {"fan", board.form == 'i' ? 1 + board.tier / 2 : 3 + board.tier},
                           {"pump", board.tier == 0 ? 0 : 1},
                           {"usb2", board.form == 'i' ? 1 : 2},
                           {"usb3", 1},
                           {"usb-c", board.tier == 0 ? 0 : 1},
                           {"light-5v", 1 + board.tier / 2}};
  Rows& rows = market.rows(table("board_headers"));
  for (const Count& header : headers) {
    rows.text(column("board_headers", "board"), board.id)
        .text(column("board_headers", "header"), header.word)
        .whole(column("board_headers", "count"), header.count);
    if (header.count > 0 && header.word.find("usb") == std::string_view::npos)
      rows.whole(column("board_headers", "current_a"), header.word == "light-5v" ? 3
                                                       : board.tier >= 2         ? 2
                                                                                 : 1);
    rows.end_row();
  }
}

// Four releases; the larger processors of a socket came with later ones.
void add_firmware(Market& market, const Board& board) {
  constexpr std::array days = {"2024-05-14", "2025-02-11", "2025-10-21", "2026-05-05"};
  Rows& releases = market.rows(table("board_firmware"));
  for (std::size_t place = 0; place < days.size(); ++place) {
    releases.text(column("board_firmware", "board"), board.id)
        .whole(column("board_firmware", "place"), static_cast<std::int64_t>(place) + 1)
        .text(column("board_firmware", "version"), std::to_string(place + 1) + ".0")
        .text(column("board_firmware", "released"), days[place]);
    releases.end_row();
  }
  Rows& supports = market.rows(table("cpu_support"));
  const int processors = std::min(market.processors(), market_processors);  // the rest are listings
  for (int cpu = board.number % market_sockets; cpu < processors; cpu += market_sockets) {
    supports.text(column("cpu_support", "board"), board.id)
        .text(column("cpu_support", "cpu"), market_id(Kind::cpu, cpu))
        .whole(column("cpu_support", "firmware"), cpu / market_sockets < 10 ? 1 : 3);
    supports.end_row();
  }
}

// Every fourth fan as if it had been measured.
void add_points(Market& market, std::string_view id, int flow_m3_h, int pressure_tenths_pa) {
  Rows& points = market.rows(table("fan_points"));
  for (const auto& [flow_percent, pressure_percent] :
       {std::pair{0, 100}, {40, 85}, {70, 50}, {100, 0}}) {
    points.text(column("fan_points", "fan"), id)
        .whole(column("fan_points", "flow_m3_h"), flow_m3_h * flow_percent / 100)
        .decimal(column("fan_points", "pressure_pa"),
                 tenths(pressure_tenths_pa * pressure_percent / 100));
    points.end_row();
  }
}

// And heard from half a meter, at half its speed.
void add_noise_point(Market& market, std::string_view id, int level_dba) {
  constexpr int half_meter_tenths = 5;
  Rows& points = market.rows(table("noise_points"));
  points.text(column("noise_points", "part"), id)
      .text(column("noise_points", "load"), "any")
      .whole(column("noise_points", "level_dba"), level_dba)
      .decimal(column("noise_points", "distance_m"), tenths(half_meter_tenths))
      .whole(column("noise_points", "speed_percent"), 50);
  points.end_row();
}

}  // namespace

void add_market_boards(Market& market, int count) {
  for (int n = 0; n < count; ++n) {
    const int tier = n / 5 % 4;
    const char form = "ammaaimm"[n / 20 % 8];
    const Board board{market_id(Kind::board, n), n, tier, form, market_ddr4(n)};
    Dice dice(board.id);
    const int slots = form == 'i' || (tier == 0 && form == 'm') ? 2 : 4;
    const int module_gib = board.old ? 32 : 48;
    const int stage_w = tier_stage_w[static_cast<std::size_t>(tier)] + 5 * dice.between(0, 3);
    const int mt_s = board.old ? 3200 + 400 * tier : 5600 + 800 * tier;
    Rows& row = market.part(
        Kind::board, n,
        (board.old ? 78 : 104) + tier * 55 + (form == 'i' ? 25 : 0) + dice.between(0, 25));
    row.text(column("board", "socket"), market_socket(n))
        .text(column("board", "form_factor"), form == 'a'   ? "ATX"
                                              : form == 'm' ? "microATX"
                                                            : "Mini-ITX")
        .text(column("board", "memory_type"), board.old ? "DDR4" : "DDR5")
        .whole(column("board", "memory_slots"), slots)
        .text(column("board", "memory_fill_order"), slots == 2 ? "1|2" : "2|4|1|3")
        .whole(column("board", "memory_max_gib"), std::int64_t{slots} * module_gib)
        .whole(column("board", "module_max_gib"), module_gib)
        .whole(column("board", "memory_max_mt_s"), mt_s)
        .whole(column("board", "memory_full_mt_s"), slots == 2 ? mt_s : mt_s * 3 / 4)
        .whole(column("board", "cpu_sustained_w"), stage_w)
        .whole(column("board", "cpu_peak_w"), stage_w * 3 / 2)
        .whole(column("board", "firmware_shipped_first"), tier == 0 ? 2 : 3)
        .whole(column("board", "firmware_shipped_last"), 4)
        .flag(column("board", "flash_without_cpu"), tier > 0)
        .whole(column("board", "atx24_inputs"), 1)
        .whole(column("board", "eps8_inputs"), tier == 3 ? 2 : 1)
        .whole(column("board", "eps4_inputs"), 0)
        .whole(column("board", "picture_outputs"), 2)
        .whole(column("board", "sata_ports"), form == 'i' ? 2 : 4)
        .flag(column("board", "wifi"), n % 2 == 0)
        .whole(column("board", "power_w"), 22 + 6 * tier + n % 4);
    row.end_row();
    add_sockets_and_slots(market, board);
    add_headers(market, board);
    add_firmware(market, board);
  }
}

void add_market_coolers(Market& market, int count) {
  Rows& sockets = market.rows(table("cooler_sockets"));
  Rows& plugs = market.rows(table("part_headers"));
  for (int n = 0; n < count; ++n) {
    const std::string id = market_id(Kind::cooler, n);
    Dice dice(id);
    const bool liquid = n % 4 == 3;
    const int fans = liquid ? 2 + n / 4 % 2 : 1 + n % 2;
    const int height_mm = liquid       ? 52 + n % 6
                          : n % 4 == 0 ? 47 + n % 24
                                       : 138 + dice.between(0, 28);
    const bool tower = !liquid && height_mm > 100;
    const int heat_w = liquid ? 110 + 70 * fans : tower ? 120 + 50 * fans : height_mm * 3 / 2 + 25;
    const int covers = tower && fans == 2 ? 2 : 0;
    Rows& row = market.part(Kind::cooler, n, liquid ? 40 + 30 * fans : 14 + heat_w / 4);
    row.text(column("cooler", "type"), liquid ? "liquid" : "air")
        .whole(column("cooler", "height_mm"), height_mm)
        .whole(column("cooler", "covers_memory_slots"), covers);
    if (covers > 0) row.whole(column("cooler", "memory_clearance_mm"), 36 + n % 11);
    row.whole(column("cooler", "rated_heat_w"), heat_w);
    if (liquid)
      row.whole(column("cooler", "radiator_mm"), std::int64_t{120} * fans)
          .whole(column("cooler", "radiator_thickness_mm"), 27);
    row.whole(column("cooler", "fan_mm"), 120)
        .whole(column("cooler", "fan_thickness_mm"), 25)
        .whole(column("cooler", "fans"), fans)
        .decimal(column("cooler", "power_w"), tenths((liquid ? 40 : 0) + 22 * fans));
    row.end_row();
    for (int socket = 0; socket < market_sockets; ++socket) {
      if (n % 7 == 0 && socket == 0) continue;  // some know nothing of the oldest
      sockets.text(column("cooler_sockets", "cooler"), id)
          .text(column("cooler_sockets", "socket"), market_socket(socket));
      sockets.end_row();
    }
    const Count own[] = {{liquid ? "pump" : "usb2", liquid ? 1 : 0}};
    add_counts(plugs, plugs_of_part, id, own);
  }
}

void add_market_cases(Market& market, int count) {
  constexpr Counted way_of_cable{column("case_ways", "case"), column("case_ways", "connector"),
                                 column("case_ways", "way_mm")};
  Rows& mounts = market.rows(table("case_mounts"));
  Rows& fans = market.rows(table("case_fans"));
  Rows& rooms = market.rows(table("case_clearances"));
  for (int n = 0; n < count; ++n) {
    const std::string id = market_id(Kind::chassis, n);
    Dice dice(id);
    const char form = "aamai"[n % 5];
    const int width_mm = (form == 'i' ? 190 : 202) + dice.between(0, 42);
    const int depth_mm = (form == 'i' ? 320 : form == 'm' ? 380 : 440) + dice.between(0, 50);
    const int height_mm = (form == 'i' ? 290 : form == 'm' ? 370 : 445) + dice.between(0, 60);
    const int slots = form == 'i' ? 3 : form == 'm' ? 4 : 7;
    const std::int64_t tenths_l =
        divide_rounded(std::int64_t{width_mm} * depth_mm * height_mm, 100000);
    Rows& row = market.part(Kind::chassis, n, 46 + dice.between(0, 120));
    row.text(column("case", "form_factors"), form == 'a'   ? "ATX|microATX|Mini-ITX"
                                             : form == 'm' ? "microATX|Mini-ITX"
                                                           : "Mini-ITX")
        .text(column("case", "psu_forms"), form == 'i' ? "SFX|SFX-L" : "ATX|SFX")
        .whole(column("case", "width_mm"), width_mm)
        .whole(column("case", "height_mm"), height_mm)
        .whole(column("case", "depth_mm"), depth_mm)
        .decimal(column("case", "volume_l"), tenths(tenths_l))
        .whole(column("case", "card_slots"), slots)
        .whole(column("case", "bays_2_5"), 2)
        .whole(column("case", "bays_3_5"), form == 'i' ? 0 : 2);
    row.end_row();
    const Count always[] = {{"card-length", depth_mm - 82},
                            {"card-height", width_mm - 51},
                            {"card-thickness", slots * 20},
                            {"cooler-height", width_mm - 54},
                            {"supply-length", form == 'i' ? 130 : 180}};
    for (const Count& room : always) {
      rooms.text(column("case_clearances", "case"), id)
          .text(column("case_clearances", "limits"), room.word)
          .text(column("case_clearances", "when"), "always")
          .whole(column("case_clearances", "by_mm"), room.count);
      rooms.end_row();
    }
    const int places = form == 'a' ? 3 : form == 'm' ? 2 : 1;
    for (const std::string_view mount : {"front", "rear"}) {
      const bool front = mount == "front";
      mounts.text(column("case_mounts", "case"), id)
          .text(column("case_mounts", "mount"), mount)
          .text(column("case_mounts", "face"), mount)
          .text(column("case_mounts", "fan_sizes_mm"), "120")
          .whole(column("case_mounts", "fan_places"), front ? places : 1)
          .text(column("case_mounts", "radiators_mm"), !front        ? "120"
                                                       : form == 'a' ? "240|360"
                                                       : form == 'm' ? "240"
                                                                     : "120")
          .whole(column("case_mounts", "depth_mm"), 62);
      mounts.end_row();
      fans.text(column("case_fans", "case"), id)
          .text(column("case_fans", "mount"), mount)
          .whole(column("case_fans", "size_mm"), 120)
          .whole(column("case_fans", "count"), front ? n % 3 : 1)
          .decimal(column("case_fans", "current_a"), hundredths(12 + n % 8));
      fans.end_row();
    }
    const Count ways[] = {{"eps8", 360 + n % 60}};
    add_counts(market.rows(table("case_ways")), way_of_cable, id, ways);
    const Count own[] = {{"usb3", 1}, {"usb-c", n % 2}, {"light-5v", 0}};
    add_counts(market.rows(table("part_headers")), plugs_of_part, id, own);
  }
}

void add_market_supplies(Market& market, int count) {
  constexpr Counted cable{column("psu_cables", "psu"), column("psu_cables", "connector"),
                          column("psu_cables", "count")};
  constexpr std::array levels = {"bronze", "gold", "gold", "platinum"};
  for (int n = 0; n < count; ++n) {
    const std::string id = market_id(Kind::psu, n);
    const int rated_w = 450 + 50 * (n % 13);
    const bool small = n % 5 == 4;
    const auto level = static_cast<std::size_t>(n / 13 % 4);
    Rows& row = market.part(
        Kind::psu, n, rated_w / 11 + 22 * static_cast<int>(level) + 9 + (small ? 22 : 0) + n % 6);
    row.text(column("psu", "form"), small ? "SFX" : "ATX")
        .whole(column("psu", "length_mm"), small ? 100 : 140 + 10 * (n % 3))
        .whole(column("psu", "rated_power_w"), rated_w)
        .text(column("psu", "edition"), "ATX-3.1")
        .text(column("psu", "efficiency"), levels[level])
        .text(column("psu", "cable_family"),
              level == 0 ? "fixed" : "family-" + std::to_string(n % 40));
    row.end_row();
    const Count plugs[] = {{"atx24", 1},
                           {"eps8", rated_w >= 750 ? 2 : 1},
                           {"eps4", rated_w >= 600 ? 1 : 0},
                           {"pcie6", 1},
                           {"pcie8", (rated_w - 150) / 170},
                           {"12v-2x6", rated_w >= 650 ? 1 : 0},
                           {"sata", 4 + rated_w / 200}};
    add_counts(market.rows(table("psu_cables")), cable, id, plugs);
  }
}

void add_market_fans(Market& market, int count) {
  Rows& plugs = market.rows(table("part_headers"));
  for (int n = 0; n < count; ++n) {
    const std::string id = market_id(Kind::fan, n);
    Dice dice(id);
    const int size_mm = n % 3 == 2 ? 140 : 120;
    const int rpm = 1200 + 50 * dice.between(0, 16);
    Rows& row = market.part(Kind::fan, n, 6 + dice.between(0, 24));
    row.whole(column("fan", "size_mm"), size_mm)
        .whole(column("fan", "thickness_mm"), 25)
        .decimal(column("fan", "current_a"), hundredths(8 + rpm / 100))
        .flag(column("fan", "chains"), n % 4 == 0)
        .whole(column("fan", "speed_rpm"), rpm)
        .whole(column("fan", "flow_m3_h"), rpm * size_mm / 2100)
        .decimal(column("fan", "pressure_pa"), tenths(rpm / 9));
    row.end_row();
    if (n % 4 == 1) add_points(market, id, rpm * size_mm / 2100, rpm / 9);
    if (n % 8 == 1) add_noise_point(market, id, 8 + rpm / 150);
    const Count own[] = {{"light-5v", 0}};
    add_counts(plugs, plugs_of_part, id, own);
  }
}

}  // namespace rigproof::demo
