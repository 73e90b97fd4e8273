// The page docs/mapping.md, made from the declared keys (mapping_keys.hpp).
#include <fmt/format.h>

#include <algorithm>

#include "base/units.hpp"
#include "catalog/key_page.hpp"
#include "catalog/mapping_keys.hpp"
#include "catalog/schema.hpp"
#include "catalog/toml_reader.hpp"

namespace rigproof {
namespace {

constexpr std::string_view opening =
    "# Mappings: part data and prices by paste\n"
    "\n"
    "<!-- Made from catalog/mapping_keys.hpp; do not edit. Again: build/.../bin/mapping_page "
    "docs/mapping.md -->\n"
    "\n"
    "`rigproof import TABLE --mapping MAP.toml --catalog DIR` reads any table (a file, or `-` for "
    "what is pasted into standard\n"
    "input) and says what would be new in the catalog, what would change, old value beside new, "
    "and what is the same. With\n"
    "`--write` it does so. How the pasted table is to be read stands in the mapping, TOML 1.0 in "
    "UTF-8, at most {} KiB.\n"
    "\n"
    "- Headers may have any names and any order; what no section names is passed over.\n"
    "- An empty cell says nothing: a value that the catalog knows stays. Nothing is ever guessed: "
    "a number that is not\n"
    "  written as the mapping says, a unit that does not fit or a word the column does not know is "
    "an error with its place.\n"
    "- Nothing is written unless all is well, or `--skip-bad` leaves the bad rows out. Rows that "
    "do not change stay byte for\n"
    "  byte, the file's columns in their order; every new row and every changed cell gets a row "
    "in `provenance.csv`.\n"
    "- Units that a number may be given in, by the unit of the catalog's column:\n"
    "\n";

// Every unit of a column that has others beside it, once.
std::string unit_list() {
  std::vector<std::string_view> known;
  std::string out = "| column in | may be pasted in |\n| --- | --- |\n";
  for (const TableSpec& table : schema::tables)
    for (const ColumnSpec& column : table.columns) {
      const std::string_view unit = unit_of(column.name);
      const auto like = units_like(unit);
      const bool number = column.type == Type::number || column.type == Type::count;
      if (!number || like.size() < 2 || std::ranges::find(known, unit) != known.end()) continue;
      known.push_back(unit);
      out += fmt::format("| {} | {} |\n", unit, fmt::join(like.begin() + 1, like.end(), ", "));
    }
  return out + "\n";
}

}  // namespace

std::string_view mapping_example() {
  return R"toml([mapping]
table = "gpu"
decimal = "comma"
thousands = "point"
unknown = "n/a|-"

[match]                     # cards that are there already
by = "maker_code"
from = "Order no."

[provenance]
source = "maker's price list, autumn"
seen = 2026-10-01

[columns.id]                # only for new ones
from = "Model"
make = "slug"

[columns.name]
from = "Model"

[columns.maker_code]
from = "Order no."

[columns.maker]
constant = "Brantoak"

[columns.length_mm]
from = "Length"
unit = "cm"

[columns.sustained_power_w]
from = "Board power (kW)"
unit = "kW"

[columns.plug_side]
from = "Plugs"
words = { "up" = "top", "rear" = "end" }
)toml";
}

std::string_view offers_mapping_example() {
  return R"toml([mapping]
table = "offers"
decimal = "comma"
thousands = "point"
dates = "dmy"
unmatched = "skip"          # a price list has more than parts

[match]
by = "maker_code"
from = "Art."

[aliases]
"Pillar 4, second colour" = "fjellum-pillar"

[provenance]
source = "price list of the shop"
seen = 2026-10-01

[columns.seller]
constant = "larkmoor"

[columns.market]
constant = "IE"

[columns.seen]
from = "Day"

[columns.condition]
constant = "new"

[columns.price]
from = "Price"
remove = "EUR"

[columns.currency]
constant = "EUR"

[columns.tax_included]
constant = "yes"
)toml";
}

std::string mapping_page() {
  std::string out = fmt::format(opening, max_toml_bytes / 1024);
  out += unit_list();
  out += fmt::format("## Cards\n\n```toml\n{}```\n\n", mapping_example());
  out += fmt::format("## Prices\n\n```toml\n{}```\n\n", offers_mapping_example());
  out += "## Keys\n\n";
  out += key_tables(keys::mapping_sections, keys::mapping_keys);
  out.pop_back();
  return out;
}

}  // namespace rigproof
