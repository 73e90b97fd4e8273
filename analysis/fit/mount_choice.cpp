// All ways to seat radiator and added fans, tried against the claims that hang on it.
#include <algorithm>
#include <set>
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

  // By radiator, then by how many mounts stay without fans.
  template <class Look>
  bool for_each_way(Look look) const {
    const bool fans_are_fixed = !author_mount(facts_, "fan").empty();
    std::size_t tried = 1;
    for (std::uint32_t r = 0; r < static_cast<std::uint32_t>(std::max(count_, 1)); ++r) {
      std::set<std::uint32_t> level = {0};
      while (!level.empty()) {
        std::set<std::uint32_t> next;
        for (const std::uint32_t no_fans : level) {
          if (tried++ > most_ways) return false;
          const Way way{r, no_fans};
          const Mounting mounting = seat(way);
          if (!look(way, mounting)) return false;
          if (!fans_are_fixed) add_narrower(no_fans, mounting, next);
        }
        level = std::move(next);
      }
    }
    return true;
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
  [[nodiscard]] Against against(const Mounting& mounting) const {
    const Seats seats{mounting};
    Facts facts = facts_;
    facts.seats = &seats;
    Against out;
    for (const int left_over : mounting.unplaced) out.unseated += left_over;
    for (const Rule* rule : seat_rules())
      count(*rule, facts, out.certain, out.not_admitted, out.unsure);
    if (out.not_admitted > 0) return out;
    int certain = 0;
    count(rule_of("fit.moving-air"), facts, certain, out.air, out.unsure);
    if (out.air > 0) return out;
    for (const char* id : {"fit.supply-length", "fit.supply-cables"})
      count(rule_of(id), facts, certain, out.supply, out.unsure);
    return out;
  }
  // Of the rules that ask for room alone: whatever is seated only takes from it.
  [[nodiscard]] Against bare_case() const {
    const Seats seats;
    Facts facts = facts_;
    facts.seats = &seats;
    Against out;
    for (const Rule* rule : seat_rules())
      if (rule->unit == "mm" && rule->id != "fit.radiator-mount")
        count(*rule, facts, out.certain, out.not_admitted, out.unsure);
    // What is doubtful here is unknown where a cell of what is seated is absent.
    const bool unknown_is_admitted = std::ranges::any_of(seat_rules(), [&](const Rule* rule) {
      return admitted(*rule, Verdict::unknown, facts_.brief);
    });
    return unknown_is_admitted ? Against{.certain = out.certain} : out;
  }
  static const Rule& rule_of(std::string_view id) {
    return **std::ranges::find(fit_rules(), id, &Rule::id);
  }
  // No way does better than the bare case: one that does as well is the first best. Fans leave a
  // mount only where one sits, so that every way that differs is met.
  [[nodiscard]] Way search() const {
    const Against least = bare_case();
    Way best;
    Against fewest = against(seat(best));
    for_each_way([&](const Way& way, const Mounting& mounting) {
      if (fewest <= least) return false;
      const Against now = against(mounting);
      if (now < fewest) {
        fewest = now;
        best = way;
      }
      return true;
    });
    return best;
  }
  // The same mounts without fans, and one of those more on which fans sit.
  void add_narrower(std::uint32_t no_fans, const Mounting& mounting,
                    std::set<std::uint32_t>& out) const {
    const auto rows = mounts_of(facts_);
    for (const FanGroup& group : mounting.groups())
      for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i] == group.mount) out.insert(no_fans | std::uint32_t{1} << i);
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
    if (facts_.setup != nullptr)
      for (const auto& [what, where] : facts_.setup->mounts) {
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
      if (rule->family == seat_family) out.push_back(rule);
    return out;
  }();
  return rules;
}

Mounting choose_mounting(const Facts& facts) {
  if (facts.seats != nullptr) return facts.seats->mounting;
  if (facts.build.one(Kind::chassis) == no_row) return {};
  return Choice(facts).best();
}

bool for_each_mounting(const Facts& facts, const std::function<bool(const Mounting&)>& look) {
  if (facts.build.one(Kind::chassis) == no_row) return true;
  return Choice(facts).for_each_way(
      [&](const auto&, const Mounting& mounting) { return look(mounting); });
}

}  // namespace rigproof::fit
