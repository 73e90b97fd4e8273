// The ground the HTML pieces stand on: escaping, isolation of foreign text, and the page being
// built.
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/model.hpp"

namespace rigproof::sheet {

/// Cleaned (see clean_text) and with & < > " ' as entities: safe in text and in quoted attributes.
[[nodiscard]] std::string html_escape(std::string_view text);
/// Escaped and in <bdi>: text that runs from right to left leaves its neighbours where they are.
[[nodiscard]] std::string isolated(std::string_view text);
[[nodiscard]] std::string base64(std::span<const unsigned char> bytes);

/// One page in the making.
struct HtmlPage {
  std::string out;
  std::map<std::string, int, std::less<>> items;  ///< part id -> item number on the sheet, from 1
  int drawings = 0;                               ///< for ids of titles and descriptions

  /// A drawing: opens <svg role="img"> with its title and description; both are escaped here.
  void begin_drawing(int width, int height, std::string_view title, std::string_view description);
  /// `<dt>name</dt><dd>html</dd>`; nothing when `html` is empty.
  void fact(std::string_view name, const std::string& html);
};

/// The head of a part of the page: `<section class="part-of"><div class="bar-of"><h2>`...
void begin_section(HtmlPage& page, std::string_view id, std::string_view name,
                   std::string_view note);
void end_section(HtmlPage& page);

}  // namespace rigproof::sheet
