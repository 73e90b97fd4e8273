// Copper on its way to a plug: resistance of a gauge, current of one contact, drop and loss of a
// cable. Equations (P11) and (P12) of README.md.
#pragma once

#include <optional>
#include <string_view>

namespace rigproof::power {

/// (P11) Resistance of one meter of solid copper wire of this gauge, ohm/m, at a temperature.
/// Contract: gauge_awg in [0, 40]. Source: [astm-b258] diameters, [iec-60028] copper.
[[nodiscard]] double ohm_per_m(int gauge_awg, double wire_c = 20.0);

/// What a plug is made of, as far as power goes.
struct Plug {
  std::string_view name;
  int circuits;             ///< contacts that carry 12 V; as many carry it back
  double rated_w;           ///< what it is for; 0: not fixed
  double contact_a;         ///< most a contact may carry
  std::string_view source;  ///< of contact_a
};
/// By the name that catalog columns use; nothing for plugs of other voltages.
[[nodiscard]] std::optional<Plug> plug_named(std::string_view name);

/// (P12) The current of the hardest-driven contact when `load_w` at `rail_v` spreads over the
/// circuits of `plugs` plugs unevenly: `uneven` times the even share. Contract: all > 0.
[[nodiscard]] double contact_current_a(double load_w, double rail_v, int circuits, int plugs,
                                       double uneven);

/// Voltage lost there and back in a cable whose `circuits` share `load_a` evenly.
[[nodiscard]] double cable_drop_v(double load_a, int circuits, double length_m, int gauge_awg,
                                  double wire_c = 20.0);
/// Heat of the cable: that drop times the current.
[[nodiscard]] double cable_loss_w(double load_a, int circuits, double length_m, int gauge_awg,
                                  double wire_c = 20.0);

}  // namespace rigproof::power
