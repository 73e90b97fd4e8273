// `rigproof fit` for people: seats, clearances, what to measure, standoffs and screws.
#include <fmt/format.h>

#include "sheet/answers_pieces.hpp"
#include "sheet/fit_answer.hpp"
#include "sheet/text.hpp"
#include "sheet/text_claims.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int body_at = 20;
constexpr int count_at = 12;

// `A C F` of "ACF".
std::string letters(const std::string& positions) {
  std::string out;
  for (const char letter : positions) {
    if (!out.empty()) out += ' ';
    out += letter;
  }
  return out;
}

void put_seats(TextPage& page, const Fit& fit) {
  page.heading(0, "WHERE IT SITS", fit.chassis.empty() ? "no case" : clean_text(fit.chassis));
  if (fit.seats.empty())
    page.paragraph(entry_at, "Nothing is mounted on the case beside what it is sold with.");
  for (const Seat& seat : fit.seats) {
    const bool none = seat.mount.empty();
    std::string text = clean_text(seat.what);
    if (none && !seat.wished.empty())
      text +=
          fmt::format(" (the build file says {}: no place is left there)", clean_text(seat.wished));
    else if (!seat.wished.empty())
      text += " (the build file says so)";
    if (seat.displaced_fans > 0)
      text +=
          fmt::format(", in place of {} sold with the case", counted(seat.displaced_fans, "fan"));
    page.labelled(entry_at, none ? "nowhere" : clean_text(seat.mount), body_at, text,
                  none ? Ink::tight : Ink::plain);
  }
  page.blank();
}

void put_measured(TextPage& page, const Fit& fit) {
  if (fit.measured.empty()) return;
  page.heading(0, "MEASURED", "in place of the catalog's cells, for this answer");
  for (const MeasuredHere& here : fit.measured)
    page.labelled(entry_at, "-", entry_at + 2,
                  fmt::format("{}: {}; it was {} ({}){}", cell_meaning(here.cell),
                              clean_text(here.now), clean_text(here.was), cell_source(here.cell),
                              here.read ? "" : ". No claim of this build looks at it"));
  if (fit.turned.empty())
    page.paragraph(entry_at, "No verdict, margin or odds of a claim changes because of it.");
  page.blank();
  put_claim_changes(page, fit.turned);
}

void put_to_measure(TextPage& page, const Fit& fit) {
  page.heading(0, "MEASURE ON THE TABLE", "what most verdicts hang on first");
  if (fit.chassis.empty())
    page.paragraph(entry_at, "Without a case there is nothing to measure against.");
  else if (fit.to_measure.empty())
    page.paragraph(entry_at, "Nothing: every clearance is settled whatever the tolerances.");
  int number = 0;
  for (const ToMeasure& entry : fit.to_measure) {
    std::string text =
        fmt::format("{}; now {}. On it {}: ", cell_meaning(entry.cell), cell_value(entry.cell),
                    entry.claims.size() == 1 ? "hangs" : "hang");
    for (std::size_t i = 0; i < entry.claims.size(); ++i)
      text += (i > 0 ? ", " : "") + clean_text(entry.claims[i]);
    text += fmt::format(" ({})", cell_source(entry.cell, false));
    if (entry.cell.column == "*") text += ". It needs rows in that table, not a measured value";
    page.labelled(entry_at, fmt::format("{}.", ++number), entry_at + 4, text);
  }
  page.blank();
}

void put_standoffs(TextPage& page, const fit::StandoffPlan& plan) {
  page.heading(0, "STANDOFFS", "one under a board where it has no hole is a short circuit");
  if (!plan.known) {
    page.paragraph(entry_at, clean_text(plan.why_not));
  } else {
    const auto put = [&](std::string_view label, const std::string& positions, Ink ink) {
      if (!positions.empty()) page.labelled(entry_at, label, body_at, letters(positions), ink);
    };
    put("with a screw", plan.used, Ink::plain);
    put("if there is a hole", plan.if_holed, Ink::plain);
    put("must be empty", plan.must_be_empty, Ink::tight);
    put("beside the board", plan.beyond_board, Ink::soft);
  }
  for (const std::string& note : plan.notes) page.paragraph(entry_at, clean_text(note), Ink::soft);
  page.blank();
}

std::string count_words(const fit::FastenerLine& line) {
  if (!line.count) return "?";
  if (line.count->low == line.count->high) return std::to_string(line.count->low);
  return fmt::format("{} to {}", line.count->low, line.count->high);
}

void put_fasteners(TextPage& page, const Fit& fit) {
  page.heading(0, "SCREWS AND STANDOFFS", "to count out beforehand");
  int low = 0;
  int high = 0;
  bool any_open = false;
  for (const fit::FastenerLine& line : fit.fasteners) {
    std::string text = clean_text(line.what_for);
    if (!line.kind.empty()) text += ": " + clean_text(line.kind);
    text += fmt::format(" ({})", fit::name_of(line.known));
    if (!line.note.empty()) text += ". " + clean_text(line.note);
    page.labelled(entry_at, count_words(line), count_at, text);
    low += line.count ? line.count->low : 0;
    high += line.count ? line.count->high : 0;
    any_open = any_open || !line.count;
  }
  if (!fit.fasteners.empty())
    page.labelled(entry_at, low == high ? std::to_string(low) : fmt::format("{} to {}", low, high),
                  count_at, any_open ? "in all, without those not known" : "in all");
  page.blank();
}

}  // namespace

std::string fit_text(const Fit& fit, const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(fit.build),
               fit.brief.empty() ? std::string("fit") : "fit; " + clean_text(fit.brief));
  page.blank();
  put_seats(page, fit);
  put_claims(page, fit.claims, false);
  page.blank();
  put_measured(page, fit);
  put_to_measure(page, fit);
  put_standoffs(page, fit.standoffs);
  put_fasteners(page, fit);
  page.paragraph(0,
                 "Work with the supply unplugged and touch bare metal of the case before parts: "
                 "static kills them. Glass panels lie on a soft cloth, never on their corners.",
                 Ink::soft);
  if (!fit.scene.notes.empty()) {
    page.blank();
    put_notes(page, fit.scene.notes);
  }
  return page.take();
}

}  // namespace rigproof::sheet
