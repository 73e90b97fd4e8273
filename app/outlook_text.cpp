// What `outlook` prints for people: two sentences, then each requirement by what it forbids.
#include <fmt/format.h>

#include <algorithm>

#include "app/outlook.hpp"
#include "sheet/answers_pieces.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"

namespace rigproof::app {
namespace {

using sheet::Ink;
using sheet::TextPage;

constexpr int count_at = 4;

}  // namespace

std::string outlook_text(const OutlookAnswer& answer, const sheet::TextStyle& style) {
  TextPage page(style.color, style.width);
  sheet::put_asked(page, answer.asked);
  for (const std::string& sentence : answer.sentences) page.paragraph(0, sentence, Ink::strong);
  if (!answer.without.empty()) {
    page.blank();
    page.line(0, "WITHOUT ONE REQUIREMENT", Ink::strong);
    for (const OutlookLine& line : answer.without) {
      const std::string place =
          line.requirement.line > 0 ? fmt::format(" (line {})", line.requirement.line) : "";
      page.paragraph(sheet::entry_at, line.requirement.path + place + ": " + line.requirement.says);
      page.paragraph(count_at, line.says, Ink::soft);
    }
  }
  sheet::put_notes(page, answer.notes);
  return page.take();
}

}  // namespace rigproof::app
