// From bytes to a catalog: every table checked against the schema, every bad row reported.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/catalog.hpp"
#include "catalog/complaints.hpp"

namespace rigproof {

/// One file of the folder: its name (for messages, such as `demo/catalog/gpu.csv`) and its bytes.
struct TableFile {
  std::string name;  ///< as messages show it
  std::string_view bytes;
};

/// Only rows can be left out: a file that is no text or has a fault in its header, or a file that
/// is no table refuses the whole catalog even with skip_bad. What refers to a row that is left out
/// is left out too, and listed.
struct LoadOptions {
  bool skip_bad = false;  ///< leave bad rows out instead of refusing the whole catalog
};

struct Loaded {
  Catalog catalog;
  Complaints skipped;  ///< with skip_bad: what was left out
};

/// Checks everything in one pass over all files; nothing is given back unless all is good or
/// skip_bad. The table of a file is its base name without `.csv`; a name the schema does not know
/// is a complaint with the nearest known one. Any table may be absent, not all. Errors: the
/// complaints (all counted, first 100 kept).
[[nodiscard]] tl::expected<Loaded, Complaints> load_catalog(const std::vector<TableFile>& files,
                                                            const LoadOptions& options = {});

/// One table as CSV text (RFC 4180, comma, LF, header row) that loads back to the same values.
[[nodiscard]] std::string write_table(const Catalog& catalog, int table);

}  // namespace rigproof
