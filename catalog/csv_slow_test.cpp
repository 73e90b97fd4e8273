// A line of 200 MB: one complaint, then the rest is read, without a copy and in linear time.
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <chrono>

#include "catalog/csv.hpp"
#include "catalog/load.hpp"

namespace rigproof {
namespace {

long peak_kib() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss;
}

// Linear is some looks at every byte; a machine that needs 5 s for that (20 under a sanitizer) has
// other troubles.
TEST(CsvReaderSlow, ALineOf200MegabytesIsOneComplaint) {
  std::string text;
  text.reserve(201'000'000);
  for (const char filling : {'x', ',', '"'}) {
    text = "a,b\n1,2\n";
    text.append(200'000'001, filling);
    text += "\n3,4\n";
    const long before_kib = peak_kib();
    const auto begun = std::chrono::steady_clock::now();
    Complaints complaints;
    CsvReader reader(text, "t.csv", complaints);
    std::vector<CsvCell> cells;
    std::vector<std::pair<std::size_t, std::string>> seen;
    while (reader.next(cells)) seen.emplace_back(reader.line(), std::string(cells[0].text));
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(20));
    // A row of a million empty cells needs room for their places, but none for the line.
    if (filling == 'x') {
      EXPECT_LT(peak_kib() - before_kib, 50 * 1024) << "a copy of the line would be 195,000 KiB";
    }
    ASSERT_EQ(complaints.count(), 1U) << complaints.report();
    EXPECT_EQ(complaints.shown()[0].line, 3U);
    EXPECT_EQ(seen,
              (std::vector<std::pair<std::size_t, std::string>>{{1, "a"}, {2, "1"}, {4, "3"}}));
  }
}

// The same through the loader: a bad row, and with skip_bad the others are there.
TEST(LoadSlow, ALineOf200MegabytesIsABadRow) {
  std::string cpu = "id,name\nquick-six,Quick Six\n";
  cpu.append(200'000'000, 'x');
  cpu += "\nslow-two,Slow Two\n";
  const std::vector<TableFile> files = {
      {"cpu.csv", cpu},
      {"board.csv", "id,name\n"},
      {"memory.csv", "id,name\n"},
      {"storage.csv", "id,name\n"},
      {"cooler.csv", "id,name\n"},
      {"case.csv", "id,name\n"},
      {"psu.csv", "id,name\n"},
      {"sellers.csv", "id,name,market\n"},
      {"offers.csv", "part,seller,market,seen,condition,price,currency,tax_included\n"}};
  const auto refused = load_catalog(files);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().count(), 1U);
  EXPECT_EQ(refused.error().shown()[0].line, 3U);
  const auto skipped = load_catalog(files, {.skip_bad = true});
  ASSERT_TRUE(skipped);
  EXPECT_EQ(skipped->catalog.rows(table("cpu")), 2U);
  EXPECT_EQ(skipped->catalog.line(table("cpu"), 1), 4U);
}

}  // namespace
}  // namespace rigproof
