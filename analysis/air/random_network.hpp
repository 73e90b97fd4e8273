// Random heat networks for tests and benchmarks: balanced by construction, every node held.
#pragma once

#include <random>
#include <vector>

#include "analysis/air/heat_network.hpp"

namespace rigproof::air::trial {

struct RandomSizes {
  std::size_t rooms;  ///< with the outside
  std::size_t bodies;
  std::size_t streams;
  bool loop = false;  ///< bodies 0 and 1 are liquid before and after a radiator
};

/// Air runs in rings through the outside, so that it balances; streams run there and back.
inline HeatNetwork random_network(std::mt19937_64& generator, const RandomSizes& sizes) {
  const auto in = [&](double low, double high) {
    return std::uniform_real_distribution(low, high)(generator);
  };
  const auto below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(generator);
  };
  HeatNetwork out;
  out.outside_c = in(15.0, 35.0);
  out.rooms = sizes.rooms;
  out.bodies = sizes.bodies;
  for (std::size_t first = 1; first < sizes.rooms; ++first) {
    const double flow = in(0.002, 0.05);
    std::size_t at = outside;
    std::size_t next = first;
    for (int hops = 0; hops < 3; ++hops) {
      // Now and then written the other way round, as a negative flow.
      if (below(3) == 0)
        out.flows.add({.from = next, .to = at, .flow_m3_s = -flow});
      else
        out.flows.add({.from = at, .to = next, .flow_m3_s = flow});
      at = next;
      next = hops == 1 ? outside : below(sizes.rooms);
    }
  }
  const auto add_stream = [&](Stream stream) {
    stream.flow_m3_s = in(0.005, 0.05);
    stream.recirculation_frac = below(2) == 0 ? 0.0 : in(0.0, 0.6);
    out.streams.add(stream);
    out.flows.add({.from = stream.to,
                   .to = stream.from,
                   .flow_m3_s = (1.0 - stream.recirculation_frac) * stream.flow_m3_s});
  };
  if (sizes.loop) {
    const double liquid = in(60.0, 200.0);
    out.liquids.add({.from = 0, .to = 1, .capacity_w_k = liquid});
    out.liquids.add({.from = 1, .to = 0, .capacity_w_k = liquid});
    add_stream({.from = below(sizes.rooms),
                .to = below(sizes.rooms),
                .body = 0,
                .effectiveness = in(0.3, 0.9),
                .paid_by = 1});
  }
  for (std::size_t s = sizes.loop ? 1 : 0; s < sizes.streams; ++s)
    add_stream({.from = below(sizes.rooms),
                .to = below(sizes.rooms),
                .body = below(sizes.bodies),
                .effectiveness = in(0.1, 0.95)});
  for (std::size_t b = 0; b < sizes.bodies; ++b) {
    out.conductances.add({.a = body(b), .b = room(below(sizes.rooms)), .w_k = in(0.1, 3.0)});
    out.conductances.add({.a = body(b), .b = body(below(sizes.bodies)), .w_k = in(0.0, 20.0)});
    out.body_heat_w[b] = in(0.0, 200.0);
  }
  for (std::size_t r = 1; r < sizes.rooms; ++r) out.room_heat_w[r] = in(0.0, 20.0);
  return out;
}

}  // namespace rigproof::air::trial
