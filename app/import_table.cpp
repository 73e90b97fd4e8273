#include "app/import_table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/files.hpp"
#include "catalog/rewrite_table.hpp"

namespace rigproof::app {
namespace {

namespace fs = std::filesystem;

fs::path file_of(const Workshop& workshop, int table) {
  return fs::path(workshop.folder) / (std::string(spec(table).name) + ".csv");
}

// The folder's files with these in place of the old ones.
Result<Catalog> load_with(const Workshop& workshop, const std::vector<FileToWrite>& files) {
  auto old = read_tables(workshop.folder);
  if (!old) return tl::unexpected(old.error());
  for (const FileToWrite& file : files) {
    const auto at = std::ranges::find(*old, file.path.string(), &FolderFile::name);
    if (at != old->end())
      at->bytes = file.bytes;
    else
      old->push_back({.name = file.path.string(), .bytes = file.bytes});
  }
  std::vector<TableFile> tables;
  for (const FolderFile& file : *old) tables.push_back({file.name, file.bytes});
  auto loaded = load_catalog(tables);
  if (!loaded)
    return bad_input(
        "nothing was written: the catalog would not load with these rows (lines are "
        "those of the files as they would be)\n" +
        loaded.error().report());
  return std::move(loaded->catalog);
}

// Every new text stands where it should in what was loaded again.
bool arrived(const Catalog& now, const ImportPlan& plan) {
  std::map<std::string, Row> rows;
  for (Row row = 0; row < now.rows(plan.table); ++row)
    rows.emplace(now.row_key(plan.table, row), row);
  for (const auto* list : {&plan.added, &plan.changed})
    for (const RowChange& change : *list) {
      const auto at = rows.find(change.key);
      if (at == rows.end()) return false;
      for (const CellChange& cell : change.cells)
        if (now.text(
                {static_cast<std::uint8_t>(plan.table), static_cast<std::uint8_t>(cell.column)},
                at->second) != cell.new_text)
          return false;
    }
  return true;
}

Result<std::vector<FileToWrite>> rewritten_files(const Workshop& workshop, Imported& out) {
  std::vector<FileToWrite> files;
  for (const ImportPlan* plan : {&out.plan, &out.provenance}) {
    if (plan->empty()) continue;
    const fs::path path = file_of(workshop, plan->table);
    std::string bytes;
    if (workshop.catalog.present(plan->table)) {
      auto old = read_file(path);
      if (!old) return tl::unexpected(old.error());
      bytes = std::move(*old);
    }
    Rewritten now = rewrite_table(workshop.catalog, *plan, bytes);
    for (const std::string_view column : now.new_columns)
      out.new_columns.push_back(fmt::format("{}.{}", spec(plan->table).name, column));
    out.files.push_back(path.string());
    files.push_back({.path = path, .bytes = std::move(now.bytes)});
  }
  return files;
}

}  // namespace

Result<Imported> import_table(const Workshop& workshop, const ImportOptions& options) {
  const auto toml = read_file(options.mapping);
  if (!toml) return tl::unexpected(toml.error());
  auto mapping = read_mapping(*toml, options.mapping, workshop.catalog);
  if (!mapping) return bad_input(mapping.error().report());
  const auto bytes = read_input(options.pasted);
  if (!bytes) return tl::unexpected(bytes.error());

  Imported out{.options = options,
               .catalog = workshop.folder,
               .mapping = std::move(*mapping),
               .plan = {},
               .provenance = {},
               .bad = {},
               .new_columns = {},
               .files = {}};
  const std::string name = options.pasted == "-" ? "standard input" : options.pasted;
  out.plan = plan_import(workshop.catalog, out.mapping, {.name = name, .bytes = *bytes}, out.bad);
  const bool unreadable = out.plan.rows == 0 && !out.bad.empty();
  if (!out.bad.empty() && (unreadable || !options.skip_bad)) return bad_input(out.bad.report());
  out.provenance = provenance_of(workshop.catalog, out.mapping, out.plan);

  const auto files = rewritten_files(workshop, out);
  if (!files) return tl::unexpected(files.error());
  if (files->empty()) return out;
  const auto now = load_with(workshop, *files);
  if (!now) return tl::unexpected(now.error());
  if (!arrived(*now, out.plan) || !arrived(*now, out.provenance))
    return fail(ErrorCode::io,
                fmt::format("{}: changed while it was read; nothing was written", workshop.folder));
  if (!options.write) return out;
  if (const auto done = write_together(*files); !done) return tl::unexpected(done.error());
  out.written = true;
  return out;
}

}  // namespace rigproof::app
