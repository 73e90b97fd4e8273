// The SQLite file held to what every backend of the store has to do.
#include "store/conformance.hpp"
#include "tests/support/test_folder.hpp"

namespace rigproof::store {
namespace {

using test_support::TestFolder;

Opener empty_file() {
  const auto folder = std::make_shared<TestFolder>();
  return [folder] { return open_store("sqlite:" + folder->file("workshop.db")); };
}

INSTANTIATE_TEST_SUITE_P(Sqlite, StoreConformance,
                         testing::Values(Backend{.name = "file", .empty_place = empty_file}),
                         testing::PrintToStringParamName());

}  // namespace
}  // namespace rigproof::store
