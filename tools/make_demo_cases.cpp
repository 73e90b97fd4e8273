// The demo's cases, from 8 litres to 60. A clearance `always` is that of the case as sold, its own
// fans in place; what is mounted later takes its own thickness and `takes_mm` beside it.
#include <algorithm>
#include <vector>

#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("case", name); }
consteval ColumnId mount_in(std::string_view name) { return column("case_mounts", name); }
consteval ColumnId room_in(std::string_view name) { return column("case_clearances", name); }
consteval ColumnId way_in(std::string_view name) { return column("case_ways", name); }
consteval ColumnId fan_in(std::string_view name) { return column("case_fans", name); }

struct Mount {
  std::string_view name, face, fan_sizes;
  int places;
  std::string_view radiators;
  int depth_mm;
  int fan_mm, fans;             // mounted when sold
  std::string_view takes_from;  // a clearance that what sits here reduces; empty: none
  int takes_mm;
};

struct Chassis {
  std::string_view maker, model;
  int euro;
  std::string_view forms, psu_forms;
  int width_mm, height_mm, depth_mm;
  int slots, bays_2_5, bays_3_5;
  int card_length_mm, card_height_mm, card_thickness_mm, cooler_height_mm, supply_mm;
  std::vector<Mount> mounts;
};

constexpr std::string_view mini = "Mini-ITX";
constexpr std::string_view micro = "microATX|Mini-ITX";
constexpr std::string_view full = "ATX|microATX|Mini-ITX";

constexpr Mount rear(int size_mm, int fans) {
  return {"rear",
          "rear",
          size_mm == 92    ? "80|92"
          : size_mm == 140 ? "120|140"
                           : "120",
          1,
          size_mm == 92 ? "none" : "120",
          58,
          size_mm,
          fans,
          "",
          0};
}
constexpr Mount front(std::string_view sizes, int places, std::string_view radiators, int fan_mm,
                      int fans) {
  return {"front", "front", sizes, places, radiators, 62, fan_mm, fans, "card-length", 2};
}
constexpr Mount top(std::string_view sizes, int places, std::string_view radiators) {
  return {"top", "top", sizes, places, radiators, 58, 120, 0, "", 0};
}

// clang-format off: a row a case, the numbers beside each other
std::vector<Chassis> small_cases() {
  return {
      // Board and card back to back: low coolers, long cards.
      {"Kolbrand", "Matchbox 8", 149, mini, "SFX|SFX-L", 142, 196, 308, 2, 1, 0, 294, 134, 45, 54,
       130,
       {{"bottom", "bottom", "80|92", 2, "none", 18, 92, 0, "card-height", 0}}},
      {"Harrowdene", "Larder 11", 119, mini, "SFX|SFX-L", 168, 212, 322, 3, 2, 0, 306, 142, 60, 68,
       130,
       {{"bottom", "bottom", "120", 2, "none", 28, 120, 0, "card-height", 0}}},
      {"Wexcombe", "Satchel 15", 138, mini, "SFX|SFX-L", 176, 262, 330, 3, 2, 0, 316, 152, 62, 76,
       135,
       {{"top", "top", "120", 2, "240", 56, 120, 0, "supply-length", 0}, {"bottom", "bottom",
       "120", 2, "none", 28, 120, 1, "", 0}}},
      {"Quernholt", "Casket 10", 128, mini, "SFX|SFX-L", 158, 200, 320, 3, 1, 0, 304, 138, 61, 64,
       130,
       {{"bottom", "bottom", "120", 2, "none", 18, 120, 0, "card-height", 0}}},
      {"Ottermill", "Drift 12", 144, mini, "SFX|SFX-L", 172, 216, 326, 3, 1, 0, 310, 146, 62, 70,
       130,
       {{"bottom", "bottom", "120", 2, "none", 28, 120, 1, "card-height", 0}}},
      {"Wexcombe", "Satchel 11", 155, mini, "SFX", 164, 206, 330, 3, 2, 0, 314, 140, 61, 66, 105,
       {{"bottom", "bottom", "120", 2, "none", 28, 120, 2, "card-height", 0}}},
      // Small towers.
      {"Kolbrand", "Breadbin 18", 85, mini, "SFX|SFX-L", 192, 288, 326, 2, 2, 1, 275, 140, 44, 140,
       130,
       {{"front", "front", "120|140", 1, "120|140", 60, 120, 1, "card-length", 2}, rear(120, 1)}},
      {"Harrowdene", "Larder 20", 79, mini, "SFX|ATX", 206, 298, 334, 3, 2, 1, 297, 150, 64, 154,
       160,
       {{"front", "front", "120", 2, "240", 58, 120, 1, "card-length", 2}, rear(92, 1)}},
      // A flat one for under the screen: the board lies, card and cooler stand up to the lid.
      {"Kolbrand", "Sideboard 30", 129, micro, "ATX|SFX", 432, 172, 402, 4, 2, 1, 312, 126, 82,
       124, 165,
       {{"side", "side", "80|92", 2, "none", 30, 92, 2, "", 0}, rear(92, 0)}},
      {"Wexcombe", "Satchel 24", 72, micro, "ATX|SFX", 208, 342, 346, 4, 2, 1, 305, 150, 82, 156,
       150,
       {front("120", 2, "240", 120, 1), rear(120, 1)}},
      {"Kolbrand", "Breadbin 28", 49, micro, "ATX", 200, 372, 378, 4, 2, 2, 319, 146, 84, 150, 165,
       {front("120", 2, "240", 120, 1), rear(120, 1)}},
      {"Harrowdene", "Scullery 30", 62, micro, "ATX", 214, 380, 376, 4, 2, 2, 321, 156, 86, 162,
       170,
       {front("120|140", 2, "240|280", 120, 2), top("120", 2, "240"), rear(120, 1)}},
      {"Ottermill", "Drift 33", 88, micro, "ATX", 219, 394, 384, 4, 2, 1, 327, 160, 90, 166, 175,
       {front("120|140", 2, "240|280", 140, 2), top("120|140", 2, "240"), rear(120, 1)}},
      {"Wexcombe", "Satchel 36", 102, micro, "ATX", 232, 398, 394, 5, 3, 2, 335, 168, 100, 174,
       180,
       {front("120|140", 2, "240|280", 140, 2), top("120|140", 2, "240|280"), rear(140, 1)}},
      {"Ottermill", "Drift 38 Glass", 124, micro, "ATX", 286, 330, 404, 5, 3, 1, 392, 160, 100,
       168, 200,
       {{"side", "side", "120", 2, "240", 58, 120, 0, "", 0}, top("120", 3, "360|240"), {"bottom",
       "bottom", "120", 2, "none", 28, 120, 0, "card-thickness", 0}, rear(120, 0)}},

  };
}

std::vector<Chassis> full_cases() {
  return {
      {"Harrowdene", "Scullery 34", 92, full, "ATX|SFX", 218, 402, 394, 7, 2, 1, 340, 160, 148,
       166, 160,
       {{"bottom", "bottom", "120", 3, "none", 28, 120, 1, "", 0}, top("120", 2, "240"), rear(120,
       1)}},
      {"Kolbrand", "Plinth 36", 46, full, "ATX", 198, 426, 430, 7, 2, 2, 352, 144, 148, 148, 170,
       {front("120", 2, "240", 120, 0), rear(120, 1)}},
      {"Kolbrand", "Plinth 39", 56, full, "ATX", 205, 441, 430, 7, 2, 2, 345, 152, 150, 157, 180,
       {front("120", 3, "240|360", 120, 1), top("120", 2, "none"), rear(120, 1)}},
      {"Ottermill", "Drift 42", 79, full, "ATX", 215, 455, 432, 7, 3, 2, 361, 158, 150, 164, 190,
       {front("120|140", 2, "240|280", 140, 2), top("120", 2, "240"), rear(120, 1)}},
      {"Wexcombe", "Trunk 44", 109, full, "ATX", 221, 460, 434, 7, 3, 2, 359, 164, 152, 170, 190,
       {front("120|140", 3, "240|280|360", 140, 2), top("120|140", 2, "240"), rear(140, 1)}},
      {"Harrowdene", "Cellar 45", 89, full, "ATX", 224, 456, 438, 7, 3, 2, 365, 164, 152, 170, 185,
       {front("120|140", 3, "240|280|360", 120, 3), top("120|140", 2, "240|280"), rear(120, 1)}},
      {"Kolbrand", "Plinth 47", 68, full, "ATX", 220, 470, 455, 7, 2, 3, 373, 160, 150, 165, 200,
       {front("120|140", 3, "240|280|360", 120, 2), top("120", 3, "240|360"), rear(120, 1)}},
      {"Ottermill", "Drift 50", 99, full, "ATX", 230, 480, 450, 7, 4, 2, 377, 168, 154, 174, 200,
       {front("120|140", 3, "240|280|360", 140, 2), top("120|140", 3, "240|280|360"), rear(120,
       1)}},
      {"Wexcombe", "Trunk 52", 139, full, "ATX", 235, 476, 466, 7, 4, 3, 387, 174, 156, 180, 210,
       {front("120|140", 3, "240|280|360", 140, 2), top("120|140", 3, "240|280|360"), rear(140,
       1)}},
      {"Harrowdene", "Cellar 55", 129, full, "ATX", 240, 490, 468, 7, 4, 4, 393, 178, 158, 184,
       215,
       {front("120|140", 3, "240|280|360|420", 140, 3), top("120|140", 3, "240|280|360"), rear(140,
       1)}},
      // Two chambers: the supply stands behind the board, so the width is not all the cooler's.
      {"Ottermill", "Drift 57 Glass", 162, full, "ATX", 286, 450, 446, 7, 4, 2, 420, 160, 156, 168,
       210,
       {{"side", "side", "120", 3, "240|360", 60, 120, 3, "", 0}, top("120|140", 3, "240|280|360"),
       {"bottom", "bottom", "120", 3, "240|360", 58, 120, 0, "card-thickness", 0}, rear(120, 1)}},
      {"Kolbrand", "Plinth 60", 115, full, "ATX", 240, 510, 490, 8, 4, 6, 415, 178, 175, 184, 240,
       {front("120|140", 3, "240|280|360|420", 140, 2), top("120|140", 3, "240|280|360"), rear(140,
       1)}},
      {"Wexcombe", "Trunk 60 Calm", 219, full, "ATX", 245, 506, 485, 8, 4, 4, 407, 182, 174, 188,
       230,
       {front("120|140", 3, "240|280|360|420", 140, 3), top("120|140", 3, "240|280|360"), rear(140,
       1)}},

  };
}

// More towers, by their outside; what is inside follows from it (chassis_of).
struct Tower {
  std::string_view maker, model;
  int euro;
  char size;  // a: ATX, m: microATX, i: Mini-ITX
  int width_mm, height_mm, depth_mm;
  int front_fans, front_mm, rear_fans;
  std::string_view front_radiators, top_radiators;
};
constexpr Tower towers[] = {
    {"Kolbrand", "Breadbin 16", 62, 'i', 190, 275, 312, 1, 120, 1, "120", ""},
    {"Ottermill", "Drift 19", 84, 'i', 196, 300, 330, 1, 140, 1, "120|140", ""},
    {"Wexcombe", "Satchel 19", 92, 'i', 200, 296, 324, 1, 120, 1, "120", "120"},
    {"Quernholt", "Coffer 22", 74, 'i', 206, 312, 346, 2, 120, 0, "240", ""},
    {"Wexcombe", "Satchel 22 Calm", 118, 'i', 205, 310, 342, 1, 140, 1, "120|140", "120"},
    {"Quernholt", "Coffer 27", 55, 'm', 202, 362, 372, 1, 120, 1, "240", ""},
    {"Kolbrand", "Breadbin 31", 52, 'm', 208, 388, 384, 2, 120, 1, "240", "120"},
    {"Harrowdene", "Scullery 32", 71, 'm', 215, 390, 388, 2, 140, 1, "240|280", "240"},
    {"Ottermill", "Drift 35", 94, 'm', 222, 398, 396, 2, 140, 1, "240|280", "240"},
    {"Quernholt", "Coffer 34", 66, 'm', 216, 396, 392, 2, 120, 1, "240", "240"},
    {"Tidewell", "Basin 36", 98, 'm', 226, 402, 398, 3, 120, 1, "240|360", "240"},
    // Slim and pretty: the mistake of builds/trap-plug-at-the-panel.toml.
    {"Ottermill", "Drift 40 Slim", 48, 'a', 200, 450, 440, 1, 120, 1, "240", ""},
    // Without a fan of its own: builds/trap-one-header.toml adds three.
    {"Kolbrand", "Plinth 41 Bare", 45, 'a', 210, 448, 436, 0, 120, 0, "240|360", "240"},
    {"Kolbrand", "Plinth 43", 59, 'a', 214, 456, 442, 2, 120, 1, "240|360", "240"},
    {"Harrowdene", "Cellar 43", 82, 'a', 216, 454, 440, 2, 140, 1, "240|280", "240"},
    {"Quernholt", "Coffer 44", 64, 'a', 218, 456, 444, 2, 120, 1, "240|360", "240"},
    {"Ottermill", "Drift 46", 92, 'a', 224, 462, 448, 3, 120, 1, "240|360", "240"},
    {"Quernholt", "Coffer 47 Glass", 86, 'a', 225, 466, 450, 3, 120, 1, "240|360", "240|360"},
    {"Tidewell", "Basin 48", 112, 'a', 228, 468, 452, 3, 120, 1, "240|280|360", "240|360"},
    {"Wexcombe", "Trunk 48", 124, 'a', 228, 470, 456, 2, 140, 1, "240|280", "240|280"},
    {"Harrowdene", "Cellar 50", 108, 'a', 232, 478, 456, 3, 140, 1, "240|280|360", "240|280"},
    {"Kolbrand", "Plinth 52", 76, 'a', 232, 484, 464, 3, 120, 1, "240|360", "240|360"},
    {"Quernholt", "Coffer 53", 95, 'a', 234, 486, 468, 3, 140, 1, "240|280|360", "240|280|360"},
    {"Ottermill", "Drift 54 Glass", 142, 'a', 238, 488, 470, 3, 140, 1, "240|280|360", "240|360"},
    {"Wexcombe", "Trunk 56 Calm", 178, 'a', 240, 492, 474, 3, 140, 1, "240|280|360", "240|280|360"},
    {"Tidewell", "Basin 58", 149, 'a', 242, 498, 480, 3, 140, 1, "240|280|360|420", "240|360"},
    {"Harrowdene", "Cellar 60", 146, 'a', 244, 502, 486, 3, 140, 1, "240|280|360|420", "240|360"},
};

// clang-format on

// 54 mm of the width are walls, cable room, board and processor; 82 mm of the depth are the front's
// fans and the walls.
Chassis chassis_of(const Tower& tower) {
  const bool large = tower.front_mm == 140;
  const int places = tower.size == 'a' ? 3 : tower.size == 'm' ? 2 : tower.front_fans > 1 ? 2 : 1;
  const int slots = tower.size == 'a' ? 7 : tower.size == 'm' ? 4 : 3;
  Chassis out{tower.maker,
              tower.model,
              tower.euro,
              tower.size == 'a'   ? full
              : tower.size == 'm' ? micro
                                  : mini,
              tower.size == 'a'   ? "ATX"
              : tower.size == 'm' ? "ATX|SFX"
                                  : "SFX|SFX-L",
              tower.width_mm,
              tower.height_mm,
              tower.depth_mm,
              slots,
              tower.size == 'i' ? 1 : 2,
              tower.size == 'a' ? 2 : 1,
              tower.depth_mm - 82,
              tower.width_mm - 51,
              slots * 21 - (slots == 7 ? 0 : 1),
              tower.width_mm - 54,
              tower.size == 'a'   ? 190
              : tower.size == 'm' ? 165
                                  : 130,
              {}};
  const int front_places = tower.front_fans > places ? tower.front_fans : places;
  out.mounts.push_back(front(large ? "120|140" : "120", front_places, tower.front_radiators,
                             tower.front_mm, tower.front_fans));
  if (!tower.top_radiators.empty()) {
    const bool small = tower.top_radiators == "120";
    const bool long_top = tower.top_radiators.find("360") != std::string_view::npos;
    out.mounts.push_back(
        top(tower.top_radiators.find("280") != std::string_view::npos ? "120|140" : "120",
            small      ? 1
            : long_top ? 3
                       : 2,
            tower.top_radiators));
  }
  out.mounts.push_back(rear(120, tower.rear_fans));
  return out;
}

// What its front panel and lights plug into.
void add_case_plugs(Demo& demo, const Chassis& chassis, std::string_view id) {
  const bool glass = chassis.model.find("Glass") != std::string_view::npos;
  const bool plain = chassis.euro < 60;
  add_plugs(demo, id,
            {{"usb2", plain ? 1 : 0, 0},
             {"usb3", 1, 0},
             {"usb-c", chassis.euro >= 75 ? 1 : 0, 0},
             {"light-5v", glass ? 1 : 0, glass ? 90 : 0}});
}

void add_room(Demo& demo, std::string_view id, std::string_view limits, std::string_view when,
              int mm) {
  Line line(table("case_clearances"));
  line.text(room_in("case"), id)
      .text(room_in("limits"), limits)
      .text(room_in("when"), when)
      .whole(room_in("by_mm"), mm);
  demo.add(table("case_clearances"), line);
}

// Feet, supply chamber, board and walls take the rest of the height.
int beyond_board_mm(const Chassis& chassis) {
  const int board_mm = chassis.forms.starts_with("ATX")        ? 305
                       : chassis.forms.starts_with("microATX") ? 244
                                                               : 170;
  const int chamber_mm = chassis.psu_forms.starts_with("ATX") ? 95 : 72;
  return std::clamp(chassis.height_mm - 21 - chamber_mm - board_mm, 12, 70);
}

// A row on the top leans to the side panel, away from the memory.
int middle_from_board_mm(const Chassis& chassis, const Mount& mount) {
  return chassis.cooler_height_mm -
         (mount.fan_sizes.find("140") != std::string_view::npos ? 70 : 60);
}

// Glass and calm fronts let less air through.
int open_percent(const Chassis& chassis, const Mount& mount) {
  if (mount.face == "rear") return 65;
  if (mount.face == "top") return 60;
  const bool closed = chassis.model.find("Glass") != std::string_view::npos ||
                      chassis.model.find("Calm") != std::string_view::npos;
  return closed && mount.face == "front" ? 32 : 48;
}
int filter_pa(const Mount& mount) { return mount.face == "rear" ? 0 : mount.face == "top" ? 3 : 6; }

// The socket is some 85 mm from the rear and from the board's upper edge.
int tube_way_mm(const Chassis& chassis, const Mount& mount) {
  if (mount.face == "front") return chassis.depth_mm - 110;
  if (mount.face == "bottom") return chassis.height_mm - 120;
  return mount.face == "top" ? 190 : mount.face == "side" ? 260 : 150;
}

// A row in front ends below the top's mounts; one at the rear lies beside the socket.
int end_above_socket_mm(const Chassis& chassis, const Mount& mount) {
  if (mount.face == "rear") return 60;
  const int socket_mm = chassis.height_mm - beyond_board_mm(chassis) - 85;
  const int row_mm = mount.places * 120;
  return std::min(chassis.height_mm - 25, chassis.height_mm / 2 + row_mm / 2 + 15) - socket_mm;
}

void add_mount(Demo& demo, std::string_view id, const Chassis& chassis, const Mount& mount) {
  Line line(table("case_mounts"));
  line.text(mount_in("case"), id)
      .text(mount_in("mount"), mount.name)
      .text(mount_in("face"), mount.face)
      .text(mount_in("fan_sizes_mm"), mount.fan_sizes)
      .whole(mount_in("fan_places"), mount.places)
      .text(mount_in("radiators_mm"), mount.radiators)
      .whole(mount_in("depth_mm"), mount.depth_mm)
      .decimal(mount_in("open_frac"), hundredths(open_percent(chassis, mount)))
      .whole(mount_in("filter_pa"), filter_pa(mount));
  if (mount.face == "top")
    line.whole(mount_in("beyond_board_mm"), beyond_board_mm(chassis))
        .whole(mount_in("middle_from_board_mm"), middle_from_board_mm(chassis, mount));
  if (mount.radiators != "none") {
    line.whole(mount_in("tube_way_mm"), tube_way_mm(chassis, mount));
    if (mount.face != "top" && mount.face != "bottom")
      line.whole(mount_in("end_above_socket_mm"), end_above_socket_mm(chassis, mount));
  }
  demo.add(table("case_mounts"), line);
  Line fans(table("case_fans"));
  fans.text(fan_in("case"), id)
      .text(fan_in("mount"), mount.name)
      .whole(fan_in("size_mm"), mount.fan_mm)
      .whole(fan_in("count"), mount.fans);
  if (mount.fans > 0)
    fans.decimal(fan_in("current_a"), hundredths(mount.fan_mm / 10 + 4))
        .whole(fan_in("flow_m3_h"), mount.fan_mm * 2 / 3)
        .whole(fan_in("pressure_pa"), mount.fan_mm >= 140 ? 9 : 11)
        .whole(fan_in("noise_dba"), mount.fan_mm >= 140 ? 23 : 22);
  demo.add(table("case_fans"), fans);
  if (!mount.takes_from.empty()) add_room(demo, id, mount.takes_from, mount.name, mount.takes_mm);
}

// From the chamber forwards, up behind the tray and over the board's edge.
void add_ways(Demo& demo, std::string_view id, const Chassis& chassis) {
  const bool small = !chassis.psu_forms.starts_with("ATX");
  const int tall_mm = small ? chassis.height_mm / 2 : chassis.height_mm;
  const std::pair<std::string_view, int> ways[] = {
      {"atx24", tall_mm * 7 / 10 + 110}, {"eps8", tall_mm + 105},
      {"eps4", tall_mm + 105},           {"pcie6", tall_mm * 6 / 10 + 130},
      {"pcie8", tall_mm * 6 / 10 + 130}, {"12v-2x6", tall_mm * 6 / 10 + 130},
      {"sata", tall_mm / 4 + 160}};
  for (const auto& [connector, mm] : ways) {
    Line line(table("case_ways"));
    line.text(way_in("case"), id).text(way_in("connector"), connector).whole(way_in("way_mm"), mm);
    demo.add(table("case_ways"), line);
  }
}

void add_case(Demo& demo, const Chassis& chassis) {
  const std::string id = slug(std::string(chassis.maker) + " " + std::string(chassis.model));
  Dice dice("case/" + id);
  const std::int64_t volume_mm3 =
      static_cast<std::int64_t>(chassis.width_mm) * chassis.height_mm * chassis.depth_mm;
  // Makers leave feet and handles out: up to 2 % less than the box around everything.
  const std::int64_t tenths_l =
      divide_rounded(volume_mm3 * (1000 - dice.between(0, 18)) / 1000, 100000);
  Line line = demo.part(Kind::chassis, chassis.maker, chassis.model, chassis.euro);
  line.text(in("form_factors"), chassis.forms)
      .text(in("psu_forms"), chassis.psu_forms)
      .whole(in("width_mm"), chassis.width_mm)
      .whole(in("height_mm"), chassis.height_mm)
      .whole(in("depth_mm"), chassis.depth_mm)
      .decimal(in("volume_l"), tenths(tenths_l))
      .whole(in("card_slots"), chassis.slots)
      .whole(in("bays_2_5"), chassis.bays_2_5)
      .whole(in("bays_3_5"), chassis.bays_3_5)
      .whole(in("leak_cm2"), 40 + chassis.width_mm / 5)
      .flag(in("supply_chamber"), chassis.height_mm >= 340);
  demo.add(table("case"), line);
  add_room(demo, id, "card-length", "always", chassis.card_length_mm);
  // Where the card stands on the board beside the cooler, it begins some millimeters lower.
  add_room(demo, id, "card-height", "always",
           std::max(chassis.card_height_mm, chassis.cooler_height_mm + 3));
  add_room(demo, id, "card-thickness", "always", chassis.card_thickness_mm);
  add_room(demo, id, "cooler-height", "always", chassis.cooler_height_mm);
  add_room(demo, id, "supply-length", "always", chassis.supply_mm);
  add_room(demo, id, "supply-and-cables", "always", chassis.supply_mm + 55);
  // The cage of towers stands in the supply's chamber, before the cables.
  if (chassis.bays_3_5 > 0 && chassis.supply_mm >= 160)
    add_room(demo, id, "supply-length", "bay-3.5", 25);
  for (const Mount& mount : chassis.mounts) add_mount(demo, id, chassis, mount);
  add_ways(demo, id, chassis);
  add_case_plugs(demo, chassis, id);
}

}  // namespace

void add_cases(Demo& demo) {
  for (const Chassis& chassis : small_cases()) add_case(demo, chassis);
  for (const Chassis& chassis : full_cases()) add_case(demo, chassis);
  for (const Tower& tower : towers) add_case(demo, chassis_of(tower));
}

}  // namespace rigproof::demo
