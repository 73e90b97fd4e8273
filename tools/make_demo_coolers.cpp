// The demo's processor coolers (boxed, flat, towers, closed loops) and case fans.
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("cooler", name); }
consteval ColumnId socket_in(std::string_view name) { return column("cooler_sockets", name); }
consteval ColumnId fan_in(std::string_view name) { return column("fan", name); }

struct Cooler {
  std::string_view maker, model, sockets;
  int height_mm, heat_w;
  int covers, under_mm;  // memory slots it reaches over, and the height it leaves there
  int fan_mm, fan_thickness_mm, fans, power_tenths_w;
  int radiator_mm, radiator_thickness_mm;  // 0: an air cooler
  int euro;
};
constexpr Cooler coolers[] = {
    // In the box of a processor; a cooler of zero price.
    {"Orrvane", "boxed flat", "V3|V4", 54, 68, 0, 0, 92, 15, 1, 15, 0, 0, 0},
    {"Orrvane", "boxed tall", "V3|V4", 72, 105, 0, 0, 92, 25, 1, 22, 0, 0, 0},
    {"Thessic", "boxed flat", "Q6", 47, 70, 0, 0, 80, 15, 1, 15, 0, 0, 0},
    {"Thessic", "boxed tall", "Q6", 69, 92, 0, 0, 92, 20, 1, 20, 0, 0, 0},
    // Flat.
    {"Brisvind", "Plover 37", "V3|V4|Q6", 37, 72, 0, 0, 92, 15, 1, 16, 0, 0, 42},
    {"Brisvind", "Plover 47", "V3|V4|Q6", 47, 95, 0, 0, 92, 15, 1, 17, 0, 0, 46},
    {"Fjellum", "Shelf 55", "V3|V4|Q6", 55, 102, 2, 35, 120, 15, 1, 18, 0, 0, 44},
    {"Fjellum", "Shelf 66", "V4|Q6", 66, 130, 2, 44, 120, 15, 1, 20, 0, 0, 62},
    {"Brisvind", "Plover 70", "V3|V4|Q6", 70, 140, 2, 41, 120, 25, 1, 22, 0, 0, 69},
    // Wide, low and cheap: builds/trap-tall-memory.toml.
    {"Wexcombe", "Awning", "V3|V4|Q6", 72, 118, 2, 38, 120, 15, 1, 20, 0, 0, 13},
    {"Wexcombe", "Saucer", "V3|Q6", 62, 88, 1, 34, 92, 25, 1, 21, 0, 0, 19},
    // Towers.
    {"Wexcombe", "Post 92", "V3|V4|Q6", 125, 125, 0, 0, 92, 25, 1, 21, 0, 0, 22},
    {"Brisvind", "Heron 92", "V3|V4|Q6", 135, 140, 0, 0, 92, 25, 2, 36, 0, 0, 52},
    {"Wexcombe", "Post 120", "V3|V4|Q6", 152, 150, 0, 0, 120, 25, 1, 24, 0, 0, 25},
    {"Wexcombe", "Post 120 Old", "V3|Q6", 155, 140, 1, 38, 120, 25, 1, 26, 0, 0, 17},
    {"Fjellum", "Pillar", "V3|V4|Q6", 155, 180, 0, 0, 120, 25, 1, 22, 0, 0, 36},
    {"Fjellum", "Pillar Pair", "V3|V4|Q6", 155, 195, 1, 44, 120, 25, 2, 42, 0, 0, 45},
    {"Brisvind", "Heron 120", "V3|V4|Q6", 158, 185, 0, 0, 120, 25, 1, 14, 0, 0, 59},
    {"Nordvane", "Stave 120", "V3|V4|Q6", 149, 170, 0, 0, 120, 25, 1, 23, 0, 0, 33},
    {"Nordvane", "Stave 120 Short", "V4|Q6", 138, 150, 0, 0, 120, 25, 1, 23, 0, 0, 38},
    {"Fjellum", "Gatepost", "V3|V4|Q6", 157, 230, 2, 42, 120, 25, 2, 44, 0, 0, 62},
    {"Wexcombe", "Twin Post", "V3|V4|Q6", 156, 220, 2, 40, 120, 25, 2, 50, 0, 0, 43},
    {"Nordvane", "Stave 140", "V3|V4|Q6", 163, 235, 1, 45, 140, 25, 1, 24, 0, 0, 68},
    {"Brisvind", "Crane 140", "V3|V4|Q6", 165, 260, 3, 38, 140, 25, 2, 32, 0, 0, 112},
    {"Fjellum", "Gatehouse", "V3|V4|Q6", 168, 270, 3, 40, 140, 25, 2, 48, 0, 0, 92},
    {"Nordvane", "Barrel", "V3|V4|Q6", 160, 245, 2, 43, 120, 28, 2, 47, 0, 0, 74},
    {"Brisvind", "Heron 120 Pair", "V3|V4|Q6", 158, 205, 1, 42, 120, 25, 2, 28, 0, 0, 79},
    {"Nordvane", "Stave 92", "V3|V4|Q6", 126, 128, 0, 0, 92, 25, 1, 20, 0, 0, 28},
    {"Nordvane", "Barrel Short", "V4|Q6", 148, 215, 2, 41, 120, 25, 2, 45, 0, 0, 66},
    {"Fjellum", "Lintel", "V3|V4|Q6", 150, 165, 0, 0, 120, 25, 1, 21, 0, 0, 30},
    {"Fjellum", "Lintel Pair", "V4|Q6", 150, 205, 2, 40, 120, 25, 2, 42, 0, 0, 54},
    {"Wexcombe", "Post 140", "V3|V4|Q6", 162, 190, 1, 40, 140, 25, 1, 26, 0, 0, 34},
    {"Tidewell", "Spar 120", "V3|V4|Q6", 154, 175, 0, 0, 120, 25, 1, 23, 0, 0, 32},
    {"Tidewell", "Spar 120 Pair", "V4|Q6", 154, 225, 2, 44, 120, 25, 2, 45, 0, 0, 57},
    {"Tidewell", "Raft 47", "V4|Q6", 47, 92, 0, 0, 92, 15, 1, 17, 0, 0, 39},
    {"Nordvane", "Shingle 53", "V3|V4|Q6", 53, 98, 0, 0, 92, 15, 1, 18, 0, 0, 37},
    {"Nordvane", "Shingle 67", "V4|Q6", 67, 125, 2, 40, 120, 15, 1, 20, 0, 0, 49},
    // Closed loops; the height is the pump block's.
    {"Wexcombe", "Brook 240", "V3|V4|Q6", 52, 240, 0, 0, 120, 25, 2, 92, 240, 27, 75},
    {"Tidewell", "Culvert 240", "V3|V4|Q6", 55, 260, 0, 0, 120, 25, 2, 105, 240, 27, 96},
    {"Tidewell", "Culvert 240 Deep", "V4|Q6", 58, 285, 0, 0, 120, 25, 2, 110, 240, 38, 119},
    {"Fjellum", "Sluice 240", "V4|Q6", 50, 255, 0, 0, 120, 25, 2, 80, 240, 30, 109},
    {"Tidewell", "Culvert 280", "V3|V4|Q6", 55, 290, 0, 0, 140, 25, 2, 112, 280, 27, 118},
    {"Fjellum", "Sluice 280", "V4|Q6", 50, 300, 0, 0, 140, 28, 2, 90, 280, 30, 139},
    {"Wexcombe", "Brook 360", "V3|V4|Q6", 52, 320, 0, 0, 120, 25, 3, 120, 360, 27, 99},
    {"Tidewell", "Culvert 360", "V3|V4|Q6", 55, 340, 0, 0, 120, 25, 3, 138, 360, 27, 129},
    {"Tidewell", "Culvert 360 Deep", "V4|Q6", 58, 375, 0, 0, 120, 25, 3, 145, 360, 38, 169},
    {"Nordvane", "Runnel 240", "V4|Q6", 53, 245, 0, 0, 120, 25, 2, 88, 240, 27, 79},
    {"Nordvane", "Runnel 360", "V4|Q6", 53, 330, 0, 0, 120, 25, 3, 118, 360, 27, 112},
    {"Tidewell", "Culvert 120", "V3|V4|Q6", 55, 150, 0, 0, 120, 25, 1, 60, 120, 27, 62},
    {"Wexcombe", "Brook 280", "V3|V4|Q6", 52, 270, 0, 0, 140, 25, 2, 96, 280, 27, 92},
    {"Fjellum", "Sluice 360", "V4|Q6", 50, 350, 0, 0, 120, 28, 3, 110, 360, 30, 179},
};

// Each maker cuts its tubes to one length; loops with a large radiator get more.
int tube_mm(const Cooler& cooler) {
  const int plain = cooler.maker == "Wexcombe" ? 370 : cooler.maker == "Fjellum" ? 420 : 400;
  return plain + (cooler.radiator_mm >= 360 ? 30 : 0);
}

// All its fans at full speed, at 1 m: small ones turn fast.
int cooler_noise_dba(const Cooler& cooler) {
  const int small = cooler.fan_mm < 120 ? 5 : 0;
  return 25 + 2 * cooler.fans + small + (cooler.radiator_mm > 0 ? 3 : 0);
}

// Fins and pipes by what they carry; a loop by its radiator's metal and liquid, and the pump block.
std::int64_t heat_capacity_j_k(const Cooler& cooler) {
  if (cooler.radiator_mm == 0) return divide_rounded(std::int64_t{cooler.heat_w} * 12, 5);
  return 500 + std::int64_t{cooler.radiator_mm} * cooler.radiator_thickness_mm / 6;
}

void add_sockets(Demo& demo, std::string_view cooler, std::string_view sockets) {
  for (std::size_t at = 0; at < sockets.size(); at += 3) {  // two letters and a bar
    Line line(table("cooler_sockets"));
    line.text(socket_in("cooler"), cooler).text(socket_in("socket"), sockets.substr(at, 2));
    demo.add(table("cooler_sockets"), line);
  }
}

struct Fan {
  std::string_view maker, model;
  int size_mm, thickness_mm, current_hundredths_a, speed_rpm, flow_tenths_m3_h, pressure_tenths_pa,
      euro;
  bool chains = false;
  int light_hundredths_a = 0;  // 0: no lights
};
constexpr Fan fans[] = {
    {"Wexcombe", "Gust 92", 92, 25, 12, 1800, 620, 152, 7},
    {"Wexcombe", "Gust 120", 120, 25, 16, 1500, 890, 138, 6},
    {"Wexcombe", "Gust 140", 140, 25, 18, 1200, 1080, 102, 8},
    {"Fjellum", "Draught 120", 120, 25, 14, 1450, 940, 165, 12},
    {"Fjellum", "Draught 120 Fast", 120, 25, 25, 2100, 1360, 345, 15},
    {"Fjellum", "Draught 140", 140, 25, 17, 1350, 1310, 158, 15},
    {"Brisvind", "Tern 92", 92, 25, 8, 1700, 640, 178, 18},
    {"Brisvind", "Tern 120", 120, 25, 9, 1600, 1010, 232, 24},
    {"Brisvind", "Tern 120 Thin", 120, 15, 10, 1750, 720, 168, 22},
    {"Brisvind", "Tern 140", 140, 25, 12, 1400, 1390, 212, 27},
    {"Nordvane", "Vane 120 Thick", 120, 30, 20, 1900, 1290, 398, 29},
    {"Nordvane", "Vane 140 Thin", 140, 15, 14, 1300, 930, 112, 19},
    {"Nordvane", "Vane 120", 120, 25, 15, 1650, 1050, 210, 17, true},
    {"Nordvane", "Vane 140", 140, 25, 16, 1350, 1300, 160, 19, true},
    // Thirsty, and one hangs on the other: the mistake of builds/trap-one-header.toml.
    {"Wexcombe", "Gust 120 Chain", 120, 25, 55, 2000, 1180, 260, 5, true},
    {"Wexcombe", "Gust 140 Chain", 140, 25, 40, 1500, 1290, 170, 7, true},
    {"Wexcombe", "Gust 80", 80, 25, 11, 2000, 480, 140, 6},
    {"Fjellum", "Draught 92", 92, 25, 12, 1900, 660, 170, 11},
    {"Fjellum", "Draught 140 Fast", 140, 25, 28, 1800, 1760, 280, 18},
    {"Tidewell", "Eddy 120", 120, 25, 17, 1700, 1080, 205, 14, true, 35},
    {"Tidewell", "Eddy 140", 140, 25, 18, 1400, 1330, 150, 16, true, 40},
    {"Lumvar", "Glow 120", 120, 25, 20, 1500, 930, 150, 10, false, 45},
    {"Brisvind", "Tern 80", 80, 25, 7, 1800, 500, 150, 17},
    {"Brisvind", "Tern 120 Fast", 120, 25, 16, 2300, 1390, 420, 28, true},
};

// Measured, as one says of them, in per mille of free flow and of shut-off pressure: with the hump
// of a fan that stalls.
struct Point {
  int flow_per_mille, pressure_per_mille;
};
constexpr Point points[] = {{0, 1000},  {180, 845}, {320, 790}, {420, 815},
                            {560, 690}, {700, 500}, {850, 265}, {1000, 0}};

bool is_measured(const Fan& fan) {
  return fan.maker == "Brisvind" || (fan.maker == "Nordvane" && fan.size_mm == 120);
}

void add_points(Demo& demo, const Fan& fan, std::string_view id) {
  for (const Point& point : points) {
    Line line(table("fan_points"));
    line.text(column("fan_points", "fan"), id)
        .decimal(
            column("fan_points", "flow_m3_h"),
            tenths(divide_rounded(std::int64_t{fan.flow_tenths_m3_h} * point.flow_per_mille, 1000)))
        .decimal(column("fan_points", "pressure_pa"),
                 tenths(divide_rounded(
                     std::int64_t{fan.pressure_tenths_pa} * point.pressure_per_mille, 1000)));
    demo.add(table("fan_points"), line);
  }
}

}  // namespace

void add_coolers(Demo& demo) {
  for (const Cooler& cooler : coolers) {
    const bool liquid = cooler.radiator_mm > 0;
    Line line = demo.part(Kind::cooler, cooler.maker, cooler.model, cooler.euro);
    line.text(in("type"), liquid ? "liquid" : "air")
        .whole(in("height_mm"), cooler.height_mm)
        .whole(in("rated_heat_w"), cooler.heat_w)
        .whole(in("fan_mm"), cooler.fan_mm)
        .whole(in("fan_thickness_mm"), cooler.fan_thickness_mm)
        .whole(in("fans"), cooler.fans)
        .whole(in("rise_at_rating_k"), liquid ? 45 : 55)
        .whole(in("plate_rise_k"), liquid ? 22 : 25)
        .whole(in("heat_capacity_j_k"), heat_capacity_j_k(cooler))
        .whole(in("noise_dba"), cooler_noise_dba(cooler))
        .decimal(in("power_w"), tenths(cooler.power_tenths_w));
    line.whole(in("covers_memory_slots"), cooler.covers);
    if (cooler.covers > 0) line.whole(in("memory_clearance_mm"), cooler.under_mm);
    if (liquid) {
      line.whole(in("radiator_mm"), cooler.radiator_mm)
          .whole(in("radiator_thickness_mm"), cooler.radiator_thickness_mm)
          .whole(in("flow_m3_h"), cooler.fan_mm == 140 ? 125 : 102)
          .whole(in("pressure_pa"), cooler.fan_mm == 140 ? 18 : 24)
          .whole(in("tube_mm"), tube_mm(cooler));
    } else {
      // Towers are some millimeters wider than their fan; flat ones are as wide as it.
      line.whole(in("above_socket_mm"), cooler.fan_mm / 2 + (cooler.height_mm >= 120 ? 4 : 1));
    }
    demo.add(table("cooler"), line);
    const std::string id = slug(std::string(cooler.maker) + " " + std::string(cooler.model));
    add_sockets(demo, id, cooler.sockets);
    add_plugs(demo, id,
              liquid ? std::vector<Plug>{{"pump", 1, 0},
                                         {"usb2", cooler.heat_w >= 300 ? 1 : 0,
                                          cooler.heat_w >= 300 ? 28 : 0}}
                     : std::vector<Plug>{{"usb2", 0, 0}});
  }
}

void add_fans(Demo& demo) {
  for (const Fan& fan : fans) {
    Line line = demo.part(Kind::fan, fan.maker, fan.model, fan.euro);
    line.whole(fan_in("size_mm"), fan.size_mm)
        .whole(fan_in("thickness_mm"), fan.thickness_mm)
        .decimal(fan_in("current_a"), hundredths(fan.current_hundredths_a))
        .flag(fan_in("chains"), fan.chains)
        .whole(fan_in("speed_rpm"), fan.speed_rpm)
        .decimal(fan_in("flow_m3_h"), tenths(fan.flow_tenths_m3_h))
        .decimal(fan_in("pressure_pa"), tenths(fan.pressure_tenths_pa))
        .whole(fan_in("noise_dba"), 8 + fan.speed_rpm / 100 + (fan.size_mm >= 140 ? 3 : 0));
    demo.add(table("fan"), line);
    const std::string id = slug(std::string(fan.maker) + " " + std::string(fan.model));
    if (is_measured(fan)) add_points(demo, fan, id);
    add_plugs(demo, id, {{"light-5v", fan.light_hundredths_a > 0 ? 1 : 0, fan.light_hundredths_a}});
  }
}

}  // namespace rigproof::demo
