// Current on fan headers: case fans plugged the best way, and the cooler's own fans.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <optional>

#include "analysis/power/connectors.hpp"
#include "analysis/power/fan_plugs.hpp"
#include "analysis/power/header_rules.hpp"
#include "analysis/power/tightest.hpp"
#include "base/contract.hpp"

namespace rigproof::power {
namespace {

constexpr ColumnId board_header = column("board_headers", "header");
constexpr ColumnId board_count = column("board_headers", "count");
constexpr ColumnId board_current = column("board_headers", "current_a");
constexpr ColumnId own_count = column("case_fans", "count");
constexpr ColumnId own_current = column("case_fans", "current_a");
constexpr ColumnId fan_current = column("fan", "current_a");
constexpr ColumnId fan_chains = column("fan", "chains");
constexpr ColumnId hub_feeds = column("other_hubs", "feeds");
constexpr ColumnId hub_outputs = column("other_hubs", "outputs");
constexpr ColumnId hub_current = column("other_hubs", "current_a");
constexpr ColumnId part_header = column("part_headers", "header");
constexpr ColumnId part_count = column("part_headers", "count");
constexpr ColumnId what = column("other", "what");
constexpr int board_headers = table("board_headers");
constexpr int case_fans = table("case_fans");
constexpr int hubs = table("other_hubs");
constexpr int part_headers = table("part_headers");

constexpr double infinite = std::numeric_limits<double>::infinity();

Row header_row(const Facts& facts, std::string_view kind) {
  for (const Row row : facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)))
    if (facts.catalog.word(board_header, row) == kind) return row;
  return no_row;
}

// What is plugged and what feeds it, read once; what is not known of it is taken for the worst or
// for the best.
struct Fans {
  struct Group {
    const Draws* current = nullptr;
    int count = 0;
    std::optional<bool> chains;
    Row fan = no_row;  // of an added fan
  };
  struct Hub {
    const Draws* gives = nullptr;  // null: not stated
    Row row = no_row;
    int outputs = 0;
    std::optional<bool> on_header;
    PartRef part;
  };
  std::array<Group, most_fan_groups + 1> groups;
  std::size_t group_count = 0;
  std::array<Hub, most_fan_hubs> all_hubs;
  std::size_t hub_count = 0;
  Row header = no_row;  // none: the board has no fan header
  int headers = 0;
  bool case_unknown = false;  // nobody has listed the case's own fans
  bool hub_unlisted = false;  // a hub of which nobody has listed what it feeds

  void add(const Group& group) {
    if (group_count < groups.size()) groups[group_count++] = group;
  }
  [[nodiscard]] bool hangs_on_unknown() const {
    bool unknown = case_unknown || hub_unlisted;
    for (std::size_t g = 0; g < group_count; ++g)
      unknown = unknown || (!groups[g].chains && groups[g].count > 1);
    for (std::size_t h = 0; h < hub_count; ++h)
      unknown = unknown || !all_hubs[h].on_header ||
                (all_hubs[h].gives == nullptr && !all_hubs[h].on_header.value_or(true));
    return unknown;
  }
};

void gather_hubs(const Facts& facts, Fans& fans) {
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef part{Kind::other, other.row};
    const auto fed = facts.catalog.rows_of(hubs, part);
    if (fed.empty() && facts.catalog.word(what, other.row) == "hub") fans.hub_unlisted = true;
    for (const Row row : fed) {
      if (facts.catalog.word(hub_feeds, row) != "fan") continue;
      Fans::Hub hub{.gives = nullptr,
                    .row = row,
                    .outputs = static_cast<int>(facts.catalog.number(hub_outputs, row)),
                    .on_header = {},
                    .part = part};
      const auto plugs = facts.catalog.rows_of(part_headers, part);
      if (!plugs.empty()) hub.on_header = true;
      for (const Row plug : plugs)
        if (facts.catalog.word(part_header, plug) == "sata-power" &&
            facts.catalog.number(part_count, plug) > 0.0)
          hub.on_header = false;
      if (!facts.catalog.absent(hub_current, row)) hub.gives = &facts.draws.of(hub_current, row);
      for (int piece = 0; piece < other.count && fans.hub_count < fans.all_hubs.size(); ++piece)
        fans.all_hubs[fans.hub_count++] = hub;
    }
  }
}

Fans gather(const Facts& facts) {
  Fans fans;
  if (facts.build.has(Kind::chassis)) {
    const auto rows = facts.catalog.rows_of(case_fans, part_of(facts, Kind::chassis));
    fans.case_unknown = rows.empty();
    for (const Row row : rows)
      if (const double count = facts.catalog.number(own_count, row); count > 0.0)
        fans.add({.current = &facts.draws.of(own_current, row),
                  .count = static_cast<int>(count),
                  .chains = false,
                  .fan = no_row});
  }
  for (const Chosen& fan : facts.build.of(Kind::fan))
    fans.add({.current = &facts.draws.of(fan_current, fan.row),
              .count = fan.count,
              .chains = facts.catalog.flag(fan_chains, fan.row),
              .fan = fan.row});
  gather_hubs(facts, fans);
  fans.header = header_row(facts, "fan");
  if (fans.header != no_row)
    fans.headers = static_cast<int>(facts.catalog.number(board_count, fans.header));
  return fans;
}

// What is left on the tightest outlet.
FanPlugging plug(const Facts& facts, const Fans& fans, Take take, Pick pick) {
  std::array<FanGroup, most_fan_groups + 1> groups;
  for (std::size_t g = 0; g < fans.group_count; ++g)
    groups[g] = {.current_a = pick.drawn(*fans.groups[g].current),
                 .count = fans.groups[g].count,
                 .chains = fans.groups[g].chains.value_or(take == Take::best)};
  std::array<FanHub, most_fan_hubs> fan_hubs;
  for (std::size_t h = 0; h < fans.hub_count; ++h) {
    const Fans::Hub& hub = fans.all_hubs[h];
    const bool on_header = hub.on_header.value_or(take == Take::worst);
    // A hub on a header gives what the header gives; one with power of its own says what it gives.
    const double not_stated = on_header || take == Take::best ? infinite : 0.0;
    fan_hubs[h] = {.gives_a = hub.gives != nullptr ? pick.given(*hub.gives) : not_stated,
                   .outputs = hub.outputs,
                   .on_header = on_header};
  }
  const FanHeaders headers{
      .count = fans.headers,
      .gives_a = fans.headers > 0 ? pick.given(facts.draws.of(board_current, fans.header)) : 0.0};
  return plug_fans(std::span(groups).first(fans.group_count), headers,
                   std::span(fan_hubs).first(fans.hub_count));
}

// Fans without a plug are the concern of match.fan-headers.
int fan_header_places(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  const Fans fans = gather(facts);
  if (fans.group_count == 0 && !fans.case_unknown) return 0;
  if (facts.catalog.rows_of(board_headers, part_of(facts, Kind::board)).empty()) return 1;
  return fans.hub_unlisted || plug(facts, fans, Take::best, best_pick).possible ? 1 : 0;
}

void read_cells(const Facts& facts, const Fans& fans, Measure& m) {
  if (facts.build.has(Kind::chassis))
    for (const Row row : m.read_rows(facts, case_fans, part_of(facts, Kind::chassis)))
      if (m.read(facts, own_count, row).high() > 0.0) m.read(facts, own_current, row);
  for (const Chosen& fan : facts.build.of(Kind::fan)) {
    m.read(facts, fan_current, fan.row);
    m.note_seen(fan_chains, fan.row);
  }
  if (fans.header != no_row) {
    m.read(facts, board_count, fans.header);
    if (fans.headers > 0) m.read(facts, board_current, fans.header);
  }
  for (std::size_t h = 0; h < fans.hub_count; ++h) {
    m.note_seen(hub_outputs, fans.all_hubs[h].row);
    m.note_seen(hub_current, fans.all_hubs[h].row);
  }
}

void note_unknown(const Facts& facts, const Fans& fans, Measure& m) {
  for (std::size_t g = 0; g < fans.group_count; ++g)
    if (!fans.groups[g].chains && fans.groups[g].count > 1)
      m.read_flag(facts, fan_chains, fans.groups[g].fan);
  for (std::size_t h = 0; h < fans.hub_count; ++h) {
    const Fans::Hub& hub = fans.all_hubs[h];
    if (!hub.on_header) m.read_rows(facts, part_headers, hub.part);
    if (hub.gives == nullptr && !hub.on_header.value_or(false))
      m.note_missing({hub_current, hub.row, hub.part}, false);
  }
  for (const Chosen& other : facts.build.of(Kind::other))
    if (facts.catalog.word(what, other.row) == "hub")
      m.read_rows(facts, hubs, {Kind::other, other.row});
}

// A header's limit where there is one, else what a hub gives.
const Draws* limit_of(const Facts& facts, const Fans& fans) {
  if (fans.headers > 0) return &facts.draws.of(board_current, fans.header);
  for (std::size_t h = 0; h < fans.hub_count; ++h)
    if (fans.all_hubs[h].gives != nullptr) return fans.all_hubs[h].gives;
  return nullptr;
}

// (P6) as value and limit: their difference is what is left on the tightest outlet.
void compare(const Facts& facts, const Fans& fans, Take take, Measure& m) {
  const Draws* limit = limit_of(facts, fans);
  RP_EXPECT(limit != nullptr);  // else all would hang on what is not known
  Certainty certainty = with(Certainty::certain, *limit);
  for (std::size_t g = 0; g < fans.group_count; ++g)
    certainty = with(certainty, *fans.groups[g].current);
  for (std::size_t h = 0; h < fans.hub_count; ++h)
    if (fans.all_hubs[h].gives != nullptr) certainty = with(certainty, *fans.all_hubs[h].gives);
  compare_left(
      *limit, certainty, [&](Pick pick) { return plug(facts, fans, take, pick).left_a; }, m);
}

void measure_fan_header(const Facts& facts, int, Measure& m) {
  const Fans fans = gather(facts);
  read_cells(facts, fans, m);
  if (m.read_rows(facts, board_headers, part_of(facts, Kind::board)).empty()) return;
  if (!fans.hangs_on_unknown()) return compare(facts, fans, Take::best, m);
  const FanPlugging worst = plug(facts, fans, Take::worst, worst_pick);
  if (!fans.case_unknown && worst.possible && worst.left_a >= 0.0)
    return compare(facts, fans, Take::worst, m);
  const FanPlugging best = plug(facts, fans, Take::best, best_pick);
  if (!fans.hub_unlisted && best.possible && best.left_a < 0.0) {
    m.unknown = false;
    return compare(facts, fans, Take::best, m);
  }
  note_unknown(facts, fans, m);
}

void tell_fan_header(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef board = part_of(facts, Kind::board);
  const Fans fans = gather(facts);
  t.load = "everything";
  t.statement = fmt::format(
      "Plugged the best way, the case fans draw no more from any fan header of {}{} than it gives.",
      facts.catalog.name(board), fans.hub_count > 0 ? " or hub" : "");
  t.remedy =
      "a hub with power of its own, fans that draw less, or a board with more or stronger fan "
      "headers";
  t.subjects = {board};
  for (const Kind kind : {Kind::chassis, Kind::fan})
    for (const Chosen& part : facts.build.of(kind)) t.subjects.push_back({kind, part.row});
  for (const Chosen& other : facts.build.of(Kind::other))
    if (!facts.catalog.rows_of(hubs, {Kind::other, other.row}).empty())
      t.subjects.push_back({Kind::other, other.row});
}

constexpr std::array fan_header_kinds = {Kind::board, Kind::chassis, Kind::fan, Kind::other};
constexpr std::array fan_header_reads = {
    board_header, board_count, board_current, own_count,   own_current, fan_current, fan_chains,
    hub_feeds,    hub_outputs, hub_current,   part_header, part_count,  what};

// --- power.cpu-fan-header

constexpr ColumnId cooler_type = column("cooler", "type");
constexpr ColumnId cooler_fans = column("cooler", "fans");
constexpr ColumnId cooler_power = column("cooler", "power_w");

int cpu_fan_places(const Facts& facts) {
  if (!facts.build.has(Kind::board) || !facts.build.has(Kind::cooler)) return 0;
  const Row cooler = facts.build.one(Kind::cooler);
  return facts.catalog.word(cooler_type, cooler) == "liquid" ||
                 facts.catalog.number(cooler_fans, cooler) == 0.0
             ? 0
             : 1;
}

void measure_cpu_fan(const Facts& facts, int, Measure& m) {
  const Row cooler = facts.build.one(Kind::cooler);
  m.read_word(facts, cooler_type, cooler);
  m.value = m.read(facts, cooler_power, cooler) * (1.0 / fan_rail_v);
  if (m.read_rows(facts, board_headers, part_of(facts, Kind::board)).empty()) return;
  const Row row = header_row(facts, "cpu-fan");
  m.limit = 0.0;  // headers are listed, and this one is not among them
  if (row != no_row && m.read(facts, board_count, row).low() > 0.0)
    m.limit = m.read(facts, board_current, row);
}

void tell_cpu_fan(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef board = part_of(facts, Kind::board);
  const PartRef cooler = part_of(facts, Kind::cooler);
  t.load = "everything";
  t.statement =
      fmt::format("The fans of {} draw no more than the processor fan header of {} gives.",
                  facts.catalog.name(cooler), facts.catalog.name(board));
  t.remedy = "put one of its fans on another fan header, or on a hub with power of its own";
  t.subjects = {board, cooler};
}

constexpr std::array cpu_fan_kinds = {Kind::board, Kind::cooler};
constexpr std::array cpu_fan_reads = {board_header, board_count, board_current,
                                      cooler_type,  cooler_fans, cooler_power};

}  // namespace

constexpr Rule fan_header_rule = {
    .id = "power.fan-header",
    .about = "current on the tightest fan header or hub, with the fans plugged the best way",
    .consequence =
        "A fan plug of the board would carry more current than it may; the board's circuit could "
        "burn out and the fans stop.",
    .grade = Grade::must,
    .kinds = fan_header_kinds,
    .reads = fan_header_reads,
    .relation = Relation::at_most,
    .unit = "A",
    .basis = Basis::common_practice,
    .equation =
        "least over ways to plug of the largest current of a header <= what a header gives, "
        "(P6)",
    .source = "common practice, no source (12 V, 1 A where a board states none: 1 to 3 A)",
    .places = fan_header_places,
    .measure = measure_fan_header,
    .tell = tell_fan_header};

constexpr Rule cpu_fan_header_rule = {
    .id = "power.cpu-fan-header",
    .about = "current of an air cooler's own fans against the processor fan header",
    .consequence =
        "The processor's fan plug would carry more current than it may; its circuit could burn "
        "out.",
    .grade = Grade::tells,
    .kinds = cpu_fan_kinds,
    .reads = cpu_fan_reads,
    .relation = Relation::at_most,
    .unit = "A",
    .basis = Basis::common_practice,
    .equation = "power of the cooler's fans / 12 V <= what the processor fan header gives, (P7)",
    .source = "common practice, no source (1 to 3 A where a board states none)",
    .places = cpu_fan_places,
    .measure = measure_cpu_fan,
    .tell = tell_cpu_fan};

}  // namespace rigproof::power
