#include "app/overlay.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "catalog/rewrite_table.hpp"

namespace rigproof::app {
namespace {

namespace fs = std::filesystem;

Result<FileToWrite> rewritten_file(const Workshop& workshop, const ImportPlan& plan,
                                   std::vector<std::string>& new_columns) {
  const std::string_view table = spec(plan.table).name;
  const fs::path path = fs::path(workshop.folder) / (std::string(table) + ".csv");
  std::string bytes;
  if (workshop.catalog.present(plan.table)) {
    auto old = read_file(path);
    if (!old) return tl::unexpected(old.error());
    bytes = std::move(*old);
  }
  Rewritten now = rewrite_table(workshop.catalog, plan, bytes);
  for (const std::string_view column : now.new_columns)
    new_columns.push_back(fmt::format("{}.{}", table, column));
  return FileToWrite{.path = path, .bytes = std::move(now.bytes)};
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

}  // namespace

Result<tl::expected<Loaded, Complaints>> load_with(const std::filesystem::path& folder,
                                                   const std::vector<FileToWrite>& files) {
  auto all = read_tables(folder);
  if (!all) return tl::unexpected(all.error());
  for (const FileToWrite& file : files) {
    std::erase_if(*all, [&](const FolderFile& old) { return old.name == file.path.string(); });
    if (!file.bytes.empty()) all->push_back({.name = file.path.string(), .bytes = file.bytes});
  }
  std::vector<TableFile> tables;
  for (const FolderFile& file : *all) tables.push_back({file.name, file.bytes});
  return load_catalog(tables);
}

Result<Overlay> overlay(const Workshop& workshop, std::span<const ImportPlan> plans) {
  Overlay out;
  for (const ImportPlan& plan : plans) {
    if (plan.empty()) continue;
    auto file = rewritten_file(workshop, plan, out.new_columns);
    if (!file) return tl::unexpected(file.error());
    out.files.push_back(std::move(*file));
  }
  auto loaded = load_with(workshop.folder, out.files);
  if (!loaded) return tl::unexpected(loaded.error());
  if (!*loaded)
    return bad_input(
        "the catalog would not load with these rows (lines are those of the files as they would "
        "be)\n" +
        loaded->error().report());
  Catalog& catalog = (*loaded)->catalog;
  for (const ImportPlan& plan : plans)
    if (!arrived(catalog, plan))
      return fail(ErrorCode::io, fmt::format("{}: changed while it was read", workshop.folder));
  out.catalog = std::move(catalog);
  return out;
}

}  // namespace rigproof::app
