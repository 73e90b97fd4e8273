#include "sheet/answers_pieces.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
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

void put_part_lines(TextPage& page, int indent, const std::vector<PartLine>& parts) {
  int widest = 0;
  for (const PartLine& part : parts) widest = std::max(widest, columns_of(clean_text(part.place)));
  for (const PartLine& part : parts)
    page.labelled(indent, clean_text(part.place), indent + std::min(widest, 34) + 2,
                  part_words(part));
}

}  // namespace rigproof::sheet
