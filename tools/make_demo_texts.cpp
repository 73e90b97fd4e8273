// The demo's page, briefs and builds: the invented workshop in its own words.
#include "tools/make_demo_sheet.hpp"

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
| `catalog/` | the part tables the workshop keeps, offers of five sellers in two markets, eight titles |
| `briefs/` | three things they were asked for; the last one cannot be had |
| `builds/` | two complete lists: one for the couch, and one that was drawn on a Friday evening |

**What to expect.** Speeds are relative to an invented processor of 1.0 (Rowan 38) and an invented card of
1.0 (chip Dunlin 6). Markets: IE in euro with tax in the price, US in dollars without. Offers were seen in the
six weeks before 2026-10-01, so some are too old for a brief that allows 14 days. Some cells are empty, as
in any catalog kept by people: one card is known only by its name, one case has never seen a ruler, four
parts are sold by nobody.

The files are written by a program and never by hand:

    ninja -C build/dev make_demo && build/dev/bin/make_demo demo

It gives the same bytes on every machine; a test compares them with the files here.

| table | rows | how many |
| --- | --- | --- |
)";
  for (int t = 0; t < schema::table_count; ++t) page += count_of(demo, spec(t).meaning, t);
  return page;
}

std::string brief_quiet_living_room() {
  return R"(# Invented for the demo; nothing in it is measured.
#
# The couch room above the slipway. Three people and a dog watch from three metres; the dog leaves when
# a fan is louder than the kettle. The picture is 4K at 60, the shelf beside the screen holds 45 litres.

[brief]
name = "Quiet living room, 4K at 60"
as_of = 2026-10-01
offers_not_older_than_days = 14

[[markets]]
market = "IE"
currency = "EUR"
budget = "1500.00"

[[markets]]
market = "US"
currency = "USD"
budget = "1500.00"
sales_tax = "0.0725"

[[titles]]
title = "slow-tide"
weight = 3
resolution = "3840x2160"
target_fps = 60
floor_fps = 45

[[titles]]
title = "wide-fallow"
weight = 2
resolution = "3840x2160"
target_fps = 60
floor_fps = 45
render_scale = 0.67

[[titles]]
title = "gravel-nine"
weight = 2
resolution = "3840x2160"
target_fps = 60

[[titles]]
title = "button-thieves"
weight = 1
resolution = "3840x2160"
target_fps = 60
floor_fps = 45

[limits]
noise_dba = { at_most = 34, load = "title", distance_m = 1 }
volume_l = { at_most = 45 }
supply_reserve_frac = 0.2

[room]
temp_c = 23

[musts]
memory_gb = 32
storage_gb = 2000
wifi = true

[worths]
quiet = "80.00"
lasting = "90.00"
saved_frac = 0.25

[because]
cooler = { id = "brisvind-heron-120", why = "the only one that was tried in this room and the dog stayed" }

[display]
resolution = "3840x2160"
refresh_hz = 60
)";
}

std::string brief_competition_high_refresh() {
  return R"(# Invented for the demo; nothing in it is measured.
#
# The village hall plays Ricochet Parish on the last Saturday of the month. The machine goes there on a
# hand cart, its drive holds two years of recorded rounds, and its screen shows 360 pictures a second.

[brief]
name = "Parish league, 1440p at 360"
as_of = 2026-10-01
offers_not_older_than_days = 14

[[markets]]
market = "IE"
currency = "EUR"
budget = "1900.00"

[[titles]]
title = "ricochet-parish"
weight = 5
resolution = "2560x1440"
target_fps = 360
floor_fps = 300
p99_frame_time_fps = 220

[[titles]]
title = "gravel-nine"
weight = 2
resolution = "2560x1440"
target_fps = 180
p99_frame_time_fps = 120

[[titles]]
title = "thermal-lines"
weight = 1
resolution = "2560x1440"
target_fps = 144
floor_fps = 90
p99_frame_time_fps = 75

[limits]
supply_reserve_frac = 0.15

[musts]
memory_gb = 32
storage_gb = 2000

[worths]
lasting = "60.00"
saved_frac = 0.2

[keep]
storage = "pellant-shale-2-tb"

[because]
case = { id = "ottermill-drift-50", why = "the straps of the hand cart were sewn for this one" }

[display]
resolution = "2560x1440"
refresh_hz = 360
)";
}

std::string brief_cannot_be_satisfied() {
  return R"(# Invented for the demo; nothing in it is measured.
#
# Asked for by a cousin: the heaviest title, every pixel of 4K, sixty a second, for seven hundred. Each of
# these wishes can be had. Not all of them at once, and the plan says which ones stand against each other.

[brief]
name = "The cousin's wish"
as_of = 2026-10-01
offers_not_older_than_days = 14

[[markets]]
market = "IE"
currency = "EUR"
budget = "700.00"

[[titles]]
title = "wide-fallow"
resolution = "3840x2160"
target_fps = 60
floor_fps = 60

[[titles]]
title = "button-thieves"
resolution = "1920x1080"
target_fps = 60
floor_fps = 30

[limits]
supply_reserve_frac = 0.1

[musts]
memory_gb = 16
storage_gb = 500
)";
}

std::string build_evening_chair() {
  return R"(# Invented for the demo; nothing in it is measured.
# A complete build for the couch room, chosen by hand before anything was computed.

name = "Evening chair"
cpu = "orrvane-rowan-46"
board = "nimbeck-terrace-v4-micro-wifi"
memory = "ullsmoor-rib-ddr5-2x16-5600-cl36"
gpu = "pollwright-beam-marl-40"
storage = "dovrelund-cobble-2-tb"
cooler = "fjellum-pillar"
case = "ottermill-drift-42"
psu = "grenwick-kettle-750"
)";
}

std::string build_shelf_mistake() {
  return R"(# Invented for the demo; nothing in it is measured.
# Drawn on a Friday evening. The case is a pretty one; the card is longer than its inside, wants three
# 8-pin plugs, and the supply has one. The cooler is a finger too tall as well.

name = "Friday shelf"
cpu = "orrvane-rowan-48"
board = "pollwright-joist-v4-mini-wifi"
memory = "skarnby-fin-ddr5-2x16-6400-cl32"
gpu = "pollwright-long-beam-basalt-50"
storage = ["dovrelund-cobble-1-tb", "pellant-slate-1-tb"]
cooler = "fjellum-pillar"
case = "kolbrand-breadbin-18"
psu = "tollard-ration-450-s"
)";
}

}  // namespace rigproof::demo
