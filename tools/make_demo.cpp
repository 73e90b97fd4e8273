#include "tools/make_demo.hpp"

#include "tools/make_demo_sheet.hpp"

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
  files["builds/evening-chair.toml"] = build_evening_chair();
  files["builds/friday-shelf.toml"] = build_shelf_mistake();
  return files;
}

}  // namespace rigproof::demo
