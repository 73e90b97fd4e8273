// The mapping: how any pasted table feeds one table of the catalog. Read from TOML that the user
// writes; its keys stand in mapping_keys.hpp and docs/mapping.md.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/units.hpp"
#include "catalog/catalog.hpp"
#include "catalog/complaints.hpp"

namespace rigproof {

struct ColumnMapping {
  std::size_t column = 0;  ///< in the catalog's table
  std::string from{};      ///< header of the pasted table; empty: `constant`
  std::string constant{};
  std::string unit{};        ///< of the pasted numbers, as written; empty: the column's own
  UnitConversion convert{};  ///< from that unit
  std::string remove{};      ///< taken out of every cell
  std::string between = "|";
  bool make_slug = false;
  std::map<std::string, std::string, std::less<>> words{};
  std::size_t line = 0;  ///< of its section, for messages
};

enum class MatchBy { id, maker_code, alias };
enum class Unmatched { refuse, skip, add };

struct Mapping {
  std::string file{};  ///< as given, for messages
  int table = 0;
  std::optional<char> separator{};
  char decimal = '.';
  char thousands = '\0';               ///< none
  std::string dates = "ymd";           ///< order of the three numbers
  std::vector<std::string> unknown{};  ///< cells that say nothing, beside empty ones
  Unmatched unmatched = Unmatched::refuse;
  MatchBy by = MatchBy::id;
  std::string match_from{};  ///< header; empty: the mapped id
  std::string source{};
  Date seen{};
  std::string method = "stated";
  std::vector<ColumnMapping> columns{};                       ///< in the order of the file
  std::map<std::string, std::string, std::less<>> aliases{};  ///< text -> part id
  std::size_t match_line = 0;

  [[nodiscard]] const ColumnMapping* of(std::size_t column) const;
};

/// Does a row of the table belong to a part (offers, sockets, cables), so that it is found through
/// the part?
[[nodiscard]] bool belongs_to_a_part(int table);

/// In: TOML bytes. Errors: complaints with place, what was expected, and the nearest valid key,
/// table, column, unit or part id.
[[nodiscard]] tl::expected<Mapping, Complaints> read_mapping(std::string_view toml,
                                                             const std::string& file,
                                                             const Catalog& catalog);

}  // namespace rigproof
