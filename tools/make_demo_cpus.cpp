// The demo's processors: two makers, three sockets. In a name, `Depot` has the large cache, `Calm`
// the low power limit, `Vista` a graphics unit where the family has none, `Bare` none where it has
// one.
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("cpu", name); }

struct Family {
  std::string_view maker, socket, memory_types;
  int memory_max_mt_s, memory_max_gib;
  int pcie_generation;  // of the lanes it gives to the card
};
constexpr Family larch_1{"Orrvane", "V3", "DDR4", 2933, 128, 3};
constexpr Family larch_2{"Orrvane", "V3", "DDR4", 3200, 128, 4};
constexpr Family rowan_3{"Orrvane", "V4", "DDR5", 5200, 192, 5};
constexpr Family rowan_4{"Orrvane", "V4", "DDR5", 5600, 256, 5};
constexpr Family rondo_1{"Thessic", "Q6", "DDR4|DDR5", 4800, 128, 5};
constexpr Family rondo_2{"Thessic", "Q6", "DDR4|DDR5", 5600, 192, 5};
constexpr Family rowan_5{"Orrvane", "V4", "DDR5", 6000, 256, 5};
constexpr Family rondo_3{"Thessic", "Q6", "DDR5", 6400, 192, 5};

struct Cpu {
  const Family* family;
  std::string_view model;
  int cores, sustained_w, peak_w, title_w;
  bool picture;
  int speed_hundredths, euro;
};

// Games follow clock and cache more than cores: the many-core parts are poor deals here.
constexpr Cpu cpus[] = {
    {&larch_1, "Larch 14", 4, 58, 72, 45, false, 45, 85},
    {&larch_1, "Larch 14 Vista", 4, 58, 70, 44, true, 47, 98},
    {&larch_1, "Larch 16", 6, 65, 88, 57, false, 60, 104},
    {&larch_1, "Larch 16 Vista", 6, 65, 84, 55, true, 58, 121},
    {&larch_1, "Larch 18", 8, 88, 105, 66, false, 64, 142},
    {&larch_2, "Larch 26", 6, 76, 90, 60, false, 76, 129},
    {&larch_2, "Larch 26 Depot", 6, 80, 98, 60, false, 98, 205},
    {&larch_2, "Larch 28", 8, 105, 142, 78, false, 80, 176},
    {&larch_2, "Larch 28 Calm", 8, 65, 88, 60, false, 77, 168},
    {&larch_2, "Larch 28 Depot", 8, 95, 112, 68, false, 106, 269},
    {&larch_2, "Larch 212", 12, 142, 150, 92, false, 81, 262},
    {&larch_2, "Larch 216", 16, 142, 160, 98, false, 82, 349},
    {&rowan_3, "Rowan 36 Bare", 6, 72, 88, 60, false, 93, 155},
    {&rowan_3, "Rowan 36", 6, 78, 92, 62, true, 95, 178},
    {&rowan_3, "Rowan 36 Calm", 6, 58, 76, 52, true, 91, 172},
    {&rowan_3, "Rowan 38", 8, 105, 140, 78, true, 100, 252},
    {&rowan_3, "Rowan 38 Depot", 8, 98, 120, 66, true, 138, 365},
    {&rowan_3, "Rowan 312", 12, 150, 170, 98, true, 104, 338},
    {&rowan_3, "Rowan 316", 16, 170, 215, 115, true, 107, 468},
    {&rowan_4, "Rowan 46 Bare", 6, 72, 90, 60, false, 108, 188},
    {&rowan_4, "Rowan 46", 6, 72, 90, 60, true, 110, 209},
    {&rowan_4, "Rowan 46 Depot", 6, 82, 104, 64, true, 152, 345},
    {&rowan_4, "Rowan 48", 8, 95, 125, 72, true, 115, 298},
    {&rowan_4, "Rowan 48 Calm", 8, 65, 88, 60, true, 112, 289},
    {&rowan_4, "Rowan 48 Depot", 8, 105, 135, 74, true, 178, 478},
    {&rowan_4, "Rowan 412", 12, 125, 165, 90, true, 118, 425},
    {&rowan_4, "Rowan 416", 16, 170, 210, 112, true, 122, 559},
    {&rowan_4, "Rowan 416 Depot", 16, 170, 220, 110, true, 190, 649},
    {&rondo_1, "Rondo 104 Bare", 4, 60, 89, 48, false, 62, 89},
    {&rondo_1, "Rondo 104", 4, 60, 89, 48, true, 62, 99},
    {&rondo_1, "Rondo 106 Bare", 6, 65, 117, 62, false, 84, 128},
    {&rondo_1, "Rondo 106", 6, 65, 117, 62, true, 84, 146},
    {&rondo_1, "Rondo 110", 10, 125, 150, 84, true, 96, 219},
    {&rondo_1, "Rondo 112", 12, 125, 190, 98, true, 104, 275},
    {&rondo_1, "Rondo 116", 16, 181, 241, 118, true, 112, 342},
    {&rondo_2, "Rondo 210 Bare", 10, 65, 148, 68, false, 101, 182},
    {&rondo_2, "Rondo 210", 10, 65, 148, 68, true, 101, 199},
    {&rondo_2, "Rondo 214 Bare", 14, 159, 181, 104, false, 120, 264},
    {&rondo_2, "Rondo 214", 14, 159, 181, 104, true, 120, 289},
    {&rondo_2, "Rondo 220", 20, 200, 253, 128, true, 132, 389},
    {&rondo_2, "Rondo 224", 24, 253, 300, 150, true, 140, 529},
    {&larch_2, "Larch 24", 4, 60, 75, 46, false, 60, 92},
    {&larch_2, "Larch 26 Vista", 6, 62, 82, 54, true, 70, 138},
    {&larch_2, "Larch 28 Vista", 8, 65, 88, 58, true, 74, 186},
    {&larch_2, "Larch 26 Calm", 6, 58, 76, 50, false, 74, 134},
    {&rowan_3, "Rowan 36 Depot", 6, 82, 102, 62, true, 130, 289},
    {&rowan_3, "Rowan 38 Calm", 8, 65, 88, 60, true, 97, 239},
    {&rowan_4, "Rowan 46 Calm", 6, 58, 78, 52, true, 107, 205},
    {&rowan_4, "Rowan 48 Bare", 8, 95, 122, 72, false, 114, 272},
    {&rowan_4, "Rowan 412 Calm", 12, 88, 118, 76, true, 115, 415},
    {&rowan_5, "Rowan 56", 6, 78, 98, 64, true, 126, 249},
    {&rowan_5, "Rowan 58", 8, 105, 138, 76, true, 132, 345},
    {&rowan_5, "Rowan 58 Depot", 8, 112, 145, 78, true, 196, 569},
    {&rondo_1, "Rondo 106 Calm", 6, 58, 92, 52, true, 80, 142},
    {&rondo_1, "Rondo 110 Bare", 10, 125, 150, 84, false, 96, 198},
    {&rondo_2, "Rondo 204", 4, 60, 89, 48, true, 72, 118},
    {&rondo_2, "Rondo 206 Bare", 6, 65, 120, 60, false, 92, 149},
    {&rondo_2, "Rondo 206", 6, 65, 120, 60, true, 92, 165},
    {&rondo_2, "Rondo 214 Calm", 14, 65, 140, 66, true, 110, 279},
    {&rondo_2, "Rondo 220 Bare", 20, 200, 253, 128, false, 132, 366},
    {&rondo_3, "Rondo 306", 6, 78, 121, 62, true, 110, 214},
    {&rondo_3, "Rondo 310", 10, 105, 159, 80, true, 124, 312},
    {&rondo_3, "Rondo 314", 14, 125, 177, 98, true, 133, 388},
    {&rondo_3, "Rondo 320", 20, 190, 250, 124, true, 146, 545},
};

bool model_has(const Cpu& cpu, std::string_view word) {
  return cpu.model.find(word) != std::string_view::npos;
}

}  // namespace

void add_cpus(Demo& demo) {
  for (const Cpu& cpu : cpus) {
    Line line = demo.part(Kind::cpu, cpu.family->maker, cpu.model, cpu.euro);
    line.text(in("socket"), cpu.family->socket)
        .text(in("memory_types"), cpu.family->memory_types)
        .whole(in("memory_max_mt_s"), cpu.family->memory_max_mt_s)
        .whole(in("memory_max_gib"), cpu.family->memory_max_gib)
        .whole(in("memory_channels"), 2)
        // A chip that shares its room with a graphics unit has the older lanes.
        .whole(in("pcie_generation"), model_has(cpu, "Vista") ? 3 : cpu.family->pcie_generation)
        .whole(in("cores"), cpu.cores)
        .whole(in("idle_power_w"), 6 + cpu.sustained_w / 12)
        .whole(in("limit_c"), cpu.family->maker == "Thessic" ? 100 : 95)
        .whole(in("sustained_power_w"), cpu.sustained_w)
        .whole(in("peak_power_w"), cpu.peak_w)
        .whole(in("title_power_w"), cpu.title_w)
        .flag(in("picture"), cpu.picture)
        .decimal(in("frame_speed"), hundredths(cpu.speed_hundredths));
    demo.add(table("cpu"), line);
  }
}

}  // namespace rigproof::demo
