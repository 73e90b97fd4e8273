// All ways to seat radiator and added fans, tried against the claims that hang on it.
#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/fit/mounting.hpp"
#include "analysis/fit/seat_rules.hpp"

namespace rigproof::fit {
namespace {

// A way to seat them: which of the radiator's candidates, and a bit for each mount of the case that
// gets no added fan. As one number it is below 2^53, so that it can be kept as Draws.
struct Way {
  std::uint32_t radiator = 0;
  std::uint32_t no_fans = 0;
};
static_assert(most_mounts <= 24);

// A tree of exclusions that nothing of the trade comes near.
constexpr std::size_t most_ways = 20'000;

class Choice {
 public:
  explicit Choice(const Facts& facts)
      : facts_(facts), count_(radiator_candidates(facts, radiators_)) {}

  Mounting best() {
    const Mounting first = seated(facts_, count_ == 0 ? no_row : radiators_[0]);
    if (count_ <= 1 && first.fan_groups == 0) return first;
    const CellDraws::Key key = key_of_facts();
    if (const Draws* kept = facts_.draws.kept(key)) return seat(decoded(kept->low()));
    const Way way = search();
    facts_.draws.keep(key, Draws(encoded(way)));
    return seat(way);
  }

 private:
  static double encoded(const Way& way) { return way.radiator * 16777216.0 + way.no_fans; }
  static Way decoded(double number) {
    const auto whole = static_cast<std::uint64_t>(number);
    return {static_cast<std::uint32_t>(whole >> 24U),
            static_cast<std::uint32_t>(whole & 0xFFFFFFU)};
  }

  [[nodiscard]] Row radiator_of(const Way& way) const {
    return count_ == 0 ? no_row : radiators_[way.radiator];
  }
  [[nodiscard]] std::span<const Row> mounts() const {
    const auto rows = facts_.catalog.rows_of(table("case_mounts"),
                                             {Kind::chassis, facts_.build.one(Kind::chassis)});
    return rows.first(std::min<std::size_t>(rows.size(), most_mounts));
  }
  [[nodiscard]] std::string_view name(Row mount) const {
    return facts_.catalog.word(column("case_mounts", "mount"), mount);
  }
  [[nodiscard]] Mounts names_of(const Way& way) const {
    Mounts out = facts_.mounts == nullptr ? Mounts{} : *facts_.mounts;
    if (const Row radiator = radiator_of(way); radiator != no_row) out["cooler"] = name(radiator);
    out[no_fans_on] = std::to_string(way.no_fans);
    return out;
  }
  [[nodiscard]] Facts with(const Mounts& names) const {
    return {.catalog = facts_.catalog,
            .brief = facts_.brief,
            .prices = facts_.prices,
            .build = facts_.build,
            .draws = facts_.draws,
            .mounts = &names};
  }
  [[nodiscard]] Mounting seat(const Way& way) const {
    return seated(facts_, radiator_of(way), way.no_fans);
  }

  /// What speaks against a way, the weightiest first.
  struct Against {
    int unseated = 0;      ///< added fans left over: a way that seats all goes before
    int certain = 0;       ///< claims of the seat rules that fail for certain
    int not_admitted = 0;  ///< claims of the seat rules that the brief does not admit
    int air = 0;           ///< of moving air; only where all those are admitted
    int supply = 0;        ///< of the supply's length; only where these are admitted too
    int unsure = 0;        ///< claims that are not certain to hold: thin, doubtful, unknown
    auto operator<=>(const Against&) const = default;
  };
  static void count(const Rule& rule, const Facts& facts, int& certain, int& not_admitted,
                    int& unsure) {
    const int places = rule.places(facts);
    for (int place = 0; place < places; ++place) {
      const Finding finding = judge(rule, facts, place);
      certain += fails_for_certain(finding) ? 1 : 0;
      not_admitted += admitted(rule, finding.verdict, facts.brief) ? 0 : 1;
      unsure += finding.verdict == Verdict::holds ? 0 : 1;
    }
  }
  // With `bare` only of the rules that nothing seated can make better.
  [[nodiscard]] Against against(const Mounts& names, bool bare = false) const {
    const Facts facts = with(names);
    Against out;
    for (const int left_over : choose_mounting(facts).unplaced) out.unseated += left_over;
    for (const Rule* rule : seat_rules())
      if (!bare || is_about_room(*rule))
        count(*rule, facts, out.certain, out.not_admitted, out.unsure);
    if (bare || out.not_admitted > 0) return out;
    int certain = 0;
    count(rule_of("fit.moving-air"), facts, certain, out.air, out.unsure);
    if (out.air == 0) count(rule_of("fit.supply-length"), facts, certain, out.supply, out.unsure);
    return out;
  }
  static bool is_about_room(const Rule& rule) {
    return rule.unit == "mm" && rule.id != "fit.radiator-mount";
  }
  static const Rule& rule_of(std::string_view id) {
    return **std::ranges::find(fit_rules(), id, &Rule::id);
  }
  // What is doubtful in the bare case is unknown where a cell of what is seated is absent.
  [[nodiscard]] bool admits_unknown() const {
    return std::ranges::any_of(seat_rules(), [&](const Rule* rule) {
      return admitted(*rule, Verdict::unknown, facts_.brief);
    });
  }

  // No way does better than the bare case: one that does as well is the first best. Fans leave a
  // mount only where one sits, so that every way that differs is met.
  [[nodiscard]] Way search() const {
    Against least = against({{nothing_seated, ""}}, true);
    if (admits_unknown()) least = {.certain = least.certain};
    const bool fans_are_fixed = facts_.mounts != nullptr && facts_.mounts->contains("fan");
    Way best;
    Against fewest = against(names_of(best));
    std::size_t tried = 1;
    for (std::uint32_t r = 0; r < static_cast<std::uint32_t>(std::max(count_, 1)); ++r) {
      std::set<std::uint32_t> level = {0};
      while (!level.empty()) {
        std::set<std::uint32_t> next;
        for (const std::uint32_t no_fans : level) {
          if (fewest <= least || tried++ > most_ways) return best;
          const Way way{r, no_fans};
          const Against now = against(names_of(way));
          if (now < fewest) {
            fewest = now;
            best = way;
          }
          if (!fans_are_fixed) add_narrower(way, next);
        }
        level = std::move(next);
      }
    }
    return best;
  }
  void add_narrower(const Way& way, std::set<std::uint32_t>& out) const {
    const Mounting mounting = seat(way);
    const auto rows = mounts();
    for (const FanGroup& group : mounting.groups())
      for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i] == group.mount) out.insert(way.no_fans | std::uint32_t{1} << i);
  }

  // All that the choice rests on beside catalog and seed.
  [[nodiscard]] CellDraws::Key key_of_facts() const {
    constexpr std::uint64_t own = 0x5EA7'0000'0000'0001U;
    CellDraws::Key key{own, 1, 2, 3, 0, 0};
    const auto add = [&](std::uint64_t value) {
      for (std::size_t i = 1; i <= 3; ++i) {
        key[i] = (key[i] ^ value) * (0x9E37'79B9'7F4A'7C15U + 2 * i);
        key[i] ^= key[i] >> 29U;
      }
    };
    const auto add_text = [&](std::string_view text) {
      for (const char c : text) add(static_cast<unsigned char>(c));
      add(256);
    };
    for (const Kind kind : supply_seat_kinds) {
      for (const Chosen& chosen : facts_.build.of(kind)) {
        add(chosen.row);
        add(static_cast<std::uint64_t>(chosen.count));
      }
      add(~std::uint64_t{0});
    }
    const auto add_accept = [&](const Accept& accept) {
      add(static_cast<std::uint64_t>(accept.verdict));
      add(static_cast<std::uint64_t>(accept.unknown));
    };
    add_accept(facts_.brief.accept);
    for (const auto& [id, accept] : facts_.brief.accept_by_rule) {
      add_text(id);
      add_accept(accept);
    }
    if (facts_.mounts != nullptr)
      for (const auto& [what, where] : *facts_.mounts) {
        add_text(what);
        add_text(where);
      }
    return key;
  }

  const Facts& facts_;
  std::array<Row, most_mounts> radiators_{};
  int count_ = 0;
};

}  // namespace

const std::vector<const Rule*>& seat_rules() {
  static const std::vector<const Rule*> rules = [] {
    std::vector<const Rule*> out;
    for (const Rule* rule : fit_rules())
      if (rule->kinds.data() == seat_kinds.data()) out.push_back(rule);
    return out;
  }();
  return rules;
}

Mounting choose_mounting(const Facts& facts) {
  if (facts.build.one(Kind::chassis) == no_row) return {};
  if (facts.mounts != nullptr) {
    if (facts.mounts->contains(nothing_seated)) return {};
    const auto tried = facts.mounts->find(no_fans_on);
    if (tried != facts.mounts->end()) {
      std::array<Row, most_mounts> fixed{};
      return seated(facts, radiator_candidates(facts, fixed) == 0 ? no_row : fixed[0],
                    static_cast<std::uint32_t>(std::stoul(tried->second)));
    }
  }
  return Choice(facts).best();
}

}  // namespace rigproof::fit
