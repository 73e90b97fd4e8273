// The view models of the questions asked of a plan: what a budget buys, what a part costs, what
// brings a build back under its brief. Filled by app/, written by answers_json.cpp and the
// *_text.cpp beside it.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/money.hpp"
#include "claims/claim.hpp"
#include "sheet/model.hpp"

namespace rigproof::sheet {

/// The brief a question is asked under.
struct Asked {
  std::string brief_name, brief_file;
  Date as_of;
  std::string market;  ///< the first one: scores, savings and part prices are in its currency
};

/// A part that goes out of a build or comes into it.
struct MovedPart {
  std::string id, name;
  int count = 1;
  std::optional<Money> price;  ///< of all pieces, in the first market; absent: has none
  std::string note;            ///< "kept", or why it has no price somewhere; mostly empty
};

/// One slot that is filled differently.
struct SlotChange {
  std::string kind;
  std::vector<MovedPart> out, in;
  int swaps = 1;  ///< parts changed, as a plan near a build counts them
};

/// The rendered rate in one title, there and here.
struct TitleChange {
  std::string id, name;
  double target_fps = 0.0;
  std::optional<Quantity> from_fps, to_fps;  ///< absent: unknown
};

/// A claim that does not say the same of both builds.
struct ClaimChange {
  std::optional<Claim> from, to;  ///< one may be absent: nothing to claim there
};
/// Its id, place and load are those of both.
[[nodiscard]] inline const Claim& either_of(const ClaimChange& change) {
  static const Claim none{};
  return change.to ? *change.to : change.from ? *change.from : none;
}

/// What lies between two builds: `to` beside `from`.
struct Differences {
  std::optional<Money> score_change;  ///< absent: the first build has no score
  std::vector<std::string> markets;
  std::vector<Money> price_changes;  ///< per market; empty: the first build has no price
  std::vector<SlotChange> slots;
  int swaps = 0;
  std::vector<TitleChange> titles;  ///< in which the rate changes
  std::vector<ClaimChange> claims;  ///< must claims whose verdict, margin or odds change
};

/// Fifty whole units of a currency: what gains are told for.
[[nodiscard]] inline Money fifty_in(const Currency& currency) {
  return {currency, std::llround(50.0 * std::pow(10.0, minor_digits(currency)))};
}

struct FrontierStep {
  PlannedBuild build;             ///< its claims are counted only
  int thin = 0, unknown = 0;      ///< must claims
  Money covers_to;                ///< the largest budget for which this is the best build
  std::optional<Money> gain;      ///< score over the step below; absent: none is right below it
  std::optional<Money> per_50;    ///< the same for every 50 of money more, rounded
  std::vector<SlotChange> slots;  ///< against the step below
  std::vector<TitleChange> titles;
};

struct BudgetRange {
  Money from, to;  ///< both with it
};

struct Frontier {
  Asked asked;
  std::string status;            ///< proven; not proven: stopped, with what was settled; impossible
  Money from, to, counted_from;  ///< counted_from: the brief's own budget, which scores count from
  std::vector<FrontierStep> steps;     ///< cheapest first
  std::vector<BudgetRange> unsettled;  ///< stopped: of these budgets nothing is known
  std::optional<Money> least_price;    ///< no build costs less; absent: not known, or none at all
  std::optional<Money> runs_out_at;    ///< more money buys nothing more, up to `to`
  std::optional<Money> other_budgets_cost;  ///< score that budgets of other markets stand in way of
  long long searches = 0, nodes = 0;
  std::vector<std::string> notes;
  std::optional<Money>
      nine_tenths_at;  ///< price of the first step with nine tenths of all the gain
};

struct Insist {
  Asked asked;
  std::string status;  ///< proven, not proven, impossible: of the build with the wish
  std::vector<MovedPart> insisted, without;
  std::optional<PlannedBuild> free, with;
  std::optional<Differences> differences;  ///< from the free build to the one with the wish
  std::vector<Conflict> conflicts;
  /// When nothing grants the wish: what the cheapest build with it would cost without any budget,
  /// and how much that is over each; empty: budgets are not what stands against it.
  std::vector<std::string> markets;
  std::vector<Money> unbudgeted_prices, over_budgets;
  std::vector<std::string> notes;
};

/// Something that is wrong with a build as it stands.
struct Wrong {
  std::string what;  ///< "part": one is missing or not the brief's; "claim"
  std::string id;    ///< of the part, the kind that is missing, or the claim
  std::string says;
  int line = 0;                     ///< of the brief, where a line of it names the part
  std::optional<Claim> claim = {};  ///< as it stands
};

struct Repair {
  Asked asked;
  std::string
      status;  ///< proven; not proven; impossible: no build at all; out of reach: not so few
  std::string build_name, build_file;
  std::vector<Wrong> wrong;
  std::optional<Money> score_now;  ///< absent: a part is missing or has no price
  std::vector<std::string> markets;
  std::vector<Money> prices_now;
  std::optional<int> swaps;  ///< the fewest
  std::optional<int> asked_at_most;
  std::optional<PlannedBuild> repaired;
  std::optional<Differences> differences;  ///< from the build to the repaired one
  bool one_more_known = false;             ///< false: stopped before it was
  /// From the repaired build to the best one with a swap more; absent though known: that gains
  /// nothing.
  std::optional<Differences> one_more;
  std::vector<SlotChange> one_more_from_build;  ///< the swaps of that one, from the build as it is
  std::vector<Conflict> conflicts;
  std::vector<std::string> notes;
};

}  // namespace rigproof::sheet
