#include "sheet/answers_pieces.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "sheet/order.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

std::string joined(const std::vector<MovedPart>& parts) {
  std::string out;
  for (const MovedPart& part : parts)
    out += fmt::format("{}{}", out.empty() ? "" : " and ", moved_words(part));
  return out;
}

std::string rate_words(const std::optional<Quantity>& fps) {
  return fps ? readable(fps->value, 3) : std::string("unknown");
}

}  // namespace

void put_asked(TextPage& page, const Asked& asked) {
  page.heading(0, clean_text(asked.brief_name), fmt::format("as of {}", to_string(asked.as_of)));
  if (!asked.brief_file.empty()) page.paragraph(0, clean_text(asked.brief_file), Ink::soft);
  page.blank();
}

std::string moved_words(const MovedPart& part) {
  std::string out = part.count > 1 ? fmt::format("{} x ", part.count) : std::string{};
  out += fmt::format("{} [{}]", clean_text(part.name), clean_text(part.id));
  if (part.price) out += fmt::format(", {}", to_string(*part.price));
  if (!part.note.empty()) out += fmt::format(" ({})", clean_text(part.note));
  return out;
}

void put_slots(TextPage& page, int indent, const std::vector<SlotChange>& slots) {
  int widest = 0;
  for (const SlotChange& slot : slots)
    widest = std::max(widest, static_cast<int>(slot.kind.size()));
  const int body = indent + widest + 2;
  for (const SlotChange& slot : slots) {
    if (!slot.out.empty()) page.labelled(indent, slot.kind, body, "out: " + joined(slot.out));
    if (!slot.in.empty())
      page.labelled(indent, slot.out.empty() ? slot.kind : "", body, "in:  " + joined(slot.in),
                    Ink::plain, Ink::strong);
  }
}

std::string title_changes_words(const std::vector<TitleChange>& titles) {
  std::string out;
  for (const TitleChange& title : titles)
    out += fmt::format("{}{} {} to {} fps", out.empty() ? "" : "; ", clean_text(title.name),
                       rate_words(title.from_fps), rate_words(title.to_fps));
  return out;
}

void put_sums_beside(TextPage& page, const PlannedBuild& build, const Differences* differences) {
  constexpr int value_at = 12;
  std::string score = to_string(build.score);
  if (differences != nullptr && differences->score_change)
    score += ", " + change_words(*differences->score_change);
  page.labelled(entry_at, "score", value_at, score, Ink::plain, Ink::strong);
  std::string prices;
  for (std::size_t i = 0; i < build.prices.size() && i < build.markets.size(); ++i) {
    prices += fmt::format("{}{} in {}", i == 0 ? "" : "; ", to_string(build.prices[i]),
                          clean_text(build.markets[i]));
    if (differences != nullptr && i < differences->price_changes.size())
      prices += fmt::format(" ({})", change_words(differences->price_changes[i]));
  }
  page.labelled(entry_at, "price", value_at, prices, Ink::plain, Ink::strong);
  if (build.odds_all_hold)
    page.labelled(entry_at, "odds", value_at,
                  "all judged musts hold at once " + odds_words(*build.odds_all_hold));
}

void put_title_changes(TextPage& page, const std::vector<TitleChange>& titles) {
  if (titles.empty()) return;
  page.heading(0, "FRAME RATES that change, rendered", "");
  for (const TitleChange& title : titles)
    page.paragraph(entry_at, fmt::format("{}: {} to {} fps, target {}", clean_text(title.name),
                                         rate_words(title.from_fps), rate_words(title.to_fps),
                                         readable(title.target_fps, 3)));
  page.blank();
}

namespace {

std::string standing_words(const std::optional<Claim>& claim) {
  if (!claim) return "nothing to claim";
  const std::string numbers = claim->margin_frac ? numbers_words(*claim) : std::string{};
  return fmt::format("{}{}{}", rigproof::name_of(claim->verdict), numbers.empty() ? "" : ", ",
                     numbers);
}

// Worth a line of its own: the verdict turns, or room near the limit moves.
bool is_told(const ClaimChange& change) {
  const auto open = [](const std::optional<Claim>& claim) {
    return claim && claim->verdict != Verdict::holds;
  };
  if (open(change.from) || open(change.to)) return true;
  if (standing_words(change.from) == standing_words(change.to)) return false;
  const auto near = [](const std::optional<Claim>& claim) { return claim && !has_plenty(*claim); };
  return change.from && change.to && (near(change.from) || near(change.to));
}

int badness(const std::optional<Claim>& claim) {
  if (!claim) return 0;
  switch (claim->verdict) {
    case Verdict::holds:
      return 0;
    case Verdict::thin:
      return 1;
    case Verdict::unknown:
      return 2;
    case Verdict::doubtful:
      return 3;
    case Verdict::fails:
      return 4;
  }
  return 0;
}

}  // namespace

void put_claim_changes(TextPage& page, const std::vector<ClaimChange>& changes) {
  std::vector<const ClaimChange*> told;
  for (const ClaimChange& change : changes)
    if (is_told(change)) told.push_back(&change);
  const std::size_t rest = changes.size() - told.size();
  if (changes.empty()) return;
  page.heading(0, "CLAIMS that change", "");
  // What turns for the worse first, then for the better, then what only moves.
  std::ranges::stable_sort(told, {}, [](const ClaimChange* change) {
    const int turn = badness(change->to) - badness(change->from);
    return turn > 0 ? 0 : turn < 0 ? 1 : 2;
  });
  for (const ClaimChange* change : told) {
    const Claim& either = either_of(*change);
    const int turn = badness(change->to) - badness(change->from);
    std::string name = clean_text(either.id);
    if (!either.where.empty()) name += fmt::format(" ({})", clean_text(either.where));
    page.labelled(entry_at,
                  turn > 0   ? "worse"
                  : turn < 0 ? "better"
                             : "moves",
                  10,
                  fmt::format("{}: {}; was {}", name, standing_words(change->to),
                              standing_words(change->from)),
                  turn > 0 ? Ink::tight : Ink::plain);
  }
  if (rest > 0)
    page.paragraph(
        entry_at,
        fmt::format("{} with plenty of room before and after {} by some.",
                    counted(static_cast<long long>(rest), told.empty() ? "claim" : "more",
                            told.empty() ? "claims" : "more"),
                    rest == 1 ? "moves" : "move"),
        Ink::soft);
  page.blank();
}

void put_part_lines(TextPage& page, int indent, const std::vector<PartLine>& parts) {
  int widest = 0;
  for (const PartLine& part : parts) widest = std::max(widest, columns_of(clean_text(part.place)));
  for (const PartLine& part : parts)
    page.labelled(indent, clean_text(part.place), indent + std::min(widest, 34) + 2,
                  part_words(part));
}

}  // namespace rigproof::sheet
