// No price of the demo is invented: every total of a plan is the sum of the cheapest admissible
// offers of its parts, recomputed here from offers.csv with nothing of the catalog's code. The
// rules are DESIGN section 11, "Price"; tax of the US market 7.25 %, per line, half up.
#include <gtest/gtest.h>

#include <chrono>
#include <optional>

#include "folder.hpp"
#include "json.hpp"
#include "program.hpp"

namespace rigproof::cli_test {
namespace {

// "129.90" in hundredths; both currencies of the demo have two decimals.
std::int64_t hundredths(const std::string& text) {
  const std::size_t dot = text.find('.');
  std::string digits = text.substr(0, dot);
  std::string after = dot == std::string::npos ? "" : text.substr(dot + 1);
  after.resize(2, '0');
  return std::stoll(digits + after);
}

int day_number(const std::string& iso) {
  using namespace std::chrono;
  const year_month_day date{year{std::stoi(iso.substr(0, 4))},
                            month{static_cast<unsigned>(std::stoi(iso.substr(5, 2)))},
                            day{static_cast<unsigned>(std::stoi(iso.substr(8, 2)))}};
  return static_cast<int>(sys_days{date}.time_since_epoch().count());
}

struct Asked {
  std::string market;
  int as_of_day = 0;
  int most_days = 0;
  std::int64_t tax_per_ten_thousand = 0;  // on offers without tax
};

// `count` pieces of one offer, the tax of each rounded half up, as price_book_test.cpp has it.
std::optional<std::int64_t> cheapest(const Table& offers, const Asked& asked,
                                     const std::string& part, std::int64_t count) {
  const auto cell = [&](const Row& row, const char* name) {
    return row.at(column_of(offers, name));
  };
  std::optional<std::int64_t> least;
  for (std::size_t r = 1; r < offers.size(); ++r) {
    const Row& row = offers[r];
    if (cell(row, "part") != part || cell(row, "market") != asked.market ||
        cell(row, "condition") != "new")
      continue;
    const int age = asked.as_of_day - day_number(cell(row, "seen"));
    if (age < 0 || age > asked.most_days) continue;
    const std::string stock = cell(row, "stock");
    if (!stock.empty() && std::stoll(stock) < count) continue;
    std::int64_t piece = hundredths(cell(row, "price"));
    if (cell(row, "tax_included") == "no")
      piece += (piece * asked.tax_per_ten_thousand + 5000) / 10000;
    const std::int64_t line = count * piece;
    if (!least || line < *least) least = line;
  }
  return least;
}

std::vector<std::pair<std::string, std::int64_t>> parts_of(const Json& build) {
  std::vector<std::pair<std::string, std::int64_t>> parts;
  for (const auto& [kind, value] : build.at("parts").items()) {
    if (value.is_string())
      parts.emplace_back(value, 1);
    else
      for (const Json& entry : value) parts.emplace_back(entry.at("id"), entry.at("count"));
  }
  return parts;
}

void expect_prices(const std::string& brief, const std::vector<Asked>& markets,
                   const std::string& kept, int builds) {
  const Table offers = table_of(bytes_of(demo_catalog + "/offers.csv"));
  ASSERT_GT(offers.size(), 900U);
  const Json plan = json_of(rigproof({"plan", brief, "--catalog", demo_catalog, "--json", "--best",
                                      std::to_string(builds)})
                                .out);
  ASSERT_EQ(plan.at("builds").size(), static_cast<std::size_t>(builds));
  for (const Json& build : plan.at("builds")) {
    ASSERT_EQ(build.at("prices").size(), markets.size());
    for (const Asked& asked : markets) {
      std::int64_t total = 0;
      for (const auto& [id, count] : parts_of(build)) {
        if (id == kept) continue;
        const auto line = cheapest(offers, asked, id, count);
        ASSERT_TRUE(line.has_value()) << id << " cannot be bought in " << asked.market;
        total += line.value_or(0);
      }
      EXPECT_EQ(build.at("prices").at(asked.market).at("minor"), total) << asked.market;
    }
  }
}

// as_of, allowed age, markets and the kept drive as the demo's briefs state them.
TEST(Prices, AreSumsOfCheapestAdmissibleOffersInThreeMarkets) {
  const int day = day_number("2026-10-01");
  expect_prices(living_room,
                {{.market = "IE", .as_of_day = day, .most_days = 14},
                 {.market = "GB", .as_of_day = day, .most_days = 14},
                 {.market = "US", .as_of_day = day, .most_days = 14, .tax_per_ten_thousand = 725}},
                "", 20);
}
TEST(Prices, AreSumsWithAKeptDrive) {
  expect_prices(high_refresh,
                {{.market = "IE", .as_of_day = day_number("2026-10-01"), .most_days = 14}},
                "pellant-shale-2-tb", 20);
}

// Each line of the sheet's price table is such an offer as well, and the lines add up to the total.
TEST(Prices, LinesOfTheSheetAreOffersToo) {
  const Folder folder;
  const Table offers = table_of(bytes_of(demo_catalog + "/offers.csv"));
  const Json plan = json_of(
      rigproof({"plan", living_room, "--catalog", demo_catalog, "--json", "--sheet", folder / "s"})
          .out);
  const Table lines = table_of(bytes_of(folder / "s/prices.csv"));
  ASSERT_GT(lines.size(), 1U);
  const std::size_t market = column_of(lines, "market");
  const int day = day_number("2026-10-01");
  for (const Asked& asked :
       {Asked{"IE", day, 14, 0}, Asked{"GB", day, 14, 0}, Asked{"US", day, 14, 725}}) {
    std::int64_t total = 0;
    for (std::size_t r = 1; r < lines.size(); ++r) {
      if (lines[r][market] != asked.market) continue;
      const std::string& id = lines[r].at(column_of(lines, "part_id"));
      const std::int64_t line = hundredths(lines[r].at(column_of(lines, "line")));
      EXPECT_EQ(line,
                cheapest(offers, asked, id, std::stoll(lines[r].at(column_of(lines, "count")))))
          << id;
      total += line;
    }
    EXPECT_EQ(plan.at("builds").at(0).at("prices").at(asked.market).at("minor"), total)
        << asked.market;
  }
}

}  // namespace
}  // namespace rigproof::cli_test
