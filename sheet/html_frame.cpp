// The frame with its zone marks and the title block. Layout after [iso-5457] and [iso-7200].
#include <fmt/format.h>

#include "sheet/html_bar.hpp"
#include "sheet/html_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

// An even number of zones, so that the middle mark falls on a border.
void put_zones(std::string& out, std::string_view side, std::string_view marks) {
  out += fmt::format("<div class=\"zones {}\" aria-hidden=\"true\">", side);
  for (std::size_t i = 0; i < marks.size(); ++i)
    out += fmt::format("<i{}>{}</i>", i == marks.size() / 2 ? " class=\"mid\"" : "", marks[i]);
  out += "</div>";
}

void cell(std::string& out, std::string_view width, std::string_view name,
          const std::string& html) {
  if (!html.empty())
    out += fmt::format("<div class=\"{}\"><dt>{}</dt><dd>{}</dd></div>\n", width, name, html);
}

std::string prices(const PlannedBuild& build) {
  std::string out;
  for (std::size_t i = 0; i < build.prices.size() && i < build.markets.size(); ++i)
    out += fmt::format("{}{} in {}", i == 0 ? "" : ", ", to_string(build.prices[i]),
                       isolated(build.markets[i]));
  return out;
}

void put_title_block(HtmlPage& page, const Sheet& sheet, const FrameOf& frame) {
  std::string& out = page.out;
  out += "<dl class=\"block\" aria-label=\"Title block\">\n";
  cell(out, "w7", "Title", fmt::format("<span class=\"big\">{}</span>", isolated(sheet.title)));
  cell(out, "w5", "Sheet", fmt::format("{} of {}: {}", frame.number, frame.of, frame.name));
  cell(out, "w3", "Document", isolated(sheet.file_stem));
  cell(out, "w2", "As of",
       date_words(sheet.as_of).empty()
           ? std::string("not stated")
           : fmt::format("<time datetime=\"{0}\">{0}</time>", date_words(sheet.as_of)));
  cell(out, "w2", "Proof", isolated(sheet.proof.status));
  cell(out, "w2", "Score",
       money_words(sheet.build.score).empty() ? "none" : money_words(sheet.build.score));
  cell(out, "w3", "Drawn by", sheet.drawn_by.empty() ? "not stated" : isolated(sheet.drawn_by));
  cell(out, "w7", "Markets and prices", sheet.build.prices.empty() ? "none" : prices(sheet.build));
  cell(out, "w5", "Claims", verdict_counts(sheet.build.claims));
  out += "</dl>\n";
}

}  // namespace

void begin_frame(HtmlPage& page, const FrameOf& frame) {
  page.out += fmt::format(
      "<section class=\"sheet\" id=\"sheet-{0}\" aria-label=\"Sheet {0} of {1}: {2}\">\n",
      frame.number, frame.of, frame.name);
  for (const auto* side : {"zt", "zb"}) put_zones(page.out, side, "12345678");
  for (const auto* side : {"zl", "zr"}) put_zones(page.out, side, "ABCDEF");
  page.out += "\n<div class=\"inner\">\n";
}

void end_frame(HtmlPage& page, const Sheet& sheet, const FrameOf& frame) {
  page.out += fmt::format("<div class=\"foot{}\">\n", frame.with_key ? "" : " bare");
  if (frame.with_key) put_key(page);
  put_title_block(page, sheet, frame);
  page.out += "</div>\n</div>\n</section>\n";
}

}  // namespace rigproof::sheet
