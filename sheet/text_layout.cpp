#include "sheet/text_layout.hpp"

#include <algorithm>
#include <vector>

#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

std::vector<std::string> wrapped(std::string_view text, int columns) {
  std::vector<std::string> lines(1);
  int used = 0;
  while (!text.empty()) {
    const std::size_t start = text.find_first_not_of(' ');
    if (start == std::string_view::npos) break;
    text.remove_prefix(start);
    const std::string_view word = text.substr(0, text.find(' '));
    text.remove_prefix(word.size());
    const int wide = columns_of(word);
    if (used > 0 && used + 1 + wide > columns) {
      lines.emplace_back();
      used = 0;
    }
    if (used > 0) lines.back() += ' ';
    lines.back() += word;
    used += wide + (used > 0 ? 1 : 0);
  }
  return lines;
}

std::string blanks(int count) {
  return std::string(static_cast<std::size_t>(std::max(count, 0)), ' ');
}

}  // namespace

std::string padded(std::string_view text, int columns) {
  return std::string(text) + blanks(columns - columns_of(text));
}

TextPage::TextPage(bool color, int width) : color_(color), width_(std::clamp(width, 60, 120)) {}

std::string TextPage::painted(std::string_view text, Ink ink) const {
  if (!color_ || ink == Ink::plain || text.empty()) return std::string(text);
  const char* code = "";
  switch (ink) {
    case Ink::plain:
      break;
    case Ink::strong:
      code = "\x1b[1m";
      break;
    case Ink::soft:
      code = "\x1b[2m";
      break;
    case Ink::tight:
      code = "\x1b[1;31m";
      break;
    case Ink::seen:
      code = "\x1b[36m";
      break;
  }
  return code + std::string(text) + "\x1b[0m";
}

void TextPage::paragraph(int indent, std::string_view text, Ink ink) {
  for (const std::string& piece : wrapped(text, width_ - indent)) line(indent, piece, ink);
}

void TextPage::labelled(int label_at, std::string_view label, int indent, std::string_view text,
                        Ink label_ink, Ink ink) {
  const int room = indent - label_at;
  const bool beside = columns_of(label) < room;
  if (!beside) line(label_at, label, label_ink);
  bool first = beside;
  for (const std::string& piece : wrapped(text, width_ - indent)) {
    if (!first) {
      line(indent, piece, ink);
      continue;
    }
    first = false;
    const std::string gap = blanks(piece.empty() ? 0 : room - columns_of(label));
    out_ += blanks(label_at) + painted(label, label_ink) + gap + painted(piece, ink) + '\n';
  }
}

void TextPage::line(int indent, std::string_view text, Ink ink) {
  if (!text.empty()) out_ += blanks(indent) + painted(text, ink);
  out_ += '\n';
}

void TextPage::blank() {
  if (!out_.ends_with("\n\n")) out_ += '\n';
}

void TextPage::heading(int indent, std::string_view left, std::string_view right) {
  const int gap = width_ - indent - columns_of(left) - columns_of(right);
  if (right.empty() || gap < 2) {
    paragraph(indent, left, Ink::strong);
    if (!right.empty()) paragraph(indent, right, Ink::soft);
    return;
  }
  out_ +=
      blanks(indent) + painted(left, Ink::strong) + blanks(gap) + painted(right, Ink::soft) + '\n';
}

}  // namespace rigproof::sheet
