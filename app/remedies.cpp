#include "app/remedies.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>

#include "app/adjustments.hpp"
#include "app/workshop.hpp"

namespace rigproof::app {
namespace {

// Changes tried for one rule; beyond that nothing is said.
constexpr std::size_t most_tried = 20'000;
constexpr int most_added_fans = 3;

struct Change {
  Kind kind = Kind::other;
  Row out = no_row;  ///< no_row: `in` is added
  Row in = no_row;   ///< no_row: `out` is left out
  int count = 1;     ///< pieces of `in`
  double size = 0.0;
};

Build changed(const Build& build, const Change& change) {
  Build out;
  for (int k = 0; k < kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    bool placed = kind != change.kind || change.in == no_row;
    for (const Chosen& part : build.of(kind)) {
      const bool touched = kind == change.kind && (part.row == change.out ||
                                                   (change.out == no_row && part.row == change.in));
      if (!touched) {
        out.add(kind, part.row, part.count);
      } else if (!placed) {
        out.add(kind, change.in, change.count);
        placed = true;
      }
    }
    if (!placed) out.add(kind, change.in, change.count);
  }
  return out;
}

bool is_bound(const Brief& brief, const Catalog& catalog, PartRef part) {
  for (const auto* list : {&brief.keep, &brief.because})
    for (const ForcedPart& each : *list)
      if (each.kind == part.kind && each.id == catalog.id(part)) return true;
  return false;
}

// (R1) How much two parts of a kind differ: 1 for each word or flag that differs, the relative
// difference of each number, 1/2 where only one of them is known.
double difference(const Catalog& catalog, Kind kind, Row a, Row b) {
  const auto table = static_cast<std::uint8_t>(table_of(kind));
  double sum = 0.0;
  const auto& columns = spec(int{table}).columns;
  constexpr std::size_t first_fact = 4;  // behind id, name, maker and code
  for (std::size_t c = first_fact; c < columns.size(); ++c) {
    const ColumnId id{table, static_cast<std::uint8_t>(c)};
    const bool no_a = catalog.absent(id, a);
    const bool no_b = catalog.absent(id, b);
    if (no_a || no_b) {
      sum += no_a == no_b ? 0.0 : 0.5;
    } else if (columns[c].type == Type::number || columns[c].type == Type::count) {
      const double x = catalog.number(id, a);
      const double y = catalog.number(id, b);
      const double larger = std::max(std::fabs(x), std::fabs(y));
      if (larger > 0.0) sum += std::fabs(x - y) / larger;
    } else {
      sum += catalog.text(id, a) == catalog.text(id, b) ? 0.0 : 1.0;
    }
  }
  return sum;
}

// Of what is only told of the air the same is asked, beside that it need not hold.
bool is_well(const Rule& rule, Verdict verdict, const Brief& brief) {
  if (rule.grade == Grade::must || !rule.id.starts_with("air."))
    return admitted(rule, verdict, brief);
  return verdict == Verdict::holds || verdict == Verdict::thin;
}

class Healer {
  struct Places {
    int all = 0;
    int bad = 0;
  };

 public:
  explicit Healer(const JudgedBuild& judged) : in_(judged), draws_(judged.catalog) {
    for (const Rule* rule : rulebook())
      if (rule->grade == Grade::must) before_[rule] = bad_places(*rule, in_.build, in_.setup, true);
  }

  // Where the same parts sit and how fast fans turn says nothing to other engines.
  std::optional<Adjustment> adjust(const Rule& rule, const std::function<bool()>& stop) {
    if (!rule.id.starts_with("air.") && !rule.id.starts_with("fit.")) return {};
    if (!adjusted_) adjusted_ = adjustments(in_);
    for (const AdjustedSetup& each : *adjusted_) {
      if (stop && stop()) return {};
      if (bad_places(rule, in_.build, &each.setup, true).bad > 0) continue;
      const bool worse = std::ranges::any_of(before_, [&](const auto& entry) {
        const auto& [other, before] = entry;
        return bad_places(*other, in_.build, &each.setup, before.all > 0).bad > before.bad;
      });
      if (!worse) return each.what;
    }
    return {};
  }

  std::optional<Change> heal(const Rule& rule, const std::function<bool()>& stop) {
    std::vector<Change> changes = candidates(rule);
    std::ranges::stable_sort(changes, {}, &Change::size);
    std::size_t tried = 0;
    for (const Change& change : changes) {
      if (++tried > most_tried || (stop && stop())) return {};
      const Build build = changed(in_.build, change);
      if (bad_places(rule, build, in_.setup, true).bad == 0 && nothing_worse(change.kind, build))
        return change;
    }
    return {};
  }

  [[nodiscard]] std::string words(const Change& change) const {
    const auto name = [&](Row row) { return std::string(in_.catalog.name({change.kind, row})); };
    const std::string pieces = change.count > 1 ? fmt::format("{} pieces of ", change.count) : "";
    const std::string cost = cost_words(change);
    if (change.out == no_row)
      return fmt::format("add {}the {}{}: no other claim gets worse", pieces, name(change.in),
                         cost);
    if (change.in == no_row)
      return fmt::format("leave out the {}{}: no other claim gets worse", name(change.out), cost);
    if (change.in == change.out)
      return fmt::format("take {}the {}{}: no other claim gets worse", pieces, name(change.in),
                         cost);
    return fmt::format("take {}the {} instead of the {}{}: no other claim gets worse", pieces,
                       name(change.in), name(change.out), cost);
  }

 private:
  // Places of a rule, and those of them that may not enter a plan.
  Places bad_places(const Rule& rule, const Build& build, const Setup* setup, bool unknown_is_bad) {
    const Facts facts{.catalog = in_.catalog,
                      .brief = in_.brief,
                      .prices = in_.prices,
                      .build = build,
                      .draws = draws_,
                      .setup = setup};
    Places out{.all = rule.places(facts), .bad = 0};
    for (int place = 0; place < out.all; ++place) {
      const Verdict verdict = judge_verdict(rule, facts, place).verdict;
      if (verdict == Verdict::unknown && !unknown_is_bad) continue;
      out.bad += is_well(rule, verdict, in_.brief) ? 0 : 1;
    }
    return out;
  }

  // A rule that did not apply before may come to apply and be unknown: nothing got worse by it.
  bool nothing_worse(Kind kind, const Build& build) {
    return std::ranges::all_of(before_, [&](const auto& entry) {
      const auto& [rule, before] = entry;
      const bool concerned = std::ranges::find(rule->kinds, kind) != rule->kinds.end();
      return !concerned || bad_places(*rule, build, in_.setup, before.all > 0).bad <= before.bad;
    });
  }

  std::vector<Change> candidates(const Rule& rule) const {
    std::vector<Change> out;
    for (const Kind kind : rule.kinds) {
      const Row rows = in_.catalog.rows(table_of(kind));
      for (const Chosen& part : in_.build.of(kind)) {
        if (is_bound(in_.brief, in_.catalog, {kind, part.row})) continue;
        for (Row row = 0; row < rows; ++row)
          if (row != part.row && !chosen(kind, row)) out.push_back(swap(kind, part, row));
        if (kind == Kind::fan)
          for (int more = 1; more <= most_added_fans; ++more)
            out.push_back({kind, part.row, part.row, part.count + more,
                           added_size * more + price_share(kind, part.row)});
        if (part.count > 1) out.push_back({kind, part.row, part.row, part.count - 1, fewer_size});
        if (may_be_left_out(kind)) out.push_back({kind, part.row, no_row, 0, fewer_size});
      }
      if (kind != Kind::other && kind != Kind::fan) continue;
      for (Row row = 0; row < rows; ++row)
        if (!chosen(kind, row) && in_.build.of(kind).size() < Build::most_of_a_kind)
          for (int count = 1; count <= (kind == Kind::fan ? most_added_fans : 1); ++count)
            out.push_back({kind, no_row, row, count, added_size * count + price_share(kind, row)});
    }
    return out;
  }

  static constexpr double added_size = 1.0;
  static constexpr double fewer_size = 2.0;  // something the author wanted is gone

  Change swap(Kind kind, const Chosen& part, Row row) const {
    return {kind, part.row, row, part.count,
            difference(in_.catalog, kind, part.row, row) +
                std::fabs(price_share(kind, row) - price_share(kind, part.row))};
  }

  bool chosen(Kind kind, Row row) const {
    return std::ranges::any_of(in_.build.of(kind),
                               [&](const Chosen& part) { return part.row == row; });
  }

  bool may_be_left_out(Kind kind) const {
    return kind == Kind::other || kind == Kind::fan ||
           (kind == Kind::storage && in_.build.of(kind).size() > 1);
  }

  std::optional<Money> price(Kind kind, Row row) const {
    if (in_.prices == nullptr || in_.brief.markets.empty()) return {};
    const auto found = in_.prices->price({kind, row}, 0);
    if (!found) return {};
    return Money{in_.brief.markets.front().budget.currency, found->minor};
  }

  // A part's price as a share of a tenth of the budget; 0 where there are no prices.
  double price_share(Kind kind, Row row) const {
    const auto found = price(kind, row);
    if (!found) return 0.0;
    return 10.0 * static_cast<double>(found->minor) /
           static_cast<double>(in_.brief.markets.front().budget.minor);
  }

  std::string cost_words(const Change& change) const {
    if (in_.brief.markets.empty()) return {};
    std::int64_t minor = 0;
    if (change.in != no_row) {
      const auto found = price(change.kind, change.in);
      if (!found) return {};
      minor += found->minor * change.count;
    }
    for (const Chosen& part : in_.build.of(change.kind)) {
      if (part.row != change.out) continue;
      const auto found = price(change.kind, part.row);
      if (!found) return {};
      minor -= found->minor * part.count;
    }
    const MarketGoal& market = in_.brief.markets.front();
    if (minor == 0) return fmt::format(" (at the same price in {})", market.market);
    return fmt::format(" ({} {} in {})", to_string(Money{market.budget.currency, std::abs(minor)}),
                       minor > 0 ? "more" : "less", market.market);
  }

  const JudgedBuild& in_;
  CellDraws draws_;
  std::map<const Rule*, Places> before_;
  std::optional<std::vector<AdjustedSetup>> adjusted_;  // made when the first rule needs them
};

const Rule* rule_of(const Claim& claim) {
  for (const Rule* rule : rulebook())
    if (rule->id == claim.id) return rule;
  return nullptr;
}

Swap swap_of(const Catalog& catalog, const Change& change) {
  const auto id = [&](Row row) {
    return row == no_row ? std::string() : std::string(catalog.id({change.kind, row}));
  };
  return {.kind = std::string(name_of(change.kind)),
          .out = id(change.out),
          .in = id(change.in),
          .count = change.count};
}

}  // namespace

void add_swaps(const JudgedBuild& judged, std::vector<Claim>& claims,
               const std::function<bool()>& stop) {
  std::optional<Healer> healer;  // made when the first claim needs it
  struct Cure {
    std::optional<Adjustment> adjustment;
    std::optional<Change> change;
  };
  std::map<const Rule*, Cure> known;
  for (Claim& claim : claims) {
    const Rule* rule = rule_of(claim);
    if (rule == nullptr || is_well(*rule, claim.verdict, judged.brief)) continue;
    if (!healer) healer.emplace(judged);
    if (!known.contains(rule)) {
      Cure cure{.adjustment = healer->adjust(*rule, stop), .change = {}};
      if (!cure.adjustment && rule->grade == Grade::must) cure.change = healer->heal(*rule, stop);
      known.emplace(rule, std::move(cure));
    }
    const Cure& cure = known.at(rule);
    std::string words;
    if (cure.adjustment) {
      claim.adjustment = cure.adjustment;
      words = words_of(*cure.adjustment) + ": no other claim gets worse";
    } else if (cure.change) {
      claim.swap = swap_of(judged.catalog, *cure.change);
      words = healer->words(*cure.change);
    } else {
      continue;
    }
    claim.remedy = claim.remedy.empty() ? words : words + "; or " + claim.remedy;
  }
}

Build with_swap(const Catalog& catalog, const Build& build, const Swap& swap) {
  const auto kind = find_kind(swap.kind);
  if (!kind) return build;
  const auto row_of = [&](const std::string& id) {
    const auto part = id.empty() ? std::nullopt : catalog.find_part(id);
    return part && part->kind == *kind ? part->row : no_row;
  };
  return changed(build, {.kind = *kind,
                         .out = row_of(swap.out),
                         .in = row_of(swap.in),
                         .count = swap.count,
                         .size = 0.0});
}

}  // namespace rigproof::app
