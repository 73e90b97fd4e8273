// One file into its table: header, rows, cells; everything that can be judged without the other
// tables.
#include <fmt/format.h>

#include <algorithm>
#include <bit>

#include "base/text.hpp"
#include "catalog/builder.hpp"
#include "catalog/csv.hpp"
#include "catalog/parse_cell.hpp"

namespace rigproof {
namespace {

constexpr int not_in_file = -1;

std::uint64_t mixed(std::uint64_t state, std::uint64_t value) {
  state = (state ^ value) * 0x9E3779B97F4A7C15ULL;  // multiply and fold; any odd constant will do
  return state ^ (state >> 29U);
}

std::vector<std::string_view> column_names(const TableSpec& table) {
  std::vector<std::string_view> names;
  for (const ColumnSpec& column : table.columns) names.push_back(column.name);
  return names;
}

}  // namespace

class TableReader {
 public:
  TableReader(CatalogBuilder& builder, int table, const TableFile& file)
      : builder_(builder),
        table_(table),
        spec_(spec(table)),
        file_(file),
        data_(builder.data(table)),
        state_(builder.state(table)),
        csv_(file.bytes, file.name, state_.read),
        sign_(csv_.decimal_comma()) {}

  void read() {
    if (!read_header()) {
      state_.broken = state_.unusable = true;
      return;
    }
    while (csv_.next(cells_)) read_row();
  }

 private:
  bool read_header();
  void name_column(const CsvCell& cell, int file_column);
  void read_row();
  bool read_cells();
  bool read_cell(std::size_t column, const CsvCell& cell, std::string_view text);
  bool read_money(std::size_t column, const CsvCell& cell, std::string_view text);
  bool has_text() const;
  bool right_count();
  void find_currency();
  bool enter_id(bool good);
  bool enter_key();
  void keep_place(std::size_t column, const CsvCell& cell);
  void append_absent(std::size_t column);
  void take_back();
  [[nodiscard]] std::uint64_t cell_bits(std::size_t column, Row row) const;

  bool complain(const CsvCell& cell, CellFault fault) {
    complain_at(cell.line, cell.column, std::move(fault), cell.text);
    return false;
  }
  void complain_at(std::size_t line, std::size_t column, CellFault fault, std::string_view text) {
    state_.read.add_made([&] {
      return Complaint{.file = file_.name,
                       .line = line,
                       .column = column,
                       .what = std::move(fault.what),
                       .expected = std::move(fault.expected),
                       .text = excerpt(trim(text))};
    });
  }

  CatalogBuilder& builder_;
  int table_;
  const TableSpec& spec_;
  const TableFile& file_;
  CatalogBuilder::TableData& data_;
  CatalogBuilder::TableState& state_;
  CsvReader csv_;
  DecimalSign sign_;
  std::vector<CsvCell> cells_;
  std::vector<int> place_in_file_;   // schema column -> file column, or not_in_file
  std::vector<int> column_of_cell_;  // file column -> schema column, or not_in_file
  std::string scratch_;
  RowSet keys_;
  std::optional<Currency> currency_;  // of the row
};

// A header that cannot be used ends the reading; a wrong name in it does not, so that all else is
// found too.
bool TableReader::read_header() {
  const bool found = csv_.next(cells_);
  if (!state_.read.empty()) return false;
  if (!found) {
    complain_at(1, 0, {"the file is empty", "a header row with the names of the columns"}, {});
    return false;
  }
  if (cells_.size() == 1 && cells_[0].text.find('\t') != std::string_view::npos) {
    complain_at(cells_[0].line, 1, {"the cells are separated by tabs", "commas or semicolons"},
                cells_[0].text);
    return false;
  }
  place_in_file_.assign(spec_.columns.size(), not_in_file);
  column_of_cell_.assign(cells_.size(), not_in_file);
  for (std::size_t i = 0; i < cells_.size(); ++i) name_column(cells_[i], static_cast<int>(i));
  for (std::size_t c = 0; c < spec_.columns.size(); ++c) {
    if (!spec_.columns[c].required || place_in_file_[c] != not_in_file) continue;
    state_.unusable = true;
    complain_at(cells_[0].line, 0,
                {fmt::format("the column {} is missing", spec_.columns[c].name),
                 fmt::format("it in the header of {}.csv", spec_.name)},
                {});
  }
  state_.broken = !state_.read.empty();
  return true;
}

void TableReader::name_column(const CsvCell& cell, int file_column) {
  const std::string_view name = trim(cell.text);
  for (std::size_t c = 0; c < spec_.columns.size(); ++c) {
    if (spec_.columns[c].name != name) continue;
    if (place_in_file_[c] != not_in_file) {
      complain(cell, {"the column appears twice", "every column once"});
      return;
    }
    place_in_file_[c] = file_column;
    column_of_cell_[static_cast<std::size_t>(file_column)] = static_cast<int>(c);
    return;
  }
  const auto names = column_names(spec_);
  const auto near = nearest(name, names);
  complain(
      cell,
      {name.empty() ? "a column has no name" : fmt::format("{} has no such column", spec_.name),
       near ? fmt::format("{} perhaps", *near) : fmt::format("one of {}", fmt::join(names, ", "))});
}

bool TableReader::has_text() const {
  return std::ranges::any_of(cells_, [](const CsvCell& cell) { return !trim(cell.text).empty(); });
}

bool TableReader::right_count() {
  if (cells_.size() == column_of_cell_.size()) return true;
  const bool more = cells_.size() > column_of_cell_.size();
  const CsvCell& first = more ? cells_[column_of_cell_.size()] : cells_[0];
  complain_at(first.line, more ? first.column : 0,
              {fmt::format("the row has {} cells", cells_.size()),
               fmt::format("{}, as the header has", column_of_cell_.size())},
              more ? first.text : std::string_view{});
  return false;
}

void TableReader::read_row() {
  if (!has_text()) return;  // spreadsheets write such rows below a table
  if (data_.rows >= Catalog::most_rows) {
    complain_at(csv_.line(), 0,
                {"the table has too many rows", fmt::format("at most {}", Catalog::most_rows)}, {});
    return;
  }
  data_.lines.push_back(static_cast<std::uint32_t>(csv_.line()));
  bool good = right_count();
  if (good) {
    good = read_cells();
  } else {
    for (std::size_t c = 0; c < spec_.columns.size(); ++c) append_absent(c);
    const int id = place_in_file_[0];
    if (spec_.columns[0].type == Type::slug && id != not_in_file &&
        static_cast<std::size_t>(id) < cells_.size())
      data_.columns[0].words.back() =
          builder_.catalog_.words_.intern(trim(cells_[static_cast<std::size_t>(id)].text));
  }
  ++data_.rows;
  if (spec_.columns[0].type == Type::slug) good = enter_id(good) && good;
  if (good && !state_.unusable && spec_.columns[0].type != Type::slug) good = enter_key();
  if (!good) take_back();
}

// In the file's order of columns, so that complaints come in the order of the line.
bool TableReader::read_cells() {
  bool good = true;
  find_currency();
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    if (column_of_cell_[i] == not_in_file) continue;
    const auto c = static_cast<std::size_t>(column_of_cell_[i]);
    const std::string_view text = trim(cells_[i].text);
    if (needs_place(table_, spec_.columns[c])) keep_place(c, cells_[i]);
    if (text.empty()) {
      append_absent(c);
      if (spec_.columns[c].required)
        good = complain(cells_[i], {fmt::format("{} is empty", spec_.columns[c].name),
                                    "a value: the column is required"});
    } else if (!read_cell(c, cells_[i], text)) {
      append_absent(c);
      good = false;
    }
  }
  for (std::size_t c = 0; c < spec_.columns.size(); ++c)
    if (place_in_file_[c] == not_in_file) append_absent(c);
  return good;
}

// The currency of the row is needed before its amounts, wherever its column stands.
void TableReader::find_currency() {
  const auto at = std::ranges::find(spec_.columns, Type::currency, &ColumnSpec::type);
  if (at == spec_.columns.end()) return;
  const int place = place_in_file_[static_cast<std::size_t>(at - spec_.columns.begin())];
  const std::string_view text =
      place == not_in_file ? "" : trim(cells_[static_cast<std::size_t>(place)].text);
  if (text.empty() || !currency_ || currency_->view() != text) currency_ = parse_currency(text);
}

bool TableReader::read_cell(std::size_t c, const CsvCell& cell, std::string_view text) {
  const ColumnSpec& column = spec_.columns[c];
  CatalogBuilder::ColumnData& out = data_.columns[c];
  const auto number = [&](const Parsed<double>& value) {
    if (!value) return complain(cell, value.error());
    out.numbers.push_back(*value);
    return true;
  };
  switch (column.type) {
    case Type::number:
    case Type::count:
      return number(parse_number_cell(column, text, sign_, cell.line));
    case Type::flag:
      return number(parse_flag_cell(text));
    case Type::date:
      return number(parse_date_cell(text));
    case Type::money:
      return read_money(c, cell, text);
    default:
      break;
  }
  if (column.type == Type::currency && currency_ && currency_->view() == text) {
    out.words.push_back(builder_.catalog_.words_.intern(text));
    return true;
  }
  const auto word = parse_word_cell(column, text, scratch_);
  if (!word) return complain(cell, word.error());
  out.words.push_back(builder_.catalog_.words_.intern(*word));
  return true;
}

bool TableReader::read_money(std::size_t c, const CsvCell& cell, std::string_view text) {
  if (!currency_) {
    const auto at =
        std::ranges::find(spec_.columns, Type::currency, &ColumnSpec::type) - spec_.columns.begin();
    const int place = place_in_file_[static_cast<std::size_t>(at)];
    const bool named =
        place != not_in_file && !trim(cells_[static_cast<std::size_t>(place)].text).empty();
    if (named || spec_.columns[static_cast<std::size_t>(at)].required)
      return false;  // the currency's own fault
    return complain(cell,
                    {"the amount has no currency", "a code of ISO 4217 in the column currency"});
  }
  const auto minor = parse_money_cell(text, *currency_, sign_, cell.line);
  if (!minor) return complain(cell, minor.error());
  data_.columns[c].minors.push_back(*minor);
  return true;
}

void TableReader::keep_place(std::size_t c, const CsvCell& cell) {
  state_.places[c].push_back({cell.line, cell.column});
}

void TableReader::append_absent(std::size_t c) {
  CatalogBuilder::ColumnData& out = data_.columns[c];
  const auto rows = data_.rows + std::size_t{1};
  switch (spec_.columns[c].type) {
    case Type::number:
    case Type::count:
    case Type::flag:
    case Type::date:
      out.numbers.resize(rows, no_number);
      break;
    case Type::money:
      out.minors.resize(rows, Catalog::no_minor);
      break;
    default:
      out.words.resize(rows, 0);
  }
  if (needs_place(table_, spec_.columns[c])) state_.places[c].resize(rows);
}

// An id counts from its first row on, be that row good or bad: one of the two must be renamed
// anyway.
bool TableReader::enter_id(bool good) {
  const std::uint32_t word = data_.columns[0].words.back();
  if (word == 0) return false;
  auto& ids = builder_.ids_of(table_);
  if (word >= ids.size())
    ids.resize(std::max<std::size_t>(word + std::size_t{1}, ids.size() + ids.size() / 2));
  IdEntry& entry = ids[word];
  const Row row = data_.rows - 1;
  if (entry.line == 0) {
    entry = {data_.lines.back(), static_cast<std::uint8_t>(table_), good ? row : no_row};
    return true;
  }
  const int place = place_in_file_[0];
  const CsvCell& cell = cells_[static_cast<std::size_t>(place)];
  return complain(cell, {fmt::format("the id \"{}\" appears twice", builder_.catalog_.words_[word]),
                         fmt::format("an id of its own; the first stands in {}:{}",
                                     builder_.file_of(entry.table), entry.line)});
}

std::uint64_t TableReader::cell_bits(std::size_t c, Row row) const {
  const CatalogBuilder::ColumnData& cells = data_.columns[c];
  if (!cells.words.empty()) return cells.words[row];
  if (!cells.minors.empty()) return static_cast<std::uint64_t>(cells.minors[row]);
  return std::bit_cast<std::uint64_t>(cells.numbers[row]);
}

// References are still words here, and equal words are equal ids.
bool TableReader::enter_key() {
  const Row row = data_.rows - 1;
  const auto columns = static_cast<std::size_t>(spec_.key_columns);
  std::uint64_t hash = 0;
  for (std::size_t c = 0; c < columns; ++c) hash = mixed(hash, cell_bits(c, row));
  const Row before = keys_.insert(row, hash, [&](Row other) {
    for (std::size_t c = 0; c < columns; ++c)
      if (cell_bits(c, row) != cell_bits(c, other)) return false;
    return true;
  });
  if (before == no_row) return true;
  std::vector<std::string_view> names = column_names(spec_);
  names.resize(columns);
  const CsvCell& cell = cells_[static_cast<std::size_t>(std::max(place_in_file_[0], 0))];
  return complain(cell, {"the row's key appears twice",
                         fmt::format("{} that differ from those in {}:{}", fmt::join(names, " + "),
                                     file_.name, data_.lines[before])});
}

void TableReader::take_back() {
  --data_.rows;
  data_.lines.resize(data_.rows);
  for (std::size_t c = 0; c < data_.columns.size(); ++c) {
    CatalogBuilder::ColumnData& cells = data_.columns[c];
    cells.numbers.resize(std::min<std::size_t>(cells.numbers.size(), data_.rows));
    cells.words.resize(std::min<std::size_t>(cells.words.size(), data_.rows));
    cells.minors.resize(std::min<std::size_t>(cells.minors.size(), data_.rows));
    state_.places[c].resize(std::min<std::size_t>(state_.places[c].size(), data_.rows));
  }
}

void CatalogBuilder::read(int table, const TableFile& file) {
  TableData& into = data(table);
  into.present = true;
  into.columns.resize(spec(table).columns.size());
  TableState& own = state(table);
  own.file = file.name;
  own.places.resize(spec(table).columns.size());
  TableReader(*this, table, file).read();
}

}  // namespace rigproof
