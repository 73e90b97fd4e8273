// Steady temperatures of a build: rooms of air, bodies, and the streams between them.
//
// Equations (A30) to (A36) of README. Every room is well mixed and every body has one temperature;
// air flows are given (room 0 is the air outside), and what leaves a room has the room's
// temperature. That makes one linear balance a node, A T = b, with an M-matrix: more heat or a
// hotter outside cools nothing. A HeatField factors A once; temperatures for other heat, and what
// one watt does where, are then one substitution each. No allocation.
#pragma once

#include <array>
#include <bitset>
#include <cstddef>
#include <cstdint>
#include <span>

#include "analysis/air/balance_lu.hpp"
#include "analysis/air/dense.hpp"
#include "analysis/air/exchanger.hpp"
#include "analysis/air/fixed_list.hpp"
#include "analysis/air/rooms.hpp"
#include "base/result.hpp"

namespace rigproof::air {

inline constexpr std::size_t most_bodies = 16;
inline constexpr std::size_t most_streams = 16;
inline constexpr std::size_t most_links = 48;  ///< of air flows, and of conductances
inline constexpr std::size_t most_liquids = 16;
inline constexpr std::size_t most_unknowns = most_rooms - 1 + most_bodies;
inline constexpr std::size_t outside = 0;  ///< the room of given temperature

/// A room or a body.
struct Node {
  enum class Kind : std::uint8_t { room, body };
  Kind kind = Kind::room;
  std::size_t index = 0;
};
[[nodiscard]] constexpr Node room(std::size_t index) { return {Node::Kind::room, index}; }
[[nodiscard]] constexpr Node body(std::size_t index) { return {Node::Kind::body, index}; }

/// Air from room to room; a negative flow runs the other way.
struct AirFlow {
  std::size_t from = 0;
  std::size_t to = 0;
  double flow_m3_s = 0;
};

/// Heat by a wall, a paste, a screw, still air: w_k (T_a - T_b).
struct Conductance {
  Node a;
  Node b;
  double w_k = 0;  ///< >= 0
};

/// Liquid from body to body, for loops whose parts differ in temperature.
struct LiquidFlow {
  std::size_t from = 0;
  std::size_t to = 0;
  double capacity_w_k = 0;  ///< >= 0
};

/// Air through a fin stack or a radiator. Its own flow counts in the rooms' balances: the share 1 -
/// recirculation_frac of it comes from one room and goes to the other (which may be the same).
struct Stream {
  static constexpr std::size_t same = most_bodies;

  std::size_t from = 0;  ///< room
  std::size_t to = 0;    ///< room
  std::size_t body = 0;  ///< whose temperature drives the heat
  double flow_m3_s = 0;  ///< through the fins, >= 0
  /// Heat over (air's capacity rate) (body - air inlet), in [0, 1]; for a radiator
  /// inlet_conductance_w_k / air capacity rate, with the liquid that arrives as the body.
  double effectiveness = 0;
  double recirculation_frac = 0;  ///< of the outlet air that returns to the inlet, in [0, 1)
  /// Body that gives the heat, if not the one that drives it: the liquid that leaves a radiator.
  /// Liquid must then flow from `body` to it, at least as strong as the conductance of the stream.
  std::size_t paid_by = same;
};

struct HeatNetwork {
  AirHeat air;
  double outside_c = 0;
  std::size_t rooms = 1;  ///< with the outside
  std::size_t bodies = 0;
  FixedList<AirFlow, most_links> flows;
  FixedList<Stream, most_streams> streams;
  FixedList<Conductance, most_links> conductances;
  FixedList<LiquidFlow, most_liquids> liquids;
  std::array<double, most_rooms> room_heat_w{};  ///< that of the outside must be 0
  std::array<double, most_bodies> body_heat_w{};
};

struct StreamState {
  double inlet_c = 0;   ///< at the fins, recirculated air included
  double outlet_c = 0;  ///< at the fins
  double heat_w = 0;
};

struct HeatState {
  /// Infinity where unbounded, so that it keeps below no limit.
  std::array<double, most_rooms> room_c{};
  std::array<double, most_bodies> body_c{};
  std::array<StreamState, most_streams> streams{};
  /// Heat has no way out of these.
  std::bitset<most_rooms> unbounded_rooms;
  std::bitset<most_bodies> unbounded_bodies;
  double heat_w = 0;        ///< given to all nodes that are not unbounded
  double to_outside_w = 0;  ///< counted link by link, from the temperatures
  /// |heat_w - to_outside_w| over the sum of absolute heats; 0 / 0 is 0.
  double balance_error_frac = 0;

  /// To 1e-6 of the heat. Where it does not, air that balances only to 1e-8 outweighs the ways out,
  /// or a temperature has left the range of doubles: no claim may rest on it.
  [[nodiscard]] bool closes() const { return balance_error_frac <= 1e-6; }
  [[nodiscard]] bool unbounded() const { return unbounded_rooms.any() || unbounded_bodies.any(); }
};

/// What A T = b holds, unbounded nodes included: for transient.hpp. Rooms 1, 2, ... then bodies.
struct HeatBalance {
  Matrix a;                                         ///< W/K; off the diagonal <= 0
  std::array<double, most_unknowns> row_sum_w_k{};  ///< what each exchanges with the outside, >= 0
  std::array<double, most_unknowns> source_w{};     ///< heat, and what the outside gives
};

class HeatField {
 public:
  /// Errors: out_of_range or bad_input, naming the field and its place: too many rooms or bodies,
  ///         an index that nothing has, a number outside its interval, a room whose air or a body
  ///         whose liquid does not balance (1e-8 of what passes), a stream stronger than its
  ///         liquid.
  [[nodiscard]] static Result<HeatField> of(const HeatNetwork& network);

  /// (A30): with the heat that the network states.
  [[nodiscard]] HeatState state() const;
  /// (A30): with other heat of the bodies, W; contract: one finite value a body.
  [[nodiscard]] HeatState state(std::span<const double> body_heat_w) const;

  /// (A35): by how much one watt in a body heats every node, K/W. Unbounded nodes: infinity.
  struct Rise {
    std::array<double, most_rooms> room_k_w{};
    std::array<double, most_bodies> body_k_w{};
  };
  [[nodiscard]] Rise rise_of(std::size_t heated_body) const;

  [[nodiscard]] bool unbounded(Node node) const;
  [[nodiscard]] const HeatNetwork& network() const { return network_; }
  [[nodiscard]] HeatBalance balance() const;
  /// Row of a node in the balance; contract: not the outside.
  [[nodiscard]] std::size_t unknown_of(Node node) const;

 private:
  using Unknowns = std::array<double, most_unknowns>;

  explicit HeatField(const HeatNetwork& network) : network_(network) {}
  [[nodiscard]] std::size_t unknowns() const { return network_.rooms - 1 + network_.bodies; }
  [[nodiscard]] HeatState state_of(Unknowns heat_w) const;
  void assemble();
  void find_unbounded();
  void factor();
  void put(Node row, Node column, double w_k);
  void carry(Node from, Node to, double w_k);
  void add_stream(const Stream& stream);
  [[nodiscard]] double to_outside_w(const HeatState& state) const;

  HeatNetwork network_;
  Matrix a_;
  Unknowns from_outside_w_k_{};
  std::bitset<most_unknowns> unbounded_;
  BalanceLu lu_;
};

/// (A32): conductance between a stream's room and its body, recirculation included: C eps (1 - r) /
/// (1 - r + r eps). Inputs as in Stream, unchecked.
[[nodiscard]] double stream_conductance_w_k(const Stream& stream, const AirHeat& air);

}  // namespace rigproof::air
