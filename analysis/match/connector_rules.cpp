// Power plugs against inputs, connector by connector, counted strictly: a plug feeds only an input
// of its own name.
#include <fmt/format.h>

#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId plug_connector = column("psu_cables", "connector");
constexpr ColumnId plug_count = column("psu_cables", "count");

// Plugs of one name that the supply offers at the same time. A supply whose cables are listed, but
// not this plug, has none.
Draws plugs(const Facts& facts, std::string_view connector, Measure& m) {
  const auto rows = m.read_rows(facts, table("psu_cables"), only(facts, Kind::psu));
  if (rows.empty()) return Draws::absent();
  Draws sum = 0.0;
  for (const Row row : rows)
    if (facts.catalog.word(plug_connector, row) == connector) sum += m.read(facts, plug_count, row);
  return sum;
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
constexpr std::array board_psu = {Kind::board, Kind::psu};
constexpr std::array board_connectors_reads = {
    column("board", "atx24_inputs"), column("board", "eps8_inputs"), column("board", "eps4_inputs"),
    plug_connector, plug_count};

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
  const BoardInput& input = board_input(facts, place);
  m.value = m.read(facts, input.inputs, facts.build.one(Kind::board));
  m.limit = plugs(facts, input.connector, m);
}

void tell_board_connectors(const Facts& facts, int place, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef psu = only(facts, Kind::psu);
  t.where = board_input(facts, place).connector;
  t.statement =
      fmt::format("The {} board needs {} {} plugs and the {} supply has {}.", name(facts, board),
                  told(m.value), plug_words(t.where), name(facts, psu), told(m.limit));
  t.remedy =
      fmt::format("choose a supply with more {} plugs; no adapter is counted", plug_words(t.where));
  t.subjects = {board, psu};
}

constexpr std::array<std::string_view, 3> card_connector_names = {"pcie6", "pcie8", "12v-2x6"};
constexpr ColumnId input_connector = column("gpu_inputs", "connector");
constexpr ColumnId input_count = column("gpu_inputs", "count");
constexpr std::array gpu_psu = {Kind::gpu, Kind::psu};
constexpr std::array card_connectors_reads = {input_connector, input_count, plug_connector,
                                              plug_count};

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
  Draws needed = 0.0;
  for (const Chosen& card : facts.build.of(Kind::gpu))
    for (const Row row : m.read_rows(facts, table("gpu_inputs"), {Kind::gpu, card.row}))
      if (facts.catalog.word(input_connector, row) == connector)
        needed += m.read(facts, input_count, row) * card.count;
  if (unknown) return;
  m.value = needed;
  m.limit = plugs(facts, connector, m);
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
  t.statement = fmt::format("The {} needs {} {} plugs and the {} supply has {}.", name(facts, card),
                            told(m.value), plug_words(t.where), name(facts, psu), told(m.limit));
  t.remedy = fmt::format(
      "choose a supply with more {} plugs, or a card that needs fewer; no adapter is counted",
      plug_words(t.where));
}

constexpr ColumnId mounting = column("storage", "mounting");
constexpr ColumnId link = column("storage", "link");
constexpr std::array storage_psu = {Kind::storage, Kind::psu};
constexpr std::array drive_connectors_reads = {mounting, link, plug_connector, plug_count};

// Drives in a bay take their power from a cable; M.2 drives from their socket.
bool in_bay_or_unknown(const Facts& facts, Row drive) {
  const auto word = facts.catalog.word(mounting, drive);
  return word.empty() || word.starts_with("bay-");
}

int drive_connector_places(const Facts& facts) {
  if (!once_with<Kind::storage, Kind::psu>(facts)) return 0;
  for (const Chosen& drive : facts.build.of(Kind::storage))
    if (in_bay_or_unknown(facts, drive.row)) return 1;
  return 0;
}

void measure_drive_connectors(const Facts& facts, int, Measure& m) {
  double needed = 0.0;
  for (const Chosen& drive : facts.build.of(Kind::storage)) {
    if (!in_bay_or_unknown(facts, drive.row)) continue;
    m.read_word(facts, mounting, drive.row);
    if (m.read_word(facts, link, drive.row) == "SATA") needed += drive.count;
  }
  const bool unknown = m.unknown;
  set_need(needed, plugs(facts, "sata", m), unknown, m);
}

void tell_drive_connectors(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef psu = only(facts, Kind::psu);
  t.statement = fmt::format(
      "The {} supply has a SATA power plug for every drive in a bay (drives: {}, plugs: {}).",
      name(facts, psu), told(m.value), told(m.limit));
  t.remedy = "choose a supply with more SATA power plugs, or drives that sit in M.2 sockets";
  for (int i = 0; i < different(facts, Kind::storage); ++i) {
    const PartRef drive = nth(facts, Kind::storage, i);
    if (in_bay_or_unknown(facts, drive.row)) t.subjects.push_back(drive);
  }
  t.subjects.push_back(psu);
}

}  // namespace

constexpr Rule board_connectors = {
    .id = "match.board-connectors",
    .about = "plugs for the board's 24-pin and processor inputs, one by one",
    .shape = Shape::two,
    .kinds = board_psu,
    .reads = board_connectors_reads,
    .unit = "plugs",
    .source = part_data,
    .places = board_connector_places,
    .measure = measure_board_connectors,
    .tell = tell_board_connectors};

constexpr Rule card_connectors = {.id = "match.card-connectors",
                                  .about = "plugs for each kind of auxiliary input of the card",
                                  .shape = Shape::two,
                                  .kinds = gpu_psu,
                                  .reads = card_connectors_reads,
                                  .unit = "plugs",
                                  .source = part_data,
                                  .places = card_connector_places,
                                  .measure = measure_card_connectors,
                                  .tell = tell_card_connectors};

constexpr Rule drive_connectors = {.id = "match.drive-connectors",
                                   .about = "a SATA power plug for every drive in a bay",
                                   .shape = Shape::sum,
                                   .kinds = storage_psu,
                                   .reads = drive_connectors_reads,
                                   .unit = "plugs",
                                   .basis = Basis::common_practice,
                                   .source = habit,
                                   .places = drive_connector_places,
                                   .measure = measure_drive_connectors,
                                   .tell = tell_drive_connectors};

}  // namespace rigproof::match
