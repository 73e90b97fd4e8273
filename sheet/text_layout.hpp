// Lines of a terminal: indents, wrapping by columns, and the few escape sequences in use.
#pragma once

#include <string>
#include <string_view>

namespace rigproof::sheet {

enum class Ink { plain, strong, soft, tight, seen };

class TextPage {
 public:
  TextPage(bool color, int width);

  /// Wraps at blanks; the first line starts at `first`, the following at `indent`. A word longer
  /// than the line stands alone. `label`, at most first - label_at columns wide, stands before it.
  void paragraph(int indent, std::string_view text, Ink ink = Ink::plain);
  void labelled(int label_at, std::string_view label, int indent, std::string_view text,
                Ink label_ink = Ink::plain, Ink ink = Ink::plain);
  /// One line as it is.
  void line(int indent, std::string_view text, Ink ink = Ink::plain);
  void blank();  ///< once: after an empty line, nothing
  /// `left` at the left edge, `right` at the right one; on two lines when they would touch.
  void heading(int indent, std::string_view left, std::string_view right);

  [[nodiscard]] std::string painted(std::string_view text, Ink ink) const;
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  bool color_;
  int width_;
  std::string out_;
};

/// Filled up with blanks to `columns`, or as it is when longer.
[[nodiscard]] std::string padded(std::string_view text, int columns);

}  // namespace rigproof::sheet
