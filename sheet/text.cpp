#include "sheet/text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "sheet/order.hpp"
#include "sheet/text_claims.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

int place_columns(const std::vector<PartLine>& parts) {
  int widest = 12;
  for (const PartLine& part : parts) widest = std::max(widest, columns_of(clean_text(part.place)));
  return std::min(widest, 34);
}

void put_part(TextPage& page, const PartLine& part, int body_at) {
  page.labelled(entry_at, clean_text(part.place), body_at, part_words(part), Ink::plain,
                Ink::strong);
  if (!part.why.empty()) page.paragraph(body_at, clean_text(part.why));
  if (part.because_cost)
    page.paragraph(body_at, fmt::format("forced by the brief: costs {} of score",
                                        to_string(*part.because_cost)));
  if (!part.runner_up) return;
  const RunnerUp& other = *part.runner_up;
  page.paragraph(body_at, runner_up_words(other), Ink::soft);
  for (const std::string& gain : other.gains)
    page.paragraph(body_at + 2, "+ " + clean_text(gain), Ink::soft);
  for (const std::string& loss : other.loses)
    page.paragraph(body_at + 2, "- " + clean_text(loss), Ink::soft);
}

void put_parts(TextPage& page, const std::vector<PartLine>& parts) {
  page.heading(0, "PARTS, by where they are mounted", "");
  const int body_at = entry_at + place_columns(parts) + 2;
  for (const PartLine& part : parts) put_part(page, part, body_at);
}

std::string fps_words(const TitleLine& title) {
  std::string out;
  if (title.rendered_fps) out = words(*title.rendered_fps);
  if (title.displayed_fps && title.generated_per_rendered > 0)
    out += fmt::format("{}{} displayed", out.empty() ? "" : ", ", words(*title.displayed_fps));
  if (title.p99_frame_time_fps)
    out += fmt::format("{}slowest 1 % at {}", out.empty() ? "" : ", ",
                       words(*title.p99_frame_time_fps));
  return out;
}

std::string time_words(const TitleLine& title) {
  std::string out = title.frame_time_ms ? words(*title.frame_time_ms) : std::string{};
  if (title.target_fps > 0.0)
    out += fmt::format("{}target {} ms", out.empty() ? "" : " against ",
                       readable(1000.0 / title.target_fps, 3));
  if (title.p99_frame_time_ms)
    out +=
        fmt::format("; one frame in a hundred is slower than {}", words(*title.p99_frame_time_ms));
  return out;
}

void put_titles(TextPage& page, const std::vector<TitleLine>& titles) {
  if (titles.empty()) return;
  page.blank();
  page.heading(0, "FRAME TIME, rendered frames", "");
  int widest = 12;
  for (const TitleLine& title : titles)
    widest = std::max(widest, columns_of(clean_text(title.name)));
  // Long names stand on a line of their own.
  const int body_at = widest > 24 ? entry_at + 4 : entry_at + widest + 2;
  for (const TitleLine& title : titles) {
    const std::string first =
        title.frame_time_ms ? time_words(title) : "unknown: " + clean_text(title.why_unknown);
    page.labelled(entry_at, clean_text(title.name), body_at, first, Ink::plain, Ink::strong);
    if (const std::string fps = fps_words(title); !fps.empty()) page.paragraph(body_at, fps);
    page.paragraph(body_at, fmt::format("{}; asked: {}", setting_words(title), goal_words(title)),
                   Ink::soft);
  }
}

std::string odds_line(const PlannedBuild& build) {
  std::string out;
  if (build.odds_best)
    out = fmt::format("best of the builds compared {}", odds_words(*build.odds_best));
  if (build.odds_first_beats)
    out += fmt::format("{}behind build 1 {}", out.empty() ? "" : "; ",
                       odds_words(*build.odds_first_beats));
  if (build.odds_all_hold)
    out += fmt::format("{}all judged musts hold at once {}", out.empty() ? "" : "; ",
                       odds_words(*build.odds_all_hold));
  return out;
}

void put_sums(TextPage& page, const PlannedBuild& build) {
  constexpr int value_at = 12;
  page.labelled(entry_at, "score", value_at, money_words(build.score), Ink::plain, Ink::strong);
  page.labelled(entry_at, "price", value_at, prices_line(build), Ink::plain, Ink::strong);
  if (const std::string odds = odds_line(build); !odds.empty())
    page.labelled(entry_at, "odds", value_at, odds);
}

bool same_part(const PartLine& a, const PartLine& b) {
  return a.kind == b.kind && a.id == b.id && a.count == b.count;
}

bool same_claim(const Claim& a, const Claim& b) {
  const auto number = [](const Claim& claim) { return claim.value ? claim.value->value : 0.0; };
  return a.id == b.id && a.where == b.where && a.load == b.load && a.verdict == b.verdict &&
         number(a) == number(b);
}

void put_other_claims(TextPage& page, const PlannedBuild& build, const PlannedBuild& best) {
  long long alike = 0;
  for (const Claim* claim : nearest_first(build.claims)) {
    if (claim->verdict == Verdict::holds) break;
    const auto same = [&](const Claim& other) { return same_claim(other, *claim); };
    if (std::ranges::any_of(best.claims, same))
      ++alike;
    else
      put_claim(page, *claim);
  }
  if (alike > 0)
    page.paragraph(entry_at,
                   fmt::format("{} that {} not hold, as in build 1", counted(alike, "claim"),
                               alike == 1 ? "does" : "do"),
                   Ink::soft);
}

// Another build by what differs from the best one.
void put_other(TextPage& page, const PlannedBuild& build, const PlannedBuild& best,
               std::size_t number) {
  page.blank();
  page.heading(0,
               fmt::format("BUILD {}{}, by what differs from build 1", number,
                           build.rival ? ", a rival by odds" : ""),
               verdict_counts(build.claims));
  put_sums(page, build);
  const int body_at = entry_at + place_columns(build.parts) + 2;
  for (const PartLine& part : build.parts) {
    const auto same = [&](const PartLine& other) { return same_part(other, part); };
    if (std::ranges::any_of(best.parts, same)) continue;
    page.labelled(entry_at, clean_text(part.place), body_at, part_words(part));
  }
  for (const PartLine& part : best.parts) {
    const auto same_kind = [&](const PartLine& other) { return other.kind == part.kind; };
    if (std::ranges::none_of(build.parts, same_kind))
      page.labelled(entry_at, clean_text(part.place), body_at,
                    "nothing in place of " + part_words(part));
  }
  put_other_claims(page, build, best);
}

void put_proof(TextPage& page, const Proof& proof) {
  page.heading(0, "PROOF", clean_text(proof.status));
  std::string sums = fmt::format("{} looked at, {} judged whole", counted(proof.nodes, "node"),
                                 counted(proof.leaves, "build"));
  if (const std::string bound = bound_words(proof); !bound.empty())
    sums += "; no build scores above " + bound;
  page.paragraph(entry_at, sums + ".");
  std::vector<PrunedLine> pruned = proof.pruned;
  std::ranges::stable_sort(pruned, std::ranges::greater{}, &PrunedLine::count);
  std::string left_out;
  for (const PrunedLine& line : pruned)
    left_out += fmt::format("{}{}, {}", left_out.empty() ? "Left out: " : "; ",
                            clean_text(line.why), grouped(line.count));
  if (!left_out.empty()) page.paragraph(entry_at, left_out + ".");
  if (!proof.note.empty()) page.paragraph(entry_at, clean_text(proof.note), Ink::soft);
}

}  // namespace

std::string plan_text(const Plan& plan, const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(plan.brief_name), fmt::format("as of {}", to_string(plan.as_of)));
  if (!plan.brief_file.empty()) page.paragraph(0, clean_text(plan.brief_file), Ink::soft);
  page.blank();
  if (!plan.builds.empty()) {
    const PlannedBuild& best = plan.builds.front();
    page.heading(
        0, plan.builds.size() == 1 ? "BUILD" : fmt::format("BUILD 1 of {}", plan.builds.size()),
        clean_text(plan.proof.status));
    if (const std::string stopped = stopped_words(plan.proof); !stopped.empty())
      page.paragraph(entry_at, stopped, Ink::tight);
    put_sums(page, best);
    page.blank();
    put_parts(page, best.parts);
    put_titles(page, best.titles);
    page.blank();
    put_claims(page, best.claims, false);
    put_look_up(page, best.claims);
    for (std::size_t i = 1; i < plan.builds.size(); ++i)
      put_other(page, plan.builds[i], best, i + 1);
    page.blank();
  } else {
    page.paragraph(0, no_build_words(plan.proof), Ink::tight);
    page.blank();
  }
  put_conflicts(page, plan.conflicts);
  put_proof(page, plan.proof);
  put_notes(page, plan.notes);
  return page.take();
}

std::string claims_text(const std::string& build, const std::vector<Claim>& claims,
                        const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(build), counted(static_cast<long long>(claims.size()), "claim"));
  page.blank();
  put_wrong(page, claims);
  put_claims(page, claims, true);
  put_look_up(page, claims);
  return page.take();
}

}  // namespace rigproof::sheet
