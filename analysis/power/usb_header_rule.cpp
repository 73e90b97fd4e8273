// Current on internal USB 2 plugs: parts that take their power from the board's headers or from a
// hub, the thirstiest where most is given. Equation (P17) of README.md.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>

#include "analysis/power/header_rules.hpp"
#include "analysis/power/hubs.hpp"
#include "analysis/power/tightest.hpp"
#include "analysis/power/usb_ports.hpp"

namespace rigproof::power {
namespace {

constexpr ColumnId board_header = column("board_headers", "header");
constexpr ColumnId board_count = column("board_headers", "count");
constexpr ColumnId part_header = column("part_headers", "header");
constexpr ColumnId part_count = column("part_headers", "count");
constexpr ColumnId part_current = column("part_headers", "current_a");
constexpr ColumnId hub_feeds = column("other_hubs", "feeds");
constexpr ColumnId hub_outputs = column("other_hubs", "outputs");
constexpr ColumnId hub_current = column("other_hubs", "current_a");
constexpr int board_headers = table("board_headers");
constexpr int part_headers = table("part_headers");

constexpr std::array usb_kinds = {Kind::board, Kind::cooler, Kind::chassis, Kind::other};
constexpr std::array plugged_kinds = {Kind::cooler, Kind::chassis, Kind::other};
constexpr std::array usb_reads = {board_header, board_count, part_header, part_count,
                                  part_current, hub_feeds,   hub_outputs, hub_current};

// [usb-two] section 7.2.1, from memory: a port of a host or of a hub with power of its own gives
// five unit loads of 100 mA, a port of a hub that hangs on the bus one. That hub takes one itself,
// so that four are left for its ports together.
constexpr double full_port_a = 0.5;
constexpr double bus_port_a = 0.1;
constexpr double bus_hub_a = 0.4;
constexpr int bus_hub_ports = 4;

Row usb_hub_row(const Facts& facts, PartRef part) { return hub_row(facts, part, "usb2"); }

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

struct Hub {
  const Draws* all = nullptr;  ///< what its outputs give together; absent: not stated
  bool own_power = false;
  int free_ports = 0;
  double taken_a = 0.0;  ///< by hubs that hang on it
  [[nodiscard]] UsbOutlet outlet(Pick pick) const {
    UsbOutlet out;
    out.ports = free_ports;
    out.each_a = own_power ? full_port_a : bus_port_a;
    if (!all->is_absent()) out.all_a = pick.given(*all);
    if (!own_power && free_ports > bus_hub_ports) out.all_a = std::min(out.all_a, bus_hub_a);
    out.all_a -= taken_a;
    return out;
  }
};

struct Usb {
  std::array<const Draws*, most_usb_plugs> drawn;  ///< null: a port for the user
  std::size_t plugs = 0;
  std::array<Hub, most_usb_outlets - 1> hubs;
  std::size_t hub_count = 0;
  int headers = 0;              ///< that no hub takes
  bool weakly_chained = false;  ///< a hub that hangs on the bus hangs on another such hub
  bool hangs_on_unknown = false;
  [[nodiscard]] int ports() const {
    int sum = headers;
    for (std::size_t h = 0; h < hub_count; ++h) sum += hubs[h].free_ports;
    return sum;
  }
};

// Hubs with power of their own take headers first, then hubs on the bus; what is left hangs on a
// hub with power of its own that has most ports. It wants a unit load, or a full port.
void plug_in_hubs(Usb& usb) {
  for (const bool own_power : {true, false})
    for (std::size_t h = 0; h < usb.hub_count; ++h) {
      if (usb.hubs[h].own_power != own_power) continue;
      if (usb.headers > 0) {
        --usb.headers;
        continue;
      }
      Hub* feeder = nullptr;
      Hub* any = nullptr;
      for (std::size_t o = 0; o < (own_power ? h : usb.hub_count); ++o) {
        Hub& other = usb.hubs[o];
        if (o == h || other.free_ports == 0) continue;
        any = &other;
        if (other.own_power && (feeder == nullptr || other.free_ports > feeder->free_ports))
          feeder = &other;
      }
      usb.weakly_chained = usb.weakly_chained || feeder == nullptr;
      if (feeder == nullptr) feeder = any;
      if (feeder == nullptr) continue;
      --feeder->free_ports;
      feeder->taken_a += own_power ? bus_port_a : full_port_a;
    }
}

Usb gather(const Facts& facts, Take take) {
  Usb out;
  for (const Row row : facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)))
    if (facts.catalog.word(board_header, row) == "usb2")
      out.headers += static_cast<int>(facts.catalog.number(board_count, row));
  if (out.headers == 0) return out;  // a hub alone leads nowhere
  each_plug(facts, [&](PartRef part, Row row, int count) {
    if (usb_hub_row(facts, part) != no_row) return;
    const Draws* current =
        part.kind == Kind::chassis ? nullptr : &facts.draws.of(part_current, row);
    if (current != nullptr && current->is_absent()) out.hangs_on_unknown = true;
    for (int i = 0; i < count && out.plugs < out.drawn.size(); ++i)
      out.drawn[out.plugs++] = current;
  });
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef part{Kind::other, other.row};
    const Row row = usb_hub_row(facts, part);
    if (row == no_row) continue;
    if (fed(facts, part) == Fed::untold) out.hangs_on_unknown = true;
    for (int piece = 0; piece < other.count && out.hub_count < out.hubs.size(); ++piece) {
      Hub& hub = out.hubs[out.hub_count++];
      hub.all = &facts.draws.of(hub_current, row);
      const Fed by = fed(facts, part);
      hub.own_power = by == Fed::by_supply || (by == Fed::untold && take == Take::best);
      hub.free_ports = static_cast<int>(facts.catalog.number(hub_outputs, row));
    }
  }
  plug_in_hubs(out);
  return out;
}

// (P17)
UsbTightest tightest(const Usb& usb, Take take, Pick pick) {
  if (usb.weakly_chained) return {bus_port_a - full_port_a, bus_port_a};
  std::array<double, most_usb_plugs> drawn{};
  for (std::size_t i = 0; i < usb.plugs; ++i) {
    const Draws* current = usb.drawn[i];
    drawn[i] = current == nullptr      ? full_port_a
               : !current->is_absent() ? pick.drawn(*current)
               : take == Take::worst   ? full_port_a
                                       : 0.0;
  }
  const auto plugs = std::span(drawn).first(usb.plugs);
  std::ranges::sort(plugs, std::greater<>());
  std::array<UsbOutlet, most_usb_outlets> outlets;
  outlets[0] = {usb.headers, full_port_a};
  for (std::size_t h = 0; h < usb.hub_count; ++h) outlets[h + 1] = usb.hubs[h].outlet(pick);
  UsbTightest out = share_usb(std::span(outlets).first(usb.hub_count + 1), plugs);
  for (std::size_t h = 0; h < usb.hub_count; ++h)
    if (const double all_a = outlets[h + 1].all_a; usb.hubs[h].taken_a > 0.0 && all_a < out.left_a)
      out = {all_a, all_a + usb.hubs[h].taken_a};
  return out;
}

void compare(const Usb& usb, Take take, Measure& m) {
  Certainty certainty = Certainty::certain;
  for (std::size_t i = 0; i < usb.plugs; ++i)
    if (usb.drawn[i] != nullptr && !usb.drawn[i]->is_absent())
      certainty = with(certainty, *usb.drawn[i]);
  for (std::size_t h = 0; h < usb.hub_count; ++h)
    if (!usb.hubs[h].all->is_absent()) certainty = with(certainty, *usb.hubs[h].all);
  const Draws limit = tightest(usb, take, worst_pick).gives_a;
  compare_left(limit, certainty, [&](Pick pick) { return tightest(usb, take, pick).left_a; }, m);
}

bool has_plug(const Facts& facts) {
  bool any = false;
  each_plug(facts,
            [&](PartRef part, Row, int) { any = any || usb_hub_row(facts, part) == no_row; });
  return any;
}

// That there is no port for a plug is told by match.usb2-headers.
int usb_places(const Facts& facts) {
  if (!facts.build.has(Kind::board) || !has_plug(facts)) return 0;
  if (facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)).empty()) return 1;
  const Usb usb = gather(facts, Take::best);
  return usb.plugs > 0 && static_cast<int>(usb.plugs) <= usb.ports() ? 1 : 0;
}

void note_unknown(const Facts& facts, Measure& m) {
  each_plug(facts, [&](PartRef part, Row row, int) {
    if (part.kind != Kind::chassis && usb_hub_row(facts, part) == no_row &&
        facts.catalog.absent(part_current, row))
      m.note_missing({part_current, row, part}, false);
  });
  for (const Chosen& other : facts.build.of(Kind::other))
    if (const PartRef part{Kind::other, other.row}; usb_hub_row(facts, part) != no_row)
      m.read_rows(facts, part_headers, part);
}

void measure_usb(const Facts& facts, int, Measure& m) {
  for (const Row row : facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)))
    if (facts.catalog.word(board_header, row) == "usb2") m.read(facts, board_count, row);
  each_plug(facts, [&](PartRef part, Row row, int) {
    m.note_seen(part_count, row);
    if (part.kind != Kind::chassis && usb_hub_row(facts, part) == no_row)
      m.note_seen(part_current, row);
  });
  for (const Chosen& other : facts.build.of(Kind::other))
    if (const Row row = usb_hub_row(facts, {Kind::other, other.row}); row != no_row)
      for (const ColumnId cell : {hub_outputs, hub_current}) m.note_seen(cell, row);
  if (m.read_rows(facts, board_headers, part_of(facts, Kind::board)).empty()) return;
  const Usb best = gather(facts, Take::best);
  if (!best.hangs_on_unknown) return compare(best, Take::best, m);
  const Usb worst = gather(facts, Take::worst);
  if (tightest(worst, Take::worst, worst_pick).left_a >= 0.0) return compare(worst, Take::worst, m);
  if (tightest(best, Take::best, best_pick).left_a < 0.0) return compare(best, Take::best, m);
  note_unknown(facts, m);
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
    .equation = "current on the tightest port or hub <= what the port or the hub gives, (P17)",
    .source = "[usb-two] 7.2.1",
    .places = usb_places,
    .measure = measure_usb,
    .tell = tell_usb};

}  // namespace rigproof::power
