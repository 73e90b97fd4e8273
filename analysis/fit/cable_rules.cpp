// Do the cables of the supply reach what they feed, along the tray of the case (T13)? One rule for
// the board, one for the card and one for drives; one claim a plug that the case states a way for.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/mounting.hpp"
#include "claims/rule.hpp"

namespace rigproof::fit {
namespace {

constexpr int psu_cables = table("psu_cables");
constexpr int other_cables = table("other_cables");
constexpr int case_ways = table("case_ways");
constexpr ColumnId way_mm = column("case_ways", "way_mm");
constexpr ColumnId way_connector = column("case_ways", "connector");

// What of one name must be plugged in. Where a number is not known, none: other rules say so.
struct Need {
  std::string_view connector;
  double plugs = 0.0;
};
using Needs = std::array<Need, 3>;
using Asks = Needs (*)(const Facts&);

double known(double number) { return std::isnan(number) ? 0.0 : number; }

Needs of_board(const Facts& facts) {
  const Row board = facts.build.one(Kind::board);
  if (board == no_row) return {};
  const auto inputs = [&](ColumnId cell) { return known(nominal(facts.catalog, cell, board)); };
  return {Need{"atx24", inputs(column("board", "atx24_inputs"))},
          Need{"eps8", inputs(column("board", "eps8_inputs"))},
          Need{"eps4", inputs(column("board", "eps4_inputs"))}};
}

Needs of_cards(const Facts& facts) {
  Needs needs = {Need{"pcie6"}, Need{"pcie8"}, Need{"12v-2x6"}};
  for (const Chosen& card : facts.build.of(Kind::gpu))
    for (const Row row : facts.catalog.rows_of(table("gpu_inputs"), {Kind::gpu, card.row}))
      for (Need& need : needs)
        if (need.connector == facts.catalog.word(column("gpu_inputs", "connector"), row))
          need.plugs +=
              known(facts.catalog.number(column("gpu_inputs", "count"), row)) * card.count;
  return needs;
}

// Drives in a bay; M.2 drives take their power from their socket.
Needs of_drives(const Facts& facts) {
  Needs needs = {Need{"sata"}};
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (facts.catalog.word(column("storage", "mounting"), drive.row).starts_with("bay-"))
      needs[0].plugs += drive.count;
  return needs;
}

Row way_for(const Facts& facts, std::string_view connector) {
  for (const Row row : facts.catalog.rows_of(case_ways, part_of(facts, Kind::chassis)))
    if (facts.catalog.word(way_connector, row) == connector) return row;
  return no_row;
}

// A cable with plugs of the name, where there are any.
struct Cable {
  ColumnId length{};
  Row row = no_row;
  double nominal_mm = 0.0;
  double plugs = 0.0;
};

// The supply's own cables and those of sets of its family, the longest first.
struct Cables {
  static constexpr std::size_t most = 8;
  std::array<Cable, most> all{};
  std::size_t count = 0;

  void add(const Catalog& catalog, ColumnId length, ColumnId plugs, Row row, int pieces) {
    const Cable cable{.length = length,
                      .row = row,
                      .nominal_mm = nominal(catalog, length, row),
                      .plugs = known(catalog.number(plugs, row)) * pieces};
    if (!(cable.plugs > 0.0) || count == most) return;
    std::size_t at = count++;
    for (; at > 0 && all[at - 1].nominal_mm < cable.nominal_mm; --at) all[at] = all[at - 1];
    all[at] = cable;
  }
};

// A set made for another family's sockets must never be plugged into this supply.
bool may_plug_in(const Facts& facts, Row set) {
  const auto family =
      facts.catalog.word(column("psu", "cable_family"), part_of(facts, Kind::psu).row);
  return !family.empty() && family != "fixed" &&
         facts.catalog.word(column("other", "cable_family"), set) == family;
}

Cables cables_for(const Facts& facts, std::string_view connector) {
  Cables out;
  for (const Row row : facts.catalog.rows_of(psu_cables, part_of(facts, Kind::psu)))
    if (facts.catalog.word(column("psu_cables", "connector"), row) == connector)
      out.add(facts.catalog, column("psu_cables", "length_mm"), column("psu_cables", "count"), row,
              1);
  for (const Chosen& set : facts.build.of(Kind::other)) {
    if (!may_plug_in(facts, set.row)) continue;
    for (const Row row : facts.catalog.rows_of(other_cables, {Kind::other, set.row}))
      if (facts.catalog.word(column("other_cables", "connector"), row) == connector)
        out.add(facts.catalog, column("other_cables", "length_mm"), column("other_cables", "count"),
                row, set.count);
  }
  return out;
}

// The shortest of the cables in use, when the longest are used. row no_row: there is no such plug,
// which is for other rules to refuse.
Cable shortest_used(const Facts& facts, const Need& need) {
  const Cables cables = cables_for(facts, need.connector);
  double plugs = 0.0;
  for (std::size_t i = 0; i < cables.count; ++i) {
    plugs += cables.all[i].plugs;
    if (plugs >= need.plugs || i + 1 == cables.count) return cables.all[i];
  }
  return {};
}

bool judged(const Facts& facts, const Need& need) {
  return need.plugs > 0.0 && way_for(facts, need.connector) != no_row &&
         shortest_used(facts, need).row != no_row;
}

template <Asks asks>
int cable_places(const Facts& facts) {
  if (!facts.build.has(Kind::chassis) || !facts.build.has(Kind::psu)) return 0;
  return static_cast<int>(
      std::ranges::count_if(asks(facts), [&](const Need& need) { return judged(facts, need); }));
}

template <Asks asks>
Need need_at(const Facts& facts, int place) {
  for (const Need& need : asks(facts))
    if (judged(facts, need) && place-- == 0) return need;
  return {};
}

// (T13)
template <Asks asks>
void measure_cable(const Facts& facts, int place, Measure& m) {
  const Need need = need_at<asks>(facts, place);
  const Cable cable = shortest_used(facts, need);
  m.value = m.read_claimed(facts, way_mm, way_for(facts, need.connector));
  m.limit = m.read(facts, cable.length, cable.row);
}

template <Asks asks, Kind fed>
void tell_cable(const Facts& facts, int place, const Measure& m, Telling& out) {
  const Need need = need_at<asks>(facts, place);
  out.where = need.connector;
  out.subjects = {part_of(facts, Kind::chassis), part_of(facts, Kind::psu)};
  for (const Chosen& part : facts.build.of(fed)) out.subjects.push_back({fed, part.row});
  constexpr std::string_view what = fed == Kind::board ? "the board"
                                    : fed == Kind::gpu ? "the card"
                                                       : "the drives";
  out.statement = fmt::format("The {} cables of the supply {} reach {} in the case {}.",
                              need.connector, facts.catalog.name(part_of(facts, Kind::psu)), what,
                              facts.catalog.name(part_of(facts, Kind::chassis)));
  out.remedy = fmt::format(
      "a supply or a cable set of its own family with a {} cable of {:.0f} mm, or an extension; "
      "never a loose cable of another family: it can destroy what it feeds",
      need.connector, std::ceil(m.value.quantile(0.95)));
}

template <Kind fed>
constexpr std::array<Kind, 4> cable_kinds = {fed, Kind::chassis, Kind::psu, Kind::other};

constexpr std::array cable_cells = {
    column("board", "atx24_inputs"),   column("board", "eps8_inputs"),
    column("board", "eps4_inputs"),    column("gpu_inputs", "connector"),
    column("gpu_inputs", "count"),     column("storage", "mounting"),
    column("psu_cables", "connector"), column("psu_cables", "count"),
    column("psu_cables", "length_mm"), column("psu", "cable_family"),
    column("other", "cable_family"),   column("other_cables", "connector"),
    column("other_cables", "count"),   column("other_cables", "length_mm"),
    column("case_ways", "connector"),  column("case_ways", "way_mm")};

template <Asks asks, Kind fed>
constexpr Rule cable_rule(std::string_view id, std::string_view about,
                          std::string_view consequence) {
  return {.id = id,
          .about = about,
          .consequence = consequence,
          .grade = Grade::must,
          .kinds = cable_kinds<fed>,
          .reads = cable_cells,
          .relation = Relation::at_most,
          .unit = "mm",
          .basis = Basis::part_data,
          .equation = "way along the tray <= cable of the supply, (T13)",
          .source = "part data; analysis/fit/README.md (T13)",
          .places = cable_places<asks>,
          .measure = measure_cable<asks>,
          .tell = tell_cable<asks, fed>};
}

constexpr Rule board_cables_rule = cable_rule<of_board, Kind::board>(
    "fit.board-cables", "the supply's cables against the way to the board's inputs",
    "The plug would end short of its socket; a cable pulled tight pulls at the board.");
constexpr Rule card_cables_rule = cable_rule<of_cards, Kind::gpu>(
    "fit.card-cables", "the supply's cables against the way to the card",
    "The plug would end short of the card or sit crooked in it, where it can overheat.");
constexpr Rule drive_cables_rule = cable_rule<of_drives, Kind::storage>(
    "fit.drive-cables", "the supply's cables against the way to the drive bays",
    "The power plug would end short of the drive.");

constexpr std::array<const Rule*, 3> rules = {&board_cables_rule, &card_cables_rule,
                                              &drive_cables_rule};

}  // namespace

std::span<const Rule* const> cable_rules() { return rules; }

}  // namespace rigproof::fit
