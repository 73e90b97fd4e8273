// What hangs on the demo's mainboards: M.2 sockets, card slots, headers, firmware, and the
// processors their makers list.
#include <algorithm>
#include <array>

#include "tools/make_demo_board.hpp"

namespace rigproof::demo {

namespace {

consteval ColumnId m2(std::string_view name) { return column("board_m2", name); }
consteval ColumnId slot_in(std::string_view name) { return column("board_slots", name); }
consteval ColumnId header_in(std::string_view name) { return column("board_headers", name); }
consteval ColumnId firmware_in(std::string_view name) { return column("board_firmware", name); }
consteval ColumnId support_in(std::string_view name) { return column("cpu_support", name); }

using enum BoardForm;

bool newer(const Board& board) { return board.platform->memory_type == "DDR5"; }

// --- M.2 sockets

int m2_sockets(const Board& board) {
  if (board.form == mini) return board.tier < 2 ? 1 : 2;
  const int by_tier[] = {1, 2, 3, 4};
  return by_tier[board.tier] + (newer(board) ? 1 : 0) -
         (board.form == micro && board.tier > 1 ? 1 : 0);
}

// The top boards' second socket, and that of small plain ones, hangs on half of the lanes of the
// card's slot.
bool shares_with_card(const Board& board, int socket) {
  const bool plain = board.tier == 0 && board.form == micro && newer(board);
  return socket == 2 && ((board.tier == 3 && board.form == atx) || plain);
}

// The first lies before the card's slot, the others behind it, each in line with a rear slot; that
// of small boards sits on their back.
int m2_position(const Board& board, int socket) {
  if (socket == 1 || board.form == mini) return 0;
  return socket + (board.form == atx ? 1 : 0);
}

void add_m2(Demo& demo, const Board& board, std::string_view id) {
  const int first = board.platform->first_m2_generation[board.tier];
  for (int socket = 1; socket <= m2_sockets(board); ++socket) {
    Line line(table("board_m2"));
    // Only the first socket of the roomy boards holds the longest modules.
    const bool roomy = socket == 1 && board.form == atx && board.tier >= 2;
    const bool also_sata = board.platform->memory_type == "DDR4" && socket == 2;
    const bool shares = shares_with_card(board, socket);
    line.text(m2("board"), id).whole(m2("socket"), socket);
    line.text(m2("lengths_mm"), roomy                               ? "60|80|110"
                                : board.form == mini && socket == 2 ? "80"
                                                                    : "30|42|60|80");
    line.whole(m2("position"), m2_position(board, socket));
    line.text(m2("links"), also_sata ? "NVMe|SATA" : "NVMe");
    const int later = first == 5 && !shares                                            ? 4
                      : board.tier == 0 && board.platform->first_m2_generation[0] == 3 ? 3
                                                                                       : first;
    line.whole(m2("pcie_generation"), socket == 1 ? first : later);
    line.whole(m2("pcie_lanes"), socket > 1 && board.tier == 0 ? 2 : 4);
    line.whole(m2("shares_slot"), shares ? 1 : 0);
    if (shares) line.whole(m2("slot_lanes_left"), 8);
    line.whole(m2("sata_ports_off"), socket == 3 ? 2 : 0);
    demo.add(table("board_m2"), line);
  }
}

// --- card slots

struct Slot {
  int position;
  std::string_view length;
  int generation, lanes;
};

void add_slot(Demo& demo, std::string_view id, int number, const Slot& slot) {
  Line line(table("board_slots"));
  line.text(slot_in("board"), id)
      .whole(slot_in("slot"), number)
      .whole(slot_in("position"), slot.position)
      .text(slot_in("length"), slot.length)
      .whole(slot_in("pcie_generation"), slot.generation)
      .whole(slot_in("pcie_lanes"), slot.lanes);
  demo.add(table("board_slots"), line);
}

// The card's slot, on most large boards one place down from the processor; then short ones behind
// the chipset, and on large boards a long slot with few lanes.
void add_slots(Demo& demo, const Board& board, std::string_view id) {
  // The plainest boards keep the card's slot a generation behind.
  const int card_generation = board.platform->pcie_generation - (board.tier == 0 ? 1 : 0);
  const int first = board.form == atx && board.tier >= 1 ? 2 : 1;
  add_slot(demo, id, 1, {first, "x16", card_generation, 16});
  if (board.form == mini) return;
  const int behind = board.tier == 0 ? 3 : 4;
  if (board.form == micro) return add_slot(demo, id, 2, {4, "x1", 3, 1});
  if (board.tier == 0) {
    add_slot(demo, id, 2, {4, "x1", 3, 1});
    return add_slot(demo, id, 3, {6, "x1", 3, 1});
  }
  add_slot(demo, id, 2, {6, "x16", behind, 4});
  add_slot(demo, id, 3, {7, "x1", 3, 1});
}

// --- headers

struct Header {
  std::string_view name;
  int count;
  int tenths_a;  // 0: not a header that feeds
};

int fan_headers(const Board& board) {
  if (board.fan_headers > 0) return board.fan_headers;
  const int by_tier[] = {3, 4, 5, 6};
  if (board.form == mini) return board.tier < 2 ? 1 : 2;
  return by_tier[board.tier] - (board.form == micro ? 1 : 0);
}

void add_headers(Demo& demo, const Board& board, std::string_view id) {
  const int tier = board.tier;
  const bool small = board.form == mini;
  const Header headers[] = {
      {"cpu-fan", 1, tier == 3 ? 20 : 10},
      {"fan", fan_headers(board), tier >= 2 ? 20 : 10},
      {"pump", tier == 0 || (small && tier == 1) ? 0 : 1,
       tier == 0 || (small && tier == 1) ? 0 : 20},
      {"usb2", small ? 1 : 2, 0},
      {"usb3", tier >= 2 && !small ? 2 : 1, 0},
      {"usb-c",
       newer(board) ? (tier == 0 ? 0 : 1)
       : tier >= 2  ? 1
                    : 0,
       0},
      {"light-5v",
       tier == 0   ? 1
       : small     ? 1
       : tier == 3 ? 3
                   : 2,
       30},
      {"light-12v", small || tier == 0 ? 0 : 1, small || tier == 0 ? 0 : 30},
  };
  for (const Header& header : headers) {
    Line line(table("board_headers"));
    line.text(header_in("board"), id)
        .text(header_in("header"), header.name)
        .whole(header_in("count"), header.count);
    if (header.tenths_a > 0) line.decimal(header_in("current_a"), tenths(header.tenths_a));
    demo.add(table("board_headers"), line);
  }
}

// --- firmware and the processors it starts

struct Generation {
  std::string_view socket;
  std::string_view series;  // how the models of its families begin
  int newest;  // 0: as old as the platform; otherwise the release that brought it, from
               // the end: 1 the last one
};
constexpr std::array generations = {
    Generation{"V3", "Larch 1", 0}, Generation{"V3", "Larch 2", 5}, Generation{"V4", "Rowan 3", 0},
    Generation{"V4", "Rowan 4", 4}, Generation{"V4", "Rowan 5", 2}, Generation{"Q6", "Rondo 1", 0},
    Generation{"Q6", "Rondo 2", 4}, Generation{"Q6", "Rondo 3", 2},
};

// Days of release, oldest first; platforms on DDR4 are older.
constexpr std::string_view released_old[] = {"2022-05-10", "2023-02-21", "2023-11-14",
                                             "2024-06-04", "2025-01-28", "2025-10-07"};
constexpr std::string_view released_new[] = {"2024-03-12", "2024-09-24", "2025-03-18",
                                             "2025-09-30", "2026-02-17", "2026-05-26"};

std::string version_of(const Board& board, int place) {
  // Each maker counts in its own way; nobody compares these.
  if (board.maker->name == "Nimbeck") return "1." + std::to_string(10 * place);
  if (board.maker->name == "Pollwright") return "P" + std::to_string(place) + ".00";
  if (board.maker->name == "Skarnby") return "tide-" + std::to_string(100 + 7 * place);
  if (board.maker->name == "Wendrake") return "R" + std::string(1, static_cast<char>('a' + place));
  return "0" + std::to_string(place) + "0" + std::to_string(place % 3);
}

void add_firmware(Demo& demo, const Board& board, std::string_view id) {
  const int releases = firmware_releases(board);
  for (int place = 1; place <= releases; ++place) {
    const auto at = static_cast<std::size_t>(place + 5 - releases);
    Line line(table("board_firmware"));
    line.text(firmware_in("board"), id)
        .whole(firmware_in("place"), place)
        .text(firmware_in("version"), version_of(board, place))
        .text(firmware_in("released"), newer(board) ? released_new[at] : released_old[at]);
    demo.add(table("board_firmware"), line);
  }
}

int first_firmware(const Generation& generation, const Board& board) {
  if (generation.newest == 0) return 1;
  return std::max(firmware_releases(board) + 1 - generation.newest, 1);
}

void add_support(Demo& demo, const Board& board, std::string_view id) {
  for (const Line& cpu : demo.rows(table("cpu"))) {
    const auto& cells = cpu.cells();
    const auto cell = [&](ColumnId column) -> const std::string& { return cells[column.column]; };
    if (cell(column("cpu", "socket")) != board.platform->socket) continue;
    if (cell(column("cpu", "memory_types")).find(board.platform->memory_type) == std::string::npos)
      continue;
    const auto* generation = std::ranges::find_if(generations, [&](const Generation& each) {
      return cell(column("cpu", "name")).find(each.series) != std::string::npos;
    });
    if (generation == generations.end()) continue;
    Line line(table("cpu_support"));
    line.text(support_in("board"), id)
        .text(support_in("cpu"), cells.front())
        .whole(support_in("firmware"), first_firmware(*generation, board));
    demo.add(table("cpu_support"), line);
  }
}

}  // namespace

int firmware_releases(const Board& board) {
  return newer(board) ? 5 + board.tier / 2 : 5 + board.tier % 2;
}

// Old stock hangs longest in the shops where boards are plain.
int shipped_first(const Board& board) {
  const int releases = firmware_releases(board);
  if (board.fan_headers > 0 || board.stage_w > 0) return releases - 1;
  return board.tier == 0 ? releases - 4 : board.tier == 1 ? releases - 1 : releases;
}

void add_board_tables(Demo& demo, const Board& board, std::string_view id) {
  add_m2(demo, board, id);
  add_slots(demo, board, id);
  add_headers(demo, board, id);
  add_firmware(demo, board, id);
  add_support(demo, board, id);
}

}  // namespace rigproof::demo
