// Can it be bought, for how much, and how old are the prices: a claim for every market of the
// brief.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/match/market_parts.hpp"
#include "analysis/match/match_rules.hpp"
#include "analysis/match/rulebook.hpp"
#include "catalog/why_no_price.hpp"

namespace rigproof {

bool market_offer_known(const PriceBook& prices, PartRef part, int market, int count) {
  return prices.kept(part) || prices.price(part, market, count).has_value();
}

std::string no_price_words(const Brief& brief, const MarketGoal& market, const NoPrice& reason) {
  using enum NoPrice::Why;
  using match::counted;
  using match::listed;
  using match::number;
  const std::string of_them = counted(reason.offers, "offer", "offers");
  const std::string youngest = counted(reason.youngest_days, "day", "days");
  switch (reason.why) {
    case no_offer:
      return fmt::format("no offer in {} is known", market.market);
    case other_condition: {
      std::vector<std::string> accepted(brief.conditions.begin(), brief.conditions.end());
      return fmt::format("{} there, none in a condition that the brief accepts ({})", of_them,
                         listed(accepted));
    }
    case not_yet_seen:
      return fmt::format("{} there, seen after {}", of_them, to_string(brief.as_of));
    case too_old:
      return fmt::format("{} there, too old: the newest was seen {} before {}, {} are allowed",
                         of_them, youngest, to_string(brief.as_of),
                         brief.offers_not_older_than_days.value_or(0));
    case out_of_stock:
      return fmt::format("{} there, all out of stock", of_them);
    case lone_too_old:
      return fmt::format(
          "one seller alone offers it there, seen {} before {}, more than the {} of "
          "the brief for such offers",
          youngest, to_string(brief.as_of), brief.lone_offers_not_older_than_days.value_or(0));
    case too_few:
      return fmt::format("no offer there has enough pieces in stock: at most {}",
                         number(reason.most_stock));
    case other_terms:
      return fmt::format(
          "{} there, in another currency or without tax where the brief states no "
          "rate",
          of_them);
    case priced:
      break;
  }
  return "no offer there was admissible when prices were made";
}

namespace match {
namespace {

constexpr std::array offer_reads = {offered_part,
                                    column("offers", "market"),
                                    column("offers", "seen"),
                                    column("offers", "condition"),
                                    column("offers", "price"),
                                    column("offers", "currency"),
                                    column("offers", "tax_included"),
                                    column("offers", "stock")};
constexpr std::array<std::string_view, 5> offer_keys = {"markets", "conditions",
                                                        "offers_not_older_than_days",
                                                        "lone_offers_not_older_than_days", "keep"};

void every_part(const Facts& facts, Telling& t) {
  for (int i = 0; i < parts_of(facts); ++i) t.subjects.push_back(piece(facts, i).part);
}

// Place = market x parts + part.
int offer_places(const Facts& facts) { return markets_of(facts) * parts_of(facts); }

void measure_offer(const Facts& facts, int place, Measure& m) {
  const int parts = parts_of(facts);
  const auto [part, count] = piece(facts, place % parts);
  const bool kept = facts.prices->kept(part);
  const bool known = market_offer_known(*facts.prices, part, place / parts, count);
  m.compare_text(kept    ? "already there"
                 : known ? "on offer"
                         : "no admissible offer",
                 "on offer, already there", known);
}

void tell_offer(const Facts& facts, int place, const Measure&, Telling& t) {
  const int parts = parts_of(facts);
  const auto [part, count] = piece(facts, place % parts);
  const MarketGoal& market = goal(facts, place / parts);
  t.where = fmt::format("{}: {}", market.market, facts.catalog.id(part));
  const auto what = count == 1 ? "The " + name(facts, part)
                               : fmt::format("{} pieces of the {}", count, name(facts, part));
  t.statement = fmt::format("{} can be had in {}.", what, market.market);
  const NoPrice reason = why_no_price(facts.catalog, facts.brief, part, place / parts, count);
  t.remedy = no_price_words(facts.brief, market, reason) +
             ": find an offer there that will do, or choose another part";
  t.subjects = {part};
}

constexpr std::array<std::string_view, 3> budget_keys = {"markets.*.budget",
                                                         "offers_not_older_than_days", "keep"};

// Whole minor units in integers; a double holds them exactly up to 2^53.
void measure_budget(const Facts& facts, int market, Measure& m) {
  std::int64_t sum_minor = 0;
  for (int i = 0; i < parts_of(facts); ++i) {
    const auto [part, count] = piece(facts, i);
    if (const auto price = facts.prices->price(part, market, count))
      sum_minor += price->minor * count;
    else
      m.note_missing({offered_part, no_row, part}, false);
  }
  m.limit = static_cast<double>(goal(facts, market).budget.minor);
  if (!m.unknown) m.value = static_cast<double>(sum_minor);
}

void tell_budget(const Facts& facts, int market, const Measure& m, Telling& t) {
  const MarketGoal& asked = goal(facts, market);
  t.where = asked.market;
  t.statement = fmt::format("All parts together cost no more than {} in {}, delivery not counted.",
                            to_string(asked.budget), asked.market);
  if (m.unknown) {
    std::vector<std::string> unpriced;
    unpriced.reserve(static_cast<std::size_t>(m.missing_count));
    for (int i = 0; i < m.missing_count; ++i)
      unpriced.push_back(name(facts, m.missing[static_cast<std::size_t>(i)].parent));
    t.remedy = fmt::format("find an offer in {} for: {}", asked.market, listed(unpriced));
  } else if (m.value.median() > m.limit.median()) {
    const auto over = static_cast<std::int64_t>(m.value.median() - m.limit.median());
    t.remedy = fmt::format("spend {} less", to_string(Money{asked.budget.currency, over}));
  }
  every_part(facts, t);
}

std::string_view budget_unit(const Facts& facts, int market) {
  return goal(facts, market).budget.currency.view();
}
double budget_divisor(const Facts& facts, int market) {
  return std::pow(10.0, minor_digits(goal(facts, market).budget.currency));
}

constexpr ColumnId seen = column("offers", "seen");
constexpr std::array age_reads = {offered_part, seen};
constexpr std::array<std::string_view, 3> age_keys = {"as_of", "offers_not_older_than_days",
                                                      "keep"};

int most_days(const Facts& facts) { return facts.brief.offers_not_older_than_days.value_or(0); }

int age_places(const Facts& facts) {
  return facts.brief.offers_not_older_than_days ? markets_of(facts) : 0;
}

void measure_age(const Facts& facts, int market, Measure& m) {
  int oldest_days = 0;
  for (int i = 0; i < parts_of(facts); ++i) {
    const auto [part, count] = piece(facts, i);
    const auto price = facts.prices->price(part, market, count);
    if (!price)
      m.note_missing({offered_part, no_row, part}, false);
    else if (price->offer != no_row)
      oldest_days = std::max(oldest_days, age_days(facts, price->offer));
  }
  m.limit = most_days(facts);
  if (!m.unknown) m.value = oldest_days;
}

void tell_age(const Facts& facts, int market, const Measure&, Telling& t) {
  t.where = goal(facts, market).market;
  t.statement = fmt::format("No price used in {} was seen more than {} before {}.", t.where,
                            counted(most_days(facts), "day", "days"), to_string(facts.brief.as_of));
  t.remedy = "look at the prices again";
  every_part(facts, t);
}

// Place = the kept parts, then the forced ones, in the brief's order.
const ForcedPart& named_part(const Facts& facts, int place) {
  const auto kept = static_cast<int>(facts.brief.keep.size());
  return place < kept ? facts.brief.keep[static_cast<std::size_t>(place)]
                      : facts.brief.because[static_cast<std::size_t>(place - kept)];
}

int named_places(const Facts& facts) {
  return static_cast<int>(facts.brief.keep.size() + facts.brief.because.size());
}

void measure_named(const Facts& facts, int place, Measure& m) {
  const ForcedPart& named = named_part(facts, place);
  const bool used = std::ranges::any_of(facts.build.of(named.kind), [&](const Chosen& each) {
    return facts.catalog.id({named.kind, each.row}) == named.id;
  });
  m.compare_text(used ? "used" : "not used", "used", used);
}

void tell_named(const Facts& facts, int place, const Measure&, Telling& t) {
  const ForcedPart& named = named_part(facts, place);
  const bool kept = place < static_cast<int>(facts.brief.keep.size());
  const auto part = facts.catalog.find_part(named.id);
  t.where = named.id;
  t.statement =
      fmt::format("The build uses the {} that the brief {}.",
                  part ? name(facts, *part) : std::string(named.id), kept ? "keeps" : "asks for");
  t.remedy = kept ? "use it, or take it out of [keep]" : "use it, or take it out of [because]";
  if (part) t.subjects = {*part};
}

constexpr std::array named_reads = {
    column("cpu", "id"),     column("board", "id"),   column("memory", "id"), column("gpu", "id"),
    column("storage", "id"), column("cooler", "id"),  column("case", "id"),   column("psu", "id"),
    column("fan", "id"),     column("display", "id"), column("other", "id")};
constexpr std::array<std::string_view, 2> named_keys = {"keep", "because"};

}  // namespace

constexpr Rule offer = {
    .id = "market.offer",
    .about = "every part can be had, in every market",
    .consequence =
        "A part could not be bought on the day of the brief, so the machine could not be finished.",
    .kinds = all_kinds,
    .reads = offer_reads,
    .brief_keys = offer_keys,
    .relation = Relation::one_of,
    .equation = "an admissible offer with stock for all pieces, or already there",
    .source = part_data,
    .places = offer_places,
    .measure = measure_offer,
    .tell = tell_offer};

constexpr Rule budget = {.id = "market.budget",
                         .about = "all parts together against the budget of every market",
                         .consequence = "The parts would cost more than you said you can spend.",
                         .kinds = all_kinds,
                         .reads = offer_reads,
                         .brief_keys = budget_keys,
                         .equation = "sum of pieces x price <= budget, (3)",
                         .source = part_data,
                         .places = markets_of,
                         .measure = measure_budget,
                         .tell = tell_budget,
                         .unit_at = budget_unit,
                         .divisor_at = budget_divisor};

constexpr Rule age = {
    .id = "market.age",
    .about = "how old the oldest price used is",
    .consequence = "A price is old and may have changed.",
    .grade = Grade::tells,
    .kinds = all_kinds,
    .reads = age_reads,
    .brief_keys = age_keys,
    .unit = "days",
    .equation = "days since the oldest price used was seen <= days the brief allows",
    .source = part_data,
    .places = age_places,
    .measure = measure_age,
    .tell = tell_age};

constexpr Rule named = {
    .id = "match.named-parts",
    .about = "the parts a brief keeps or asks for are in the build",
    .consequence = "A part that was asked for by name would not be in the machine.",
    .kinds = all_kinds,
    .reads = named_reads,
    .brief_keys = named_keys,
    .relation = Relation::equals,
    .equation = "id of the part the brief names = id of a part of the build",
    .source = "the brief",
    .places = named_places,
    .measure = measure_named,
    .tell = tell_named};

}  // namespace match
}  // namespace rigproof
