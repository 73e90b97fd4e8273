// Fuzz target: any bytes as CSV. Properties: no crash; cells within their limits; what was read and
// is written again reads back the same, without a complaint.
#include <cstdint>
#include <cstdlib>

#include "base/text.hpp"
#include "catalog/csv.hpp"

namespace {

using namespace rigproof;
using Records = std::vector<std::vector<std::string>>;

void require(bool holds) {
  if (!holds) std::abort();
}

Records read(std::string_view bytes, Complaints& complaints) {
  Records records;
  CsvReader reader(bytes, "f.csv", complaints);
  std::vector<CsvCell> cells;
  std::size_t last_line = 0;
  while (reader.next(cells)) {
    require(!cells.empty() && reader.line() > last_line);
    last_line = reader.line();
    records.emplace_back();
    for (const CsvCell& cell : cells) {
      require(cell.text.size() <= max_cell_bytes && cell.line >= reader.line() && cell.column >= 1);
      require(!first_bad_utf8(cell.text));
      records.back().emplace_back(cell.text);
    }
  }
  return records;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Complaints complaints;
  const Records records = read({reinterpret_cast<const char*>(data), size}, complaints);
  std::string text = "a,b,c,d\n";  // settles the dialect; commas win
  Records wanted = {{"a", "b", "c", "d"}};
  for (const auto& record : records) {
    std::string line;
    for (const std::string& cell : record) line += csv_cell(cell) + ',';
    if (line.size() >= max_line_bytes) continue;  // quoting may lengthen it past the limit
    text += line + "end\n";
    wanted.push_back(record);
    wanted.back().emplace_back("end");
  }
  Complaints none;
  require(read(text, none) == wanted);
  require(none.empty());
  return 0;
}
