// Use case `fit`: where everything of a build sits, in detail, and its drawings.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "app/workshop.hpp"
#include "catalog/measured.hpp"
#include "sheet/fit_answer.hpp"

namespace rigproof::app {

/// In: `brief` null where the build is judged alone. `stop` ends the trying of remedies; may be
/// empty. Errors: bad_input when the brief's offers cannot be priced.
[[nodiscard]] Result<sheet::Fit> fit_of_build(const Workshop& workshop, const Brief* brief,
                                              const BuildFile& build,
                                              const std::function<bool()>& stop);

/// Names what was measured, and what it changed of the claims. In: `fit` is of `now`, which holds
/// the measured cells in place of those of `before`, under the same brief.
void add_measured(sheet::Fit& fit, const Catalog& before, const Brief* brief,
                  const BuildFile& build, const Catalog& now,
                  const std::vector<MeasuredCell>& cells);

/// What is drawn of a build under a brief (which settles where things sit): its fit claims stand
/// among `claims`. Nothing without a case.
[[nodiscard]] std::optional<fit::Scene> scene_of_build(const Catalog& catalog, const Brief& brief,
                                                       const Build& build, const Setup* setup,
                                                       const std::vector<Claim>& claims,
                                                       const std::string& title);

struct WrittenDrawings {
  std::vector<std::filesystem::path> files{};
  std::optional<std::filesystem::path> kept_form{};  ///< a form in which values stand
};
/// side.svg, top.svg, front.svg, drawing.svg (all three on a framed sheet), scene.json, and
/// measure.csv to be filled in on the table: replaced all together or not at all, but for a
/// measure.csv in which values stand, which stays as it is. Errors: io.
[[nodiscard]] Result<WrittenDrawings> write_drawings(const sheet::Fit& fit,
                                                     const std::filesystem::path& folder);

}  // namespace rigproof::app
