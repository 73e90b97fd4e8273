// The demo's displays, other parts and titles.
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId screen(std::string_view name) { return column("display", name); }
consteval ColumnId other(std::string_view name) { return column("other", name); }
consteval ColumnId in(std::string_view name) { return column("titles", name); }

struct Display {
  std::string_view model;
  int width_px, height_px, refresh_hz, euro;
};
constexpr Display displays[] = {
    {"Pane 24 Quick", 1920, 1080, 240, 219}, {"Pane 25 Quickest", 1920, 1080, 500, 549},
    {"Pane 27", 2560, 1440, 165, 249},       {"Pane 27 Quick", 2560, 1440, 360, 629},
    {"Pane 32 Sharp", 3840, 2160, 144, 579}, {"Pane 43 Room", 3840, 2160, 60, 399},
};

struct Other {
  std::string_view maker, model, what;
  int power_tenths_w, euro;
};
constexpr Other others[] = {
    {"Skarnby", "Curlew radio card", "wifi-card", 35, 29},
    {"Brantoak", "Card Stay", "bracket", 0, 12},
    {"Fjellum", "Six-fan hub", "hub", 4, 16},
    {"Grenwick", "12V-2x6 tail from two pcie8", "adapter", 0, 19},
    {"Brisvind", "Grey paste 3 g", "paste", 0, 8},
    {"Lantern & Loom", "Hearthside system licence", "licence", 0, 119},
};

// Milliseconds, gigabytes and the like in thousandths, on the reference processor (1.0) and card
// (1.0).
struct Title {
  std::string_view id, name;
  int cpu, memory_share, cpu_log_sd;
  int raster, raster_mpix, ray, ray_mpix, traffic, traffic_mpix;
  int gpu_log_sd, correlation, upscale_mpix, generate, cap_fps;
  int memory_gib, memory_gib_mpix;
  int low_mpix, high_mpix;
};
// clang-format off: a row a title
constexpr Title titles[] = {
    {"slow-tide", "Slow Tide (walking story; everything on)", 5800, 140, 110, 1200, 1950, 400, 240,
     140, 340, 100, 250, 85, 1100, 0, 3400, 430, 900, 9000},
    {"gravel-nine", "Gravel Nine (rally; high, no mirrors)", 6300, 180, 120, 1400, 1420, 0, 0, 110,
     260, 110, 200, 80, 900, 0, 3200, 380, 900, 9000},
    {"ricochet-parish", "Ricochet Parish (arena shooter; competition)", 2700, 320, 170, 700, 800,
     0, 0, 80, 130, 150, 350, 60, 700, 500, 1800, 210, 900, 5200},
    {"wide-fallow", "Wide Fallow (open world; high with rays)", 8400, 220, 160, 2200, 1980, 1200,
     700, 300, 340, 130, 300, 120, 1400, 0, 5600, 720, 900, 9000},
    {"ten-thousand-chimneys", "Ten Thousand Chimneys (city builder; large city)", 12000, 350, 200,
     1600, 1180, 0, 0, 190, 200, 90, 150, 80, 1000, 0, 3900, 310, 900, 9000},
    {"thermal-lines", "Thermal Lines (gliding; far view)", 9400, 260, 140, 1800, 1650, 0, 0, 290,
     290, 100, 400, 90, 1100, 0, 4800, 590, 900, 9000},
    {"button-thieves", "Button Thieves (platformer for two; full)", 4400, 100, 80, 800, 940, 0, 0,
     80, 190, 80, 100, 60, 800, 240, 1700, 190, 900, 9000},
    {"kilnlight-viewport", "Kilnlight (program for lighting scenes; moving viewport)", 5000, 150,
     130, 900, 780, 2400, 1550, 190, 290, 250, 500, 0, 0, 0, 6400, 850, 900, 8500},

};
// clang-format on

}  // namespace

void add_displays_and_others(Demo& demo) {
  for (const Display& display : displays) {
    Line line = demo.part(Kind::display, "Lumvar", display.model, display.euro);
    line.whole(screen("width_px"), display.width_px)
        .whole(screen("height_px"), display.height_px)
        .whole(screen("refresh_hz"), display.refresh_hz);
    demo.add(table("display"), line);
  }
  for (const Other& thing : others) {
    Line line = demo.part(Kind::other, thing.maker, thing.model, thing.euro);
    line.text(other("what"), thing.what).decimal(other("power_w"), tenths(thing.power_tenths_w));
    demo.add(table("other"), line);
  }
}

void add_titles(Demo& demo) {
  for (const Title& title : titles) {
    Line line(table("titles"));
    line.text(in("id"), title.id).text(in("name"), title.name);
    const std::pair<ColumnId, int> cells[] = {
        {in("cpu_ms"), title.cpu},
        {in("memory_share_frac"), title.memory_share},
        {in("cpu_log_sd"), title.cpu_log_sd},
        {in("raster_ms"), title.raster},
        {in("raster_ms_per_mpix"), title.raster_mpix},
        {in("ray_ms"), title.ray},
        {in("ray_ms_per_mpix"), title.ray_mpix},
        {in("traffic_gb"), title.traffic},
        {in("traffic_gb_per_mpix"), title.traffic_mpix},
        {in("gpu_log_sd"), title.gpu_log_sd},
        {in("stage_correlation"), title.correlation},
        {in("video_memory_gib"), title.memory_gib},
        {in("video_memory_gib_per_mpix"), title.memory_gib_mpix},
        {in("megapixels_low"), title.low_mpix},
        {in("megapixels_high"), title.high_mpix},
    };
    for (const auto& [column, value] : cells) line.decimal(column, thousandths(value));
    // A program that does neither has these two unknown, not free of cost.
    if (title.upscale_mpix > 0)
      line.decimal(in("upscale_ms_per_mpix"), thousandths(title.upscale_mpix));
    if (title.generate > 0) line.decimal(in("generate_ms"), thousandths(title.generate));
    if (title.cap_fps > 0) line.whole(in("cap_fps"), title.cap_fps);
    demo.add(table("titles"), line);
  }
}

}  // namespace rigproof::demo
