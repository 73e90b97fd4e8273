#include "app/look_alikes.hpp"

#include <algorithm>
#include <bit>
#include <string>
#include <unordered_map>

namespace rigproof::app {
namespace {

void append(std::string& key, std::uint64_t value) {
  key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

// What a part looks like to a rule, as bytes.
class Look {
 public:
  explicit Look(const Catalog& catalog) : catalog_(&catalog) {}

  void cell(ColumnId id, Row row) {
    if (catalog_->absent(id, row)) {
      has_hole = true;
      key += '\x1E';
      return;
    }
    key += '\x1D';
    const ColumnSpec& column = spec(id);
    if (column.type == Type::number || column.type == Type::count) {
      append(key, std::bit_cast<std::uint64_t>(catalog_->number(id, row)));
      append(key, std::bit_cast<std::uint64_t>(catalog_->half_width(id, row)));
    } else {
      key += catalog_->text(id, row);
      key += '\0';
    }
  }

  void children(ColumnId id, PartRef part) {
    const auto rows = catalog_->rows_of(id.table, part);
    if (rows.empty()) has_hole = true;
    for (const Row child : rows) cell(id, child);
    key += '\x1F';
  }

  std::string key;
  bool has_hole = false;

 private:
  const Catalog* catalog_;
};

}  // namespace

bool speaks_of(int relation, Kind kind) {
  const std::string_view parent = spec(relation).columns[0].refers;
  return relation >= kind_count && (parent == "part" || parent == name_of(kind));
}

std::vector<LookAlikes> look_alikes(const Catalog& catalog, const Rule& rule, Kind kind,
                                    std::span<const Row> parts) {
  std::vector<LookAlikes> groups;
  std::unordered_map<std::string, std::size_t> known;
  for (const Row row : parts) {
    Look look(catalog);
    for (const ColumnId id : rule.reads) {
      if (int{id.table} == table_of(kind))
        look.cell(id, row);
      else if (id.column > 0 && spec(id).refers == name_of(kind))
        append(look.key, row);  // a relation of another kind names this very part
      else if (speaks_of(id.table, kind))
        look.children(id, {kind, row});
    }
    const auto [at, is_new] = known.try_emplace(std::move(look.key), groups.size());
    if (is_new) groups.push_back({.rows = {}, .has_hole = look.has_hole});
    groups[at->second].rows.push_back(row);
  }
  std::ranges::stable_sort(groups, [](const LookAlikes& a, const LookAlikes& b) {
    return a.has_hole != b.has_hole ? a.has_hole : a.size() > b.size();
  });
  return groups;
}

bool hole_elsewhere(const Catalog& catalog, const Rule& rule) {
  return std::ranges::any_of(rule.reads, [&](ColumnId id) {
    const int table = id.table;
    const bool of_a_part = std::ranges::any_of(
        rule.kinds, [&](Kind kind) { return table == table_of(kind) || speaks_of(table, kind); });
    if (of_a_part) return false;
    for (Row row = 0; row < catalog.rows(table); ++row)
      if (catalog.absent(id, row)) return true;
    return false;
  });
}

}  // namespace rigproof::app
