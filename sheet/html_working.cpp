// What a claim opens to: the outcome in sentences, what is compared, every cell that went in, and
// what the claim stands on.
#include <fmt/format.h>

#include "sheet/html_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

std::string items_of(const HtmlPage& page, const Claim& claim) {
  std::string out;
  for (const std::string& id : claim.subjects) {
    if (!out.empty()) out += ", ";
    const auto item = page.items.find(id);
    out += item == page.items.end()
               ? isolated(id)
               : fmt::format("<a href=\"#item-{0}\">item {0}</a> {1}", item->second, isolated(id));
  }
  return out;
}

std::string missing_of(const Claim& claim) {
  std::string out;
  for (const Missing& cell : claim.missing) {
    out += fmt::format("{}{}", out.empty() ? "" : "<br>", isolated(cell_words(cell)));
    if (!cell.how.empty()) out += ": " + isolated(cell.how);
  }
  return out;
}

void put_cell(std::string& out, const WorkingCell& cell, bool with_source) {
  out += fmt::format(
      "<tr role=\"row\"><th scope=\"row\" role=\"rowheader\">{}</th><td role=\"cell\">{}</td><td "
      "role=\"cell\" class=\"from\">{}</td></tr>\n",
      isolated(cell_meaning(cell)), isolated(cell_value(cell)),
      isolated(cell_source(cell, with_source)));
}

// Roles are said outright: narrow pages lay the rows out as blocks, which takes them from a table.
void put_cells(std::string& out, const Claim& claim) {
  if (claim.working.cells.empty()) return;
  out +=
      "<table class=\"cells\" role=\"table\"><caption class=\"away\">What went "
      "in</caption>\n<thead "
      "role=\"rowgroup\"><tr role=\"row\"><th scope=\"col\" role=\"columnheader\">What went "
      "in</th><th scope=\"col\" role=\"columnheader\">Value</th><th scope=\"col\" "
      "role=\"columnheader\">From</th></tr></thead>\n<tbody role=\"rowgroup\">\n";
  const std::string source = common_source(claim.working);
  for (const WorkingCell& cell : claim.working.cells) put_cell(out, cell, source.empty());
  out += "</tbody></table>\n";
  if (!source.empty())
    out += fmt::format("<p class=\"small\">All of it from: {}</p>\n", isolated(source));
  if (claim.working.cells_left_out > 0)
    out += fmt::format("<p class=\"small\">And {} that went in as well.</p>\n",
                       counted(claim.working.cells_left_out, "more cell"));
}

void put_facts(HtmlPage& page, const Claim& claim) {
  page.out += "<dl class=\"ground\">\n";
  std::string name = isolated(claim.id);
  if (!claim.where.empty()) name += ", " + isolated(claim.where);
  page.fact("Claim", name);
  page.fact("Load", isolated(claim.load));
  page.fact("Counts as", claim.grade == Grade::must ? "must: excludes a build"
                                                    : "tells: shown, excludes nothing");
  page.fact("Speaks of", items_of(page, claim));
  page.fact("Basis", std::string(rigproof::name_of(claim.basis)));
  page.fact("Source", isolated(claim.source));
  page.fact("Absent", missing_of(claim));
  page.fact("If not so", isolated(claim.consequence));
  page.fact("What to do", isolated(to_do_words(claim)));
  if (claim.measured) {
    std::string seen = isolated(measured_words(claim));
    if (!claim.measured->log.empty()) seen += ", log " + isolated(claim.measured->log);
    page.fact("Measured", seen);
  }
  page.out += "</dl>\n";
}

}  // namespace

void put_working(HtmlPage& page, const Claim& claim) {
  page.out += "<div class=\"working\">\n";
  if (!claim.working.equation.empty())
    page.out += fmt::format("<p class=\"eq\"><span class=\"small\">compared: </span>{}</p>\n",
                            isolated(claim.working.equation));
  put_cells(page.out, claim);
  page.out += fmt::format("<p class=\"outcome\">{}</p>\n", isolated(outcome_words(claim)));
  put_facts(page, claim);
  page.out += "</div>\n";
}

}  // namespace rigproof::sheet
