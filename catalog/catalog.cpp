#include "catalog/catalog.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "base/text.hpp"

namespace rigproof {
namespace {

bool is_numeric(Type type) { return type == Type::number || type == Type::count; }

bool is_word(Type type) {
  using enum Type;
  return type == slug || type == text || type == token || type == tokens || type == currency ||
         type == market;
}

bool has_id(int table) { return spec(table).columns[0].type == Type::slug; }

}  // namespace

const Catalog::TableData& Catalog::data(int table) const {
  RP_EXPECT(table >= 0 && table < schema::table_count);
  return tables_[static_cast<std::size_t>(table)];
}

const Catalog::ColumnData& Catalog::data(ColumnId column, Row row) const {
  const TableData& table = data(column.table);
  RP_EXPECT(row < table.rows && column.column < table.columns.size());
  return table.columns[column.column];
}

bool Catalog::absent(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  const Type type = spec(column).type;
  if (is_word(type)) return cells.words[row] == 0;
  if (type == Type::reference) return cells.words[row] == no_row;
  if (type == Type::money) return cells.minors[row] == no_minor;
  return std::isnan(cells.numbers[row]);
}

double Catalog::number(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  RP_EXPECT(is_numeric(spec(column).type));
  return cells.numbers[row];
}

std::optional<bool> Catalog::flag(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  RP_EXPECT(spec(column).type == Type::flag);
  const double value = cells.numbers[row];
  if (std::isnan(value)) return {};
  return value != 0.0;
}

std::optional<Date> Catalog::date(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  RP_EXPECT(spec(column).type == Type::date);
  const double days = cells.numbers[row];
  if (std::isnan(days)) return {};
  return Date{static_cast<std::int32_t>(days)};
}

std::string_view Catalog::word(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  RP_EXPECT(is_word(spec(column).type));
  return words_[cells.words[row]];
}

bool Catalog::has_token(ColumnId column, Row row, std::string_view token) const {
  RP_EXPECT(spec(column).type == Type::tokens);
  std::string_view rest = word(column, row);
  if (rest.empty()) return false;
  for (;;) {
    const std::size_t bar = rest.find('|');
    if (rest.substr(0, bar) == token) return true;
    if (bar == std::string_view::npos) return false;
    rest.remove_prefix(bar + 1);
  }
}

std::optional<std::int64_t> Catalog::minor(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  RP_EXPECT(spec(column).type == Type::money);
  if (cells.minors[row] == no_minor) return {};
  return cells.minors[row];
}

Row Catalog::reference(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  RP_EXPECT(spec(column).type == Type::reference && spec(column).refers != "part");
  return cells.words[row];
}

PartRef Catalog::part(ColumnId column, Row row) const {
  const ColumnData& cells = data(column, row);
  RP_EXPECT(spec(column).type == Type::reference && spec(column).refers == "part");
  if (cells.words[row] == no_row) return {};
  return unpack(cells.words[row]);
}

std::span<const Row> Catalog::rows_of(int relation, PartRef part) const {
  const TableData& table = data(relation);
  RP_EXPECT(spec(relation).columns[0].type == Type::reference);
  RP_EXPECT(part.row < rows(table_of(part.kind)));
  const auto& start = table.child_start[static_cast<std::size_t>(part.kind)];
  if (start.empty()) return {};
  return std::span(table.child_rows)
      .subspan(start[part.row], start[part.row + 1] - start[part.row]);
}

std::optional<PartRef> Catalog::find_part(std::string_view id) const {
  const auto found = words_.find(id);
  if (!found || *found >= part_of_word_.size() || part_of_word_[*found] == no_row) return {};
  return unpack(part_of_word_[*found]);
}

std::optional<Row> Catalog::find_row(int table, std::string_view id) const {
  const TableData& rows = data(table);
  RP_EXPECT(has_id(table));
  if (table < kind_count) {
    const auto part = find_part(id);
    if (!part || table_of(part->kind) != table) return {};
    return part->row;
  }
  const auto found = words_.find(id);
  if (!found || *found >= rows.row_of_word.size() || rows.row_of_word[*found] == no_row) return {};
  return rows.row_of_word[*found];
}

std::string Catalog::money_text(ColumnId column, Row row) const {
  const auto columns = spec(column.table).columns;
  const auto at = std::ranges::find(columns, Type::currency, &ColumnSpec::type);
  RP_EXPECT(at != columns.end());  // the schema gives every table with amounts a currency column
  const ColumnId code{column.table, static_cast<std::uint8_t>(at - columns.begin())};
  const auto currency = parse_currency(word(code, row));
  const auto amount = minor(column, row);
  RP_EXPECT(currency && amount);
  if (!currency || !amount) return {};  // said for tools that do not know RP_EXPECT
  return to_plain({*currency, *amount});
}

std::string Catalog::text(ColumnId column, Row row) const {
  if (absent(column, row)) return {};
  switch (spec(column).type) {
    case Type::number:
    case Type::count:
      return shortest(number(column, row));
    case Type::flag:
      return flag(column, row).value_or(false) ? "yes" : "no";
    case Type::date:
      return to_string(date(column, row).value_or(Date{}));
    case Type::money:
      return money_text(column, row);
    case Type::reference: {
      if (spec(column).refers == "part") return std::string(id(part(column, row)));
      const auto target = static_cast<std::uint8_t>(target_of(spec(column)));
      return std::string(word({target, 0}, reference(column, row)));
    }
    default:
      return std::string(word(column, row));
  }
}

std::string Catalog::row_key(int table, Row row) const {
  std::string key;
  for (int c = 0; c < spec(table).key_columns; ++c) {
    if (c > 0) key += '/';
    key += text({static_cast<std::uint8_t>(table), static_cast<std::uint8_t>(c)}, row);
  }
  return key;
}

std::size_t Catalog::line(int table, Row row) const {
  RP_EXPECT(row < rows(table));
  return data(table).lines[row];
}

template <class Wanted>
std::optional<Row> Catalog::most_particular(ColumnId column, Row row, Wanted wanted) const {
  if (provenance_.empty()) return {};
  for (const auto& [r, c] : {std::pair{row, column.column}, std::pair{row, any_column},
                             std::pair{no_row, column.column}, std::pair{no_row, any_column}}) {
    const auto found = provenance_.find(provenance_key(column.table, r, c));
    if (found != provenance_.end() && wanted(found->second)) return found->second;
  }
  return {};
}

double Catalog::half_width(ColumnId column, Row row) const {
  const double value = number(column, row);
  RP_EXPECT(!std::isnan(value));
  static constexpr ColumnId plus_minus = rigproof::column("provenance", "plus_minus");
  const auto stated = most_particular(column, row, [&](Row p) { return !absent(plus_minus, p); });
  if (stated) return number(plus_minus, *stated);
  return std::max(spec(column).tolerance, spec(column).tolerance_frac * std::fabs(value));
}

std::optional<Row> Catalog::provenance(ColumnId column, Row row) const {
  RP_EXPECT(row < rows(column.table) && column.column < spec(column.table).columns.size());
  return most_particular(column, row, [](Row) { return true; });
}

Draws Catalog::cell(ColumnId column, Row row, std::uint64_t seed) const {
  const double value = number(column, row);
  const ColumnSpec& what = spec(column);
  const auto own_stream = [&] {
    const std::string_view table = spec(column.table).name;
    if (has_id(column.table)) return stream(table, word({column.table, 0}, row), what.name, seed);
    return stream(table, row_key(column.table, row), what.name, seed);
  };
  if (std::isnan(value)) {
    if (std::isnan(what.class_low) || std::isnan(what.class_high)) return Draws::absent();
    return Draws::span(what.class_low, what.class_high, own_stream());
  }
  const double half = half_width(column, row);
  if (half == 0.0) return Draws(value);
  return Draws::uniform(value - half, value + half, own_stream());
}

std::size_t Catalog::part_count() const {
  std::size_t count = 0;
  for (int table = 0; table < kind_count; ++table) count += rows(table);
  return count;
}

}  // namespace rigproof
