// The demo's graphics cards: 36 chips of three chip makers on about 130 cards. Newer families do
// more per watt; one family is good at rays, one has much memory, one is cheap and thirsty.
#include <algorithm>

#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("gpu", name); }
consteval ColumnId input(std::string_view name) { return column("gpu_inputs", name); }
consteval ColumnId output(std::string_view name) { return column("gpu_outputs", name); }

enum class Wiring : std::uint8_t { plugs, one_wide };  // several small plugs, or one 12V-2x6

struct Chip {
  std::string_view name;
  int raster, ray;  // hundredths
  int bandwidth_gb_s, memory_gib, power_w, slot_per_cent;
  Wiring wiring;
  std::string_view display_port;
  int euro;
  int generation, lanes;   // of its link
  std::string_view cards;  // maker and style of each card on it: `Nc` is Nimbeck's compact one
};
using enum Wiring;
constexpr Chip chips[] = {
    {"Dunlin 3", 43, 42, 216, 6, 108, 28, plugs, "DisplayPort-1.4", 194, 4, 8, "Nc Ws Ns"},
    {"Dunlin 5", 80, 82, 336, 8, 172, 24, plugs, "DisplayPort-1.4", 289, 4, 8, "Ss Wc Ns Us"},
    {"Dunlin 6", 100, 100, 448, 12, 220, 22, plugs, "DisplayPort-1.4", 389, 4, 16, "Nc Ss Ut Ws"},
    {"Dunlin 7", 132, 136, 608, 10, 284, 20, plugs, "DisplayPort-1.4", 519, 4, 16, "Ns Wt Ss Us"},
    {"Dunlin 8", 162, 170, 760, 12, 328, 18, plugs, "DisplayPort-1.4", 709, 4, 16, "Ss Ut Ns Ws"},
    {"Dunlin 9", 186, 196, 936, 24, 362, 17, plugs, "DisplayPort-1.4", 989, 4, 16, "Ns Wt St"},
    {"Gannet 2", 40, 46, 200, 6, 66, 100, plugs, "DisplayPort-2.1-UHBR20", 184, 4, 8, "Nc Wc Sc"},
    {"Gannet 4", 86, 100, 330, 8, 122, 30, plugs, "DisplayPort-2.1-UHBR20", 299, 4, 8,
     "Nc Ss Ws Us"},
    {"Gannet 4 Deep", 88, 102, 330, 16, 128, 30, plugs, "DisplayPort-2.1-UHBR20", 362, 4, 8,
     "Sc Us Ns Wc"},
    {"Gannet 5", 120, 142, 460, 12, 170, 16, one_wide, "DisplayPort-2.1-UHBR20", 465, 4, 16,
     "Nc Ws Ut Ss Sc"},
    {"Gannet 6", 160, 195, 672, 16, 232, 13, one_wide, "DisplayPort-2.1-UHBR20", 655, 4, 16,
     "Nc Ss Wt Us Nt"},
    {"Gannet 7", 210, 256, 896, 16, 298, 11, one_wide, "DisplayPort-2.1-UHBR20", 945, 5, 16,
     "Ns Us Wt Ss St"},
    {"Gannet 8", 260, 322, 1190, 24, 368, 9, one_wide, "DisplayPort-2.1-UHBR20", 1340, 5, 16,
     "Ss Nt Ns Wt"},
    {"Gannet 9", 311, 395, 1690, 32, 448, 8, one_wide, "DisplayPort-2.1-UHBR20", 1705, 5, 16,
     "Ns Ut Ss Wt"},
    {"Basalt 10", 50, 31, 290, 8, 122, 26, plugs, "DisplayPort-1.4", 186, 4, 8, "Pc Bs Sc"},
    {"Basalt 20", 78, 51, 430, 8, 162, 22, plugs, "DisplayPort-1.4", 249, 4, 8, "Ps Bc Ss Bs"},
    {"Basalt 30", 112, 78, 620, 12, 226, 20, plugs, "DisplayPort-2.1-UHBR13.5", 375, 4, 16,
     "Pc Ss Bt Ps Bs"},
    {"Basalt 40", 155, 112, 900, 16, 290, 17, plugs, "DisplayPort-2.1-UHBR13.5", 529, 4, 16,
     "Ps Bs St Pt Bt"},
    {"Basalt 50", 198, 146, 1210, 20, 344, 15, plugs, "DisplayPort-2.1-UHBR13.5", 769, 4, 16,
     "Ss Pt Ps Bs"},
    {"Marl 20", 98, 86, 500, 8, 136, 24, plugs, "DisplayPort-2.1-UHBR13.5", 299, 4, 8,
     "Pc Bs Ss Ps"},
    {"Marl 20 Deep", 99, 87, 500, 16, 140, 24, plugs, "DisplayPort-2.1-UHBR13.5", 345, 4, 8,
     "Sc Ps Bs Pc"},
    {"Marl 30", 142, 132, 710, 16, 196, 20, plugs, "DisplayPort-2.1-UHBR13.5", 475, 4, 16,
     "Pc Bs St Ps Ss"},
    {"Marl 40", 186, 182, 970, 16, 258, 17, plugs, "DisplayPort-2.1-UHBR13.5", 639, 4, 16,
     "Ps Bs St Pt Bt"},
    {"Quill 1", 35, 38, 186, 6, 76, 55, plugs, "DisplayPort-2.1-UHBR10", 182, 4, 8, "Tc Bc Bs"},
    {"Dunlin 4", 62, 62, 276, 8, 138, 26, plugs, "DisplayPort-1.4", 236, 4, 8, "Nc Ss Ws"},
    {"Gannet 3", 62, 72, 268, 8, 96, 34, plugs, "DisplayPort-2.1-UHBR20", 238, 4, 8, "Nc Ss Wc Us"},
    {"Gannet 5 Deep", 122, 144, 460, 16, 176, 16, one_wide, "DisplayPort-2.1-UHBR20", 519, 4, 16,
     "Ns Ss Ws"},
    {"Gannet 6 Deep", 164, 199, 672, 24, 238, 13, one_wide, "DisplayPort-2.1-UHBR20", 759, 4, 16,
     "Ns Ss Wt"},
    {"Basalt 60", 224, 166, 1360, 24, 388, 14, plugs, "DisplayPort-2.1-UHBR13.5", 929, 4, 16,
     "Ps Bs St"},
    {"Marl 10", 66, 56, 330, 8, 104, 28, plugs, "DisplayPort-2.1-UHBR13.5", 219, 4, 8, "Pc Bc Ss"},
    {"Marl 30 Deep", 144, 134, 710, 24, 202, 20, plugs, "DisplayPort-2.1-UHBR13.5", 535, 4, 16,
     "Ps Bs Ss"},
    {"Marl 50", 226, 224, 1180, 20, 304, 15, plugs, "DisplayPort-2.1-UHBR13.5", 829, 5, 16,
     "Ps Bs St"},
    {"Quill 3", 118, 132, 560, 12, 226, 20, plugs, "DisplayPort-2.1-UHBR10", 339, 4, 16,
     "Ts Bs Tt"},
    {"Quill 3 Deep", 120, 134, 560, 16, 232, 20, plugs, "DisplayPort-2.1-UHBR10", 379, 4, 16,
     "Ts Bs"},
    {"Quill 4", 152, 168, 720, 16, 286, 18, plugs, "DisplayPort-2.1-UHBR10", 459, 4, 16,
     "Ts Bs Tt"},
    {"Quill 2", 84, 96, 452, 12, 192, 22, plugs, "DisplayPort-2.1-UHBR10", 256, 4, 16,
     "Ts Bc Bt Tc Tt"},
};

struct Maker {
  char letter;
  std::string_view name;
  std::string_view lines[3];  // compact, standard, tall
};
constexpr Maker makers[] = {
    {'N', "Nimbeck", {"Alcove", "Gallery", "Grand Gallery"}},
    {'S', "Skarnby", {"Cove", "Sound", "Deep Sound"}},
    {'W', "Wendrake", {"Dart", "Glide", "Long Glide"}},
    {'U', "Ullsmoor", {"Tussock", "Heath", "High Heath"}},
    {'P', "Pollwright", {"Peg", "Beam", "Long Beam"}},
    {'B', "Brantoak", {"Acorn", "Bough", "Crown"}},
    {'T', "Thessic", {"Folio", "Quarto", "Grand Quarto"}},
};

// How a card's cooler grows with its power: straight lines between these points.
struct Size {
  int power_w, length_mm, height_mm, thickness_mm;
};
constexpr Size sizes[] = {{66, 186, 104, 37},  {130, 230, 117, 40}, {200, 270, 125, 45},
                          {300, 306, 134, 56}, {360, 318, 138, 61}, {480, 334, 145, 70}};

Size size_for(int power_w) {
  for (std::size_t i = 1; i < std::size(sizes); ++i) {
    const Size& a = sizes[i - 1];
    const Size& b = sizes[i];
    if (power_w > b.power_w) continue;
    const int t = power_w - a.power_w;
    const int span = b.power_w - a.power_w;
    return {power_w, a.length_mm + (b.length_mm - a.length_mm) * t / span,
            a.height_mm + (b.height_mm - a.height_mm) * t / span,
            a.thickness_mm + (b.thickness_mm - a.thickness_mm) * t / span};
  }
  return sizes[std::size(sizes) - 1];
}

struct Style {
  int power_per_mille, speed_per_mille, length_per_cent, more_length_mm, more_thickness_mm,
      price_per_mille;
};
constexpr Style styles[] = {
    {980, 990, 84, 0, 4, 985}, {1000, 1000, 100, 0, 0, 1000}, {1070, 1030, 100, 14, 4, 1085}};

int scaled(int value, int share, int whole) {
  return static_cast<int>(divide_rounded(std::int64_t{value} * share, whole));
}

// Rear slots of the case stand 0.8 inches apart.
int slots_of(int thickness_mm) { return (thickness_mm * 100 + 2031) / 2032; }

void add_input(Demo& demo, std::string_view card, std::string_view connector, int count) {
  Line line(table("gpu_inputs"));
  line.text(input("gpu"), card).text(input("connector"), connector).whole(input("count"), count);
  demo.add(table("gpu_inputs"), line);
}

// Every input is used to at most 95 % of what its connector may carry: 75, 150 and 600 W.
void add_inputs(Demo& demo, std::string_view card, Wiring wiring, int through_inputs_w) {
  if (through_inputs_w <= 0) return add_input(demo, card, "pcie8", 0);
  if (wiring == one_wide) return add_input(demo, card, "12v-2x6", 1);
  if (through_inputs_w <= 71) return add_input(demo, card, "pcie6", 1);
  if (through_inputs_w <= 142) return add_input(demo, card, "pcie8", 1);
  if (through_inputs_w <= 190) {
    add_input(demo, card, "pcie6", 1);
    return add_input(demo, card, "pcie8", 1);
  }
  add_input(demo, card, "pcie8", through_inputs_w <= 285 ? 2 : 3);
}

void add_outputs(Demo& demo, std::string_view card, std::string_view display_port, bool small) {
  const std::pair<std::string_view, int> links[] = {{display_port, small ? 2 : 3}, {"HDMI-2.1", 1}};
  for (const auto& [link, count] : links) {
    Line line(table("gpu_outputs"));
    line.text(output("gpu"), card)
        .text(output("link"), link)
        .whole(output("count"), count)
        .flag(output("compression"), true);
    demo.add(table("gpu_outputs"), line);
  }
}

// The shorter the window, the higher; large cards swing further.
void add_peaks(Demo& demo, std::string_view card, int power_w) {
  const int more = std::min(20, power_w / 20);
  const std::pair<std::string_view, int> windows[] = {
      {"100", 170 + more}, {"1000", 148 + more}, {"10000", 125 + more / 2}, {"100000", 108}};
  for (const auto& [window, per_cent] : windows) {
    Line line(table("gpu_peaks"));
    line.text(column("gpu_peaks", "gpu"), card)
        .text(column("gpu_peaks", "window_us"), window)
        .whole(column("gpu_peaks", "power_w"), scaled(power_w, per_cent, 100));
    demo.add(table("gpu_peaks"), line);
  }
}

void add_card(Demo& demo, const Chip& chip, const Maker& maker, int style_index, int own_euro = 0) {
  const Style& style = styles[style_index];
  const std::string model = std::string(maker.lines[style_index]) + " " + std::string(chip.name);
  const std::string id = slug(std::string(maker.name) + " " + model);
  Dice dice("gpu/" + id);
  const bool slot_only = chip.slot_per_cent == 100;
  const int power_w = slot_only ? chip.power_w : scaled(chip.power_w, style.power_per_mille, 1000);
  const int slot_w = std::min(66, scaled(power_w, chip.slot_per_cent, 100));
  const Size size = size_for(power_w);
  const int length_mm = std::clamp(
      size.length_mm * style.length_per_cent / 100 + style.more_length_mm + dice.between(-5, 5),
      168, 348);
  const int height_mm = size.height_mm + dice.between(-3, 4);
  const int thickness_mm =
      size.thickness_mm + (power_w > 150 ? style.more_thickness_mm : 0) + dice.between(-1, 1);
  const std::int64_t mass_10g =
      divide_rounded(std::int64_t{length_mm} * height_mm * thickness_mm * 65, 1'000'000);
  // Two makers turn the plug of their compact cards to the end, for flat cases.
  const bool at_end = style_index == 0 && (maker.letter == 'N' || maker.letter == 'T');
  const int usual_euro = scaled(chip.euro, style.price_per_mille + dice.between(-8, 8), 1000);
  Line line = demo.part(Kind::gpu, maker.name, model, own_euro > 0 ? own_euro : usual_euro);
  line.text(in("chip"), slug(chip.name))
      .whole(in("length_mm"), length_mm)
      .whole(in("height_mm"), height_mm)
      .whole(in("thickness_mm"), thickness_mm)
      .decimal(in("mass_kg"), hundredths(mass_10g))
      .whole(in("slots"), slots_of(thickness_mm))
      .text(in("plug_side"), slot_only ? "none"
                             : at_end  ? "end"
                                       : "top")
      .whole(in("plug_bend_mm"), slot_only                 ? 0
                                 : chip.wiring == one_wide ? 33
                                                           : 27)
      .whole(in("pcie_generation"), chip.generation)
      .whole(in("pcie_lanes"), chip.lanes)
      .whole(in("idle_power_w"), 3 + power_w / 18)
      .whole(in("sustained_power_w"), power_w)
      .whole(in("slot_power_w"), slot_w)
      .whole(in("limit_c"), 88)
      .whole(in("rise_k"), 46 - 2 * style_index + power_w / 100)
      .whole(in("heat_capacity_j_k"), divide_rounded(mass_10g * 9, 2))  // 450 J/K a kilogram
      .whole(in("noise_dba"), 23 - style_index + power_w / 30)
      .whole(in("video_memory_gib"), chip.memory_gib)
      .decimal(in("raster_speed"), hundredths(scaled(chip.raster, style.speed_per_mille, 1000)))
      .decimal(in("ray_speed"), hundredths(scaled(chip.ray, style.speed_per_mille, 1000)))
      .whole(in("bandwidth_gb_s"), chip.bandwidth_gb_s)
      .whole(in("supply_advice_w"), 50 * divide_rounded(power_w * 8 / 5 + 220, 50));
  demo.add(table("gpu"), line);
  add_inputs(demo, id, chip.wiring, power_w - slot_w);
  add_outputs(demo, id, chip.display_port, power_w < 110);
  add_peaks(demo, id, power_w);
}

// Clearly the cheapest of their chips: one is hardly described, one is offered by one seller alone.
struct Bargain {
  std::string_view chip;
  char maker;
  int style, euro;
};
constexpr Bargain bargains[] = {{"Marl 50", 'S', 0, 655}, {"Marl 50", 'B', 2, 679}};

}  // namespace

void add_cards(Demo& demo) {
  for (const Chip& chip : chips) {
    for (std::size_t at = 0; at < chip.cards.size(); at += 3) {
      const auto* maker = std::ranges::find(makers, chip.cards[at], &Maker::letter);
      const char style = chip.cards[at + 1];
      add_card(demo, chip, *maker, style == 'c' ? 0 : style == 's' ? 1 : 2);
    }
  }
  for (const Bargain& bargain : bargains)
    add_card(demo, *std::ranges::find(chips, bargain.chip, &Chip::name),
             *std::ranges::find(makers, bargain.maker, &Maker::letter), bargain.style,
             bargain.euro);
}

}  // namespace rigproof::demo
