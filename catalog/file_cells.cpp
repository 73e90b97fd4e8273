#include "catalog/file_cells.hpp"

#include <algorithm>
#include <map>
#include <vector>

#include "base/text.hpp"
#include "catalog/csv.hpp"

namespace rigproof {

void find_in_file(std::string_view bytes, std::span<FileCell> cells) {
  Complaints ignored;
  CsvReader reader(bytes, {}, ignored);
  std::vector<CsvCell> record;
  if (!reader.next(record)) return;
  std::map<std::string, std::size_t, std::less<>> place_of;
  for (std::size_t i = 0; i < record.size(); ++i)
    place_of.try_emplace(std::string(trim(record[i].text)), i);
  auto next = cells.begin();
  while (next != cells.end() && reader.next(record)) {
    while (next != cells.end() && next->row_line < reader.line()) ++next;
    for (; next != cells.end() && next->row_line == reader.line(); ++next) {
      const auto place = place_of.find(next->column);
      if (place == place_of.end() || place->second >= record.size()) continue;
      next->line = record[place->second].line;
      next->at = record[place->second].column;
    }
  }
}

}  // namespace rigproof
