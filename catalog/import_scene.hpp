// For tests and fuzz targets of imports only: a small folder of tables in memory, a pasted table
// and a mapping held against it, and the folder as it would be afterwards.
#pragma once

#include <initializer_list>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/import.hpp"
#include "catalog/rewrite_table.hpp"

namespace rigproof {

using ImportFolder = std::map<std::string, std::string, std::less<>>;

/// Two cards, two coolers, a case, sellers and one offer; all names invented.
inline ImportFolder import_folder() {
  return {
      {"cpu.csv", "id,name\nquick-six,Quick Six\n"},
      {"board.csv", "id,name\nplain-board,Plain Board\n"},
      {"memory.csv", "id,name\n"},
      {"storage.csv", "id,name\n"},
      {"cooler.csv",
       "id,name,maker_code,type,height_mm,fans\n"
       "fjellum-pillar,Fjellum Pillar,FP-4,air,158,\n"
       "low-disc,Low Disc,LD-1,air,,1\n"},
      {"case.csv", "id,name\nwhite-case,White Case\n"},
      {"psu.csv", "id,name\n"},
      {"gpu.csv",
       "id,name,maker_code,length_mm,plug_side,sustained_power_w\n"
       "\n"
       "broad-card,\"Broad, Card\",BC-9,310,top,220\n"
       "long-card,Long Card,LC-7,,,\n"},
      {"sellers.csv", "id,name,market\nlarkmoor,Larkmoor,IE\n"},
      {"offers.csv",
       "part,seller,market,seen,condition,price,currency,tax_included\n"
       "broad-card,larkmoor,IE,2026-09-30,new,499.00,EUR,yes\n"},
  };
}

inline tl::expected<Loaded, Complaints> load(const ImportFolder& folder) {
  std::vector<TableFile> files;
  for (const auto& [name, bytes] : folder) files.push_back({name, bytes});
  return load_catalog(files);
}

inline Catalog catalog_of(const ImportFolder& folder) {
  auto loaded = load(folder);
  if (!loaded) throw std::runtime_error(loaded.error().report());
  return std::move(loaded->catalog);
}

inline Mapping mapping_of(std::string_view toml, const Catalog& catalog) {
  auto mapping = read_mapping(toml, "map.toml", catalog);
  if (!mapping) throw std::runtime_error(mapping.error().report());
  return std::move(*mapping);
}

struct ImportTry {
  ImportPlan plan;
  std::string complaints;
  ImportFolder after;
};

inline ImportTry try_import(const ImportFolder& folder, std::string_view toml,
                            std::string_view pasted) {
  const Catalog catalog = catalog_of(folder);
  const Mapping mapping = mapping_of(toml, catalog);
  Complaints complaints;
  ImportTry out{.plan = plan_import(catalog, mapping, {"pasted.txt", pasted}, complaints),
                .complaints = complaints.report(),
                .after = folder};
  if (complaints.empty()) out.complaints.clear();
  const ImportPlan provenance = provenance_of(catalog, mapping, out.plan);
  for (const ImportPlan* plan : std::initializer_list<const ImportPlan*>{&out.plan, &provenance}) {
    if (plan->empty()) continue;
    std::string& bytes = out.after[std::string(spec(plan->table).name) + ".csv"];
    bytes = rewrite_table(catalog, *plan, bytes).bytes;
  }
  return out;
}

}  // namespace rigproof
