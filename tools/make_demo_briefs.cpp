// The demo's briefs: what the invented workshop was asked for.
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

std::string brief_quiet_living_room() {
  return R"(# Invented for the demo; nothing in it is measured.
#
# The couch room above the slipway. Three people and a dog watch from three metres; the dog leaves when
# a fan is louder than the kettle. The picture is 4K at 60, the shelf beside the screen holds 45 litres.

[brief]
name = "Quiet living room, 4K at 60"
as_of = 2026-10-01
offers_not_older_than_days = 14
lone_offers_not_older_than_days = 10

[[markets]]
market = "IE"
currency = "EUR"
budget = "1500.00"
mains_v = 230
kwh_price = 0.38
kwh_price_night = 0.21

[[markets]]
market = "GB"
currency = "GBP"
budget = "1320.00"
mains_v = 230
kwh_price = 0.29

[[markets]]
market = "US"
currency = "USD"
budget = "1500.00"
sales_tax = "0.0725"
mains_v = 120
circuit_a = 15
kwh_price = 0.17

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
cpu_c = { at_most = 80, load = "all-core" }
gpu_c = { at_most = 85, load = "everything" }
board_stage_c = { at_most = 95, load = "all-core" }
drive_c = { at_most = 70, load = "everything" }
volume_l = { at_most = 45 }
supply_reserve_frac = 0.2

[use]
idle_h = 0.5
title_h = 2.5
night_frac = 0.4

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
lone_offers_not_older_than_days = 10

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
# Asked for by a cousin: the heaviest title, every pixel of 4K, sixty a second, for seven hundred; and all
# of it shall stand on a shelf of twelve litres, in the case of fifty that is already there. Two wishes
# that cannot be had, each for itself: whoever gives up one of them still has the other. The plan says
# which demands stand against each other.

[brief]
name = "The cousin's wish"
as_of = 2026-10-01
offers_not_older_than_days = 14

[limits]
supply_reserve_frac = 0.1
volume_l = { at_most = 12 }

[keep]
case = "ottermill-drift-50"

[musts]
memory_gb = 16
storage_gb = 500

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
)";
}

std::string brief_boat_locker() {
  return R"(# Invented for the demo; nothing in it is measured.
#
# One of the two rows over to the island on weekdays and sleeps on the boat. Its locker holds twelve litres
# and not a spoon more; the radio aboard is the only way out.

[brief]
name = "Boat locker, twelve litres"
as_of = 2026-10-01
offers_not_older_than_days = 14

[[markets]]
market = "IE"
currency = "EUR"
budget = "1400.00"

[[markets]]
market = "GB"
currency = "GBP"
budget = "1250.00"

[[titles]]
title = "low-ferry"
weight = 2
resolution = "2560x1440"
target_fps = 120
floor_fps = 60

[[titles]]
title = "far-orchards"
weight = 1
resolution = "2560x1440"
target_fps = 90
floor_fps = 45

[limits]
volume_l = { at_most = 12 }
supply_reserve_frac = 0.15

[musts]
memory_gb = 32
storage_gb = 1000
wifi = true

[worths]
saved_frac = 0.25

[display]
resolution = "2560x1440"
refresh_hz = 100
)";
}

std::string brief_second_life() {
  return R"(# Invented for the demo; nothing in it is measured.
#
# The machine in the sail loft got wet; its supply did not. It stays, with the loose card cable that was
# bought for it last year: cables of another family would fit its sockets and could burn the rest.

[brief]
name = "Second life of a supply"
as_of = 2026-10-01
offers_not_older_than_days = 14
lone_offers_not_older_than_days = 10
conditions = ["new", "refurbished"]

[[markets]]
market = "IE"
currency = "EUR"
budget = "1250.00"

[[markets]]
market = "GB"
currency = "GBP"
budget = "1080.00"

[[titles]]
title = "twelve-bells"
weight = 2
resolution = "2560x1440"
target_fps = 60
floor_fps = 45

[[titles]]
title = "gravel-nine"
weight = 1
resolution = "2560x1440"
target_fps = 120

[limits]
supply_reserve_frac = 0.1

[musts]
memory_gb = 32
storage_gb = 1000

[worths]
saved_frac = 0.25

[keep]
psu = "grenwick-kettle-650"
other = "grenwick-kettle-card-cable"
)";
}

std::string brief_careless_bargains() {
  return R"(# Invented for the demo; nothing in it is measured.
#
# Somebody who has never built a computer wants much for little. Every build in builds/trap-*.toml was
# drawn for this brief by price alone, and by price alone each of them beats the build that is right. The
# plan leaves them out, since one claim about each does not hold; but for trap-covered-socket, of which a
# claim only tells.
#
# A price that one seller alone gives must be a week old at most here: an old bargain of one shop is often
# sold out, or was never there.

[brief]
name = "Careless bargains"
as_of = 2026-10-01
offers_not_older_than_days = 14
lone_offers_not_older_than_days = 7

[[markets]]
market = "IE"
currency = "EUR"
budget = "2000.00"

[[titles]]
title = "wide-fallow"
weight = 2
resolution = "2560x1440"
target_fps = 100

[[titles]]
title = "thermal-lines"
weight = 1
resolution = "2560x1440"
target_fps = 100

[limits]
supply_reserve_frac = 0.1

[musts]
memory_gb = 32
storage_gb = 2000

[worths]
saved_frac = 0.3
)";
}

}  // namespace rigproof::demo
