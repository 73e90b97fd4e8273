#include "tests/plan/brute_force.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <span>

#include "app/workshop.hpp"
#include "tests/plan/score_oracle.hpp"

namespace rigproof::test_plan {
namespace {

using Option = std::vector<Chosen>;

class Enumerator {
 public:
  Enumerator(const RandomWorkshop& workshop, const Brief& brief, const Asked& asked)
      : workshop_(workshop),
        asked_(asked),
        catalog_(workshop.catalog),
        brief_(brief),
        draws_(catalog_),
        scorer_(catalog_, brief) {
    auto book = PriceBook::make(catalog_, brief, Faulty::skip);
    rules_prices_ = std::move(*book);  // only handed to the rules; the oracle prices by itself
    for (int k = 0; k < kind_count; ++k) {
      const auto kind = static_cast<Kind>(k);
      options_.push_back(options_of(kind));
      if (asked_.also_of != nullptr) add_options_of_other(kind, options_.back());
      if (asked_.near != nullptr) add_fillings_near(kind, options_.back());
      std::erase_if(options_.back(), [&](const Option& option) { return !as_asked(kind, option); });
    }
  }

  std::vector<Found> run() {
    extend(Build{}, 0);
    return std::move(found_);
  }

 private:
  bool is_forced(Kind kind, Row row) const {
    for (const auto* list : {&brief_.keep, &brief_.because})
      for (const ForcedPart& part : *list)
        if (part.kind == kind) return catalog_.id({kind, row}) == part.id;
    return true;
  }
  bool any_forced(Kind kind) const {
    for (const auto* list : {&brief_.keep, &brief_.because})
      for (const ForcedPart& part : *list)
        if (part.kind == kind) return true;
    return false;
  }
  bool is_insisted(Kind kind, Row row) const {
    return std::ranges::find(asked_.insisted, PartRef{kind, row}) != asked_.insisted.end();
  }
  static bool stands_in(const Option& option, Row row) {
    return std::ranges::any_of(option, [&](const Chosen& part) { return part.row == row; });
  }

  // All that must be there is there, nothing is that must not.
  bool as_asked(Kind kind, const Option& option) const {
    for (const PartRef& part : asked_.insisted)
      if (part.kind == kind && !stands_in(option, part.row)) return false;
    for (const PartRef& part : asked_.without)
      if (part.kind == kind && stands_in(option, part.row)) return false;
    return true;
  }

  // The near build's own filling, that without one of its parts, and with another in its place:
  // where no plan would have the filling itself.
  void add_fillings_near(Kind kind, std::vector<Option>& options) const {
    const auto same = [](Option a, Option b) {
      const auto by_row = [](const Chosen& x, const Chosen& y) { return x.row < y.row; };
      std::ranges::sort(a, by_row);
      std::ranges::sort(b, by_row);
      return a == b;
    };
    const auto there = [&](const Option& option) {
      return std::ranges::any_of(options, [&](const Option& each) { return same(each, option); });
    };
    const auto own = asked_.near->of(kind);
    const Option filling(own.begin(), own.end());
    if (filling.empty() || there(filling)) return;
    std::vector<Option> more{filling};
    for (std::size_t i = 0; i < filling.size(); ++i) {
      Option fewer = filling;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      if (!fewer.empty()) more.push_back(fewer);
      for (Row row = 0; row < catalog_.rows(table_of(kind)); ++row) {
        Option other = filling;
        other[i].row = row;
        if (stands_in(filling, row) || kind == Kind::display) continue;
        if (kind == Kind::other) {
          const ColumnId what = column("other", "what");
          const bool insisted =
              is_insisted(kind, row) || (any_forced(kind) && is_forced(kind, row));
          if (catalog_.word(what, row) != catalog_.word(what, filling[i].row)) continue;
          if (!insisted && !can_be_asked_for(catalog_.word(what, row))) continue;
        }
        more.push_back(other);
      }
    }
    for (const Option& option : more) {
      const bool one_kept_twice = std::ranges::any_of(
          option, [&](const Chosen& part) { return part.count > 1 && is_kept(kind, part.row); });
      const bool has_forced =
          !any_forced(kind) || std::ranges::any_of(option, [&](const Chosen& part) {
            return is_forced(kind, part.row);
          });
      if (has_forced && !one_kept_twice && !there(option)) options.push_back(option);
    }
  }

  bool can_be_asked_for(std::string_view what) const {
    if (what == "wifi-card") return brief_.wifi;
    if (what == "adapter") return brief_.accept_adapters;
    return what != "bracket" && what != "paste" && what != "licence" && !what.empty();
  }

  // Parts of which `there` has fewer than `here`.
  static int fewer(std::span<const Chosen> here, std::span<const Chosen> there) {
    int parts = 0;
    for (const Chosen& part : here) {
      int count = 0;
      for (const Chosen& other : there) count += other.row == part.row ? other.count : 0;
      parts += count < part.count ? 1 : 0;
    }
    return parts;
  }
  int swaps_to(const Build& build) const {
    int sum = 0;
    for (int k = 0; k < kind_count; ++k) {
      const auto kind = static_cast<Kind>(k);
      const int out = fewer(asked_.near->of(kind), build.of(kind));
      const int in = fewer(build.of(kind), asked_.near->of(kind));
      sum += out > in ? out : in;
    }
    return sum;
  }
  std::int64_t cap_of(const MarketGoal& market) const {
    return &market == &brief_.markets.front() && asked_.first_cap ? *asked_.first_cap
                                                                  : market.budget.minor;
  }

  bool is_kept(Kind kind, Row row) const {
    const auto is_it = [&](const ForcedPart& part) {
      return part.kind == kind && part.id == catalog_.id({kind, row});
    };
    return std::ranges::any_of(brief_.keep, is_it) ||
           (asked_.also_of != nullptr && std::ranges::any_of(asked_.also_of->keep, is_it));
  }

  void add_options_of_other(Kind kind, std::vector<Option>& options) const {
    const Asked plain;
    const Enumerator other(workshop_, *asked_.also_of, plain);
    for (const Option& option : other.options_[static_cast<std::size_t>(kind)])
      if (std::ranges::find(options, option) == options.end()) options.push_back(option);
  }

  std::vector<Option> options_of(Kind kind) const {
    std::vector<Option> out;
    const Row rows = catalog_.rows(table_of(kind));
    const bool may_be_none =
        kind == Kind::gpu || kind == Kind::fan || kind == Kind::other || kind == Kind::display;
    if (may_be_none && !any_forced(kind)) out.push_back({});
    const bool display_asked = std::ranges::any_of(
        asked_.insisted, [](PartRef part) { return part.kind == Kind::display; });
    if (kind == Kind::display && !any_forced(kind) && !display_asked) return out;
    if (kind == Kind::other) return small_sets();
    for (Row a = 0; a < rows; ++a) {
      if (kind != Kind::storage && !is_forced(kind, a)) continue;
      for (int count = 1; count <= (kind == Kind::fan                            ? 3
                                    : kind == Kind::storage && !is_kept(kind, a) ? 2
                                                                                 : 1);
           ++count)
        if (is_forced(kind, a)) out.push_back({{a, count}});
      if (kind == Kind::storage)
        for (Row b = a + 1; b < rows; ++b)
          if (is_forced(kind, a) || is_forced(kind, b)) out.push_back({{a, 1}, {b, 1}});
    }
    return out;
  }

  // Sets of small parts: every subset of the table in which no purpose stands twice (but for parts
  // that must be there), with at most two parts beside those that must, of purposes that can be
  // asked for or that the near build serves already.
  std::vector<Option> small_sets() const {
    std::vector<Option> out;
    const Row rows = catalog_.rows(table_of(Kind::other));
    for (unsigned set = 0; set < (1U << rows); ++set) {
      Option option;
      std::multiset<std::string_view> purposes;
      std::set<std::string_view> of_must;
      int free_parts = 0;
      bool good = true;
      int forced_in = 0;
      for (Row row = 0; row < rows; ++row) {
        if ((set >> row & 1U) == 0) continue;
        const auto what = catalog_.word(column("other", "what"), row);
        const bool forced = any_forced(Kind::other) && is_forced(Kind::other, row);
        forced_in += forced ? 1 : 0;
        if (forced || is_insisted(Kind::other, row)) {
          of_must.insert(what);
        } else {
          ++free_parts;
          purposes.insert(what);
          const bool own =
              asked_.near != nullptr && fewer(one(row), asked_.near->of(Kind::other)) == 0;
          good = good && (own || can_be_asked_for(what));
        }
        option.push_back({row, 1});
      }
      for (const auto what : purposes)
        good = good && purposes.count(what) == 1 && !of_must.contains(what);
      if (good && free_parts <= 2 && option.size() <= 4 &&
          forced_in == (any_forced(Kind::other) ? 1 : 0))
        out.push_back(option);
    }
    return out;
  }
  static Option one(Row row) { return {{row, 1}}; }

  // Cheapest offer of one part with stock for all, tax added half up; -1: none.
  std::int64_t price_of(Kind kind, const Chosen& part, const MarketGoal& market) const {
    if (is_kept(kind, part.row)) return 0;
    std::int64_t best = -1;
    int vouching = 0;  // offers that count, whoever needs how many; each is of a seller of its own
    int youngest_days = 1 << 20;
    for (const MadeOffer& offer : workshop_.offers) {
      if (offer.part != catalog_.id({kind, part.row}) || offer.market != market.market) continue;
      if (std::ranges::find(brief_.conditions, offer.condition) == brief_.conditions.end())
        continue;
      if (offer.age_days < 0 || (brief_.offers_not_older_than_days &&
                                 offer.age_days > *brief_.offers_not_older_than_days))
        continue;
      if (offer.stock == 0) continue;
      ++vouching;
      youngest_days = std::min(youngest_days, offer.age_days);
      if (offer.stock >= 0 && offer.stock < part.count) continue;
      // 7.25 %: minor x 1.0725, exact in ten-thousandths, half up.
      const std::int64_t each =
          offer.tax_included ? offer.minor : (offer.minor * 10725 + 5000) / 10000;
      if (best < 0 || each < best) best = each;
    }
    if (brief_.lone_offers_not_older_than_days && vouching == 1 &&
        youngest_days > *brief_.lone_offers_not_older_than_days)
      return -1;
    return best < 0 ? -1 : best * part.count;
  }

  void extend(const Build& build, int kind_index) {
    if (kind_index == kind_count) {
      judge_whole(build);
      return;
    }
    for (const Option& option : options_[static_cast<std::size_t>(kind_index)]) {
      Build longer = build;
      for (const Chosen& part : option)
        longer.add(static_cast<Kind>(kind_index), part.row, part.count);
      if (affordable(longer)) extend(longer, kind_index + 1);
    }
  }

  // Prices only grow: a part of a build that is over a budget is over it for good.
  bool affordable(const Build& build) const {
    for (const MarketGoal& market : brief_.markets)
      if (const auto sum = total(build, market); !sum || *sum > cap_of(market)) return false;
    return true;
  }

  std::optional<std::int64_t> total(const Build& build, const MarketGoal& market) const {
    std::int64_t sum = 0;
    for (int k = 0; k < kind_count; ++k)
      for (const Chosen& part : build.of(static_cast<Kind>(k))) {
        const std::int64_t price = price_of(static_cast<Kind>(k), part, market);
        if (price < 0) return {};
        sum += price;
      }
    return sum;
  }

  bool all_rules_admit(const Build& build) {
    const Facts facts{.catalog = catalog_,
                      .brief = brief_,
                      .prices = &*rules_prices_,
                      .build = build,
                      .draws = draws_,
                      .setup = nullptr};
    for (const Rule* rule : app::planning_rules()) {
      const int places = rule->places(facts);
      for (int place = 0; place < places; ++place)
        if (!admitted(*rule, judge(*rule, facts, place).verdict, brief_)) return false;
    }
    return true;
  }

  void judge_whole(const Build& build) {
    if (asked_.near != nullptr && swaps_to(build) > asked_.most_swaps) return;
    Found found{.build = build, .score = 0, .prices = {}, .tie = {}, .rival = {}};
    for (const MarketGoal& market : brief_.markets) {
      const auto sum = total(build, market);
      if (!sum || *sum > cap_of(market)) return;
      found.prices.push_back(*sum);
    }
    if (!all_rules_admit(build)) return;
    found.score = scorer_.score(build, found.prices.front());
    for (int k = 0; k < kind_count; ++k) {
      std::vector<std::string> ids;
      for (const Chosen& part : build.of(static_cast<Kind>(k)))
        for (int i = 0; i < part.count; ++i)
          ids.emplace_back(catalog_.id({static_cast<Kind>(k), part.row}));
      std::ranges::sort(ids);
      std::string joined;
      for (const std::string& each : ids) joined += each + '\x01';
      found.tie.push_back(joined);
    }
    const Row gpu = build.one(Kind::gpu);
    std::string chip;
    if (gpu != no_row) {
      chip = catalog_.word(column("gpu", "chip"), gpu);
      if (chip.empty()) chip = "alone " + std::string(catalog_.id({Kind::gpu, gpu}));
    }
    found.rival = {build.one(Kind::cpu), chip};
    found_.push_back(std::move(found));
  }

  const RandomWorkshop& workshop_;
  const Asked& asked_;
  const Catalog& catalog_;
  const Brief& brief_;
  CellDraws draws_;
  Scorer scorer_;
  std::optional<PriceBook> rules_prices_;
  std::vector<std::vector<Option>> options_;
  std::vector<Found> found_;
};

}  // namespace

std::array<double, draw_count> score_draws_of(const RandomWorkshop& workshop, const Brief& brief,
                                              const Found& found) {
  return Scorer(workshop.catalog, brief).score_draws(found.build, found.prices.front());
}

std::vector<Found> all_builds(const RandomWorkshop& workshop, const Brief& brief,
                              const Asked& asked) {
  std::vector<Found> all = Enumerator(workshop, brief, asked).run();
  std::ranges::sort(all, [](const Found& a, const Found& b) {
    if (a.score != b.score) return a.score > b.score;
    if (a.prices.front() != b.prices.front()) return a.prices.front() < b.prices.front();
    return a.tie < b.tie;
  });
  return all;
}

std::vector<Found> every_build(const RandomWorkshop& workshop, const Brief& brief, std::size_t keep,
                               const Asked& asked) {
  std::vector<Found> all = all_builds(workshop, brief, asked);
  std::vector<Found> best;
  for (Found& found : all) {
    const bool seen =
        std::ranges::any_of(best, [&](const Found& other) { return other.rival == found.rival; });
    if (!seen && best.size() < keep) best.push_back(std::move(found));
  }
  return best;
}

std::string words(const Catalog& catalog, const Build& build) {
  std::string out;
  for (int k = 0; k < kind_count; ++k) {
    std::set<std::string> of_kind;  // the order of two parts of a kind says nothing
    for (const Chosen& part : build.of(static_cast<Kind>(k)))
      of_kind.insert(std::to_string(part.count) + "x" +
                     std::string(catalog.id({static_cast<Kind>(k), part.row})));
    for (const std::string& part : of_kind) out += part + " ";
  }
  return out;
}

}  // namespace rigproof::test_plan
