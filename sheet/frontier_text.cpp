#include "sheet/frontier_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/answers_pieces.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int score_at = 18;

std::string claims_words(const FrontierStep& step) {
  std::string out;
  if (step.thin > 0) out += fmt::format(", {} thin", step.thin);
  if (step.unknown > 0) out += fmt::format(", {} unknown", step.unknown);
  return out;
}

std::string step_words(const FrontierStep& step, const FrontierStep* below) {
  std::string out = "score " + to_string(step.build.score);
  if (step.gain && step.per_50 && below != nullptr) {
    Money dearer = step.build.prices.front();
    dearer.minor -= below->build.prices.front().minor;
    out += fmt::format(", {} more for {} ({} of score for every {})", to_string(*step.gain),
                       to_string(dearer), to_string(*step.per_50),
                       to_string(fifty_in(dearer.currency)));
  }
  return out + claims_words(step);
}

void put_step(TextPage& page, const FrontierStep& step, const FrontierStep* below,
              bool short_form) {
  const std::string price =
      step.build.prices.empty() ? std::string{} : to_string(step.build.prices.front());
  page.labelled(entry_at, price, score_at, step_words(step, below), Ink::strong, Ink::plain);
  if (short_form) return;
  if (below == nullptr) {
    put_part_lines(page, score_at, step.build.parts);
    for (const TitleLine& title : step.build.titles)
      page.paragraph(score_at,
                     fmt::format("{}: {}, target {} fps", clean_text(title.name),
                                 title.rendered_fps ? words(*title.rendered_fps) : "unknown",
                                 title.target_fps),
                     Ink::soft);
  } else {
    put_slots(page, score_at, step.slots);
    if (const std::string rates = title_changes_words(step.titles); !rates.empty())
      page.paragraph(score_at, rates, Ink::soft);
  }
  page.blank();
}

// Where the search was stopped.
void put_unsettled(TextPage& page, const Frontier& frontier) {
  for (const BudgetRange& range : frontier.unsettled)
    page.paragraph(entry_at,
                   fmt::format("Not settled, as the search was stopped: what {} to {} buys.",
                               to_string(range.from), to_string(range.to)),
                   Ink::tight);
  if (!frontier.unsettled.empty()) page.blank();
}

void put_below(TextPage& page, const Frontier& frontier) {
  if (frontier.status == "not proven") return;
  const FrontierStep& first = frontier.steps.front();
  if (frontier.least_price) {
    page.paragraph(
        entry_at,
        fmt::format("Under {} no build satisfies the brief.", to_string(*frontier.least_price)),
        Ink::tight);
    page.blank();
    return;
  }
  if (!first.build.prices.empty() && first.build.prices.front().minor < frontier.from.minor)
    page.paragraph(entry_at,
                   fmt::format("{} buys the first of these; it costs less, and what still less "
                               "money buys was not asked.",
                               to_string(frontier.from)),
                   Ink::soft);
}

void put_top(TextPage& page, const Frontier& frontier) {
  if (frontier.nine_tenths_at)
    page.paragraph(entry_at, fmt::format("Nine tenths of all the gain are had at {}.",
                                         to_string(*frontier.nine_tenths_at)));
  if (frontier.runs_out_at)
    page.paragraph(entry_at,
                   fmt::format("Over {} more money buys nothing more, up to {}.",
                               to_string(*frontier.runs_out_at), to_string(frontier.to)),
                   Ink::strong);
  if (frontier.other_budgets_cost)
    page.paragraph(entry_at,
                   fmt::format("The budgets of the other markets stand in the way: without them up "
                               "to {} here would score {} more.",
                               to_string(frontier.to), to_string(*frontier.other_budgets_cost)));
}

void put_none(TextPage& page, const Frontier& frontier) {
  if (frontier.status == "not proven") {
    page.paragraph(0, "Stopped before a build was found.", Ink::tight);
  } else {
    page.paragraph(0, fmt::format("No build costs {} or less.", to_string(frontier.to)),
                   Ink::tight);
    if (frontier.least_price)
      page.paragraph(0, fmt::format("The cheapest that satisfies all else costs {}.",
                                    to_string(*frontier.least_price)));
  }
  page.blank();
}

}  // namespace

std::string frontier_text(const Frontier& frontier, bool short_form, const TextStyle& style) {
  TextPage page(style.color, style.width);
  put_asked(page, frontier.asked);
  page.heading(
      0, fmt::format("WHAT MORE MONEY BUYS in {}", clean_text(frontier.asked.market)),
      frontier.steps.empty()
          ? frontier.status
          : fmt::format("{}, {}", counted(static_cast<long long>(frontier.steps.size()), "step"),
                        frontier.status));
  page.paragraph(entry_at,
                 fmt::format("Budgets from {} to {}; the score counts from the brief's own, {}. "
                             "Between two prices the cheaper build stays the best.",
                             to_string(frontier.from), to_string(frontier.to),
                             to_string(frontier.counted_from)),
                 Ink::soft);
  page.blank();
  if (frontier.steps.empty()) {
    put_none(page, frontier);
  } else {
    put_unsettled(page, frontier);
    put_below(page, frontier);
    for (std::size_t i = 0; i < frontier.steps.size(); ++i)
      put_step(page, frontier.steps[i], frontier.steps[i].gain ? &frontier.steps[i - 1] : nullptr,
               short_form);
    if (short_form) page.blank();
    put_top(page, frontier);
  }
  if (short_form && !frontier.steps.empty())
    page.paragraph(0, "Without --short: which parts change from step to step, and the notes.",
                   Ink::soft);
  else
    put_notes(page, frontier.notes);
  return page.take();
}

}  // namespace rigproof::sheet
