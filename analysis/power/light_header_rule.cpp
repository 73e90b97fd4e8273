// Current on light headers: lights shared among the headers and hubs of their voltage the best way.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>

#include "analysis/power/header_rules.hpp"
#include "analysis/power/hubs.hpp"
#include "analysis/power/light_plugs.hpp"
#include "analysis/power/tightest.hpp"
#include "base/contract.hpp"

namespace rigproof::power {
namespace {

constexpr ColumnId board_header = column("board_headers", "header");
constexpr ColumnId board_count = column("board_headers", "count");
constexpr ColumnId board_current = column("board_headers", "current_a");
constexpr ColumnId part_header = column("part_headers", "header");
constexpr ColumnId part_count = column("part_headers", "count");
constexpr ColumnId part_current = column("part_headers", "current_a");
constexpr ColumnId hub_feeds = column("other_hubs", "feeds");
constexpr ColumnId hub_current = column("other_hubs", "current_a");
constexpr ColumnId what = column("other", "what");
constexpr int board_headers = table("board_headers");
constexpr int part_headers = table("part_headers");
constexpr int hubs = table("other_hubs");

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr std::array<std::string_view, 2> voltages = {"light-5v", "light-12v"};
constexpr std::array light_kinds = {Kind::board, Kind::gpu, Kind::cooler, Kind::chassis,
                                    Kind::psu,   Kind::fan, Kind::other};
constexpr std::array lit_kinds = {Kind::gpu, Kind::cooler, Kind::chassis,
                                  Kind::psu, Kind::fan,    Kind::other};
constexpr std::array light_reads = {board_header, board_count, board_current,
                                    part_header,  part_count,  part_current,
                                    hub_feeds,    hub_current, what};

// Calls see(part, row, plugs) for every sort of light plug of this voltage.
template <class See>
void each_light(const Facts& facts, std::string_view voltage, See see) {
  for (const Kind kind : lit_kinds)
    for (const Chosen& chosen : facts.build.of(kind)) {
      const PartRef part{kind, chosen.row};
      if (hub_row(facts, part, voltage) != no_row) continue;  // its own input
      for (const Row row : facts.catalog.rows_of(part_headers, part))
        if (facts.catalog.word(part_header, row) == voltage)
          if (const double count = facts.catalog.number(part_count, row); count > 0.0)
            see(part, row, static_cast<int>(count) * chosen.count);
    }
}

// Everything about the lights of one voltage.
struct Lights {
  struct Plugs {
    const Draws* current = nullptr;  // absent: not stated
    int count = 0;
  };
  struct Hub {
    const Draws* gives = nullptr;  // absent: not stated
    Fed fed = Fed::untold;
    int count = 0;
  };
  std::array<Plugs, 20> plugs;
  std::size_t plug_sorts = 0;
  int plug_count = 0;
  std::array<Hub, Build::most_of_a_kind> hubs;
  std::size_t hub_count = 0;
  int headers = 0;
  const Draws* header_gives = nullptr;
  bool hub_unlisted = false;
  bool hangs_on_unknown = false;
};

Lights gather(const Facts& facts, std::string_view voltage) {
  Lights out;
  each_light(facts, voltage, [&](PartRef, Row row, int count) {
    const Draws& current = facts.draws.of(part_current, row);
    out.hangs_on_unknown = out.hangs_on_unknown || current.is_absent();
    out.plug_count += count;
    if (out.plug_sorts < out.plugs.size()) out.plugs[out.plug_sorts++] = {&current, count};
  });
  for (const Row row : facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)))
    if (facts.catalog.word(board_header, row) == voltage) {
      out.headers = static_cast<int>(facts.catalog.number(board_count, row));
      if (out.headers > 0) out.header_gives = &facts.draws.of(board_current, row);
    }
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef part{Kind::other, other.row};
    if (facts.catalog.word(what, other.row) == "hub" && facts.catalog.rows_of(hubs, part).empty())
      out.hub_unlisted = true;
    const Row row = hub_row(facts, part, voltage);
    if (row == no_row) continue;
    const Lights::Hub hub{&facts.draws.of(hub_current, row), fed(facts, part), other.count};
    out.hubs[out.hub_count++] = hub;
    if (hub.fed != Fed::by_header && (hub.fed == Fed::untold || hub.gives->is_absent()))
      out.hangs_on_unknown = true;
  }
  out.hangs_on_unknown = out.hangs_on_unknown || out.hub_unlisted;
  return out;
}

// A hub on a header gives no more than the header: it is no outlet of its own. Nor, at the worst,
// is one of which it is not known what feeds it or what it gives.
bool is_outlet(const Lights::Hub& hub, Take take) {
  if (take == Take::best) return hub.fed != Fed::by_header;
  return hub.fed == Fed::by_supply && !hub.gives->is_absent();
}

bool any_outlet(const Lights& lights, Take take) {
  bool any = lights.headers > 0;
  for (std::size_t h = 0; h < lights.hub_count; ++h) any = any || is_outlet(lights.hubs[h], take);
  return any;
}

double left_a(const Lights& lights, Take take, Pick pick) {
  const double unsaid_drawn = take == Take::worst ? infinite : 0.0;
  std::array<double, most_light_plugs> plugs{};
  std::array<double, most_light_outlets> gives{};
  std::size_t plug_count = 0;
  std::size_t outlet_count = 0;
  // Many plugs are taken several at once, so that they are few enough; that only leaves less.
  const int at_once =
      lights.plug_count <= static_cast<int>(most_light_plugs) ? 1 : (lights.plug_count + 11) / 12;
  for (std::size_t i = 0; i < lights.plug_sorts; ++i) {
    const Draws& current = *lights.plugs[i].current;
    const double each = current.is_absent() ? unsaid_drawn : pick.drawn(current);
    for (int rest = lights.plugs[i].count; rest > 0; rest -= at_once)
      plugs[plug_count++] = each * std::min(rest, at_once);
  }
  for (int h = 0; h < lights.headers && outlet_count < gives.size(); ++h)
    gives[outlet_count++] = pick.given(*lights.header_gives);
  for (std::size_t h = 0; h < lights.hub_count; ++h) {
    const Lights::Hub& hub = lights.hubs[h];
    const double each = hub.gives->is_absent() ? infinite : pick.given(*hub.gives);
    for (int piece = 0; piece < hub.count && is_outlet(hub, take); ++piece)
      if (outlet_count < gives.size()) gives[outlet_count++] = each;
  }
  return share_lights(std::span(gives).first(outlet_count), std::span(plugs).first(plug_count));
}

// A voltage is asked where some part plugs such lights in and there may be an outlet for them; that
// there is none is told by match.light-headers.
std::array<bool, voltages.size()> light_set(const Facts& facts) {
  std::array<bool, voltages.size()> set{};
  if (!facts.build.has(Kind::board)) return set;
  const bool unlisted = facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)).empty();
  for (std::size_t i = 0; i < set.size(); ++i) {
    const Lights lights = gather(facts, voltages[i]);
    set[i] = lights.plug_count > 0 &&
             (unlisted || lights.hub_unlisted || any_outlet(lights, Take::best));
  }
  return set;
}

int light_places(const Facts& facts) {
  int sum = 0;
  for (const bool asked : light_set(facts)) sum += asked ? 1 : 0;
  return sum;
}

std::string_view voltage_at(const Facts& facts, int place) {
  const auto set = light_set(facts);
  for (std::size_t i = 0; i < set.size(); ++i)
    if (set[i] && place-- == 0) return voltages[i];
  return voltages[0];
}

void compare(const Lights& lights, Take take, Measure& m) {
  const Draws* limit = lights.header_gives;
  Certainty certainty = Certainty::certain;
  if (limit != nullptr) certainty = with(certainty, *limit);
  for (std::size_t h = 0; h < lights.hub_count; ++h) {
    const Draws* gives = lights.hubs[h].gives;
    if (gives->is_absent() || !is_outlet(lights.hubs[h], take)) continue;
    if (limit == nullptr) limit = gives;
    certainty = with(certainty, *gives);
  }
  for (std::size_t i = 0; i < lights.plug_sorts; ++i)
    if (!lights.plugs[i].current->is_absent())
      certainty = with(certainty, *lights.plugs[i].current);
  RP_EXPECT(limit != nullptr);
  compare_left(*limit, certainty, [&](Pick pick) { return left_a(lights, take, pick); }, m);
}

void read_cells(const Facts& facts, std::string_view voltage, Measure& m) {
  each_light(facts, voltage, [&](PartRef, Row row, int) {
    m.note_seen(part_count, row);
    m.note_seen(part_current, row);
  });
  for (const Row row : facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)))
    if (facts.catalog.word(board_header, row) == voltage)
      if (m.read(facts, board_count, row).high() > 0.0) m.read(facts, board_current, row);
  for (const Chosen& other : facts.build.of(Kind::other))
    if (const Row row = hub_row(facts, {Kind::other, other.row}, voltage); row != no_row)
      m.note_seen(hub_current, row);
}

void note_unknown(const Facts& facts, std::string_view voltage, Measure& m) {
  each_light(facts, voltage, [&](PartRef part, Row row, int) {
    if (facts.catalog.absent(part_current, row)) m.note_missing({part_current, row, part}, false);
  });
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef part{Kind::other, other.row};
    if (facts.catalog.word(what, other.row) == "hub") m.read_rows(facts, hubs, part);
    const Row row = hub_row(facts, part, voltage);
    if (row == no_row) continue;
    if (fed(facts, part) == Fed::untold) m.read_rows(facts, part_headers, part);
    if (fed(facts, part) != Fed::by_header && facts.catalog.absent(hub_current, row))
      m.note_missing({hub_current, row, part}, false);
  }
}

// (P8)
void measure_lights(const Facts& facts, int place, Measure& m) {
  const auto voltage = voltage_at(facts, place);
  const Lights lights = gather(facts, voltage);
  read_cells(facts, voltage, m);
  if (m.read_rows(facts, board_headers, part_of(facts, Kind::board)).empty()) return;
  if (!lights.hangs_on_unknown) return compare(lights, Take::best, m);
  if (any_outlet(lights, Take::worst) && left_a(lights, Take::worst, worst_pick) >= 0.0)
    return compare(lights, Take::worst, m);
  if (!lights.hub_unlisted && left_a(lights, Take::best, best_pick) < 0.0)
    return compare(lights, Take::best, m);
  note_unknown(facts, voltage, m);
}

void tell_lights(const Facts& facts, int place, const Measure&, Telling& t) {
  const PartRef board = part_of(facts, Kind::board);
  const auto voltage = voltage_at(facts, place);
  const bool five = voltage == voltages[0];
  t.where = voltage;
  t.load = "everything";
  t.statement = fmt::format(
      "Shared the best way, the lights draw no more from any {} header of {} or hub than it gives.",
      five ? "5 V" : "12 V", facts.catalog.name(board));
  t.remedy = fmt::format("a hub for {} lights with power of its own, or fewer lights{}",
                         five ? "5 V" : "12 V",
                         five ? "; never use a 12 V header instead, it destroys them" : "");
  t.subjects = {board};
  each_light(facts, voltage, [&](PartRef part, Row, int) {
    if (std::ranges::find(t.subjects, part) == t.subjects.end()) t.subjects.push_back(part);
  });
  for (const Chosen& other : facts.build.of(Kind::other))
    if (const PartRef part{Kind::other, other.row}; hub_row(facts, part, voltage) != no_row)
      t.subjects.push_back(part);
}

}  // namespace

constexpr Rule light_header_rule = {
    .id = "power.light-header",
    .about = "current on the tightest light header or hub, with the lights shared the best way",
    .consequence = "A light header would be overloaded: it can burn or switch off.",
    .grade = Grade::must,
    .kinds = light_kinds,
    .reads = light_reads,
    .relation = Relation::at_most,
    .unit = "A",
    .basis = Basis::common_practice,
    .equation =
        "least over ways to share of the largest current of a header <= what a header "
        "gives, (P8)",
    .source = "common practice, no source (1 to 3 A where a board states none)",
    .places = light_places,
    .measure = measure_lights,
    .tell = tell_lights};

}  // namespace rigproof::power
