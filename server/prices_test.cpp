// Price series: what the catalog's offers said on every day they were looked at.
#include <gtest/gtest.h>

#include "server/price_keeping.hpp"
#include "tests/server/test_bench.hpp"

namespace rigproof::server_test {
namespace {

const std::string header = "part,seller,market,seen,condition,price,currency,tax_included\n";
const std::string larch = "/api/prices/cpu/orrvane-larch-14";

TEST(Prices, ASeriesGrowsWithTheEditions) {
  Bench bench;
  write_bytes(bench.table("offers"),
              header + "orrvane-larch-14,thrum,IE,2026-10-01,new,82.90,EUR,yes\n");
  bench.library->look_again();
  ASSERT_EQ(json_of(bench.get(larch))["points"].size(), 1U);
  // The next day's table holds the new offer alone; the old one stays in the series.
  write_bytes(bench.table("offers"),
              header + "orrvane-larch-14,thrum,IE,2026-10-09,new,79.00,EUR,yes\n");
  bench.library->look_again();
  const Json points = json_of(bench.get(larch))["points"];
  ASSERT_EQ(points.size(), 2U);
  EXPECT_EQ(points[0]["seen"], "2026-10-01");
  EXPECT_EQ(points[0]["price"], (Json{{"currency", "EUR"}, {"minor", 8290}}));
  EXPECT_EQ(points[1]["price"], (Json{{"currency", "EUR"}, {"minor", 7900}}));
  EXPECT_EQ(points[1]["tax_included"], true);
  EXPECT_EQ(json_of(bench.get(larch))["points"].size(), 2U) << "looking adds nothing";
}

TEST(Prices, AnEditOfTheTableIsKeptWithoutALook) {
  Bench bench;
  ASSERT_TRUE(server::keep_prices(*bench.desk));
  const std::size_t before = json_of(bench.get(larch))["points"].size();
  ASSERT_GE(before, 1U);
  write_bytes(bench.table("offers"),
              header + "orrvane-larch-14,thrum,IE,2026-10-09,new,79.00,EUR,yes\n");
  bench.library->look_again();
  ASSERT_TRUE(server::keep_prices(*bench.desk));  // what the running service does
  write_bytes(bench.table("offers"), header);
  bench.library->look_again();
  EXPECT_EQ(json_of(bench.get(larch))["points"].size(), before + 1);
}

TEST(Prices, OfWhatIsNoPart) {
  Bench bench;
  EXPECT_TRUE(json_of(bench.get("/api/prices/cpu/nobody"))["points"].empty());
  EXPECT_EQ(bench.get("/api/prices/nothing/x").status, 404);
  EXPECT_EQ(bench.get("/api/prices/cpu/No Slug").status, 400);
  EXPECT_EQ(bench.get("/api/prices/cpu").status, 404);
  EXPECT_EQ(bench.ask("DELETE", larch).status, 405);
}

}  // namespace
}  // namespace rigproof::server_test
