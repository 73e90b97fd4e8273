// What a reader needs who knows nothing of the trade: what would go wrong, what was chosen against
// the numbers, where hands are at risk, and what the publisher's interests are.
#include <fmt/format.h>

#include <algorithm>

#include "sheet/html_pieces.hpp"
#include "sheet/order.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {

void put_wrong(HtmlPage& page, const Sheet& sheet) {
  const std::vector<const Claim*> claims = what_goes_wrong(sheet.build.claims);
  if (claims.empty()) return;
  begin_section(page, "wrong", "What would go wrong",
                counted(static_cast<long long>(claims.size()), "reason not to buy this build",
                        "reasons not to buy this build"));
  page.out += "<ol class=\"wrong\">\n";
  for (const Claim* claim : claims) {
    const bool plain = !claim->consequence.empty();
    page.out +=
        fmt::format("<li><h3>{}</h3>", isolated(plain ? claim->consequence : claim->statement));
    std::string asked =
        plain ? fmt::format("{} {}",
                            claim->verdict == Verdict::fails ? "Asked for, and not so:"
                                                             : "Asked for, and doubtful:",
                            isolated(claim->statement))
              : std::string{};
    if (const std::string numbers = room_words(*claim); !numbers.empty())
      asked += fmt::format(" <span class=\"tight\">{}</span>", html_escape(numbers));
    if (!asked.empty()) page.out += fmt::format("<p>{}</p>", asked);
    if (const std::string todo = to_do_words(*claim); !todo.empty())
      page.out +=
          fmt::format("<p><span class=\"lead-in\">What to do:</span> {}</p>", isolated(todo));
    page.out += "</li>\n";
  }
  page.out += "</ol>\n";
  end_section(page);
}

void put_against(HtmlPage& page, const Sheet& sheet) {
  const auto forced = [](const PartLine& part) { return part.origin == Origin::forced; };
  if (std::ranges::none_of(sheet.build.parts, forced)) return;
  begin_section(page, "against", "Chosen against the numbers", "a person's choice, and its cost");
  page.out += "<ul class=\"list\">\n";
  for (const PartLine& part : sheet.build.parts) {
    if (!forced(part)) continue;
    page.out += fmt::format("<li><h3>{}</h3>", isolated(part.name));
    if (!part.why.empty()) page.out += fmt::format("<p>Because: {}</p>", isolated(part.why));
    page.out += fmt::format("<p>{}</p></li>\n", against_words(part));
  }
  page.out += "</ul>\n";
  end_section(page);
}

void put_cautions(HtmlPage& page, const Sheet& sheet) {
  if (sheet.cautions.empty()) return;
  begin_section(page, "cautions", "Cautions", "where hands or money are at risk");
  page.out += "<ul class=\"cautions\">\n";
  for (const Caution& caution : sheet.cautions) {
    page.out +=
        fmt::format("<li><h3>{}</h3><p>{}</p>", isolated(caution.subject), isolated(caution.text));
    if (!caution.source.empty())
      page.out += fmt::format("<p class=\"small\">{}</p>", isolated(caution.source));
    page.out += "</li>\n";
  }
  page.out += "</ul>\n";
  end_section(page);
}

void put_disclosures(HtmlPage& page, const Sheet& sheet) {
  if (sheet.disclosures.empty()) return;
  begin_section(page, "disclosures", "Disclosures", "what the publisher gains, and what is real");
  page.out += "<dl class=\"facts\">\n";
  for (const Disclosure& disclosure : sheet.disclosures)
    page.fact(isolated(disclosure.subject), isolated(disclosure.text));
  page.out += "</dl>\n";
  end_section(page);
}

}  // namespace rigproof::sheet
