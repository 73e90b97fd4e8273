// Fuzz target: a folder of tables. The input is cut at lines `== NAME.csv`; tables that must be
// there and are not given are filled in. Properties: no crash, with and without skip_bad; both
// agree; every cell can be asked for; what loaded, written and loaded again, is the same.
#include <cstdint>
#include <cstdlib>
#include <map>

#include "catalog/load.hpp"

namespace {

using namespace rigproof;
using Folder = std::map<std::string, std::string>;

void require(bool holds) {
  if (!holds) std::abort();
}

Folder cut(std::string_view bytes) {
  Folder folder = {
      {"cpu.csv", "id,name\nquick-six,Q\n"},
      {"board.csv", "id,name\nplain-board,P\n"},
      {"memory.csv", "id,name\n"},
      {"storage.csv", "id,name\n"},
      {"cooler.csv", "id,name\ntall,T\n"},
      {"case.csv", "id,name\nwhite-case,W\n"},
      {"psu.csv", "id,name\n"},
      {"sellers.csv", "id,name,market\nshop-a,A,IE\n"},
      {"offers.csv", "part,seller,market,seen,condition,price,currency,tax_included\n"}};
  std::string name;
  while (!bytes.empty()) {
    const std::size_t end = std::min(bytes.find('\n'), bytes.size() - 1) + 1;
    const std::string_view line = bytes.substr(0, end);
    bytes.remove_prefix(end);
    if (line.starts_with("== ")) {
      name = line.substr(3, line.find('\n') - 3);
      folder[name].clear();
    } else if (!name.empty()) {
      folder[name] += line;
    }
  }
  return folder;
}

tl::expected<Loaded, Complaints> load(const Folder& folder, bool skip_bad) {
  std::vector<TableFile> files;
  for (const auto& [name, bytes] : folder) files.push_back({name, bytes});
  return load_catalog(files, {.skip_bad = skip_bad});
}

Folder written(const Catalog& catalog) {
  Folder folder;
  for (int t = 0; t < schema::table_count; ++t)
    if (catalog.present(t)) folder[std::string(spec(t).name) + ".csv"] = write_table(catalog, t);
  return folder;
}

// Every reader, so that a value out of its bounds breaks a contract here.
void ask_for_all(const Catalog& catalog) {
  for (int t = 0; t < schema::table_count; ++t) {
    for (Row row = 0; row < catalog.rows(t); ++row) {
      require(!catalog.row_key(t, row).empty() && catalog.line(t, row) >= 2);
      for (std::size_t c = 0; c < spec(t).columns.size(); ++c) {
        const ColumnId id{static_cast<std::uint8_t>(t), static_cast<std::uint8_t>(c)};
        require(!(spec(id).required && catalog.absent(id, row)));
        (void)catalog.provenance(id, row);
        if (spec(id).type == Type::number || spec(id).type == Type::count) {
          const Draws draws = catalog.cell(id, row);
          require(draws.is_absent() || draws.low() <= draws.high());
        }
        if (c == 0 && spec(id).type == Type::reference && spec(id).refers == "part") {
          bool among = false;
          for (const Row child : catalog.rows_of(t, catalog.part(id, row)))
            among = among || child == row;
          require(among);
        }
      }
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const Folder folder = cut({reinterpret_cast<const char*>(data), size});
  const auto strict = load(folder, false);
  const auto loose = load(folder, true);
  if (strict)
    require(loose && loose->skipped.empty() && written(strict->catalog) == written(loose->catalog));
  if (!strict) require(!strict.error().empty());
  if (!loose) return 0;
  require(static_cast<bool>(strict) == loose->skipped.empty());
  ask_for_all(loose->catalog);
  const Folder first = written(loose->catalog);
  const auto again = load(first, false);
  require(static_cast<bool>(again));
  require(written(again->catalog) == first);
  return 0;
}
