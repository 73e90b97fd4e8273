#include "tools/make_demo.hpp"

#include "tools/make_demo_traps.hpp"

namespace rigproof::demo {

Files make_demo() {
  Demo demo;
  add_cpus(demo);
  add_boards(demo);
  add_memory(demo);
  add_cards(demo);
  add_storage(demo);
  add_coolers(demo);
  add_cases(demo);
  add_supplies(demo);
  add_noise_points(demo);
  add_fans(demo);
  add_displays_and_others(demo);
  add_titles(demo);
  add_sellers_and_offers(demo);
  add_holes(demo);
  add_provenance(demo);
  Files files;
  for (int t = 0; t < schema::table_count; ++t)
    files["catalog/" + std::string(spec(t).name) + ".csv"] = demo.csv(t);
  files["README.md"] = readme(demo);
  files["briefs/quiet-living-room.toml"] = brief_quiet_living_room();
  files["briefs/competition-high-refresh.toml"] = brief_competition_high_refresh();
  files["briefs/cannot-be-satisfied.toml"] = brief_cannot_be_satisfied();
  files["briefs/boat-locker.toml"] = brief_boat_locker();
  files["briefs/second-life.toml"] = brief_second_life();
  files["briefs/careless-bargains.toml"] = brief_careless_bargains();
  files["builds/evening-chair.toml"] = build_evening_chair();
  files["builds/evening-chair-fans-set.toml"] = build_chair_with_set_fans();
  files["builds/friday-shelf.toml"] = build_shelf_mistake();
  for (const Trap& trap : traps())
    files["builds/trap-" + std::string(trap.name) + ".toml"] = build_of(trap, false);
  return files;
}

}  // namespace rigproof::demo
