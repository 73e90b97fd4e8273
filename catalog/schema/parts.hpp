// Schema of the part tables: one table a kind, one row a part. Speeds are relative to an invented
// reference part of 1.0 and are data, like sockets and makers.
#pragma once

#include <array>

#include "catalog/schema/spec.hpp"

// One line a column reads like the table it is.
// clang-format off
namespace rigproof::schema {

// What every part table starts with.
inline constexpr ColumnSpec part_id = {.name = "id", .type = Type::slug, .meaning = "slug, unique over all part tables", .required = true};
inline constexpr ColumnSpec part_name = {.name = "name", .type = Type::text, .meaning = "what the box says", .required = true};
inline constexpr ColumnSpec part_maker = {.name = "maker", .type = Type::text, .meaning = "who makes it"};
inline constexpr ColumnSpec part_maker_code = {.name = "maker_code", .type = Type::text, .meaning = "the maker's own order code"};

inline constexpr std::array cpu_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "socket", .type = Type::token, .meaning = "socket it sits in"},
    ColumnSpec{.name = "memory_types", .type = Type::tokens, .meaning = "memory its controller takes, such as DDR5"},
    ColumnSpec{.name = "memory_max_mt_s", .type = Type::number, .meaning = "rated memory speed", .min = 800, .max = 20000, .usual_low = 2133, .usual_high = 10000},
    ColumnSpec{.name = "memory_max_gib", .type = Type::number, .meaning = "largest memory in all", .min = 1, .max = 8192, .usual_low = 32, .usual_high = 4096},
    ColumnSpec{.name = "memory_channels", .type = Type::count, .meaning = "memory channels of its controller; each module of a set fills one", .min = 1, .max = 12, .usual_low = 1, .usual_high = 12},
    ColumnSpec{.name = "pcie_generation", .type = Type::count, .meaning = "generation of the lanes it gives to the card's slot", .min = 1, .max = 7, .usual_low = 3, .usual_high = 6},
    ColumnSpec{.name = "cores", .type = Type::count, .meaning = "physical cores", .min = 1, .max = 256, .usual_low = 2, .usual_high = 128},
    ColumnSpec{.name = "idle_power_w", .type = Type::number, .meaning = "package power with nothing to do", .min = 0.5, .max = 200, .tolerance_frac = 0.1, .class_low = 4, .class_high = 30, .usual_low = 1, .usual_high = 60},
    ColumnSpec{.name = "sustained_power_w", .type = Type::number, .meaning = "package power it keeps up under all-core load", .min = 1, .max = 1000, .tolerance_frac = 0.03, .usual_low = 15, .usual_high = 400},
    ColumnSpec{.name = "peak_power_w", .type = Type::number, .meaning = "package power for seconds", .min = 1, .max = 1500, .tolerance_frac = 0.03, .usual_low = 25, .usual_high = 500},
    ColumnSpec{.name = "title_power_w", .type = Type::number, .meaning = "package power while a title runs", .min = 1, .max = 1000, .tolerance_frac = 0.10, .usual_low = 15, .usual_high = 300},
    ColumnSpec{.name = "limit_c", .type = Type::number, .meaning = "temperature at which it slows itself down", .min = 50, .max = 130, .class_low = 85, .class_high = 100, .usual_low = 70, .usual_high = 110},
    ColumnSpec{.name = "picture", .type = Type::flag, .meaning = "has a graphics unit of its own"},
    ColumnSpec{.name = "frame_speed", .type = Type::number, .meaning = "speed of the processor's share of a frame; the reference part is 1", .min = 0.01, .max = 100, .tolerance_frac = 0.06, .usual_low = 0.2, .usual_high = 5},
};

inline constexpr std::array board_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "socket", .type = Type::token, .meaning = "processor socket"},
    ColumnSpec{.name = "form_factor", .type = Type::token, .meaning = "outline and hole pattern", .choices = "ATX|microATX|Mini-ITX"},
    ColumnSpec{.name = "memory_type", .type = Type::token, .meaning = "memory its slots take"},
    ColumnSpec{.name = "memory_slots", .type = Type::count, .meaning = "memory slots", .min = 1, .max = 16, .usual_low = 1, .usual_high = 8},
    ColumnSpec{.name = "memory_fill_order", .type = Type::tokens, .meaning = "slots in the order in which they are filled, numbered from the processor outwards, such as 2|4|1|3", .choices = "1|2|3|4|5|6|7|8"},
    ColumnSpec{.name = "memory_max_gib", .type = Type::number, .meaning = "largest memory in all", .min = 1, .max = 8192, .usual_low = 32, .usual_high = 2048},
    ColumnSpec{.name = "module_max_gib", .type = Type::number, .meaning = "largest module a slot takes", .min = 1, .max = 1024, .usual_low = 8, .usual_high = 256},
    ColumnSpec{.name = "memory_max_mt_s", .type = Type::number, .meaning = "fastest memory it lists", .min = 800, .max = 20000, .usual_low = 2133, .usual_high = 10000},
    ColumnSpec{.name = "memory_full_mt_s", .type = Type::number, .meaning = "fastest memory it lists with every slot filled", .min = 800, .max = 20000, .usual_low = 1600, .usual_high = 10000},
    ColumnSpec{.name = "cpu_sustained_w", .type = Type::number, .meaning = "package power its stage feeds for long", .min = 10, .max = 1000, .usual_low = 35, .usual_high = 500},
    ColumnSpec{.name = "cpu_peak_w", .type = Type::number, .meaning = "package power its stage feeds for seconds", .min = 10, .max = 1500, .usual_low = 45, .usual_high = 600},
    ColumnSpec{.name = "stage_rise_k", .type = Type::number, .meaning = "how much hotter than the air around it its stage is while it feeds cpu_sustained_w", .min = 5, .max = 120, .tolerance_frac = 0.1, .class_low = 30, .class_high = 60, .usual_low = 15, .usual_high = 80},
    ColumnSpec{.name = "firmware_shipped_first", .type = Type::count, .meaning = "oldest firmware boards in the shops still have, by its place in board_firmware", .min = 1, .max = 200},
    ColumnSpec{.name = "firmware_shipped_last", .type = Type::count, .meaning = "newest firmware they have, by its place in board_firmware", .min = 1, .max = 200},
    ColumnSpec{.name = "flash_without_cpu", .type = Type::flag, .meaning = "firmware can be written without a processor in the socket"},
    ColumnSpec{.name = "atx24_inputs", .type = Type::count, .meaning = "24-pin main inputs", .max = 2, .class_low = 1, .class_high = 1},
    ColumnSpec{.name = "eps8_inputs", .type = Type::count, .meaning = "8-pin processor inputs that must be fed", .max = 4, .usual_low = 0, .usual_high = 3},
    ColumnSpec{.name = "eps4_inputs", .type = Type::count, .meaning = "4-pin processor inputs that must be fed beside them", .max = 4, .usual_low = 0, .usual_high = 2},
    ColumnSpec{.name = "picture_outputs", .type = Type::count, .meaning = "display outputs for a processor's own graphics", .max = 8},
    ColumnSpec{.name = "sata_ports", .type = Type::count, .meaning = "SATA ports", .max = 16, .usual_low = 0, .usual_high = 12},
    ColumnSpec{.name = "wifi", .type = Type::flag, .meaning = "radio on board"},
    ColumnSpec{.name = "upper_edge_mm", .type = Type::number, .meaning = "tallest heat sink or plug with its cable along the upper edge", .min = 1, .max = 120, .tolerance = 1.0, .class_low = 20, .class_high = 50, .usual_low = 10, .usual_high = 70},
    ColumnSpec{.name = "socket_from_edge_mm", .type = Type::number, .meaning = "from its upper edge to the middle of the processor socket", .min = 20, .max = 250, .tolerance = 1.0, .class_low = 65, .class_high = 95, .usual_low = 50, .usual_high = 125},
    ColumnSpec{.name = "power_w", .type = Type::number, .meaning = "own power under load, radio and chipset", .min = 1, .max = 200, .class_low = 20, .class_high = 50, .usual_low = 10, .usual_high = 90},
};

inline constexpr std::array memory_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "memory_type", .type = Type::token, .meaning = "such as DDR5"},
    ColumnSpec{.name = "modules", .type = Type::count, .meaning = "modules in the kit as sold", .min = 1, .max = 8, .usual_low = 1, .usual_high = 8},
    ColumnSpec{.name = "module_gib", .type = Type::number, .meaning = "size of one module", .min = 1, .max = 512, .usual_low = 4, .usual_high = 128},
    ColumnSpec{.name = "speed_mt_s", .type = Type::number, .meaning = "rated speed with its profile", .min = 800, .max = 20000, .usual_low = 2133, .usual_high = 10000},
    ColumnSpec{.name = "latency_clocks", .type = Type::count, .meaning = "first-word latency (CL) in clocks at that speed", .min = 5, .max = 120, .usual_low = 9, .usual_high = 64},
    ColumnSpec{.name = "height_mm", .type = Type::number, .meaning = "height above the slot's foot", .min = 15, .max = 80, .tolerance = 0.5, .class_low = 31, .class_high = 56, .usual_low = 28, .usual_high = 70},
    ColumnSpec{.name = "power_w", .type = Type::number, .meaning = "power of the whole kit under load", .min = 0.5, .max = 100, .class_low = 4, .class_high = 16, .usual_low = 2, .usual_high = 40},
};

inline constexpr std::array gpu_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "chip", .type = Type::token, .meaning = "the chip on it; several cards share one"},
    ColumnSpec{.name = "length_mm", .type = Type::number, .meaning = "bracket to end", .min = 50, .max = 600, .tolerance = 2.0, .usual_low = 140, .usual_high = 380},
    ColumnSpec{.name = "height_mm", .type = Type::number, .meaning = "slot edge to top, without the plug", .min = 50, .max = 250, .tolerance = 2.0, .usual_low = 60, .usual_high = 180},
    ColumnSpec{.name = "thickness_mm", .type = Type::number, .meaning = "cooler included", .min = 10, .max = 150, .tolerance = 1.0, .usual_low = 14, .usual_high = 85},
    ColumnSpec{.name = "mass_kg", .type = Type::number, .meaning = "mass with its cooler and bracket", .min = 0.02, .max = 12, .tolerance_frac = 0.03, .usual_low = 0.1, .usual_high = 3},
    ColumnSpec{.name = "slots", .type = Type::count, .meaning = "rear slots its bracket and cooler fill", .min = 1, .max = 6, .usual_low = 1, .usual_high = 4},
    ColumnSpec{.name = "plug_side", .type = Type::token, .meaning = "where its power plugs go in: the top faces the side panel", .choices = "top|end|none"},
    ColumnSpec{.name = "plug_bend_mm", .type = Type::number, .meaning = "what plug and bent cable need above the edge they leave from", .min = 0, .max = 120, .tolerance = 2.0, .class_low = 25, .class_high = 40, .usual_low = 0, .usual_high = 60},
    ColumnSpec{.name = "pcie_generation", .type = Type::count, .meaning = "generation of its link", .min = 1, .max = 7, .usual_low = 3, .usual_high = 6},
    ColumnSpec{.name = "pcie_lanes", .type = Type::count, .meaning = "lanes of its link", .min = 1, .max = 16, .usual_low = 4, .usual_high = 16},
    ColumnSpec{.name = "idle_power_w", .type = Type::number, .meaning = "board power with a still picture", .min = 0.5, .max = 200, .tolerance_frac = 0.1, .class_low = 4, .class_high = 35, .usual_low = 2, .usual_high = 60},
    ColumnSpec{.name = "sustained_power_w", .type = Type::number, .meaning = "board power it keeps up", .min = 5, .max = 1200, .tolerance_frac = 0.03, .usual_low = 25, .usual_high = 650},
    ColumnSpec{.name = "slot_power_w", .type = Type::number, .meaning = "share of it drawn through the slot", .min = 0, .max = 200, .class_low = 10, .class_high = 75, .usual_low = 0, .usual_high = 75},
    ColumnSpec{.name = "limit_c", .type = Type::number, .meaning = "temperature at which it slows itself down", .min = 50, .max = 130, .class_low = 83, .class_high = 95, .usual_low = 75, .usual_high = 110},
    ColumnSpec{.name = "rise_k", .type = Type::number, .meaning = "how much hotter than the air it draws in its chip is at its sustained power, by its own cooler", .min = 5, .max = 120, .tolerance_frac = 0.05, .class_low = 38, .class_high = 55, .usual_low = 25, .usual_high = 70},
    ColumnSpec{.name = "heat_capacity_j_k", .type = Type::number, .meaning = "heat that its chip and cooler take in for each kelvin", .min = 10, .max = 10000, .tolerance_frac = 0.1, .class_low = 350, .class_high = 1400, .usual_low = 100, .usual_high = 3000},
    ColumnSpec{.name = "noise_dba", .type = Type::number, .meaning = "level at 1 m at its sustained power", .min = 0, .max = 80, .tolerance = 1.5, .usual_low = 20, .usual_high = 50},
    ColumnSpec{.name = "video_memory_gib", .type = Type::number, .meaning = "memory on the card", .min = 1, .max = 512, .usual_low = 2, .usual_high = 128},
    ColumnSpec{.name = "raster_speed", .type = Type::number, .meaning = "shading speed; the reference card is 1", .min = 0.01, .max = 100, .tolerance_frac = 0.05, .usual_low = 0.05, .usual_high = 10},
    ColumnSpec{.name = "ray_speed", .type = Type::number, .meaning = "ray speed; the reference card is 1", .min = 0.01, .max = 100, .tolerance_frac = 0.08, .usual_low = 0.02, .usual_high = 15},
    ColumnSpec{.name = "bandwidth_gb_s", .type = Type::number, .meaning = "effective memory bandwidth, caches counted in", .min = 1, .max = 20000, .tolerance_frac = 0.05, .usual_low = 50, .usual_high = 6000},
    ColumnSpec{.name = "supply_advice_w", .type = Type::number, .meaning = "supply rating its maker advises", .min = 100, .max = 2000, .usual_low = 250, .usual_high = 1600},
};

inline constexpr std::array storage_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "mounting", .type = Type::token, .meaning = "what it sits in: a socket of that size code, or a bay", .choices = "M.2-2230|M.2-2242|M.2-2260|M.2-2280|M.2-22110|bay-2.5|bay-3.5"},
    ColumnSpec{.name = "link", .type = Type::token, .meaning = "how it talks", .choices = "NVMe|SATA"},
    ColumnSpec{.name = "pcie_generation", .type = Type::count, .meaning = "NVMe: generation of its link", .min = 1, .max = 7, .usual_low = 3, .usual_high = 6},
    ColumnSpec{.name = "pcie_lanes", .type = Type::count, .meaning = "NVMe: lanes of its link", .min = 1, .max = 4},
    ColumnSpec{.name = "capacity_gb", .type = Type::number, .meaning = "decimal gigabytes", .min = 1, .max = 1e6, .usual_low = 100, .usual_high = 40000},
    ColumnSpec{.name = "power_w", .type = Type::number, .meaning = "under load", .min = 0.1, .max = 40, .class_low = 2, .class_high = 12, .usual_low = 1, .usual_high = 25},
    ColumnSpec{.name = "rise_k", .type = Type::number, .meaning = "how much hotter than the air around it is under load", .min = 1, .max = 100, .tolerance_frac = 0.1, .class_low = 10, .class_high = 45, .usual_low = 5, .usual_high = 60},
};

inline constexpr std::array cooler_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "type", .type = Type::token, .meaning = "tower or flat air cooler, or closed liquid loop", .choices = "air|liquid"},
    ColumnSpec{.name = "height_mm", .type = Type::number, .meaning = "above the board's processor, fan included; a loop's pump block", .min = 10, .max = 250, .tolerance = 1.0, .usual_low = 20, .usual_high = 185},
    ColumnSpec{.name = "covers_memory_slots", .type = Type::count, .meaning = "memory slots it reaches over, counted from the processor; 0: none", .max = 8, .usual_low = 0, .usual_high = 4},
    ColumnSpec{.name = "memory_clearance_mm", .type = Type::number, .meaning = "height it leaves for memory in the slots it reaches over", .min = 15, .max = 100, .tolerance = 1.0, .usual_low = 25, .usual_high = 90},
    ColumnSpec{.name = "above_socket_mm", .type = Type::number, .meaning = "from the middle of the processor to its edge on the side of the board's upper edge", .min = 15, .max = 150, .tolerance = 1.0, .class_low = 45, .class_high = 72, .usual_low = 30, .usual_high = 95},
    ColumnSpec{.name = "rated_heat_w", .type = Type::number, .meaning = "heat its maker says it carries", .min = 10, .max = 1000, .usual_low = 45, .usual_high = 450},
    ColumnSpec{.name = "rise_at_rating_k", .type = Type::number, .meaning = "how much hotter than the air the processor is at that heat, fans at full speed", .min = 10, .max = 120, .tolerance_frac = 0.05, .class_low = 45, .class_high = 70, .usual_low = 30, .usual_high = 80},
    ColumnSpec{.name = "plate_rise_k", .type = Type::number, .meaning = "how much hotter than the loop's liquid, or than the fins' foot of an air cooler, the processor is at that heat", .min = 1, .max = 80, .tolerance_frac = 0.1, .class_low = 18, .class_high = 32, .usual_low = 8, .usual_high = 45},
    ColumnSpec{.name = "heat_capacity_j_k", .type = Type::number, .meaning = "heat that its metal and liquid take in for each kelvin", .min = 10, .max = 20000, .tolerance_frac = 0.1, .class_low = 200, .class_high = 3000, .usual_low = 80, .usual_high = 5000},
    ColumnSpec{.name = "radiator_mm", .type = Type::number, .meaning = "loop: nominal radiator size (fans x fan size)", .min = 80, .max = 600, .usual_low = 120, .usual_high = 480},
    ColumnSpec{.name = "radiator_thickness_mm", .type = Type::number, .meaning = "loop: radiator without fans", .min = 15, .max = 100, .tolerance = 0.5, .class_low = 27, .class_high = 38, .usual_low = 20, .usual_high = 65},
    ColumnSpec{.name = "tube_mm", .type = Type::number, .meaning = "loop: its tubes from the pump block to the radiator", .min = 80, .max = 1500, .tolerance = 10.0, .class_low = 350, .class_high = 450, .usual_low = 250, .usual_high = 600},
    ColumnSpec{.name = "fan_mm", .type = Type::number, .meaning = "size of its own fans", .min = 40, .max = 200, .usual_low = 60, .usual_high = 200},
    ColumnSpec{.name = "fan_thickness_mm", .type = Type::number, .meaning = "thickness of its own fans", .min = 10, .max = 60, .class_low = 15, .class_high = 38, .usual_low = 12, .usual_high = 40},
    ColumnSpec{.name = "fans", .type = Type::count, .meaning = "fans it comes with", .max = 6, .usual_low = 0, .usual_high = 4},
    ColumnSpec{.name = "flow_m3_h", .type = Type::number, .meaning = "free flow of each of its fans at full speed", .min = 1, .max = 500, .tolerance_frac = 0.1, .usual_low = 15, .usual_high = 250},
    ColumnSpec{.name = "pressure_pa", .type = Type::number, .meaning = "shut-off pressure of each of its fans at full speed", .min = 0.1, .max = 100, .tolerance_frac = 0.1, .usual_low = 3, .usual_high = 80},
    ColumnSpec{.name = "noise_dba", .type = Type::number, .meaning = "level at 1 m, all its fans at full speed", .min = 0, .max = 80, .tolerance = 1.5, .usual_low = 15, .usual_high = 50},
    ColumnSpec{.name = "power_w", .type = Type::number, .meaning = "fans and pump", .min = 0, .max = 60, .class_low = 1, .class_high = 20, .usual_low = 0.5, .usual_high = 45},
};

inline constexpr std::array case_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "form_factors", .type = Type::tokens, .meaning = "board outlines it has standoffs for", .choices = "ATX|microATX|Mini-ITX"},
    ColumnSpec{.name = "psu_forms", .type = Type::tokens, .meaning = "supply forms it takes", .choices = "ATX|SFX|SFX-L|TFX"},
    ColumnSpec{.name = "width_mm", .type = Type::number, .meaning = "outside", .min = 50, .max = 1000, .usual_low = 90, .usual_high = 500},
    ColumnSpec{.name = "height_mm", .type = Type::number, .meaning = "outside, feet included", .min = 50, .max = 1500, .usual_low = 150, .usual_high = 750},
    ColumnSpec{.name = "depth_mm", .type = Type::number, .meaning = "outside", .min = 50, .max = 1500, .usual_low = 180, .usual_high = 750},
    ColumnSpec{.name = "volume_l", .type = Type::number, .meaning = "outside volume the maker states", .min = 1, .max = 300, .usual_low = 4, .usual_high = 150},
    ColumnSpec{.name = "card_slots", .type = Type::count, .meaning = "rear slots a card may fill", .max = 10, .usual_low = 1, .usual_high = 9},
    ColumnSpec{.name = "bays_2_5", .type = Type::count, .meaning = "2.5 inch drive places", .max = 20, .usual_low = 0, .usual_high = 12},
    ColumnSpec{.name = "bays_3_5", .type = Type::count, .meaning = "3.5 inch drive places", .max = 20, .usual_low = 0, .usual_high = 16},
    ColumnSpec{.name = "leak_cm2", .type = Type::number, .meaning = "all gaps and openings that are no mount, together", .min = 0, .max = 2000, .class_low = 30, .class_high = 150, .usual_low = 10, .usual_high = 500},
    ColumnSpec{.name = "supply_chamber", .type = Type::flag, .meaning = "the supply draws and blows its own air, apart from the rest"},
};

inline constexpr std::array psu_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "form", .type = Type::token, .meaning = "body form", .choices = "ATX|SFX|SFX-L|TFX"},
    ColumnSpec{.name = "length_mm", .type = Type::number, .meaning = "body, along the chamber", .min = 50, .max = 300, .tolerance = 1.0, .usual_low = 100, .usual_high = 230},
    ColumnSpec{.name = "cable_bend_mm", .type = Type::number, .meaning = "what its plugs and bent cables need behind the body", .min = 0, .max = 200, .tolerance = 2.0, .class_low = 30, .class_high = 60, .usual_low = 0, .usual_high = 90},
    ColumnSpec{.name = "rated_power_w", .type = Type::number, .meaning = "continuous, all rails", .min = 50, .max = 3000, .usual_low = 250, .usual_high = 2200},
    ColumnSpec{.name = "full_power_c", .type = Type::number, .meaning = "temperature of the air it draws in up to which it gives its rating", .min = 10, .max = 80, .class_low = 40, .class_high = 50, .usual_low = 25, .usual_high = 55},
    ColumnSpec{.name = "derating_w_k", .type = Type::number, .meaning = "what it gives less for each kelvin above that", .min = 0, .max = 200, .usual_low = 1, .usual_high = 40},
    ColumnSpec{.name = "edition", .type = Type::token, .meaning = "design guide edition it states, such as ATX-3.1"},
    ColumnSpec{.name = "efficiency", .type = Type::token, .meaning = "certified level", .choices = "standard|bronze|silver|gold|platinum|titanium"},
    ColumnSpec{.name = "cable_family", .type = Type::token, .meaning = "pinout family of its loose cables; another family's can destroy hardware"},
    ColumnSpec{.name = "noise_dba", .type = Type::number, .meaning = "level at 1 m at half its rating", .min = 0, .max = 70, .tolerance = 2.0, .usual_low = 0, .usual_high = 40},
};

inline constexpr std::array fan_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "size_mm", .type = Type::number, .meaning = "frame", .min = 20, .max = 300, .usual_low = 40, .usual_high = 200},
    ColumnSpec{.name = "thickness_mm", .type = Type::number, .meaning = "frame", .min = 5, .max = 60, .tolerance = 0.5, .class_low = 15, .class_high = 38, .usual_low = 10, .usual_high = 40},
    ColumnSpec{.name = "current_a", .type = Type::number, .meaning = "steady, at 12 V", .min = 0.01, .max = 3, .class_low = 0.1, .class_high = 0.5, .usual_low = 0.03, .usual_high = 1.5},
    ColumnSpec{.name = "chains", .type = Type::flag, .meaning = "several hang on one another and share one plug"},
    ColumnSpec{.name = "speed_rpm", .type = Type::number, .meaning = "fastest", .min = 100, .max = 6000, .tolerance_frac = 0.10, .usual_low = 400, .usual_high = 4500},
    ColumnSpec{.name = "flow_m3_h", .type = Type::number, .meaning = "free flow at full speed", .min = 1, .max = 500, .usual_low = 10, .usual_high = 350},
    ColumnSpec{.name = "pressure_pa", .type = Type::number, .meaning = "shut-off pressure at full speed", .min = 0.1, .max = 100, .usual_low = 3, .usual_high = 80},
    ColumnSpec{.name = "noise_dba", .type = Type::number, .meaning = "level at 1 m at full speed", .min = 0, .max = 80, .tolerance = 1.5, .usual_low = 10, .usual_high = 50},
};

inline constexpr std::array display_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "width_px", .type = Type::count, .meaning = "pixels across", .min = 320, .max = 16384, .usual_low = 1024, .usual_high = 7680},
    ColumnSpec{.name = "height_px", .type = Type::count, .meaning = "pixels down", .min = 200, .max = 16384, .usual_low = 720, .usual_high = 4320},
    ColumnSpec{.name = "refresh_hz", .type = Type::number, .meaning = "fastest refresh", .min = 24, .max = 1000, .usual_low = 30, .usual_high = 600},
    ColumnSpec{.name = "bits_per_channel", .type = Type::count, .meaning = "bits of one color it is fed with; empty: 8", .min = 6, .max = 16, .usual_low = 6, .usual_high = 12},
};

inline constexpr std::array other_columns = {
    part_id, part_name, part_maker, part_maker_code,
    ColumnSpec{.name = "what", .type = Type::token, .meaning = "what it does in a build", .choices = "wifi-card|socket-mount|bracket|hub|adapter|cable-set|paste|licence"},
    ColumnSpec{.name = "slot", .type = Type::token, .meaning = "a card: the slot it needs; none: it needs none", .choices = "none|x1|x4|x8|x16"},
    ColumnSpec{.name = "cable_family", .type = Type::token, .meaning = "a cable set: pinout family of its supply side"},
    ColumnSpec{.name = "power_w", .type = Type::number, .meaning = "under load", .min = 0, .max = 100, .class_low = 0, .class_high = 8, .usual_low = 0, .usual_high = 60},
};

}  // namespace rigproof::schema
// clang-format on
