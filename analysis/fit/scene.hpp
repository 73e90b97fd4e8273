// A build in its case as boxes: what drawings are made of, and the page that turns it in space.
//
// Millimetres. The case stands as it is used. The board's face is the plane y = 0, since the rooms
// for coolers and cards are counted from it; the board itself and its tray lie behind.
//   x  from the inside of the rear panel, where boards and cards end, to the front
//   y  from the board's face towards the side panel that opens
//   z  from the inside of the bottom upwards
// A box says for every axis whether its place there follows from the tables and standards. Where it
// does not, the numbers are only where it is drawn, and nobody may compute with them.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "claims/claim.hpp"

namespace rigproof::fit {

enum class Axis { x, y, z };

/// What a box is for: how it is drawn and colored follows from this, never from its kind's name.
enum class Use {
  outline,  ///< the case itself, or its chamber for the supply
  board,
  memory,
  card,
  cooler,  ///< on the processor: tower, flat cooler or pump block
  radiator,
  fan,
  supply,
  drive,
  bend  ///< room that a plug and its cable need
};

struct Extent {
  double low_mm = 0.0;
  double high_mm = 0.0;
  bool placed = true;  ///< false: the size may be known, the place is not
  bool sized = true;   ///< false: the size is not known either
};

struct Box {
  std::string name;     ///< short, for the drawing: "card", "memory", "fan 120"
  std::string part_id;  ///< "" for what is no part, such as the supply's chamber
  Use use = Use::outline;
  std::array<Extent, 3> at{};  ///< by Axis
  std::string mount = {};      ///< name of the mount that bears it; "" for what hangs from none
};

/// A clearance to be shown: the gap between two edges along one axis, with its claim.
struct Gap {
  std::string claim_id;  ///< "fit.card-length"
  std::string where;     ///< as in the claim, when an id repeats
  Axis axis = Axis::x;
  double from_mm = 0.0;           ///< where the gap begins: the edge of what is measured
  double to_mm = 0.0;             ///< where it ends; less than from_mm when the two overlap
  std::array<double, 3> at_mm{};  ///< a point in the middle of the gap, for the other two axes
  double value_mm = 0.0;          ///< of the claim: what is measured
  double limit_mm = 0.0;          ///< of the claim
  double margin_mm = 0.0;         ///< of the claim, signed: negative is missing
  Verdict verdict = Verdict::unknown;
};

/// A length worth a dimension line: the whole case, the card, the room.
struct Dimension {
  std::string text;  ///< "card", "room"; "" for the number alone
  Axis axis = Axis::x;
  double from_mm = 0.0;
  double to_mm = 0.0;
  double plus_minus_mm = 0.0;
  std::array<double, 3> at_mm{};  ///< where the thing measured lies, for the other two axes
};

struct Scene {
  std::string title;                ///< the build's name
  std::array<double, 3> size_mm{};  ///< of the case, outside; 0: not stated
  std::vector<Box> boxes;           ///< what is farther from the side panel first
  std::vector<Gap> gaps;            ///< nearest to failing first
  std::vector<Dimension> dimensions;
  std::vector<std::string> notes;  ///< what is not known and therefore drawn dashed
};

}  // namespace rigproof::fit
