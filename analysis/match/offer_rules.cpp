// What the offers behind the prices say: who else sells it, how many there are, in what state, tax
// and warranty. Told, a claim for every market; the budget and whether it can be had are
// market_rules.cpp.
#include <fmt/format.h>

#include <algorithm>

#include "analysis/match/market_parts.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId market_column = column("offers", "market");
constexpr ColumnId seller = column("offers", "seller");
constexpr ColumnId seen = column("offers", "seen");
constexpr ColumnId stock = column("offers", "stock");
constexpr ColumnId condition = column("offers", "condition");
constexpr ColumnId tax_included = column("offers", "tax_included");
constexpr ColumnId warranty = column("offers", "warranty_months");

// For texts: the bought pieces and their offers.
template <class See>
void each_told(const Facts& facts, int market, See see) {
  Measure unused;
  unused.deciding = true;
  each_bought(facts, market, unused, see);
}

int how_many_bought(const Facts& facts, int market) {
  int sum = 0;
  each_told(facts, market, [&](const Piece&, Row) { ++sum; });
  return sum;
}

// --- market.lone-offer

constexpr int usual_lone_days = 7;  // common practice, no source
constexpr std::array lone_reads = {offered_part, market_column, seller, seen};
constexpr std::array<std::string_view, 5> lone_keys = {"markets", "lone_offers_not_older_than_days",
                                                       "offers_not_older_than_days", "conditions",
                                                       "keep"};

int most_lone_days(const Facts& facts) {
  return facts.brief.lone_offers_not_older_than_days.value_or(usual_lone_days);
}

void measure_lone(const Facts& facts, int market, Measure& m) {
  int oldest_days = 0;
  each_bought(facts, market, m, [&](const Piece& each, Row offer) {
    if (!facts.prices->of_one_seller(each.part, market)) return;
    m.note_seen(seller, offer);
    m.note_seen(seen, offer);
    oldest_days = std::max(oldest_days, age_days(facts, offer));
  });
  m.limit = most_lone_days(facts);
  if (!m.unknown) m.value = oldest_days;
}

void tell_lone(const Facts& facts, int market, const Measure&, Telling& t) {
  t.where = goal(facts, market).market;
  std::vector<std::string> lone;
  each_told(facts, market, [&](const Piece& each, Row offer) {
    if (!facts.prices->of_one_seller(each.part, market)) return;
    t.subjects.push_back(each.part);
    lone.push_back(fmt::format("{} ({})", name(facts, each.part),
                               counted(age_days(facts, offer), "day", "days")));
  });
  t.statement =
      lone.empty() ? fmt::format("No price used in {} hangs on one seller alone.", t.where)
                   : fmt::format(
                         "Prices in {} that one seller alone gives were seen at most {} before {}: "
                         "{}.",
                         t.where, counted(most_lone_days(facts), "day", "days"),
                         to_string(facts.brief.as_of), listed(lone));
  t.remedy =
      "look whether these offers still stand before counting on them, or choose parts that several "
      "sellers have";
}

// --- market.stock

constexpr std::array stock_reads = {offered_part, market_column, stock};
constexpr std::array<std::string_view, 2> offer_keys = {"markets", "keep"};

void measure_stock(const Facts& facts, int market, Measure& m) {
  double lacking = 0.0;
  each_bought(facts, market, m, [&](const Piece& each, Row offer) {
    const Draws& pieces = m.read(facts, stock, offer);
    if (!pieces.is_absent()) lacking += std::max(0.0, each.count - pieces.low());
  });
  m.limit = 0.0;
  if (!m.unknown) m.value = lacking;
}

void tell_stock(const Facts& facts, int market, const Measure&, Telling& t) {
  t.where = goal(facts, market).market;
  int unstated = 0;
  each_told(facts, market, [&](const Piece& each, Row offer) {
    if (!facts.catalog.absent(stock, offer)) return;
    ++unstated;
    t.subjects.push_back(each.part);
  });
  t.statement =
      unstated == 0
          ? fmt::format("The offers used in {} state enough pieces in stock for all parts.",
                        t.where)
          : fmt::format(
                "The offers used in {} have enough pieces in stock for all parts ({} of {} "
                "state no stock).",
                t.where, unstated, how_many_bought(facts, market));
  t.remedy = "ask the seller before ordering";
}

// --- market.condition

constexpr std::array condition_reads = {offered_part, market_column, condition};
constexpr std::array<std::string_view, 3> condition_keys = {"markets", "conditions", "keep"};

bool only_new(const Facts& facts) {
  return std::ranges::all_of(facts.brief.conditions,
                             [](const std::string& word) { return word == "new"; });
}

void measure_condition(const Facts& facts, int market, Measure& m) {
  int not_new = 0;
  int all = 0;
  each_bought(facts, market, m, [&](const Piece&, Row offer) {
    m.note_seen(condition, offer);
    ++all;
    not_new += facts.catalog.word(condition, offer) == "new" ? 0 : 1;
  });
  m.limit = only_new(facts) ? 0 : all;
  if (!m.unknown) m.value = not_new;
}

void tell_condition(const Facts& facts, int market, const Measure&, Telling& t) {
  t.where = goal(facts, market).market;
  std::vector<std::string> not_new;
  each_told(facts, market, [&](const Piece& each, Row offer) {
    const auto word = facts.catalog.word(condition, offer);
    if (word == "new") return;
    t.subjects.push_back(each.part);
    not_new.push_back(fmt::format("{} ({})", name(facts, each.part), word));
  });
  t.statement =
      not_new.empty()
          ? fmt::format("Every part bought in {} is new.", t.where)
          : fmt::format("{} of {} parts bought in {} are not new, as the brief allows: {}.",
                        not_new.size(), how_many_bought(facts, market), t.where, listed(not_new));
  t.remedy = "choose an offer of a new one";
}

// --- market.tax

constexpr std::array tax_reads = {offered_part, market_column, tax_included};
constexpr std::array<std::string_view, 3> tax_keys = {"markets", "markets.*.sales_tax", "keep"};

struct TaxCount {
  int included = 0;
  int added = 0;
};

TaxCount tax_count(const Facts& facts, int market, Measure& m) {
  TaxCount out;
  each_bought(facts, market, m, [&](const Piece&, Row offer) {
    m.note_seen(tax_included, offer);
    ++(facts.catalog.flag(tax_included, offer).value_or(false) ? out.included : out.added);
  });
  return out;
}

void measure_tax(const Facts& facts, int market, Measure& m) {
  const TaxCount count = tax_count(facts, market, m);
  m.compare_text(count.added == 0      ? "included"
                 : count.included == 0 ? "added"
                                       : "included or added",
                 "included, added", true);
}

std::string percent(const DecimalRate& rate) {
  double out = static_cast<double>(rate.numerator) * 100.0;
  for (int i = 0; i < rate.decimals; ++i) out /= 10.0;
  return number(out) + " %";
}

void tell_tax(const Facts& facts, int market, const Measure&, Telling& t) {
  const MarketGoal& asked = goal(facts, market);
  Measure unused;
  unused.deciding = true;
  const TaxCount count = tax_count(facts, market, unused);
  t.where = asked.market;
  const std::string rate = asked.sales_tax ? percent(*asked.sales_tax) : std::string("no rate");
  t.limit_text = asked.sales_tax ? "included, added at " + rate : std::string("included");
  if (count.added == 0)
    t.statement = fmt::format("Every price used in {} includes sales tax.", t.where);
  else
    t.statement = fmt::format(
        "Sales tax was added at {} to {} of {} prices used in {}; the others include it.", rate,
        count.added, count.added + count.included, t.where);
  each_told(facts, market, [&](const Piece& each, Row offer) {
    if (!facts.catalog.flag(tax_included, offer).value_or(false)) t.subjects.push_back(each.part);
  });
  t.remedy = "state the rate of that market in the brief";
}

// --- market.warranty

constexpr std::array warranty_reads = {offered_part, market_column, warranty};

void measure_warranty(const Facts& facts, int market, Measure& m) {
  Draws shortest = std::numeric_limits<double>::infinity();
  each_bought(facts, market, m, [&](const Piece&, Row offer) {
    const Draws& months = m.read(facts, warranty, offer);
    if (!months.is_absent()) shortest = Draws::smaller(shortest, months);
  });
  m.limit = 1.0;
  if (!m.unknown) m.value = shortest;
}

void tell_warranty(const Facts& facts, int market, const Measure& m, Telling& t) {
  t.where = goal(facts, market).market;
  each_told(facts, market, [&](const Piece& each, Row offer) {
    const bool none = facts.catalog.number(warranty, offer) < 1.0;
    if (m.unknown ? facts.catalog.absent(warranty, offer)
                  : none || facts.catalog.number(warranty, offer) <= m.value.high())
      t.subjects.push_back(each.part);
  });
  t.statement =
      m.unknown
          ? fmt::format("Every offer used in {} comes with a warranty (some do not say).", t.where)
          : fmt::format(
                "Every offer used in {} comes with a warranty; the shortest is "
                "{}.",
                t.where, counted(m.value.median(), "month", "months"));
  t.remedy =
      "ask the seller what is promised; what the law gives a buyer is not looked at here and may "
      "be "
      "more";
}

}  // namespace

constexpr Rule lone_offer = {
    .id = "market.lone-offer",
    .about = "prices that one seller alone gives, and how old they are",
    .consequence = "A price that nobody else confirms may be gone or a slip.",
    .grade = Grade::tells,
    .kinds = all_kinds,
    .reads = lone_reads,
    .brief_keys = lone_keys,
    .unit = "days",
    .basis = Basis::common_practice,
    .equation =
        "age of the oldest price that one seller alone gives <= "
        "days the brief allows, else 7",
    .source = habit,
    .places = buying_places,
    .measure = measure_lone,
    .tell = tell_lone};

constexpr Rule offer_stock = {.id = "market.stock",
                              .about = "pieces in stock against pieces needed",
                              .consequence = "Some pieces may not be there when you order.",
                              .grade = Grade::tells,
                              .kinds = all_kinds,
                              .reads = stock_reads,
                              .brief_keys = offer_keys,
                              .unit = "pieces lacking",
                              .equation =
                                  "sum over parts of pieces needed beyond the stock of the "
                                  "offer used <= 0",
                              .source = part_data,
                              .places = buying_places,
                              .measure = measure_stock,
                              .tell = tell_stock};

constexpr Rule offer_condition = {.id = "market.condition",
                                  .about = "how many of the parts bought are not new",
                                  .consequence = "Some parts would not be new.",
                                  .grade = Grade::tells,
                                  .kinds = all_kinds,
                                  .reads = condition_reads,
                                  .brief_keys = condition_keys,
                                  .unit = "parts",
                                  .equation =
                                      "parts bought that are not new <= 0, or all of them "
                                      "where the brief accepts other conditions",
                                  .source = part_data,
                                  .places = buying_places,
                                  .measure = measure_condition,
                                  .tell = tell_condition};

constexpr Rule offer_tax = {.id = "market.tax",
                            .about = "whether prices include sales tax or have it added",
                            .consequence = "The price paid may differ from the price shown.",
                            .grade = Grade::tells,
                            .kinds = all_kinds,
                            .reads = tax_reads,
                            .brief_keys = tax_keys,
                            .relation = Relation::one_of,
                            .equation =
                                "an offer's price, or price x (1 + the market's rate) "
                                "rounded half up, (3)",
                            .source = part_data,
                            .places = buying_places,
                            .measure = measure_tax,
                            .tell = tell_tax};

constexpr Rule offer_warranty = {
    .id = "market.warranty",
    .about = "the shortest warranty stated with the offers used",
    .consequence = "A part that breaks may not be replaced by its seller.",
    .grade = Grade::tells,
    .kinds = all_kinds,
    .reads = warranty_reads,
    .brief_keys = offer_keys,
    .relation = Relation::at_least,
    .unit = "months",
    .equation = "shortest warranty of the offers used >= 1 month",
    .source = part_data,
    .places = buying_places,
    .measure = measure_warranty,
    .tell = tell_warranty};

}  // namespace rigproof::match
