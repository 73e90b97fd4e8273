// Current on internal USB 2 plugs: parts that take their power from the board's headers or from a
// hub, the thirstiest where most is given. Equation (P17) of README.md.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>

#include "analysis/power/header_rules.hpp"
#include "analysis/power/tightest.hpp"

namespace rigproof::power {
namespace {

constexpr ColumnId board_header = column("board_headers", "header");
constexpr ColumnId board_count = column("board_headers", "count");
constexpr ColumnId part_header = column("part_headers", "header");
constexpr ColumnId part_count = column("part_headers", "count");
constexpr ColumnId part_current = column("part_headers", "current_a");
constexpr ColumnId hub_feeds = column("other_hubs", "feeds");
constexpr ColumnId hub_outputs = column("other_hubs", "outputs");
constexpr int board_headers = table("board_headers");
constexpr int part_headers = table("part_headers");
constexpr int hubs = table("other_hubs");

constexpr std::array usb_kinds = {Kind::board, Kind::cooler, Kind::chassis, Kind::other};
constexpr std::array plugged_kinds = {Kind::cooler, Kind::chassis, Kind::other};
constexpr std::array usb_reads = {board_header, board_count, part_header, part_count,
                                  part_current, hub_feeds,   hub_outputs};

// [usb-two] section 7.2.1, from memory: a port of a host or of a hub with power of its own gives
// five unit loads of 100 mA, a port of a hub that hangs on the bus one.
constexpr double full_port_a = 0.5;
constexpr double bus_port_a = 0.1;

Row usb_hub_row(const Facts& facts, PartRef part) {
  if (part.kind == Kind::other)
    for (const Row row : facts.catalog.rows_of(hubs, part))
      if (facts.catalog.word(hub_feeds, row) == "usb2") return row;
  return no_row;
}

bool has_own_power(const Facts& facts, PartRef hub) {
  return std::ranges::any_of(facts.catalog.rows_of(part_headers, hub), [&](Row row) {
    return facts.catalog.word(part_header, row) == "sata-power" &&
           facts.catalog.number(part_count, row) > 0.0;
  });
}

// Calls see(part, row, plugs) for every sort of USB 2 plug, hubs' own among them.
template <class See>
void each_plug(const Facts& facts, See see) {
  for (const Kind kind : plugged_kinds)
    for (const Chosen& chosen : facts.build.of(kind))
      for (const Row row : facts.catalog.rows_of(part_headers, {kind, chosen.row}))
        if (facts.catalog.word(part_header, row) == "usb2")
          if (const double count = facts.catalog.number(part_count, row); count > 0.0)
            see(PartRef{kind, chosen.row}, row, static_cast<int>(count) * chosen.count);
}

struct Usb {
  static constexpr std::size_t most = 64;
  std::array<const Draws*, most> drawn;  ///< of each plug but the hubs'; null: a port for the user
  std::size_t plugs = 0;
  int full_ports = 0;  ///< headers that no hub takes, and outputs of hubs with power of their own
  int bus_ports = 0;
  bool hangs_on_unknown = false;
  [[nodiscard]] int over() const { return static_cast<int>(plugs) - full_ports - bus_ports; }
};

Usb gather(const Facts& facts) {
  Usb out;
  for (const Row row : facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)))
    if (facts.catalog.word(board_header, row) == "usb2")
      out.full_ports += static_cast<int>(facts.catalog.number(board_count, row));
  each_plug(facts, [&](PartRef part, Row row, int count) {
    if (usb_hub_row(facts, part) != no_row) {
      out.full_ports -= count;
      return;
    }
    const Draws* current =
        part.kind == Kind::chassis ? nullptr : &facts.draws.of(part_current, row);
    if (current != nullptr && current->is_absent()) out.hangs_on_unknown = true;
    for (int i = 0; i < count && out.plugs < Usb::most; ++i) out.drawn[out.plugs++] = current;
  });
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef part{Kind::other, other.row};
    const Row row = usb_hub_row(facts, part);
    if (row == no_row) continue;
    const int outputs = static_cast<int>(facts.catalog.number(hub_outputs, row)) * other.count;
    (has_own_power(facts, part) ? out.full_ports : out.bus_ports) += outputs;
  }
  return out;
}

struct Tightest {
  double left_a = full_port_a;
  double gives_a = full_port_a;
};

// (P17) The thirstiest plugs on full ports, the rest on the others.
Tightest tightest(const Usb& usb, Take take, Pick pick) {
  std::array<double, Usb::most> drawn{};
  for (std::size_t i = 0; i < usb.plugs; ++i) {
    const Draws* current = usb.drawn[i];
    drawn[i] = current == nullptr      ? full_port_a
               : !current->is_absent() ? pick.drawn(*current)
               : take == Take::worst   ? full_port_a
                                       : 0.0;
  }
  std::sort(drawn.begin(), drawn.begin() + static_cast<std::ptrdiff_t>(usb.plugs),
            std::greater<>());
  Tightest out;
  if (usb.plugs == 0) return out;
  const auto full = static_cast<std::size_t>(std::max(0, usb.full_ports));
  if (full > 0) out = {full_port_a - drawn[0], full_port_a};
  if (usb.plugs > full && (full == 0 || bus_port_a - drawn[full] < out.left_a))
    out = {bus_port_a - drawn[full], bus_port_a};
  return out;
}

void compare(const Usb& usb, Take take, Measure& m) {
  Certainty certainty = Certainty::certain;
  for (std::size_t i = 0; i < usb.plugs; ++i)
    if (usb.drawn[i] != nullptr && !usb.drawn[i]->is_absent())
      certainty = with(certainty, *usb.drawn[i]);
  const Draws limit = tightest(usb, take, worst_pick).gives_a;
  compare_left(
      limit, certainty, [&](Pick pick) { return tightest(usb, take, pick).left_a; }, m);
}

// That there is no port for a plug is told by match.usb2-headers.
int usb_places(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  const Usb usb = gather(facts);
  if (usb.plugs == 0) return 0;
  const bool listed = !facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)).empty();
  return !listed || usb.over() <= 0 ? 1 : 0;
}

void measure_usb(const Facts& facts, int, Measure& m) {
  for (const Row row : facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)))
    if (facts.catalog.word(board_header, row) == "usb2") m.read(facts, board_count, row);
  each_plug(facts, [&](PartRef, Row row, int) {
    m.note_seen(part_count, row);
    m.note_seen(part_current, row);
  });
  if (m.read_rows(facts, board_headers, part_of(facts, Kind::board)).empty()) return;
  const Usb usb = gather(facts);
  if (!usb.hangs_on_unknown) return compare(usb, Take::best, m);
  if (tightest(usb, Take::worst, worst_pick).left_a >= 0.0) return compare(usb, Take::worst, m);
  if (tightest(usb, Take::best, best_pick).left_a < 0.0) return compare(usb, Take::best, m);
  each_plug(facts, [&](PartRef part, Row row, int) {
    if (part.kind != Kind::chassis && usb_hub_row(facts, part) == no_row &&
        facts.catalog.absent(part_current, row))
      m.note_missing({part_current, row, part}, false);
  });
}

void tell_usb(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef board = part_of(facts, Kind::board);
  t.load = "everything";
  t.statement = fmt::format(
      "Shared the best way, no USB plug inside draws more than its header of {} or its hub gives.",
      facts.catalog.name(board));
  t.remedy = "a hub with power of its own, or a part that draws less over USB";
  t.subjects = {board};
  each_plug(facts, [&](PartRef part, Row, int) {
    if (std::ranges::find(t.subjects, part) == t.subjects.end()) t.subjects.push_back(part);
  });
}

}  // namespace

constexpr Rule usb_header_rule = {
    .id = "power.usb-header",
    .about = "current of the parts that hang on the board's USB 2 headers, shared the best way",
    .consequence =
        "A part inside, or a port at the front, would not be found or would switch itself off.",
    .grade = Grade::tells,
    .kinds = usb_kinds,
    .reads = usb_reads,
    .relation = Relation::at_most,
    .unit = "A",
    .basis = Basis::standard,
    .equation = "current of the plug on the tightest port <= what the port gives, (P17)",
    .source = "[usb-two] 7.2.1",
    .places = usb_places,
    .measure = measure_usb,
    .tell = tell_usb};

}  // namespace rigproof::power
