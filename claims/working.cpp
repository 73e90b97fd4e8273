#include "claims/working.hpp"

#include "base/text.hpp"
#include "base/units.hpp"

namespace rigproof {
namespace {

// The part a cell belongs to; row no_row when it belongs to none.
PartRef owner_of(const Facts& facts, const SeenCell& cell) {
  if (cell.column.table < kind_count) return {static_cast<Kind>(cell.column.table), cell.row};
  const ColumnId first{cell.column.table, 0};
  const ColumnSpec& parent = spec(first);
  if (parent.type != Type::reference) return {};
  if (parent.refers == "part") return facts.catalog.part(first, cell.row);
  const auto kind = find_kind(parent.refers);
  return kind ? PartRef{*kind, facts.catalog.reference(first, cell.row)} : PartRef{};
}

}  // namespace

WorkingCell working_cell(const Facts& facts, const SeenCell& cell) {
  const Catalog& catalog = facts.catalog;
  const ColumnSpec& column = spec(cell.column);
  const PartRef owner = owner_of(facts, cell);
  WorkingCell out{.part = owner.row == no_row ? std::string() : std::string(catalog.name(owner)),
                  .meaning = std::string(column.meaning),
                  .table = std::string(spec(int{cell.column.table}).name),
                  .row = catalog.row_key(cell.column.table, cell.row),
                  .column = std::string(column.name),
                  .value = {},
                  .certainty = {},
                  .source = {},
                  .claimed = false};
  const bool is_number = column.type == Type::number || column.type == Type::count;
  const std::string unit(unit_of(column.name));
  if (is_number) {
    const Draws& draws = facts.draws.of(cell.column, cell.row);
    if (draws.is_absent())
      out.value.text = "not known";
    else
      out.value = rigproof::quantity(draws, unit);
    if (draws.spans())
      out.certainty = "not known; the usual range of its class";
    else if (!draws.is_absent() && !draws.is_certain())
      out.certainty = "plus-minus " + readable((draws.high() - draws.low()) / 2.0, 3) +
                      (unit.empty() ? "" : " " + unit);
  } else if (catalog.absent(cell.column, cell.row)) {
    out.value.text = "not known";
  } else {
    out.value.text = catalog.text(cell.column, cell.row);
  }
  if (const auto row = catalog.provenance(cell.column, cell.row))
    out.source = catalog.word(rigproof::column("provenance", "source"), *row);
  return out;
}

Working working_of(const Rule& rule, const Facts& facts, const Measure& m) {
  Working out{.equation = std::string(rule.equation), .cells = {}, .cells_left_out = m.seen_beyond};
  for (int i = 0; i < m.seen_count; ++i) {
    const SeenCell& cell = m.seen[static_cast<std::size_t>(i)];
    out.cells.push_back(working_cell(facts, cell));
    out.cells.back().claimed = m.claimed.row != no_row && cell == m.claimed;
  }
  return out;
}

}  // namespace rigproof
