// What is deliberately missing from the demo's tables, and where its cells come from.
#include "base/contract.hpp"
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("provenance", name); }

constexpr std::string_view source = "tools/make_demo: invented for the demo, nothing is measured";

struct Spread {
  ColumnId cell;
  std::string_view row;
  Decimal half_width;
};
// Cells the workshop trusts more or less than their column's usual tolerance.
constexpr Spread spreads[] = {
    {column("cpu", "frame_speed"), "orrvane-rowan-48-depot", {4, 2}},
    {column("cpu", "frame_speed"), "orrvane-rowan-46-depot", {14, 2}},
    {column("cpu", "frame_speed"), "thessic-rondo-220", {11, 2}},
    {column("cpu", "sustained_power_w"), "thessic-rondo-116", {15, 0}},
    {column("gpu", "raster_speed"), "nimbeck-alcove-dunlin-6", {2, 2}},
    {column("gpu", "raster_speed"), "brantoak-bough-marl-40", {15, 2}},
    {column("gpu", "ray_speed"), "thessic-quarto-quill-2", {15, 2}},
    {column("gpu", "length_mm"), "wendrake-long-glide-gannet-7", {6, 0}},
    {column("gpu", "sustained_power_w"), "brantoak-crown-basalt-30", {18, 0}},
    {column("cooler", "rated_heat_w"), "wexcombe-twin-post", {25, 0}},
    {column("cooler", "rated_heat_w"), "wexcombe-brook-240", {30, 0}},
    {column("cooler", "height_mm"), "nordvane-stave-140", {3, 0}},
    {column("case_clearances", "by_mm"), "kolbrand-breadbin-28/card-length/always", {5, 0}},
    {column("case_clearances", "by_mm"), "harrowdene-larder-20/cooler-height/always", {2, 0}},
    {column("titles", "cpu_ms"), "ten-thousand-chimneys", {6, 1}},
    {column("titles", "raster_ms_per_mpix"), "wide-fallow", {8, 2}},
};

Line origin(std::string_view table_name, std::string_view row, std::string_view column_name) {
  Line line(table("provenance"));
  line.text(in("table"), table_name)
      .text(in("row"), row)
      .text(in("column"), column_name)
      .text(in("source"), source)
      .text(in("seen"), "2026-10-01")
      .text(in("method"), "invented");
  return line;
}

}  // namespace

// A catalog kept by people has holes: a data sheet that was never printed, a market-stall card of
// which little is known, a case nobody has put a ruler to.
void add_holes(Demo& demo) {
  demo.forget(column("gpu", "slot_power_w"), "wendrake-glide-dunlin-3");
  demo.forget(column("gpu", "slot_power_w"), "brantoak-crown-quill-2");
  demo.forget(column("gpu", "height_mm"), "pollwright-beam-basalt-40");
  demo.forget(column("cpu", "title_power_w"), "orrvane-larch-18");
  demo.forget(column("cpu", "peak_power_w"), "thessic-rondo-112");
  demo.forget(column("board", "power_w"), "wendrake-sedge-v4");
  demo.forget(column("board", "cpu_sustained_w"), "wendrake-reed-q6-d4-micro");
  demo.forget(column("memory", "height_mm"), "ullsmoor-rib-ddr4-4x32-3200-cl18");
  demo.forget(column("memory", "power_w"), "pellant-low-ddr5-1x8-4800-cl40");
  demo.forget(column("storage", "power_w"), "dovrelund-pebble-500-gb");
  demo.forget(column("cooler", "rated_heat_w"), "wexcombe-post-120-old");
  demo.forget(column("cooler", "fan_thickness_mm"), "wexcombe-brook-360");
  demo.forget(column("psu", "edition"), "tollard-ration-400");
  demo.forget(column("fan", "pressure_pa"), "wexcombe-gust-92");
  for (const ColumnId column : {column("gpu", "length_mm"), column("gpu", "height_mm"),
                                column("gpu", "thickness_mm"), column("gpu", "slot_power_w"),
                                column("gpu", "supply_advice_w"), column("gpu", "maker_code")})
    demo.forget(column, "brantoak-acorn-quill-1");
  demo.forget_rows(table("gpu_inputs"), "brantoak-acorn-quill-1");
  demo.forget_rows(table("gpu_outputs"), "brantoak-acorn-quill-1");
  demo.forget_rows(table("case_clearances"), "kolbrand-plinth-36");
  // builds/trap-half-empty.toml: a bargain of which half the cells are empty.
  for (const ColumnId column :
       {column("gpu", "maker_code"), column("gpu", "length_mm"), column("gpu", "height_mm"),
        column("gpu", "thickness_mm"), column("gpu", "slots"), column("gpu", "plug_side"),
        column("gpu", "plug_bend_mm"), column("gpu", "pcie_lanes"), column("gpu", "slot_power_w"),
        column("gpu", "supply_advice_w")})
    demo.forget(column, "skarnby-cove-marl-50");
  demo.forget_rows(table("gpu_inputs"), "skarnby-cove-marl-50");
  demo.forget_rows(table("gpu_outputs"), "skarnby-cove-marl-50");
  demo.forget(column("board", "memory_fill_order"), "skarnby-ebb-v3-micro");
  demo.forget(column("board", "firmware_shipped_first"), "wendrake-reed-v4");
  demo.forget(column("board", "flash_without_cpu"), "pollwright-joist-q6-d5-wifi");
  demo.forget(column("cooler", "memory_clearance_mm"), "fjellum-shelf-66");
  demo.forget(column("fan", "current_a"), "lumvar-glow-120");
  demo.forget(column("gpu", "plug_bend_mm"), "thessic-quarto-quill-3");
  demo.forget_rows(table("board_headers"), "quernholt-rill-v3-micro");
  demo.forget_rows(table("cpu_support"), "wendrake-reed-v3-micro");
  demo.forget_rows(table("board_firmware"), "wendrake-reed-v3-micro");
  demo.forget_rows(table("part_headers"), "wexcombe-trunk-44");
}

void add_provenance(Demo& demo) {
  for (int t = 0; t < schema::table_count; ++t)
    if (t != table("provenance")) demo.add(table("provenance"), origin(spec(t).name, "*", "*"));
  for (const Spread& spread : spreads) {
    Line line = origin(spec(spread.cell.table).name, spread.row, spec(spread.cell).name);
    line.decimal(in("plus_minus"), spread.half_width);
    demo.add(table("provenance"), line);
  }
}

}  // namespace rigproof::demo
