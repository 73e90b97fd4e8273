// Headers of the board and the plugs that parts state for them. Not for other engines.
#pragma once

#include "analysis/match/rule_words.hpp"

namespace rigproof::match {

/// Headers of one kind. A board whose headers are listed, but not this kind, has none; a board
/// without rows is noted as absent.
inline Draws headers_of_board(const Facts& facts, std::string_view kind, Measure& m) {
  const auto rows = m.read_rows(facts, table("board_headers"), only(facts, Kind::board));
  if (rows.empty()) return Draws::absent();
  Draws sum = 0.0;
  for (const Row row : rows)
    if (facts.catalog.word(column("board_headers", "header"), row) == kind)
      sum += m.read(facts, column("board_headers", "count"), row);
  return sum;
}

/// Plugs of one kind that a part states; none when nobody has listed its plugs.
inline double stated_plugs(const Facts& facts, PartRef part, std::string_view kind) {
  double sum = 0.0;
  for (const Row row : facts.catalog.rows_of(table("part_headers"), part))
    if (facts.catalog.word(column("part_headers", "header"), row) == kind)
      sum += facts.catalog.number(column("part_headers", "count"), row);
  return sum;
}

inline void note_plugs(const Facts& facts, PartRef part, std::string_view kind, Measure& m) {
  for (const Row row : facts.catalog.rows_of(table("part_headers"), part))
    if (facts.catalog.word(column("part_headers", "header"), row) == kind)
      m.note_seen(column("part_headers", "count"), row);
}

}  // namespace rigproof::match
