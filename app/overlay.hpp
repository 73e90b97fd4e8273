// The catalog's files with changes written into them, loaded again: on paper, not on disk.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "app/files.hpp"
#include "app/workshop.hpp"
#include "catalog/import.hpp"

namespace rigproof::app {

struct Overlay {
  std::vector<FileToWrite> files;        ///< those of the folder that would change
  std::vector<std::string> new_columns;  ///< that they would get, as `gpu.length_mm`
  Catalog catalog;                       ///< of the whole folder as it would be
};

/// The folder as it would be with these files in place of those of their names, or beside them; a
/// file without bytes is not there. Errors: io; what is wrong is a value.
[[nodiscard]] Result<tl::expected<Loaded, Complaints>> load_with(
    const std::filesystem::path& folder, const std::vector<FileToWrite>& files);

/// The workshop must have been opened without leaving rows out. Empty plans are passed over; none
/// left: no files, and the catalog as it stands on disk. Errors: io; bad_input with the complaints
/// about the folder as it would be, its lines those of the changed files; io when the files were
/// changed meanwhile.
[[nodiscard]] Result<Overlay> overlay(const Workshop& workshop, std::span<const ImportPlan> plans);

}  // namespace rigproof::app
