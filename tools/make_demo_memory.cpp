// The demo's memory kits and drives.
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

struct Kit {
  std::string_view maker, series, type;
  int modules, gib, mt_s, clocks, height_mm, euro;
};
// `Low` has bare modules or flat spreaders, `Fin` tall ones.
constexpr Kit kits[] = {
    {"Pellant", "Low", "DDR4", 1, 8, 3200, 22, 31, 25},
    {"Pellant", "Low", "DDR4", 1, 16, 3200, 22, 31, 39},
    {"Pellant", "Low", "DDR4", 2, 8, 3200, 16, 32, 43},
    {"Ullsmoor", "Rib", "DDR4", 2, 8, 3600, 18, 40, 48},
    {"Ullsmoor", "Rib", "DDR4", 2, 16, 3200, 16, 40, 72},
    {"Pellant", "Low", "DDR4", 2, 16, 3600, 18, 34, 77},
    {"Skarnby", "Fin", "DDR4", 2, 16, 3600, 16, 45, 96},
    {"Pellant", "Low", "DDR4", 2, 32, 3200, 16, 34, 132},
    {"Skarnby", "Fin", "DDR4", 2, 32, 3600, 18, 45, 151},
    {"Ullsmoor", "Rib", "DDR4", 4, 16, 3600, 18, 40, 149},
    {"Ullsmoor", "Rib", "DDR4", 4, 32, 3200, 18, 40, 259},
    {"Pellant", "Low", "DDR5", 1, 8, 4800, 40, 31, 34},
    {"Pellant", "Low", "DDR5", 1, 16, 5600, 46, 31, 52},
    {"Pellant", "Low", "DDR5", 1, 32, 5600, 46, 31, 93},
    {"Ullsmoor", "Rib", "DDR5", 2, 8, 5600, 40, 35, 64},
    {"Pellant", "Low", "DDR5", 2, 16, 4800, 40, 31, 86},
    {"Ullsmoor", "Rib", "DDR5", 2, 16, 5600, 36, 35, 95},
    {"Ullsmoor", "Rib", "DDR5", 2, 16, 6000, 36, 35, 99},
    {"Pellant", "Low", "DDR5", 2, 16, 6000, 30, 33, 119},
    {"Skarnby", "Fin", "DDR5", 2, 16, 6000, 30, 44, 112},
    {"Skarnby", "Fin", "DDR5", 2, 16, 6400, 32, 44, 129},
    {"Skarnby", "Fin", "DDR5", 2, 16, 7200, 34, 46, 152},
    {"Skarnby", "Fin", "DDR5", 2, 16, 8000, 38, 51, 194},
    {"Ullsmoor", "Rib", "DDR5", 2, 24, 6000, 36, 35, 143},
    {"Skarnby", "Fin", "DDR5", 2, 24, 6400, 32, 44, 166},
    {"Skarnby", "Fin", "DDR5", 2, 24, 8000, 40, 51, 235},
    {"Pellant", "Low", "DDR5", 2, 32, 5600, 40, 33, 178},
    {"Ullsmoor", "Rib", "DDR5", 2, 32, 6000, 36, 35, 192},
    {"Skarnby", "Fin", "DDR5", 2, 32, 6400, 32, 44, 238},
    {"Ullsmoor", "Rib", "DDR5", 4, 16, 5600, 36, 35, 199},
    {"Pellant", "Low", "DDR4", 2, 8, 2666, 19, 31, 38},
    {"Pellant", "Low", "DDR4", 1, 32, 3200, 22, 32, 74},
    {"Ullsmoor", "Rib", "DDR4", 2, 32, 3600, 18, 40, 146},
    {"Ullsmoor", "Crest", "DDR4", 2, 16, 3600, 18, 52, 69},
    {"Skarnby", "Fin", "DDR4", 2, 8, 4000, 18, 45, 62},
    {"Skarnby", "Fin", "DDR4", 2, 16, 4000, 18, 46, 108},
    {"Dovrelund", "Sheet", "DDR4", 2, 8, 3200, 18, 33, 41},
    {"Dovrelund", "Sheet", "DDR4", 2, 16, 3200, 18, 33, 68},
    {"Dovrelund", "Sheet", "DDR4", 2, 32, 3200, 18, 33, 128},
    {"Dovrelund", "Sheet", "DDR4", 4, 8, 3200, 18, 33, 82},
    {"Pellant", "Low", "DDR5", 2, 8, 5200, 42, 31, 61},
    {"Pellant", "Low", "DDR5", 2, 24, 5600, 40, 33, 136},
    {"Pellant", "Low", "DDR5", 2, 48, 5600, 40, 33, 259},
    {"Ullsmoor", "Rib", "DDR5", 2, 16, 5200, 40, 35, 91},
    {"Ullsmoor", "Rib", "DDR5", 2, 16, 6400, 36, 35, 118},
    {"Ullsmoor", "Rib", "DDR5", 2, 32, 6400, 36, 35, 216},
    {"Ullsmoor", "Rib", "DDR5", 4, 24, 5600, 40, 35, 258},
    // Tall and cheap: the mistake of builds/trap-tall-memory.toml.
    {"Ullsmoor", "Crest", "DDR5", 2, 16, 6000, 30, 53, 84},
    {"Ullsmoor", "Crest", "DDR5", 2, 32, 6000, 30, 53, 189},
    {"Skarnby", "Fin", "DDR5", 2, 32, 6000, 30, 44, 221},
    {"Skarnby", "Fin", "DDR5", 2, 24, 7200, 36, 46, 189},
    {"Skarnby", "Fin", "DDR5", 2, 16, 6000, 36, 44, 104},
    {"Skarnby", "Fin", "DDR5", 2, 8, 6000, 36, 44, 72},
    {"Dovrelund", "Sheet", "DDR5", 2, 8, 4800, 40, 32, 57},
    {"Dovrelund", "Sheet", "DDR5", 2, 16, 5600, 40, 32, 89},
    {"Dovrelund", "Sheet", "DDR5", 2, 16, 6000, 38, 32, 96},
    {"Dovrelund", "Sheet", "DDR5", 2, 24, 6000, 38, 32, 139},
    {"Dovrelund", "Sheet", "DDR5", 2, 32, 5600, 40, 32, 174},
    {"Dovrelund", "Sheet", "DDR5", 2, 32, 6000, 38, 32, 186},
    {"Dovrelund", "Sheet", "DDR5", 1, 16, 5600, 46, 32, 49},
    {"Dovrelund", "Sheet", "DDR5", 1, 24, 5600, 46, 32, 71},
};

struct Drive {
  std::string_view maker, series, mounting, link;
  int generation, lanes, capacity_gb, power_tenths_w, euro;
};
constexpr Drive drives[] = {
    {"Dovrelund", "Pebble", "M.2-2280", "NVMe", 3, 4, 500, 38, 37},
    {"Dovrelund", "Pebble", "M.2-2280", "NVMe", 3, 4, 1000, 42, 56},
    {"Dovrelund", "Pebble", "M.2-2280", "NVMe", 3, 4, 2000, 47, 104},
    {"Dovrelund", "Cobble", "M.2-2280", "NVMe", 4, 4, 500, 46, 44},
    {"Dovrelund", "Cobble", "M.2-2280", "NVMe", 4, 4, 1000, 52, 64},
    {"Dovrelund", "Cobble", "M.2-2280", "NVMe", 4, 4, 2000, 58, 112},
    {"Dovrelund", "Cobble", "M.2-2280", "NVMe", 4, 4, 4000, 65, 229},
    {"Pellant", "Shale", "M.2-2280", "NVMe", 4, 4, 1000, 68, 79},
    {"Pellant", "Shale", "M.2-2280", "NVMe", 4, 4, 2000, 73, 139},
    {"Pellant", "Shale", "M.2-2280", "NVMe", 4, 4, 4000, 79, 265},
    {"Pellant", "Flint", "M.2-2280", "NVMe", 5, 4, 1000, 98, 124},
    {"Pellant", "Flint", "M.2-2280", "NVMe", 5, 4, 2000, 108, 209},
    {"Skarnby", "Limpet", "M.2-2230", "NVMe", 4, 4, 1000, 45, 88},
    {"Skarnby", "Limpet", "M.2-2242", "NVMe", 4, 4, 1000, 45, 82},
    {"Skarnby", "Mussel", "M.2-2280", "SATA", 0, 0, 500, 25, 41},
    {"Skarnby", "Mussel", "M.2-2280", "SATA", 0, 0, 1000, 28, 67},
    {"Dovrelund", "Boulder", "M.2-22110", "NVMe", 4, 4, 4000, 92, 299},
    {"Pellant", "Slate", "bay-2.5", "SATA", 0, 0, 500, 25, 38},
    {"Pellant", "Slate", "bay-2.5", "SATA", 0, 0, 1000, 28, 62},
    {"Pellant", "Slate", "bay-2.5", "SATA", 0, 0, 2000, 31, 116},
    {"Pellant", "Slate", "bay-2.5", "SATA", 0, 0, 4000, 35, 232},
    {"Wherrymont", "Granary", "bay-3.5", "SATA", 0, 0, 4000, 65, 128},
    {"Wherrymont", "Granary", "bay-3.5", "SATA", 0, 0, 6000, 74, 159},
    {"Wherrymont", "Granary", "bay-3.5", "SATA", 0, 0, 8000, 88, 192},
    {"Wherrymont", "Granary", "bay-3.5", "SATA", 0, 0, 12000, 96, 269},
    {"Dovrelund", "Pebble", "M.2-2280", "NVMe", 3, 4, 4000, 55, 209},
    {"Pellant", "Shale", "M.2-2280", "NVMe", 4, 4, 500, 61, 52},
    {"Pellant", "Flint", "M.2-2280", "NVMe", 5, 4, 4000, 118, 298},
    {"Skarnby", "Limpet", "M.2-2230", "NVMe", 4, 4, 500, 41, 61},
    {"Skarnby", "Limpet", "M.2-2230", "NVMe", 4, 4, 2000, 49, 159},
    {"Skarnby", "Limpet", "M.2-2242", "NVMe", 4, 4, 2000, 49, 149},
    {"Skarnby", "Mussel", "M.2-2280", "SATA", 0, 0, 2000, 31, 122},
    {"Wherrymont", "Chaff", "M.2-2280", "NVMe", 4, 2, 1000, 36, 36},
    {"Wherrymont", "Chaff", "M.2-2280", "NVMe", 4, 2, 2000, 39, 99},
    {"Wherrymont", "Chaff", "M.2-2280", "NVMe", 4, 2, 500, 34, 39},
    {"Wherrymont", "Granary", "bay-3.5", "SATA", 0, 0, 2000, 58, 74},
    {"Wherrymont", "Granary", "bay-3.5", "SATA", 0, 0, 10000, 93, 236},
    {"Dovrelund", "Gravel", "bay-2.5", "SATA", 0, 0, 1000, 27, 58},
    {"Dovrelund", "Gravel", "bay-2.5", "SATA", 0, 0, 2000, 30, 109},
    {"Dovrelund", "Boulder", "M.2-22110", "NVMe", 4, 4, 2000, 88, 172},
};

consteval ColumnId kit_in(std::string_view name) { return column("memory", name); }
consteval ColumnId drive_in(std::string_view name) { return column("storage", name); }

// Two watts a module, more with size and with speed above the generation's first.
int kit_power_tenths(const Kit& kit) {
  const int first_mt_s = kit.type == "DDR4" ? 3200 : 4800;
  const int faster_mt_s = kit.mt_s > first_mt_s ? kit.mt_s - first_mt_s : 0;
  return kit.modules * (20 + kit.gib * 5 / 8 + faster_mt_s * 8 / 1000);
}

// Small modules grow hot by little power; the shell of a bay drive spreads it.
std::int64_t drive_rise_k(const Drive& drive) {
  const bool module = drive.mounting.starts_with("M.2");
  return divide_rounded(std::int64_t{drive.power_tenths_w} * (module ? 4 : 2), 10) +
         (module ? 8 : 4);
}

}  // namespace

void add_memory(Demo& demo) {
  for (const Kit& kit : kits) {
    const std::string model = std::string(kit.series) + " " + std::string(kit.type) + " " +
                              std::to_string(kit.modules) + "x" + std::to_string(kit.gib) + " " +
                              std::to_string(kit.mt_s) + " CL" + std::to_string(kit.clocks);
    Line line = demo.part(Kind::memory, kit.maker, model, kit.euro);
    line.text(kit_in("memory_type"), kit.type)
        .whole(kit_in("modules"), kit.modules)
        .whole(kit_in("module_gib"), kit.gib)
        .whole(kit_in("speed_mt_s"), kit.mt_s)
        .whole(kit_in("latency_clocks"), kit.clocks)
        .whole(kit_in("height_mm"), kit.height_mm)
        .decimal(kit_in("power_w"), tenths(kit_power_tenths(kit)));
    demo.add(table("memory"), line);
  }
}

void add_storage(Demo& demo) {
  for (const Drive& drive : drives) {
    const std::string size = drive.capacity_gb < 1000
                                 ? std::to_string(drive.capacity_gb) + " GB"
                                 : std::to_string(drive.capacity_gb / 1000) + " TB";
    const bool short_module = drive.mounting == "M.2-2230" || drive.mounting == "M.2-2242";
    const std::string shape = short_module ? " " + std::string(drive.mounting.substr(4)) : "";
    std::string model(drive.series);
    model.append(shape).append(" ").append(size);
    Line line = demo.part(Kind::storage, drive.maker, model, drive.euro);
    line.text(drive_in("mounting"), drive.mounting)
        .text(drive_in("link"), drive.link)
        .whole(drive_in("capacity_gb"), drive.capacity_gb)
        .decimal(drive_in("power_w"), tenths(drive.power_tenths_w))
        .whole(drive_in("rise_k"), drive_rise_k(drive));
    if (drive.generation > 0) {
      line.whole(drive_in("pcie_generation"), drive.generation)
          .whole(drive_in("pcie_lanes"), drive.lanes);
    }
    demo.add(table("storage"), line);
  }
}

}  // namespace rigproof::demo
