// What the demo's mainboards are made of; shared by the files that write their rows.
#pragma once

#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

struct BoardMaker {
  std::string_view name;
  std::string_view series[4];  ///< by tier, plain to top
};

/// A socket with a memory generation. Arrays go by tier.
struct Platform {
  std::string_view socket, memory_type, label;
  int stage_w[4];           ///< package power the stage feeds for long
  int memory_max_mt_s[4];   ///< fastest listed memory
  int memory_full_mt_s[4];  ///< the same with two modules a channel
  int gib_per_slot;
  int first_m2_generation[4];
  int pcie_generation;  ///< of the card's slot
  int euro[4];          ///< usual price
};

enum class BoardForm : std::uint8_t { atx, micro, mini };

struct Board {
  const BoardMaker* maker;
  int tier;
  const Platform* platform;
  BoardForm form;
  bool wifi;
  int euro;
  int stage_w = 0;      ///< 0: its platform's
  int fan_headers = 0;  ///< 0: as its tier has
};

[[nodiscard]] inline int memory_slots(const Board& board) {
  const bool plain_micro = board.tier == 0 && board.form == BoardForm::micro;
  return board.form == BoardForm::mini || plain_micro ? 2 : 4;
}

/// Releases of its firmware so far, and the oldest that boards in the shops still have.
[[nodiscard]] int firmware_releases(const Board& board);
[[nodiscard]] int shipped_first(const Board& board);

/// Everything about a board that is not in its own row.
void add_board_tables(Demo& demo, const Board& board, std::string_view id);

}  // namespace rigproof::demo
