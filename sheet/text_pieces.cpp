#include "sheet/text_pieces.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/wording.hpp"

namespace rigproof::sheet {

std::string part_words(const PartLine& part) {
  std::string out = part.count > 1 ? fmt::format("{} x ", part.count) : std::string{};
  out += clean_text(part.name);
  out += fmt::format("  [{}]", clean_text(part.id));
  if (part.origin != Origin::chosen) out += fmt::format(", {}", name_of(part.origin));
  return out;
}

std::string prices_line(const PlannedBuild& build) {
  std::string out;
  for (std::size_t i = 0; i < build.prices.size() && i < build.markets.size(); ++i)
    out += fmt::format("{}{} in {}", i == 0 ? "" : "; ", to_string(build.prices[i]),
                       clean_text(build.markets[i]));
  return out;
}

namespace {

void put_conflict(TextPage& page, const Conflict& conflict, bool others) {
  const bool overlaps = std::ranges::any_of(conflict.requirements, [](const ConflictLine& line) {
    return line.relaxation && line.relaxation->how == "not enough";
  });
  page.heading(
      0,
      overlaps ? "CONFLICT: these cannot all stand; of some of them easing one is not enough"
      : others ? "CONFLICT: leave out or ease any one of these (and one of each other conflict)"
               : "CONFLICT: leave out or ease any one of these, and a build exists",
      "");
  for (const ConflictLine& line : conflict.requirements) {
    const bool wished = line.path.starts_with("insist.") || line.path.starts_with("without.");
    const std::string where = line.line > 0 ? fmt::format("line {}", line.line)
                              : wished      ? "the wish"
                                            : "default";
    page.labelled(entry_at, where, 12,
                  fmt::format("{} ({})", clean_text(line.says), clean_text(line.path)));
    if (line.relaxation)
      page.paragraph(14, "opens with " + clean_text(line.relaxation->says), Ink::strong);
  }
  std::string rules;
  for (const std::string& rule : conflict.through)
    rules += fmt::format("{}{}", rules.empty() ? "" : ", ", clean_text(rule));
  if (!rules.empty()) page.paragraph(entry_at, "They meet in: " + rules, Ink::soft);
}

}  // namespace

void put_conflicts(TextPage& page, const std::vector<Conflict>& conflicts) {
  for (const Conflict& conflict : conflicts) {
    put_conflict(page, conflict, conflicts.size() > 1);
    page.blank();
  }
}

void put_notes(TextPage& page, const std::vector<std::string>& notes) {
  if (notes.empty()) return;
  page.blank();
  page.heading(0, "NOTES", "");
  for (const std::string& note : notes)
    page.labelled(entry_at, "-", entry_at + 2, clean_text(note));
}

}  // namespace rigproof::sheet
