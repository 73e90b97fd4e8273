#include "analysis/fit/fasteners.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "analysis/fit/mounting.hpp"

namespace rigproof::fit {
namespace {

constexpr ColumnId form_factor = column("board", "form_factor");
constexpr ColumnId supply_form = column("psu", "form");
constexpr ColumnId drive_mounting = column("storage", "mounting");
constexpr ColumnId cooler_type = column("cooler", "type");
constexpr ColumnId cooler_fans = column("cooler", "fans");
constexpr ColumnId card_slots = column("gpu", "slots");
constexpr ColumnId other_slot = column("other", "slot");

constexpr int screws_a_fan = 4;  // common practice: one in each corner

class List {
 public:
  explicit List(const Facts& facts) : facts_(&facts) {}

  FastenerLine& add(PartRef part, std::string_view what) {
    lines_.push_back({.what_for = fmt::format("{} {}", what, facts_->catalog.name(part)),
                      .part_id = std::string(facts_->catalog.id(part)),
                      .count = {},
                      .kind = {},
                      .note = {}});
    return lines_.back();
  }
  FastenerLine& add(PartRef part, std::string_view what, Count count, Screw screw, Known known) {
    FastenerLine& line = add(part, what);
    line.count = count;
    line.kind = name_of(screw);
    line.known = known;
    return line;
  }
  /// A line that a cell would decide, and the catalog does not have it.
  void add_unknown(PartRef part, std::string_view what, ColumnId decides) {
    add(part, what).note =
        fmt::format("the catalog does not know the {} of this part", spec(decides).name);
  }
  std::vector<FastenerLine> take() { return std::move(lines_); }

 private:
  const Facts* facts_;
  std::vector<FastenerLine> lines_;
};

Count each(int pieces, int count) { return {.low = pieces * count, .high = pieces * count}; }

// As many as the form factor's holes; the thread of a standoff is the case's (common practice).
void add_board(const Facts& facts, List& list) {
  const PartRef board{Kind::board, facts.build.one(Kind::board)};
  const std::string_view word = facts.catalog.word(form_factor, board.row);
  if (word.empty()) {
    list.add_unknown(board, "standoffs of the board", form_factor);
    list.add_unknown(board, "screws of the board", form_factor);
    return;
  }
  const auto known = form_factor_of(word);
  if (!known) {
    list.add(board, "standoffs of the board").note =
        fmt::format("no standard we know fixes the holes of {}", word);
    list.add(board, "screws of the board").note = "as many as standoffs";
    return;
  }
  Count count;
  for (const Hole& hole : mounting_holes()) {
    if (!hole.is_of(*known)) continue;
    ++count.high;
    if (!hole.may_be_left) ++count.low;
  }
  FastenerLine& standoffs = list.add(board, "standoffs of the board", count, Screw::unc_6_32_or_m3,
                                     Known::common_practice);
  standoffs.note =
      "the number is looked up and of a board of full size, a smaller one has fewer; the thread is "
      "the case's; some of them may be fixed in the tray";
  if (count.low != count.high) standoffs.note += "; one of the holes may be left out";
  list.add(board, "screws of the board", count, Screw::unc_6_32_or_m3, Known::common_practice)
      .note = "the thread of the standoffs";
}

void add_cooler(const Facts& facts, List& list) {
  const Catalog& catalog = facts.catalog;
  const PartRef cooler{Kind::cooler, facts.build.one(Kind::cooler)};
  list.add(cooler, "mounting set of the cooler").note =
      "its maker's own, for the socket; not in the tables";
  if (catalog.word(cooler_type, cooler.row).empty()) {
    list.add_unknown(cooler, "radiator, if it has one, of", cooler_type);
    return;
  }
  if (!has_radiator(facts)) return;
  if (catalog.absent(cooler_fans, cooler.row)) {
    list.add_unknown(cooler, "fans on the radiator of", cooler_fans);
    list.add_unknown(cooler, "radiator in the case, of", cooler_fans);
    return;
  }
  const int fans = static_cast<int>(catalog.number(cooler_fans, cooler.row));
  list.add(cooler, "fans on the radiator of", each(screws_a_fan, fans), Screw::unc_6_32_or_m3,
           Known::common_practice)
      .note = "long ones, with the cooler; too long a screw pierces the radiator";
  list.add(cooler, "radiator in the case, of", each(screws_a_fan, fans), Screw::unc_6_32_or_m3,
           Known::common_practice)
      .note =
      "short ones, with the cooler; none where its fans sit between radiator and case and the long "
      "screws go through the case";
}

void add_supply(const Facts& facts, List& list) {
  const PartRef supply{Kind::psu, facts.build.one(Kind::psu)};
  const std::string_view form = facts.catalog.word(supply_form, supply.row);
  if (form.empty()) {
    list.add_unknown(supply, "supply", supply_form);
  } else if (form == "ATX") {  // [supply-outlines]: four face holes, 6-32
    list.add(supply, "supply", each(4, 1), Screw::unc_6_32, Known::looked_up);
  } else if (form == "SFX" || form == "SFX-L") {
    list.add(supply, "supply", each(4, 1), Screw::unc_6_32, Known::common_practice).note =
        "a bracket for a larger opening has four more";
  } else {
    list.add(supply, "supply").note = fmt::format("how many a {} supply takes is not known", form);
  }
}

void add_drives(const Facts& facts, List& list) {
  for (const Chosen& chosen : facts.build.of(Kind::storage)) {
    const PartRef drive{Kind::storage, chosen.row};
    const std::string_view mounting = facts.catalog.word(drive_mounting, drive.row);
    if (m2_size(mounting)) {
      list.add(drive, "drive", {.low = 0, .high = chosen.count}, m2_screw, Known::from_memory)
          .note = "with the board; none where the socket has a clip";
    } else if (const auto form = drive_form(mounting)) {
      list.add(drive, "drive", {.low = 0, .high = form->screws * chosen.count}, form->screw,
               Known::common_practice)
          .note = "the thread is looked up; none where the case holds drives without tools";
    } else {
      list.add_unknown(drive, "drive", drive_mounting);
    }
  }
}

void add_fans(const Facts& facts, List& list) {
  for (const Chosen& chosen : facts.build.of(Kind::fan))
    list.add({Kind::fan, chosen.row}, "added fan", each(screws_a_fan, chosen.count), Screw::fan,
             Known::common_practice)
        .note = "rubber pins may take their place";
}

// The bracket may be narrower than the cooler that fills the slots beside it.
void add_cards(const Facts& facts, List& list) {
  for (const Chosen& chosen : facts.build.of(Kind::gpu)) {
    const PartRef card{Kind::gpu, chosen.row};
    if (facts.catalog.absent(card_slots, card.row)) {
      list.add_unknown(card, "bracket of the card", card_slots);
      continue;
    }
    const int slots = static_cast<int>(facts.catalog.number(card_slots, card.row));
    list.add(card, "bracket of the card", {.low = chosen.count, .high = slots * chosen.count},
             Screw::unc_6_32, Known::common_practice)
        .note = "one for each rear slot its bracket covers";
  }
  for (const Chosen& chosen : facts.build.of(Kind::other)) {
    const PartRef part{Kind::other, chosen.row};
    const std::string_view slot = facts.catalog.word(other_slot, part.row);
    if (slot.empty() || slot == "none") continue;
    list.add(part, "bracket of", each(1, chosen.count), Screw::unc_6_32, Known::common_practice);
  }
}

}  // namespace

std::vector<FastenerLine> fasteners(const Facts& facts) {
  List list(facts);
  if (facts.build.has(Kind::board)) add_board(facts, list);
  if (facts.build.has(Kind::cooler)) add_cooler(facts, list);
  if (facts.build.has(Kind::psu)) add_supply(facts, list);
  add_drives(facts, list);
  add_fans(facts, list);
  add_cards(facts, list);
  return list.take();
}

Totals totals(const std::vector<FastenerLine>& lines) {
  Totals sums;
  for (const FastenerLine& line : lines) {
    if (!line.count) {
      sums.complete = false;
      continue;
    }
    auto found = std::ranges::find(sums.of_kind, line.kind, &Total::kind);
    if (found == sums.of_kind.end())
      found = sums.of_kind.insert(found, Total{.kind = line.kind, .count = {}});
    found->count.low += line.count->low;
    found->count.high += line.count->high;
  }
  return sums;
}

}  // namespace rigproof::fit
