// What the sheet stands on: the proof, the cells to look up, notes and sources.
#include <fmt/format.h>

#include "sheet/html_pieces.hpp"
#include "sheet/order.hpp"
#include "sheet/sources.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {

void put_proof(HtmlPage& page, const Sheet& sheet) {
  const Proof& proof = sheet.proof;
  begin_section(page, "proof", "What the proof speaks of", isolated(proof.status));
  if (!proof.note.empty())
    page.out += fmt::format("<p class=\"lead\">{}</p>\n", isolated(proof.note));
  page.out += "<dl class=\"facts sub\">\n";
  page.fact("Score of the build", money_words(sheet.build.score));
  page.fact("Parts in the catalog", sheet.part_count > 0
                                        ? grouped(static_cast<long long>(sheet.part_count))
                                        : std::string{});
  if (was_searched(proof)) {
    page.fact("No build scores above", bound_words(proof));
    page.fact("Nodes looked at", grouped(proof.nodes));
    page.fact("Builds judged whole", grouped(proof.leaves));
    for (const PrunedLine& line : proof.pruned)
      page.fact("Left out", fmt::format("{}: {}", grouped(line.count), isolated(line.why)));
  }
  page.fact("Best of the builds compared",
            sheet.build.odds_best
                ? fmt::format("in {} of the draws", odds_words(*sheet.build.odds_best))
                : std::string{});
  page.fact("All judged musts hold at once",
            sheet.build.odds_all_hold
                ? fmt::format("in {} of the draws", odds_words(*sheet.build.odds_all_hold))
                : std::string{});
  page.out += "</dl>\n";
  end_section(page);
}

namespace {

// Which claims wait for a cell; long lists are cut, the number stands beside them.
std::string waiting_words(const MissingCount& entry) {
  constexpr std::size_t most = 3;
  std::string out;
  for (std::size_t i = 0; i < entry.waiting.size() && i < most; ++i)
    out += fmt::format("{}{}", i == 0 ? "" : " ", isolated(entry.waiting[i]->statement));
  if (entry.waiting.size() > most) out += fmt::format(" And {} more.", entry.waiting.size() - most);
  return out;
}

}  // namespace

void put_look_up(HtmlPage& page, const Sheet& sheet) {
  const std::vector<MissingCount> cells = cells_to_look_up(sheet.build.claims);
  if (cells.empty()) return;
  begin_section(page, "absent", "What is not known, and how to find out",
                counted(static_cast<long long>(cells.size()), "cell"));
  page.out += "<ol class=\"list\">\n";
  for (const MissingCount& entry : cells) {
    const std::string how =
        isolated(entry.cell.how.empty() ? cell_words(entry.cell) : entry.cell.how);
    page.out +=
        fmt::format("<li><h3>{}</h3><p>{}</p>", how, hanging_words(entry.claims, entry.ranges));
    if (const std::string waiting = waiting_words(entry); !waiting.empty())
      page.out += fmt::format("<p class=\"small\">{}</p>", waiting);
    if (!entry.cell.how.empty())
      page.out += fmt::format("<p class=\"small\">{}</p>", isolated(cell_words(entry.cell)));
    page.out += "</li>\n";
  }
  page.out += "</ol>\n";
  end_section(page);
}

void put_notes(HtmlPage& page, const Sheet& sheet) {
  if (sheet.notes.empty()) return;
  begin_section(page, "notes", "Notes", "");
  page.out += "<ul class=\"list\">\n";
  for (const std::string& note : sheet.notes)
    page.out += fmt::format("<li>{}</li>\n", isolated(note));
  page.out += "</ul>\n";
  end_section(page);
}

void put_sources(HtmlPage& page, const Sheet& sheet) {
  const std::vector<SourceUse> sources = sources_of(sheet);
  if (sources.empty()) return;
  begin_section(page, "sources", "Sources", "most used first");
  page.out += "<ul class=\"list\">\n";
  for (const SourceUse& source : sources)
    page.out += fmt::format("<li>{} <span class=\"small\">{}</span></li>\n",
                            isolated(source.source), source.uses);
  page.out += "</ul>\n";
  end_section(page);
}

}  // namespace rigproof::sheet
