#include "analysis/match/match_rules.hpp"

#include <array>

#include "analysis/match/rulebook.hpp"

namespace rigproof {

std::span<const Rule* const> match_rules() {
  using namespace match;
  static constexpr auto book = std::to_array<const Rule*>(
      {&complete,         &socket,        &firmware,         &memory_type,
       &memory_type_cpu,  &memory_slots,  &memory_capacity,  &memory_capacity_cpu,
       &module_capacity,  &memory_speed,  &memory_width,     &memory_fill,
       &memory_latency,   &power_stage,   &power_stage_peak, &cooler_socket,
       &cooler_heat,      &m2_places,     &drive_rate,       &shared_lanes,
       &sata_ports,       &card_slot,     &card_rate,        &covered_slots,
       &hidden_sockets,   &picture,       &display_fed,      &board_form,
       &bay_places,       &psu_form,      &board_connectors, &card_connectors,
       &drive_connectors, &adapters,      &cable_family,     &fan_headers,
       &pump_header,      &front_headers, &usb2_headers,     &light_headers,
       &must_memory,      &must_storage,  &must_wifi,        &must_front_usb_c});
  return book;
}

std::span<const Rule* const> market_rules() {
  static constexpr auto book = std::to_array<const Rule*>(
      {&match::offer, &match::budget, &match::age, &match::lone_offer, &match::offer_stock,
       &match::offer_condition, &match::offer_tax, &match::offer_warranty, &match::named});
  return book;
}

}  // namespace rigproof
