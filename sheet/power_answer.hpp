// The answer of `rigproof power`: what every part draws under each load, what is drawn at the wall,
// on each cable and in a year. Filled by app/, written by power_text and power_json.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "claims/claim.hpp"

namespace rigproof::sheet {

/// What one part, or all of one part's pieces, draw; one quantity a load, in the order of
/// Power::loads. Absent: not known.
struct PowerPart {
  std::string part;  ///< "2 x Wexcombe Gust 120"
  std::string part_id;
  std::vector<std::optional<Quantity>> by_load;
};

/// The wall in one market, or at one mains voltage where no brief names markets.
struct PowerWall {
  std::string where;  ///< "IE"; empty without a brief
  std::string mains;  ///< "230 V"
  bool mains_stated = true;
  std::vector<std::optional<Quantity>> by_load;  ///< W
  std::vector<bool> bound;          ///< by load: below the lowest certified load, only bounded
  std::optional<double> kwh_price;  ///< as used, by day and by night
  std::string currency;             ///< of it
  std::optional<Quantity> kwh_per_year;
  std::optional<Quantity> cost_per_year;
  /// Of this build less the other: what a year costs more or, negative, less; and in what share of
  /// the draws it costs less.
  std::optional<Quantity> cost_beside_other;
  std::optional<double> odds_cheaper;
};

/// A plug that feeds the card or the board, with everything at work.
struct PowerPlug {
  std::string plug;  ///< "2 x pcie8"
  std::string feeds;
  std::optional<Quantity> contact;  ///< A, evenly shared
  double contact_at_most_a = 0.0;
  std::optional<Quantity> drop_v;  ///< there and back
  std::optional<Quantity> loss_w;
};

struct Power {
  std::string build;
  std::string brief;               ///< name; empty: none
  std::string other;               ///< the build it is held beside; empty: none
  std::string hours = {};          ///< of the loads: "2.5 h title, 0.5 h idle"
  std::string supply;              ///< name; empty: the build has none
  std::vector<std::string> loads;  ///< "idle" ...
  std::vector<PowerPart> parts;
  std::vector<std::optional<Quantity>> sums;        ///< W, by load
  std::vector<std::optional<Quantity>> share_frac;  ///< of the supply's rating
  std::vector<PowerWall> walls;
  std::vector<PowerPlug> plugs;
  std::vector<Claim> claims;      ///< those of this engine, in the rulebook's order
  std::vector<std::string> work;  ///< equations with the numbers in, when asked for
  std::vector<std::string> notes;
};

inline constexpr const char* power_schema = "rigproof.power/1";

struct TextStyle;
[[nodiscard]] std::string power_text(const Power& power, const TextStyle& style);
[[nodiscard]] std::string power_json(const Power& power);

}  // namespace rigproof::sheet
