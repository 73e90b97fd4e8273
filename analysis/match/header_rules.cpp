// Plugs inside the case against the board's headers and hubs: fans, pump, front ports, USB 2.
#include <fmt/format.h>

#include <algorithm>

#include "analysis/match/header_counts.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId board_header = column("board_headers", "header");
constexpr ColumnId board_count = column("board_headers", "count");
constexpr ColumnId part_header = column("part_headers", "header");
constexpr ColumnId part_count = column("part_headers", "count");
constexpr ColumnId hub_feeds = column("other_hubs", "feeds");
constexpr ColumnId hub_outputs = column("other_hubs", "outputs");
constexpr ColumnId what = column("other", "what");
constexpr ColumnId fan_chains = column("fan", "chains");
constexpr ColumnId own_fans = column("case_fans", "count");
constexpr int part_headers = table("part_headers");
constexpr int hubs = table("other_hubs");

std::string told(const Draws& count) {
  return count.is_absent() ? "not known" : number(count.median());
}

// --- match.fan-headers

constexpr std::array fan_header_kinds = {Kind::board, Kind::chassis, Kind::fan, Kind::other};
constexpr std::array fan_header_reads = {board_header, board_count, own_fans,
                                         fan_chains,   hub_feeds,   hub_outputs,
                                         part_header,  part_count,  what};

double fans_of_case(const Facts& facts) {
  double sum = 0.0;
  for (const Row row : facts.catalog.rows_of(table("case_fans"), only(facts, Kind::chassis)))
    sum += facts.catalog.number(own_fans, row);
  return sum;
}

bool case_fans_unknown(const Facts& facts) {
  return facts.build.has(Kind::chassis) &&
         facts.catalog.rows_of(table("case_fans"), only(facts, Kind::chassis)).empty();
}

int fan_header_places(const Facts& facts) {
  if (!facts.build.has(Kind::board)) return 0;
  return facts.build.has(Kind::fan) || case_fans_unknown(facts) ||
                 (facts.build.has(Kind::chassis) && fans_of_case(facts) > 0.0)
             ? 1
             : 0;
}

// Plugs of all case fans, at least and at most: fans of one model that hang on one another need one
// plug together.
struct FanPlugs {
  double least = 0.0;
  double most = 0.0;
};

FanPlugs fan_plugs(const Facts& facts, Measure& m) {
  FanPlugs out;
  if (facts.build.has(Kind::chassis))
    for (const Row row : m.read_rows(facts, table("case_fans"), only(facts, Kind::chassis)))
      out.least += m.read(facts, own_fans, row).high();
  out.most = out.least;
  for (const Chosen& fan : facts.build.of(Kind::fan)) {
    m.note_seen(fan_chains, fan.row);
    const auto chains = facts.catalog.flag(fan_chains, fan.row);
    out.least += chains.value_or(true) ? 1.0 : fan.count;
    out.most += chains.value_or(false) ? 1.0 : fan.count;
  }
  return out;
}

// What feeds fans beside the board. A hub takes a header of the board unless SATA power feeds it;
// `least` counts a hub whose plugs nobody has listed as taking one.
struct HubOutputs {
  double least = 0.0;
  double most = 0.0;
};

HubOutputs hub_outputs_for_fans(const Facts& facts, double board_fan_headers, Measure& m) {
  HubOutputs out;
  double free_least = board_fan_headers;
  double free_most = board_fan_headers;
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef hub{Kind::other, other.row};
    for (const Row row : facts.catalog.rows_of(hubs, hub)) {
      if (facts.catalog.word(hub_feeds, row) != "fan") continue;
      const double outputs = m.read(facts, hub_outputs, row).low();
      note_plugs(facts, hub, "sata-power", m);
      const bool listed = !facts.catalog.rows_of(part_headers, hub).empty();
      const bool powered = stated_plugs(facts, hub, "sata-power") > 0.0;
      for (int piece = 0; piece < other.count; ++piece) {
        if (powered) {
          out.least += outputs;
          out.most += outputs;
          continue;
        }
        if (free_least >= 1.0) {
          out.least += outputs - 1.0;
          free_least -= 1.0;
        }
        if (!listed)
          out.most += outputs;
        else if (free_most >= 1.0) {
          out.most += outputs - 1.0;
          free_most -= 1.0;
        }
      }
    }
  }
  return out;
}

void note_unlisted_hubs(const Facts& facts, Measure& m) {
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef hub{Kind::other, other.row};
    const auto rows = facts.catalog.rows_of(hubs, hub);
    const bool feeds_fans = std::ranges::any_of(
        rows, [&](Row row) { return facts.catalog.word(hub_feeds, row) == "fan"; });
    if (rows.empty() && facts.catalog.word(what, other.row) == "hub") m.read_rows(facts, hubs, hub);
    if (feeds_fans) m.read_rows(facts, part_headers, hub);
  }
}

void measure_fan_headers(const Facts& facts, int, Measure& m) {
  const Draws on_board = headers_of_board(facts, "fan", m);
  const FanPlugs needed = fan_plugs(facts, m);
  const bool case_unknown = case_fans_unknown(facts);
  if (on_board.is_absent()) return;
  const HubOutputs fed = hub_outputs_for_fans(facts, on_board.low(), m);
  const Draws least_outlets = on_board + fed.least;
  const Draws most_outlets = on_board + fed.most;
  const bool unlisted_hub =
      std::ranges::any_of(facts.build.of(Kind::other), [&](const Chosen& other) {
        return facts.catalog.word(what, other.row) == "hub" &&
               facts.catalog.rows_of(hubs, {Kind::other, other.row}).empty();
      });
  if (needed.most <= least_outlets.low()) {
    if (!case_unknown) m.value = needed.most;
    m.limit = least_outlets;
    return;
  }
  if (needed.least > most_outlets.high() && !unlisted_hub) {
    m.unknown = false;
    m.value = needed.least;
    m.limit = most_outlets;
    return;
  }
  m.limit = least_outlets;
  if (needed.most > needed.least)
    for (const Chosen& fan : facts.build.of(Kind::fan))
      if (fan.count > 1) m.read_flag(facts, fan_chains, fan.row);
  note_unlisted_hubs(facts, m);
  if (!m.unknown) m.value = needed.most;
}

void tell_fan_headers(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  t.statement = fmt::format(
      "Every case fan has a fan header on the {} board or an output of a hub (plugs: {}, headers "
      "and outputs: {}).",
      name(facts, board), told(m.value), told(m.limit));
  t.remedy =
      "add a hub with power of its own, choose fewer fans or such as hang on one another, or a "
      "board with more fan headers";
  t.subjects = {board};
  for (const Kind kind : {Kind::chassis, Kind::fan})
    for (int i = 0; i < different(facts, kind); ++i) t.subjects.push_back(nth(facts, kind, i));
  for (int i = 0; i < different(facts, Kind::other); ++i) {
    const PartRef other = nth(facts, Kind::other, i);
    if (!facts.catalog.rows_of(hubs, other).empty()) t.subjects.push_back(other);
  }
}

// --- match.pump-header

constexpr std::array board_cooler = {Kind::board, Kind::cooler};
constexpr std::array pump_reads = {board_header, board_count, part_header, part_count};

int pump_places(const Facts& facts) {
  return facts.build.has(Kind::board) && facts.build.has(Kind::cooler) &&
                 stated_plugs(facts, only(facts, Kind::cooler), "pump") > 0.0
             ? 1
             : 0;
}

void measure_pump(const Facts& facts, int, Measure& m) {
  const PartRef cooler = only(facts, Kind::cooler);
  note_plugs(facts, cooler, "pump", m);
  m.value = stated_plugs(facts, cooler, "pump");
  m.limit = headers_of_board(facts, "pump", m);
}

void tell_pump(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef cooler = only(facts, Kind::cooler);
  t.statement = fmt::format("The {} board has a pump header for the {}.", name(facts, board),
                            name(facts, cooler));
  t.remedy = "put the pump on a fan header that is set to full speed, if one is free";
  t.subjects = {board, cooler};
}

// --- match.front-headers, match.must-front-usb-c

struct FrontPort {
  std::string_view header;
  std::string_view words;
};
constexpr std::array front_ports = {FrontPort{"usb2", "USB 2"}, FrontPort{"usb3", "USB 3"},
                                    FrontPort{"usb-c", "USB-C"}};
constexpr std::array board_case = {Kind::board, Kind::chassis};
constexpr std::array front_reads = {board_header, board_count, part_header, part_count};

bool front_unknown(const Facts& facts) {
  return facts.catalog.rows_of(part_headers, only(facts, Kind::chassis)).empty();
}

std::array<bool, front_ports.size()> front_set(const Facts& facts) {
  std::array<bool, front_ports.size()> set{};
  for (std::size_t i = 0; i < set.size(); ++i)
    set[i] = stated_plugs(facts, only(facts, Kind::chassis), front_ports[i].header) > 0.0;
  return set;
}

// A case whose plugs nobody has listed makes the whole question unknown, once.
int front_places(const Facts& facts) {
  if (!once_with<Kind::board, Kind::chassis>(facts)) return 0;
  return front_unknown(facts) ? 1 : how_many(front_set(facts));
}

const FrontPort& front_port(const Facts& facts, int place) {
  return front_ports[static_cast<std::size_t>(nth_set(front_set(facts), place))];
}

void measure_front(const Facts& facts, int place, Measure& m) {
  const PartRef chassis = only(facts, Kind::chassis);
  if (m.read_rows(facts, part_headers, chassis).empty()) return;
  const FrontPort& port = front_port(facts, place);
  note_plugs(facts, chassis, port.header, m);
  m.value = stated_plugs(facts, chassis, port.header);
  m.limit = headers_of_board(facts, port.header, m);
}

void tell_front(const Facts& facts, int place, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef chassis = only(facts, Kind::chassis);
  t.subjects = {board, chassis};
  if (front_unknown(facts)) {
    t.statement = fmt::format(
        "The {} board has a header for every port on the front of the {} case (which ports is not "
        "known).",
        name(facts, board), name(facts, chassis));
    return;
  }
  const FrontPort& port = front_port(facts, place);
  t.where = port.header;
  t.statement = fmt::format(
      "The {} board has a {} header for every such plug of the {} case's front (plugs: {}, "
      "headers: {}).",
      name(facts, board), port.words, name(facts, chassis), told(m.value), told(m.limit));
  t.remedy = fmt::format(
      "choose a board with more {} headers; without one the port on the front stays dead",
      port.words);
}

constexpr std::array<std::string_view, 1> usb_c_keys = {"musts.front_usb_c"};

int usb_c_places(const Facts& facts) {
  return facts.brief.front_usb_c ? once_with<Kind::board, Kind::chassis>(facts) : 0;
}

// Ports that work: the fewer of plugs and headers. None on one side is none, whatever the other is.
void measure_usb_c(const Facts& facts, int, Measure& m) {
  const PartRef chassis = only(facts, Kind::chassis);
  const bool listed = !m.read_rows(facts, part_headers, chassis).empty();
  note_plugs(facts, chassis, "usb-c", m);
  const double plugs = listed ? stated_plugs(facts, chassis, "usb-c") : no_number;
  const Draws on_board = headers_of_board(facts, "usb-c", m);
  m.limit = 1.0;
  if (plugs == 0.0 || (!on_board.is_absent() && on_board.high() == 0.0)) {
    m.unknown = false;
    m.value = 0.0;
  } else if (listed && !on_board.is_absent()) {
    m.value = Draws::smaller(plugs, on_board);
  }
}

void tell_usb_c(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef chassis = only(facts, Kind::chassis);
  t.statement = fmt::format(
      "There is a USB-C port on the front that works: the {} case has it and the {} board a header "
      "for it.",
      name(facts, chassis), name(facts, board));
  t.remedy = "choose a case with a front USB-C port and a board with a header for it";
  t.subjects = {board, chassis};
}

// --- match.usb2-headers

constexpr std::array usb2_kinds = {Kind::board, Kind::cooler, Kind::chassis, Kind::other};
constexpr std::array usb2_part_kinds = {Kind::cooler, Kind::chassis, Kind::other};
constexpr std::array usb2_reads = {board_header, board_count, part_header,
                                   part_count,   hub_feeds,   hub_outputs};

double usb2_plugs(const Facts& facts) {
  double sum = 0.0;
  for (const Kind kind : usb2_part_kinds)
    for (const Chosen& part : facts.build.of(kind))
      sum += stated_plugs(facts, {kind, part.row}, "usb2") * part.count;
  return sum;
}

int usb2_places(const Facts& facts) {
  return facts.build.has(Kind::board) && usb2_plugs(facts) > 0.0 ? 1 : 0;
}

void measure_usb2(const Facts& facts, int, Measure& m) {
  for (const Kind kind : usb2_part_kinds)
    for (const Chosen& part : facts.build.of(kind)) note_plugs(facts, {kind, part.row}, "usb2", m);
  m.value = usb2_plugs(facts);
  m.limit = headers_of_board(facts, "usb2", m);
  if (!m.limit.is_absent() && m.limit.high() == 0.0) return;  // a hub alone leads nowhere
  for (const Chosen& other : facts.build.of(Kind::other))
    for (const Row row : facts.catalog.rows_of(hubs, {Kind::other, other.row}))
      if (facts.catalog.word(hub_feeds, row) == "usb2")
        m.limit += m.read(facts, hub_outputs, row) * other.count;
}

void tell_usb2(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  t.statement = fmt::format(
      "Every internal USB 2 plug of this build's parts has a header on the {} board or an output "
      "of a hub (plugs: {}, headers and outputs: {}).",
      name(facts, board), told(m.value), told(m.limit));
  t.remedy = "add an internal USB 2 hub, or choose a board with more USB 2 headers";
  t.subjects = {board};
  for (const Kind kind : usb2_part_kinds)
    for (int i = 0; i < different(facts, kind); ++i)
      if (stated_plugs(facts, nth(facts, kind, i), "usb2") > 0.0)
        t.subjects.push_back(nth(facts, kind, i));
}

}  // namespace

constexpr Rule fan_headers = {
    .id = "match.fan-headers",
    .about = "a fan header or an output of a hub for every case fan",
    .consequence = "A fan would be left over with nowhere to plug it in, and would stand still.",
    .kinds = fan_header_kinds,
    .reads = fan_header_reads,
    .unit = "plugs",
    .equation =
        "fan plugs <= fan headers of the board + outputs of "
        "hubs - headers that hubs take, (7)",
    .source = part_data,
    .places = fan_header_places,
    .measure = measure_fan_headers,
    .tell = tell_fan_headers};

constexpr Rule pump_header = {.id = "match.pump-header",
                              .about = "a pump header for a cooler that states a pump plug",
                              .consequence =
                                  "The pump would hang on a plug that slows it down with the fans, "
                                  "unless its setting is changed.",
                              .grade = Grade::tells,
                              .kinds = board_cooler,
                              .reads = pump_reads,
                              .unit = "plugs",
                              .equation = "pump plugs <= pump headers, (2)",
                              .source = part_data,
                              .places = pump_places,
                              .measure = measure_pump,
                              .tell = tell_pump};

constexpr Rule front_headers = {
    .id = "match.front-headers",
    .about = "a header for every port on the front of the case",
    .consequence = "A port at the front of the case would stay dead.",
    .grade = Grade::tells,
    .kinds = board_case,
    .reads = front_reads,
    .unit = "plugs",
    .equation = "plugs of the case's front <= headers of that kind, (2)",
    .source = part_data,
    .places = front_places,
    .measure = measure_front,
    .tell = tell_front};

constexpr Rule must_front_usb_c = {
    .id = "match.must-front-usb-c",
    .about = "a front USB-C port that works, where the brief asks for one",
    .consequence = "The USB-C port at the front that was asked for would be missing or dead.",
    .kinds = board_case,
    .reads = front_reads,
    .brief_keys = usb_c_keys,
    .relation = Relation::at_least,
    .unit = "ports",
    .equation = "smaller of USB-C plugs of the case and USB-C headers of the board >= 1",
    .source = part_data,
    .places = usb_c_places,
    .measure = measure_usb_c,
    .tell = tell_usb_c};

constexpr Rule usb2_headers = {.id = "match.usb2-headers",
                               .about = "a header or hub output for every internal USB 2 plug",
                               .consequence =
                                   "A part's USB plug would have no place on the board; what hangs "
                                   "on it could not be set or would stay dark.",
                               .grade = Grade::tells,
                               .kinds = usb2_kinds,
                               .reads = usb2_reads,
                               .unit = "plugs",
                               .equation =
                                   "USB 2 plugs of the parts <= USB 2 headers + outputs of "
                                   "hubs, (2)",
                               .source = part_data,
                               .places = usb2_places,
                               .measure = measure_usb2,
                               .tell = tell_usb2};

}  // namespace rigproof::match
