#include "catalog/fill_order.hpp"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>
#include <vector>

#include "catalog/load.hpp"
#include "catalog/small_catalog.hpp"

namespace rigproof {
namespace {

std::vector<int> first(const std::string& order, int modules) {
  const std::string boards = "id,name,memory_fill_order\nb,B," + order + "\n";
  std::vector<TableFile> files = {{"board.csv", boards}};
  for (const char* table :
       {"cpu.csv", "memory.csv", "storage.csv", "cooler.csv", "case.csv", "psu.csv"})
    files.push_back({table, "id,name\n"});
  files.push_back({"sellers.csv", "id,name,market\n"});
  files.push_back({"offers.csv", small_offers_header});
  auto loaded = load_catalog(files);
  if (!loaded) throw std::runtime_error(loaded.error().report());
  const FillOrder read = fill_order(loaded->catalog, 0);
  return {read.first(modules).begin(), read.first(modules).end()};
}

TEST(FillOrder, TheFirstModulesGoWhereTheBoardSays) {
  EXPECT_EQ(first("2|4|1|3", 0), std::vector<int>());
  EXPECT_EQ(first("2|4|1|3", 1), std::vector<int>({2}));
  EXPECT_EQ(first("2|4|1|3", 2), std::vector<int>({2, 4}));
  EXPECT_EQ(first("2|4|1|3", 4), std::vector<int>({2, 4, 1, 3}));
  EXPECT_EQ(first("2|4|1|3", 9), std::vector<int>({2, 4, 1, 3})) << "no more than it lists";
  EXPECT_EQ(first("8|7|6|5|4|3|2|1", 8), std::vector<int>({8, 7, 6, 5, 4, 3, 2, 1}));
}

TEST(FillOrder, AnAbsentCellIsNoOrder) { EXPECT_EQ(first("", 2), std::vector<int>()); }

}  // namespace
}  // namespace rigproof
