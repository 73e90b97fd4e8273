// The answer of `rigproof fit`: where everything of a build sits, what is tight, what it is screwed
// on with, and what to measure first. Filled by app/, written by fit_text and fit_json.
#pragma once

#include <string>
#include <vector>

#include "analysis/fit/fasteners.hpp"
#include "analysis/fit/scene.hpp"
#include "analysis/fit/standoffs.hpp"
#include "claims/claim.hpp"
#include "sheet/answers.hpp"

namespace rigproof::sheet {

/// Something that sits on a mount of the case.
struct Seat {
  std::string mount;  ///< "front"; empty: no mount is left for it
  std::string what;   ///< "2 x Wexcombe Gust 120", "radiator of Tidewell Culvert 240"
  std::string part_id;
  std::string wished;      ///< mount the build file names for it; empty: chosen here
  int displaced_fans = 0;  ///< fans sold with the case on that mount, which make room for it
};

/// A cell that verdicts hang on: worth measuring on the parts in the hand.
struct ToMeasure {
  WorkingCell cell;
  std::vector<std::string> claims;  ///< ids, with where: those whose verdict hangs on it
};

/// A cell that was measured, in place of the catalog's.
struct MeasuredHere {
  WorkingCell cell;      ///< as measured
  std::string now, was;  ///< "128.5 mm, plus-minus 0.5 mm"; "not known" in the catalog
  bool read = true;      ///< some claim of this build looks at it
};

struct Fit {
  std::string build;
  std::string brief = {};  ///< its name; empty: judged alone
  std::string chassis;     ///< name; empty: the build has none
  std::vector<Seat> seats;
  std::vector<Claim> claims;  ///< those of this engine, in the rulebook's order
  fit::StandoffPlan standoffs;
  std::vector<fit::FastenerLine> fasteners;
  std::vector<ToMeasure> to_measure;  ///< what most verdicts hang on first
  std::vector<MeasuredHere> measured;
  std::vector<ClaimChange> turned;  ///< what measuring changed of the claims; must claims only
  fit::Scene scene;
};

inline constexpr const char* fit_schema = "rigproof.fit/1";

/// For people. `color` and width as in TextStyle (text.hpp).
struct TextStyle;
[[nodiscard]] std::string fit_text(const Fit& fit, const TextStyle& style);
[[nodiscard]] std::string fit_json(const Fit& fit);
/// CSV to be filled in and given back (catalog/measured.hpp): a line for each cell of to_measure
/// that has a place in the catalog's tables.
[[nodiscard]] std::string measure_form_csv(const Fit& fit);

}  // namespace rigproof::sheet
