// What stands in what: all kinds there, board and supply in the case, card on the board, a picture.
#include <fmt/format.h>

#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

int always(const Facts&) { return 1; }

void measure_complete(const Facts& facts, int, Measure& m) {
  int lacking = 0;
  for (const Kind kind : needed_kinds) lacking += facts.build.has(kind) ? 0 : 1;
  m.value = lacking;
  m.limit = 0.0;
}

void tell_complete(const Facts& facts, int, const Measure&, Telling& t) {
  t.statement = "The build has every kind of part that a machine cannot run without.";
  std::vector<std::string> lacking;
  for (const Kind kind : needed_kinds)
    if (!facts.build.has(kind)) lacking.emplace_back(name_of(kind));
  t.remedy = "add: " + listed(lacking);
}

constexpr std::array board_case = {Kind::board, Kind::chassis};
constexpr std::array board_form_reads = {column("board", "form_factor"),
                                         column("case", "form_factors")};

void measure_board_form(const Facts& facts, int, Measure& m) {
  const Row chassis = facts.build.one(Kind::chassis);
  const auto form = m.read_word(facts, board_form_reads[0], facts.build.one(Kind::board));
  const auto forms = m.read_word(facts, board_form_reads[1], chassis);
  m.compare_text(form, forms, facts.catalog.has_token(board_form_reads[1], chassis, form));
}

void tell_board_form(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  const PartRef chassis = only(facts, Kind::chassis);
  const auto form = cell(facts, board_form_reads[0], board.row);
  t.statement =
      fmt::format("The {} board ({}) mounts in the {} case (standoffs for {}).", name(facts, board),
                  form, name(facts, chassis), cell(facts, board_form_reads[1], chassis.row));
  t.limit_text = cell(facts, board_form_reads[1], chassis.row);
  t.remedy =
      fmt::format("choose a case with standoffs for {}, or a board of a form this case has", form);
  t.subjects = {board, chassis};
}

constexpr std::array case_psu = {Kind::chassis, Kind::psu};
constexpr std::array psu_form_reads = {column("case", "psu_forms"), column("psu", "form")};

void measure_psu_form(const Facts& facts, int, Measure& m) {
  const Row chassis = facts.build.one(Kind::chassis);
  const auto forms = m.read_word(facts, psu_form_reads[0], chassis);
  const auto form = m.read_word(facts, psu_form_reads[1], facts.build.one(Kind::psu));
  m.compare_text(form, forms, facts.catalog.has_token(psu_form_reads[0], chassis, form));
}

void tell_psu_form(const Facts& facts, int, const Measure&, Telling& t) {
  const PartRef chassis = only(facts, Kind::chassis);
  const PartRef psu = only(facts, Kind::psu);
  const auto form = cell(facts, psu_form_reads[1], psu.row);
  t.statement =
      fmt::format("The {} supply ({} body) mounts in the {} case (takes {}).", name(facts, psu),
                  form, name(facts, chassis), cell(facts, psu_form_reads[0], chassis.row));
  t.limit_text = cell(facts, psu_form_reads[0], chassis.row);
  t.remedy = fmt::format("choose a supply of a form the case takes, or a case that takes {}", form);
  t.subjects = {chassis, psu};
}

constexpr std::array board_gpu = {Kind::board, Kind::gpu};
constexpr std::array card_slot_reads = {column("board_slots", "board"),
                                        column("board_slots", "length")};

int cards(const Facts& facts) {
  int sum = 0;
  for (const Chosen& card : facts.build.of(Kind::gpu)) sum += card.count;
  return sum;
}

// Slots as long as a card's edge, x16 by their connector, however many lanes are wired to them.
void measure_card_slot(const Facts& facts, int, Measure& m) {
  m.value = cards(facts);
  const auto rows = m.read_rows(facts, table("board_slots"), only(facts, Kind::board));
  if (rows.empty()) return;
  double long_slots = 0.0;
  for (const Row row : rows)
    if (m.read_word(facts, card_slot_reads[1], row) == "x16") long_slots += 1.0;
  m.limit = long_slots;
}

void tell_card_slot(const Facts& facts, int, const Measure& m, Telling& t) {
  const PartRef board = only(facts, Kind::board);
  t.statement = fmt::format(
      "The {} board has a full-length slot for {} (such slots: {}).", name(facts, board),
      cards(facts) == 1 ? "the " + name(facts, only(facts, Kind::gpu)) : "every card",
      m.limit.is_absent() ? "not known" : number(m.limit.median()));
  t.remedy = "choose a board with more full-length slots, or fewer cards";
  t.subjects = {board};
  for (int i = 0; i < different(facts, Kind::gpu); ++i)
    t.subjects.push_back(nth(facts, Kind::gpu, i));
}

constexpr std::array cpu_board_gpu = {Kind::cpu, Kind::board, Kind::gpu};
constexpr std::array picture_reads = {column("cpu", "picture"), column("board", "picture_outputs"),
                                      column("gpu_outputs", "link"),
                                      column("gpu_outputs", "count")};

// Any display output counts. What is absent matters only while none is found.
Draws outputs_of_cards(const Facts& facts, Measure& m) {
  Draws sum = 0.0;
  for (const Chosen& card : facts.build.of(Kind::gpu)) {
    const auto rows = m.read_rows(facts, table("gpu_outputs"), {Kind::gpu, card.row});
    for (const Row row : rows) sum += m.read(facts, picture_reads[3], row) * card.count;
  }
  return sum;
}

Draws outputs_of_board(const Facts& facts, Measure& m) {
  const Row cpu = facts.build.one(Kind::cpu);
  const Row board = facts.build.one(Kind::board);
  if (cpu == no_row || board == no_row) return 0.0;
  if (facts.catalog.flag(picture_reads[0], cpu) == false) return 0.0;
  if (facts.catalog.number(picture_reads[1], board) == 0.0) return 0.0;
  m.read_flag(facts, picture_reads[0], cpu);
  return m.read(facts, picture_reads[1], board);
}

int picture_places(const Facts& facts) {
  return facts.build.has(Kind::gpu) || once_with<Kind::cpu, Kind::board>(facts) ? 1 : 0;
}

void measure_picture(const Facts& facts, int, Measure& m) {
  Measure of_cards;
  const Draws from_cards = outputs_of_cards(facts, of_cards);
  Measure of_board;
  const Draws from_board = outputs_of_board(facts, of_board);
  m.limit = 1.0;
  m.value = 0.0;
  if (!of_cards.unknown) m.value += from_cards;
  if (!of_board.unknown) m.value += from_board;
  if (m.value.low() >= 1.0 || !(of_cards.unknown || of_board.unknown)) return;
  m.value = Draws::absent();
  for (const Measure* part : {&of_cards, &of_board})
    for (int i = 0; i < part->missing_count; ++i)
      m.note_missing(part->missing[static_cast<std::size_t>(i)], false);
}

void tell_picture(const Facts& facts, int, const Measure&, Telling& t) {
  t.statement =
      facts.build.has(Kind::gpu)
          ? "There is an output for a display, on the card or on the board."
          : "There is an output for a display on the board, fed by the processor's own graphics.";
  t.remedy =
      "add a graphics card, or choose a processor with graphics and a board with outputs for it";
  for (const Kind kind : cpu_board_gpu)
    for (int i = 0; i < different(facts, kind); ++i) t.subjects.push_back(nth(facts, kind, i));
}

}  // namespace

constexpr Rule complete = {
    .id = "match.complete",
    .about = "every kind of part that a machine needs is chosen",
    .consequence = "The box would arrive without a part that no machine runs without.",
    .kinds = needed_kinds,
    .relation = Relation::at_most,
    .unit = "kinds lacking",
    .basis = Basis::common_practice,
    .equation = "kinds of part lacking <= 0",
    .source = habit,
    .places = always,
    .measure = measure_complete,
    .tell = tell_complete};

constexpr Rule board_form = {
    .id = "match.board-form",
    .about = "the case has standoffs for the board's form",
    .consequence =
        "The board's holes would not meet the case's posts; the board could not be mounted.",
    .kinds = board_case,
    .reads = board_form_reads,
    .relation = Relation::one_of,
    .equation = "board's form is one of the case's, (11)",
    .source = part_data,
    .places = once_with<Kind::board, Kind::chassis>,
    .measure = measure_board_form,
    .tell = tell_board_form};

constexpr Rule psu_form = {
    .id = "match.psu-form",
    .about = "the case takes the supply's form",
    .consequence = "The supply would not fit the opening for it and could not be screwed on.",
    .kinds = case_psu,
    .reads = psu_form_reads,
    .relation = Relation::one_of,
    .equation = "supply's form is one of the case's, (11)",
    .source = part_data,
    .places = once_with<Kind::chassis, Kind::psu>,
    .measure = measure_psu_form,
    .tell = tell_psu_form};

constexpr Rule card_slot = {.id = "match.card-slot",
                            .about = "the board has a full-length slot for every card",
                            .consequence = "The card would have no slot to go into.",
                            .kinds = board_gpu,
                            .reads = card_slot_reads,
                            .unit = "cards",
                            .equation = "cards <= full-length slots of the board, (2)",
                            .source = part_data,
                            .places = once_with<Kind::board, Kind::gpu>,
                            .measure = measure_card_slot,
                            .tell = tell_card_slot};

constexpr Rule picture = {
    .id = "match.picture",
    .about = "a display can be connected",
    .consequence = "The screen would stay black: nothing in the machine could show a picture.",
    .kinds = cpu_board_gpu,
    .reads = picture_reads,
    .relation = Relation::at_least,
    .unit = "outputs",
    .equation =
        "display outputs of cards, and of the board if the processor has graphics, >= 1, (2)",
    .source = part_data,
    .places = picture_places,
    .measure = measure_picture,
    .tell = tell_picture};

}  // namespace rigproof::match
