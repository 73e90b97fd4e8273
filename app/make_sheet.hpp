// Use case `sheet`: everything that is published of a build, written into a folder.
#pragma once

#include <filesystem>
#include <vector>

#include "app/plan_brief.hpp"
#include "app/planning.hpp"
#include "sheet/model.hpp"

namespace rigproof::app {

/// The sheet of a planned build (the plan's proof stands on it) with runner-ups.
[[nodiscard]] sheet::Sheet sheet_of_plan(const Workshop& workshop, Planning& planning,
                                         const Planned& planned, const LongJob& job);

/// The sheet of a given build under a brief: the catalog is searched for the best one, and the
/// proof says whether it is this one; runner-ups leave the other parts as they are. A build that
/// cannot be bought whole has no score and is not searched for; the sheet names what cannot be
/// bought.
[[nodiscard]] sheet::Sheet sheet_of_build(const Workshop& workshop, Planning& planning,
                                          const BuildFile& build, const LongJob& job);

/// The sheet of a build judged alone: claims only, no prices, no titles.
[[nodiscard]] sheet::Sheet sheet_of_build_alone(const Workshop& workshop, const BuildFile& build);

struct SheetFile {
  std::string name, bytes;
};
/// What is published, file by file, the HTML first.
[[nodiscard]] std::vector<SheetFile> sheet_files(const sheet::Sheet& sheet);

/// sheet.html, sheet.md, parts.csv, claims.csv, prices.csv, drawing.svg:
/// replaced all together or not at all. Errors: io.
[[nodiscard]] Result<std::vector<std::filesystem::path>> write_sheet(
    const sheet::Sheet& sheet, const std::filesystem::path& folder);

}  // namespace rigproof::app
