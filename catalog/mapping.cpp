#include "catalog/mapping.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "catalog/key_reader.hpp"
#include "catalog/mapping_keys.hpp"

namespace rigproof {
namespace {

constexpr std::array table_names = [] {
  std::array<std::string_view, schema::table_count> names;
  for (std::size_t t = 0; t < names.size(); ++t) names[t] = schema::tables[t].name;
  return names;
}();

char sign_of(std::string_view word) {
  if (word == "comma") return ',';
  if (word == "point") return '.';
  if (word == "semicolon") return ';';
  if (word == "tab") return '\t';
  return word == "space" ? ' ' : '\'';
}

class MappingReader {
 public:
  MappingReader(const FileContext& context, const TomlNode& root, Mapping& mapping)
      : context_(context), root_(context, root, "", ""), out_(mapping) {}

  void read() {
    root_.refuse_unknown_keys();
    if (!read_head()) return;
    read_match();
    read_provenance();
    read_columns();
    read_aliases();
    check_whole();
  }

 private:
  [[nodiscard]] std::optional<KeyReader> section(std::string_view name, std::string_view holds) {
    auto found = root_.table(name, name);
    if (!found && root_.node().find(name) == nullptr)
      context_.complain({}, fmt::format("there is no [{}]", name), std::string(holds), "");
    if (found) found->refuse_unknown_keys();
    return found;
  }
  bool read_head();
  void read_match();
  void read_provenance();
  void read_columns();
  void read_column(const TomlNode& node);
  void read_words(const KeyReader& reader, ColumnMapping& column);
  void read_unit(const TomlNode& node, ColumnMapping& column);
  void read_aliases();
  void check_whole();

  const FileContext& context_;
  KeyReader root_;
  Mapping& out_;
};

bool MappingReader::read_head() {
  const auto head = section("mapping", "a table [mapping] that names the table it feeds");
  if (!head) return false;
  if (const auto word = head->text("separator")) out_.separator = sign_of(*word);
  if (const auto word = head->text("decimal")) out_.decimal = sign_of(*word);
  if (const auto word = head->text("thousands")) out_.thousands = sign_of(*word);
  out_.dates = head->text("dates").value_or("ymd");
  std::string rest = head->text("unknown").value_or("");
  while (!rest.empty()) {
    const std::size_t bar = std::min(rest.find('|'), rest.size());
    const std::string word(trim(std::string_view(rest).substr(0, bar)));
    if (!word.empty()) out_.unknown.push_back(word);
    rest.erase(0, bar + 1);
  }
  if (out_.decimal == out_.thousands)
    context_.complain(head->node().find("thousands")->place, "thousands and decimals have one sign",
                      "two different signs", head->node().find("thousands")->written);
  const auto unmatched = head->text("unmatched");
  const auto name = head->text("table");
  if (!name) return false;
  const auto table = find_table(*name);
  if (!table || spec(*table).name == "provenance") {
    context_.complain(head->node().find("table")->place, "the catalog has no such table to feed",
                      expected_name(*name, table_names, "table"), excerpt(*name));
    return false;
  }
  out_.table = *table;
  out_.unmatched = belongs_to_a_part(*table) ? Unmatched::refuse : Unmatched::add;
  if (unmatched)
    out_.unmatched = *unmatched == "refuse" ? Unmatched::refuse
                     : *unmatched == "skip" ? Unmatched::skip
                                            : Unmatched::add;
  if (belongs_to_a_part(*table) && out_.unmatched == Unmatched::add)
    context_.complain(head->node().find("unmatched")->place,
                      fmt::format("a row of {} belongs to a part that must be there", *name),
                      "refuse or skip", "new");
  return true;
}

void MappingReader::read_match() {
  if (root_.node().find("match") == nullptr) return;
  const auto match = section("match", "");
  if (!match) return;
  out_.match_line = match->node().place.line;
  const auto by = match->text("by");
  out_.match_from = match->text("from").value_or("");
  if (by)
    out_.by = *by == "id"           ? MatchBy::id
              : *by == "maker_code" ? MatchBy::maker_code
                                    : MatchBy::alias;
  if (by && *by != "id" && out_.table >= kind_count && !belongs_to_a_part(out_.table))
    context_.complain(match->node().find("by")->place,
                      fmt::format("rows of {} have no maker's code", spec(out_.table).name),
                      "\"id\"", *by);
}

void MappingReader::read_provenance() {
  const auto from = section("provenance", "a table [provenance] with source and seen");
  if (!from) return;
  out_.source = from->text("source").value_or("");
  out_.seen = from->date("seen").value_or(Date{});
  out_.method = from->text("method").value_or("stated");
}

void MappingReader::read_columns() {
  const auto columns = root_.table("columns", "columns");
  if (!columns) {
    if (root_.node().find("columns") == nullptr)
      context_.complain({}, "no column is mapped", "at least one [columns.COLUMN]", "");
    return;
  }
  for (const TomlNode& node : columns->node().children) read_column(node);
}

void MappingReader::read_column(const TomlNode& node) {
  const TableSpec& table = spec(out_.table);
  const auto at = std::ranges::find(table.columns, node.key, &ColumnSpec::name);
  if (at == table.columns.end()) {
    std::vector<std::string_view> names;
    for (const ColumnSpec& column : table.columns) names.push_back(column.name);
    context_.complain(node.key_place, fmt::format("{} has no such column", table.name),
                      expected_name(node.key, names, "column"), excerpt(node.key));
    return;
  }
  if (node.type != TomlNode::Type::table) {
    context_.complain(node.place, fmt::format("{}: is {}", node.key, name_of(node.type)),
                      "a table with from or constant", node.written);
    return;
  }
  const KeyReader reader(context_, node, "columns.*", fmt::format("columns.{}", node.key));
  reader.refuse_unknown_keys();
  ColumnMapping column{.column = static_cast<std::size_t>(at - table.columns.begin()),
                       .from = reader.text("from").value_or(""),
                       .constant = reader.text("constant").value_or(""),
                       .unit = {},
                       .convert = {},
                       .remove = reader.text("remove").value_or(""),
                       .between = reader.text("between").value_or("|"),
                       .make_slug = reader.text("make").has_value(),
                       .words = {},
                       .line = node.key_place.line};
  if (column.from.empty() == column.constant.empty())
    context_.complain(node.key_place, fmt::format("{}: where does it come from?", node.key),
                      "either from or constant", "");
  if (column.make_slug && at->type != Type::slug)
    context_.complain(node.find("make")->place, fmt::format("{} is not an id", node.key),
                      "make only in [columns.id]", "slug");
  read_unit(node, column);
  (void)reader.text("unit");  // complains when it is no text
  read_words(reader, column);
  out_.columns.push_back(std::move(column));
}

void MappingReader::read_unit(const TomlNode& node, ColumnMapping& column) {
  const TomlNode* given = node.find("unit");
  const ColumnSpec& own = spec(out_.table).columns[column.column];
  const std::string_view to = unit_of(own.name);
  if (given == nullptr || given->type != TomlNode::Type::text) return;
  const bool number = own.type == Type::number || own.type == Type::count;
  const auto convert = number ? conversion(given->text, to) : std::nullopt;
  if (!convert || to.empty()) {
    context_.complain(given->place, fmt::format("{} cannot be given in that unit", node.key),
                      !number || to.empty()
                          ? "no unit, since the column has none"
                          : fmt::format("one of {}", fmt::join(units_like(to), ", ")),
                      given->written);
    return;
  }
  column.unit = given->text;
  column.convert = *convert;
}

void MappingReader::read_words(const KeyReader& reader, ColumnMapping& column) {
  const auto words = reader.table("words", "columns.*.words");
  if (!words) return;
  for (const TomlNode& node : words->node().children) {
    if (node.type == TomlNode::Type::text)
      column.words.emplace(node.key, node.text);
    else
      context_.complain(node.place, fmt::format("{}: is {}", excerpt(node.key), name_of(node.type)),
                        "a string: what the catalog says; \"\" for unknown", node.written);
  }
}

void MappingReader::read_aliases() {
  const auto aliases = root_.table("aliases", "aliases");
  if (!aliases) return;
  const bool any = belongs_to_a_part(out_.table) && spec(out_.table).columns[0].refers == "part";
  for (const TomlNode& node : aliases->node().children) {
    std::optional<PartRef> part;
    if (node.type == TomlNode::Type::text) part = context_.catalog.find_part(node.text);
    const std::string_view kind =
        belongs_to_a_part(out_.table) ? spec(out_.table).columns[0].refers : spec(out_.table).name;
    if (part && (any || name_of(part->kind) == kind)) {
      out_.aliases.emplace(node.key, node.text);
      continue;
    }
    context_.complain(node.place, fmt::format("{}: no such part in the catalog", excerpt(node.key)),
                      any ? "the id of a part" : fmt::format("an id of {}.csv", kind),
                      node.written);
  }
}

// What no single key can say.
void MappingReader::check_whole() {
  const TableSpec& table = spec(out_.table);
  if (belongs_to_a_part(out_.table)) {
    if (out_.match_from.empty() && root_.node().find("match") == nullptr)
      context_.complain({}, fmt::format("rows of {} need a [match]", table.name),
                        "by and from: how a row finds its part", "");
    if (const ColumnMapping* part = out_.of(0))
      context_.complain({.line = part->line, .column = 1},
                        fmt::format("{} is what [match] finds", table.columns[0].name),
                        "no section for it", "");
  } else if (out_.by == MatchBy::id && out_.match_from.empty() && out_.of(0) == nullptr) {
    context_.complain({}, "nothing says which row is which", "[columns.id] or [match]", "");
  }
  for (const ColumnMapping& column : out_.columns) {
    if (table.columns[column.column].type != Type::money) continue;
    const auto currency = std::ranges::find(table.columns, Type::currency, &ColumnSpec::type);
    if (out_.of(static_cast<std::size_t>(currency - table.columns.begin())) == nullptr)
      context_.complain({.line = column.line, .column = 1}, "an amount without its currency",
                        fmt::format("[columns.{}] as well, perhaps a constant", currency->name),
                        std::string(table.columns[column.column].name));
  }
}

}  // namespace

const ColumnMapping* Mapping::of(std::size_t column) const {
  const auto at = std::ranges::find(columns, column, &ColumnMapping::column);
  return at == columns.end() ? nullptr : &*at;
}

bool belongs_to_a_part(int table) { return spec(table).columns[0].type == Type::reference; }

tl::expected<Mapping, Complaints> read_mapping(std::string_view toml, const std::string& file,
                                               const Catalog& catalog) {
  Complaints complaints;
  Mapping mapping;
  mapping.file = file;
  const auto root = read_toml(toml, file, complaints);
  if (root) {
    const FileContext context{.file = file,
                              .sections = keys::mapping_sections,
                              .keys = keys::mapping_keys,
                              .catalog = catalog,
                              .complaints = complaints,
                              .lines = nullptr};
    MappingReader(context, *root, mapping).read();
  }
  if (!complaints.empty()) return tl::unexpected(std::move(complaints));
  return mapping;
}

}  // namespace rigproof
