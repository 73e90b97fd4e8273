#include <fmt/format.h>

#include <algorithm>

#include "sheet/html_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

void put_list(std::string& out, const std::vector<std::string>& sentences, std::string_view sign,
              std::string_view says) {
  for (const std::string& sentence : sentences)
    out += fmt::format(
        "<li><b aria-hidden=\"true\">{}</b><span><span class=\"away\">{}: </span>{}</span></li>",
        sign, says, isolated(sentence));
}

void put_runner_up(std::string& out, const RunnerUp& other) {
  out += fmt::format("<div class=\"swap small\"><p>{}</p>", isolated(runner_up_words(other)));
  if (!other.gains.empty() || !other.loses.empty()) {
    out += "<ul>";
    put_list(out, other.gains, "+", "would gain");
    put_list(out, other.loses, "\xE2\x88\x92", "would lose");
    out += "</ul>";
  }
  out += "</div>";
}

std::string maker_words(const PartLine& part) {
  std::string out = isolated(part.maker);
  if (!part.maker_code.empty())
    out += fmt::format("{}{}", out.empty() ? "" : ", ", isolated(part.maker_code));
  return out;
}

void put_part(HtmlPage& page, const PartLine& part, int item) {
  std::string& out = page.out;
  out += fmt::format(
      "<li id=\"item-{0}\"><span class=\"item\"><span class=\"away\">item </span>{0}</span><div "
      "class=\"body\">\n<h3>{1}</h3>",
      item, isolated(part.place));
  const std::string count =
      part.count > 1 ? fmt::format("{} \xC3\x97 ", part.count) : std::string{};
  const std::string origin =
      part.origin == Origin::chosen
          ? std::string{}
          : fmt::format(" <span class=\"origin\">{}</span>", name_of(part.origin));
  out += fmt::format("<p class=\"name\">{}{}{}</p>", count, isolated(part.name), origin);
  if (const std::string maker = maker_words(part); !maker.empty())
    out += fmt::format("<p class=\"small\">{}</p>", maker);
  if (!part.why.empty()) out += fmt::format("<p>{}</p>", isolated(part.why));
  if (part.because_cost)
    out += fmt::format("<p>{} <a href=\"#against\">Chosen against the numbers.</a></p>",
                       against_words(part));
  if (part.runner_up) put_runner_up(out, *part.runner_up);
  out += "</div></li>\n";
}

}  // namespace

void put_parts(HtmlPage& page, const Sheet& sheet) {
  const bool given = std::ranges::any_of(sheet.build.parts, [](const PartLine& part) {
    return part.runner_up && part.runner_up->others_fixed;
  });
  begin_section(page, "parts", "Parts, by where they are mounted",
                given ? "runner-up: the best other part here, with the rest as it is"
                      : "runner-up: what the best build without the part takes instead");
  page.out += "<div class=\"parts\"><ol class=\"spine\">\n";
  int item = 0;
  for (const PartLine& part : sheet.build.parts) put_part(page, part, ++item);
  page.out += "</ol></div>\n";
  end_section(page);
}

}  // namespace rigproof::sheet
