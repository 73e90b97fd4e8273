// Schema of the relation tables. A part without any row in a relation has that relation *unknown*;
// a row with count 0 says "none".
#pragma once

#include <array>

#include "catalog/schema/spec.hpp"

// One line a column reads like the table it is.
// clang-format off
namespace rigproof::schema {

inline constexpr std::string_view connector_choices = "atx24|eps8|eps4|pcie6|pcie8|12v-2x6|sata|peripheral4";
inline constexpr std::string_view board_header_choices = "fan|cpu-fan|pump|usb2|usb3|usb-c|light-5v|light-12v";
inline constexpr std::string_view part_header_choices = "pump|usb2|usb3|usb-c|light-5v|light-12v|sata-power";
inline constexpr std::string_view face_choices = "front|top|rear|bottom|side";

inline constexpr std::array board_m2_columns = {
    ColumnSpec{.name = "board", .type = Type::reference, .meaning = "which board", .required = true, .refers = "board"},
    ColumnSpec{.name = "socket", .type = Type::count, .meaning = "number the board prints beside it", .required = true, .min = 1, .max = 16},
    ColumnSpec{.name = "lengths_mm", .type = Type::tokens, .meaning = "module lengths it can hold down, such as 60|80", .required = true, .choices = "30|42|60|80|110"},
    ColumnSpec{.name = "position", .type = Type::count, .meaning = "rear slot of the case that it lies in line with, 1 nearest to the processor; 0: before them all", .max = 12},
    ColumnSpec{.name = "links", .type = Type::tokens, .meaning = "what it speaks", .choices = "NVMe|SATA"},
    ColumnSpec{.name = "pcie_generation", .type = Type::count, .meaning = "NVMe generation", .min = 1, .max = 7},
    ColumnSpec{.name = "pcie_lanes", .type = Type::count, .meaning = "NVMe lanes", .min = 1, .max = 4},
    ColumnSpec{.name = "shares_slot", .type = Type::count, .meaning = "number of the card slot (board_slots) that loses lanes while a drive is in it; 0: none does", .max = 16},
    ColumnSpec{.name = "slot_lanes_left", .type = Type::count, .meaning = "lanes that slot keeps then", .max = 16},
    ColumnSpec{.name = "sata_ports_off", .type = Type::count, .meaning = "SATA ports that are dead while a drive is in it; 0: none", .max = 16},
};

inline constexpr std::array board_slots_columns = {
    ColumnSpec{.name = "board", .type = Type::reference, .meaning = "which board", .required = true, .refers = "board"},
    ColumnSpec{.name = "slot", .type = Type::count, .meaning = "number of the slot, from the processor outwards", .required = true, .min = 1, .max = 16},
    ColumnSpec{.name = "position", .type = Type::count, .meaning = "rear slot of the case it lines up with, 1 nearest to the processor", .min = 1, .max = 12},
    ColumnSpec{.name = "length", .type = Type::token, .meaning = "connector length", .required = true, .choices = "x1|x4|x8|x16"},
    ColumnSpec{.name = "pcie_generation", .type = Type::count, .meaning = "generation of its link", .min = 1, .max = 7},
    ColumnSpec{.name = "pcie_lanes", .type = Type::count, .meaning = "lanes wired to it", .min = 1, .max = 16},
};

inline constexpr std::array board_headers_columns = {
    ColumnSpec{.name = "board", .type = Type::reference, .meaning = "which board", .required = true, .refers = "board"},
    ColumnSpec{.name = "header", .type = Type::token, .meaning = "kind of header", .required = true, .choices = board_header_choices},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "how many; 0 states that there is none", .required = true, .max = 16, .usual_low = 0, .usual_high = 10},
    ColumnSpec{.name = "current_a", .type = Type::number, .meaning = "fans and lights: current each of them gives", .min = 0.1, .max = 10, .class_low = 1, .class_high = 3, .usual_low = 0.5, .usual_high = 5},
};

inline constexpr std::array board_firmware_columns = {
    ColumnSpec{.name = "board", .type = Type::reference, .meaning = "which board", .required = true, .refers = "board"},
    ColumnSpec{.name = "place", .type = Type::count, .meaning = "place in the order of releases, 1 the oldest", .required = true, .min = 1, .max = 200},
    ColumnSpec{.name = "version", .type = Type::text, .meaning = "what its maker calls it; never compared", .required = true},
    ColumnSpec{.name = "released", .type = Type::date, .meaning = "when it came out"},
};

inline constexpr std::array cpu_support_columns = {
    ColumnSpec{.name = "board", .type = Type::reference, .meaning = "which board", .required = true, .refers = "board"},
    ColumnSpec{.name = "cpu", .type = Type::reference, .meaning = "a processor on its maker's list", .required = true, .refers = "cpu"},
    ColumnSpec{.name = "firmware", .type = Type::count, .meaning = "first firmware that starts it, by its place in board_firmware", .min = 1, .max = 200},
};

inline constexpr std::array part_headers_columns = {
    ColumnSpec{.name = "part", .type = Type::reference, .meaning = "which part", .required = true, .refers = "part"},
    ColumnSpec{.name = "header", .type = Type::token, .meaning = "what it plugs into", .required = true, .choices = part_header_choices},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "how many plugs; 0 states that there is none", .required = true, .max = 12, .usual_low = 0, .usual_high = 6},
    ColumnSpec{.name = "current_a", .type = Type::number, .meaning = "lights and USB 2: current each plug draws, lights with everything white", .min = 0.01, .max = 10, .usual_low = 0.05, .usual_high = 5},
};

inline constexpr std::array cooler_sockets_columns = {
    ColumnSpec{.name = "cooler", .type = Type::reference, .meaning = "which cooler", .required = true, .refers = "cooler"},
    ColumnSpec{.name = "socket", .type = Type::token, .meaning = "a socket its mounting set fits", .required = true},
};

inline constexpr std::array gpu_inputs_columns = {
    ColumnSpec{.name = "gpu", .type = Type::reference, .meaning = "which card", .required = true, .refers = "gpu"},
    ColumnSpec{.name = "connector", .type = Type::token, .meaning = "auxiliary power input", .required = true, .choices = "pcie6|pcie8|12v-2x6"},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "how many; 0 states that there is none", .required = true, .max = 4, .usual_low = 0, .usual_high = 4},
};

inline constexpr std::array gpu_peaks_columns = {
    ColumnSpec{.name = "gpu", .type = Type::reference, .meaning = "which card", .required = true, .refers = "gpu"},
    ColumnSpec{.name = "window_us", .type = Type::token, .meaning = "mean over so many microseconds", .required = true, .choices = "100|1000|10000|100000"},
    ColumnSpec{.name = "power_w", .type = Type::number, .meaning = "highest such mean of its board power that was measured", .required = true, .min = 5, .max = 3000, .tolerance_frac = 0.05, .usual_low = 30, .usual_high = 1500},
};

inline constexpr std::array fan_points_columns = {
    ColumnSpec{.name = "fan", .type = Type::reference, .meaning = "which fan", .required = true, .refers = "fan"},
    ColumnSpec{.name = "flow_m3_h", .type = Type::number, .meaning = "a flow at full speed at which its pressure was measured", .required = true, .min = 0, .max = 500, .usual_low = 0, .usual_high = 350},
    ColumnSpec{.name = "pressure_pa", .type = Type::number, .meaning = "the pressure it gives there", .required = true, .min = 0, .max = 100, .usual_low = 0, .usual_high = 80},
};

inline constexpr std::string_view measured_load_choices = "any|idle|title|all-core|everything";
inline constexpr std::array noise_points_columns = {
    ColumnSpec{.name = "part", .type = Type::reference, .meaning = "which card, cooler, supply or fan", .required = true, .refers = "part"},
    ColumnSpec{.name = "load", .type = Type::token, .meaning = "under which load it was measured; any: whatever the load", .required = true, .choices = measured_load_choices},
    ColumnSpec{.name = "level_dba", .type = Type::number, .meaning = "level of one piece there; takes the place of its noise_dba under that load", .required = true, .min = 0, .max = 100, .tolerance = 1.5, .usual_low = 10, .usual_high = 60},
    ColumnSpec{.name = "distance_m", .type = Type::number, .meaning = "from where it was measured", .required = true, .min = 0.05, .max = 10, .usual_low = 0.3, .usual_high = 2},
    ColumnSpec{.name = "speed_percent", .type = Type::number, .meaning = "fans and coolers: how fast it turned, of full speed; full speed where this is empty", .min = 10, .max = 100},
};

inline constexpr std::array gpu_outputs_columns = {
    ColumnSpec{.name = "gpu", .type = Type::reference, .meaning = "which card", .required = true, .refers = "gpu"},
    ColumnSpec{.name = "link", .type = Type::token, .meaning = "display link and version", .required = true},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "how many", .required = true, .max = 8, .usual_low = 0, .usual_high = 5},
    ColumnSpec{.name = "compression", .type = Type::flag, .meaning = "declares stream compression (DSC)"},
};

inline constexpr std::array display_inputs_columns = {
    ColumnSpec{.name = "display", .type = Type::reference, .meaning = "which display", .required = true, .refers = "display"},
    ColumnSpec{.name = "link", .type = Type::token, .meaning = "display link and version", .required = true},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "how many", .required = true, .max = 8},
    ColumnSpec{.name = "compression", .type = Type::flag, .meaning = "declares stream compression (DSC)"},
};

inline constexpr std::array other_mounts_columns = {
    ColumnSpec{.name = "other", .type = Type::reference, .meaning = "a mounting set that is bought apart", .required = true, .refers = "other"},
    ColumnSpec{.name = "cooler", .type = Type::reference, .meaning = "the cooler it is for", .required = true, .refers = "cooler"},
    ColumnSpec{.name = "socket", .type = Type::token, .meaning = "the processor socket it fits then", .required = true},
};

inline constexpr std::array other_adapters_columns = {
    ColumnSpec{.name = "other", .type = Type::reference, .meaning = "which adapter", .required = true, .refers = "other"},
    ColumnSpec{.name = "takes", .type = Type::token, .meaning = "plug of the supply it uses up", .required = true, .choices = connector_choices},
    ColumnSpec{.name = "takes_count", .type = Type::count, .meaning = "how many of them", .required = true, .min = 1, .max = 8},
    ColumnSpec{.name = "gives", .type = Type::token, .meaning = "plug it gives instead", .required = true, .choices = connector_choices},
    ColumnSpec{.name = "gives_count", .type = Type::count, .meaning = "how many of them", .required = true, .min = 1, .max = 8},
};

inline constexpr std::array other_cables_columns = {
    ColumnSpec{.name = "other", .type = Type::reference, .meaning = "which cable set", .required = true, .refers = "other"},
    ColumnSpec{.name = "connector", .type = Type::token, .meaning = "plug at the far end", .required = true, .choices = connector_choices},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "plugs it adds to what the supply brings", .required = true, .max = 24},
    ColumnSpec{.name = "length_mm", .type = Type::number, .meaning = "from the supply along the cable to this plug, the nearest where one cable has several", .min = 50, .max = 3000, .tolerance = 10.0, .class_low = 450, .class_high = 750, .usual_low = 250, .usual_high = 1100},
};

inline constexpr std::array other_hubs_columns = {
    ColumnSpec{.name = "other", .type = Type::reference, .meaning = "which hub", .required = true, .refers = "other"},
    ColumnSpec{.name = "feeds", .type = Type::token, .meaning = "what it feeds", .required = true, .choices = "fan|usb2|light-5v|light-12v"},
    ColumnSpec{.name = "outputs", .type = Type::count, .meaning = "how many of it at once", .required = true, .min = 1, .max = 16, .usual_low = 1, .usual_high = 12},
    ColumnSpec{.name = "current_a", .type = Type::number, .meaning = "current all its outputs give together", .min = 0.1, .max = 20, .usual_low = 0.5, .usual_high = 15},
};

inline constexpr std::array psu_cables_columns = {
    ColumnSpec{.name = "psu", .type = Type::reference, .meaning = "which supply", .required = true, .refers = "psu"},
    ColumnSpec{.name = "connector", .type = Type::token, .meaning = "plug at the far end", .required = true, .choices = connector_choices},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "plugs that can be used at the same time", .required = true, .max = 24, .usual_low = 0, .usual_high = 16},
    ColumnSpec{.name = "length_mm", .type = Type::number, .meaning = "from the supply along the cable to this plug, the nearest where one cable has several", .min = 50, .max = 3000, .tolerance = 10.0, .class_low = 450, .class_high = 750, .usual_low = 250, .usual_high = 1100},
    ColumnSpec{.name = "gauge_awg", .type = Type::count, .meaning = "its wires, American wire gauge", .min = 10, .max = 26, .class_low = 16, .class_high = 20, .usual_low = 14, .usual_high = 22},
};

inline constexpr std::array case_mounts_columns = {
    ColumnSpec{.name = "case", .type = Type::reference, .meaning = "which case", .required = true, .refers = "case"},
    ColumnSpec{.name = "mount", .type = Type::token, .meaning = "name of the place, such as front or top", .required = true},
    ColumnSpec{.name = "face", .type = Type::token, .meaning = "side of the case it is on", .required = true, .choices = face_choices},
    ColumnSpec{.name = "fan_sizes_mm", .type = Type::tokens, .meaning = "fan sizes its holes take", .choices = "40|60|80|92|120|140|180|200"},
    ColumnSpec{.name = "fan_places", .type = Type::count, .meaning = "fans of its smallest listed size it holds", .max = 12, .usual_low = 0, .usual_high = 6},
    ColumnSpec{.name = "radiators_mm", .type = Type::tokens, .meaning = "nominal radiator sizes it takes", .choices = "none|120|140|240|280|360|420"},
    ColumnSpec{.name = "depth_mm", .type = Type::number, .meaning = "free depth for radiator and fans together", .min = 10, .max = 300, .tolerance = 1.0, .usual_low = 15, .usual_high = 150},
    ColumnSpec{.name = "open_frac", .type = Type::number, .meaning = "share of its opening that is open, grille and filter frame counted", .min = 0.05, .max = 1, .class_low = 0.35, .class_high = 0.7, .usual_low = 0.2, .usual_high = 0.95},
    ColumnSpec{.name = "filter_pa", .type = Type::number, .meaning = "what its filter costs at 1 m/s; 0: it has none", .min = 0, .max = 200, .class_low = 0, .class_high = 10, .usual_low = 0, .usual_high = 25},
    ColumnSpec{.name = "beyond_board_mm", .type = Type::number, .meaning = "top faces: how far something may hang down from it before it reaches the board's upper edge", .max = 300, .tolerance = 1.0, .usual_low = 0, .usual_high = 120},
    ColumnSpec{.name = "middle_from_board_mm", .type = Type::number, .meaning = "top faces: from the board's face to the middle of the row of holes", .min = 10, .max = 300, .tolerance = 1.0, .usual_low = 40, .usual_high = 150},
    ColumnSpec{.name = "tube_way_mm", .type = Type::number, .meaning = "from the middle of the processor along gently bent tubes to the near end of a radiator there", .min = 30, .max = 1500, .tolerance = 15.0, .usual_low = 80, .usual_high = 600},
    ColumnSpec{.name = "end_above_socket_mm", .type = Type::number, .meaning = "front, rear and side faces: how far the upper end of a radiator there stands above the middle of the processor; negative: below it", .min = -1000, .max = 1000, .tolerance = 10.0, .usual_low = -250, .usual_high = 300},
};

inline constexpr std::array case_clearances_columns = {
    ColumnSpec{.name = "case", .type = Type::reference, .meaning = "which case", .required = true, .refers = "case"},
    ColumnSpec{.name = "limits", .type = Type::token, .meaning = "what is limited; supply-length: what a body may have; supply-and-cables: the whole depth of its chamber", .required = true, .choices = "card-length|card-height|card-thickness|cooler-height|supply-length|supply-and-cables"},
    ColumnSpec{.name = "when", .type = Type::token, .meaning = "always; or the mount whose use takes room; or bay-2.5, bay-3.5: drives in such bays take it", .required = true},
    ColumnSpec{.name = "by_mm", .type = Type::number, .meaning = "always: the clearance; a mount: room taken from it beside the thickness of what sits there; a bay: room taken by its cage", .required = true, .min = 0, .max = 1500, .tolerance = 1.0, .usual_low = 0, .usual_high = 500},
};

inline constexpr std::array case_ways_columns = {
    ColumnSpec{.name = "case", .type = Type::reference, .meaning = "which case", .required = true, .refers = "case"},
    ColumnSpec{.name = "connector", .type = Type::token, .meaning = "plug that goes there", .required = true, .choices = connector_choices},
    ColumnSpec{.name = "way_mm", .type = Type::number, .meaning = "from the supply along the tray to the furthest such input of the largest board it takes, its card or its bays", .required = true, .min = 20, .max = 3000, .tolerance = 20.0, .usual_low = 100, .usual_high = 900},
};

inline constexpr std::array case_fans_columns = {
    ColumnSpec{.name = "case", .type = Type::reference, .meaning = "which case", .required = true, .refers = "case"},
    ColumnSpec{.name = "mount", .type = Type::token, .meaning = "where it is mounted when sold", .required = true},
    ColumnSpec{.name = "size_mm", .type = Type::number, .meaning = "frame", .required = true, .min = 20, .max = 300, .usual_low = 40, .usual_high = 200},
    ColumnSpec{.name = "count", .type = Type::count, .meaning = "how many; 0 states that the mount is empty when sold", .required = true, .max = 12, .usual_low = 0, .usual_high = 6},
    ColumnSpec{.name = "current_a", .type = Type::number, .meaning = "each of them, steady, at 12 V", .min = 0.01, .max = 3, .class_low = 0.1, .class_high = 0.5, .usual_low = 0.03, .usual_high = 1.5},
    ColumnSpec{.name = "flow_m3_h", .type = Type::number, .meaning = "free flow of each at full speed", .min = 1, .max = 500, .tolerance_frac = 0.1, .usual_low = 15, .usual_high = 250},
    ColumnSpec{.name = "pressure_pa", .type = Type::number, .meaning = "shut-off pressure of each at full speed", .min = 0.1, .max = 100, .tolerance_frac = 0.1, .usual_low = 3, .usual_high = 60},
    ColumnSpec{.name = "noise_dba", .type = Type::number, .meaning = "level at 1 m of each at full speed", .min = 0, .max = 80, .tolerance = 1.5, .usual_low = 10, .usual_high = 50},
};

}  // namespace rigproof::schema
// clang-format on
