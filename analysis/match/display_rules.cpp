// Does some output of the card feed the display at full rate?
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/match/display_link.hpp"
#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId display_width = column("display", "width_px");
constexpr ColumnId display_height = column("display", "height_px");
constexpr ColumnId display_refresh = column("display", "refresh_hz");
constexpr ColumnId display_bits = column("display", "bits_per_channel");
constexpr ColumnId output_link = column("gpu_outputs", "link");
constexpr ColumnId output_count = column("gpu_outputs", "count");
constexpr ColumnId output_compression = column("gpu_outputs", "compression");
constexpr ColumnId input_link = column("display_inputs", "link");
constexpr ColumnId input_count = column("display_inputs", "count");
constexpr ColumnId input_compression = column("display_inputs", "compression");
constexpr std::array gpu_display = {Kind::gpu, Kind::display};
constexpr std::array display_link_reads = {
    display_width, display_height,     display_refresh, display_bits, output_link,
    output_count,  output_compression, input_link,      input_count,  input_compression};
constexpr std::array display_keys = {std::string_view("display")};
constexpr double usual_bits = 8.0;  // a channel, where a display does not say

// A claim a display of the build; the brief's own display only where the build has none.
int display_link_places(const Facts& facts) {
  const int parts = different(facts, Kind::display);
  return parts > 0 ? parts : facts.brief.display ? 1 : 0;
}

Row display_at(const Facts& facts, int place) {
  return facts.build.has(Kind::display) ? nth(facts, Kind::display, place).row : no_row;
}

Picture picture_at(const Facts& facts, Row display) {
  if (display == no_row) {
    const DisplayGoal goal = facts.brief.display.value_or(DisplayGoal{});
    return {double(goal.width_px), double(goal.height_px), goal.refresh_hz, usual_bits};
  }
  const Catalog& catalog = facts.catalog;
  return {
      catalog.number(display_width, display), catalog.number(display_height, display),
      catalog.number(display_refresh, display),
      catalog.absent(display_bits, display) ? usual_bits : catalog.number(display_bits, display)};
}

// One way to connect: what it carries, and what it is asked to carry.
struct Way {
  double low_gbit_s = 0.0;
  double high_gbit_s = 0.0;
  double need_gbit_s = 1.0;
  Row output = no_row;
  Row input = no_row;
  bool compressed = false;
  bool possible = false;  ///< rests on a cell that is absent, or on a link not in the table

  [[nodiscard]] double surely() const { return possible ? 0.0 : low_gbit_s / need_gbit_s; }
  [[nodiscard]] double perhaps() const { return high_gbit_s / need_gbit_s; }
};

// The ways of a card to a display: the one that surely carries most of what it needs, and the one
// that perhaps does.
struct Ways {
  Way sure;
  Way best;
  bool any = false;

  void add(const Way& way) {
    if (!way.possible && (!any || sure.output == no_row || way.surely() > sure.surely()))
      sure = way;
    if (!any || way.perhaps() > best.perhaps()) best = way;
    any = true;
  }
};

constexpr double no_bound = 1e6;  // Gbit/s of a link of which nothing is known

struct End {
  std::optional<DisplayLink> link;
  std::optional<bool> compression;
};

End output_end(const Facts& facts, Row row) {
  return {find_display_link(facts.catalog.word(output_link, row)),
          facts.catalog.flag(output_compression, row)};
}
End input_end(const Facts& facts, Row row) {
  return {find_display_link(facts.catalog.word(input_link, row)),
          facts.catalog.flag(input_compression, row)};
}

// All ways over one pair of ends. A display that is not a part of the build has no end: it is taken
// to have every link, and no compression, which both ends would have to declare.
void add_ways(const Picture& picture, Row output, const End& from, Row input,
              const std::optional<End>& to, Ways& ways) {
  Way way{.output = output, .input = input};
  const bool both = from.link && (!to || to->link);
  if (both && to && from.link->family != to->link->family) return;
  way.low_gbit_s = both ? from.link->low_gbit_s : 0.0;
  way.high_gbit_s = both ? from.link->high_gbit_s : no_bound;
  if (both && to) {
    way.low_gbit_s = std::min(way.low_gbit_s, to->link->low_gbit_s);
    way.high_gbit_s = std::min(way.high_gbit_s, to->link->high_gbit_s);
  }
  way.need_gbit_s = gbit_s(picture, false);
  way.possible = !both;
  ways.add(way);
  if (!to || from.compression == false || to->compression == false) return;
  way.compressed = true;
  way.need_gbit_s = gbit_s(picture, true);
  way.possible = !both || !from.compression || !to->compression;
  ways.add(way);
}

Ways ways_to(const Facts& facts, Row display) {
  Ways out;
  const Picture picture = picture_at(facts, display);
  const PartRef card = only(facts, Kind::gpu);
  for (const Row output : facts.catalog.rows_of(table("gpu_outputs"), card)) {
    if (facts.catalog.number(output_count, output) == 0.0) continue;
    const End from = output_end(facts, output);
    if (display == no_row) {
      add_ways(picture, output, from, no_row, std::nullopt, out);
      continue;
    }
    for (const Row input : facts.catalog.rows_of(table("display_inputs"), {Kind::display, display}))
      if (facts.catalog.number(input_count, input) != 0.0)
        add_ways(picture, output, from, input, input_end(facts, input), out);
  }
  return out;
}

// 1 less what audio and other packets take: the same draws in every claim.
Draws left_by_packets(const Facts& facts) {
  return Draws(1.0) -
         Draws::uniform(packets_low, packets_high,
                        stream("display-link", "packets", "share_frac", facts.draws.seed()));
}

void note_way(const Way& way, Measure& m) {
  if (way.output == no_row) return;
  m.note_seen(output_link, way.output);
  if (way.compressed) m.note_seen(output_compression, way.output);
  if (way.input == no_row) return;
  m.note_seen(input_link, way.input);
  if (way.compressed) m.note_seen(input_compression, way.input);
}

// What would have to be known: links not in the table or open in their rate, compression not said.
void note_open_cells(const Facts& facts, Row display, Measure& m) {
  const auto look = [&](Row row, const End& end, ColumnId link, ColumnId compression) {
    if (!end.link || end.link->low_gbit_s < end.link->high_gbit_s)
      m.note_missing({link, row, {}}, false);
    if (display != no_row && !end.compression) m.note_missing({compression, row, {}}, false);
  };
  for (const Row row : facts.catalog.rows_of(table("gpu_outputs"), only(facts, Kind::gpu)))
    look(row, output_end(facts, row), output_link, output_compression);
  if (display == no_row) return;
  for (const Row row : facts.catalog.rows_of(table("display_inputs"), {Kind::display, display}))
    look(row, input_end(facts, row), input_link, input_compression);
}

void measure_display_link(const Facts& facts, int place, Measure& m) {
  const Row display = display_at(facts, place);
  if (display != no_row) {
    for (const ColumnId id : {display_width, display_height, display_refresh})
      m.read(facts, id, display);
    if (!facts.catalog.absent(display_bits, display)) m.note_seen(display_bits, display);
    m.read_rows(facts, table("display_inputs"), {Kind::display, display});
  }
  if (facts.build.has(Kind::gpu))
    m.read_rows(facts, table("gpu_outputs"), only(facts, Kind::gpu));
  else
    m.unknown = true;  // no table says what the board's own outputs carry
  if (m.unknown) return;
  const Ways ways = ways_to(facts, display);
  if (!ways.any) {  // no output and input of one family
    m.value = gbit_s(picture_at(facts, display), false);
    m.limit = 0.0;
    return;
  }
  const Draws left = left_by_packets(facts);
  const bool surely = ways.sure.output != no_row && ways.sure.surely() * left.low() >= 1.0;
  const bool never = ways.best.perhaps() * left.high() < 1.0;
  const bool settled = ways.sure.output != no_row && ways.sure.surely() >= ways.best.perhaps();
  const Way& told = surely || settled ? ways.sure : ways.best;
  note_way(told, m);
  m.value = told.need_gbit_s;
  if (surely || settled)
    m.limit = left * told.low_gbit_s;
  else if (never)
    m.limit = left * told.high_gbit_s;
  else
    note_open_cells(facts, display, m);
}

std::string picture_words(const Picture& picture) {
  return fmt::format("{}x{} at {} Hz, {} bit a channel", number(picture.width_px),
                     number(picture.height_px), number(picture.refresh_hz),
                     number(picture.bits_per_channel));
}

void tell_display_link(const Facts& facts, int place, const Measure& m, Telling& t) {
  const Row display = display_at(facts, place);
  const bool has_card = facts.build.has(Kind::gpu);
  if (has_card) t.subjects.push_back(only(facts, Kind::gpu));
  if (display != no_row) {
    t.subjects.push_back({Kind::display, display});
    if (different(facts, Kind::display) > 1) t.where = name(facts, {Kind::display, display});
  }
  const Picture picture = picture_at(facts, display);
  const bool stated = !std::isnan(picture.width_px + picture.height_px + picture.refresh_hz);
  const std::string shown = display == no_row ? std::string("the brief's display")
                                              : "the " + name(facts, {Kind::display, display});
  std::string how;
  if (!has_card) {
    how = "; no table says what the board's own outputs carry";
  } else if (stated) {
    const Ways ways = ways_to(facts, display);
    const Way& way = ways.sure.output != no_row && !m.unknown ? ways.sure : ways.best;
    if (!ways.any)
      how = "; they have no link of one family";
    else if (!m.unknown)
      how = fmt::format(" over {}, {} compression", cell(facts, output_link, way.output),
                        way.compressed ? "with" : "without");
    if (display == no_row)
      how += "; what the display itself takes is not stated, so the card's outputs alone count";
  }
  t.statement = fmt::format(
      "{} feeds {}{}{}.",
      has_card ? "Some output of the " + name(facts, only(facts, Kind::gpu)) : "Some output", shown,
      stated ? " (" + picture_words(picture) + ")" : "", how);
  t.remedy =
      display == no_row
          ? "a card with a faster output, a lower refresh rate, or name the display, so that its "
            "inputs and its compression count"
          : "a card with a faster output of the display's kind, or a display with a faster input";
}

}  // namespace

constexpr Rule display_fed = {
    .id = "match.display-link",
    .about = "some output of the card feeds the display at its full rate",
    .consequence =
        "The screen would stay black or show less than it can: fewer pixels, or fewer pictures a "
        "second.",
    .kinds = gpu_display,
    .reads = display_link_reads,
    .brief_keys = display_keys,
    .unit = "Gbit/s",
    .basis = Basis::standard,
    .equation =
        "pixel clock x bits a pixel, (9) <= payload of the link less 1 to 2 % packets, (10)",
    .source =
        "[vesa-cvt-1-2] reduced blanking 2; [vesa-displayport], [hdmi-forum] rates; packets: "
        "common practice",
    .places = display_link_places,
    .measure = measure_display_link,
    .tell = tell_display_link};

}  // namespace rigproof::match
