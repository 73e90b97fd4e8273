// The form for what is measured on the table: what a person needs first, then what to fill in, then
// where it goes.
#include "catalog/measured.hpp"
#include "sheet/csv.hpp"
#include "sheet/fit_answer.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {

std::string measure_form_csv(const Fit& fit) {
  std::string out = std::string(measured_form_header) + "\r\n";
  for (const ToMeasure& entry : fit.to_measure) {
    const WorkingCell& cell = entry.cell;
    if (cell.row.empty() || cell.column.empty() || cell.column == "*") continue;
    for (const std::string& text :
         {clean_text(cell.part), clean_text(cell.meaning), cell_value(cell), std::string(),
          std::string(), std::string(), std::string()})
      out += csv_cell(text) + ",";
    out += csv_cell(cell.table) + "," + csv_cell(cell.row) + "," + csv_cell(cell.column) + "\r\n";
  }
  return out;
}

}  // namespace rigproof::sheet
