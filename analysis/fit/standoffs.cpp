#include "analysis/fit/standoffs.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace rigproof::fit {
namespace {

std::vector<FormFactor> known_of(std::span<const std::string_view> words, StandoffPlan& plan) {
  std::vector<FormFactor> known;
  for (const std::string_view word : words) {
    if (const auto form_factor = form_factor_of(word)) {
      known.push_back(*form_factor);
      continue;
    }
    plan.others_known = false;
    plan.notes.push_back(fmt::format(
        "The case also takes {}, whose positions are not known: look for standoffs that no list "
        "here names.",
        word.empty() ? "a form factor that is not stated" : word));
  }
  if (words.empty()) {
    plan.others_known = false;
    plan.notes.emplace_back(
        "Which form factors the case takes is not known: look for standoffs that no list here "
        "names.");
  }
  return known;
}

// A letter a reader can count: "B, R and S".
std::string listed(std::string_view letters) {
  std::string text;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    if (i > 0) text += i + 1 == letters.size() ? " and " : ", ";
    text += letters[i];
  }
  return text;
}

// [microatx-1-2] 2.2, looked up: a smaller microATX board may have any of the holes. That the same
// holds for a shallow ATX board is common practice. A Mini-ITX board has one size.
void tell_of_smaller_boards(FormFactor board, StandoffPlan& plan) {
  if (board == FormFactor::mini_itx) return;
  const Outline outline = outline_of(board);
  plan.notes.push_back(fmt::format(
      "A board smaller than {:.0f} x {:.0f} mm may lack some of these holes: a standoff only where "
      "it has one.",
      outline.width_mm, outline.depth_mm));
}

void tell(StandoffPlan& plan) {
  if (!plan.must_be_empty.empty())
    plan.notes.push_back(fmt::format(
        "No standoff at {}: the board has no hole there, and a metal one would short its tracks.",
        listed(plan.must_be_empty)));
  if (!plan.if_holed.empty())
    plan.notes.push_back(fmt::format(
        "A standoff at {} only where the board has a hole; otherwise it must stay empty.",
        listed(plan.if_holed)));
  if (!plan.doubtful.empty())
    plan.notes.push_back(fmt::format(
        "Where {} lie is doubtful: hold the board over the tray and look.", listed(plan.doubtful)));
}

}  // namespace

bool is_under(FormFactor board, const Hole& hole) {
  if (hole.doubtful) return true;
  const Outline outline = outline_of(board);
  return hole.x_mm > -standoff_reach_mm && hole.x_mm < outline.width_mm + standoff_reach_mm &&
         hole.y_mm > -standoff_reach_mm && hole.y_mm < outline.depth_mm + standoff_reach_mm;
}

StandoffPlan standoff_plan(std::string_view board_form_factor,
                           std::span<const std::string_view> case_form_factors) {
  StandoffPlan plan;
  const auto board = form_factor_of(board_form_factor);
  if (!board) {
    plan.why_not =
        board_form_factor.empty()
            ? "the form factor of the board is not known"
            : fmt::format("no standard we know fixes the holes of {}", board_form_factor);
    return plan;
  }
  plan.known = true;
  const std::vector<FormFactor> taken = known_of(case_form_factors, plan);
  plan.case_takes_it = case_form_factors.empty() || std::ranges::find(taken, *board) != taken.end();
  for (const Hole& hole : mounting_holes()) {
    const bool own = hole.is_of(*board);
    const bool of_another = std::ranges::any_of(
        taken, [&](FormFactor other) { return other != *board && hole.is_of(other); });
    if (!own && !of_another) continue;
    if (own) (hole.may_be_left ? plan.if_holed : plan.used) += hole.letter;
    if (own && of_another) plan.shared += hole.letter;
    if (!own) (is_under(*board, hole) ? plan.must_be_empty : plan.beyond_board) += hole.letter;
    if (hole.doubtful) plan.doubtful += hole.letter;
  }
  if (!plan.case_takes_it)
    plan.notes.push_back(
        fmt::format("The case does not list {}: it may lack standoffs for it.", name_of(*board)));
  tell(plan);
  tell_of_smaller_boards(*board, plan);
  return plan;
}

}  // namespace rigproof::fit
