#include "tests/plan/random_brief.hpp"

namespace rigproof::test_plan {

Brief random_brief(RandomNumbers& random, const RandomShop& shop) {
  Brief out;
  out.name = "random";
  out.as_of = shop.as_of;
  if (random.chance(70)) out.offers_not_older_than_days = random.number(10, 20);
  if (random.chance(30)) out.conditions = {"new", "used"};
  const int typical = shop.dear ? 122'000 : 46'000;
  out.markets.push_back({.market = "IE",
                         .budget = {*parse_currency("EUR"), typical + 1000 * random.number(-6, 36)},
                         .sales_tax = {}});
  if (shop.two_markets)
    out.markets.push_back(
        {.market = "US",
         .budget = {*parse_currency("USD"), typical + 1000 * random.number(-10, 40)},
         .sales_tax = DecimalRate{725, 4}});
  for (int i = 0; i < shop.titles; ++i) {
    TitleGoal goal;
    goal.title = "title-" + std::string(1, static_cast<char>('a' + i));
    goal.weight = random.number(1, 3);
    goal.width_px = 2560;
    goal.height_px = 1440;
    goal.target_fps = 60 + 20 * random.number(0, 3);
    if (random.chance(25)) goal.floor_fps = 15 + 10 * random.number(0, 5);
    if (random.chance(12)) goal.p99_frame_time_fps = 15 + 10 * random.number(0, 3);
    if (random.chance(20)) goal.render_scale = 0.75;
    out.titles.push_back(goal);
  }
  if (random.chance(15)) out.volume_l_at_most = 40;
  if (random.chance(50)) out.supply_reserve_frac = 0.1 * random.number(0, 3);
  if (random.chance(30)) out.memory_gib = 16 * random.number(1, 2);
  if (random.chance(25)) out.storage_gb = 1000 * random.number(1, random.chance(30) ? 3 : 2);
  out.wifi = random.chance(12);
  out.front_usb_c = random.chance(8);
  out.accept_adapters = random.chance(50);
  if (random.chance(10)) out.lone_offers_not_older_than_days = random.number(2, 9);
  out.saved_frac = 0.25 * random.number(0, 2);
  if (random.chance(20)) out.keep.push_back({Kind::psu, "psu-a", ""});
  if (random.chance(15)) out.because.push_back({Kind::chassis, "case-a", "it was there first"});
  if (!shop.small_ones.empty() && random.chance(30)) {
    const std::string& forced = shop.small_ones[static_cast<std::size_t>(
        random.number(0, static_cast<int>(shop.small_ones.size()) - 1))];
    if (random.chance(70))
      out.keep.push_back({Kind::other, forced, ""});
    else
      out.because.push_back({Kind::other, forced, "it was there first"});
  }
  if (random.chance(20)) out.accept.verdict = WorstVerdict::holds;
  if (random.chance(65)) out.accept.unknown = Unknowns::accept;
  out.accept_shared_lanes = random.chance(30);
  if (random.chance(7)) out.keep.push_back({Kind::display, "display-a", ""});
  if (random.chance(12)) {
    out.display =
        random.chance(60) ? DisplayGoal{2560, 1440, 144.0} : DisplayGoal{3840, 2160, 118.7};
  }
  if (random.chance(10))
    out.accept_by_rule["fit.card-length"] = {WorstVerdict::holds, Unknowns::accept};
  return out;
}

}  // namespace rigproof::test_plan
