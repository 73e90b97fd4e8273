// What `check` prints for people: what is wrong, what to look up first, then the tables.
#include <fmt/format.h>

#include <algorithm>

#include "app/check_catalog.hpp"
#include "base/text.hpp"
#include "base/units.hpp"
#include "sheet/text_layout.hpp"

namespace rigproof::app {
namespace {

using sheet::Ink;
using sheet::TextPage;

constexpr std::size_t most_unusual = 20;
constexpr std::size_t most_columns = 20;

std::string percent(std::uint64_t part, std::uint64_t whole) {
  if (whole == 0) return "-";
  const double value = 100.0 * static_cast<double>(part) / static_cast<double>(whole);
  return fmt::format("{:.{}f} %", value, value > 0.0 && value < 10.0 ? 1 : 0);
}

std::string number(double value) { return readable(value, 3); }
std::string number(std::uint64_t value) { return readable(static_cast<double>(value), 3); }

std::string cell_name(const Catalog& catalog, const CellWorth& cell) {
  return fmt::format("{}.{}.{}", spec(int{cell.column.table}).name, row_name(catalog, cell),
                     column_name(cell));
}

// "fit.memory-height, power.supply-watts and 3 more", those that gain most first.
std::string rule_names(const LookUp& look_up, std::vector<CellWorth::ByRule> rules) {
  std::ranges::stable_sort(rules, [](const auto& a, const auto& b) { return a.share > b.share; });
  constexpr std::size_t most = 3;
  std::string out;
  for (std::size_t i = 0; i < std::min(most, rules.size()); ++i)
    out += fmt::format("{}{}", i == 0 ? "" : ", ", look_up.rules[rules[i].rule].rule->id);
  if (rules.size() > most) out += fmt::format(" and {} more", rules.size() - most);
  return out;
}

void add_head(TextPage& page, const CatalogState& state) {
  page.line(0, state.skipped == 0
                   ? fmt::format("{}: {} parts, nothing wrong.", state.folder, state.parts)
                   : fmt::format("{}: {} parts; {} bad row{} left out.", state.folder, state.parts,
                                 state.skipped, state.skipped == 1 ? " was" : "s were"));
  if (!state.brief.empty())
    page.paragraph(0, fmt::format("Verdicts are counted for the parts that {} may use, and with "
                                  "what it asks for.",
                                  state.brief));
}

std::string unusual_text(const Unusual& one) {
  const ColumnSpec& column = spec(one.column);
  const std::string_view unit = unit_of(column.name);
  const std::string place = one.at == 0 ? fmt::format("{}:{}", one.file, one.line)
                                        : fmt::format("{}:{}:{}", one.file, one.line, one.at);
  return fmt::format(
      "{}: {} of {} is {}{}{}; usual is {} to {}; worth a second look (a unit mixed "
      "up?)",
      place, column.name, one.row, shortest(one.value), unit.empty() ? "" : " ", unit,
      shortest(column.usual_from()), shortest(column.usual_to()));
}

void add_unusual(TextPage& page, const CatalogState& state) {
  if (state.unusual.empty()) return;
  page.blank();
  page.line(0, fmt::format("WORTH A SECOND LOOK ({})", state.unusual.size()), Ink::strong);
  for (std::size_t i = 0; i < std::min(most_unusual, state.unusual.size()); ++i)
    page.paragraph(4, unusual_text(state.unusual[i]));
  if (state.unusual.size() > most_unusual)
    page.line(2, fmt::format("and {} more; --json lists all", state.unusual.size() - most_unusual));
}

void add_totals(TextPage& page, const CatalogState& state) {
  std::uint64_t judged = 0;
  std::uint64_t unknown = 0;
  std::uint64_t aside = 0;
  for (const RuleCost& rule : state.look_up.rules) {
    judged += rule.judgements;
    unknown += rule.unknown;
    aside += rule.parts_set_aside;
  }
  page.paragraph(2, fmt::format("Of {} verdicts that the rules give over these parts and pairs of "
                                "parts, {} ({}) are unknown because a cell is empty.",
                                number(judged), number(unknown), percent(unknown, judged)));
  if (state.look_up.stopped)
    page.paragraph(2, "Stopped before all were counted: the numbers are of what was reached.");
  if (aside > 0)
    page.paragraph(2, fmt::format("Bounded: {} times a part was set aside by a rule, which pairs "
                                  "at most {} groups of like parts a kind, or judges at most {} "
                                  "combinations; the numbers are of the others.",
                                  number(aside), most_groups, most_combinations));
}

void add_look_up(TextPage& page, const CatalogState& state, const CheckShown& shown) {
  page.blank();
  page.line(0, "LOOK UP FIRST", Ink::strong);
  add_totals(page, state);
  const auto& cells = state.look_up.cells;
  const std::size_t most = std::min(shown.top, cells.size());
  for (std::size_t i = 0; i < most; ++i) {
    const CellWorth& cell = cells[i];
    page.blank();
    page.labelled(2, fmt::format("{}", i + 1), 6, cell_name(shown.catalog, cell), Ink::plain,
                  Ink::strong);
    const std::string_view meaning =
        cell.row == no_row ? spec(int{cell.column.table}).meaning : spec(cell.column).meaning;
    const bool all_alone = cell.share == static_cast<double>(cell.alone);
    page.paragraph(
        6, fmt::format("settles {} verdict{} by itself{} ({})", number(cell.alone),
                       cell.alone == 1 ? "" : "s",
                       all_alone ? "" : fmt::format(", {} with its shares", number(cell.share)),
                       rule_names(state.look_up, cell.rules)));
    page.paragraph(6, fmt::format("{}; {}", meaning, where_to_find(cell)));
  }
  if (cells.empty()) page.line(2, "Nothing: no verdict waits for a cell.");
  if (cells.size() > most) {
    page.blank();
    page.line(2, fmt::format("and {} more cells; --top N shows more", cells.size() - most));
  }
}

void add_rules(TextPage& page, const CatalogState& state) {
  std::vector<RuleCost> rules;
  for (const RuleCost& rule : state.look_up.rules)
    if (rule.unknown > 0) rules.push_back(rule);
  if (rules.empty()) return;
  std::ranges::stable_sort(rules, std::greater{}, [](const RuleCost& r) {
    return static_cast<double>(r.unknown) / static_cast<double>(r.judgements);
  });
  page.blank();
  page.line(0, "WHAT EMPTY CELLS COST, RULE BY RULE", Ink::strong);
  page.line(2, fmt::format("{:<34}{:>14}{:>14}{:>10}", "rule", "verdicts", "unknown", "share"));
  for (const RuleCost& rule : rules)
    page.line(2, fmt::format("{:<34}{:>14}{:>14}{:>10}{}", rule.rule->id, number(rule.judgements),
                             number(rule.unknown), percent(rule.unknown, rule.judgements),
                             rule.sampled ? "  sampled" : ""));
  page.paragraph(2,
                 "sampled: a rule of three or more kinds, judged on drawn combinations of "
                 "offered parts; the others are counted in full.");
}

void add_columns(TextPage& page, const CatalogState& state) {
  if (state.columns.empty()) return;
  page.blank();
  page.line(0, "COLUMNS WITH EMPTY CELLS", Ink::strong);
  page.line(2, fmt::format("{:<38}{:>8}{:>8}{:>9}{:>13}{:>14}", "column", "cells", "empty", "share",
                           "settle alone", "with shares"));
  const std::size_t most = std::min(most_columns, state.columns.size());
  for (std::size_t i = 0; i < most; ++i) {
    const ColumnState& column = state.columns[i];
    page.line(
        2, fmt::format(
               "{:<38}{:>8}{:>8}{:>9}{:>13}{:>14}",
               fmt::format("{}.{}", spec(int{column.column.table}).name, spec(column.column).name),
               number(column.cells), number(column.unknown), percent(column.unknown, column.cells),
               number(column.alone), number(column.share)));
  }
  if (state.columns.size() > most)
    page.line(2, fmt::format("and {} more; --json lists all", state.columns.size() - most));
}

void add_tables(TextPage& page, const CatalogState& state) {
  page.blank();
  page.line(0, "WHERE CELLS COME FROM", Ink::strong);
  std::string head = fmt::format("{:<18}{:>7}{:>9}{:>9}", "table", "rows", "unknown", "sourced");
  for (int m = 0; m < method_count; ++m) head += fmt::format("{:>11}", name_of_method(m));
  page.line(2, head + "  oldest");
  for (const TableState& table : state.tables) {
    if (!table.present) {
      page.line(
          2, fmt::format("{:<18}{:>7}   not there: what rests on it is unknown", table.name, "-"));
      continue;
    }
    const std::uint64_t filled = table.cells - table.unknown;
    std::string line =
        fmt::format("{:<18}{:>7}{:>9}{:>9}", table.name, table.rows,
                    percent(table.unknown, table.cells), percent(table.sourced, filled));
    for (const std::uint64_t count : table.methods)
      line += fmt::format("{:>11}", count == 0 ? "-" : percent(count, filled));
    page.line(2, line + "  " + (table.oldest ? to_string(*table.oldest) : "-"));
  }
  page.paragraph(2,
                 "unknown: share of cells beside the key that are empty; sourced: share of the "
                 "filled ones that provenance.csv speaks of, then by its method; oldest: the "
                 "earliest day it names.");
}

void add_not_offered(TextPage& page, const CatalogState& state) {
  if (state.not_offered.empty()) return;
  page.blank();
  page.line(0, "NOBODY OFFERS", Ink::strong);
  for (const NotOffered& kind : state.not_offered)
    page.labelled(2, fmt::format("{} {}", name_of(kind.kind), kind.parts), 14,
                  fmt::format("{}{}", fmt::join(kind.ids, ", "),
                              kind.parts > kind.ids.size() ? ", ..." : ""));
}

}  // namespace

std::string check_text(const CatalogState& state, const CheckShown& shown) {
  TextPage page(shown.color, shown.width);
  add_head(page, state);
  add_unusual(page, state);
  add_look_up(page, state, shown);
  add_rules(page, state);
  add_columns(page, state);
  add_tables(page, state);
  add_not_offered(page, state);
  return page.take();
}

}  // namespace rigproof::app
