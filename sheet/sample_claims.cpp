#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "sheet/sample.hpp"

// A sample sets the members it needs.
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

namespace rigproof::sheet {
namespace {

using enum Relation;

struct Row {
  const char* id;
  const char* where;
  std::vector<std::string> subjects;
  const char* load;
  const char* statement;
  Relation relation;
  double value;
  double plus_minus;  ///< uniform; 0: certain
  double limit;
  const char* unit;
  Basis basis;
  const char* source;
  const char* remedy;
  Grade grade = Grade::must;
};

// Uniform in value +- plus_minus: its middle 90 % is +- 0.9 of that, and the odds are a share of a
// length.
Claim claim_of(const Row& row) {
  Claim out{.id = row.id,
            .grade = row.grade,
            .where = row.where,
            .subjects = row.subjects,
            .load = row.load,
            .statement = row.statement};
  const double spread = 0.9 * row.plus_minus;
  const double sign = row.relation == at_most ? 1.0 : -1.0;
  const double margin = sign * (row.limit - row.value);
  out.value = Quantity{.value = row.value, .unit = row.unit};
  out.limit = Limit{.relation = row.relation, .value = row.limit, .unit = row.unit};
  out.margin = Quantity{.value = margin, .unit = row.unit};
  out.margin_frac = margin / std::abs(row.limit);
  double odds = margin >= 0.0 ? 1.0 : 0.0;
  if (row.plus_minus > 0.0) {
    out.value->low = row.value - spread, out.value->high = row.value + spread;
    out.margin->low = margin - spread, out.margin->high = margin + spread;
    odds = std::clamp((margin + row.plus_minus) / (2.0 * row.plus_minus), 0.0, 1.0);
  }
  const int draws = static_cast<int>(std::lround(256.0 * odds));
  out.odds = draws / 256.0;
  out.verdict = verdict_of(draws);
  out.basis = row.basis;
  out.source = row.source;
  out.remedy = row.remedy;
  return out;
}

Claim words_claim(const char* id, const char* where, std::vector<std::string> subjects,
                  const char* statement, const char* value, Relation relation, const char* limit,
                  const char* source, bool holds = true) {
  Claim out{.id = id, .where = where, .subjects = std::move(subjects), .statement = statement};
  out.value = Quantity{.text = value};
  out.limit = Limit{.relation = relation, .text = limit};
  out.odds = holds ? 1.0 : 0.0;
  out.verdict = holds ? Verdict::holds : Verdict::fails;
  out.source = source;
  return out;
}

Claim unknown_claim(const char* id, const char* where, std::vector<std::string> subjects,
                    const char* statement, Basis basis, const char* source,
                    std::vector<Missing> missing, Grade grade) {
  Claim out{.id = id,
            .grade = grade,
            .where = where,
            .subjects = std::move(subjects),
            .statement = statement};
  out.basis = basis;
  out.source = source;
  out.missing = std::move(missing);
  return out;
}

// clang-format off
std::vector<Row> numbered() {  // one claim a line
  const auto part = Basis::part_data;
  const auto model = Basis::model;
  return {
      {"fit.gpu-length", "front fans mounted", {"brackwell-arc-16", "tarnholt-case-41"}, "", "The card clears the front fans.", at_most, 321, 5.5, 325, "mm", part, "part data, fan depth 25 mm", "Measure from bracket to end first; or mount the fans at the top."},
      {"fit.cooler-height", "", {"quillfen-tower-158", "tarnholt-case-41"}, "", "The cooler fits under the side panel.", at_most, 158, 0.5, 160, "mm", part, "part data", ""},
      {"fit.psu-length", "", {"veldrun-750", "tarnholt-case-41"}, "", "The supply fits its chamber beside the drive cage.", at_most, 140, 0, 190, "mm", part, "part data", ""},
      {"fit.memory-height", "", {"ostermill-48-kit", "quillfen-tower-158"}, "", "The memory stands free of the cooler's front fan.", at_most, 44.6, 1.5, 43, "mm", part, "part data", "Raise the front fan by 3 mm, or choose the low kit.", Grade::tells},
      {"fit.board-outline", "", {"harrowgate-b7", "tarnholt-case-41"}, "", "The board's outline lies on the tray.", at_most, 244, 0, 272, "mm", Basis::standard, "part data and ATX 2.2 figure 3", ""},
      {"fit.cable-reach", "processor power, 8 pins", {"veldrun-750", "harrowgate-b7"}, "", "The processor's power cable reaches behind the tray.", at_least, 650, 20, 610, "mm", model, "fit model page, equation 12", "Order the 750 mm cable of the same set."},
      {"fit.cable-reach", "card power, 16 pins", {"veldrun-750", "brackwell-arc-16"}, "", "The card's power cable reaches with a bend of 35 mm.", at_least, 600, 20, 430, "mm", model, "fit model page, equation 12", ""},
      {"fit.volume", "", {"tarnholt-case-41"}, "", "The machine takes up no more than 45 litres.", at_most, 41.2, 0, 45, "L", part, "part data", ""},
      {"power.sustained", "", {"veldrun-750"}, "everything", "The supply carries all parts at full load with a fifth in reserve.", at_most, 548, 24, 600, "W", model, "power model page, equation 3", ""},
      {"power.excursion-1ms", "", {"veldrun-750", "brackwell-arc-16"}, "title", "The supply rides out the card's millisecond peaks.", at_most, 1074, 70, 1170, "W", Basis::standard, "ATX 3.0 excursion table, from memory", ""},
      {"power.pin-current", "card power, 16 pins", {"brackwell-arc-16"}, "title", "No pin of the card's connector carries more than its rating.", at_most, 6.1, 0.4, 9.2, "A", Basis::standard, "ATX 3.0 guide 5.2.2.4.3, from memory", ""},
      {"power.slot", "card slot", {"brackwell-arc-16", "harrowgate-b7"}, "title", "The slot gives the card no more than it may.", at_most, 52, 9, 75, "W", Basis::standard, "PCIe CEM, from memory", ""},
      {"power.wall", "", {"veldrun-750"}, "title", "It draws no more than 420 W at the wall while playing.", at_most, 402, 21, 420, "W", model, "power model page, equation 9", "Lower the card's power limit to 93 %."},
      {"air.noise", "", {"quillfen-tower-158", "brackwell-arc-16", "tidewell-120"}, "title", "One metre away it is quieter than 34 dB(A) while playing.", at_most, 32.1, 1.6, 34, "dB(A)", model, "air model page, equation 21", ""},
      {"air.cpu-temp", "", {"quillfen-tower-158", "kestle-6c"}, "all-core", "The processor stays under 85 degrees with all cores at work.", at_most, 79, 5.5, 85, "C", model, "air model page, equation 14", "Let the fans turn 120 rpm faster."},
      {"air.gpu-temp", "", {"brackwell-arc-16"}, "title", "The card stays under 83 degrees while playing.", at_most, 71, 4, 83, "C", model, "air model page, equation 14", "", Grade::tells},
      {"air.card-memory-temp", "", {"brackwell-arc-16"}, "title", "The card's memory stays under 95 degrees.", at_most, 101, 8, 95, "C", model, "air model page, equation 16", "Mount both intake fans low at the front.", Grade::tells},
      {"forecast.fps", "Harbour Lights", {"kestle-6c", "brackwell-arc-16"}, "title", "Harbour Lights reaches 60 rendered frames a second.", at_least, 68.2, 4.9, 60, "fps", model, "forecast model page, equation 4", ""},
      {"forecast.fps", "Copper Rally", {"kestle-6c", "brackwell-arc-16"}, "title", "Copper Rally reaches 60 rendered frames a second.", at_least, 88, 6, 60, "fps", model, "forecast model page, equation 4", ""},
      {"forecast.fps", "Salt and Sail", {"kestle-6c", "brackwell-arc-16"}, "title", "Salt and Sail reaches 60 rendered frames a second.", at_least, 60.9, 4.4, 60, "fps", model, "forecast model page, equation 4", "Draw at 62 % per axis."},
      {"forecast.p99", "Salt and Sail", {"kestle-6c", "brackwell-arc-16"}, "title", "One frame in a hundred of Salt and Sail is slower than 40 a second, no more.", at_least, 43.7, 3.8, 40, "fps", model, "forecast model page, equation 11", "Draw at 62 % per axis.", Grade::tells},
      {"forecast.video-memory", "Moss Court", {"brackwell-arc-16"}, "title", "Moss Court fits into the card's memory.", at_most, 13.1, 0.9, 16, "GiB", model, "forecast model page, equation 15", ""},
      {"forecast.floor", "Paper Delta", {"kestle-6c", "brackwell-arc-16"}, "title", "Paper Delta never falls under 45 frames a second on average.", at_least, 71, 5, 45, "fps", model, "forecast model page, equation 4", ""},
      {"match.memory-capacity", "", {"ostermill-48-kit"}, "", "It has 48 GiB of memory.", at_least, 48, 0, 48, "GiB", part, "part data", ""},
      {"match.storage-capacity", "", {"sable-2t"}, "", "It stores 2,000 GB.", at_least, 2048, 0, 2000, "GB", part, "part data", ""},
      {"match.fan-headers", "", {"harrowgate-b7", "tidewell-120"}, "", "Every fan has a header, hubs counted.", at_most, 4, 0, 5, "", part, "part data", ""},
      {"match.fan-current", "header 3", {"harrowgate-b7", "tidewell-120"}, "", "The header carries the start of the fans on it.", at_most, 0.42, 0.05, 1, "A", part, "part data", ""},
      {"match.display-link", "", {"brackwell-arc-16"}, "", "The link carries the display's full rate without compression.", at_most, 12.5, 0.07, 25.9, "Gbit/s", Basis::standard, "CVT-RB v2, from memory", ""},
      {"market.budget", "IE", {}, "", "It costs no more than the budget in IE.", at_most, 1341.90, 0, 1350, "EUR", part, "offers, dated", ""},
      {"market.budget", "US", {}, "", "It costs no more than the budget in US, tax added.", at_most, 1400.20, 0, 1450, "USD", part, "offers, dated", ""},
  };
}

// clang-format on

void add_words(std::vector<Claim>& out) {
  out.push_back(words_claim("match.socket", "", {"kestle-6c", "harrowgate-b7"},
                            "The processor fits the board's socket.", "socket K", equals,
                            "socket K", "part data"));
  out.push_back(words_claim("match.memory-type", "", {"ostermill-48-kit", "harrowgate-b7"},
                            "The board takes this type of memory.", "DDR5", equals, "DDR5",
                            "part data"));
  out.push_back(words_claim("match.form-factor", "", {"harrowgate-b7", "tarnholt-case-41"},
                            "The case takes a board of this form.", "microATX", one_of,
                            "ATX, microATX, Mini-ITX", "part data"));
  out.push_back(words_claim("match.cooler-mount", "", {"quillfen-tower-158", "harrowgate-b7"},
                            "The cooler comes with a bracket for the socket.", "socket K", one_of,
                            "socket J, socket K", "part data"));
  out.push_back(words_claim("match.connector", "processor power", {"veldrun-750", "harrowgate-b7"},
                            "The supply has the processor's power plug.", "4+4 pins", one_of,
                            "8 pins, 4+4 pins", "part data"));
  out.push_back(words_claim("match.picture", "", {"brackwell-arc-16"}, "There is a picture at all.",
                            "card output", one_of, "card output, processor output", "part data"));
  out.push_back(words_claim("match.usb-front", "front panel", {"tarnholt-case-41", "harrowgate-b7"},
                            "The front panel's fast port has its header.", "20 pins", equals,
                            "type E key A", "part data", false));
  out.back().remedy = "An adapter from 19 pins to key A; or leave the port without a cable.";
  out.back().grade = Grade::tells;
}

void add_unknown(std::vector<Claim>& out) {
  out.push_back(unknown_claim("match.m2-lanes", "socket 1", {"sable-2t", "harrowgate-b7"},
                              "The drive keeps its full speed in socket 1.", Basis::part_data,
                              "part data",
                              {{"board_m2.csv", "harrowgate-b7 socket 1", "lanes",
                                "look it up in the board's manual, table of shared lanes"}},
                              Grade::must));
  out.push_back(unknown_claim("match.firmware", "", {"kestle-6c", "harrowgate-b7"},
                              "The board starts with this processor as shipped.", Basis::part_data,
                              "part data",
                              {{"cpu_support.csv", "harrowgate-b7, kestle-6c", "firmware_needed",
                                "see the maker's list of processors"},
                               {"board.csv", "harrowgate-b7", "firmware_shipped_low",
                                "ask the seller for the batch's label"}},
                              Grade::must));
  out.push_back(unknown_claim("forecast.fps", "Ninth Lantern", {"brackwell-arc-16"},
                              "Ninth Lantern reaches 60 rendered frames a second.", Basis::model,
                              "forecast model page, equation 4",
                              {{"titles.csv", "ninth-lantern", "demand_ray",
                                "needs one measured run on any card of a known chip"}},
                              Grade::must));
}

WorkingCell part_cell(const char* part, const char* meaning, const char* table, const char* row,
                      const char* column, Quantity value, const char* certainty) {
  return {.part = part,
          .meaning = meaning,
          .table = table,
          .row = row,
          .column = column,
          .value = std::move(value),
          .certainty = certainty,
          .source = "the maker's drawing, invented"};
}

// The tight one with its working, and the failing one with what would go wrong.
void add_workings(std::vector<Claim>& claims) {
  for (Claim& claim : claims) {
    if (claim.id == "fit.gpu-length") {
      claim.consequence = "The card would hit the front fans and could not be put into its slot.";
      claim.swap = Swap{.kind = "gpu", .out = "brackwell-arc-16", .in = "ostermill-12-3f"};
      claim.working = {
          .equation = "card length <= room behind the bracket - fan depth (T4)",
          .cells =
              {part_cell("Brackwell sixteen, two fans", "bracket to end", "gpu", "brackwell-arc-16",
                         "length_mm", {.value = 321, .low = 316, .high = 326, .unit = "mm"},
                         "plus-minus 5.5 mm"),
               part_cell("Tarnholt 41, white", "room behind the bracket", "case_clearances",
                         "tarnholt-case-41/card-length", "mm", {.value = 350, .unit = "mm"}, ""),
               part_cell("Tidewell 120 slow", "frame", "fan", "tidewell-120", "thickness_mm",
                         {.value = 25, .low = 15, .high = 38, .unit = "mm"},
                         "not known; the usual range of its class"),
               part_cell("Tarnholt 41, white", "what stands behind the bracket", "case_clearances",
                         "tarnholt-case-41/card-length", "beside", {.text = "not known"}, "")},
          .cells_left_out = 1};
      claim.working.cells.back().source = "";
    }
    if (claim.id == "match.usb-front")
      claim.consequence = "The fast port at the front would stay dead.";
  }
}

}  // namespace

std::vector<Claim> sample_claims() {
  std::vector<Claim> out;
  for (const Row& row : numbered()) out.push_back(claim_of(row));
  add_words(out);
  add_unknown(out);
  add_workings(out);
  for (Claim& claim : out) {
    if (claim.id == "air.noise")
      claim.measured = Measured{.value = 32.3,
                                .log = "room-log-3",
                                .date = parse_date("2026-10-09").value_or(Date{}),
                                .settled = "confirmed"};
    if (claim.id == "power.wall")
      claim.measured = Measured{.value = 426,
                                .log = "wall-log-1",
                                .date = parse_date("2026-10-09").value_or(Date{}),
                                .settled = "refuted"};
  }
  RP_EXPECT(out.size() == 40);
  return out;
}

}  // namespace rigproof::sheet
