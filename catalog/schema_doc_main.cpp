// rp_schema_doc DOCS: writes DOCS/catalog.md and DOCS/schema/catalog.schema.json from the schema.
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>

#include "catalog/schema_doc.hpp"

namespace {

bool write(const std::filesystem::path& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary);
  out << text;
  out.close();
  if (!out) std::fprintf(stderr, "rp_schema_doc: cannot write %s\n", file.c_str());
  return static_cast<bool>(out);
}

}  // namespace

int main(int argc, char** argv) try {
  if (argc != 2) {
    std::fputs("usage: rp_schema_doc DOCS\n", stderr);
    return 2;
  }
  const std::filesystem::path docs = argv[1];
  std::filesystem::create_directories(docs / "schema");
  const bool page = write(docs / "catalog.md", rigproof::catalog_page());
  const bool schema =
      write(docs / "schema" / "catalog.schema.json", rigproof::catalog_json_schema());
  return page && schema ? 0 : 2;
} catch (const std::exception& fault) {
  std::fprintf(stderr, "rp_schema_doc: %s\n", fault.what());
  return 4;
}
