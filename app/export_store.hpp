// Use case `export`: what the workshop's memory holds as plain files that need no Rigproof: briefs,
// builds and mappings as TOML, price series and items as CSV.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalog/catalog.hpp"
#include "store/store.hpp"

namespace rigproof::app {

struct ExportedFile {
  std::string name;  ///< below the folder: `briefs/quiet-living-room.toml`
  std::string bytes;
};

/// Opening would make a new one where there is none. Errors: not_found.
[[nodiscard]] Result<void> store_is_there(const std::string& url);

/// Everything that is kept and not removed, its newest revision each. Names of documents become
/// file names; of two that would be the same file the second gets its id. In: `parts` are those
/// whose prices are wanted. CSV cells are safe in a spreadsheet (sheet/csv.hpp). Errors: those of
/// the store.
[[nodiscard]] Result<std::vector<ExportedFile>> exported(store::Store& store,
                                                         const std::vector<store::PartName>& parts);

/// Writes them all together or none. Errors: io.
[[nodiscard]] Result<std::vector<std::filesystem::path>> write_export(
    const std::vector<ExportedFile>& files, const std::filesystem::path& folder);

/// The names of all parts of a catalog.
[[nodiscard]] std::vector<store::PartName> part_names(const Catalog& catalog);

}  // namespace rigproof::app
