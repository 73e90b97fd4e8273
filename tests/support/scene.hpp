// For tests only: a small catalog written cell by cell, and a scene of chosen parts on which rules
// are judged. Header only; link rp_claims.
//
//   TestTables tables;
//   tables.row("cpu", {{"id", "cpu-a"}, {"socket", "K7"}})
//         .row("board", {{"id", "board-a"}, {"socket", "K7"}})
//         .plus_minus("cpu", "cpu-a", "sustained_power_w", 10);
//   Scene scene(tables);
//   scene.take("cpu-a").take("board-a");
//   EXPECT_EQ(scene.claim(rule_of(match_rules(), "match.socket")).verdict, Verdict::holds);
//
// Parts get their id as name unless one is given. Everything goes through load_catalog, as a real
// folder does.
#pragma once

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalog/csv.hpp"
#include "catalog/load.hpp"
#include "claims/rule.hpp"

namespace rigproof::test_support {

class TestTables {
 public:
  using Cells = std::vector<std::pair<std::string, std::string>>;

  /// A row of a table; columns that are not given are absent.
  TestTables& row(std::string_view table, Cells cells) {
    const auto has = [&](std::string_view column) {
      return std::ranges::any_of(cells, [&](const auto& cell) { return cell.first == column; });
    };
    const auto known = find_table(table);
    if (!known) throw std::invalid_argument("no table " + std::string(table));
    const bool is_part = *known < kind_count || table == "titles" || table == "sellers";
    if (is_part && !has("name")) {
      const auto id = std::ranges::find(cells, "id", &std::pair<std::string, std::string>::first);
      if (id != cells.end()) cells.emplace_back("name", id->second);
    }
    rows_[std::string(table)].push_back(std::move(cells));
    return *this;
  }
  /// Half-width of one cell: uniform on value +- by.
  TestTables& plus_minus(std::string_view table, std::string_view row_key, std::string_view column,
                         double by) {
    return row("provenance", {{"table", std::string(table)},
                              {"row", std::string(row_key)},
                              {"column", std::string(column)},
                              {"source", "invented for a test"},
                              {"method", "invented"},
                              {"plus_minus", std::to_string(by)}});
  }
  /// An offer with tax included, condition new, from a seller made on the spot.
  TestTables& offer(std::string_view part, std::string_view market, std::string_view currency,
                    std::string_view price, std::string_view seen = "2026-09-30",
                    std::string_view stock = "") {
    const std::string seller = "seller-" + std::to_string(++sellers_);
    row("sellers", {{"id", seller}, {"market", std::string(market)}});
    return row("offers", {{"part", std::string(part)},
                          {"seller", seller},
                          {"market", std::string(market)},
                          {"seen", std::string(seen)},
                          {"condition", "new"},
                          {"price", std::string(price)},
                          {"currency", std::string(currency)},
                          {"tax_included", "yes"},
                          {"stock", std::string(stock)}});
  }

  [[nodiscard]] Catalog load() const {
    std::vector<std::string> bytes;
    std::vector<std::string> names;
    for (const TableSpec& table : schema::tables) {
      const auto found = rows_.find(std::string(table.name));
      if (found == rows_.end()) continue;
      names.push_back(std::string(table.name) + ".csv");
      bytes.push_back(csv(table, found->second));
    }
    std::vector<TableFile> files;
    for (std::size_t i = 0; i < names.size(); ++i) files.push_back({names[i], bytes[i]});
    auto loaded = load_catalog(files);
    if (!loaded) throw std::runtime_error(loaded.error().report());
    return std::move(loaded->catalog);
  }

 private:
  static std::string csv(const TableSpec& table, const std::vector<Cells>& rows) {
    std::string out;
    for (const ColumnSpec& column : table.columns)
      out += (out.empty() ? "" : ",") + std::string(column.name);
    out += '\n';
    for (const Cells& cells : rows) {
      for (const auto& cell : cells)
        if (std::ranges::find(table.columns, cell.first, &ColumnSpec::name) == table.columns.end())
          throw std::invalid_argument("no column " + std::string(table.name) + "." + cell.first);
      for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const auto cell = std::ranges::find(
            cells, table.columns[c].name, [](const auto& x) { return std::string_view(x.first); });
        out += (c == 0 ? "" : ",") + (cell == cells.end() ? std::string() : csv_cell(cell->second));
      }
      out += '\n';
    }
    return out;
  }

  std::map<std::string, std::vector<Cells>> rows_;
  int sellers_ = 0;
};

/// A catalog, a brief and a build that grows; rules are judged on it.
class Scene {
 public:
  explicit Scene(const TestTables& tables, std::uint64_t seed = 0)
      : catalog(tables.load()), draws(catalog, seed) {}
  Scene(const Scene&) = delete;
  Scene& operator=(const Scene&) = delete;

  Scene& take(std::string_view id, int count = 1) {
    const auto part = catalog.find_part(id);
    if (!part || !build.add(part->kind, part->row, count))
      throw std::invalid_argument("cannot take " + std::string(id));
    return *this;
  }
  Scene& drop(Kind kind) {
    build.clear(kind);
    return *this;
  }
  /// A market of the brief with a budget; prices are made anew.
  Scene& market(std::string_view code, std::string_view currency, std::string_view budget) {
    const auto money = parse_money(budget, *parse_currency(currency));
    if (!money) throw std::invalid_argument(money.error().message);
    brief.markets.push_back({.market = std::string(code), .budget = *money, .sales_tax = {}});
    return price();
  }
  Scene& price() {
    auto made = PriceBook::make(catalog, brief);
    if (!made) throw std::runtime_error(made.error().message);
    prices = std::move(*made);
    return *this;
  }

  [[nodiscard]] Facts facts() {
    return {.catalog = catalog,
            .brief = brief,
            .prices = prices ? &*prices : nullptr,
            .build = build,
            .draws = draws,
            .setup = setup == Setup{} ? nullptr : &setup};
  }
  [[nodiscard]] int places(const Rule& rule) { return rule.places(facts()); }
  [[nodiscard]] Claim claim(const Rule& rule, int place = 0) {
    const Facts all = facts();
    if (place >= rule.places(all))
      throw std::out_of_range(std::string(rule.id) + " does not apply");
    return explain(rule, all, place);
  }

  Catalog catalog;
  Brief brief;
  std::optional<PriceBook> prices;
  Build build;
  Setup setup;
  CellDraws draws;
};

/// The rule of that id; throws when there is none.
inline const Rule& rule_of(std::span<const Rule* const> rules, std::string_view id) {
  for (const Rule* rule : rules)
    if (rule->id == id) return *rule;
  throw std::invalid_argument("no rule " + std::string(id));
}

/// `table.row.column` of every missing cell, in order.
inline std::vector<std::string> missing_cells(const Claim& claim) {
  std::vector<std::string> cells;
  for (const Missing& cell : claim.missing)
    cells.push_back(cell.table + "." + cell.row + "." + cell.column);
  return cells;
}

}  // namespace rigproof::test_support
