#include "tests/plan/alike_workshop.hpp"

#include "tests/plan/random_numbers.hpp"
#include "tests/support/scene.hpp"

namespace rigproof::test_plan {
namespace {

using test_support::TestTables;

class Maker : private RandomNumbers {
 public:
  explicit Maker(std::uint64_t seed) : RandomNumbers(seed) {}

  std::unique_ptr<RandomWorkshop> make() {
    heads();
    rest();
    title();
    auto out = std::make_unique<RandomWorkshop>();
    out->catalog = tables_.load();
    out->offers = std::move(offers_);
    out->brief = brief();
    return out;
  }

 private:
  static std::string id(const char* kind, int i) {
    return std::string(kind) + "-" + static_cast<char>('a' + i);
  }

  void offer(const std::string& part, std::int64_t minor) {
    const std::string seller = "seller-" + std::to_string(offers_.size());
    MadeOffer made{.part = part, .market = "IE", .currency = "EUR", .minor = minor};
    tables_.row("sellers", {{"id", seller}, {"market", "IE"}});
    tables_.row("offers", {{"part", part},
                           {"seller", seller},
                           {"market", "IE"},
                           {"seen", "2026-10-01"},
                           {"condition", "new"},
                           {"price", std::to_string(minor / 100) + ".00"},
                           {"currency", "EUR"},
                           {"tax_included", "yes"}});
    offers_.push_back(std::move(made));
  }

  // What is faster by a hundredth costs a little more, give or take.
  void heads() {
    const int cpus = number(2, 4);
    for (int i = 0; i < cpus; ++i) {
      const int speed = number(94, 106);
      tables_.row("cpu", {{"id", id("cpu", i)},
                          {"memory_max_mt_s", text(5200, 6400, 400)},
                          {"memory_channels", "2"},
                          {"frame_speed", std::to_string(speed) + "e-2"}});
      offer(id("cpu", i), 100 * (200 + 2 * speed + number(-8, 8)));
    }
    const int gpus = number(3, 6);
    for (int i = 0; i < gpus; ++i) {
      const int speed = number(94, 106);
      tables_.row("gpu", {{"id", id("gpu", i)},
                          {"chip", "chip-" + text(0, 3)},
                          {"video_memory_gib", "16"},
                          {"raster_speed", std::to_string(speed) + "e-2"},
                          {"ray_speed", "1"},
                          {"bandwidth_gb_s", text(500, 600, 20)}});
      offer(id("gpu", i), 100 * (300 + 4 * speed + number(-16, 16)));
    }
  }

  void rest() {
    tables_.row("board", {{"id", "board-a"}, {"memory_max_mt_s", "6000"}});
    offer("board-a", 9000);
    for (int i = 0; i < 2; ++i) {
      tables_.row("memory", {{"id", id("memory", i)},
                             {"modules", "2"},
                             {"module_gib", "16"},
                             {"speed_mt_s", i == 0 ? "5200" : "6000"}});
      offer(id("memory", i), i == 0 ? 7000 : 8000);
    }
    for (const char* kind : {"storage", "cooler", "case", "psu"}) {
      tables_.row(kind, {{"id", id(kind, 0)}});
      offer(id(kind, 0), 5000);
    }
  }

  void title() {
    tables_.row("titles", {{"id", "title-a"},
                           {"cpu_ms", decimal(600, 1000)},
                           {"memory_share_frac", "0.3"},
                           {"cpu_log_sd", "0.15"},
                           {"raster_ms", "1"},
                           {"raster_ms_per_mpix", decimal(120, 200)},
                           {"ray_ms", "0"},
                           {"ray_ms_per_mpix", "0.2"},
                           {"traffic_gb", "0.1"},
                           {"traffic_gb_per_mpix", "0.3"},
                           {"gpu_log_sd", "0.12"},
                           {"stage_correlation", "0.25"},
                           {"video_memory_gib", "4"},
                           {"video_memory_gib_per_mpix", "1"},
                           {"megapixels_low", "0.9"},
                           {"megapixels_high", "9"}});
  }

  Brief brief() {
    Brief out;
    out.name = "alike";
    out.as_of = *make_date(2026, 10, 1);
    out.markets.push_back(
        {.market = "IE", .budget = {*parse_currency("EUR"), 200'000}, .sales_tax = {}});
    TitleGoal goal;
    goal.title = "title-a";
    goal.width_px = 2560;
    goal.height_px = 1440;
    goal.target_fps = 60 + 20 * number(0, 3);
    out.titles.push_back(goal);
    out.saved_frac = 0.25 * number(1, 4);
    out.accept.unknown = Unknowns::accept;
    return out;
  }

  TestTables tables_;
  std::vector<MadeOffer> offers_;
};

}  // namespace

std::unique_ptr<RandomWorkshop> alike_workshop(std::uint64_t seed) { return Maker(seed).make(); }

}  // namespace rigproof::test_plan
