// The demo's mainboards: five makers, four tiers, four platforms (socket and memory generation).
// What hangs on them (slots, headers, firmware, support) is in make_demo_board_tables.cpp.
#include "tools/make_demo_board.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("board", name); }

constexpr BoardMaker nimbeck{"Nimbeck", {"Step", "Terrace", "Balcony", "Belvedere"}};
constexpr BoardMaker pollwright{"Pollwright", {"Plank", "Joist", "Rafter", "Ridgebeam"}};
constexpr BoardMaker skarnby{"Skarnby", {"Ebb", "Reach", "Surge", "Springtide"}};
constexpr BoardMaker wendrake{"Wendrake", {"Reed", "Sedge", "Thicket", "Canopy"}};
constexpr BoardMaker quernholt{"Quernholt", {"Rill", "Weir", "Leat", "Causeway"}};

// clang-format off: a row a platform
constexpr Platform v3{"V3", "DDR4", "V3", {65, 100, 142, 190}, {3200, 3600, 4400, 4600},
                      {3200, 3200, 3600, 3600}, 32, {3, 4, 4, 4}, 4, {80, 106, 146, 209}};
constexpr Platform v4{"V4", "DDR5", "V4", {90, 140, 190, 255}, {5600, 6400, 7600, 8000},
                      {3600, 4800, 5600, 6000}, 64, {4, 5, 5, 5}, 5, {114, 152, 226, 372}};
constexpr Platform q6_4{"Q6", "DDR4", "Q6 D4", {85, 140, 210, 280}, {3200, 3600, 4400, 4800},
                        {3200, 3200, 3600, 3600}, 32, {4, 4, 4, 4}, 4, {86, 126, 182, 248}};
constexpr Platform q6_5{"Q6", "DDR5", "Q6 D5", {90, 145, 220, 290}, {5600, 6400, 7200, 8000},
                        {3600, 4400, 5200, 5600}, 48, {4, 4, 5, 5}, 5, {108, 152, 218, 352}};
// clang-format on

using enum BoardForm;
constexpr Board boards[] = {
    {&nimbeck, 0, &v3, micro, false, 82},
    {&pollwright, 0, &v3, micro, false, 80},
    {&skarnby, 1, &v3, micro, true, 109},
    {&wendrake, 1, &v3, atx, false, 105},
    {&nimbeck, 1, &v3, atx, true, 122},
    {&pollwright, 2, &v3, atx, false, 142},
    {&skarnby, 2, &v3, atx, true, 158},
    {&wendrake, 1, &v3, mini, true, 128},
    {&nimbeck, 2, &v3, mini, true, 159},
    {&pollwright, 3, &v3, atx, true, 209},
    {&nimbeck, 0, &v4, micro, false, 112},
    {&pollwright, 0, &v4, micro, false, 118},
    {&skarnby, 0, &v4, micro, true, 129},
    {&wendrake, 0, &v4, atx, false, 126},
    {&nimbeck, 1, &v4, micro, true, 158},
    {&pollwright, 1, &v4, micro, false, 142},
    {&skarnby, 1, &v4, atx, true, 172},
    {&wendrake, 1, &v4, atx, false, 155},
    {&nimbeck, 1, &v4, atx, true, 179},
    {&pollwright, 1, &v4, mini, true, 189},
    {&wendrake, 2, &v4, mini, true, 239},
    {&skarnby, 2, &v4, atx, true, 229},
    {&pollwright, 2, &v4, atx, true, 239},
    {&nimbeck, 2, &v4, micro, true, 209},
    {&nimbeck, 3, &v4, atx, true, 385},
    {&wendrake, 3, &v4, mini, true, 329},
    {&pollwright, 0, &q6_4, micro, false, 85},
    {&wendrake, 0, &q6_4, micro, false, 89},
    {&skarnby, 0, &q6_4, micro, true, 99},
    {&nimbeck, 1, &q6_4, atx, false, 128},
    {&wendrake, 1, &q6_4, micro, true, 132},
    {&pollwright, 1, &q6_4, atx, true, 145},
    {&skarnby, 1, &q6_4, mini, true, 149},
    {&nimbeck, 2, &q6_4, atx, true, 188},
    {&skarnby, 0, &q6_5, micro, false, 105},
    {&nimbeck, 0, &q6_5, micro, true, 121},
    {&pollwright, 1, &q6_5, micro, true, 149},
    {&wendrake, 1, &q6_5, atx, false, 155},
    {&nimbeck, 1, &q6_5, atx, true, 169},
    {&skarnby, 2, &q6_5, atx, true, 225},
    {&pollwright, 2, &q6_5, micro, true, 205},
    {&wendrake, 3, &q6_5, atx, true, 349},
    {&nimbeck, 1, &q6_5, mini, true, 185},
    {&pollwright, 2, &q6_5, mini, true, 255},
    {&skarnby, 3, &q6_5, atx, true, 419},
    // Two that are cheap for a reason: the mistakes of three builds in builds/trap-*.toml.
    {.maker = &quernholt,
     .tier = 0,
     .platform = &v4,
     .form = atx,
     .wifi = true,
     .euro = 104,
     .stage_w = 75},
    {.maker = &quernholt,
     .tier = 0,
     .platform = &v4,
     .form = micro,
     .wifi = false,
     .euro = 109,
     .stage_w = 110,
     .fan_headers = 1},
};

// The rest of the shelf: which tiers and shapes each maker has of a platform. Prices follow.
struct Range {
  const BoardMaker* maker;
  const Platform* platform;
  std::string_view models;  // tier, form (a, m, i) and `w` with a radio, `-` without
};
constexpr Range ranges[] = {
    {&nimbeck, &v3, "1m- 2aw 0mw"},
    {&pollwright, &v3, "1m- 1aw 2iw"},
    {&skarnby, &v3, "0m- 1aw"},
    {&wendrake, &v3, "0m- 2aw"},
    {&quernholt, &v3, "0m- 1mw 1a-"},
    {&nimbeck, &v4, "0aw 2aw 1iw 2iw"},
    {&pollwright, &v4, "1aw 2mw 3aw 2iw"},
    {&skarnby, &v4, "1mw 1iw 3aw 2mw"},
    {&wendrake, &v4, "1mw 2aw 3aw 1iw"},
    {&quernholt, &v4, "1mw 1aw 2aw 1iw"},
    {&nimbeck, &q6_4, "0m- 1mw"},
    {&pollwright, &q6_4, "1m- 2aw"},
    {&skarnby, &q6_4, "1aw 0m-"},
    {&wendrake, &q6_4, "1a- 1iw"},
    {&quernholt, &q6_4, "0mw 1aw"},
    {&nimbeck, &q6_5, "2aw 3aw 2iw 1mw"},
    {&pollwright, &q6_5, "0m- 1aw 2aw"},
    {&skarnby, &q6_5, "1mw 1aw 1iw"},
    {&wendrake, &q6_5, "0mw 2aw 2iw"},
    {&quernholt, &q6_5, "0a- 1mw 2aw 1iw"},
};

Board board_of(const Range& range, std::string_view model) {
  const int tier = model[0] - '0';
  const bool wifi = model[2] == 'w';
  const BoardForm form = model[1] == 'a' ? atx : model[1] == 'm' ? micro : mini;
  Dice dice("board-price/" + std::string(range.maker->name) + std::string(range.platform->label) +
            std::string(model));
  const int shape = form == mini ? 24 : form == micro ? -6 : 4;
  const int euro =
      range.platform->euro[tier] + (wifi ? 12 : 0) + shape + dice.between(0, 4 + 4 * tier);
  return {range.maker, tier, range.platform, form, wifi, euro < 80 ? 80 : euro};
}

constexpr std::string_view form_token(BoardForm form) {
  return form == atx ? "ATX" : form == micro ? "microATX" : "Mini-ITX";
}

std::string model_of(const Board& board) {
  std::string model(board.maker->series[board.tier]);
  model += ' ';
  model += board.platform->label;
  if (board.form == micro) model += " micro";
  if (board.form == mini) model += " mini";
  if (board.wifi) model += " wifi";
  return model;
}

// Two modules on two channels have no order; with four slots the second of each channel comes
// first, since a trace that ends in a filled slot echoes least.
std::string_view fill_order(int slots) { return slots == 2 ? "1|2" : "2|4|1|3"; }

// Plain boards bear a plug and its cable there, dear ones heat sinks.
// Small boards have the socket nearer to the edge.
int socket_from_edge_mm(const Board& board, std::string_view id) {
  Dice dice("socket/" + std::string(id));
  return (board.form == BoardForm::mini ? 70 : 82) + dice.between(-4, 6);
}

int upper_edge_mm(const Board& board, std::string_view id) {
  Dice dice("board-edge/" + std::string(id));
  const int least_by_tier[] = {22, 25, 29, 33};
  return least_by_tier[board.tier] + dice.between(0, 7);
}

void add_board(Demo& demo, const Board& board) {
  const Platform& platform = *board.platform;
  const std::string model = model_of(board);
  const std::string id = slug(std::string(board.maker->name) + " " + model);
  Dice dice("board/" + id);
  const int slots = memory_slots(board);
  const bool small = board.form == mini;
  const int sata_by_tier[] = {4, 4, 6, 6};
  const int power_by_tier[] = {21, 26, 33, 42};
  const int stage_w =
      board.stage_w > 0 ? board.stage_w : platform.stage_w[board.tier] + 5 * dice.between(0, 2);
  const int full_mt_s =
      slots == 2 ? platform.memory_max_mt_s[board.tier] : platform.memory_full_mt_s[board.tier];
  Line line = demo.part(Kind::board, board.maker->name, model, board.euro);
  line.text(in("socket"), platform.socket)
      .text(in("form_factor"), form_token(board.form))
      .text(in("memory_type"), platform.memory_type)
      .whole(in("memory_slots"), slots)
      .text(in("memory_fill_order"), fill_order(slots))
      .whole(in("memory_max_gib"), static_cast<std::int64_t>(slots) * platform.gib_per_slot)
      .whole(in("module_max_gib"), platform.gib_per_slot)
      .whole(in("memory_max_mt_s"), platform.memory_max_mt_s[board.tier])
      .whole(in("memory_full_mt_s"), full_mt_s)
      .whole(in("cpu_sustained_w"), stage_w)
      .whole(in("cpu_peak_w"), 5 * divide_rounded(std::int64_t{stage_w} * 3, 10))
      .whole(in("stage_rise_k"), 58 - 8 * board.tier)
      .whole(in("firmware_shipped_first"), shipped_first(board))
      .whole(in("firmware_shipped_last"), firmware_releases(board))
      .flag(in("flash_without_cpu"), board.tier >= 1)
      .whole(in("atx24_inputs"), 1)
      .whole(in("eps8_inputs"),
             board.tier == 3 || (board.tier == 2 && !small && platform.stage_w[2] > 200) ? 2 : 1)
      .whole(in("eps4_inputs"), board.tier == 2 && small == (platform.stage_w[2] > 200) ? 1 : 0)
      .whole(in("picture_outputs"), board.tier == 0 ? 2 : dice.between(1, 3))
      .whole(in("sata_ports"), small ? 2 + 2 * (board.tier / 2) : sata_by_tier[board.tier])
      .flag(in("wifi"), board.wifi)
      .whole(in("upper_edge_mm"), upper_edge_mm(board, id))
      .whole(in("socket_from_edge_mm"), socket_from_edge_mm(board, id))
      .whole(in("power_w"), power_by_tier[board.tier] + (board.wifi ? 3 : 0) + dice.between(-1, 2));
  demo.add(table("board"), line);
  add_board_tables(demo, board, id);
}

}  // namespace

void add_boards(Demo& demo) {
  for (const Board& board : boards) add_board(demo, board);
  for (const Range& range : ranges)
    for (std::size_t at = 0; at < range.models.size(); at += 4)  // three letters and a blank
      add_board(demo, board_of(range, range.models.substr(at, 3)));
}

}  // namespace rigproof::demo
