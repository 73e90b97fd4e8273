#include <fmt/format.h>

#include <span>

#include "sheet/html_bar.hpp"
#include "sheet/html_pieces.hpp"
#include "sheet/margin_bar.hpp"
#include "sheet/order.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

std::string name_of(const Claim& claim) {
  std::string out = isolated(claim.id);
  if (!claim.where.empty()) out += ", " + isolated(claim.where);
  return out;
}

void put_instrument(HtmlPage& page, const Claim& claim) {
  page.out += "<span class=\"draw\">";
  if (claim.margin_frac || claim.verdict == Verdict::unknown) put_margin_bar(page, claim);
  std::string caption;
  if (claim.verdict == Verdict::unknown) {
    for (const Missing& cell : claim.missing)
      caption +=
          fmt::format("{}{}", caption.empty() ? "absent: " : "; ", isolated(cell_words(cell)));
    if (caption.empty()) caption = isolated(claim.source);
  } else if (!claim.margin_frac && claim.value && claim.limit)
    caption =
        fmt::format("is {}; {}", isolated(words(*claim.value)), isolated(words(*claim.limit)));
  if (!caption.empty()) page.out += fmt::format("<span class=\"cap\">{}</span>", caption);
  page.out += "</span>\n";
}

void put_near(HtmlPage& page, const Claim& claim) {
  const std::string_view verdict = rigproof::name_of(claim.verdict);
  const bool told = claim.grade == Grade::tells;  // excludes nothing: not to look like a must
  std::string& out = page.out;
  out += fmt::format(
      "<li class=\"row {0}{1}\"><details><summary><span class=\"kind\"></span><span "
      "class=\"word\">{0}{2}</span>\n",
      verdict, told ? " told" : "", told ? " <small>told only</small>" : "");
  out += fmt::format("<div class=\"say\"><h3>{}</h3>", isolated(claim.statement));
  if (const std::string numbers = html_escape(numbers_words(claim)); !numbers.empty())
    out += fmt::format("<p class=\"nums\">{}</p>", numbers);
  if (claim.measured)
    out += fmt::format("<p class=\"seen\">{}</p>", isolated(measured_words(claim)));
  if (const std::string todo = to_do_words(claim); !todo.empty())
    out += fmt::format("<p>What to do: {}</p>", isolated(todo));
  out += fmt::format(
      "<p class=\"small\">{} <span class=\"more\" aria-hidden=\"true\"><u></u></span></p></div>\n",
      name_of(claim));
  put_instrument(page, claim);
  out += "</summary>\n";
  put_working(page, claim);
  out += "</details></li>\n";
}

void put_short(HtmlPage& page, const Claim& claim) {
  std::string room = html_escape(room_words(claim));
  if (claim.margin_frac && *claim.margin_frac > 0.0)
    room += fmt::format(", {}", percent_words(*claim.margin_frac, 2));
  if (room.empty() && claim.value) room = isolated(words(*claim.value));
  page.out += fmt::format(
      "<li class=\"row\"><details><summary><span class=\"say\"><h4>{}</h4></span><span "
      "class=\"room\">{}</span></summary>\n",
      isolated(claim.statement), room);
  put_working(page, claim);
  page.out += "</details></li>\n";
}

// Many claims of one kind: the one nearest to failing speaks for them, and opens to all of them.
void put_group(HtmlPage& page, std::span<const Claim* const> claims) {
  page.out += fmt::format(
      "<li class=\"row\"><details><summary><span class=\"say\"><h4>{}</h4></span><span "
      "class=\"room\">and {} more of {}</span></summary>\n<ol class=\"group\">\n",
      isolated(claims.front()->statement), claims.size() - 1, isolated(claims.front()->id));
  for (const Claim* claim : claims) put_short(page, *claim);
  page.out += "</ol>\n</details></li>\n";
}

}  // namespace

void put_claims(HtmlPage& page, const Sheet& sheet) {
  const ClaimOrder order = split_claims(sheet.build.claims);
  begin_section(page, "claims", "Claims, nearest to failing first",
                verdict_counts(sheet.build.claims));
  page.out += "<div class=\"rows\">\n<div class=\"scale\">";
  put_margin_scale(page);
  page.out += "</div>\n<ol>\n";
  for (const Claim* claim : order.near) put_near(page, *claim);
  page.out += "</ol>\n</div>\n";
  if (!order.plenty.empty()) {
    page.out +=
        fmt::format("<h3 class=\"sub\">{}</h3>\n<div class=\"rows short\"><ol>\n", plenty_words());
    for (std::size_t i = 0; i < order.plenty.size();) {
      const std::size_t run = run_of_one_id(order.plenty, i);
      if (run >= group_size)
        put_group(page, std::span(order.plenty).subspan(i, run));
      else
        for (std::size_t k = 0; k < run; ++k) put_short(page, *order.plenty[i + k]);
      i += run;
    }
    page.out += "</ol></div>\n";
  }
  end_section(page);
}

}  // namespace rigproof::sheet
