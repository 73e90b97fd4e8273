#include "catalog/import.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_map>

#include "base/text.hpp"
#include "catalog/csv.hpp"
#include "catalog/pasted_cell.hpp"
#include "catalog/provenance_plan.hpp"

namespace rigproof {
namespace {

ColumnId cell_of(int table, std::size_t column) {
  return {static_cast<std::uint8_t>(table), static_cast<std::uint8_t>(column)};
}

// Keys are compared as texts; a sign no cell may contain stands between them.
std::string joined(const std::vector<std::string>& texts, int keys, std::string_view between) {
  std::string out;
  for (int k = 0; k < keys; ++k) {
    if (k > 0) out += between;
    out += texts[static_cast<std::size_t>(k)];
  }
  return out;
}

constexpr std::string_view no_cell_sign = "\x1F";

std::unordered_map<std::string, Row> rows_by_key(const Catalog& catalog, int table) {
  std::unordered_map<std::string, Row> rows;
  const int keys = spec(table).key_columns;
  std::vector<std::string> texts(static_cast<std::size_t>(keys));
  for (Row row = 0; row < catalog.rows(table); ++row) {
    for (std::size_t k = 0; k < texts.size(); ++k) texts[k] = catalog.text(cell_of(table, k), row);
    rows.emplace(joined(texts, keys, no_cell_sign), row);
  }
  return rows;
}

char found_separator(std::string_view bytes) {
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  std::size_t tabs = 0;
  std::size_t semicolons = 0;
  std::size_t commas = 0;
  bool inside = false;
  bool any = false;
  for (const char c : bytes.substr(0, max_line_bytes)) {
    if (c == '\n' && any) break;
    if (c == '"') inside = !inside;
    any = any || (c != ' ' && c != '\t' && c != '\r' && c != '\n');
    if (inside) continue;
    tabs += c == '\t' ? 1U : 0U;
    semicolons += c == ';' ? 1U : 0U;
    commas += c == ',' ? 1U : 0U;
  }
  if (tabs > 0) return '\t';
  return semicolons > commas ? ';' : ',';
}

class Importer {
 public:
  Importer(const Catalog& catalog, const Mapping& mapping, const TableFile& pasted,
           Complaints& complaints)
      : catalog_(catalog),
        mapping_(mapping),
        table_(spec(mapping.table)),
        file_(pasted.name),
        complaints_(complaints),
        reader_(pasted.bytes, pasted.name, read_,
                mapping.separator.value_or(found_separator(pasted.bytes))),
        rows_(rows_by_key(catalog, mapping.table)) {
    plan_.table = mapping.table;
  }

  ImportPlan run() {
    const bool has_header = reader_.next(record_);
    if (!has_header && read_.empty())
      complain_at(1, 0, {"the pasted table is empty", "a line of headers and rows below it"}, "");
    if (has_header && read_header()) {
      if (mapping_.by == MatchBy::maker_code) index_codes();
      while (reader_.next(record_)) {
        if (std::ranges::all_of(record_, [](const CsvCell& c) { return trim(c.text).empty(); }))
          continue;
        ++plan_.rows;
        if (!read_row()) ++plan_.left_out;
      }
    }
    for (const Complaint& complaint : read_.shown()) complaints_.add(complaint);
    complaints_.count_unshown(read_.count() - read_.shown().size());
    plan_.left_out += read_.count();  // records that break the grammar are rows too
    plan_.rows += read_.count();
    return std::move(plan_);
  }

 private:
  using CellAt = std::size_t;
  static constexpr CellAt constant = ~std::size_t{0};

  bool complain_at(std::size_t line, std::size_t column, const CellFault& fault,
                   std::string_view text) {
    complaints_.add_made([&] {
      return Complaint{.file = file_,
                       .line = line,
                       .column = column,
                       .what = fault.what,
                       .expected = fault.expected,
                       .text = excerpt(trim(text))};
    });
    return false;
  }
  bool complain(const CsvCell& cell, const CellFault& fault) {
    return complain_at(cell.line, cell.column, fault, cell.text);
  }
  [[nodiscard]] const CsvCell& cell(CellAt at) const { return record_[at == constant ? 0 : at]; }

  bool read_header();
  bool find_header(const std::string& name, std::size_t line, CellAt& at);
  void index_codes();
  bool read_row();
  bool read_cells();
  bool find_currency();
  bool find_target();
  bool find_part(PartRef& part, bool& matched);
  bool check_reference(const ColumnMapping& how, CellAt at, const std::string& text);
  bool finish_row();
  bool add_row(const std::string& key);

  const Catalog& catalog_;
  const Mapping& mapping_;
  const TableSpec& table_;
  const std::string& file_;
  Complaints& complaints_;
  Complaints read_;  // the reader's own
  CsvReader reader_;
  std::vector<CsvCell> record_;
  std::unordered_map<std::string, Row> rows_;          // of the catalog's table, by key
  std::unordered_map<std::string, std::size_t> seen_;  // keys of the pasted table -> line
  std::unordered_map<std::string, std::vector<PartRef>> codes_;
  std::vector<CellAt> at_;  // of each mapped column
  CellAt match_at_ = constant;
  std::size_t width_ = 0;
  // Of the row being read:
  std::vector<std::string> texts_;  // by column of the table; "" when nothing is said
  std::optional<Currency> currency_;
  Row target_ = no_row;
  bool skip_ = false;
  ImportPlan plan_;
};

bool Importer::find_header(const std::string& name, std::size_t line, CellAt& at) {
  std::vector<std::string_view> headers;
  headers.reserve(record_.size());
  for (const CsvCell& header : record_) headers.push_back(trim(header.text));
  const std::string_view wanted = trim(name);
  const auto found = std::ranges::find(headers, wanted);
  if (found == headers.end()) {
    const auto near = nearest(wanted, headers);
    complaints_.add(
        {.file = mapping_.file,
         .line = line,
         .column = 0,
         .what = fmt::format("{} has no header of that name", file_),
         .expected = near ? fmt::format("\"{}\" perhaps", *near)
                          : fmt::format("one of {}",
                                        excerpt(fmt::format("{}", fmt::join(headers, ", ")), 300)),
         .text = excerpt(name)});
    return false;
  }
  if (std::find(found + 1, headers.end(), wanted) != headers.end())
    return complain(record_[static_cast<std::size_t>(found - headers.begin())],
                    {"the header stands twice, and the mapping reads it", "headers of their own"});
  at = static_cast<std::size_t>(found - headers.begin());
  return true;
}

bool Importer::read_header() {
  bool good = true;
  width_ = record_.size();
  for (const ColumnMapping& how : mapping_.columns) {
    at_.push_back(constant);
    if (!how.from.empty()) good = find_header(how.from, how.line, at_.back()) && good;
  }
  if (!mapping_.match_from.empty())
    good = find_header(mapping_.match_from, mapping_.match_line, match_at_) && good;
  return good;
}

void Importer::index_codes() {
  for (int k = 0; k < kind_count; ++k) {
    const bool counts = belongs_to_a_part(mapping_.table)
                            ? table_.columns[0].refers == "part" ||
                                  table_.columns[0].refers == name_of(static_cast<Kind>(k))
                            : k == mapping_.table;
    const auto& columns = spec(k).columns;
    const auto code = std::ranges::find(columns, "maker_code", &ColumnSpec::name);
    if (!counts || code == columns.end()) continue;
    const ColumnId id = cell_of(k, static_cast<std::size_t>(code - columns.begin()));
    for (Row row = 0; row < catalog_.rows(k); ++row)
      if (!catalog_.absent(id, row))
        codes_[std::string(catalog_.word(id, row))].push_back({static_cast<Kind>(k), row});
  }
}

bool Importer::read_row() {
  if (record_.size() != width_)
    return complain_at(reader_.line(), 0,
                       {fmt::format("the row has {} cells", record_.size()),
                        fmt::format("{}, as the line of headers has", width_)},
                       record_[0].text);
  texts_.assign(table_.columns.size(), {});
  target_ = no_row;
  skip_ = false;
  bool good = find_target();  // an unmatched row that is passed over has no faults
  if (skip_) return true;
  good = read_cells() && good;
  return good && finish_row();
}

bool Importer::find_currency() {
  currency_.reset();
  for (std::size_t i = 0; i < mapping_.columns.size(); ++i) {
    const ColumnMapping& how = mapping_.columns[i];
    if (table_.columns[how.column].type != Type::currency) continue;
    const auto text =
        catalog_text(mapping_, how, at_[i] == constant ? how.constant : record_[at_[i]].text, {});
    if (text) currency_ = parse_currency(*text);
  }
  return currency_.has_value();
}

bool Importer::read_cells() {
  bool good = true;
  find_currency();
  for (std::size_t i = 0; i < mapping_.columns.size(); ++i) {
    const ColumnMapping& how = mapping_.columns[i];
    Mapping plain;  // a constant is written as the catalog writes it
    plain.table = mapping_.table;
    const auto text = at_[i] == constant
                          ? catalog_text(plain, {.column = how.column, .make_slug = how.make_slug},
                                         how.constant, currency_)
                          : catalog_text(mapping_, how, record_[at_[i]].text, currency_);
    if (!text) {
      const bool in_mapping = at_[i] == constant;
      good = in_mapping
                 ? complain_at(reader_.line(), 0,
                               {fmt::format("{} (a constant of the mapping)", text.error().what),
                                text.error().expected},
                               how.constant)
                 : complain(record_[at_[i]], text.error());
      continue;
    }
    good = check_reference(how, at_[i], *text) && good;
    texts_[how.column] = *text;
  }
  return good;
}

bool Importer::check_reference(const ColumnMapping& how, CellAt at, const std::string& text) {
  const ColumnSpec& column = table_.columns[how.column];
  if (column.type != Type::reference || text.empty()) return true;
  const bool there = column.refers == "part"
                         ? catalog_.find_part(text).has_value()
                         : catalog_.find_row(target_of(column), text).has_value();
  if (there) return true;
  return complain_at(cell(at).line, at == constant ? 0 : cell(at).column,
                     {fmt::format("{} names a row that is not there", column.name),
                      fmt::format("an id of {}.csv", column.refers)},
                     text);
}

// The part that the match names. False after a complaint; `matched` tells whether there is one.
bool Importer::find_part(PartRef& part, bool& matched) {
  const CsvCell& at = cell(match_at_);
  const std::string name(trim(at.text));
  matched = false;
  if (name.empty())
    return complain(at, {"nothing says which part this row speaks of",
                         fmt::format("text under \"{}\"", mapping_.match_from)});
  std::vector<PartRef> found;
  if (const auto alias = mapping_.aliases.find(name); alias != mapping_.aliases.end()) {
    if (const auto known = catalog_.find_part(alias->second)) found = {*known};
  } else if (mapping_.by == MatchBy::id) {
    if (const auto known = catalog_.find_part(name)) found = {*known};
  } else if (mapping_.by == MatchBy::maker_code) {
    if (const auto codes = codes_.find(name); codes != codes_.end()) found = codes->second;
  }
  if (found.size() > 1)
    return complain(at, {"several parts have this maker's code",
                         fmt::format("an alias that says which, such as \"{}\" = \"{}\"", name,
                                     catalog_.id(found.front()))});
  matched = !found.empty();
  if (matched) part = found.front();
  return true;
}

// Which row of the catalog, by the part; tables keyed by id alone are settled when the id is read.
bool Importer::find_target() {
  if (mapping_.match_from.empty()) return true;
  const bool of_a_part = belongs_to_a_part(mapping_.table);
  const std::string name(trim(cell(match_at_).text));
  if (!of_a_part && mapping_.table >= kind_count) {  // titles, sellers
    if (const auto row = catalog_.find_row(mapping_.table, name)) target_ = *row;
    if (target_ == no_row && is_slug(name)) texts_[0] = name;
    return true;
  }
  PartRef part;
  bool matched = false;
  if (!find_part(part, matched)) return false;
  if (!matched) {
    if (mapping_.unmatched == Unmatched::add) return true;
    if (mapping_.unmatched == Unmatched::skip) {
      plan_.unmatched.push_back(name);
      skip_ = true;
      return true;
    }
    return complain(cell(match_at_), {"no part of the catalog answers to this",
                                      mapping_.by == MatchBy::maker_code
                                          ? "a maker's code, or an alias in the mapping"
                                          : "an id, or an alias in the mapping"});
  }
  if (of_a_part) {
    texts_[0] = std::string(catalog_.id(part));
    return true;
  }
  if (table_of(part.kind) != mapping_.table)
    return complain(cell(match_at_), {fmt::format("this is a part of {}.csv", name_of(part.kind)),
                                      fmt::format("one of {}.csv", table_.name)});
  target_ = part.row;
  return true;
}

bool Importer::finish_row() {
  const auto keys = static_cast<std::size_t>(table_.key_columns);
  if (target_ != no_row) {  // matched by name: its key is what the catalog says
    for (std::size_t k = 0; k < keys; ++k)
      texts_[k] = catalog_.text(cell_of(mapping_.table, k), target_);
  } else {
    for (std::size_t k = 0; k < keys; ++k)
      if (texts_[k].empty())
        return complain_at(
            reader_.line(), 0,
            {fmt::format("the row has no {}", table_.columns[k].name),
             fmt::format("a value: {} names a row of {}", table_.columns[k].name, table_.name)},
            record_[0].text);
  }
  const std::string key = joined(texts_, table_.key_columns, no_cell_sign);
  const auto [first, is_first] = seen_.emplace(key, reader_.line());
  if (!is_first)
    return complain_at(reader_.line(), 0,
                       {fmt::format("speaks of {} again", joined(texts_, table_.key_columns, "/")),
                        fmt::format("one row for it; the first stands in line {}", first->second)},
                       record_[0].text);
  const auto known = rows_.find(key);
  if (known == rows_.end()) return add_row(joined(texts_, table_.key_columns, "/"));
  RowChange change{.row = known->second,
                   .key = catalog_.row_key(mapping_.table, known->second),
                   .line = reader_.line(),
                   .cells = {}};
  for (std::size_t c = keys; c < texts_.size(); ++c) {
    if (texts_[c].empty()) continue;
    std::string old = catalog_.text(cell_of(mapping_.table, c), known->second);
    if (old != texts_[c])
      change.cells.push_back({.column = c, .old_text = std::move(old), .new_text = texts_[c]});
  }
  if (change.cells.empty())
    ++plan_.unchanged;
  else
    plan_.changed.push_back(std::move(change));
  return true;
}

bool Importer::add_row(const std::string& key) {
  if (table_.columns[0].type == Type::slug) {
    if (mapping_.unmatched == Unmatched::skip) {
      plan_.unmatched.push_back(key);
      return true;
    }
    if (mapping_.unmatched == Unmatched::refuse)
      return complain_at(reader_.line(), 0,
                         {fmt::format("{} has no row {}", table_.name, key),
                          "an id that is there, or unmatched = \"new\""},
                         record_[0].text);
    if (mapping_.table < kind_count && catalog_.find_part(key))
      return complain_at(
          reader_.line(), 0,
          {fmt::format("the id {} is taken by a part of another kind", key), "an id of its own"},
          record_[0].text);
  }
  RowChange change{.row = no_row, .key = key, .line = reader_.line(), .cells = {}};
  for (std::size_t c = 0; c < texts_.size(); ++c) {
    if (texts_[c].empty() && table_.columns[c].required)
      return complain_at(
          reader_.line(), 0,
          {fmt::format("a new row of {} needs {}", table_.name, table_.columns[c].name),
           fmt::format("{}, mapped or constant", table_.columns[c].meaning)},
          record_[0].text);
    if (!texts_[c].empty())
      change.cells.push_back({.column = c, .old_text = {}, .new_text = texts_[c]});
  }
  plan_.added.push_back(std::move(change));
  return true;
}

}  // namespace

ImportPlan plan_import(const Catalog& catalog, const Mapping& mapping, const TableFile& pasted,
                       Complaints& complaints) {
  return Importer(catalog, mapping, pasted, complaints).run();
}

ImportPlan provenance_of(const Catalog& catalog, const Mapping& mapping, const ImportPlan& plan) {
  ProvenancePlan out(catalog);
  const auto note = [&](const std::string& row, std::string_view column) {
    out.add(plan.table, {.row = row,
                         .column = std::string(column),
                         .source = mapping.source,
                         .seen = to_string(mapping.seen),
                         .method = std::string(mapping.method),
                         .plus_minus = {}});
  };
  for (const RowChange& row : plan.added) note(row.key, "*");
  for (const RowChange& row : plan.changed)
    for (const CellChange& cell : row.cells)
      note(row.key, spec(plan.table).columns[cell.column].name);
  return out.take();
}

}  // namespace rigproof
