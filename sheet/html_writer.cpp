#include "sheet/html_writer.hpp"

#include <fmt/format.h>

#include "sheet/wording.hpp"

namespace rigproof::sheet {

std::string html_escape(std::string_view text) {
  std::string out;
  for (const char c : clean_text(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string isolated(std::string_view text) {
  return text.empty() ? std::string{} : "<bdi>" + html_escape(text) + "</bdi>";
}

std::string base64(std::span<const unsigned char> bytes) {
  constexpr std::string_view letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t have = bytes.size() - i;
    const unsigned second = have > 1 ? bytes[i + 1] : 0U;
    const unsigned third = have > 2 ? bytes[i + 2] : 0U;
    const unsigned group = static_cast<unsigned>(bytes[i]) << 16U | second << 8U | third;
    out += letters[group >> 18U];
    out += letters[group >> 12U & 63U];
    out += have > 1 ? letters[group >> 6U & 63U] : '=';
    out += have > 2 ? letters[group & 63U] : '=';
  }
  return out;
}

void HtmlPage::begin_drawing(int width, int height, std::string_view title,
                             std::string_view description) {
  ++drawings;
  out += fmt::format(
      "<svg viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\" role=\"img\" "
      "aria-labelledby=\"t{2} d{2}\">"
      "<title id=\"t{2}\">{3}</title><desc id=\"d{2}\">{4}</desc>",
      width, height, drawings, html_escape(title), html_escape(description));
}

void HtmlPage::fact(std::string_view name, const std::string& html) {
  if (!html.empty()) out += fmt::format("<dt>{}</dt><dd>{}</dd>\n", name, html);
}

void begin_section(HtmlPage& page, std::string_view id, std::string_view name,
                   std::string_view note) {
  page.out += fmt::format(
      "<section class=\"part-of\" aria-labelledby=\"{0}\">\n<div class=\"bar-of\"><h2 "
      "id=\"{0}\">{1}</h2>",
      id, name);
  if (!note.empty()) page.out += fmt::format("<p class=\"small\">{}</p>", note);
  page.out += "</div>\n";
}

void end_section(HtmlPage& page) { page.out += "</section>\n"; }

}  // namespace rigproof::sheet
