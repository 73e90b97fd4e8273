#include "sheet/text_claims.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "sheet/margin_bar.hpp"
#include "sheet/order.hpp"
#include "sheet/text.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int verdict_at = 2;
constexpr int body_at = 12;
constexpr int bar_columns = 31;

Ink ink_of(const Claim& claim) {
  const bool loose = claim.verdict == Verdict::holds || claim.verdict == Verdict::unknown;
  return loose ? Ink::strong : Ink::tight;
}

// `fit.gpu-length (front), must, load title`
std::string name_line(const Claim& claim) {
  std::string out = clean_text(claim.id);
  if (!claim.where.empty()) out += fmt::format(" ({})", clean_text(claim.where));
  if (claim.grade == Grade::tells) out += ", tells only";
  if (!claim.load.empty()) out += ", load " + clean_text(claim.load);
  out += "; " + grounds_words(claim);
  return out;
}

std::string value_line(const Claim& claim) {
  std::string out;
  if (claim.value) out = words(*claim.value);
  if (claim.limit) out += fmt::format("{}{}", out.empty() ? "limit: " : "; ", words(*claim.limit));
  return out;
}

void put_missing(TextPage& page, const Claim& claim) {
  for (const Missing& cell : claim.missing) {
    std::string out = "absent: " + cell_words(cell);
    if (!cell.how.empty()) out += "; " + clean_text(cell.how);
    page.paragraph(body_at, out, claim.verdict == Verdict::unknown ? Ink::strong : Ink::soft);
  }
}

void put_working(TextPage& page, const Claim& claim) {
  if (!claim.working.equation.empty())
    page.paragraph(body_at, "compared: " + clean_text(claim.working.equation), Ink::soft);
  for (const WorkingCell& cell : claim.working.cells)
    page.paragraph(body_at + 2, fmt::format("{}: {}", cell_meaning(cell), cell_value(cell)),
                   Ink::soft);
  if (claim.working.cells_left_out > 0)
    page.paragraph(body_at + 2,
                   fmt::format("and {}", counted(claim.working.cells_left_out, "more cell")),
                   Ink::soft);
}

void put_folded(TextPage& page, const Claim& claim) {
  std::string out = clean_text(claim.statement);
  const std::string room = room_words(claim);
  if (!room.empty()) out += met_exactly(claim) ? " Exactly at the limit." : " " + room + ".";
  page.labelled(verdict_at, "holds", body_at, out);
}

}  // namespace

std::string margin_bar_text(const Claim& claim, int columns) {
  RP_EXPECT(columns >= 12 && columns <= 80);
  const MarginBar bar = margin_bar(claim);
  const double per_frac = (columns - 1) / (bar_high_frac - bar_low_frac);
  const auto cell = [&](double frac) {
    const double place = std::round((frac - bar_low_frac) * per_frac);
    return static_cast<int>(std::clamp(place, 0.0, static_cast<double>(columns - 1)));
  };
  std::string out(static_cast<std::size_t>(columns), bar.unknown ? ' ' : '.');
  const auto mark = [&](int at, char sign) { out[static_cast<std::size_t>(at)] = sign; };
  const auto fill = [&](int from, int to, char sign) {
    for (int i = std::min(from, to); i <= std::max(from, to); ++i) mark(i, sign);
  };
  if (bar.unknown)
    for (int i = 0; i < columns; i += 2) mark(i, '-');
  if (bar.middle) fill(cell(0.0), cell(*bar.middle), '=');
  if (bar.spread) fill(cell(bar.spread->low), cell(bar.spread->high), '/');
  mark(cell(0.0), '|');
  if (bar.unknown) mark(cell(bar_high_frac / 2), '?');
  const auto sign_at = [&](double frac, char inside) {
    const char sign = frac > bar_high_frac ? '>' : frac < bar_low_frac ? '<' : inside;
    mark(cell(frac), sign);
  };
  if (bar.middle) sign_at(*bar.middle, '#');
  if (bar.measured) sign_at(*bar.measured, 'o');
  return out;
}

void put_claim(TextPage& page, const Claim& claim) {
  page.labelled(verdict_at, rigproof::name_of(claim.verdict), body_at, clean_text(claim.statement),
                ink_of(claim), Ink::strong);
  const std::string numbers = numbers_words(claim);
  const bool barred = claim.margin_frac || claim.verdict == Verdict::unknown;
  const std::string bar = barred ? margin_bar_text(claim, bar_columns) : std::string{};
  if (barred && !numbers.empty())
    page.labelled(body_at, bar, body_at + bar_columns + 2, numbers, ink_of(claim));
  else if (barred)
    page.line(body_at, bar);
  else if (!numbers.empty())
    page.paragraph(body_at, numbers);
  if (const std::string value = value_line(claim); !value.empty()) page.paragraph(body_at, value);
  if (claim.measured) page.paragraph(body_at, measured_words(claim), Ink::seen);
  put_missing(page, claim);
  if (const std::string todo = to_do_words(claim); !todo.empty())
    page.paragraph(body_at, "remedy: " + todo);
  page.paragraph(body_at, name_line(claim), Ink::soft);
}

void put_claims(TextPage& page, const std::vector<Claim>& claims, bool whole) {
  const ClaimOrder order = split_claims(claims);
  page.heading(0, "CLAIMS, nearest to failing first", verdict_counts(claims));
  if (!order.near.empty())
    page.paragraph(0,
                   fmt::format("Bars: {} over the limit to {} of room; | limit, # middle, "
                               "/ 90 % interval, o measured, ? unknown.",
                               percent_words(-bar_low_frac), percent_words(bar_high_frac)),
                   Ink::soft);
  for (const Claim* claim : order.near) {
    put_claim(page, *claim);
    if (whole) put_working(page, *claim);
  }
  if (order.plenty.empty()) return;
  page.blank();
  page.paragraph(0, plenty_words(), Ink::soft);
  for (std::size_t i = 0; i < order.plenty.size(); ++i) {
    const Claim& claim = *order.plenty[i];
    put_folded(page, claim);
    const std::size_t run = run_of_one_id(order.plenty, i);
    if (whole || run < group_size) continue;
    page.paragraph(body_at, fmt::format("and {} more of {}", run - 1, clean_text(claim.id)),
                   Ink::soft);
    i += run - 1;
  }
}

void put_wrong(TextPage& page, const std::vector<Claim>& claims) {
  const std::vector<const Claim*> wrong = what_goes_wrong(claims);
  if (wrong.empty()) return;
  page.heading(0, "WHAT WOULD GO WRONG", "");
  for (const Claim* claim : wrong) {
    const std::string& says = claim->consequence.empty() ? claim->statement : claim->consequence;
    page.labelled(verdict_at, "-", verdict_at + 2, clean_text(says), Ink::tight, Ink::strong);
    if (const std::string todo = to_do_words(*claim); !todo.empty())
      page.paragraph(verdict_at + 2, "what to do: " + todo);
  }
  page.blank();
}

void put_look_up(TextPage& page, const std::vector<Claim>& claims) {
  const std::vector<MissingCount> cells = cells_to_look_up(claims);
  if (cells.empty()) return;
  page.blank();
  page.heading(0, "NOT KNOWN, and how to find out", "");
  for (const MissingCount& entry : cells) {
    const std::string cell = cell_words(entry.cell);
    page.labelled(verdict_at, "-", verdict_at + 2,
                  entry.cell.how.empty() ? cell : clean_text(entry.cell.how));
    page.paragraph(verdict_at + 2,
                   fmt::format("{}; {}", hanging_words(entry.claims, entry.ranges), cell),
                   Ink::soft);
  }
}

}  // namespace rigproof::sheet
