// A sum that meets its capacity exactly, in tenths that no binary number holds: the bounds of the
// planner must not give up by rounding what the rule itself admits.
#include <gtest/gtest.h>

#include "app/planning.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

using test_support::TestTables;

// 70.2 + 29.5 + 6.7 + 112.3 + 7.7 + 5.2 = 231.6 W, all stated exactly.
TestTables exact_parts() {
  TestTables tables;
  tables
      .row("cpu", {{"id", "a-cpu"},
                   {"socket", "K7"},
                   {"memory_types", "DDR5"},
                   {"memory_max_gib", "128"},
                   {"sustained_power_w", "70.2"}})
      .row("board", {{"id", "a-board"},
                     {"socket", "K7"},
                     {"form_factor", "ATX"},
                     {"memory_type", "DDR5"},
                     {"memory_slots", "2"},
                     {"memory_max_gib", "128"},
                     {"module_max_gib", "64"},
                     {"cpu_sustained_w", "120"},
                     {"atx24_inputs", "1"},
                     {"eps8_inputs", "1"},
                     {"eps4_inputs", "0"},
                     {"sata_ports", "0"},
                     {"power_w", "29.5"}})
      .row("board_headers",
           {{"board", "a-board"}, {"header", "fan"}, {"count", "2"}, {"current_a", "1"}})
      .row("cpu_support", {{"board", "a-board"}, {"cpu", "a-cpu"}, {"firmware", "1"}})
      .row("board_slots",
           {{"board", "a-board"}, {"slot", "1"}, {"position", "1"}, {"length", "x16"}})
      .row("board_m2", {{"board", "a-board"},
                        {"socket", "1"},
                        {"lengths_mm", "80"},
                        {"links", "NVMe"},
                        {"shares_slot", "0"}})
      .row("memory", {{"id", "a-memory"},
                      {"memory_type", "DDR5"},
                      {"modules", "2"},
                      {"module_gib", "16"},
                      {"power_w", "6.7"}})
      .row("gpu", {{"id", "a-gpu"},
                   {"length_mm", "200"},
                   {"slots", "2"},
                   {"plug_side", "end"},
                   {"sustained_power_w", "112.3"},
                   {"slot_power_w", "60"}})
      .row("gpu_inputs", {{"gpu", "a-gpu"}, {"connector", "pcie8"}, {"count", "1"}})
      .row("gpu_outputs", {{"gpu", "a-gpu"}, {"link", "DisplayPort-1.4"}, {"count", "1"}})
      .row("storage", {{"id", "a-drive"},
                       {"mounting", "M.2-2280"},
                       {"link", "NVMe"},
                       {"capacity_gb", "1000"},
                       {"power_w", "7.7"}})
      .row("cooler", {{"id", "a-cooler"},
                      {"type", "air"},
                      {"height_mm", "120"},
                      {"covers_memory_slots", "0"},
                      {"rated_heat_w", "150"},
                      {"fans", "1"},
                      {"power_w", "5.2"}})
      .row("cooler_sockets", {{"cooler", "a-cooler"}, {"socket", "K7"}})
      .row("case", {{"id", "a-case"},
                    {"form_factors", "ATX"},
                    {"psu_forms", "ATX"},
                    {"volume_l", "40"},
                    {"card_slots", "7"}})
      .row("case_clearances",
           {{"case", "a-case"}, {"limits", "card-length"}, {"when", "always"}, {"by_mm", "300"}})
      .row("case_clearances",
           {{"case", "a-case"}, {"limits", "cooler-height"}, {"when", "always"}, {"by_mm", "160"}})
      .row("case_clearances",
           {{"case", "a-case"}, {"limits", "supply-length"}, {"when", "always"}, {"by_mm", "200"}})
      .row("case_mounts", {{"case", "a-case"},
                           {"mount", "rear"},
                           {"face", "rear"},
                           {"fan_sizes_mm", "120"},
                           {"fan_places", "2"},
                           {"radiators_mm", "none"},
                           {"depth_mm", "40"}})
      .row("case_fans", {{"case", "a-case"}, {"mount", "rear"}, {"size_mm", "120"}, {"count", "2"}})
      .row("psu",
           {{"id", "a-psu"}, {"form", "ATX"}, {"length_mm", "140"}, {"rated_power_w", "231.6"}});
  for (const auto& [connector, count] : {std::pair{"atx24", "1"}, {"eps8", "1"}, {"pcie8", "1"}})
    tables.row("psu_cables", {{"psu", "a-psu"}, {"connector", connector}, {"count", count}});
  for (const char* table : {"cpu", "gpu"}) tables.plus_minus(table, "*", "*", 0);
  for (const char* part :
       {"a-cpu", "a-board", "a-memory", "a-gpu", "a-drive", "a-cooler", "a-case", "a-psu"})
    tables.offer(part, "IE", "EUR", "50.00");
  return tables;
}

TEST(ExactSums, AreNotGivenUpByRounding) {
  const app::Workshop workshop{.folder = "exact", .catalog = exact_parts().load(), .skipped = {}};
  for (const Unknowns unknown : {Unknowns::refuse, Unknowns::accept}) {
    Brief brief;
    brief.as_of = *make_date(2026, 10, 1);
    brief.markets.push_back(
        {.market = "IE", .budget = {*parse_currency("EUR"), 100'000}, .sales_tax = {}});
    brief.because.push_back({Kind::gpu, "a-gpu", "the sum needs it"});
    brief.accept.unknown = unknown;
    const auto planning = app::Planning::start(workshop, brief);
    ASSERT_TRUE(planning);
    const auto outcome =
        (*planning)->plan({.keep = 1, .first_only = false, .stop = {}, .progress = {}});
    ASSERT_EQ(outcome.status, plan::Outcome::Status::proven);
    EXPECT_EQ(outcome.best.front().prices.front(), 8 * 5000);
  }
}

}  // namespace
}  // namespace rigproof
