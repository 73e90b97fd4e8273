// How the writers say things: one wording of numbers, limits, room left, odds and dates for the
// pages, the tables and the terminal, and the one filter that makes foreign text safe to show.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "sheet/model.hpp"

namespace rigproof::sheet {

/// Text from a catalog made fit for people: malformed UTF-8, control characters, noncharacters and
/// the marks that reorder a line (bidirectional overrides, embeddings and isolates) become U+FFFD,
/// tabs and line ends become a space. Letters of every script pass. Every writer for people calls
/// it; JSON does not, there the bytes are data.
[[nodiscard]] std::string clean_text(std::string_view text);

/// A place to show the text in, counted in code points (East Asian wide ones count twice).
[[nodiscard]] int columns_of(std::string_view text);

/// `312 mm`; `312 mm (309 to 315)` with its 90 % interval; the word when it is a word.
[[nodiscard]] std::string words(const Quantity& quantity);
/// `at most 325 mm`, `one of A, B`.
[[nodiscard]] std::string words(const Limit& limit);
/// A signed margin as people say it: `4 mm left`, `12 W over` (at most), `0.4 mm short` (at least),
/// `exactly at the limit`, `less than 0.1 mm over` under what the unit deserves. Empty when the
/// claim has no margin.
[[nodiscard]] std::string room_words(const Claim& claim);
/// The middle of the margin is exactly 0.
[[nodiscard]] bool met_exactly(const Claim& claim);
/// `1.2 % of the limit`; empty without a fraction.
[[nodiscard]] std::string share_words(const Claim& claim);
/// Value, limit, margin and odds as sentences; for an unknown claim, that there is no verdict.
[[nodiscard]] std::string outcome_words(const Claim& claim);
/// `4 mm left, 1.2 % of the limit, odds 0.86`; odds of exactly 0 or 1 are left to the verdict.
[[nodiscard]] std::string numbers_words(const Claim& claim);
/// `model: air model page, equation 21`; the basis once when the source begins with it.
[[nodiscard]] std::string grounds_words(const Claim& claim);
/// `0.86`; never rounded up to 1 or down to 0.
[[nodiscard]] std::string odds_words(double odds);
/// `12.4 %` of a fraction, three significant digits.
[[nodiscard]] std::string percent_words(double frac, int significant = 3);

/// `board_m2.csv, harrow-b7 3, lanes`: the absent cell in one breath.
[[nodiscard]] std::string cell_words(const Missing& missing);
/// `measured 32.3 dB(A) on 2026-10-09: confirmed`; empty when nothing was.
[[nodiscard]] std::string measured_words(const Claim& claim);

/// `1 part`, `3 parts`.
[[nodiscard]] std::string counted(long long count, std::string_view one,
                                  std::string_view many = {});
/// `1,234,567`.
[[nodiscard]] std::string grouped(long long count);

/// `60 fps target, at least 45`: what the brief asks of a title.
[[nodiscard]] std::string goal_words(const TitleLine& title);
/// `3840 x 2160, drawn at 67 %, 1 generated frame for each`: the setting of a title.
[[nodiscard]] std::string setting_words(const TitleLine& title);

/// Empty when there is none: a build judged alone has no day (Date{}).
[[nodiscard]] std::string date_words(Date date);

/// `1,350.00 EUR`; empty for money without a currency, which stands for none at all.
[[nodiscard]] std::string money_words(const Money& money);
/// A search stands behind it: a build that was only judged has no bound and no nodes to tell of.
[[nodiscard]] bool was_searched(const Proof& proof);

/// The score no build exceeds; empty when there is none: nothing was searched, or nothing exists.
[[nodiscard]] std::string bound_words(const Proof& proof);
/// `Stopped after 2 s: at most 12.00 EUR more of score is possible.`; empty when the search ended
/// by itself.
[[nodiscard]] std::string stopped_words(const Proof& proof);
/// What is said where no build can be shown.
[[nodiscard]] std::string no_build_words(const Proof& proof);
/// Folded claims: why they are.
[[nodiscard]] std::string plenty_words();

/// `12.00 EUR less`, `3.50 EUR more`, `the same`; the words for less and more may be others.
[[nodiscard]] std::string change_words(const Money& change, std::string_view less = "less",
                                       std::string_view more = "more");
/// `Runner-up: A. Scores 12.00 EUR less, costs 3.50 EUR more.`; of a part nothing can replace,
/// that.
[[nodiscard]] std::string runner_up_words(const RunnerUp& runner_up);

/// What to do about a claim that does not hold: its remedy, which begins with the swap in words
/// where one was found; the swap by its ids where there are no such words.
[[nodiscard]] std::string to_do_words(const Claim& claim);
/// `Orrin 6: socket it sits in`: what a cell of a working says, and of which part.
[[nodiscard]] std::string cell_meaning(const WorkingCell& cell);
/// `312 mm, plus-minus 2 mm`.
[[nodiscard]] std::string cell_value(const WorkingCell& cell);
/// Where a cell comes from: its place in the tables, and what the tables say of its source.
[[nodiscard]] std::string cell_source(const WorkingCell& cell, bool with_source = true);
/// What the tables say of the source when it is the same of every cell; else empty.
[[nodiscard]] std::string common_source(const Working& working);
/// How many claims hang on an absent cell.
[[nodiscard]] std::string hanging_words(int unknown, int over_ranges);

/// `1 October 2026`; empty for Date{}.
[[nodiscard]] std::string long_date_words(Date date);
/// `1,500 euro`: whole amounts without minor digits, common currencies by name.
[[nodiscard]] std::string plain_money_words(const Money& money);
/// What a forced part costs against the plan that chooses freely.
[[nodiscard]] std::string against_words(const PartLine& part);
/// `new, 4 in stock, warranty 24 months`: what is said of an offer beside its price.
[[nodiscard]] std::string offer_words(const PriceLine& line);
/// `seen 2026-09-28, 3 days before; good until 2026-10-12`.
[[nodiscard]] std::string seen_words(const PriceLine& line);

/// How many claims of each verdict: `38 hold, 2 are thin, 1 is unknown`.
[[nodiscard]] std::string verdict_counts(const std::vector<Claim>& claims);

[[nodiscard]] std::string_view name_of(Origin origin);  ///< chosen, kept, forced

}  // namespace rigproof::sheet
