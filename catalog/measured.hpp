// What was measured on the parts in the hand: cells that stand in place of the catalog's for one
// build. Values only; the catalog's files stay as they are.
//
// The file is a CSV table, one measured cell a line:
//   table,row,column,measured,plus_minus,seen,source
// of which the last three may be absent or empty. Columns `part`, `meaning` and `now`
// are passed over: the form that `rigproof fit -o` leaves to be filled in has them. A line without
// a `measured` value says nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "catalog/import.hpp"

namespace rigproof {

/// The columns of the form, in its order: those that are read and those that help to fill it in.
inline constexpr std::string_view measured_form_header =
    "part,meaning,now,measured,plus_minus,seen,source,table,row,column";

/// A rule is read to its nearest millimetre: the value lies up to half of one beside what was
/// read. Source: [jcgm-100] 4.3.7 and F.2.2.1 (resolution of an indication), from memory.
inline constexpr double read_to_mm = 0.5;

struct MeasuredCell {
  CellRef cell;
  std::string row_key;     ///< as Catalog::row_key writes it
  std::string text;        ///< as the catalog's file would hold it
  std::string plus_minus;  ///< of numbers, in the column's unit
  std::string seen;        ///< date, or empty
  std::string source;      ///< never empty
};

/// Every bad line is a complaint at its place and gives no cell: a table, row or column that is not
/// there (with the nearest that is), a key or a price, a value the column does not take, a cell
/// measured twice. Lengths in mm without plus_minus get read_to_mm.
[[nodiscard]] std::vector<MeasuredCell> read_measured(const Catalog& catalog, const TableFile& file,
                                                      Complaints& complaints);

/// Does a value stand in the file? Also true of a file that is no such form: not to be written
/// over.
[[nodiscard]] bool is_filled_in(const TableFile& file);

/// What puts the cells into the catalog's files: a plan for every table, the last one for
/// provenance.csv. Plans without a change are left out.
[[nodiscard]] std::vector<ImportPlan> plans_of(const Catalog& catalog,
                                               const std::vector<MeasuredCell>& cells);

}  // namespace rigproof
