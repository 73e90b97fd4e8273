#include "sheet/html.hpp"

#include <fmt/format.h>

#include <array>

#include "base/contract.hpp"
#include "sheet/assets.hpp"
#include "sheet/html_bar.hpp"
#include "sheet/html_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int sheet_count = 3;
constexpr std::array<std::string_view, sheet_count> names = {"Build and claims",
                                                             "Prices and disclosures", "Grounds"};

// No script, no request: the policy says to the browser what the page promises.
constexpr std::string_view policy =
    "default-src 'none'; style-src 'unsafe-inline'; font-src data:; base-uri 'none'; form-action "
    "'none'";

constexpr std::string_view begins_with = "<!DOCTYPE html>\n<html lang=\"en\"";

std::string font_face(int weight, std::span<const unsigned char> bytes) {
  return fmt::format(
      "@font-face{{font-family:Sheet;font-weight:{};font-style:normal;src:url(data:font/"
      "woff2;base64,{}) format(\"woff2\")}}\n",
      weight, base64(bytes));
}

void put_document_head(HtmlPage& page, const Sheet& sheet) {
  const auto style = style_asset();
  page.out += fmt::format(
      "{}>\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"generator\" "
      "content=\"Rigproof\">\n"
      "<title>{}</title>\n<style>\n",
      begins_with, policy, html_escape(sheet.title));
  page.out += font_face(400, regular_font_asset());
  page.out += font_face(600, strong_font_asset());
  page.out.append(reinterpret_cast<const char*>(style.data()), style.size());
  const auto drawing = drawing_style_asset();
  page.out.append(reinterpret_cast<const char*>(drawing.data()), drawing.size());
  const auto plots = plots_style_asset();
  if (sheet.physics) page.out.append(reinterpret_cast<const char*>(plots.data()), plots.size());
  page.out += "</style>\n</head>\n<body>\n";
}

void put_sum(std::string& out, std::string_view name, const std::string& html,
             std::string_view kind = {}) {
  out += fmt::format("<div{}><dt>{}</dt><dd>{}</dd></div>\n", kind, name, html);
}

// The budget and what delivery may add, under a market's price; the prices themselves stand apart.
std::string beside_price(const Sheet& sheet, std::size_t index) {
  if (index >= sheet.markets.size()) return {};
  const MarketPrices& market = sheet.markets[index];
  return fmt::format("<span class=\"small\">of {}: {}; delivery at most {} more</span>",
                     to_string(market.budget), change_words(market.left, "over", "left"),
                     to_string(market.shipping_upper));
}

void put_head(HtmlPage& page, const Sheet& sheet) {
  const PlannedBuild& build = sheet.build;
  std::string& out = page.out;
  out += fmt::format("<header class=\"head\"><div><h1>{}</h1>\n", isolated(sheet.title));
  if (!sheet.job.empty()) out += fmt::format("<p class=\"job\">{}</p>\n", isolated(sheet.job));
  if (!sheet.lead.empty()) out += fmt::format("<p class=\"lead\">{}</p>\n", isolated(sheet.lead));
  if (!sheet.catalog_note.empty())
    out += fmt::format("<p class=\"note small\">{}</p>\n", isolated(sheet.catalog_note));
  out += "</div>\n<nav aria-label=\"Sheets\"><ol>";
  for (int i = 0; i < sheet_count; ++i)
    out += fmt::format("<li><a href=\"#sheet-{0}\">Sheet {0}: {1}</a></li>", i + 1,
                       names[static_cast<std::size_t>(i)]);
  out += "</ol></nav>\n<dl class=\"sums\">\n";
  for (std::size_t i = 0; i < build.prices.size() && i < build.markets.size(); ++i)
    put_sum(out, fmt::format("Price in {}", isolated(build.markets[i])),
            to_string(build.prices[i]) + beside_price(sheet, i));
  if (const std::string score = money_words(build.score); !score.empty())
    put_sum(out, "Score",
            score + "<span class=\"small\">what it is worth under the brief; no price</span>");
  put_sum(out, "Proof", isolated(sheet.proof.status));
  if (build.odds_all_hold)
    put_sum(out, "Odds that all judged musts hold", odds_words(*build.odds_all_hold));
  out += "</dl>\n</header>\n";
}

void put_build_sheet(HtmlPage& page, const Sheet& sheet) {
  const FrameOf frame{.number = 1, .of = sheet_count, .name = names[0], .with_key = true};
  begin_frame(page, frame);
  put_head(page, sheet);
  put_wrong(page, sheet);
  page.out += "<div class=\"cols\">\n<div>\n";
  put_claims(page, sheet);
  page.out += "</div>\n<div>\n";
  put_drawing(page, sheet);
  put_parts(page, sheet);
  page.out += "</div>\n</div>\n<div class=\"under\">\n";
  put_titles(page, sheet);
  put_physics(page, sheet);
  put_against(page, sheet);
  put_cautions(page, sheet);
  page.out += "</div>\n";
  end_frame(page, sheet, frame);
}

void put_price_sheet(HtmlPage& page, const Sheet& sheet) {
  const FrameOf frame{.number = 2, .of = sheet_count, .name = names[1]};
  begin_frame(page, frame);
  put_prices(page, sheet);
  put_disclosures(page, sheet);
  end_frame(page, sheet, frame);
}

void put_grounds_sheet(HtmlPage& page, const Sheet& sheet) {
  const FrameOf frame{.number = 3, .of = sheet_count, .name = names[2]};
  begin_frame(page, frame);
  page.out += "<div class=\"cols grounds\">\n<div>\n";
  put_look_up(page, sheet);
  put_notes(page, sheet);
  page.out += "</div>\n<div>\n";
  put_proof(page, sheet);
  put_sources(page, sheet);
  page.out += "</div>\n</div>\n";
  end_frame(page, sheet, frame);
}

}  // namespace

std::string sheet_html(const Sheet& sheet) {
  HtmlPage page;
  int item = 0;
  for (const PartLine& part : sheet.build.parts) page.items.emplace(part.id, ++item);
  put_document_head(page, sheet);
  put_drawing_defs(page);
  page.out += "<main>\n";
  put_build_sheet(page, sheet);
  put_price_sheet(page, sheet);
  put_grounds_sheet(page, sheet);
  page.out += "</main>\n</body>\n</html>\n";
  return page.out;
}

std::string on_paper(std::string html, std::string_view paper) {
  RP_EXPECT(html.starts_with(begins_with) && (paper == "light" || paper == "dark"));
  html.insert(begins_with.size(), fmt::format(" data-paper=\"{}\"", paper));
  return html;
}

}  // namespace rigproof::sheet
