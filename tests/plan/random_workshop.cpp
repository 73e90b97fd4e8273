#include "tests/plan/random_workshop.hpp"

#include "tests/plan/random_brief.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::TestTables;

class Maker : private RandomNumbers {
 public:
  explicit Maker(std::uint64_t seed) : RandomNumbers(seed) {}

  std::unique_ptr<RandomWorkshop> make() {
    dear_ = chance(40);
    cpus();
    boards();
    memory();
    gpus();
    storage();
    coolers();
    cases();
    supplies();
    small_things();
    displays();
    titles();
    auto out = std::make_unique<RandomWorkshop>();
    add_offers();
    out->catalog = tables_.load();
    out->brief = random_brief(*this, {.as_of = as_of_,
                                      .dear = dear_,
                                      .two_markets = two_markets_,
                                      .titles = title_count_,
                                      .small_ones = small_ones_});
    out->offers = std::move(offers_);
    return out;
  }

 private:
  // A hole now and then.
  std::string holey(std::string value) { return chance(2) ? std::string() : value; }
  // A hole in a table of which a build reads many cells.
  std::string rarely(std::string value) { return chance(1) ? std::string() : value; }
  std::string id(const char* kind, int i) {
    ids_.push_back(std::string(kind) + "-" + static_cast<char>('a' + i));
    return ids_.back();
  }
  void cpus() {
    cpu_count_ = number(2, 3);
    for (int i = 0; i < cpu_count_; ++i)
      tables_.row("cpu", {{"id", id("cpu", i)},
                          {"socket", holey(chance(91) ? "K7" : "V3")},
                          {"memory_types", pick({"DDR5", "DDR4|DDR5"})},
                          {"memory_max_mt_s", holey(text(4800, 6400, 800))},
                          {"memory_max_gib", "128"},
                          {"memory_channels", chance(12) ? "" : pick({"2", "2", "2", "4"})},
                          {"cores", "8"},
                          {"sustained_power_w", holey(text(65, 125, 20))},
                          {"peak_power_w", "130"},
                          {"title_power_w", "60"},
                          {"limit_c", i % 2 == 0 ? "95" : "85"},
                          {"picture", chance(70) ? "yes" : "no"},
                          {"frame_speed", holey(decimal(70, 140))}});
  }
  void boards() {
    const int count = number(2, 3);
    for (int i = 0; i < count; ++i) {
      const std::string name = id("board", i);
      if (chance(98)) headers(name);
      const std::string slots = pick({"2", "4", "4"});
      const std::string order = slots == "2" ? "1|2" : pick({"2|4|1|3", "4|2|3|1"});
      const int oldest = number(3, 5);
      tables_.row("board", {{"id", name},
                            {"socket", holey(chance(91) ? "K7" : "V3")},
                            {"form_factor", pick({"ATX", "microATX"})},
                            {"memory_type", holey(chance(91) ? "DDR5" : "DDR4")},
                            {"upper_edge_mm", holey(text(24, 48, 8))},
                            {"socket_from_edge_mm", chance(80) ? text(80, 100, 10) : ""},
                            {"memory_slots", slots},
                            {"memory_fill_order", holey(order)},
                            {"memory_max_gib", "96"},
                            {"module_max_gib", pick({"8", "16", "16", "32", "32", "32"})},
                            {"memory_max_mt_s", holey(text(5200, 6400, 400))},
                            {"memory_full_mt_s", holey(text(4400, 5200, 400))},
                            {"cpu_sustained_w", holey(text(105, 180, 25))},
                            {"cpu_peak_w", "200"},
                            {"stage_rise_k", i % 2 == 0 ? "45" : ""},
                            {"firmware_shipped_first", holey(std::to_string(oldest))},
                            {"firmware_shipped_last", holey(text(oldest, 5))},
                            {"atx24_inputs", "1"},
                            {"eps8_inputs", chance(85) ? "1" : "2"},
                            {"eps4_inputs", "0"},
                            {"picture_outputs", chance(85) ? "1" : "0"},
                            {"sata_ports", text(0, 2, 2)},
                            {"wifi", chance(50) ? "yes" : "no"},
                            {"power_w", holey(text(20, 40, 10))}});
      slots_and_sockets(name);
      supported(name);
    }
  }
  // Sockets that share: some take lanes of the card's slot, some kill SATA ports.
  void slots_and_sockets(const std::string& board) {
    tables_.row("board_slots", {{"board", board},
                                {"slot", "1"},
                                {"position", rarely(pick({"1", "2"}))},
                                {"length", chance(94) ? "x16" : "x4"},
                                {"pcie_generation", rarely(pick({"4", "5"}))},
                                {"pcie_lanes", rarely("16")}});
    if (chance(60))
      tables_.row("board_slots", {{"board", board},
                                  {"slot", "2"},
                                  {"position", rarely(pick({"3", "4", "5"}))},
                                  {"length", pick({"x1", "x4"})},
                                  {"pcie_generation", "3"},
                                  {"pcie_lanes", "1"}});
    const int sockets = number(chance(93) ? 1 : 0, 3);
    for (int s = 1; s <= sockets; ++s) {
      const bool shares = chance(15);
      tables_.row("board_m2", {{"board", board},
                               {"socket", std::to_string(s)},
                               {"lengths_mm", pick({"80", "60|80"})},
                               {"links", rarely(pick({"NVMe", "NVMe|SATA"}))},
                               {"pcie_generation", rarely(pick({"3", "4"}))},
                               {"pcie_lanes", rarely("4")},
                               {"shares_slot", rarely(shares ? pick({"1", "1", "2"}) : "0")},
                               {"slot_lanes_left", shares ? rarely(pick({"0", "8"})) : ""},
                               {"sata_ports_off", rarely(chance(20) ? "1" : "0")}});
    }
  }
  void headers(const std::string& board) {
    tables_.row("board_headers", {{"board", board},
                                  {"header", "fan"},
                                  {"count", pick({"1", "3", "4", "5", "5"})},
                                  {"current_a", chance(80) ? "1" : ""}});
    if (chance(50))
      tables_.row("board_headers",
                  {{"board", board}, {"header", "usb-c"}, {"count", chance(70) ? "1" : "0"}});
    if (chance(70))
      tables_.row("board_headers", {{"board", board},
                                    {"header", "light-5v"},
                                    {"count", text(1, 2)},
                                    {"current_a", chance(80) ? "1" : ""}});
  }
  // The board's list: most processors that there are, from some firmware on; now and then no list.
  void supported(const std::string& board) {
    if (chance(2)) return;
    for (int i = 0; i < cpu_count_; ++i) {
      if (chance(3)) continue;
      const std::string cpu = std::string("cpu-") + static_cast<char>('a' + i);
      tables_.row(
          "cpu_support",
          {{"board", board}, {"cpu", cpu}, {"firmware", holey(chance(85) ? "1" : text(2, 5))}});
    }
  }
  void memory() {
    const int count = number(chance(30) ? 1 : 2, 2);
    for (int i = 0; i < count; ++i)
      tables_.row("memory", {{"id", id("memory", i)},
                             {"memory_type", chance(91) ? "DDR5" : "DDR4"},
                             {"modules", pick({"1", "2", "2", "4"})},
                             {"module_gib", pick({"8", "16"})},
                             {"speed_mt_s", holey(text(4800, 6400, 800))},
                             {"latency_clocks", holey(text(30, 46, 8))},
                             {"height_mm", holey(text(31, 43, 4))},
                             {"power_w", holey("8")}});
  }
  void gpus() {
    const int count = number(chance(70) ? 1 : 0, 3);
    for (int i = 0; i < count; ++i) {
      const std::string name = id("gpu", i);
      tables_.row("gpu", {{"id", name},
                          {"chip", holey(pick({"chip-a", "chip-b"}))},
                          {"length_mm", holey(text(250, 340, 30))},
                          {"height_mm", "120"},
                          {"thickness_mm", "45"},
                          {"slots", rarely(text(2, 4))},
                          {"pcie_generation", "4"},
                          {"pcie_lanes", rarely(pick({"8", "16", "16"}))},
                          {"plug_side", holey(pick({"top", "top", "end"}))},
                          {"plug_bend_mm", chance(80) ? text(25, 40, 5) : ""},
                          {"sustained_power_w", holey(text(150, 300, 50))},
                          {"slot_power_w", "40"},
                          {"limit_c", "88"},
                          {"rise_k", i % 2 == 0 ? "42" : "48"},
                          {"noise_dba", i % 2 == 0 ? "29" : "33"},
                          {"video_memory_gib", text(8, 16, 4)},
                          {"raster_speed", holey(decimal(60, 180))},
                          {"ray_speed", decimal(60, 180)},
                          {"bandwidth_gb_s", text(300, 700, 100)}});
      tables_.row("gpu_inputs", {{"gpu", name}, {"connector", "pcie8"}, {"count", text(1, 2)}});
      if (chance(92))
        tables_.row("gpu_outputs",
                    {{"gpu", name},
                     {"link", pick({"DisplayPort-1.4", "DisplayPort-1.4", "DisplayPort-1.2",
                                    "DisplayPort-2.1", "DisplayPort-2.1-UHBR10"})},
                     {"count", "3"},
                     {"compression", rarely(chance(50) ? "yes" : "no")}});
    }
  }
  void storage() {
    const bool alike = chance(15);  // four of one look, so that some outdo others
    const int count = alike ? 4 : number(chance(30) ? 1 : 2, 2);
    TestTables::Cells cells;
    for (int i = 0; i < count; ++i) {
      const bool bay = chance(25);
      if (i == 0 || !alike)
        cells = {{"mounting", bay ? "bay-2.5" : "M.2-2280"},
                 {"link", holey(bay ? "SATA" : "NVMe")},
                 {"pcie_generation", bay ? "" : holey(pick({"3", "4"}))},
                 {"pcie_lanes", bay ? "" : holey("4")},
                 {"capacity_gb", pick({"1000", "2000"})},
                 {"power_w", holey("6")}};
      auto row = cells;
      row.emplace_back("id", id("storage", i));
      row.emplace_back("rise_k", alike || i % 3 != 2 ? "35" : "");
      tables_.row("storage", row);
    }
  }
  void coolers() {
    const int count = number(chance(30) ? 1 : 2, 2);
    for (int i = 0; i < count; ++i) {
      const std::string name = id("cooler", i);
      const bool liquid = chance(30);
      tables_.row("cooler", {{"id", name},
                             {"type", liquid ? "liquid" : "air"},
                             {"height_mm", holey(liquid ? "55" : text(105, 165, 15))},
                             {"covers_memory_slots", liquid ? "" : holey(text(0, 2))},
                             {"memory_clearance_mm", liquid ? "" : holey(text(34, 50, 4))},
                             {"rated_heat_w", holey(text(95, 200, 35))},
                             {"rise_at_rating_k", "55"},
                             {"plate_rise_k", i % 2 == 0 ? "24" : ""},
                             {"flow_m3_h", liquid ? "100" : ""},
                             {"pressure_pa", liquid ? "22" : ""},
                             {"noise_dba", i % 2 == 0 ? "27" : "31"},
                             {"radiator_mm", liquid ? "240" : ""},
                             {"radiator_thickness_mm", liquid ? "27" : ""},
                             {"tube_mm", liquid && chance(80) ? text(340, 400, 20) : ""},
                             {"above_socket_mm", !liquid && chance(80) ? text(50, 74, 8) : ""},
                             {"fan_mm", "120"},
                             {"fan_thickness_mm", "25"},
                             {"fans", "1"},
                             {"power_w", "5"}});
      for (const char* socket : {"K7", "V3"})
        if (chance(95)) tables_.row("cooler_sockets", {{"cooler", name}, {"socket", socket}});
    }
  }
  void room(const std::string& of, const char* limits, const char* when, const std::string& by_mm) {
    tables_.row("case_clearances",
                {{"case", of}, {"limits", limits}, {"when", when}, {"by_mm", by_mm}});
  }
  void mount(const std::string& of, const char* face, const char* places, TestTables::Cells more) {
    const bool rear = face == std::string_view("rear");
    more.insert(more.end(), {{"case", of},
                             {"mount", face},
                             {"face", face},
                             {"fan_sizes_mm", "120"},
                             {"fan_places", places},
                             {"depth_mm", rear ? "40" : "60"},
                             {"open_frac", rear ? "0.6" : "0.5"},
                             {"filter_pa", rear ? "0" : "4"}});
    tables_.row("case_mounts", std::move(more));
  }
  void cases() {
    const int count = number(chance(30) ? 1 : 2, 2);
    for (int i = 0; i < count; ++i) {
      const std::string name = id("case", i);
      tables_.row("case", {{"id", name},
                           {"form_factors", pick({"ATX|microATX", "ATX|microATX", "microATX"})},
                           {"psu_forms", "ATX"},
                           {"width_mm", "210"},
                           {"height_mm", "450"},
                           {"depth_mm", "420"},
                           {"volume_l", text(30, 50, 10)},
                           {"card_slots", holey(pick({"4", "5", "7", "7"}))},
                           {"bays_2_5", text(0, 2)},
                           {"bays_3_5", "1"},
                           {"leak_cm2", "60"},
                           {"supply_chamber", i % 2 == 0 ? "yes" : "no"}});
      room(name, "card-length", "always", text(280, 340, 30));
      room(name, "card-length", "front", "10");
      if (chance(95)) room(name, "card-height", "always", text(150, 190, 10));
      if (chance(90)) room(name, "cooler-height", "always", text(145, 185, 20));
      room(name, "supply-length", "always", text(165, 225, 20));
      if (chance(40)) {
        const char* limits = chance(50) ? "supply-length" : "card-length";
        room(name, limits, "bay-2.5", text(10, 40, 10));
      }
      if (chance(50))
        tables_.row("case_ways", {{"case", name},
                                  {"connector", pick({"eps8", "pcie8", "sata"})},
                                  {"way_mm", text(400, 600, 50)}});
      mount(name, "front", "2",
            {{"radiators_mm", chance(70) ? "240" : "none"},
             {"tube_way_mm", chance(50) ? text(320, 400, 20) : ""},
             {"end_above_socket_mm", chance(50) ? text(-10, 40, 10) : ""}});
      if (chance(50))  // takes nothing of the card's room, so a radiator goes here first
        mount(name, "top", "2",
              {{"radiators_mm", chance(80) ? "240" : "none"},
               {"tube_way_mm", chance(30) ? "370" : ""},
               {"beyond_board_mm", holey(text(20, 60, 10))},
               {"middle_from_board_mm", holey(text(90, 110, 10))}});
      mount(name, "rear", "1", {{"radiators_mm", "none"}});
      if (chance(20))
        tables_.row("part_headers", {{"part", name}, {"header", "sata-power"}, {"count", "1"}});
      if (chance(25))
        tables_.row("part_headers", {{"part", name},
                                     {"header", "light-5v"},
                                     {"count", "1"},
                                     {"current_a", holey(pick({"0.5", "0.8", "1.2"}))}});
      if (chance(70))
        tables_.row("part_headers",
                    {{"part", name}, {"header", "usb-c"}, {"count", chance(70) ? "1" : "0"}});
      tables_.row("case_fans", {{"case", name},
                                {"mount", "rear"},
                                {"size_mm", "120"},
                                {"count", chance(60) ? "1" : "0"},
                                {"current_a", chance(70) ? "0.25" : ""},
                                {"flow_m3_h", "80"},
                                {"pressure_pa", "11"},
                                {"noise_dba", "22"}});
      if (chance(75))
        tables_.row("case_fans", {{"case", name},
                                  {"mount", "front"},
                                  {"size_mm", "120"},
                                  {"count", text(0, 2)},
                                  {"flow_m3_h", "80"},
                                  {"pressure_pa", "11"},
                                  {"noise_dba", "22"}});
    }
  }
  void supplies() {
    const int count = number(chance(30) ? 1 : 2, 2);
    for (int i = 0; i < count; ++i) {
      const std::string name = id("psu", i);
      tables_.row("psu", {{"id", name},
                          {"form", "ATX"},
                          {"efficiency", "gold"},
                          {"noise_dba", i % 2 == 0 ? "18" : "26"},
                          {"length_mm", holey(text(140, 180, 20))},
                          {"rated_power_w", holey(text(340, 680, 20))},
                          {"cable_family", holey(pick({"beech", "beech", "alder", "fixed"}))}});
      for (const auto& [connector, most] :
           {std::pair{"atx24", 1}, {"eps8", 2}, {"pcie8", 3}, {"sata", 4}})
        tables_.row("psu_cables", {{"psu", name},
                                   {"connector", connector},
                                   {"count", text(1, most)},
                                   {"length_mm", chance(80) ? text(500, 700, 50) : ""}});
    }
  }
  void small_things() {
    if (chance(85))
      tables_.row("fan", {{"id", id("fan", 0)},
                          {"size_mm", "120"},
                          {"thickness_mm", "25"},
                          {"current_a", holey(pick({"0.2", "0.45"}))},
                          {"chains", holey(pick({"yes", "no"}))},
                          {"speed_rpm", "1500"},
                          {"flow_m3_h", "90"},
                          {"pressure_pa", "15"},
                          {"noise_dba", "26"}});
    if (chance(30) && !ids_.empty() && ids_.back().starts_with("fan"))
      tables_.row("part_headers", {{"part", ids_.back()},
                                   {"header", "light-5v"},
                                   {"count", "1"},
                                   {"current_a", holey(pick({"0.4", "0.6"}))}});
    if (chance(60))
      tables_.row("other", {{"id", id("other", 0)},
                            {"what", "wifi-card"},
                            {"slot", holey(pick({"x1", "x1", "none"}))},
                            {"power_w", "3"}});
    if (chance(25)) {
      tables_.row("other", {{"id", id("other", 1)}, {"what", "socket-mount"}, {"power_w", "0"}});
      tables_.row("other_mounts", {{"other", "other-b"}, {"cooler", "cooler-a"}, {"socket", "K7"}});
    }
    if (chance(25)) adapter();
    if (chance(20)) hub();
    if (chance(20)) cable_set();
  }
  // Parts that stand between the supply and what it feeds; a brief may force them.
  void adapter() {
    small_ones_.push_back(id("other", 2));
    tables_.row("other", {{"id", small_ones_.back()}, {"what", "adapter"}, {"power_w", "0"}});
    if (chance(95))
      tables_.row("other_adapters", {{"other", small_ones_.back()},
                                     {"takes", pick({"sata", "sata", "pcie8"})},
                                     {"takes_count", text(1, 2)},
                                     {"gives", pick({"eps8", "pcie8", "sata"})},
                                     {"gives_count", "1"}});
  }
  void hub() {
    small_ones_.push_back(id("other", 3));
    tables_.row("other", {{"id", small_ones_.back()}, {"what", "hub"}, {"power_w", "1"}});
    tables_.row("other_hubs", {{"other", small_ones_.back()},
                               {"feeds", "fan"},
                               {"outputs", text(2, 4)},
                               {"current_a", holey(pick({"1", "3"}))}});
    if (chance(95))
      tables_.row("part_headers", {{"part", small_ones_.back()},
                                   {"header", "sata-power"},
                                   {"count", chance(70) ? "1" : "0"}});
  }
  void cable_set() {
    small_ones_.push_back(id("other", 4));
    tables_.row("other", {{"id", small_ones_.back()},
                          {"what", "cable-set"},
                          {"cable_family", holey(pick({"beech", "beech", "alder"}))},
                          {"power_w", "0"}});
    for (const char* connector : {"eps8", "pcie8", "sata"})
      if (chance(60))
        tables_.row("other_cables", {{"other", small_ones_.back()},
                                     {"connector", connector},
                                     {"count", text(1, 2)},
                                     {"length_mm", chance(80) ? text(450, 650, 50) : ""}});
  }
  void displays() {
    tables_.row("display", {{"id", id("display", 0)},
                            {"width_px", chance(50) ? "2560" : "3840"},
                            {"height_px", "1440"},
                            {"refresh_hz", rarely(text(60, 240, 60))},
                            {"bits_per_channel", pick({"", "10"})}});
    tables_.row(
        "display_inputs",
        {{"display", "display-a"},
         {"link", pick({"DisplayPort-1.4", "DisplayPort-1.4", "DisplayPort-2.1", "HDMI-2.1"})},
         {"count", "1"},
         {"compression", rarely(chance(50) ? "yes" : "no")}});
  }
  void titles() {
    title_count_ = number(0, 2);
    for (int i = 0; i < title_count_; ++i)
      tables_.row("titles", {{"id", "title-" + std::string(1, static_cast<char>('a' + i))},
                             {"cpu_ms", decimal(400, 1000)},
                             {"memory_share_frac", chance(70) ? "0.3" : "0"},
                             {"cpu_log_sd", "0.15"},
                             {"raster_ms", "1"},
                             {"raster_ms_per_mpix", decimal(100, 200)},
                             {"ray_ms", "0"},
                             {"ray_ms_per_mpix", chance(50) ? "0.4" : "0"},
                             {"traffic_gb", "0.1"},
                             {"traffic_gb_per_mpix", "0.3"},
                             {"gpu_log_sd", "0.12"},
                             {"stage_correlation", "0.25"},
                             // Not round: scores must not end in exactly half a cent.
                             {"cap_fps", chance(12) ? "19.863" : ""},
                             {"video_memory_gib", "4"},
                             {"video_memory_gib_per_mpix", "1"},
                             {"megapixels_low", "0.9"},
                             {"megapixels_high", "9"}});
  }

  // Prices come from a short list of round amounts, so that equal sums are frequent.
  void add_offers() {
    two_markets_ = chance(40);
    int serial = 0;
    for (const std::string& part : ids_) {
      for (int m = 0; m < (two_markets_ ? 2 : 1); ++m) {
        const int copies = chance(4) ? 0 : number(1, 2);
        for (int c = 0; c < copies; ++c) {
          MadeOffer offer{.part = part,
                          .market = m == 0 ? "IE" : "US",
                          .currency = m == 0 ? "EUR" : "USD",
                          .minor = 1000 * number(1, dear_ ? 20 : 6),
                          .tax_included = m == 0,
                          .age_days = chance(88) ? number(0, 9) : number(-1, 20),
                          .stock = chance(12) ? number(0, 2) : -1,
                          .condition = chance(8) ? "used" : "new"};
          const std::string seller = "seller-" + std::to_string(serial++);
          tables_.row("sellers", {{"id", seller}, {"market", offer.market}});
          tables_.row("offers", {{"part", part},
                                 {"seller", seller},
                                 {"market", offer.market},
                                 {"seen", to_string(Date{as_of_.days - offer.age_days})},
                                 {"condition", offer.condition},
                                 {"price", std::to_string(offer.minor / 100) + ".00"},
                                 {"currency", offer.currency},
                                 {"tax_included", offer.tax_included ? "yes" : "no"},
                                 {"stock", offer.stock < 0 ? "" : std::to_string(offer.stock)}});
          offers_.push_back(std::move(offer));
        }
      }
    }
  }

  TestTables tables_;
  std::vector<std::string> ids_;
  std::vector<std::string> small_ones_;  // others that are in a build only when forced
  std::vector<MadeOffer> offers_;
  const Date as_of_ = *make_date(2026, 10, 1);
  bool dear_ = false;
  bool two_markets_ = false;
  int title_count_ = 0;
  int cpu_count_ = 0;
};

}  // namespace

std::unique_ptr<RandomWorkshop> random_workshop(std::uint64_t seed) { return Maker(seed).make(); }

}  // namespace rigproof::test_plan
