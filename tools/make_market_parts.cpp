// A market's processors, cards, kits, drives, displays and other parts.
#include <algorithm>
#include <array>

#include "tools/make_market_rows.hpp"

namespace rigproof::demo {

namespace {

std::string chip_name(int chip) { return "chip-" + std::to_string(chip); }

// Sizes follow power as in the demo's cards: 5 cubic centimeters a watt and more.
struct CardSize {
  int length_mm, height_mm, thickness_mm;
};
CardSize card_size(int power_w, Dice& dice) {
  return {170 + power_w * 2 / 5 + dice.between(-8, 12), 104 + power_w / 11 + dice.between(-3, 4),
          36 + power_w / 14 + dice.between(-1, 2)};
}

void add_relation(Rows& rows, ColumnId of, std::string_view id, ColumnId word,
                  std::string_view value, ColumnId count, int many) {
  rows.text(of, id).text(word, value).whole(count, many);
}

// A chip's power, speed and price by its place: three lines of 25 from small to large.
struct Chip {
  int power_w, raster, ray, bandwidth_gb_s, memory_gib, euro;
};
Chip chip_of(int chip) {
  const int line = chip / 25;
  const int place = chip % 25;
  const int power_w = 66 + place * 15 + line * 4;
  // Hundredths; newer lines do more with a watt.
  const int raster = 34 + place * (9 + 2 * line) + line * 10;
  constexpr std::array sizes_gib = {6, 8, 8, 12, 12, 16, 16, 20, 24, 32};
  const auto size = static_cast<std::size_t>(std::clamp(place * 10 / 25, 0, 9));
  return {power_w,
          raster,
          raster * (90 + 15 * line) / 100,
          180 + place * 48 + line * 20,
          sizes_gib[size],
          150 + place * 42 + place * place + line * 12};
}

}  // namespace

// Beyond the chips, further listings of them at prices of their own.
void add_market_processors(Market& market, int count) {
  for (int number = 0; number < count; ++number) {
    const int n = number % market_processors;
    const int listing = number / market_processors;
    const int place = n / market_sockets;  // 0 to 14, small to large
    const int cores = 4 + 2 * (place / 2);
    const int sustained_w = 58 + place * 11;
    const std::string_view memory = market_ddr4(n) ? "DDR4" : "DDR5";
    Rows& row = market.part(Kind::cpu, number, 85 + place * 30 + n % 7 + listing * 5 % 23);
    row.text(column("cpu", "socket"), market_socket(n))
        .text(column("cpu", "memory_types"), memory)
        .whole(column("cpu", "memory_max_mt_s"), market_ddr4(n) ? 3200 : 5600)
        .whole(column("cpu", "memory_max_gib"), market_ddr4(n) ? 128 : 192)
        .whole(column("cpu", "memory_channels"), 2)
        .whole(column("cpu", "pcie_generation"), market_ddr4(n) ? 4 : 5)
        .whole(column("cpu", "cores"), cores)
        .whole(column("cpu", "sustained_power_w"), sustained_w)
        .whole(column("cpu", "peak_power_w"), sustained_w * 13 / 10)
        .whole(column("cpu", "title_power_w"), sustained_w * 7 / 10)
        .flag(column("cpu", "picture"), n % 3 != 0)
        .decimal(column("cpu", "frame_speed"), hundredths(48 + place * 8 + n % market_sockets * 6));
    row.end_row();
  }
}

void add_market_cards(Market& market, int count) {
  Rows& inputs = market.rows(table("gpu_inputs"));
  Rows& outputs = market.rows(table("gpu_outputs"));
  for (int n = 0; n < count; ++n) {
    const std::string id = market_id(Kind::gpu, n);
    Dice dice(id);
    const int number = n % market_chips;
    const Chip chip = chip_of(number);
    const int power_w = chip.power_w * dice.between(98, 107) / 100;
    const int slot_w = power_w <= 70 ? power_w : std::min(66, power_w / 5 + 10);
    const CardSize size = card_size(power_w, dice);
    const bool bare = slot_w == power_w;
    const bool wide = !bare && number >= 50 && number % 25 >= 8;
    Rows& row = market.part(Kind::gpu, n, chip.euro * dice.between(97, 110) / 100);
    row.text(column("gpu", "chip"), chip_name(number))
        .whole(column("gpu", "length_mm"), size.length_mm)
        .whole(column("gpu", "height_mm"), size.height_mm)
        .whole(column("gpu", "thickness_mm"), size.thickness_mm)
        .whole(column("gpu", "slots"), (size.thickness_mm * 100 + 2031) / 2032)
        .text(column("gpu", "plug_side"), bare         ? "none"
                                          : n % 9 == 0 ? "end"
                                                       : "top")
        .whole(column("gpu", "plug_bend_mm"), bare   ? 0
                                              : wide ? 33
                                                     : 27)
        .whole(column("gpu", "pcie_generation"), number < 25 ? 4 : 5)
        .whole(column("gpu", "pcie_lanes"), number % 25 < 6 ? 8 : 16)
        .whole(column("gpu", "sustained_power_w"), power_w)
        .whole(column("gpu", "slot_power_w"), slot_w)
        .whole(column("gpu", "video_memory_gib"), chip.memory_gib)
        .decimal(column("gpu", "raster_speed"),
                 hundredths(chip.raster * dice.between(99, 103) / 100))
        .decimal(column("gpu", "ray_speed"), hundredths(chip.ray * dice.between(99, 103) / 100))
        .whole(column("gpu", "bandwidth_gb_s"), chip.bandwidth_gb_s)
        .whole(column("gpu", "supply_advice_w"), 50 * divide_rounded(power_w * 8 / 5 + 220, 50));
    row.end_row();
    add_relation(inputs, column("gpu_inputs", "gpu"), id, column("gpu_inputs", "connector"),
                 wide ? "12v-2x6" : "pcie8", column("gpu_inputs", "count"),
                 bare   ? 0
                 : wide ? 1
                        : (power_w - slot_w + 141) / 142);
    inputs.end_row();
    Rows& peaks = market.rows(table("gpu_peaks"));
    add_relation(peaks, column("gpu_peaks", "gpu"), id, column("gpu_peaks", "window_us"), "1000",
                 column("gpu_peaks", "power_w"), power_w * 3 / 2);
    peaks.end_row();
    for (const std::string_view link : {"DisplayPort-2.1-UHBR13.5", "HDMI-2.1"}) {
      add_relation(outputs, column("gpu_outputs", "gpu"), id, column("gpu_outputs", "link"), link,
                   column("gpu_outputs", "count"), link.front() == 'D' ? 3 : 1);
      outputs.flag(column("gpu_outputs", "compression"), true);
      outputs.end_row();
    }
  }
}

void add_market_memory(Market& market, int count) {
  constexpr std::array sizes_gib = {8, 16, 16, 32, 24, 48};
  for (int n = 0; n < count; ++n) {
    Dice dice(market_id(Kind::memory, n));
    const bool old = n % 3 == 0;
    const int gib = old ? sizes_gib[static_cast<std::size_t>(n % 4)]
                        : sizes_gib[static_cast<std::size_t>(n % 6)];
    const int modules = n % 11 == 0 ? 1 : 2;
    const int mt_s = old ? 3200 + 200 * dice.between(0, 3) : 4800 + 400 * dice.between(0, 6);
    // First word after 10 to 14 ns.
    const int clocks = mt_s * dice.between(10, 14) / 2000;
    Rows& row = market.part(Kind::memory, n,
                            (old ? 20 : 25) + modules * gib * (old ? 17 : 26) / 10 + mt_s / 800);
    row.text(column("memory", "memory_type"), old ? "DDR4" : "DDR5")
        .whole(column("memory", "modules"), modules)
        .whole(column("memory", "module_gib"), gib)
        .whole(column("memory", "speed_mt_s"), mt_s)
        .whole(column("memory", "latency_clocks"), clocks)
        .whole(column("memory", "height_mm"), 31 + dice.between(0, 3) * 4 + n % 3)
        .decimal(column("memory", "power_w"), tenths(std::int64_t{modules} * (20 + gib * 5 / 8)));
    row.end_row();
  }
}

void add_market_drives(Market& market, int count) {
  constexpr std::array capacities_gb = {500, 1000, 2000, 4000};
  constexpr std::array mountings = {"M.2-2280", "M.2-2280", "M.2-2280", "bay-2.5",
                                    "M.2-2280", "M.2-2242", "bay-3.5"};
  for (int n = 0; n < count; ++n) {
    Dice dice(market_id(Kind::storage, n));
    const std::string_view mounting = mountings[static_cast<std::size_t>(n) % mountings.size()];
    const bool nvme = mounting.front() == 'M';
    const int capacity_gb = capacities_gb[static_cast<std::size_t>(dice.between(0, 3))];
    const int generation = 3 + n % 3;
    Rows& row =
        market.part(Kind::storage, n, 25 + capacity_gb / 20 + (nvme ? 6 * generation : 0) + n % 9);
    row.text(column("storage", "mounting"), mounting)
        .text(column("storage", "link"), nvme ? "NVMe" : "SATA");
    if (nvme)
      row.whole(column("storage", "pcie_generation"), generation)
          .whole(column("storage", "pcie_lanes"), 4);
    row.whole(column("storage", "capacity_gb"), capacity_gb)
        .decimal(column("storage", "power_w"), tenths(25 + (nvme ? 10 * generation : 8)));
    row.end_row();
  }
}

void add_market_displays(Market& market, int count) {
  struct Size {
    int width_px, height_px, hz, euro;
  };
  constexpr std::array sizes = {Size{1920, 1080, 144, 130}, Size{1920, 1080, 240, 210},
                                Size{2560, 1440, 165, 240}, Size{2560, 1440, 240, 340},
                                Size{3440, 1440, 165, 420}, Size{3840, 2160, 60, 320},
                                Size{3840, 2160, 144, 560}};
  Rows& inputs = market.rows(table("display_inputs"));
  for (int n = 0; n < count; ++n) {
    const Size& size = sizes[static_cast<std::size_t>(n) % sizes.size()];
    Rows& row = market.part(Kind::display, n, size.euro + n % 37);
    row.whole(column("display", "width_px"), size.width_px)
        .whole(column("display", "height_px"), size.height_px)
        .whole(column("display", "refresh_hz"), size.hz)
        .whole(column("display", "bits_per_channel"), 8);
    row.end_row();
    const std::string id = market_id(Kind::display, n);
    for (const std::string_view link : {"DisplayPort-1.4", "HDMI-2.1"}) {
      add_relation(inputs, column("display_inputs", "display"), id,
                   column("display_inputs", "link"), link, column("display_inputs", "count"), 1);
      inputs.flag(column("display_inputs", "compression"), true);
      inputs.end_row();
    }
  }
}

// Radio cards, hubs, cable sets, adapters and mounting sets in turn.
void add_market_others(Market& market, int count) {
  constexpr std::array what = {"wifi-card", "hub",          "cable-set",
                               "adapter",   "socket-mount", "bracket"};
  for (int n = 0; n < count; ++n) {
    const std::string id = market_id(Kind::other, n);
    const std::string_view sort = what[static_cast<std::size_t>(n) % what.size()];
    Rows& row = market.part(Kind::other, n, 9 + n % 29);
    row.text(column("other", "what"), sort)
        .text(column("other", "slot"), sort == "wifi-card" ? "x1" : "none");
    if (sort == "cable-set")
      row.text(column("other", "cable_family"), "family-" + std::to_string(n / 6 % 40));
    row.decimal(column("other", "power_w"), tenths(sort == "wifi-card" ? 35 : 4));
    row.end_row();
    if (sort == "hub") {
      Rows& rows = market.rows(table("other_hubs"));
      rows.text(column("other_hubs", "other"), id)
          .text(column("other_hubs", "feeds"), "fan")
          .whole(column("other_hubs", "outputs"), 4 + n % 7)
          .decimal(column("other_hubs", "current_a"), tenths(30 + n % 20));
      rows.end_row();
    } else if (sort == "cable-set") {
      Rows& rows = market.rows(table("other_cables"));
      add_relation(rows, column("other_cables", "other"), id, column("other_cables", "connector"),
                   n % 4 == 0 ? "12v-2x6" : "pcie8", column("other_cables", "count"), 1);
      rows.end_row();
    } else if (sort == "adapter") {
      Rows& rows = market.rows(table("other_adapters"));
      rows.text(column("other_adapters", "other"), id)
          .text(column("other_adapters", "takes"), "pcie8")
          .whole(column("other_adapters", "takes_count"), 2)
          .text(column("other_adapters", "gives"), "12v-2x6")
          .whole(column("other_adapters", "gives_count"), 1);
      rows.end_row();
    } else if (sort == "socket-mount") {
      // There are four times as many coolers as other parts of all sorts.
      Rows& rows = market.rows(table("other_mounts"));
      rows.text(column("other_mounts", "other"), id)
          .text(column("other_mounts", "cooler"), market_id(Kind::cooler, n))
          .text(column("other_mounts", "socket"), market_socket(n));
      rows.end_row();
    }
    Rows& plugs = market.rows(table("part_headers"));
    add_relation(plugs, column("part_headers", "part"), id, column("part_headers", "header"),
                 sort == "hub" ? "sata-power" : "usb2", column("part_headers", "count"),
                 sort == "hub" || sort == "wifi-card" ? 1 : 0);
    plugs.end_row();
  }
}

}  // namespace rigproof::demo
