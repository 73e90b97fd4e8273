// The demo's page: the invented workshop in its own words.
#include "tools/make_demo_traps.hpp"

namespace rigproof::demo {

namespace {

std::string count_of(const Demo& demo, std::string_view what, int table) {
  return "| `" + std::string(spec(table).name) + ".csv` | " + std::string(what) + " | " +
         std::to_string(demo.rows(table).size()) + " |\n";
}

}  // namespace

std::string readme(const Demo& demo) {
  std::string page = R"(# The demo: an invented workshop

**Nothing in this folder is measured.** Every maker, socket, chip, seller, title, price, number and story
was invented for it. It is there so that each command has something to work on; it says nothing about
any thing that can be bought. `catalog/provenance.csv` says so of every table (`method` is `invented`).

The Slipway is two rooms above a shed where rowing boats were once built. Two people design and build
computers there, a third writes down what came out, and whoever passes may read it. In one of the rooms
stands a couch; it has opinions about fans.

| folder | what |
| --- | --- |
| `catalog/` | the part tables the workshop keeps, offers of eight sellers in three markets over six months, twelve titles |
| `briefs/` | six things they were asked for; one of them cannot be had, for two reasons that have nothing to do with each other |
| `builds/` | complete lists: one for the couch, the same with its fans set, one that was drawn on a Friday evening, and ten traps |

**What to expect.** Speeds are relative to an invented processor of 1.0 (Rowan 38) and an invented card of
1.0 (chip Dunlin 6). Markets: IE in euro and GB in pounds with tax in the price, US in dollars without. Offers were
seen between 2026-04-01 and 2026-10-01, some of them as a series of days, so many are too old for a brief that
allows 14 days. Some cells are empty, as in any catalog kept by people: one card is known only by its name, one
case has never seen a ruler, one board's list of processors was never copied, four parts are sold by nobody.

## Ten traps

Each of these builds is sound but for one mistake that is easily made by price, and cheaper than the build that
is right. See what is wrong with one of them:

    build/release/bin/rigproof claims demo/builds/trap-weak-stage.toml --brief demo/briefs/careless-bargains.toml --catalog demo/catalog

and that a plan for the same brief walks into none:

    build/release/bin/rigproof plan demo/briefs/careless-bargains.toml --catalog demo/catalog

)";
  for (const Trap& trap : traps()) {
    page += "- `trap-" + std::string(trap.name) + "`: " + std::string(trap.wrong) +
            " The claim is `" + std::string(trap.rule) +
            (trap.unknown ? "`, with others about the card, and it is unknown"
             : trap.tells ? "`, which only tells: it fails and forbids nothing"
                          : "`, and it fails");
    page += "; what helps is " + std::string(trap.remedy) + ".\n";
  }
  page += R"(
## How it is made

The files are written by a program and never by hand:

    ninja -C build/dev make_demo && build/dev/bin/make_demo demo

It gives the same bytes on every machine; a test compares them with the files here.

| table | rows | how many |
| --- | --- | --- |
)";
  for (int t = 0; t < schema::table_count; ++t) page += count_of(demo, spec(t).meaning, t);
  return page;
}

}  // namespace rigproof::demo
