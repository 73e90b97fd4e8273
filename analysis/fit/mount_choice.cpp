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

  // Claims of one rule that the brief does not admit.
  static int not_admitted(const Rule& rule, const Facts& facts) {
    int count = 0;
    const int places = rule.places(facts);
    for (int place = 0; place < places; ++place)
      if (!admitted(rule, judge(rule, facts, place).verdict, facts.brief)) ++count;
    return count;
  }
  // Twice those of the seat rules; of a way that all these admit, one more if the supply does not
  // fit. With `bare` only of the rules that nothing seated can make better.
  [[nodiscard]] int badness(const Mounts& names, bool bare = false) const {
    const Facts facts = with(names);
    int count = 0;
    for (const Rule* rule : seat_rules())
      if (!bare || is_about_room(*rule)) count += 2 * not_admitted(*rule, facts);
    return count == 0 ? std::min(1, not_admitted(supply_rule(), facts)) : count;
  }
  static bool is_about_room(const Rule& rule) {
    return rule.unit == "mm" && rule.id != "fit.radiator-mount";
  }
  static const Rule& supply_rule() {
    static const Rule& rule = **std::ranges::find(fit_rules(), "fit.supply-length", &Rule::id);
    return rule;
  }

  // No way does better than the bare case: one that does as well is the first best. Fans leave a
  // mount only where one sits, so that every way that differs is met.
  [[nodiscard]] Way search() const {
    const int least = badness({{nothing_seated, ""}}, true);
    Way best;
    int fewest = badness(names_of(best));
    std::size_t tried = 1;
    for (std::uint32_t r = 0; r < static_cast<std::uint32_t>(std::max(count_, 1)); ++r) {
      std::set<std::uint32_t> level = {0};
      while (!level.empty()) {
        std::set<std::uint32_t> next;
        for (const std::uint32_t no_fans : level) {
          if (fewest <= least || tried++ > most_ways) return best;
          const Way way{r, no_fans};
          const int count = badness(names_of(way));
          if (count < fewest) {
            fewest = count;
            best = way;
          }
          add_narrower(way, next);
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
      if (std::ranges::equal(rule->kinds, seat_kinds)) out.push_back(rule);
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
