// What only all rows together can tell: references, provenance, one currency in a market, points
// that make no curve.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <unordered_map>
#include <vector>

#include "base/text.hpp"
#include "catalog/builder.hpp"

namespace rigproof {
namespace {

/// Ids compared for a "did you mean" in one load; beyond that complaints come without one.
constexpr std::size_t most_compared = 2'000'000;

}  // namespace

class Resolver {
 public:
  Resolver(CatalogBuilder& builder, bool skip_bad) : b_(builder), skip_bad_(skip_bad) {}
  void resolve(int table);

 private:
  bool resolve_reference(int table, std::size_t column, Row row);
  bool check_currency(Row row);
  bool check_mount(int table, ColumnId column, Row row);
  bool check_fan_points(Row row, const std::vector<bool>& dead);
  bool check_provenance(Row row);
  bool check_plus_minus(Row row, const ColumnSpec& of);
  bool find_named_row(int table, Row row, Row& found);
  void remove(int table, const std::vector<bool>& dead);
  void build_keys(int table);
  [[nodiscard]] bool broken_target(const ColumnSpec& column);
  [[nodiscard]] std::string near_id(std::string_view id, int first_table, int last_table);
  bool complain(int table, std::size_t column, Row row, std::string what, std::string expected,
                std::string_view text);

  CatalogBuilder& b_;
  bool skip_bad_;
  std::size_t compared_ = 0;
  std::vector<bool> orphaned_ =
      std::vector<bool>(schema::tables.size());          // has rows whose target is bad
  std::unordered_map<std::uint32_t, Row> market_first_;  // market -> its first offer
  struct CurveEnds {
    Row first, last;  // of the least and of the greatest flow
  };
  std::unordered_map<std::uint32_t, CurveEnds> curves_;  // by the row of their fan
  // Words of mounts by the row of their case, made when asked for.
  std::unordered_map<std::uint32_t, std::vector<std::uint32_t>> mounts_of_case_;
  std::vector<std::unordered_map<std::string, Row>> keys_ =
      std::vector<std::unordered_map<std::string, Row>>(
          schema::tables.size());  // made when asked for
};

bool Resolver::complain(int table, std::size_t column, Row row, std::string what,
                        std::string expected, std::string_view text) {
  auto& state = b_.state(table);
  state.resolved.add_made([&] {
    const CellPlace place = state.places[column][row];
    return Complaint{.file = state.file,
                     .line = place.line > 0 ? place.line : b_.data(table).lines[row],
                     .column = place.column,
                     .what = std::move(what),
                     .expected = std::move(expected),
                     .text = excerpt(text)};
  });
  return false;
}

void Resolver::resolve(int table) {
  auto& data = b_.data(table);
  std::vector<bool> dead;
  for (Row row = 0; row < data.rows; ++row) {
    bool good = true;
    for (std::size_t c = 0; c < spec(table).columns.size(); ++c)
      if (spec(table).columns[c].type == Type::reference)
        good = resolve_reference(table, c, row) && good;
    if (good && table == rigproof::table("offers")) good = check_currency(row);
    if (good && table == rigproof::table("case_clearances"))
      good = check_mount(table, column("case_clearances", "when"), row);
    if (good && table == rigproof::table("case_fans"))
      good = check_mount(table, column("case_fans", "mount"), row);
    if (table == rigproof::table("provenance")) good = check_provenance(row);
    if (good) continue;
    dead.resize(data.rows);
    dead[row] = true;
  }
  if (table == rigproof::table("fan_points"))
    for (Row row = 0; row < data.rows; ++row) {
      if ((!dead.empty() && dead[row]) || check_fan_points(row, dead)) continue;
      dead.resize(data.rows);
      dead[row] = true;
    }
  if (!dead.empty()) remove(table, dead);
  b_.state(table).places.clear();
}

bool Resolver::broken_target(const ColumnSpec& column) {
  if (column.refers != "part") {
    return b_.state(target_of(column)).broken;
  }
  for (int t = 0; t < kind_count; ++t)
    if (b_.state(t).broken) return true;
  return false;
}

bool Resolver::resolve_reference(int table, std::size_t c, Row row) {
  const ColumnSpec& column = spec(table).columns[c];
  std::uint32_t& cell = b_.data(table).columns[c].words[row];
  const std::uint32_t word = cell;
  cell = no_row;
  if (word == 0) return true;
  const bool any_part = column.refers == "part";
  const int target = target_of(column);
  const IdEntry entry = b_.id_entry(target, word);
  if (entry.line == 0 || (!any_part && entry.table != target)) {
    if (broken_target(column)) return false;  // that table's own fault is told once, there
    const std::string_view id = b_.catalog_.words_[word];
    auto& shown = b_.state(table).resolved;
    if (shown.count() >= Complaints::shown_limit) {
      shown.count_unshown(1);
      return false;
    }
    const std::string where = any_part ? "part" : fmt::format("row in {}.csv", column.refers);
    std::string expected = entry.line > 0 ? fmt::format("an id of {}.csv, not one of {}.csv",
                                                        column.refers, spec(entry.table).name)
                                          : near_id(id, target, any_part ? kind_count - 1 : target);
    return complain(table, c, row, fmt::format("there is no such {}", where), std::move(expected),
                    id);
  }
  if (entry.row ==
      no_row) {  // complained of already; only who skips rows must hear what falls with it
    orphaned_[static_cast<std::size_t>(table)] = true;
    if (!skip_bad_) return true;
    return complain(table, c, row, "the row it refers to is left out",
                    fmt::format("a good row in {}:{}", b_.file_of(entry.table), entry.line),
                    b_.catalog_.words_[word]);
  }
  cell = any_part ? Catalog::pack({static_cast<Kind>(entry.table), entry.row}) : entry.row;
  return true;
}

std::string Resolver::near_id(std::string_view id, int first_table, int last_table) {
  std::vector<std::string_view> ids;
  for (int t = first_table; t <= last_table; ++t) {
    if (!b_.data(t).present) continue;
    for (const std::uint32_t word : b_.data(t).columns[0].words) {
      const std::string_view other = b_.catalog_.words_[word];
      const std::size_t gap =
          other.size() > id.size() ? other.size() - id.size() : id.size() - other.size();
      if (gap <= id.size() / 3 + 1) ids.push_back(other);
    }
  }
  compared_ += ids.size();
  if (compared_ <= most_compared) {
    if (const auto near = nearest(id, ids))
      return fmt::format("an id that exists; did you mean \"{}\"?", *near);
  }
  return "an id that exists";
}

// A name that no mount of the case has would just take no room. A case that lists none is let be.
bool Resolver::check_mount(int table, ColumnId column, Row row) {
  static constexpr ColumnId mount_case = rigproof::column("case_mounts", "case");
  static constexpr ColumnId mount_name = rigproof::column("case_mounts", "mount");
  constexpr int case_mounts = rigproof::table("case_mounts");
  constexpr std::array<std::string_view, 3> no_mounts = {"always", "bay-2.5", "bay-3.5"};
  const auto& mounts = b_.data(case_mounts);
  if (b_.state(case_mounts).broken) return true;
  if (mounts_of_case_.empty())
    for (Row mount = 0; mount < mounts.rows; ++mount)
      mounts_of_case_[mounts.columns[mount_case.column].words[mount]].push_back(
          mounts.columns[mount_name.column].words[mount]);
  const auto& columns = b_.data(table).columns;
  const std::uint32_t word = columns[column.column].words[row];
  const std::string_view name = b_.catalog_.words_[word];
  const bool of_clearances = table == rigproof::table("case_clearances");
  if (of_clearances && std::ranges::find(no_mounts, name) != no_mounts.end()) return true;
  const auto known = mounts_of_case_.find(columns[0].words[row]);
  if (known == mounts_of_case_.end() ||
      std::ranges::find(known->second, word) != known->second.end())
    return true;
  std::string expected = of_clearances ? "always, bay-2.5, bay-3.5 or a mount: " : "one of ";
  for (const std::uint32_t mount : known->second)
    expected += fmt::format("{}{}", mount == known->second.front() ? "" : ", ",
                            excerpt(b_.catalog_.words_[mount]));
  return complain(table, column.column, row, "the case has no such mount", std::move(expected),
                  name);
}

// Two points at least, and less pressure at the end than at the start. All points of a fan fall
// together; it is said once, at its last.
bool Resolver::check_fan_points(Row row, const std::vector<bool>& dead) {
  static constexpr ColumnId flow = rigproof::column("fan_points", "flow_m3_h");
  static constexpr ColumnId pressure = rigproof::column("fan_points", "pressure_pa");
  constexpr int own = rigproof::table("fan_points");
  const auto& columns = b_.data(own).columns;
  const auto& flows = columns[flow.column].numbers;
  const auto& pressures = columns[pressure.column].numbers;
  const auto& fans = columns[0].words;
  if (fans[row] == no_row) return true;  // its fan is bad, which is told
  if (curves_.empty())
    for (Row each = 0; each < b_.data(own).rows; ++each) {
      if (!dead.empty() && dead[each]) continue;
      auto& ends = curves_.try_emplace(fans[each], CurveEnds{each, each}).first->second;
      if (flows[each] < flows[ends.first]) ends.first = each;
      if (flows[each] > flows[ends.last]) ends.last = each;
    }
  const CurveEnds& ends = curves_.at(fans[row]);
  if (pressures[ends.last] < pressures[ends.first]) return true;
  if (row != ends.last) return false;
  const bool alone = ends.first == ends.last;
  return complain(own, pressure.column, row,
                  alone ? "one point makes no curve" : "the pressure does not fall with the flow",
                  alone ? "points from no flow to no pressure, two at least"
                        : fmt::format("less than the {} Pa at {} m3/h",
                                      shortest(pressures[ends.first]), shortest(flows[ends.first])),
                  shortest(pressures[row]));
}

// A market whose sellers ask in two currencies has no comparable prices.
bool Resolver::check_currency(Row row) {
  static constexpr ColumnId market = column("offers", "market");
  static constexpr ColumnId currency = column("offers", "currency");
  constexpr int offers = table("offers");
  const auto& columns = b_.data(offers).columns;
  const std::uint32_t code = columns[market.column].words[row];
  const auto [first, is_new] = market_first_.try_emplace(code, row);
  const std::uint32_t wanted = columns[currency.column].words[first->second];
  const std::uint32_t got = columns[currency.column].words[row];
  if (is_new || wanted == got) return true;
  const auto& words = b_.catalog_.words_;
  return complain(offers, currency.column, row,
                  fmt::format("the market {} has offers in two currencies", words[code]),
                  fmt::format("{}, as in {}:{}", words[wanted], b_.file_of(offers),
                              b_.data(offers).lines[first->second]),
                  words[got]);
}

bool Resolver::check_provenance(Row row) {
  constexpr int own = table("provenance");
  static constexpr std::size_t in_table = column("provenance", "table").column;
  static constexpr std::size_t in_column = column("provenance", "column").column;
  const auto& words = b_.catalog_.words_;
  const auto& columns = b_.data(own).columns;
  const std::string_view table_name = words[columns[in_table].words[row]];
  const auto target = find_table(table_name);
  if (!target || *target == own) {
    std::vector<std::string_view> names;
    for (const TableSpec& t : schema::tables)
      if (t.name != "provenance") names.push_back(t.name);
    const auto near = nearest(table_name, names);
    return complain(
        own, in_table, row, "there is no such table to speak of",
        near ? fmt::format("{} perhaps", *near) : fmt::format("one of {}", fmt::join(names, ", ")),
        table_name);
  }
  Row named = no_row;
  bool good = find_named_row(*target, row, named);
  const std::string_view column_name = words[columns[in_column].words[row]];
  std::uint8_t c = Catalog::any_column;
  if (column_name != "*") {
    const auto& theirs = spec(*target).columns;
    const auto at = std::ranges::find(theirs, column_name, &ColumnSpec::name);
    if (at == theirs.end()) {
      std::vector<std::string_view> names;
      for (const ColumnSpec& s : theirs) names.push_back(s.name);
      const auto near = nearest(column_name, names);
      return complain(own, in_column, row, fmt::format("{} has no such column", table_name),
                      near ? fmt::format("{} perhaps", *near)
                           : fmt::format("* or one of {}", fmt::join(names, ", ")),
                      column_name);
    }
    c = static_cast<std::uint8_t>(at - theirs.begin());
    good = check_plus_minus(row, *at) && good;
  }
  if (good) b_.catalog_.provenance_.try_emplace(Catalog::provenance_key(*target, named, c), row);
  return good;
}

bool Resolver::check_plus_minus(Row row, const ColumnSpec& of) {
  constexpr int own = table("provenance");
  static constexpr std::size_t at = column("provenance", "plus_minus").column;
  const double value = b_.data(own).columns[at].numbers[row];
  const bool numeric = of.type == Type::number || of.type == Type::count;
  if (numeric || !(value == value)) return true;
  return complain(own, at, row, fmt::format("plus_minus for {}, which is no number", of.name),
                  "an empty cell", shortest(value));
}

bool Resolver::find_named_row(int target, Row row, Row& found) {
  constexpr int own = table("provenance");
  static constexpr std::size_t in_row = column("provenance", "row").column;
  const std::uint32_t word = b_.data(own).columns[in_row].words[row];
  const std::string key(b_.catalog_.words_[word]);
  if (key == "*") return true;
  if (b_.state(target).unusable) return true;  // its own fault is told; its rows cannot be named
  const bool has_id = spec(target).columns[0].type == Type::slug;
  const bool had_bad = !b_.state(target).read.empty() || !b_.state(target).resolved.empty() ||
                       orphaned_[static_cast<std::size_t>(target)];
  if (has_id) {
    const IdEntry entry = b_.id_entry(target, word);
    if (entry.line > 0 && entry.table == target) found = entry.row;
  } else {
    build_keys(target);
    const auto& keys = keys_[static_cast<std::size_t>(target)];
    if (const auto at = keys.find(key); at != keys.end()) found = at->second;
  }
  if (found != no_row) return true;
  if (had_bad && !skip_bad_) return true;  // perhaps that bad row; the next load will tell
  return complain(
      own, in_row, row,
      fmt::format("{}.csv has no such {}row", spec(target).name, had_bad ? "good " : ""),
      has_id ? near_id(key, target, target)
             : fmt::format("* or a key of {} parts with '/' between", spec(target).key_columns),
      key);
}

void Resolver::build_keys(int target) {
  auto& keys = keys_[static_cast<std::size_t>(target)];
  if (!keys.empty()) return;
  for (Row row = 0; row < b_.data(target).rows; ++row)
    keys.try_emplace(b_.catalog_.row_key(target, row), row);
}

void Resolver::remove(int table, const std::vector<bool>& dead) {
  auto& data = b_.data(table);
  const auto compact = [&](auto& cells) {
    if (cells.empty()) return;
    std::size_t to = 0;
    for (std::size_t from = 0; from < cells.size(); ++from)
      if (!dead[from]) cells[to++] = cells[from];
    cells.resize(to);
  };
  if (table == rigproof::table("provenance")) {  // its index speaks of rows by number
    std::vector<Row> moved(data.rows, no_row);
    Row to = 0;
    for (Row from = 0; from < data.rows; ++from)
      if (!dead[from]) moved[from] = to++;
    for (auto& [key, row] : b_.catalog_.provenance_) row = moved[row];
  }
  for (auto& column : data.columns) {
    compact(column.numbers);
    compact(column.words);
    compact(column.minors);
  }
  compact(data.lines);
  data.rows = static_cast<Row>(data.lines.size());
}

void CatalogBuilder::resolve(bool skip_bad) {
  Resolver resolver(*this, skip_bad);
  for (int table = 0; table < schema::table_count; ++table)
    if (data(table).present && !state(table).unusable) resolver.resolve(table);
}

}  // namespace rigproof
