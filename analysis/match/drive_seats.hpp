// The M.2 drives of a build, piece by piece, the board's sockets, and who sits where: equation (1)
// of README.md over the catalog's stated values. Every rule that speaks of places asks here and so
// speaks of the same ones. Not for other engines.
#pragma once

#include <array>
#include <span>
#include <string_view>

#include "analysis/match/best_seats.hpp"
#include "analysis/match/pcie_link.hpp"
#include "claims/rule.hpp"

namespace rigproof::match {

inline constexpr ColumnId drive_mounting = column("storage", "mounting");
inline constexpr ColumnId drive_link = column("storage", "link");
inline constexpr ColumnId drive_generation = column("storage", "pcie_generation");
inline constexpr ColumnId drive_lanes = column("storage", "pcie_lanes");
inline constexpr ColumnId socket_number = column("board_m2", "socket");
inline constexpr ColumnId socket_lengths = column("board_m2", "lengths_mm");
inline constexpr ColumnId socket_links = column("board_m2", "links");
inline constexpr ColumnId socket_generation = column("board_m2", "pcie_generation");
inline constexpr ColumnId socket_lanes = column("board_m2", "pcie_lanes");
inline constexpr ColumnId socket_shares = column("board_m2", "shares_slot");
inline constexpr ColumnId socket_lanes_left = column("board_m2", "slot_lanes_left");
inline constexpr ColumnId socket_ports_off = column("board_m2", "sata_ports_off");
inline constexpr ColumnId slot_number = column("board_slots", "slot");
inline constexpr ColumnId slot_length = column("board_slots", "length");
inline constexpr ColumnId slot_generation = column("board_slots", "pcie_generation");
inline constexpr ColumnId slot_lanes = column("board_slots", "pcie_lanes");
inline constexpr ColumnId card_generation = column("gpu", "pcie_generation");
inline constexpr ColumnId card_lanes = column("gpu", "pcie_lanes");
inline constexpr ColumnId board_ports = column("board", "sata_ports");

/// All that the places rest on, for Rule::reads.
inline constexpr std::array seats_read = {
    drive_mounting,    drive_link,       drive_generation,  drive_lanes,  socket_number,
    socket_lengths,    socket_links,     socket_generation, socket_lanes, socket_shares,
    socket_lanes_left, socket_ports_off, slot_number,       slot_length,  slot_lanes,
    card_lanes,        board_ports};

[[nodiscard]] bool is_m2(const Facts& facts, Row drive);
/// A drive in a bay, or one of which that is not known.
[[nodiscard]] bool bay_or_unknown(const Facts& facts, Row drive, std::string_view bay = "bay-");

/// Every M.2 drive, piece by piece, with the sockets it surely or perhaps fits. Where the author of
/// the build has fixed a socket, only there.
struct M2Drives {
  std::span<const Row> sockets;  ///< of the board; at most the first 16 are used
  std::array<Row, most_drives> rows{};
  std::array<Sockets, most_drives> surely{};
  std::array<Sockets, most_drives> perhaps{};
  std::size_t count = 0;
  int beyond = 0;  ///< more pieces than there can be sockets: without a place in any case
};
[[nodiscard]] M2Drives m2_drives(const Facts& facts);

/// The slot the graphics card sits in: the first full-length one. no_row when there is none or the
/// board's slots are not listed.
[[nodiscard]] Row card_slot_row(const Facts& facts);

/// How absent cells are taken: `stated` as the worst, so that places that cost nothing are sure to;
/// `hopeful` as costing nothing; `ports_only` likewise, and lanes do not count at all.
enum class Outlook { stated, hopeful, ports_only };
[[nodiscard]] SeatProblem seat_problem(const Facts& facts, const M2Drives& drives, Outlook outlook);

/// The places every rule speaks of.
[[nodiscard]] Seats seats_of(const Facts& facts, const M2Drives& drives);

/// Is some cell absent that could lead to other places or another loss of lanes, or of ports where
/// `with_ports`? Noted in `m` unless that is null.
bool seats_in_doubt(const Facts& facts, const M2Drives& drives, bool with_ports, Measure* m);

/// Lanes the card loses while this socket is in use, and what may be lost: unknown_loss when not
/// known.
[[nodiscard]] int lanes_taken(const Facts& facts, Row socket);

/// For the working of a claim: the cells of the sockets in use that these columns name.
void note_places(const Facts& facts, const M2Drives& drives, const Seats& seats,
                 std::span<const ColumnId> columns, Measure& m);

[[nodiscard]] PcieLink link_of_drive(const Facts& facts, Row drive);
[[nodiscard]] PcieLink link_of_socket(const Facts& facts, Row socket);

}  // namespace rigproof::match
