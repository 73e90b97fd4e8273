#include "sheet/markdown.hpp"

#include <fmt/format.h>

#include <cctype>
#include <initializer_list>

#include "base/text.hpp"
#include "sheet/margin_bar.hpp"
#include "sheet/order.hpp"
#include "sheet/sources.hpp"
#include "sheet/text.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

constexpr int bar_columns = 31;

std::string md(std::string_view text) { return markdown_escape(text); }

bool is_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; }

// `#`, `-`, `+`, `=`, `>` and `12.` or `12)` begin blocks only at the start of a line.
std::string guard_start(const std::string& text) {
  const std::size_t digits = text.find_first_not_of("0123456789");
  if (digits != std::string::npos && digits > 0 && (text[digits] == '.' || text[digits] == ')') &&
      (digits + 1 == text.size() || text[digits + 1] == ' '))
    return text.substr(0, digits) + '\\' + text.substr(digits);
  if (!text.empty() && std::string_view("#-+=>:").find(text[0]) != std::string_view::npos)
    return '\\' + text;
  return text;
}

void put_row(std::string& out, std::initializer_list<std::string> cells) {
  out += '|';
  for (const std::string& cell : cells) out += fmt::format(" {} |", cell);
  out += '\n';
}

void put_head(std::string& out, const Sheet& sheet) {
  const PlannedBuild& build = sheet.build;
  out += fmt::format("# {}\n\n", md(sheet.title));
  if (!sheet.job.empty()) out += md(sheet.job) + "\n\n";
  if (!sheet.lead.empty()) out += md(sheet.lead) + "\n\n";
  put_row(out, {"As of", "Markets", "Proof", "Score", "Price", "Claims"});
  put_row(out, {"---", "---", "---", "---", "---", "---"});
  std::string markets;
  std::string prices;
  for (std::size_t i = 0; i < build.markets.size(); ++i)
    markets += fmt::format("{}{}", i == 0 ? "" : ", ", md(build.markets[i]));
  for (std::size_t i = 0; i < build.prices.size(); ++i) {
    prices += fmt::format("{}{}", i == 0 ? "" : ", ", to_string(build.prices[i]));
    if (i < sheet.markets.size())
      prices += fmt::format(" of {} ({})", to_string(sheet.markets[i].budget),
                            change_words(sheet.markets[i].left, "over", "left"));
  }
  put_row(out, {date_words(sheet.as_of), markets, md(sheet.proof.status), money_words(build.score),
                prices, verdict_counts(build.claims)});
  if (!sheet.drawn_by.empty()) out += fmt::format("\nDrawn by {}.\n", md(sheet.drawn_by));
  if (!sheet.catalog_note.empty()) out += fmt::format("\n{}\n", md(sheet.catalog_note));
}

void put_fact(std::string& out, std::string_view name, const std::string& text) {
  if (!text.empty()) out += fmt::format("- {}: {}\n", name, text);
}

void put_wrong(std::string& out, const Sheet& sheet) {
  const std::vector<const Claim*> claims = what_goes_wrong(sheet.build.claims);
  if (claims.empty()) return;
  out += "\n## What would go wrong\n\n";
  for (const Claim* claim : claims) {
    out += "1. ";
    if (!claim->consequence.empty()) out += fmt::format("**{}** ", md(claim->consequence));
    out += fmt::format("{}: {}", claim->verdict == Verdict::fails ? "Not so" : "Doubtful",
                       md(claim->statement));
    if (const std::string numbers = room_words(*claim); !numbers.empty())
      out += fmt::format(" ({})", md(numbers));
    if (const std::string todo = to_do_words(*claim); !todo.empty())
      out += fmt::format(" What to do: {}.", md(todo));
    out += '\n';
  }
}

void put_working(std::string& out, const Claim& claim) {
  put_fact(out, "Outcome", md(outcome_words(claim)));
  put_fact(out, "Compared", md(claim.working.equation));
  if (claim.working.cells.empty()) return;
  out += '\n';
  put_row(out, {"What went in", "Value", "From"});
  put_row(out, {"---", "---", "---"});
  const std::string source = common_source(claim.working);
  for (const WorkingCell& cell : claim.working.cells)
    put_row(out,
            {md(cell_meaning(cell)), md(cell_value(cell)), md(cell_source(cell, source.empty()))});
  if (!source.empty()) out += fmt::format("\nAll of it from: {}\n", md(source));
  if (claim.working.cells_left_out > 0)
    out += fmt::format("\nAnd {} that went in as well.\n",
                       counted(claim.working.cells_left_out, "more cell"));
}

void put_claim(std::string& out, const Claim& claim) {
  out += fmt::format("\n### {}: {}\n\n", rigproof::name_of(claim.verdict), md(claim.statement));
  if (claim.margin_frac || claim.verdict == Verdict::unknown)
    out += fmt::format("`{}`\n\n", margin_bar_text(claim, bar_columns));
  put_fact(out, "Room", md(numbers_words(claim)));
  put_fact(out, "Value", claim.value ? md(words(*claim.value)) : std::string{});
  put_fact(out, "Limit", claim.limit ? md(words(*claim.limit)) : std::string{});
  put_fact(out, "Seen", md(measured_words(claim)));
  for (const Missing& cell : claim.missing)
    put_fact(out, "Absent", md(cell_words(cell)) + (cell.how.empty() ? "" : "; " + md(cell.how)));
  put_fact(out, "If not so", md(claim.consequence));
  put_fact(out, "What to do", md(to_do_words(claim)));
  std::string name = md(claim.id);
  if (!claim.where.empty()) name += fmt::format(" ({})", md(claim.where));
  if (!claim.load.empty()) name += ", load " + md(claim.load);
  name += fmt::format(", {}, {}", rigproof::name_of(claim.grade), rigproof::name_of(claim.basis));
  put_fact(out, "Claim", name);
  put_fact(out, "Source", md(claim.source));
  put_working(out, claim);
}

void put_claims(std::string& out, const Sheet& sheet) {
  const ClaimOrder order = split_claims(sheet.build.claims);
  out += "\n## Claims, nearest to failing first\n\n";
  out += fmt::format(
      "Bars run from {} over the limit to {} of room: `|` limit, `#` middle, `/` 90 % interval, "
      "`o` measured, "
      "`?` unknown.\n",
      percent_words(-bar_low_frac), percent_words(bar_high_frac));
  for (const Claim* claim : order.near) put_claim(out, *claim);
  if (order.plenty.empty()) return;
  out += "\n### " + plenty_words() + "\n\n";
  put_row(out, {"Claim", "Room", "Value", "Limit", "Basis and source"});
  put_row(out, {"---", "---", "---", "---", "---"});
  for (const Claim* claim : order.plenty)
    put_row(out, {md(claim->statement), md(numbers_words(*claim)),
                  claim->value ? md(words(*claim->value)) : "",
                  claim->limit ? md(words(*claim->limit)) : "", md(grounds_words(*claim))});
}

// The workings of what is only a row of the table above; long, so they come last.
void put_short_workings(std::string& out, const Sheet& sheet) {
  const ClaimOrder order = split_claims(sheet.build.claims);
  if (order.plenty.empty()) return;
  out += "\n## Workings of the claims with room to spare\n";
  for (const Claim* claim : order.plenty) {
    out += fmt::format("\n### {}{}\n\n", md(claim->id),
                       claim->where.empty() ? "" : fmt::format(" ({})", md(claim->where)));
    put_working(out, *claim);
  }
}

void put_parts(std::string& out, const Sheet& sheet) {
  out += "\n## Parts, by where they are mounted\n";
  int item = 0;
  for (const PartLine& part : sheet.build.parts) {
    out += fmt::format("\n### {}: {}{}\n\n", md(part.place),
                       part.count > 1 ? fmt::format("{} x ", part.count) : "", md(part.name));
    put_fact(out, "Item", fmt::format("{}, {}, {}", ++item, md(part.id), name_of(part.origin)));
    put_fact(out, "Maker",
             md(part.maker + (part.maker_code.empty() ? "" : ", " + part.maker_code)));
    put_fact(out, "Why", md(part.why));
    if (!part.runner_up) continue;
    out += fmt::format("- {}\n", md(runner_up_words(*part.runner_up)));
    for (const std::string& gain : part.runner_up->gains) put_fact(out, "Would gain", md(gain));
    for (const std::string& loss : part.runner_up->loses) put_fact(out, "Would lose", md(loss));
  }
}

void put_against(std::string& out, const Sheet& sheet) {
  bool first = true;
  for (const PartLine& part : sheet.build.parts) {
    if (part.origin != Origin::forced) continue;
    if (first) out += "\n## Chosen against the numbers\n\n";
    first = false;
    out +=
        fmt::format("- **{}**, because: {} {}\n", md(part.name), md(part.why), against_words(part));
  }
}

std::string quantity_cell(const std::optional<Quantity>& quantity) {
  return quantity ? md(words(*quantity)) : std::string{};
}

void put_titles(std::string& out, const Sheet& sheet) {
  if (sheet.build.titles.empty()) return;
  out += "\n## Frame time, rendered frames\n\n";
  put_row(out, {"Title", "Setting", "Target", "Frame time", "Slowest 1 % begin at", "Rendered",
                "Displayed"});
  put_row(out, {"---", "---", "---", "---", "---", "---", "---"});
  for (const TitleLine& title : sheet.build.titles) {
    const std::string time =
        title.frame_time_ms ? md(words(*title.frame_time_ms)) : "unknown: " + md(title.why_unknown);
    put_row(out, {md(title.name), md(setting_words(title)), goal_words(title), time,
                  quantity_cell(title.p99_frame_time_ms), quantity_cell(title.rendered_fps),
                  quantity_cell(title.displayed_fps)});
  }
}

void put_market(std::string& out, const MarketPrices& market, const Sheet& sheet) {
  out += fmt::format("\n### {}\n\n", md(market.market));
  put_row(out, {"Part", "Count", "Each", "Line", "Seller", "Offer", "Seen", "Tax", "Commission"});
  put_row(out, {"---", "--:", "--:", "--:", "---", "---", "---", "---", "---"});
  for (const PriceLine& line : prices_in_order(market, sheet.build.parts))
    put_row(out, {md(line.part_name), std::to_string(line.count), to_string(line.each),
                  to_string(line.line), line.seller.empty() ? "none" : md(line.seller),
                  md(offer_words(line)), seen_words(line), md(line.tax_note),
                  line.commission ? "yes" : "no"});
  out += fmt::format("\nTotal {} of {}; {}. Delivery: at most {} more.\n", to_string(market.total),
                     to_string(market.budget), change_words(market.left, "over", "left"),
                     to_string(market.shipping_upper));
  if (!market.note.empty()) out += fmt::format("\n{}\n", md(market.note));
}

void put_prices(std::string& out, const Sheet& sheet) {
  if (sheet.markets.empty()) return;
  out += "\n## Prices\n\nCommission `yes`: the link to the offer earns the publisher money.\n";
  for (const MarketPrices& market : sheet.markets) put_market(out, market, sheet);
}

void put_look_up(std::string& out, const Sheet& sheet) {
  const std::vector<MissingCount> cells = cells_to_look_up(sheet.build.claims);
  if (cells.empty()) return;
  out += "\n## What is not known, and how to find out\n\n";
  for (const MissingCount& entry : cells) {
    const std::string cell = cell_words(entry.cell);
    out += fmt::format("- {}: {}{}\n", md(entry.cell.how.empty() ? cell : entry.cell.how),
                       hanging_words(entry.claims, entry.ranges),
                       entry.cell.how.empty() ? "" : fmt::format(" ({})", md(cell)));
  }
}

void put_grounds(std::string& out, const Sheet& sheet) {
  if (!sheet.cautions.empty()) out += "\n## Cautions\n\n";
  for (const Caution& caution : sheet.cautions)
    out += fmt::format("- **{}.** {} ({})\n", md(caution.subject), md(caution.text),
                       md(caution.source));
  if (!sheet.disclosures.empty()) out += "\n## Disclosures\n\n";
  for (const Disclosure& disclosure : sheet.disclosures)
    out += fmt::format("- **{}.** {}\n", md(disclosure.subject), md(disclosure.text));
  put_look_up(out, sheet);
  const Proof& proof = sheet.proof;
  out += fmt::format("\n## What the proof speaks of\n\n{}. {}\n\n", guard_start(md(proof.status)),
                     md(proof.note));
  if (was_searched(proof)) {
    put_fact(out, "No build scores above", bound_words(proof));
    put_fact(out, "Nodes looked at", grouped(proof.nodes));
    put_fact(out, "Builds judged whole", grouped(proof.leaves));
    for (const PrunedLine& line : proof.pruned)
      put_fact(out, "Left out", fmt::format("{}: {}", grouped(line.count), md(line.why)));
  }
  if (sheet.part_count > 0)
    put_fact(out, "Parts in the catalog", grouped(static_cast<long long>(sheet.part_count)));
  if (!sheet.notes.empty()) out += "\n## Notes\n\n";
  for (const std::string& note : sheet.notes) out += fmt::format("- {}\n", md(note));
  const std::vector<SourceUse> sources = sources_of(sheet);
  if (!sources.empty()) out += "\n## Sources\n\n";
  for (const SourceUse& source : sources)
    out += fmt::format("- {} ({})\n", md(source.source), source.uses);
}

}  // namespace

std::string markdown_escape(std::string_view text) {
  const std::string clean = clean_text(text);
  std::string out;
  for (std::size_t i = 0; i < clean.size(); ++i) {
    const char c = clean[i];
    const bool inside_word =
        i > 0 && i + 1 < clean.size() && is_word(clean[i - 1]) && is_word(clean[i + 1]);
    if (c == '<') {
      out += "&lt;";
    } else if (c == '&') {
      out += "&amp;";
    } else if (std::string_view("\\`*[]|~$").find(c) != std::string_view::npos ||
               (c == '_' && !inside_word)) {
      out += '\\';
      out += c;
    } else {
      out += c;
    }
  }
  return guard_start(std::string(trim(out)));
}

std::string sheet_markdown(const Sheet& sheet) {
  std::string out;
  put_head(out, sheet);
  put_wrong(out, sheet);
  put_claims(out, sheet);
  put_parts(out, sheet);
  put_against(out, sheet);
  put_titles(out, sheet);
  out += physics_markdown(sheet);
  put_prices(out, sheet);
  put_grounds(out, sheet);
  put_short_workings(out, sheet);
  return out;
}

}  // namespace rigproof::sheet
