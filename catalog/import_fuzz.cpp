// Fuzz target: any bytes as a pasted table. The first byte chooses how numbers are written, the
// second one the separator. Properties: no crash; every row is counted once; the tables that would
// be written load without a complaint; and the same import over them changes nothing more.
#include <array>
#include <cstdint>
#include <cstdlib>

#include "catalog/import_scene.hpp"

namespace {

using namespace rigproof;

void require(bool holds) {
  if (!holds) std::abort();
}

Mapping mapping_for(const Catalog& catalog, unsigned numbers, unsigned separator) {
  static constexpr std::string_view toml = R"(
[mapping]
table = "cooler"
unknown = "-"
dates = "dmy"
[match]
by = "maker_code"
from = "Code"
[provenance]
source = "pasted for a test"
seen = 2026-10-01
[columns.id]
from = "Name"
make = "slug"
[columns.name]
from = "Name"
[columns.maker_code]
from = "Code"
[columns.type]
from = "Type"
words = { "Air" = "air", "AIO" = "liquid", "?" = "" }
[columns.height_mm]
from = "Height"
unit = "cm"
[columns.fans]
from = "Fans"
[aliases]
"The Pillar" = "fjellum-pillar"
)";
  Mapping mapping = mapping_of(toml, catalog);
  static constexpr std::array<std::pair<char, char>, 5> signs = {
      {{'.', '\0'}, {',', '\0'}, {',', '.'}, {'.', ','}, {'.', ' '}}};
  std::tie(mapping.decimal, mapping.thousands) = signs[numbers % signs.size()];
  static constexpr std::array separators = {',', ';', '\t'};
  if (separator % 4 < 3) mapping.separator = separators[separator % 4];
  return mapping;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 2) return 0;
  const std::string_view pasted(reinterpret_cast<const char*>(data) + 2, size - 2);
  ImportFolder folder = import_folder();
  for (int round = 0; round < 2; ++round) {
    const auto loaded = load(folder);
    require(loaded.has_value());
    const Mapping mapping = mapping_for(loaded->catalog, data[0], data[1]);
    Complaints complaints;
    const ImportPlan plan =
        plan_import(loaded->catalog, mapping, {"pasted.txt", pasted}, complaints);
    require(plan.rows == plan.added.size() + plan.changed.size() + plan.unchanged + plan.left_out +
                             plan.unmatched.size());
    require(plan.left_out == 0 || !complaints.empty());
    require(round == 0 || plan.empty());
    const ImportPlan provenance = provenance_of(loaded->catalog, mapping, plan);
    for (const ImportPlan* part : {&plan, &provenance}) {
      if (part->empty()) continue;
      std::string& bytes = folder[std::string(spec(part->table).name) + ".csv"];
      bytes = rewrite_table(loaded->catalog, *part, bytes).bytes;
    }
  }
  return 0;
}
