#include "sheet/repair_text.hpp"

#include <fmt/format.h>

#include "sheet/answers_pieces.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

// What is wrong, and by how much, or else what would mend it.
std::string wrong_words(const Wrong& wrong) {
  if (!wrong.claim)
    return clean_text(fmt::format("{}{}: {}", wrong.id,
                                  wrong.line > 0 ? fmt::format(", line {}", wrong.line) : "",
                                  wrong.says));
  std::string out = clean_text(wrong.id);
  if (!wrong.claim->where.empty()) out += fmt::format(" ({})", clean_text(wrong.claim->where));
  if (wrong.line > 0) out += fmt::format(", line {}", wrong.line);
  if (wrong.claim->verdict == Verdict::unknown && !wrong.claim->missing.empty()) {
    out += ": not known without " + cell_words(wrong.claim->missing.front());
    if (wrong.claim->missing.size() > 1)
      out += fmt::format(" and {} more", wrong.claim->missing.size() - 1);
    return clean_text(out);
  }
  const bool no_number = !wrong.claim->margin_frac && !wrong.claim->remedy.empty();
  out += ": " + clean_text(no_number ? wrong.claim->remedy : wrong.says);
  if (wrong.claim->margin_frac) out += fmt::format(" ({})", numbers_words(*wrong.claim));
  return out;
}

void put_wrong_now(TextPage& page, const Repair& repair) {
  constexpr int body_at = 12;
  page.heading(0, "AS IT IS",
               repair.wrong.empty()
                   ? "nothing is wrong"
                   : fmt::format("{} wrong", counted(static_cast<long long>(repair.wrong.size()),
                                                     "thing is", "things are")));
  for (const Wrong& wrong : repair.wrong) {
    const std::string_view verdict =
        wrong.claim ? rigproof::name_of(wrong.claim->verdict) : std::string_view("fails");
    page.labelled(entry_at, verdict, body_at, wrong_words(wrong), Ink::tight);
  }
  if (repair.score_now) {
    PlannedBuild now;
    now.score = *repair.score_now;
    now.markets = repair.markets;
    now.prices = repair.prices_now;
    put_sums_beside(page, now, nullptr);
  } else {
    page.labelled(entry_at, "score", body_at, "none: a part is missing or has no price", Ink::plain,
                  Ink::soft);
  }
  page.blank();
}

void put_swaps(TextPage& page, const Repair& repair, const PlannedBuild& repaired,
               const Differences& differences) {
  if (differences.slots.empty()) {
    page.paragraph(0, "No swap is needed: it satisfies its brief as it is.", Ink::strong);
    page.blank();
    return;
  }
  page.heading(0, fmt::format("THE FEWEST SWAPS: {}", differences.swaps),
               repair.status == "proven"
                   ? "proven: fewer do not do"
                   : "fewer do not do; stopped before these were known to be the best of so few");
  put_slots(page, entry_at, differences.slots);
  put_sums_beside(page, repaired, &differences);
  page.blank();
  put_title_changes(page, differences.titles);
  put_claim_changes(page, differences.claims);
}

void put_one_more(TextPage& page, const Repair& repair) {
  if (!repair.one_more_known) {
    page.paragraph(0, "Stopped before it was known what one swap more gains.", Ink::tight);
    page.blank();
    return;
  }
  if (!repair.one_more) {
    page.paragraph(0, "One swap more gains nothing.");
    page.blank();
    return;
  }
  const Differences& more = *repair.one_more;
  page.heading(0, "ONE SWAP MORE",
               more.score_change
                   ? change_words(*more.score_change, "less of score", "more of score")
                   : std::string{});
  if (!more.price_changes.empty())
    page.paragraph(entry_at, fmt::format("price in {}: {}", clean_text(more.markets.front()),
                                         change_words(more.price_changes.front())));
  page.paragraph(entry_at, "All swaps from the build as it is:", Ink::soft);
  put_slots(page, entry_at, repair.one_more_from_build);
  if (const std::string rates = title_changes_words(more.titles); !rates.empty())
    page.paragraph(entry_at, rates, Ink::soft);
  page.blank();
}

void put_not_mended(TextPage& page, const Repair& repair) {
  const int at_most = repair.asked_at_most.value_or(0);
  if (repair.status == "impossible")
    page.paragraph(0, "No build of this catalog satisfies the brief, however many swaps.",
                   Ink::tight);
  else if (repair.status == "out of reach")
    page.paragraph(0,
                   at_most == 0
                       ? std::string("As it is it does not satisfy its brief.")
                       : fmt::format("It takes more than {} to bring it back under its brief.",
                                     counted(at_most, "swap")),
                   Ink::tight);
  else
    page.paragraph(0, "Stopped before the fewest swaps were known.", Ink::tight);
  page.blank();
  put_conflicts(page, repair.conflicts);
}

}  // namespace

std::string repair_text(const Repair& repair, const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(repair.build_name),
               fmt::format("as of {}", to_string(repair.asked.as_of)));
  page.paragraph(0,
                 fmt::format("{} under {}", clean_text(repair.build_file),
                             clean_text(repair.asked.brief_file)),
                 Ink::soft);
  page.blank();
  put_wrong_now(page, repair);
  if (repair.repaired && repair.differences) {
    put_swaps(page, repair, *repair.repaired, *repair.differences);
    put_one_more(page, repair);
  } else {
    put_not_mended(page, repair);
  }
  put_notes(page, repair.notes);
  return page.take();
}

}  // namespace rigproof::sheet
