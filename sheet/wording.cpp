#include "sheet/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "sheet/margin_bar.hpp"
#include "sheet/order.hpp"
#include "sheet/utf8.hpp"

namespace rigproof::sheet {
namespace {

constexpr char32_t replacement = 0xFFFD;

bool reorders(char32_t c) {
  return c == 0x061C || c == 0x200E || c == 0x200F || (c >= 0x202A && c <= 0x202E) ||
         (c >= 0x2066 && c <= 0x2069);
}

bool is_wide(char32_t c) {
  return (c >= 0x1100 && c <= 0x115F) || (c >= 0x2E80 && c <= 0xA4CF) ||
         (c >= 0xAC00 && c <= 0xD7A3) || (c >= 0xF900 && c <= 0xFAFF) ||
         (c >= 0xFF00 && c <= 0xFF60) || (c >= 0x1F300 && c <= 0x1FAFF) ||
         (c >= 0x20000 && c <= 0x3FFFD);
}

bool is_combining(char32_t c) {
  return (c >= 0x0300 && c <= 0x036F) || (c >= 0x200B && c <= 0x200D) || c == 0xFE0F;
}

// The smallest step that is worth telling of a unit: finer is noise of the computation, since no
// part is made, sold or measured to it. Ours. 0: none known.
double least_step(std::string_view unit) {
  struct Step {
    std::string_view units;  // each between spaces
    double step;
  };
  constexpr std::array steps = {
      Step{" mm W degC C K dB(A) fps l L GiB GB/s Gbit/s Hz ns m3/h Pa ", 0.1},
      Step{" A V ms m ", 0.01}, Step{" GB MT/s MHz rpm g px h days ", 1.0}};
  if (unit.empty() || unit.find(' ') != std::string_view::npos) return 0.0;
  const std::string whole = fmt::format(" {} ", unit);
  for (const Step& step : steps)
    if (step.units.find(whole) != std::string_view::npos) return step.step;
  return 0.0;
}

// Money keeps its minor digits; what is certain gets one more digit than what is not.
std::string number_words(double value, const std::string& unit, bool certain) {
  const std::optional<Currency> currency = parse_currency(unit);
  if (!currency || std::abs(value) > 1e12) {
    const double step = least_step(unit);
    const double told =
        step > 0.0 && std::abs(value) < 1e9 ? std::round(value / step) * step : value;
    return readable(told == 0.0 ? 0.0 : told, certain ? 4 : 3);  // never -0
  }
  const double minor = value * std::pow(10.0, minor_digits(*currency));
  const std::string money = to_string(Money{*currency, std::llround(minor)});
  return money.substr(0, money.find(' '));
}

// `1 plug` for the unit `plugs`; units such as MT/s or GiB are no words.
std::string unit_words(double value, const std::string& unit) {
  const bool plural = unit.size() > 3 && unit.ends_with('s') &&
                      unit.find_first_not_of("abcdefghijklmnopqrstuvwxyz") == std::string::npos;
  return clean_text(value == 1.0 && plural ? std::string_view(unit).substr(0, unit.size() - 1)
                                           : unit);
}

std::string with_unit(double value, const std::string& unit, bool certain = true) {
  const std::string number = number_words(value, unit, certain);
  return unit.empty() ? number : fmt::format("{} {}", number, unit_words(value, unit));
}

std::string_view over_or_short(const Claim& claim) {
  return claim.limit && claim.limit->relation == Relation::at_least ? "short" : "over";
}

}  // namespace

std::string clean_text(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const CodePoint point = next_code_point(text);
    text.remove_prefix(point.bytes);
    char32_t c = point.value;
    if (c == '\t' || c == '\n' || c == '\r' || c == 0x2028 || c == 0x2029 || c == 0x85) c = ' ';
    if (c < 0x20 || (c >= 0x7F && c < 0xA0) || reorders(c) || is_noncharacter(c)) c = replacement;
    append_code_point(out, c);
  }
  return out;
}

int columns_of(std::string_view text) {
  int columns = 0;
  while (!text.empty()) {
    const CodePoint point = next_code_point(text);
    text.remove_prefix(point.bytes);
    if (!is_combining(point.value)) columns += is_wide(point.value) ? 2 : 1;
  }
  return columns;
}

std::string words(const Quantity& quantity) {
  if (!quantity.text.empty()) return clean_text(quantity.text);
  const std::optional<Spread> spread = spread_of(quantity);
  std::string out = with_unit(quantity.value, quantity.unit, !spread);
  if (spread)
    out += fmt::format(" ({} to {})", number_words(spread->low, quantity.unit, false),
                       number_words(spread->high, quantity.unit, false));
  return out;
}

std::string words(const Limit& limit) {
  std::string what =
      limit.text.empty() ? with_unit(limit.value, limit.unit) : clean_text(limit.text);
  switch (limit.relation) {
    case Relation::at_most:
      return "at most " + what;
    case Relation::at_least:
      return "at least " + what;
    case Relation::equals:
      return "must be " + what;
    case Relation::one_of:
      return "one of " + what;
  }
  return what;
}

bool met_exactly(const Claim& claim) {
  return claim.margin && claim.margin->text.empty() && claim.margin->value == 0.0;
}

std::string room_words(const Claim& claim) {
  if (!claim.margin || !claim.margin->text.empty()) return {};
  const double value = claim.margin->value;
  if (value == 0.0) return "exactly at the limit";
  const double step = least_step(claim.margin->unit);
  const std::string size =
      std::abs(value) < step / 2.0
          ? "less than " + with_unit(step, claim.margin->unit)
          : with_unit(std::abs(value), claim.margin->unit, !spread_of(*claim.margin));
  return fmt::format("{} {}", size, value > 0.0 ? "left" : over_or_short(claim));
}

std::string percent_words(double frac, int significant) {
  return readable(frac * 100.0, significant) + " %";
}

std::string share_words(const Claim& claim) {
  if (!claim.margin_frac) return {};
  const double size = std::abs(*claim.margin_frac);
  const bool noise = size > 0.0 && size < 0.001;
  return (noise ? std::string("under 0.1 %") : percent_words(size, 2)) + " of the limit";
}

std::string odds_words(double odds) {
  if (odds > 0.99 && odds < 1.0) return "above 0.99";
  if (odds < 0.01 && odds > 0.0) return "below 0.01";
  return fmt::format("{:.2f}", odds);
}

std::string numbers_words(const Claim& claim) {
  std::string out = room_words(claim);
  const std::string share = share_words(claim);
  if (!out.empty() && !share.empty() && !met_exactly(claim)) out += ", " + share;
  if (claim.odds && *claim.odds > 0.0 && *claim.odds < 1.0)
    out += fmt::format("{}odds {}", out.empty() ? "" : ", ", odds_words(*claim.odds));
  return out;
}

std::string grounds_words(const Claim& claim) {
  const std::string source = clean_text(claim.source);
  const std::string basis{rigproof::name_of(claim.basis)};
  if (source.empty() || source.starts_with(basis)) return source.empty() ? basis : source;
  return fmt::format("{}: {}", basis, source);
}

std::string cell_words(const Missing& missing) {
  std::string out = clean_text(missing.table);
  for (const std::string* piece : {&missing.row, &missing.column})
    if (!piece->empty()) out += fmt::format("{}{}", out.empty() ? "" : ", ", clean_text(*piece));
  return out;
}

std::string measured_words(const Claim& claim) {
  if (!claim.measured) return {};
  const std::string unit = claim.value ? claim.value->unit : std::string{};
  std::string out = "measured " + with_unit(claim.measured->value, unit);
  if (claim.measured->date) out += " on " + to_string(*claim.measured->date);
  if (!claim.measured->settled.empty()) out += ": " + clean_text(claim.measured->settled);
  return out;
}

std::string grouped(long long count) {
  const bool negative = count < 0;
  std::string digits = std::to_string(count).substr(negative ? 1 : 0);
  for (std::size_t at = digits.size(); at > 3;) {
    at -= 3;
    digits.insert(at, 1, ',');
  }
  return negative ? "-" + digits : digits;
}

std::string counted(long long count, std::string_view one, std::string_view many) {
  if (count == 1) return fmt::format("1 {}", one);
  return many.empty() ? fmt::format("{} {}s", grouped(count), one)
                      : fmt::format("{} {}", grouped(count), many);
}

std::string goal_words(const TitleLine& title) {
  std::string out = readable(title.target_fps) + " fps";
  if (title.floor_fps) out += fmt::format(", mean at least {} fps", readable(*title.floor_fps));
  return out;
}

std::string setting_words(const TitleLine& title) {
  std::string out = clean_text(title.resolution);
  if (title.render_scale != 1.0)
    out += fmt::format(", drawn at {} per axis", percent_words(title.render_scale));
  if (title.generated_per_rendered > 0)
    out += fmt::format(", {} for each rendered one",
                       counted(title.generated_per_rendered, "generated frame"));
  return out;
}

std::string date_words(Date date) { return date == Date{} ? std::string{} : to_string(date); }

std::string money_words(const Money& money) {
  return money.currency.view().empty() ? std::string{} : to_string(money);
}

std::string bound_words(const Proof& proof) {
  const bool found = proof.status == "proven" || proof.status == "not proven";
  return found ? money_words(proof.bound) : std::string{};
}

std::string stopped_words(const Proof& proof) {
  if (proof.status != "not proven") return {};
  const std::string when = proof.stopped_after_s
                               ? fmt::format("Stopped after {} s", shortest(*proof.stopped_after_s))
                               : std::string("Stopped");
  if (proof.at_most_more)
    return fmt::format("{}: at most {} more of score is possible.", when,
                       money_words(*proof.at_most_more));
  return fmt::format("{} before any build was found.", when);
}

std::string no_build_words(const Proof& proof) {
  return proof.status == "not proven" ? stopped_words(proof)
                                      : std::string("No build satisfies the brief.");
}

bool was_searched(const Proof& proof) {
  return proof.status == "proven" || proof.status == "not proven" || proof.status == "impossible";
}

std::string plenty_words() {
  return fmt::format(
      "These hold: more than {} of room, met exactly and for certain, or a matter of yes and no",
      percent_words(plenty_frac));
}

std::string change_words(const Money& change, std::string_view less, std::string_view more) {
  if (change.minor == 0) return "the same";
  const Money size{change.currency, change.minor < 0 ? -change.minor : change.minor};
  return fmt::format("{} {}", to_string(size), change.minor < 0 ? less : more);
}

std::string runner_up_words(const RunnerUp& runner_up) {
  if (runner_up.name.empty())
    return runner_up.others_fixed
               ? "With every other part as it is, nothing else here satisfies the brief."
               : "Without it nothing satisfies the brief.";
  const Money& score = runner_up.score_change;
  const Money& price = runner_up.price_change;
  return fmt::format("Runner-up: {}. {}, {}.", clean_text(runner_up.name),
                     score.minor == 0 ? "Same score" : "Scores " + change_words(score),
                     price.minor == 0 ? "same price" : "costs " + change_words(price));
}

namespace {

std::string counts_of(const std::vector<Claim>& claims, Grade grade) {
  constexpr std::array order = {Verdict::fails, Verdict::doubtful, Verdict::thin, Verdict::unknown,
                                Verdict::holds};
  std::string out;
  for (const Verdict verdict : order) {
    const auto count = std::ranges::count_if(claims, [&](const Claim& claim) {
      return claim.verdict == verdict && claim.grade == grade;
    });
    if (count == 0) continue;
    const bool is_verb = verdict == Verdict::holds || verdict == Verdict::fails;
    const std::string word =
        is_verb ? std::string(count == 1                  ? rigproof::name_of(verdict)
                              : verdict == Verdict::holds ? "hold"
                                                          : "fail")
                : fmt::format("{} {}", count == 1 ? "is" : "are", rigproof::name_of(verdict));
    out += fmt::format("{}{} {}", out.empty() ? "" : ", ", grouped(count), word);
  }
  return out;
}

}  // namespace

std::string verdict_counts(const std::vector<Claim>& claims) {
  std::string musts = counts_of(claims, Grade::must);
  const std::string tells = counts_of(claims, Grade::tells);
  if (tells.empty()) return musts;
  return fmt::format("{}{}told beside: {}", musts, musts.empty() ? "" : "; ", tells);
}

std::string_view name_of(Origin origin) {
  switch (origin) {
    case Origin::chosen:
      return "chosen";
    case Origin::kept:
      return "kept";
    case Origin::forced:
      return "forced";
  }
  return {};
}

}  // namespace rigproof::sheet
