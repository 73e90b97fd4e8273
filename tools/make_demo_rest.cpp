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
  std::string_view display_port;
  bool compression;
  int bits = 0;  // 0: not stated, which means 8
};
constexpr Display displays[] = {
    {"Pane 24 Quick", 1920, 1080, 240, 219, "DisplayPort-1.4", false},
    {"Pane 25 Quickest", 1920, 1080, 500, 549, "DisplayPort-1.4", true},
    {"Pane 27", 2560, 1440, 165, 249, "DisplayPort-1.4", false},
    {"Pane 27 Quick", 2560, 1440, 360, 629, "DisplayPort-1.4", true},
    {"Pane 32 Sharp", 3840, 2160, 144, 579, "DisplayPort-1.4", true, 10},
    {"Pane 43 Room", 3840, 2160, 60, 399, "DisplayPort-1.4", false},
    {"Pane 22", 1920, 1080, 75, 99, "DisplayPort-1.4", false},
    {"Pane 24", 1920, 1080, 144, 139, "DisplayPort-1.4", false},
    {"Pane 27 Plain", 2560, 1440, 100, 199, "DisplayPort-1.4", false},
    {"Pane 27 Sharp", 3840, 2160, 160, 489, "DisplayPort-1.4", true, 10},
    {"Pane 32 Quick", 3840, 2160, 240, 899, "DisplayPort-2.1-UHBR13.5", true, 10},
    {"Pane 34 Wide", 3440, 1440, 180, 429, "DisplayPort-1.4", true, 10},
    {"Pane 49 Wide", 5120, 1440, 144, 989, "DisplayPort-1.4", true, 10},
    {"Pane 40 Wide", 5120, 2160, 75, 849, "DisplayPort-1.4", true, 10},
};

struct Other {
  std::string_view maker, model, what;
  int power_tenths_w, euro;
  std::string_view slot = "none";
  std::string_view cable_family = "";
  // A relation's row: an adapter's, a cable set's, a hub's or a mounting set's (see add_relation).
  std::string_view takes = "", gives = "";
  int takes_count = 0, gives_count = 0;
  int hundredths_a = 0;
};
constexpr Other others[] = {
    {"Skarnby", "Curlew radio card", "wifi-card", 35, 29, "x1"},
    {"Brantoak", "Card Stay", "bracket", 0, 12},
    {"Fjellum", "Six-fan hub", "hub", 4, 16, "none", "", "", "fan", 0, 6, 450},
    {"Grenwick", "12V-2x6 tail from two pcie8", "adapter", 0, 19, "none", "", "pcie8", "12v-2x6", 2,
     1},
    {"Brisvind", "Grey paste 3 g", "paste", 0, 8},
    {"Lantern & Loom", "Hearthside system licence", "licence", 0, 119},
    {"Skarnby", "Plover radio card", "wifi-card", 28, 22, "x1"},
    {"Nimbeck", "Attic radio card", "wifi-card", 42, 44, "x1"},
    {"Wendrake", "Reed radio card", "wifi-card", 30, 25, "x1"},
    {"Quernholt", "Mast radio card", "wifi-card", 38, 37, "x1"},
    {"Pollwright", "Gable radio card", "wifi-card", 33, 32, "x1"},
    {"Fjellum", "Ten-fan hub", "hub", 6, 24, "none", "", "", "fan", 0, 10, 450},
    {"Wexcombe", "Four-fan hub", "hub", 3, 9, "none", "", "", "fan", 0, 4, 300},
    {"Tidewell", "Six-light hub", "hub", 5, 18, "none", "", "", "light-5v", 0, 6, 450},
    {"Lumvar", "Four-port plug hub", "hub", 5, 14, "none", "", "", "usb2", 0, 4},
    {"Grenwick", "eps8 tail from two pcie8", "adapter", 0, 15, "none", "", "pcie8", "eps8", 2, 1},
    {"Tollard", "pcie6 tail from two peripheral4", "adapter", 0, 6, "none", "", "peripheral4",
     "pcie6", 2, 1},
    {"Tollard", "sata pair from peripheral4", "adapter", 0, 5, "none", "", "peripheral4", "sata", 1,
     2},
    {"Grenwick", "Kettle card cable", "cable-set", 0, 14, "none", "kettle-2", "", "pcie8", 0, 1},
    {"Grenwick", "Kettle wide cable", "cable-set", 0, 24, "none", "kettle-2", "", "12v-2x6", 0, 1},
    {"Grenwick", "Kettle drive cable", "cable-set", 0, 12, "none", "kettle-2", "", "sata", 0, 4},
    {"Ambelton", "Hearth card cable", "cable-set", 0, 16, "none", "hearth-b", "", "pcie8", 0, 1},
    {"Ambelton", "Hearth wide cable", "cable-set", 0, 26, "none", "hearth-b", "", "12v-2x6", 0, 1},
    {"Ambelton", "Hearth drive cable", "cable-set", 0, 14, "none", "hearth-b", "", "sata", 0, 4},
    {"Ostwyck", "Ember card cable", "cable-set", 0, 13, "none", "ember", "", "pcie8", 0, 1},
    {"Ostwyck", "Ember wide cable", "cable-set", 0, 22, "none", "ember", "", "12v-2x6", 0, 1},
    {"Wexcombe", "Post V4 mounting set", "socket-mount", 0, 7, "none", "", "wexcombe-post-120-old",
     "V4"},
    {"Wexcombe", "Saucer V4 mounting set", "socket-mount", 0, 6, "none", "", "wexcombe-saucer",
     "V4"},
    {"Fjellum", "Shelf 66 V3 mounting set", "socket-mount", 0, 8, "none", "", "fjellum-shelf-66",
     "V3"},
    {"Nordvane", "Runnel V3 mounting set", "socket-mount", 0, 9, "none", "", "nordvane-runnel-240",
     "V3"},
    {"Fjellum", "Grey paste 6 g", "paste", 0, 11},
    {"Brantoak", "Card Stay Long", "bracket", 0, 18},
    {"Lantern & Loom", "Bench system licence", "licence", 0, 169},
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
    {"low-ferry", "Low Ferry (river trade; full)", 3600, 160, 90, 900, 860, 0, 0, 90, 170, 80, 200,
     70, 800, 0, 2100, 220, 900, 9000},
    {"twelve-bells", "Twelve Bells (detective story; rays everywhere)", 7200, 200, 130, 1700, 1720,
     2100, 1150, 260, 330, 120, 300, 110, 1300, 0, 5900, 700, 900, 9000},
    {"mangle", "Mangle (dance fighter; locked clock)", 3900, 120, 60, 700, 720, 0, 0, 70, 150, 60,
     100, 60, 700, 120, 1600, 180, 900, 9000},
    {"far-orchards", "Far Orchards (farm life; long summer)", 6900, 280, 150, 1300, 1240, 300, 190,
     180, 240, 110, 250, 90, 1000, 0, 3600, 400, 900, 9000},

};
// clang-format on

void add_adapter(Demo& demo, const Other& thing, std::string_view id) {
  demo.add(table("other_adapters"),
           Line(table("other_adapters"))
               .text(column("other_adapters", "other"), id)
               .text(column("other_adapters", "takes"), thing.takes)
               .whole(column("other_adapters", "takes_count"), thing.takes_count)
               .text(column("other_adapters", "gives"), thing.gives)
               .whole(column("other_adapters", "gives_count"), thing.gives_count));
}

void add_cable_set(Demo& demo, const Other& thing, std::string_view id) {
  demo.add(table("other_cables"), Line(table("other_cables"))
                                      .text(column("other_cables", "other"), id)
                                      .text(column("other_cables", "connector"), thing.gives)
                                      .whole(column("other_cables", "count"), thing.gives_count));
}

void add_hub(Demo& demo, const Other& thing, std::string_view id) {
  Line line(table("other_hubs"));
  line.text(column("other_hubs", "other"), id)
      .text(column("other_hubs", "feeds"), thing.gives)
      .whole(column("other_hubs", "outputs"), thing.gives_count);
  if (thing.hundredths_a > 0)
    line.decimal(column("other_hubs", "current_a"), hundredths(thing.hundredths_a));
  demo.add(table("other_hubs"), line);
}

void add_mounting_set(Demo& demo, const Other& thing, std::string_view id) {
  demo.add(table("other_mounts"), Line(table("other_mounts"))
                                      .text(column("other_mounts", "other"), id)
                                      .text(column("other_mounts", "cooler"), thing.takes)
                                      .text(column("other_mounts", "socket"), thing.gives));
}

void add_relation(Demo& demo, const Other& thing, std::string_view id) {
  if (thing.what == "adapter") add_adapter(demo, thing, id);
  if (thing.what == "cable-set") add_cable_set(demo, thing, id);
  if (thing.what == "hub") add_hub(demo, thing, id);
  if (thing.what == "socket-mount") add_mounting_set(demo, thing, id);
}

// A hub draws from a drive plug of the supply; a radio card has a lead to a USB header.
void add_other_plugs(Demo& demo, const Other& thing, std::string_view id) {
  const bool radio = thing.what == "wifi-card";
  const bool usb_hub = thing.what == "hub" && thing.gives == "usb2";
  const bool fed = thing.what == "hub" && !usb_hub;
  constexpr int radio_hundredths_a = 12;
  add_plugs(demo, id,
            {{"usb2", radio || usb_hub ? 1 : 0, radio ? radio_hundredths_a : 0},
             {"sata-power", fed ? 1 : 0, 0}});
}

void add_input(Demo& demo, std::string_view id, std::string_view link, int count,
               bool compression) {
  demo.add(table("display_inputs"),
           Line(table("display_inputs"))
               .text(column("display_inputs", "display"), id)
               .text(column("display_inputs", "link"), link)
               .whole(column("display_inputs", "count"), count)
               .flag(column("display_inputs", "compression"), compression));
}

}  // namespace

void add_displays_and_others(Demo& demo) {
  for (const Display& display : displays) {
    Line line = demo.part(Kind::display, "Lumvar", display.model, display.euro);
    line.whole(screen("width_px"), display.width_px)
        .whole(screen("height_px"), display.height_px)
        .whole(screen("refresh_hz"), display.refresh_hz);
    if (display.bits > 0) line.whole(screen("bits_per_channel"), display.bits);
    demo.add(table("display"), line);
    const std::string id = slug("Lumvar " + std::string(display.model));
    add_input(demo, id, display.display_port, 1, display.compression);
    add_input(demo, id, "HDMI-2.1", 2, display.compression);
  }
  for (const Other& thing : others) {
    Line line = demo.part(Kind::other, thing.maker, thing.model, thing.euro);
    line.text(other("what"), thing.what)
        .text(other("slot"), thing.slot)
        .text(other("cable_family"), thing.cable_family)
        .decimal(other("power_w"), tenths(thing.power_tenths_w));
    demo.add(table("other"), line);
    const std::string id = slug(std::string(thing.maker) + " " + std::string(thing.model));
    add_relation(demo, thing, id);
    add_other_plugs(demo, thing, id);
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
