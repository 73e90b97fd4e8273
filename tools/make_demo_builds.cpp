// The demo's builds: one for the couch, the same with its fans set, one drawn on a Friday evening,
// and ten that fall into a trap each.
#include "tools/make_demo_traps.hpp"

namespace rigproof::demo {
namespace {

constexpr std::string_view evening_chair_parts = R"(cpu = "orrvane-rowan-46"
board = "nimbeck-terrace-v4-micro-wifi"
memory = "ullsmoor-rib-ddr5-2x16-5600-cl36"
gpu = "pollwright-beam-marl-40"
storage = "dovrelund-cobble-2-tb"
cooler = "fjellum-pillar"
case = "ottermill-drift-42"
psu = "grenwick-kettle-750"
)";

}  // namespace

std::string build_evening_chair() {
  return R"(# Invented for the demo; nothing in it is measured.
# A complete build for the couch room, chosen by hand before anything was computed.

name = "Evening chair"
)" + std::string(evening_chair_parts);
}

std::string build_chair_with_set_fans() {
  return R"(# Invented for the demo; nothing in it is measured.
# The build for the couch room, with its fans as its owner set them in the firmware: the case's
# follow the card, the cooler's the processor.

name = "Evening chair, fans set"
)" + std::string(evening_chair_parts) +
         R"(
[[fan_speeds]]
fans = "case"
follows = "gpu"
temp_c = 45
speed_percent = 35

[[fan_speeds]]
fans = "case"
follows = "gpu"
temp_c = 82
speed_percent = 100

[[fan_speeds]]
fans = "cooler"
follows = "cpu"
temp_c = 50
speed_percent = 30

[[fan_speeds]]
fans = "cooler"
follows = "cpu"
temp_c = 75
speed_percent = 60
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

namespace {

constexpr std::string_view plain_cpu = "orrvane-rowan-46";
constexpr std::string_view plain_board = "nimbeck-terrace-v4-wifi";
constexpr std::string_view plain_memory = "ullsmoor-rib-ddr5-2x16-5600-cl36";
constexpr std::string_view plain_card = "pollwright-beam-marl-40";
constexpr std::string_view plain_drive = "dovrelund-cobble-2-tb";
constexpr std::string_view plain_cooler = "fjellum-pillar";
constexpr std::string_view plain_case = "ottermill-drift-50";
constexpr std::string_view plain_supply = "grenwick-kettle-750";

}  // namespace

std::vector<Trap> traps() {
  return {
      {.name = "weak-stage",
       .rule = "match.power-stage",
       .wrong = "The cheapest large board feeds a small processor for long, not this one: after a "
                "minute of full work it would slow the processor down or switch off.",
       .remedy = "another board: `nimbeck-terrace-v4-wifi`",
       .changes = {{"cpu", "orrvane-rowan-48"}, {"board", "quernholt-rill-v4-wifi"}},
       .cure = {"board", plain_board}},
      {.name = "tall-memory",
       .rule = "fit.memory-height",
       .wrong =
           "The quick modules are cheap and tall; the wide cooler reaches over their slots, so one "
           "of the two cannot be pushed in.",
       .remedy = "lower memory: `ullsmoor-rib-ddr5-2x16-6000-cl36`",
       .changes = {{"cpu", "orrvane-rowan-56"},
                   {"memory", "ullsmoor-crest-ddr5-2x16-6000-cl30"},
                   {"cooler", "wexcombe-awning"}},
       .cure = {"memory", "ullsmoor-rib-ddr5-2x16-6000-cl36"}},
      {.name = "one-cable-short",
       .rule = "match.card-connectors",
       .wrong = "The cheap supply is strong enough, but has one plug for a card that wants two; "
                "with one socket empty the card does not start.",
       .remedy = "a supply with one plug more: `grenwick-kettle-750`",
       .changes = {{"psu", "tollard-ration-670"}},
       .cure = {"psu", plain_supply}},
      {.name = "plug-at-the-panel",
       .rule = "fit.plug-room",
       .wrong = "The card fits the slim case, the plug on top of it does not: the side panel would "
                "press on the plug and bend its cable at the root, where it can overheat.",
       .remedy = "a wider case: `ottermill-drift-50`",
       .changes = {{"gpu", "nimbeck-gallery-gannet-7"},
                   {"cooler", "wexcombe-awning"},
                   {"case", "ottermill-drift-40-slim"}},
       .cure = {"case", plain_case}},
      {.name = "stolen-lanes",
       .rule = "match.shared-lanes",
       .wrong =
           "The board's second drive socket hangs on the card's lanes: with two drives the card "
           "is left with half of them, and nobody says so on the box.",
       .remedy = "one drive of twice the size: `dovrelund-cobble-2-tb`",
       .changes = {{"board", "quernholt-rill-v4-micro"},
                   {"storage", "wherrymont-chaff-1-tb", 2},
                   {"cooler", "nordvane-stave-120"},
                   {"case", "kolbrand-plinth-41-bare"},
                   {"fan", "nordvane-vane-120", 2}},
       .cure = {"storage", plain_drive}},
      {.name = "lone-bargain",
       .rule = "market.offer",
       .wrong = "By far the cheapest card of its chip is offered by one seller alone, at a price "
                "seen eleven days ago: likely it is sold out, or the price was a slip.",
       .remedy = "a card on the same chip that several sell: `brantoak-bough-marl-50`",
       .changes = {{"gpu", "brantoak-crown-marl-50"}},
       .cure = {"gpu", "brantoak-bough-marl-50"}},
      {.name = "one-header",
       .rule = "power.fan-header",
       .wrong = "Three thirsty fans hang on one another and draw 1.65 A from the board's only fan "
                "socket, which gives 1 A: the track on the board that feeds it can burn.",
       .remedy = "a hub that is fed by the supply: `fjellum-six-fan-hub`",
       .changes = {{"board", "quernholt-rill-v4-micro"},
                   {"cooler", "nordvane-stave-120"},
                   {"case", "kolbrand-plinth-41-bare"},
                   {"fan", "wexcombe-gust-120-chain", 3}},
       .cure = {"other", "fjellum-six-fan-hub"}},
      {.name = "covered-socket",
       .rule = "match.hidden-sockets",
       .wrong =
           "Two cheap drives want two sockets, and the card lies over all but the first: whoever "
           "swaps the second one takes the card out, and the card warms it.",
       .remedy = "one drive of twice the size: `dovrelund-cobble-2-tb`",
       .changes = {{"storage", "wherrymont-chaff-1-tb", 2}},
       .cure = {"storage", plain_drive},
       .tells = true},
      {.name = "short-cable",
       .rule = "fit.board-cables",
       .wrong =
           "The cheap supply is strong enough; its cables are cut for small cases and end short "
           "of the board's upper edge.",
       .remedy = "a supply with longer cables: `grenwick-kettle-750`",
       .changes = {{"psu", "tollard-ration-660-short"}},
       .cure = {"psu", plain_supply}},
      {.name = "half-empty",
       .rule = "fit.card-length",
       .wrong =
           "The cheapest card of its chip, and half its cells are empty: nobody has written down "
           "how long it is or which plugs it wants, so nobody knows whether it fits.",
       .remedy = "a card of which all is known: `pollwright-beam-marl-50`",
       .changes = {{"gpu", "skarnby-cove-marl-50"}},
       .cure = {"gpu", "pollwright-beam-marl-50"},
       .unknown = true},
  };
}

std::string build_of(const Trap& trap, bool cured) {
  TrapPart parts[] = {{"cpu", plain_cpu},       {"board", plain_board},
                      {"memory", plain_memory}, {"gpu", plain_card},
                      {"storage", plain_drive}, {"cooler", plain_cooler},
                      {"case", plain_case},     {"fan", ""},
                      {"psu", plain_supply},    {"other", ""}};
  const auto put = [&](const TrapPart& change) {
    for (TrapPart& part : parts)
      if (part.kind == change.kind) part = change;
  };
  for (const TrapPart& change : trap.changes) put(change);
  if (cured) put(trap.cure);
  std::string text = "# Invented for the demo; nothing in it is measured.\n# ";
  text += trap.wrong;
  text += "\n# The claim that says so: ";
  text += trap.rule;
  text += ". What helps: ";
  text += trap.remedy;
  text += ".\n\nname = \"";
  text += trap.name;
  text += "\"\n";
  for (const TrapPart& part : parts) {
    if (part.id.empty()) continue;
    text += part.kind;
    text += part.count == 1 ? " = \"" : " = [{ id = \"";
    text += part.id;
    text += '"';
    if (part.count > 1) text += ", count = " + std::to_string(part.count) + " }]";
    text += '\n';
  }
  return text;
}

}  // namespace rigproof::demo
