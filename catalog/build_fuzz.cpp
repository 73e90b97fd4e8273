// Fuzz target: any bytes give a build or complaints; a build that was read is written and read back
// as the same build.
#include <cstdint>
#include <cstdlib>

#include "catalog/build.hpp"
#include "catalog/small_catalog.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace rigproof;
  static const Catalog catalog = small_catalog();
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto build = read_build(bytes, "any.toml", catalog);
  if (!build) {
    if (build.error().empty()) std::abort();
    return 0;
  }
  const auto again = read_build(write_build(*build, catalog), "again.toml", catalog);
  if (!again || !(again->build == build->build) || again->name != build->name ||
      again->setup != build->setup)
    std::abort();
  return 0;
}
