// `rigproof power` for people: who draws what under which load, the wall, the plugs, the year, the
// claims, and the working where it is asked for.
#include <fmt/format.h>

#include <cmath>

#include "base/text.hpp"
#include "sheet/power_answer.hpp"
#include "sheet/text.hpp"
#include "sheet/text_claims.hpp"
#include "sheet/text_layout.hpp"
#include "sheet/text_pieces.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int number_columns = 14;

// `345`, `41 to 77`: without its unit, which the heading says.
std::string bare(const std::optional<Quantity>& quantity, double scale = 1.0) {
  if (!quantity) return "?";
  const auto number = [&](double value) { return readable(scale * value); };
  if (!quantity->low || !quantity->high) return number(quantity->value);
  const std::string low = number(*quantity->low);
  const std::string high = number(*quantity->high);
  return low == high ? low : low + " to " + high;
}

std::string right(const std::string& text) {
  const int blanks = number_columns - columns_of(text);
  return std::string(static_cast<std::size_t>(std::max(blanks, 1)), ' ') + text;
}

// A row of the table of loads: its numbers, one a load, then what they are.
void put_row(TextPage& page, const std::vector<std::optional<Quantity>>& by_load,
             const std::string& what, double scale = 1.0) {
  std::string numbers;
  for (const auto& quantity : by_load) numbers += right(bare(quantity, scale));
  page.labelled(0, numbers, number_columns * static_cast<int>(by_load.size()) + 2, what);
}

void put_loads(TextPage& page, const Power& power) {
  page.heading(0, "LOADS, in W", "90 % intervals; ? is not known");
  std::string names;
  for (const std::string& load : power.loads) names += right(load);
  page.line(0, names, Ink::soft);
  for (const PowerPart& part : power.parts) put_row(page, part.by_load, clean_text(part.part));
  page.blank();
  put_row(page, power.sums,
          power.supply.empty() ? std::string("in all; the build has no supply")
                               : fmt::format("what {} gives", clean_text(power.supply)));
  if (!power.share_frac.empty()) put_row(page, power.share_frac, "% of its rating", 100.0);
  for (const PowerWall& wall : power.walls)
    put_row(page, wall.by_load,
            fmt::format("at the wall{}, certified at {}{}",
                        wall.where.empty() ? "" : " in " + clean_text(wall.where), wall.mains,
                        wall.mains_stated ? "" : " (the brief states no mains_v)"));
  page.blank();
}

void put_year(TextPage& page, const Power& power) {
  bool any = false;
  for (const PowerWall& wall : power.walls) {
    if (!wall.kwh_per_year) continue;
    if (!any) page.heading(0, "A YEAR OF USE", power.hours + " a day");
    any = true;
    std::string text = words(*wall.kwh_per_year);
    if (wall.kwh_price)
      text += fmt::format(" at {} {} a kWh", readable(*wall.kwh_price), wall.currency);
    if (wall.cost_per_year) text += ", " + words(*wall.cost_per_year);
    if (wall.cost_beside_other) {
      Quantity apart = *wall.cost_beside_other;
      const bool less = apart.value <= 0.0;
      const bool same = apart.value == 0.0 && !apart.low;
      apart.value = std::abs(apart.value);
      apart.low.reset();
      apart.high.reset();
      text += fmt::format("; beside {}: {}", clean_text(power.other),
                          same ? "the same" : words(apart) + (less ? " less" : " more"));
      if (wall.odds_cheaper && !same)
        text += fmt::format(" (costs less in {} of the cases)", percent_words(*wall.odds_cheaper));
    }
    page.labelled(entry_at, wall.where, entry_at + 6, text);
  }
  if (any) page.blank();
}

void put_plugs(TextPage& page, const Power& power) {
  if (power.plugs.empty()) return;
  page.heading(0, "PLUGS", "with everything at work");
  for (const PowerPlug& plug : power.plugs) {
    std::string text = fmt::format("to {}: ", clean_text(plug.feeds));
    text += plug.contact ? fmt::format("{} a contact, evenly shared, of {} A", words(*plug.contact),
                                       readable(plug.contact_at_most_a))
                         : std::string("current not known");
    if (plug.drop_v && plug.loss_w)
      text += fmt::format("; its cable drops {} and loses {}", words(*plug.drop_v),
                          words(*plug.loss_w));
    page.labelled(entry_at, plug.plug, entry_at + 14, text);
  }
  page.blank();
}

void put_work(TextPage& page, const Power& power) {
  if (power.work.empty()) return;
  page.heading(0, "WORKING", "equations of analysis/power/README.md with the numbers in");
  for (const std::string& line : power.work) page.paragraph(entry_at, clean_text(line));
  page.blank();
}

}  // namespace

std::string power_text(const Power& power, const TextStyle& style) {
  TextPage page(style.color, style.width);
  page.heading(0, clean_text(power.build),
               power.brief.empty() ? std::string("power") : "power; " + clean_text(power.brief));
  page.blank();
  put_loads(page, power);
  put_year(page, power);
  put_plugs(page, power);
  put_claims(page, power.claims, false);
  page.blank();
  put_work(page, power);
  page.paragraph(0,
                 "Never open a supply: it holds a charge that can kill long after it is unplugged. "
                 "Circuits and their wiring are for a licensed electrician; local code decides.",
                 Ink::soft);
  if (!power.notes.empty()) {
    page.blank();
    put_notes(page, power.notes);
  }
  return page.take();
}

}  // namespace rigproof::sheet
