#include "sheet/insist_text.hpp"

#include <fmt/format.h>

#include "sheet/answers_pieces.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

void put_wish(TextPage& page, const Insist& insist) {
  constexpr int body_at = 12;
  page.heading(0, "THE WISH", insist.status);
  for (const MovedPart& part : insist.insisted)
    page.labelled(entry_at, "with", body_at, moved_words(part), Ink::plain, Ink::strong);
  for (const MovedPart& part : insist.without)
    page.labelled(entry_at, "without", body_at, moved_words(part), Ink::plain, Ink::strong);
  page.blank();
}

void put_unbudgeted(TextPage& page, const Insist& insist) {
  if (insist.unbudgeted_prices.empty()) return;
  std::string prices;
  for (std::size_t m = 0; m < insist.markets.size(); ++m) {
    const Money& over = insist.over_budgets[m];
    prices += fmt::format(
        "{}{} in {} ({})", m == 0 ? "" : "; ", to_string(insist.unbudgeted_prices[m]),
        clean_text(insist.markets[m]),
        over.minor > 0 ? to_string(over) + " over the budget" : std::string("within the budget"));
  }
  page.paragraph(
      0, fmt::format("Were there no budgets, the cheapest build with it would cost {}.", prices));
}

void put_cost(TextPage& page, const PlannedBuild& with, const Differences& differences) {
  if (differences.slots.empty()) {
    page.paragraph(0, "The best build is as wished already: the wish costs nothing.", Ink::strong);
    page.blank();
    put_sums_beside(page, with, nullptr);
    page.blank();
    return;
  }
  page.heading(0, "WHAT IT COSTS, against the best build without the wish", "");
  put_sums_beside(page, with, &differences);
  page.blank();
  page.heading(0, "PARTS that change", counted(differences.swaps, "part"));
  put_slots(page, entry_at, differences.slots);
  page.blank();
  put_title_changes(page, differences.titles);
  put_claim_changes(page, differences.claims);
}

}  // namespace

std::string insist_text(const Insist& insist, const TextStyle& style) {
  TextPage page(style.color, style.width);
  put_asked(page, insist.asked);
  put_wish(page, insist);
  if (insist.with) {
    if (insist.differences) put_cost(page, *insist.with, *insist.differences);
    page.heading(0, "THE BUILD with it, by where parts are mounted",
                 verdict_counts(insist.with->claims));
    if (!insist.differences) put_sums_beside(page, *insist.with, nullptr);
    put_part_lines(page, entry_at, insist.with->parts);
  } else if (insist.status == "impossible") {
    page.paragraph(0,
                   insist.free ? "No build satisfies the brief and the wish together."
                               : "No build satisfies the brief, with or without the wish.",
                   Ink::tight);
    put_unbudgeted(page, insist);
    page.blank();
    put_conflicts(page, insist.conflicts);
  } else {
    page.paragraph(0, "Stopped before a build with the wish was found.", Ink::tight);
  }
  put_notes(page, insist.notes);
  return page.take();
}

}  // namespace rigproof::sheet
