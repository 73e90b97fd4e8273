// Power plugs against inputs, connector by connector, counted strictly: a plug feeds only an input
// of its own name.
#include <fmt/format.h>

#include "analysis/match/plug_supply.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

// A rule's own columns and those of everything that brings plugs.
template <std::size_t n>
constexpr auto with_plug_columns(const std::array<ColumnId, n>& own) {
  std::array<ColumnId, n + plug_columns.size()> all{};
  for (std::size_t i = 0; i < n; ++i) all[i] = own[i];
  for (std::size_t i = 0; i < plug_columns.size(); ++i) all[n + i] = plug_columns[i];
  return all;
}

constexpr std::string_view plug_equation =
    "plugs needed + taken by adapters <= plugs of the supply + of cable sets + given by adapters, "
    "(6)";

// Value and limit of one name. What is not known of sets and adapters matters only when without it
// the plugs do not suffice.
void compare_plugs(const Facts& facts, const PlugNeeds& needs, std::size_t name,
                   const Draws& needed, Measure& m) {
  const PlugSum sum = plugs(facts, needs, name, m);
  m.value = needed + sum.taken;
  m.limit = sum.offered;
  if (m.unknown || needed.is_absent() || sum.offered.is_absent()) return;
  if (m.value.high() > m.limit.low()) note_unknown_plugs(facts, m);
}

std::string_view plug_parts_told(const Facts& facts) {
  return has_plug_parts(facts) ? ", adapters and cable sets counted" : "";
}

void add_plug_parts(const Facts& facts, Telling& t) {
  if (!has_plug_parts(facts)) return;
  for (int i = 0; i < different(facts, Kind::other); ++i)
    t.subjects.push_back(nth(facts, Kind::other, i));
}

std::string told(const Draws& count) {
  return count.is_absent() ? "not known" : number(count.median());
}

struct BoardInput {
  std::string_view connector;
  ColumnId inputs;
};
constexpr std::array board_inputs = {BoardInput{"atx24", column("board", "atx24_inputs")},
                                     BoardInput{"eps8", column("board", "eps8_inputs")},
                                     BoardInput{"eps4", column("board", "eps4_inputs")}};
constexpr std::array board_psu = {Kind::board, Kind::psu, Kind::other};
constexpr auto board_connectors_reads =
    with_plug_columns(std::array{column("board", "atx24_inputs"), column("board", "eps8_inputs"),
                                 column("board", "eps4_inputs")});

// What a builder calls a plug.
std::string_view plug_words(std::string_view connector) {
  if (connector == "atx24") return "24-pin main";
  if (connector == "eps8") return "8-pin processor (EPS)";
  if (connector == "eps4") return "4-pin processor (EPS)";
  if (connector == "pcie6") return "6-pin PCIe";
  if (connector == "pcie8") return "8-pin PCIe";
  return connector;  // 12V-2x6 by its standard's name
}

// Inputs the board has, or may have.
std::array<bool, board_inputs.size()> board_input_set(const Facts& facts) {
  std::array<bool, board_inputs.size()> set{};
  if (!once_with<Kind::board, Kind::psu>(facts)) return set;
  for (std::size_t i = 0; i < set.size(); ++i)
    set[i] = facts.catalog.number(board_inputs[i].inputs, facts.build.one(Kind::board)) !=
             0.0;  // NaN: absent
  return set;
}

const BoardInput& board_input(const Facts& facts, int place) {
  return board_inputs[static_cast<std::size_t>(nth_set(board_input_set(facts), place))];
}

int board_connector_places(const Facts& facts) { return how_many(board_input_set(facts)); }

void measure_board_connectors(const Facts& facts, int place, Measure& m) {
  const Row board = facts.build.one(Kind::board);
  PlugNeeds needs;
  for (const BoardInput& each : board_inputs) {
    const auto index = plug_index(each.connector);
    const Draws& inputs = facts.draws.of(each.inputs, board);
    needs.judged[index] = true;
    needs.needed[index] = inputs.is_absent() ? 0.0 : inputs.high();
  }
  const BoardInput& input = board_input(facts, place);
  const Draws needed = m.read(facts, input.inputs, board);
  compare_plugs(facts, needs, plug_index(input.connector), needed, m);
}

void tell_board_connectors(const Facts& facts, int place, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef psu = only(facts, Kind::psu);
  t.where = board_input(facts, place).connector;
  t.statement = fmt::format("The {} board needs {} {} plugs and the {} supply has {}{}.",
                            name(facts, board), told(m.value), plug_words(t.where),
                            name(facts, psu), told(m.limit), plug_parts_told(facts));
  t.remedy = fmt::format(
      "choose a supply with more {0} plugs, or add a cable set of its own "
      "family that has them",
      plug_words(t.where));
  t.subjects = {board, psu};
  add_plug_parts(facts, t);
}

constexpr std::array<std::string_view, 3> card_connector_names = {"pcie6", "pcie8", "12v-2x6"};
constexpr ColumnId input_connector = column("gpu_inputs", "connector");
constexpr ColumnId input_count = column("gpu_inputs", "count");
constexpr std::array gpu_psu = {Kind::gpu, Kind::psu, Kind::other};
constexpr auto card_connectors_reads = with_plug_columns(std::array{input_connector, input_count});

bool card_inputs_unknown(const Facts& facts) {
  for (const Chosen& card : facts.build.of(Kind::gpu))
    if (facts.catalog.rows_of(table("gpu_inputs"), {Kind::gpu, card.row}).empty()) return true;
  return false;
}

std::array<bool, card_connector_names.size()> card_input_set(const Facts& facts) {
  std::array<bool, card_connector_names.size()> set{};
  for (const Chosen& card : facts.build.of(Kind::gpu))
    for (const Row row : facts.catalog.rows_of(table("gpu_inputs"), {Kind::gpu, card.row}))
      for (std::size_t i = 0; i < set.size(); ++i)
        set[i] = set[i] || (facts.catalog.word(input_connector, row) == card_connector_names[i] &&
                            facts.catalog.number(input_count, row) > 0.0);
  return set;
}

// A card whose inputs nobody has listed makes the whole question unknown, once.
int card_connector_places(const Facts& facts) {
  if (!once_with<Kind::gpu, Kind::psu>(facts)) return 0;
  return card_inputs_unknown(facts) ? 1 : how_many(card_input_set(facts));
}

void measure_card_connectors(const Facts& facts, int place, Measure& m) {
  const bool unknown = card_inputs_unknown(facts);
  const auto connector =
      unknown
          ? std::string_view()
          : card_connector_names[static_cast<std::size_t>(nth_set(card_input_set(facts), place))];
  PlugNeeds needs;
  for (const auto each : card_connector_names) needs.judged[plug_index(each)] = true;
  Draws needed = 0.0;
  for (const Chosen& card : facts.build.of(Kind::gpu))
    for (const Row row : m.read_rows(facts, table("gpu_inputs"), {Kind::gpu, card.row})) {
      const auto word = facts.catalog.word(input_connector, row);
      needs.needed[plug_index(word)] += facts.catalog.number(input_count, row) * card.count;
      if (word == connector) needed += m.read(facts, input_count, row) * card.count;
    }
  if (!unknown) compare_plugs(facts, needs, plug_index(connector), needed, m);
}

void tell_card_connectors(const Facts& facts, int place, const Measure& m, Telling& t) {
  const PartRef card = only(facts, Kind::gpu);
  const PartRef psu = only(facts, Kind::psu);
  for (int i = 0; i < different(facts, Kind::gpu); ++i)
    t.subjects.push_back(nth(facts, Kind::gpu, i));
  t.subjects.push_back(psu);
  if (card_inputs_unknown(facts)) {
    t.statement =
        fmt::format("The {} supply has the plugs that the {} needs (which ones is not known).",
                    name(facts, psu), name(facts, card));
    return;
  }
  t.where = card_connector_names[static_cast<std::size_t>(nth_set(card_input_set(facts), place))];
  t.statement = fmt::format("The {} needs {} {} plugs and the {} supply has {}{}.",
                            name(facts, card), told(m.value), plug_words(t.where), name(facts, psu),
                            told(m.limit), plug_parts_told(facts));
  t.remedy = fmt::format(
      "choose a supply with more {} plugs or a card that needs fewer, or add a cable set of the "
      "supply's own family, or an adapter where the brief accepts one",
      plug_words(t.where));
  add_plug_parts(facts, t);
}

constexpr ColumnId mounting = column("storage", "mounting");
constexpr ColumnId link = column("storage", "link");
constexpr ColumnId part_plug = column("part_headers", "header");
constexpr ColumnId part_plugs = column("part_headers", "count");
constexpr std::array drive_connector_kinds = {Kind::storage, Kind::cooler, Kind::chassis,
                                              Kind::psu,     Kind::fan,    Kind::other};
constexpr std::array powered_kinds = {Kind::cooler, Kind::chassis, Kind::fan, Kind::other};
constexpr auto drive_connectors_reads =
    with_plug_columns(std::array{mounting, link, part_plug, part_plugs});

// Drives in a bay take their power from a cable; M.2 drives from their socket.
bool in_bay_or_unknown(const Facts& facts, Row drive) {
  const auto word = facts.catalog.word(mounting, drive);
  return word.empty() || word.starts_with("bay-");
}

// Calls see(part, row) for what states a SATA power plug beside the drives.
template <class See>
void each_powered(const Facts& facts, See see) {
  for (const Kind kind : powered_kinds)
    for (const Chosen& part : facts.build.of(kind))
      for (const Row row : facts.catalog.rows_of(table("part_headers"), {kind, part.row}))
        if (facts.catalog.word(part_plug, row) == "sata-power" &&
            facts.catalog.number(part_plugs, row) > 0.0)
          see(PartRef{kind, part.row}, part.count, row);
}

int drive_connector_places(const Facts& facts) {
  if (!facts.build.has(Kind::psu)) return 0;
  bool any = false;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    any = any || in_bay_or_unknown(facts, drive.row);
  each_powered(facts, [&](PartRef, int, Row) { any = true; });
  return any ? 1 : 0;
}

void measure_drive_connectors(const Facts& facts, int, Measure& m) {
  double needed = 0.0;
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    if (!in_bay_or_unknown(facts, drive.row)) continue;
    m.read_word(facts, mounting, drive.row);
    if (m.read_word(facts, link, drive.row) == "SATA") needed += drive.count;
  }
  each_powered(facts, [&](PartRef, int count, Row row) {
    needed += m.read(facts, part_plugs, row).high() * count;
  });
  const bool drives_unknown = m.unknown;
  const std::size_t sata = plug_index("sata");
  PlugNeeds needs;
  needs.judged[sata] = true;
  needs.needed[sata] = needed;
  const PlugSum sum = plugs(facts, needs, sata, m);
  const double known_need = needed + sum.taken.high();
  if (!sum.offered.is_absent() && known_need > sum.offered.low()) {
    m.unknown = false;
    note_unknown_plugs(facts, m);
    m.limit = sum.offered;
    if (m.unknown) return;
    m.unknown = drives_unknown;
  }
  set_need(known_need, sum.offered, drives_unknown, m);
}

void tell_drive_connectors(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef psu = only(facts, Kind::psu);
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (in_bay_or_unknown(facts, drive.row)) t.subjects.push_back(drive);
  }
  const bool only_drives = [&] {
    bool any = false;
    each_powered(facts, [&](PartRef part, int, Row) {
      any = true;
      if (part.kind != Kind::other || !has_plug_parts(facts)) t.subjects.push_back(part);
    });
    return !any;
  }();
  t.statement =
      fmt::format("The {} supply has a SATA power plug for every {} (needed: {}, plugs: {}{}).",
                  name(facts, psu),
                  only_drives ? "drive in a bay" : "drive in a bay and every part that asks one",
                  told(m.value), told(m.limit), plug_parts_told(facts));
  t.remedy =
      "choose a supply with more SATA power plugs, drives that sit in M.2 sockets, or a cable set "
      "of the supply's own family";
  t.subjects.push_back(psu);
  add_plug_parts(facts, t);
}

}  // namespace

constexpr Rule board_connectors = {
    .id = "match.board-connectors",
    .about = "plugs for the board's 24-pin and processor inputs, one by one",
    .consequence = "A power socket of the board would stay empty and the machine would not start.",
    .kinds = board_psu,
    .reads = board_connectors_reads,
    .unit = "plugs",
    .equation = plug_equation,
    .source = part_data,
    .places = board_connector_places,
    .measure = measure_board_connectors,
    .tell = tell_board_connectors};

constexpr Rule card_connectors = {.id = "match.card-connectors",
                                  .about = "plugs for each kind of auxiliary input of the card",
                                  .consequence =
                                      "A power socket of the card would stay empty; the card would "
                                      "refuse to work or shut down under load.",
                                  .kinds = gpu_psu,
                                  .reads = card_connectors_reads,
                                  .unit = "plugs",
                                  .equation = plug_equation,
                                  .source = part_data,
                                  .places = card_connector_places,
                                  .measure = measure_card_connectors,
                                  .tell = tell_card_connectors};

constexpr Rule drive_connectors = {
    .id = "match.drive-connectors",
    .about =
        "a SATA power plug for every drive in a bay and whatever "
        "else asks one",
    .consequence = "A drive or another part would get no power and would not be there.",
    .kinds = drive_connector_kinds,
    .reads = drive_connectors_reads,
    .unit = "plugs",
    .basis = Basis::common_practice,
    .equation = plug_equation,
    .source = habit,
    .places = drive_connector_places,
    .measure = measure_drive_connectors,
    .tell = tell_drive_connectors};

}  // namespace rigproof::match
