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
  int fan_mm, fan_thickness_mm, fans, power_tenths_w;
  int radiator_mm, radiator_thickness_mm;  // 0: an air cooler
  int euro;
};
constexpr Cooler coolers[] = {
    // In the box of a processor; a cooler of zero price.
    {"Orrvane", "boxed flat", "V3|V4", 54, 68, 92, 15, 1, 15, 0, 0, 0},
    {"Orrvane", "boxed tall", "V3|V4", 72, 105, 92, 25, 1, 22, 0, 0, 0},
    {"Thessic", "boxed flat", "Q6", 47, 70, 80, 15, 1, 15, 0, 0, 0},
    {"Thessic", "boxed tall", "Q6", 69, 92, 92, 20, 1, 20, 0, 0, 0},
    // Flat.
    {"Brisvind", "Plover 37", "V3|V4|Q6", 37, 72, 92, 15, 1, 16, 0, 0, 42},
    {"Brisvind", "Plover 47", "V3|V4|Q6", 47, 95, 92, 15, 1, 17, 0, 0, 46},
    {"Fjellum", "Shelf 55", "V3|V4|Q6", 55, 102, 120, 15, 1, 18, 0, 0, 44},
    {"Fjellum", "Shelf 66", "V4|Q6", 66, 130, 120, 15, 1, 20, 0, 0, 62},
    {"Brisvind", "Plover 70", "V3|V4|Q6", 70, 140, 120, 25, 1, 22, 0, 0, 69},
    {"Wexcombe", "Saucer", "V3|Q6", 62, 88, 92, 25, 1, 21, 0, 0, 19},
    // Towers.
    {"Wexcombe", "Post 92", "V3|V4|Q6", 125, 125, 92, 25, 1, 21, 0, 0, 22},
    {"Brisvind", "Heron 92", "V3|V4|Q6", 135, 140, 92, 25, 2, 36, 0, 0, 52},
    {"Wexcombe", "Post 120", "V3|V4|Q6", 152, 150, 120, 25, 1, 24, 0, 0, 25},
    {"Wexcombe", "Post 120 Old", "V3|Q6", 155, 140, 120, 25, 1, 26, 0, 0, 17},
    {"Fjellum", "Pillar", "V3|V4|Q6", 155, 180, 120, 25, 1, 22, 0, 0, 36},
    {"Fjellum", "Pillar Pair", "V3|V4|Q6", 155, 195, 120, 25, 2, 42, 0, 0, 45},
    {"Brisvind", "Heron 120", "V3|V4|Q6", 158, 185, 120, 25, 1, 14, 0, 0, 59},
    {"Nordvane", "Stave 120", "V3|V4|Q6", 149, 170, 120, 25, 1, 23, 0, 0, 33},
    {"Nordvane", "Stave 120 Short", "V4|Q6", 138, 150, 120, 25, 1, 23, 0, 0, 38},
    {"Fjellum", "Gatepost", "V3|V4|Q6", 157, 230, 120, 25, 2, 44, 0, 0, 62},
    {"Wexcombe", "Twin Post", "V3|V4|Q6", 156, 220, 120, 25, 2, 50, 0, 0, 43},
    {"Nordvane", "Stave 140", "V3|V4|Q6", 163, 235, 140, 25, 1, 24, 0, 0, 68},
    {"Brisvind", "Crane 140", "V3|V4|Q6", 165, 260, 140, 25, 2, 32, 0, 0, 112},
    {"Fjellum", "Gatehouse", "V3|V4|Q6", 168, 270, 140, 25, 2, 48, 0, 0, 92},
    {"Nordvane", "Barrel", "V3|V4|Q6", 160, 245, 120, 28, 2, 47, 0, 0, 74},
    // Closed loops; the height is the pump block's.
    {"Wexcombe", "Brook 240", "V3|V4|Q6", 52, 240, 120, 25, 2, 92, 240, 27, 75},
    {"Tidewell", "Culvert 240", "V3|V4|Q6", 55, 260, 120, 25, 2, 105, 240, 27, 96},
    {"Tidewell", "Culvert 240 Deep", "V4|Q6", 58, 285, 120, 25, 2, 110, 240, 38, 119},
    {"Fjellum", "Sluice 240", "V4|Q6", 50, 255, 120, 25, 2, 80, 240, 30, 109},
    {"Tidewell", "Culvert 280", "V3|V4|Q6", 55, 290, 140, 25, 2, 112, 280, 27, 118},
    {"Fjellum", "Sluice 280", "V4|Q6", 50, 300, 140, 28, 2, 90, 280, 30, 139},
    {"Wexcombe", "Brook 360", "V3|V4|Q6", 52, 320, 120, 25, 3, 120, 360, 27, 99},
    {"Tidewell", "Culvert 360", "V3|V4|Q6", 55, 340, 120, 25, 3, 138, 360, 27, 129},
    {"Tidewell", "Culvert 360 Deep", "V4|Q6", 58, 375, 120, 25, 3, 145, 360, 38, 169},
    {"Fjellum", "Sluice 360", "V4|Q6", 50, 350, 120, 28, 3, 110, 360, 30, 179},
};

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
};

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
        .decimal(in("power_w"), tenths(cooler.power_tenths_w));
    if (liquid) {
      line.whole(in("radiator_mm"), cooler.radiator_mm)
          .whole(in("radiator_thickness_mm"), cooler.radiator_thickness_mm);
    }
    demo.add(table("cooler"), line);
    add_sockets(demo, slug(std::string(cooler.maker) + " " + std::string(cooler.model)),
                cooler.sockets);
  }
}

void add_fans(Demo& demo) {
  for (const Fan& fan : fans) {
    Line line = demo.part(Kind::fan, fan.maker, fan.model, fan.euro);
    line.whole(fan_in("size_mm"), fan.size_mm)
        .whole(fan_in("thickness_mm"), fan.thickness_mm)
        .decimal(fan_in("current_a"), hundredths(fan.current_hundredths_a))
        .whole(fan_in("speed_rpm"), fan.speed_rpm)
        .decimal(fan_in("flow_m3_h"), tenths(fan.flow_tenths_m3_h))
        .decimal(fan_in("pressure_pa"), tenths(fan.pressure_tenths_pa));
    demo.add(table("fan"), line);
  }
}

}  // namespace rigproof::demo
