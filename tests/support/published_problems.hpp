// For tests only: published instances as problems of the search, with their published optima. The
// search has to reach them, and so have outside solvers on what the MPS writer makes of them.
#pragma once

#include <algorithm>
#include <cstdint>
#include <ostream>
#include <vector>

#include "decision/plan/search.hpp"

namespace rigproof::plan {

/// One slot an item, options "leave" (0) and "take" (1), a resource a constraint, profit as value.
inline Problem packing(const std::vector<double>& profits,
                       const std::vector<std::vector<std::int64_t>>& weights,
                       const std::vector<std::int64_t>& capacities) {
  Problem problem;
  problem.caps = capacities;
  for (std::size_t item = 0; item < profits.size(); ++item) {
    Option leave{.costs = std::vector<std::int64_t>(capacities.size(), 0), .rank = 0};
    Option take{.costs = {}, .value = profits[item], .rank = 1};
    for (const auto& row : weights) take.costs.push_back(row.at(item));
    problem.slots.push_back({.name = std::to_string(item + 1), .options = {leave, take}});
  }
  return problem;
}

inline std::vector<int> taken_items(const Solution& solution) {
  std::vector<int> items;
  for (std::size_t slot = 0; slot < solution.choice.size(); ++slot)
    if (solution.choice[slot] == 1) items.push_back(static_cast<int>(slot) + 1);
  return items;
}

struct Knapsack {
  const char* name;
  std::int64_t capacity;
  std::vector<std::int64_t> weights;
  std::vector<double> profits;
  std::int64_t optimum;
  std::vector<int> items;
};
inline void PrintTo(const Knapsack& k, std::ostream* out) { *out << k.name; }

// Source: [knapsack-01], J. Burkardt's set (P01-P06 from Kreher and Stinson, and Martello and
// Toth). How known: P01, P02, P06 looked up, computed by enumeration; P03 weights and profits
// looked up, capacity from memory, computed; P04, P05, P07 from memory, computed. Tolerance: exact.
inline std::vector<Knapsack> published_knapsacks() {
  return {Knapsack{"P01",
                   165,
                   {23, 31, 29, 44, 53, 38, 63, 85, 89, 82},
                   {92, 57, 49, 68, 60, 43, 67, 84, 87, 72},
                   309,
                   {1, 2, 3, 4, 6}},
          Knapsack{"P02", 26, {12, 7, 11, 8, 9}, {24, 13, 23, 15, 16}, 51, {2, 3, 4}},
          Knapsack{"P03", 190, {56, 59, 80, 64, 75, 17}, {50, 50, 64, 46, 50, 5}, 150, {1, 2, 5}},
          Knapsack{"P04", 50, {31, 10, 20, 19, 4, 3, 6}, {70, 20, 39, 37, 7, 5, 10}, 107, {1, 4}},
          Knapsack{"P05",
                   104,
                   {25, 35, 45, 5, 25, 3, 2, 2},
                   {350, 400, 450, 20, 70, 8, 5, 5},
                   900,
                   {1, 3, 4, 5, 7, 8}},
          Knapsack{"P06",
                   170,
                   {41, 50, 49, 59, 55, 57, 60},
                   {442, 525, 511, 593, 546, 564, 617},
                   1735,
                   {2, 4, 7}},
          Knapsack{"P07",
                   750,
                   {70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120},
                   {135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240},
                   1458,
                   {1, 3, 5, 7, 8, 9, 14, 15}}};
}

/// Many constraints over one set of items.
struct PublishedPacking {
  const char* name;
  Problem problem;
  std::int64_t optimum;
  std::vector<int> choice;
};
inline void PrintTo(const PublishedPacking& p, std::ostream* to) { *to << p.name; }

// Source: OR-Library mknap1, problems 1 to 3 [petersen-1967]. How known: looked up (optima stand in
// the file), computed again by enumeration. Tolerance: exact.
inline std::vector<PublishedPacking> petersen_packings() {
  return {{"Petersen One",
           packing({100, 600, 1200, 2400, 500, 2000},
                   {{8, 12, 13, 64, 22, 41},
                    {8, 12, 13, 75, 22, 41},
                    {3, 6, 4, 18, 6, 4},
                    {5, 10, 8, 32, 6, 12},
                    {5, 13, 8, 42, 6, 20},
                    {5, 13, 8, 48, 6, 20},
                    {0, 0, 0, 0, 8, 0},
                    {3, 0, 4, 0, 8, 0},
                    {3, 2, 4, 0, 8, 4},
                    {3, 2, 4, 8, 8, 4}},
                   {80, 96, 20, 36, 44, 48, 10, 18, 22, 24}),
           3800,
           {0, 1, 1, 0, 0, 1}},
          {"Petersen Two",
           /* profits x 10: the published optimum is 8706.1 */
           packing({6001, 3105, 18000, 38500, 186, 1987, 8820, 42000, 4025, 3270},
                   {{20, 5, 100, 200, 2, 4, 60, 150, 80, 40},
                    {20, 7, 130, 280, 2, 8, 110, 210, 100, 40},
                    {60, 3, 50, 100, 4, 2, 20, 40, 6, 12},
                    {60, 8, 70, 200, 4, 6, 40, 70, 16, 20},
                    {60, 13, 70, 250, 4, 10, 60, 90, 20, 24},
                    {60, 13, 70, 280, 4, 10, 70, 105, 22, 28},
                    {5, 2, 20, 100, 2, 5, 10, 60, 0, 0},
                    {45, 14, 80, 180, 6, 10, 40, 100, 20, 0},
                    {55, 14, 80, 200, 6, 10, 50, 140, 30, 40},
                    {65, 14, 80, 220, 6, 10, 50, 180, 30, 50}},
                   {450, 540, 200, 360, 440, 480, 200, 360, 440, 480}),
           87061,
           {0, 1, 0, 1, 1, 0, 0, 1, 0, 1}},
          {"Petersen Three",
           packing({100, 220, 90, 400, 300, 400, 205, 120, 160, 580, 400, 140, 100, 1300, 650},
                   {{8, 24, 13, 80, 70, 80, 45, 15, 28, 90, 130, 32, 20, 120, 40},
                    {8, 44, 13, 100, 100, 90, 75, 25, 28, 120, 130, 32, 40, 160, 40},
                    {3, 6, 4, 20, 20, 30, 8, 3, 12, 14, 40, 6, 3, 20, 5},
                    {5, 9, 6, 40, 30, 40, 16, 5, 18, 24, 60, 16, 11, 30, 25},
                    {5, 11, 7, 50, 40, 40, 19, 7, 18, 29, 70, 21, 17, 30, 25},
                    {5, 11, 7, 55, 40, 40, 21, 9, 18, 29, 70, 21, 17, 35, 25},
                    {0, 0, 1, 10, 4, 10, 0, 6, 0, 6, 32, 3, 0, 70, 10},
                    {3, 4, 5, 20, 14, 20, 6, 12, 10, 18, 42, 9, 12, 100, 20},
                    {3, 6, 9, 30, 29, 20, 12, 12, 10, 30, 42, 18, 18, 110, 20},
                    {3, 8, 9, 35, 29, 20, 16, 15, 10, 30, 42, 20, 18, 120, 20}},
                   {550, 700, 130, 240, 280, 310, 110, 205, 260, 275}),
           4015,
           {1, 1, 0, 1, 0, 1, 1, 0, 1, 1, 0, 0, 0, 1, 1}}};
}

// Source: Steiner triples [steiner-1974]; stein9 is the affine plane of
// order 3. How known: optimum 5 computed by enumeration, published value from memory.
inline const std::vector<std::vector<int>>& stein_nine_triples() {
  static const std::vector<std::vector<int>> triples{{1, 2, 3}, {1, 4, 7}, {1, 5, 9}, {1, 6, 8},
                                                     {2, 4, 9}, {2, 5, 8}, {2, 6, 7}, {3, 4, 8},
                                                     {3, 5, 7}, {3, 6, 9}, {4, 5, 6}, {7, 8, 9}};
  return triples;
}
inline constexpr int stein_nine_points = 5;

/// Score: minus the number of points.
inline Problem stein_nine() {
  Problem problem = packing(std::vector<double>(9, -1.0), {std::vector<std::int64_t>(9, 0)}, {0});
  for (const auto& triple : stein_nine_triples())
    problem.checks.push_back({.scope = {triple[0] - 1, triple[1] - 1, triple[2] - 1},
                              .why = "triple is met",
                              .holds = [triple](std::span<const int> choice) {
                                return std::ranges::any_of(triple, [&](int point) {
                                  return choice[static_cast<std::size_t>(point) - 1] == 1;
                                });
                              }});
  return problem;
}

}  // namespace rigproof::plan
