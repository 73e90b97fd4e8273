// Fuzz target: any bytes as a file of measured values. Properties: no crash; a cell is given once;
// the tables with the values written into them load without a complaint and hold what was read.
#include <cstdint>
#include <cstdlib>

#include "catalog/import_scene.hpp"
#include "catalog/measured.hpp"

namespace {

using namespace rigproof;

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  ImportFolder folder = import_folder();
  const Catalog catalog = catalog_of(folder);
  Complaints complaints;
  const auto cells = read_measured(catalog, {"measured.csv", bytes}, complaints);
  for (std::size_t i = 0; i < cells.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) require(!(cells[i].cell == cells[j].cell));
  for (const ImportPlan& plan : plans_of(catalog, cells)) {
    std::string& table = folder[std::string(spec(plan.table).name) + ".csv"];
    table = rewrite_table(catalog, plan, table).bytes;
  }
  const auto loaded = load(folder);
  require(loaded.has_value());
  for (const MeasuredCell& measured : cells)
    require(loaded->catalog.text(measured.cell.column, measured.cell.row) == measured.text);
  return 0;
}
