// Words about workings, swaps, dates and offers.
#include <fmt/format.h>

#include <array>

#include "base/text.hpp"
#include "sheet/margin_bar.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

std::string interval_words(const Quantity& quantity) {
  const std::string whole = words(quantity);
  const std::size_t open = whole.find(" (");
  return open == std::string::npos ? std::string{} : whole.substr(open);
}

}  // namespace

std::string outcome_words(const Claim& claim) {
  if (claim.verdict == Verdict::unknown) {
    std::string out = "There is no verdict: something it needs is not known.";
    if (claim.limit) out += fmt::format(" The limit is {}.", words(*claim.limit));
    return out;
  }
  std::string out;
  if (claim.value) out = fmt::format("The value is {}", words(*claim.value));
  if (claim.limit)
    out += fmt::format("{}the limit: {}", out.empty() ? "" : "; ", words(*claim.limit));
  if (!out.empty()) out += '.';
  if (const std::string room = room_words(claim); !room.empty()) {
    out += fmt::format(" {}: {}{}", met_exactly(claim) ? "Margin" : "That is", room,
                       interval_words(*claim.margin));
    const std::string share = share_words(claim);
    if (!share.empty() && !met_exactly(claim)) out += ", " + share;
    out += '.';
  }
  const std::string_view verdict = rigproof::name_of(claim.verdict);
  if (!claim.odds)
    out += fmt::format(" Over the whole range that is possible: {}.", verdict);
  else if (*claim.odds == 0.0 || *claim.odds == 1.0)
    out += fmt::format(" It holds in {} draw: {}.", *claim.odds == 0.0 ? "no" : "every", verdict);
  else
    out += fmt::format(" It holds in {} of the draws: {}.", odds_words(*claim.odds), verdict);
  return std::string(trim(out));
}

std::string to_do_words(const Claim& claim) {
  if (claim.verdict == Verdict::holds) return {};
  if (!claim.remedy.empty() || !claim.swap) return clean_text(claim.remedy);
  const Swap& swap = *claim.swap;
  if (swap.in.empty()) return "leave out " + clean_text(swap.out);
  const std::string in =
      (swap.count > 1 ? fmt::format("{} of ", swap.count) : std::string{}) + clean_text(swap.in);
  if (swap.out.empty()) return "add " + in;
  return fmt::format("take {} instead of {}", in, clean_text(swap.out));
}

std::string cell_meaning(const WorkingCell& cell) {
  const std::string meaning = clean_text(cell.meaning.empty() ? cell.column : cell.meaning);
  return cell.part.empty() ? meaning : fmt::format("{}: {}", clean_text(cell.part), meaning);
}

std::string cell_value(const WorkingCell& cell) {
  std::string out = words(cell.value);
  if (!cell.certainty.empty()) out += ", " + clean_text(cell.certainty);
  return out;
}

std::string cell_source(const WorkingCell& cell, bool with_source) {
  std::string out =
      cell_words({.table = cell.table, .row = cell.row, .column = cell.column, .how = {}});
  if (with_source && !cell.source.empty()) out += "; " + clean_text(cell.source);
  return out;
}

std::string common_source(const Working& working) {
  if (working.cells.size() < 2) return {};
  const std::string& first = working.cells.front().source;
  for (const WorkingCell& cell : working.cells)
    if (cell.source != first) return {};
  return first;
}

std::string hanging_words(int unknown, int over_ranges) {
  std::string out;
  if (unknown > 0)
    out = fmt::format("{} without it", counted(unknown, "claim is unknown", "claims are unknown"));
  if (over_ranges > 0)
    out += fmt::format("{}{} given without it, over what is usual", out.empty() ? "" : "; ",
                       counted(over_ranges, "claim is", "claims are"));
  return out;
}

std::string long_date_words(Date date) {
  constexpr std::array<std::string_view, 12> months = {
      "January", "February", "March",     "April",   "May",      "June",
      "July",    "August",   "September", "October", "November", "December"};
  std::string iso = date_words(date);  // YYYY-MM-DD
  if (iso.size() != 10) return iso;
  const auto digits = [&](std::size_t at) {
    const int number = (iso[at] - '0') * 10 + (iso[at + 1] - '0');
    return static_cast<std::size_t>(number);
  };
  return fmt::format("{} {} {}", digits(8), months.at(digits(5) - 1), iso.substr(0, 4));
}

std::string plain_money_words(const Money& money) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> by_name = {
      {{"EUR", "euro"},
       {"USD", "US dollars"},
       {"GBP", "pounds sterling"},
       {"CHF", "Swiss francs"},
       {"CAD", "Canadian dollars"}}};
  std::string text = money_words(money);
  const std::size_t space = text.find(' ');
  if (space == std::string::npos) return text;
  std::string amount = text.substr(0, space);
  std::string unit = text.substr(space + 1);
  for (const auto& [code, name] : by_name)
    if (unit == code) unit = name;
  if (amount.ends_with(".00")) amount.resize(amount.size() - 3);
  return fmt::format("{} {}", amount, unit);
}

std::string against_words(const PartLine& part) {
  if (!part.because_cost) return "What this costs was not worked out.";
  if (part.because_cost->minor <= 0) return "This costs nothing: the plan scores as much with it.";
  return fmt::format("This costs {} of score: free to choose, the plan would score that much more.",
                     to_string(*part.because_cost));
}

std::string offer_words(const PriceLine& line) {
  if (line.seller.empty()) return {};
  std::string out = clean_text(line.condition);
  const auto add = [&](const std::string& text) {
    out += fmt::format("{}{}", out.empty() ? "" : ", ", text);
  };
  add(line.stock ? fmt::format("{} in stock", grouped(*line.stock)) : "stock not stated");
  if (!line.warranty_months)
    add("warranty not stated");
  else
    add(*line.warranty_months == 0
            ? "sold without a warranty"
            : fmt::format("warranty {}", counted(*line.warranty_months, "month")));
  if (line.alone) add("the only seller");
  return out;
}

std::string seen_words(const PriceLine& line) {
  if (!line.seen) return {};
  std::string out =
      fmt::format("seen {}, {} before", to_string(*line.seen), counted(line.age_days, "day"));
  if (line.good_until) out += "; good until " + to_string(*line.good_until);
  return out;
}

}  // namespace rigproof::sheet
