// Lights: a header or hub output of the right voltage for those that parts of the build plug in.
#include <fmt/format.h>

#include "analysis/match/header_counts.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId hub_feeds = column("other_hubs", "feeds");
constexpr ColumnId hub_outputs = column("other_hubs", "outputs");
constexpr int hubs = table("other_hubs");

struct Light {
  std::string_view header;
  std::string_view words;
  std::string_view danger;
};
constexpr std::array lights = {
    Light{"light-5v", "5 V",
          "never put a 5 V plug on a 12 V header: it destroys the lights at once"},
    Light{"light-12v", "12 V", "a 12 V plug on a 5 V header stays dark"}};
constexpr std::array light_kinds = {Kind::board, Kind::gpu, Kind::cooler, Kind::chassis,
                                    Kind::psu,   Kind::fan, Kind::other};
constexpr std::array lit_kinds = {Kind::gpu, Kind::cooler, Kind::chassis,
                                  Kind::psu, Kind::fan,    Kind::other};
constexpr std::array light_reads = {column("board_headers", "header"),
                                    column("board_headers", "count"),
                                    column("part_headers", "header"),
                                    column("part_headers", "count"),
                                    hub_feeds,
                                    hub_outputs};

// What a hub for these lights plugs in is its own input, no light.
bool is_hub_for(const Facts& facts, PartRef part, std::string_view kind) {
  if (part.kind != Kind::other) return false;
  for (const Row row : facts.catalog.rows_of(hubs, part))
    if (facts.catalog.word(hub_feeds, row) == kind) return true;
  return false;
}

double light_plugs(const Facts& facts, std::string_view kind) {
  double sum = 0.0;
  for (const Kind lit : lit_kinds)
    for (const Chosen& part : facts.build.of(lit))
      if (!is_hub_for(facts, {lit, part.row}, kind))
        sum += stated_plugs(facts, {lit, part.row}, kind) * part.count;
  return sum;
}

std::array<bool, lights.size()> light_set(const Facts& facts) {
  std::array<bool, lights.size()> set{};
  for (std::size_t i = 0; i < set.size(); ++i) set[i] = light_plugs(facts, lights[i].header) > 0.0;
  return set;
}

int light_places(const Facts& facts) {
  return facts.build.has(Kind::board) ? how_many(light_set(facts)) : 0;
}

const Light& light(const Facts& facts, int place) {
  return lights[static_cast<std::size_t>(nth_set(light_set(facts), place))];
}

// Outputs of hubs with power of their own; one that hangs on a header needs that header first.
double powered_outputs(const Facts& facts, std::string_view kind, Measure& m) {
  double sum = 0.0;
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef hub{Kind::other, other.row};
    if (stated_plugs(facts, hub, "sata-power") == 0.0) continue;
    for (const Row row : facts.catalog.rows_of(hubs, hub))
      if (facts.catalog.word(hub_feeds, row) == kind)
        sum += m.read(facts, hub_outputs, row).low() * other.count;
  }
  return sum;
}

void measure_lights(const Facts& facts, int place, Measure& m) {
  const Light& asked = light(facts, place);
  for (const Kind lit : lit_kinds)
    for (const Chosen& part : facts.build.of(lit))
      note_plugs(facts, {lit, part.row}, asked.header, m);
  const double outputs = powered_outputs(facts, asked.header, m);
  const Draws on_board = headers_of_board(facts, asked.header, m);
  m.limit = 1.0;
  if (!on_board.is_absent()) {
    m.value = on_board + outputs;
  } else if (outputs >= 1.0) {  // enough without knowing the board's
    m.unknown = false;
    m.value = outputs;
  }
}

void tell_lights(const Facts& facts, int place, const Measure&, Telling& t) {
  const Light& asked = light(facts, place);
  const PartRef board = only(facts, Kind::board);
  t.where = asked.header;
  t.subjects = {board};
  for (const Kind lit : lit_kinds)
    for (int i = 0; i < different(facts, lit); ++i) {
      const PartRef part = nth(facts, lit, i);
      if (stated_plugs(facts, part, asked.header) > 0.0 || is_hub_for(facts, part, asked.header))
        t.subjects.push_back(part);
    }
  t.statement = fmt::format(
      "The {} board or a hub has a {} header for the lights that plug into one ({}).",
      name(facts, board), asked.words, counted(light_plugs(facts, asked.header), "plug", "plugs"));
  t.remedy = fmt::format("choose a board with a {} light header, or add a hub for such lights; {}",
                         asked.words, asked.danger);
}

}  // namespace

constexpr Rule light_headers = {
    .id = "match.light-headers",
    .about = "a header or hub output of the right voltage for lights that plug in",
    .consequence = "Some lights would have nowhere to plug in and stay dark.",
    .grade = Grade::tells,
    .kinds = light_kinds,
    .reads = light_reads,
    .relation = Relation::at_least,
    .unit = "headers and outputs",
    .equation = "light headers of that voltage + outputs of hubs with power of their own >= 1",
    .source = part_data,
    .places = light_places,
    .measure = measure_lights,
    .tell = tell_lights};

}  // namespace rigproof::match
