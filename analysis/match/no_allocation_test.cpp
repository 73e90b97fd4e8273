// Measuring allocates nothing once the cells' draws are made: every rule, on a whole build.
#include <gtest/gtest.h>

#include "analysis/match/match_rules.hpp"
#include "tests/support/allocations.hpp"
#include "tests/support/scene.hpp"

namespace rigproof {
namespace {

TEST(Measure, AllocatesNothing) {
  test_support::TestTables tables;
  tables
      .row("cpu", {{"id", "a-cpu"},
                   {"socket", "K7"},
                   {"picture", "yes"},
                   {"pcie_generation", "4"},
                   {"sustained_power_w", "90"},
                   {"memory_types", "DDR5"}})
      .row("board", {{"id", "a-board"},
                     {"socket", "K7"},
                     {"picture_outputs", "1"},
                     {"eps8_inputs", "1"},
                     {"form_factor", "ATX"}})
      .row("board_m2", {{"board", "a-board"},
                        {"socket", "1"},
                        {"lengths_mm", "80"},
                        {"links", "NVMe"},
                        {"pcie_generation", "4"},
                        {"pcie_lanes", "4"},
                        {"position", "3"},
                        {"shares_slot", "1"},
                        {"slot_lanes_left", "8"}})
      .row("board_slots", {{"board", "a-board"}, {"slot", "1"}, {"length", "x16"}})
      .row("memory",
           {{"id", "a-memory"}, {"memory_type", "DDR5"}, {"modules", "2"}, {"module_gib", "16"}})
      .row("gpu", {{"id", "a-gpu"}})
      .row("gpu_inputs", {{"gpu", "a-gpu"}, {"connector", "pcie8"}, {"count", "1"}})
      .row("gpu_outputs", {{"gpu", "a-gpu"}, {"link", "DisplayPort-1.4"}, {"count", "1"}})
      .row("storage", {{"id", "a-storage"},
                       {"mounting", "M.2-2280"},
                       {"link", "NVMe"},
                       {"capacity_gb", "1000"}})
      .row("storage", {{"id", "a-disk"}, {"mounting", "bay-3.5"}, {"link", "SATA"}})
      .row("other", {{"id", "a-radio"}, {"what", "wifi-card"}, {"slot", "x1"}})
      .row(
          "display",
          {{"id", "a-display"}, {"width_px", "2560"}, {"height_px", "1440"}, {"refresh_hz", "144"}})
      .row("display_inputs",
           {{"display", "a-display"}, {"link", "DisplayPort-1.4"}, {"count", "1"}})
      .row("cooler", {{"id", "a-cooler"}, {"rated_heat_w", "91"}})
      .row("cooler_sockets", {{"cooler", "a-cooler"}, {"socket", "K7"}})
      .row("case", {{"id", "a-case-with-a-name-too-long-to-be-kept-in-place"},
                    {"form_factors", "ATX"},
                    {"psu_forms", "ATX"}})
      .row("psu", {{"id", "a-psu"}, {"form", "ATX"}})
      .row("psu_cables", {{"psu", "a-psu"}, {"connector", "eps8"}, {"count", "1"}})
      .row("board_headers", {{"board", "a-board"}, {"header", "fan"}, {"count", "1"}})
      .row("case_fans", {{"case", "a-case-with-a-name-too-long-to-be-kept-in-place"},
                         {"mount", "rear"},
                         {"size_mm", "120"},
                         {"count", "1"}})
      .row("part_headers", {{"part", "a-case-with-a-name-too-long-to-be-kept-in-place"},
                            {"header", "usb2"},
                            {"count", "1"}})
      .row("part_headers", {{"part", "a-cooler"}, {"header", "pump"}, {"count", "1"}})
      .row("part_headers", {{"part", "a-cooler"}, {"header", "light-5v"}, {"count", "1"}})
      .row("other", {{"id", "a-adapter"}, {"what", "adapter"}})
      .row("other_adapters", {{"other", "a-adapter"},
                              {"takes", "pcie8"},
                              {"takes_count", "2"},
                              {"gives", "12v-2x6"},
                              {"gives_count", "1"}})
      .row("other", {{"id", "a-set"}, {"what", "cable-set"}, {"cable_family", "beech"}})
      .offer("a-cpu", "IE", "EUR", "100");
  test_support::Scene scene(tables);
  for (const char* id : {"a-cpu", "a-board", "a-memory", "a-gpu", "a-storage", "a-disk", "a-cooler",
                         "a-radio", "a-display", "a-case-with-a-name-too-long-to-be-kept-in-place",
                         "a-psu", "a-adapter", "a-set"})
    scene.take(id);
  scene.brief.as_of = *parse_date("2026-10-01");
  scene.brief.offers_not_older_than_days = 30;
  scene.brief.memory_gib = 32.0;
  scene.brief.storage_gb = 2000.0;
  scene.brief.wifi = true;
  scene.brief.front_usb_c = true;
  scene.brief.keep.push_back({Kind::psu, "a-psu", ""});
  scene.market("IE", "EUR", "1000");
  scene.setup.mounts = {{"a-storage", "1"}};
  const Facts facts = scene.facts();

  int claims = 0;
  for (const auto rules : {match_rules(), market_rules()})
    for (const Rule* rule : rules) {
      EXPECT_GT(rule->places(facts), 0) << rule->id;
      for (int place = 0; place < rule->places(facts); ++place, ++claims) {
        EXPECT_EQ(test_support::allocations_of(*rule, facts, place), 0U) << rule->id;
      }
    }
  EXPECT_GE(claims, 32);
}

}  // namespace
}  // namespace rigproof
