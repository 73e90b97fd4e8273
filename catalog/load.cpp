#include "catalog/load.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "catalog/builder.hpp"

namespace rigproof {
namespace {

std::string_view folder_of(std::string_view file) {
  const std::size_t slash = file.find_last_of("/\\");
  return slash == std::string_view::npos ? "" : file.substr(0, slash + 1);
}

std::string_view table_name_of(std::string_view file) {
  file.remove_prefix(folder_of(file).size());
  if (file.ends_with(".csv")) file.remove_suffix(4);
  return file;
}

std::string file_list() {
  std::string list;
  for (const TableSpec& table : schema::tables)
    list += fmt::format("{}{}.csv", list.empty() ? "" : ", ", table.name);
  return list;
}

// The schema's order is the order of reading: what is referred to comes before what refers.
consteval bool references_look_back() {
  for (std::size_t t = 0; t < schema::tables.size(); ++t) {
    for (const ColumnSpec& column : schema::tables[t].columns) {
      if (column.type != Type::reference) continue;
      std::size_t last = static_cast<std::size_t>(kind_count) - 1;
      if (column.refers != "part")
        for (last = 0; schema::tables[last].name != column.refers; ++last) {
        }
      if (last >= t) return false;
    }
  }
  return true;
}
static_assert(references_look_back());

}  // namespace

CatalogBuilder::CatalogBuilder()
    : states_(schema::tables.size()), ids_(schema::tables.size() - kind_count + 1) {
  for (int t = 0; t < schema::table_count; ++t) data(t).columns.resize(spec(t).columns.size());
}

std::vector<IdEntry>& CatalogBuilder::ids_of(int table) {
  return ids_[table < kind_count ? 0U : static_cast<std::size_t>(table - kind_count + 1)];
}

IdEntry CatalogBuilder::id_entry(int table, std::uint32_t word) {
  const auto& ids = ids_of(table);
  return word < ids.size() ? ids[word] : IdEntry{};
}

void CatalogBuilder::check_files(const std::vector<TableFile>& files) {
  if (files.empty()) {
    files_.add({.file = {},
                .what = "there is no table in the folder",
                .expected = "at least one of " + file_list(),
                .text = {}});
    return;
  }
  std::vector<int> given(schema::tables.size());
  std::array<std::string_view, schema::tables.size()> names;
  std::ranges::transform(schema::tables, names.begin(), &TableSpec::name);
  for (const TableFile& file : files) {
    const std::string_view name = table_name_of(file.name);
    if (const auto table = find_table(name)) {
      if (++given[static_cast<std::size_t>(*table)] == 2)
        files_.add({.file = file.name,
                    .what = "the table is given twice",
                    .expected = "one file a table",
                    .text = {}});
      continue;
    }
    const auto near = nearest(name, names);
    files_.add({.file = file.name,
                .what = "there is no such table",
                .expected = near ? fmt::format("{}.csv perhaps", *near) : "one of " + file_list(),
                .text = excerpt(name)});
  }
}

bool CatalogBuilder::broken() const {
  return !files_.empty() || std::ranges::any_of(states_, &TableState::broken);
}

Complaints CatalogBuilder::complaints() const {
  Complaints all = files_;
  for (const TableState& own : states_) {
    std::vector<Complaint> shown = own.read.shown();
    shown.insert(shown.end(), own.resolved.shown().begin(), own.resolved.shown().end());
    std::ranges::stable_sort(shown, {},
                             [](const Complaint& c) { return std::pair(c.line, c.column); });
    all.count_unshown(own.read.count() + own.resolved.count() - shown.size());
    for (Complaint& complaint : shown) all.add(std::move(complaint));
  }
  return all;
}

void CatalogBuilder::index_ids() {
  catalog_.part_of_word_.assign(catalog_.words_.size(), no_row);
  for (int t = 0; t < schema::table_count; ++t) {
    if (spec(t).columns[0].type != Type::slug) continue;
    TableData& rows = data(t);
    if (t >= kind_count) rows.row_of_word.assign(catalog_.words_.size(), no_row);
    for (Row row = 0; row < rows.rows; ++row) {
      const std::uint32_t word = rows.columns[0].words[row];
      if (t < kind_count)
        catalog_.part_of_word_[word] = Catalog::pack({static_cast<Kind>(t), row});
      else
        rows.row_of_word[word] = row;
    }
  }
}

// Counting sort of a relation's rows by parent; file order within a parent.
void CatalogBuilder::index_children(int table) {
  const ColumnSpec& parent = spec(table).columns[0];
  TableData& own = data(table);
  if (parent.type != Type::reference || !own.present) return;
  const bool any = parent.refers == "part";
  const auto parent_of = [&](Row row) {
    const std::uint32_t cell = own.columns[0].words[row];
    return any ? Catalog::unpack(cell) : PartRef{*find_kind(parent.refers), cell};
  };
  for (int k = 0; k < kind_count; ++k)
    if (any || name_of(static_cast<Kind>(k)) == parent.refers)
      own.child_start[k].assign(data(k).rows + std::size_t{1}, 0);
  for (Row row = 0; row < own.rows; ++row) {
    const PartRef p = parent_of(row);
    ++own.child_start[static_cast<std::size_t>(p.kind)][p.row];
  }
  std::uint32_t sum = 0;
  for (auto& starts : own.child_start) {
    for (std::uint32_t& start : starts) {
      const std::uint32_t count = start;
      start = sum;
      sum += count;
    }
  }
  own.child_rows.resize(own.rows);
  for (Row row = 0; row < own.rows; ++row) {
    const PartRef p = parent_of(row);
    own.child_rows[own.child_start[static_cast<std::size_t>(p.kind)][p.row]++] = row;
  }
  std::uint32_t base = 0;  // each start has moved on to its end, which is the next one's start
  for (auto& starts : own.child_start) {
    if (starts.empty()) continue;
    std::ranges::move_backward(starts.begin(), starts.end() - 1, starts.end());
    starts.front() = base;
    base = starts.back();
  }
}

Catalog CatalogBuilder::finish() {
  index_ids();
  for (int t = 0; t < schema::table_count; ++t) index_children(t);
  return std::move(catalog_);
}

tl::expected<Loaded, Complaints> load_catalog(const std::vector<TableFile>& files,
                                              const LoadOptions& options) {
  CatalogBuilder builder;
  builder.check_files(files);
  for (int table = 0; table < schema::table_count; ++table) {
    const auto file = std::ranges::find(files, spec(table).name,
                                        [](const TableFile& f) { return table_name_of(f.name); });
    if (file != files.end()) builder.read(table, *file);
  }
  builder.resolve(options.skip_bad);
  Complaints complaints = builder.complaints();
  if (builder.broken() || (!complaints.empty() && !options.skip_bad))
    return tl::unexpected(std::move(complaints));
  return Loaded{builder.finish(), std::move(complaints)};
}

}  // namespace rigproof
