// The demo's mainboards: four makers, four tiers, four platforms (socket and memory generation).
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId in(std::string_view name) { return column("board", name); }
consteval ColumnId m2(std::string_view name) { return column("board_m2", name); }

struct Maker {
  std::string_view name;
  std::string_view series[4];  // by tier, plain to top
};
constexpr Maker nimbeck{"Nimbeck", {"Step", "Terrace", "Balcony", "Belvedere"}};
constexpr Maker pollwright{"Pollwright", {"Plank", "Joist", "Rafter", "Ridgebeam"}};
constexpr Maker skarnby{"Skarnby", {"Ebb", "Reach", "Surge", "Springtide"}};
constexpr Maker wendrake{"Wendrake", {"Reed", "Sedge", "Thicket", "Canopy"}};

struct Platform {
  std::string_view socket, memory_type, label;
  int stage_w[4];          // package power the stage feeds for long, by tier
  int memory_max_mt_s[4];  // fastest listed memory, by tier
  int gib_per_slot;
  int first_m2_generation[4];
};
constexpr Platform v3{"V3", "DDR4",      "V3", {65, 100, 142, 190}, {3200, 3600, 4400, 4600},
                      32,   {3, 4, 4, 4}};
constexpr Platform v4{"V4", "DDR5",      "V4", {90, 140, 190, 255}, {5600, 6400, 7600, 8000},
                      64,   {4, 5, 5, 5}};
constexpr Platform q6_4{"Q6", "DDR4",      "Q6 D4", {85, 140, 210, 280}, {3200, 3600, 4400, 4800},
                        32,   {4, 4, 4, 4}};
constexpr Platform q6_5{"Q6", "DDR5",      "Q6 D5", {90, 145, 220, 290}, {5600, 6400, 7200, 8000},
                        48,   {4, 4, 5, 5}};

enum class Form : std::uint8_t { atx, micro, mini };

struct Board {
  const Maker* maker;
  int tier;
  const Platform* platform;
  Form form;
  bool wifi;
  int euro;
};
using enum Form;
constexpr Board boards[] = {
    {&nimbeck, 0, &v3, micro, false, 82},      {&pollwright, 0, &v3, micro, false, 80},
    {&skarnby, 1, &v3, micro, true, 109},      {&wendrake, 1, &v3, atx, false, 105},
    {&nimbeck, 1, &v3, atx, true, 122},        {&pollwright, 2, &v3, atx, false, 142},
    {&skarnby, 2, &v3, atx, true, 158},        {&wendrake, 1, &v3, mini, true, 128},
    {&nimbeck, 2, &v3, mini, true, 159},       {&pollwright, 3, &v3, atx, true, 209},
    {&nimbeck, 0, &v4, micro, false, 112},     {&pollwright, 0, &v4, micro, false, 118},
    {&skarnby, 0, &v4, micro, true, 129},      {&wendrake, 0, &v4, atx, false, 126},
    {&nimbeck, 1, &v4, micro, true, 158},      {&pollwright, 1, &v4, micro, false, 142},
    {&skarnby, 1, &v4, atx, true, 172},        {&wendrake, 1, &v4, atx, false, 155},
    {&nimbeck, 1, &v4, atx, true, 179},        {&pollwright, 1, &v4, mini, true, 189},
    {&wendrake, 2, &v4, mini, true, 239},      {&skarnby, 2, &v4, atx, true, 229},
    {&pollwright, 2, &v4, atx, true, 239},     {&nimbeck, 2, &v4, micro, true, 209},
    {&nimbeck, 3, &v4, atx, true, 385},        {&wendrake, 3, &v4, mini, true, 329},
    {&pollwright, 0, &q6_4, micro, false, 85}, {&wendrake, 0, &q6_4, micro, false, 89},
    {&skarnby, 0, &q6_4, micro, true, 99},     {&nimbeck, 1, &q6_4, atx, false, 128},
    {&wendrake, 1, &q6_4, micro, true, 132},   {&pollwright, 1, &q6_4, atx, true, 145},
    {&skarnby, 1, &q6_4, mini, true, 149},     {&nimbeck, 2, &q6_4, atx, true, 188},
    {&skarnby, 0, &q6_5, micro, false, 105},   {&nimbeck, 0, &q6_5, micro, true, 121},
    {&pollwright, 1, &q6_5, micro, true, 149}, {&wendrake, 1, &q6_5, atx, false, 155},
    {&nimbeck, 1, &q6_5, atx, true, 169},      {&skarnby, 2, &q6_5, atx, true, 225},
    {&pollwright, 2, &q6_5, micro, true, 205}, {&wendrake, 3, &q6_5, atx, true, 349},
    {&nimbeck, 1, &q6_5, mini, true, 185},     {&pollwright, 2, &q6_5, mini, true, 255},
    {&skarnby, 3, &q6_5, atx, true, 419},
};

constexpr std::string_view form_token(Form form) {
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

int memory_slots(const Board& board) {
  return board.form == mini || (board.tier == 0 && board.form == micro) ? 2 : 4;
}

int m2_sockets(const Board& board) {
  if (board.form == mini) return board.tier < 2 ? 1 : 2;
  const int by_tier[] = {1, 2, 3, 4};
  const int newer = board.platform == &v4 || board.platform == &q6_5 ? 1 : 0;
  return by_tier[board.tier] + newer - (board.form == micro && board.tier > 1 ? 1 : 0);
}

void add_m2(Demo& demo, const Board& board, std::string_view id) {
  const int first = board.platform->first_m2_generation[board.tier];
  for (int socket = 1; socket <= m2_sockets(board); ++socket) {
    Line line(table("board_m2"));
    // Only the first socket of the roomy boards holds the longest modules.
    const bool roomy = socket == 1 && board.form == atx && board.tier >= 2;
    const bool also_sata = board.platform->memory_type == "DDR4" && socket == 2;
    line.text(m2("board"), id).whole(m2("socket"), socket);
    line.text(m2("lengths_mm"), roomy                               ? "60|80|110"
                                : board.form == mini && socket == 2 ? "80"
                                                                    : "30|42|60|80");
    line.text(m2("links"), also_sata ? "NVMe|SATA" : "NVMe");
    const int later = first == 5 ? 4 : board.tier == 0 && board.platform == &v3 ? 3 : first;
    line.whole(m2("pcie_generation"), socket == 1 ? first : later);
    line.whole(m2("pcie_lanes"), socket > 1 && board.tier == 0 ? 2 : 4);
    line.whole(m2("shares_slot"), 0).whole(m2("sata_ports_off"), socket == 3 ? 2 : 0);
    demo.add(table("board_m2"), line);
  }
}

}  // namespace

void add_boards(Demo& demo) {
  for (const Board& board : boards) {
    const Platform& platform = *board.platform;
    const std::string model = model_of(board);
    const std::string id = slug(std::string(board.maker->name) + " " + model);
    Dice dice("board/" + id);
    const int slots = memory_slots(board);
    const bool small = board.form == mini;
    const int sata_by_tier[] = {4, 4, 6, 6};
    const int power_by_tier[] = {21, 26, 33, 42};
    Line line = demo.part(Kind::board, board.maker->name, model, board.euro);
    line.text(in("socket"), platform.socket)
        .text(in("form_factor"), form_token(board.form))
        .text(in("memory_type"), platform.memory_type)
        .whole(in("memory_slots"), slots)
        .whole(in("memory_max_gib"), static_cast<std::int64_t>(slots) * platform.gib_per_slot)
        .whole(in("memory_max_mt_s"), platform.memory_max_mt_s[board.tier])
        .whole(in("cpu_sustained_w"), platform.stage_w[board.tier] + 5 * dice.between(0, 2))
        .whole(in("atx24_inputs"), 1)
        .whole(in("eps8_inputs"),
               board.tier == 3 || (board.tier == 2 && !small && platform.stage_w[2] > 200) ? 2 : 1)
        .whole(in("eps4_inputs"), board.tier == 2 && !small && platform.stage_w[2] <= 200 ? 1 : 0)
        .whole(in("picture_outputs"), board.tier == 0 ? 2 : dice.between(1, 3))
        .whole(in("sata_ports"), small ? 2 + 2 * (board.tier / 2) : sata_by_tier[board.tier])
        .flag(in("wifi"), board.wifi)
        .whole(in("power_w"),
               power_by_tier[board.tier] + (board.wifi ? 3 : 0) + dice.between(-1, 2));
    demo.add(table("board"), line);
    for (int slot = 1; slot <= (board.form == atx && board.tier >= 1 ? 2 : 1); ++slot)
      demo.add(table("board_slots"), Line(table("board_slots"))
                                         .text(column("board_slots", "board"), id)
                                         .whole(column("board_slots", "slot"), slot)
                                         .text(column("board_slots", "length"), "x16"));
    add_m2(demo, board, id);
  }
}

}  // namespace rigproof::demo
