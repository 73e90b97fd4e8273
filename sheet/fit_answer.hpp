// The answer of `rigproof fit`: where everything of a build sits, what is tight, what it is screwed
// on with, and what to measure first. Filled by app/, written by fit_text and fit_json.
#pragma once

#include <string>
#include <vector>

#include "analysis/fit/fasteners.hpp"
#include "analysis/fit/scene.hpp"
#include "analysis/fit/standoffs.hpp"
#include "claims/claim.hpp"

namespace rigproof::sheet {

/// Something that sits on a mount of the case.
struct Seat {
  std::string mount;  ///< "front"; empty: no mount is left for it
  std::string what;   ///< "2 x Wexcombe Gust 120", "radiator of Tidewell Culvert 240"
  std::string part_id;
  bool by_author = false;  ///< the build file says so; else chosen here
};

/// A cell that would settle claims if it were measured on the parts in the hand.
struct ToMeasure {
  std::string part;     ///< name; empty: of no part
  std::string meaning;  ///< the column's
  std::string table, row, column;
  std::string now;                  ///< "312 mm, plus-minus 2 mm"; "not known"
  std::vector<std::string> claims;  ///< ids, with where: those whose verdict hangs on it
};

struct Fit {
  std::string build;
  std::string chassis;  ///< name; empty: the build has none
  std::vector<Seat> seats;
  std::vector<Claim> claims;  ///< those of this engine, in the rulebook's order
  fit::StandoffPlan standoffs;
  std::vector<fit::FastenerLine> fasteners;
  std::vector<ToMeasure> to_measure;  ///< what settles most first
  fit::Scene scene;
};

inline constexpr const char* fit_schema = "rigproof.fit/1";

/// For people. `color` and width as in TextStyle (text.hpp).
struct TextStyle;
[[nodiscard]] std::string fit_text(const Fit& fit, const TextStyle& style);
[[nodiscard]] std::string fit_json(const Fit& fit);

}  // namespace rigproof::sheet
