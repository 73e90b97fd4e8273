// Use case `import`: a pasted table held against the catalog through a mapping, shown, and written
// when asked.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "app/workshop.hpp"
#include "catalog/import.hpp"

namespace rigproof::app {

struct ImportOptions {
  std::string pasted;   ///< file, or "-": standard input
  std::string mapping;  ///< file
  bool write = false;
  bool skip_bad = false;  ///< leave bad rows out and go on
  /// In place of the files, whose names then only messages use.
  std::optional<std::string> pasted_text = {};
  std::optional<std::string> mapping_text = {};
};

struct Imported {
  ImportOptions options;
  std::string catalog;  ///< folder
  Mapping mapping;
  ImportPlan plan;
  ImportPlan provenance;
  Complaints bad;                        ///< with skip_bad: what was left out
  std::vector<std::string> new_columns;  ///< that the table's file gets
  std::vector<std::string> files;        ///< written, or to be written
  bool written = false;
};

/// Nothing is written unless options.write, all is well (or skip_bad) and the catalog that would
/// result loads without a complaint; then both files change together or neither.
/// Errors: io; bad_input with all complaints about mapping, pasted table or the result.
[[nodiscard]] Result<Imported> import_table(const Workshop& workshop, const ImportOptions& options);

[[nodiscard]] std::string import_text(const Imported& imported, const Catalog& catalog, int width,
                                      bool color);
[[nodiscard]] std::string import_json(const Imported& imported);

}  // namespace rigproof::app
