#include "sheet/text_short.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/order.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/utf8.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int entry_at = 2;
constexpr int body_at = 12;

// Cut to `columns` on a character border, with "..." in the place of what is gone.
std::string cut(std::string_view text, int columns) {
  if (columns_of(text) <= columns) return std::string(text);
  std::string kept;
  while (!text.empty()) {
    const std::size_t bytes = next_code_point(text).bytes;
    if (columns_of(kept + std::string(text.substr(0, bytes))) > columns - 3) break;
    kept += text.substr(0, bytes);
    text.remove_prefix(bytes);
  }
  return kept + "...";
}

// `socket of calm-six (cpu.csv)`; a column `*` stands for the rows of a table that is about the
// part.
std::string cell_to_fill(const Missing& cell) {
  if (cell.column == "*")
    return clean_text(fmt::format("rows of {} in {}.csv", cell.row, cell.table));
  return clean_text(fmt::format("{} of {} ({}.csv)", cell.column, cell.row, cell.table));
}

// What a reader needs to know first: which cell is absent, how far it is from the limit, or what
// would mend it where there is no share of a limit to tell.
std::string gist(const Claim& claim) {
  if (claim.verdict == Verdict::unknown && !claim.missing.empty()) {
    std::string out = "needs " + cell_to_fill(claim.missing.front());
    if (claim.missing.size() > 1) out += fmt::format(" and {} more", claim.missing.size() - 1);
    return out;
  }
  if (claim.margin_frac) return numbers_words(claim);
  return clean_text(claim.remedy.empty() ? claim.statement : claim.remedy);
}

void put_line(TextPage& page, const Claim& claim) {
  std::string name = clean_text(claim.id);
  if (!claim.where.empty()) name += fmt::format(" ({})", clean_text(claim.where));
  if (claim.grade == Grade::tells) name += ", tells only";
  const bool loose = claim.verdict == Verdict::unknown;
  const std::string line = cut(fmt::format("{}: {}", name, gist(claim)), page.width() - body_at);
  page.line(entry_at, page.painted(padded(rigproof::name_of(claim.verdict), body_at - entry_at),
                                   loose ? Ink::strong : Ink::tight) +
                          line);
}

void put_open_claims(TextPage& page, const std::vector<Claim>& claims) {
  page.heading(0, "CLAIMS that do not hold", verdict_counts(claims));
  bool any = false;
  for (const Claim* claim : nearest_first(claims)) {
    if (claim->verdict == Verdict::holds) continue;
    put_line(page, *claim);
    any = true;
  }
  if (!any) page.paragraph(entry_at, claims.empty() ? "nothing was judged" : "none: all hold");
}

void put_parts(TextPage& page, const std::vector<PartLine>& parts) {
  int widest = body_at - entry_at - 2;
  for (const PartLine& part : parts) widest = std::max(widest, columns_of(clean_text(part.place)));
  for (const PartLine& part : parts) {
    const std::string count = part.count > 1 ? fmt::format("{} x ", part.count) : "";
    const std::string origin =
        part.origin == Origin::chosen ? "" : fmt::format(", {}", name_of(part.origin));
    page.labelled(
        entry_at, clean_text(part.place), entry_at + widest + 2,
        fmt::format("{}{} [{}]{}", count, clean_text(part.name), clean_text(part.id), origin));
  }
}

void put_build(TextPage& page, const PlannedBuild& build, std::size_t number, std::size_t of) {
  std::string prices;
  for (std::size_t i = 0; i < build.prices.size() && i < build.markets.size(); ++i)
    prices += fmt::format("{}{} in {}", i == 0 ? "" : "; ", to_string(build.prices[i]),
                          clean_text(build.markets[i]));
  page.heading(
      0,
      of == 1 ? "BUILD"
              : fmt::format("BUILD {} of {}{}", number, of, build.rival ? ", a rival by odds" : ""),
      prices);
  if (build.rival && build.odds_best && build.odds_first_beats)
    page.paragraph(entry_at,
                   fmt::format("best of the builds compared {}; behind build 1 {}",
                               odds_words(*build.odds_best), odds_words(*build.odds_first_beats)));

  put_parts(page, build.parts);
  page.blank();
  put_open_claims(page, build.claims);
  page.blank();
}

void put_conflict(TextPage& page, const Conflict& conflict, bool alone) {
  page.paragraph(0, alone ? "Leave out or ease any one of these, and a build may exist:"
                          : "Leave out or ease any one of these (and one of each other conflict), "
                            "and a build may exist:");
  for (const ConflictLine& line : conflict.requirements) {
    page.labelled(entry_at, line.line > 0 ? fmt::format("line {}", line.line) : "default", body_at,
                  fmt::format("{} ({})", clean_text(line.says), clean_text(line.path)));
    if (line.relaxation)
      page.paragraph(body_at + 2, clean_text(line.relaxation->says), Ink::strong);
  }
  page.blank();
}

}  // namespace

std::string plan_short_text(const Plan& plan, const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(plan.brief_name),
               fmt::format("as of {}, {}", to_string(plan.as_of), clean_text(plan.proof.status)));
  page.blank();
  if (const std::string stopped = stopped_words(plan.proof);
      !plan.builds.empty() && !stopped.empty()) {
    page.paragraph(0, stopped, Ink::tight);
    page.blank();
  }
  for (std::size_t i = 0; i < plan.builds.size(); ++i)
    put_build(page, plan.builds[i], i + 1, plan.builds.size());
  if (plan.builds.empty()) {
    page.paragraph(0, no_build_words(plan.proof), Ink::tight);
    page.blank();
    for (const Conflict& conflict : plan.conflicts)
      put_conflict(page, conflict, plan.conflicts.size() == 1);
    for (const std::string& note : plan.notes)
      page.labelled(entry_at, "-", entry_at + 2, clean_text(note));
    page.blank();
  }
  page.paragraph(0, "Without --short: every claim, frame times, the proof and the notes.",
                 Ink::soft);
  return page.take();
}

std::string claims_short_text(const std::string& build, const std::vector<PartLine>& parts,
                              const std::vector<Claim>& claims, const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(build), counted(static_cast<long long>(claims.size()), "claim"));
  put_parts(page, parts);
  page.blank();
  put_open_claims(page, claims);
  page.blank();
  page.paragraph(0, "Without --short: every claim with its numbers, source and what to do.",
                 Ink::soft);
  return page.take();
}

}  // namespace rigproof::sheet
