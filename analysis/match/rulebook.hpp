// The records of this engine, by the file that makes them. Not for other engines: they use
// match_rules.hpp.
#pragma once

#include "claims/rule.hpp"

namespace rigproof::match {

// frame_rules.cpp: what stands in what
extern const Rule complete, board_form, psu_form, card_slot, picture;
// processor_rules.cpp
extern const Rule socket, power_stage, power_stage_peak;
// firmware_rules.cpp
extern const Rule firmware;
// cooler_rules.cpp
extern const Rule cooler_socket, cooler_heat;
// memory_rules.cpp
extern const Rule memory_type, memory_type_cpu, memory_slots, memory_capacity, memory_capacity_cpu,
    module_capacity, memory_latency;
// memory_slots_rules.cpp
extern const Rule memory_speed, memory_width, memory_fill;
// connector_rules.cpp
extern const Rule board_connectors, card_connectors, drive_connectors;
// adapter_rules.cpp
extern const Rule adapters, cable_family;
// header_rules.cpp
extern const Rule fan_headers, pump_header, front_headers, must_front_usb_c, usb2_headers;
// drive_rules.cpp
extern const Rule m2_places, sata_ports, bay_places;
// lane_rules.cpp: PCI Express lanes of drives and card
extern const Rule drive_rate, shared_lanes, card_rate;
// slot_rules.cpp
extern const Rule covered_slots;
// hidden_socket_rule.cpp
extern const Rule hidden_sockets;
// display_rules.cpp
extern const Rule display_fed;
// must_rules.cpp: what the brief asks
extern const Rule must_memory, must_storage, must_wifi;
// light_rules.cpp
extern const Rule light_headers;
// offer_rules.cpp
extern const Rule lone_offer, offer_stock, offer_condition, offer_tax, offer_warranty;
// market_rules.cpp
extern const Rule offer, budget, age, named;

}  // namespace rigproof::match
