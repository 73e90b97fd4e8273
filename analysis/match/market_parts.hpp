// What the rules about markets share: the parts of a build piece by piece, and the market asked.
// Not for other engines.
#pragma once

#include <array>

#include "analysis/match/rule_words.hpp"

namespace rigproof::match {

inline constexpr std::array all_kinds = {Kind::cpu,     Kind::board,   Kind::memory,  Kind::gpu,
                                         Kind::storage, Kind::cooler,  Kind::chassis, Kind::psu,
                                         Kind::fan,     Kind::display, Kind::other};
inline constexpr ColumnId offered_part = column("offers", "part");

struct Piece {
  PartRef part;
  int count = 0;
};

inline int parts_of(const Facts& facts) {
  int sum = 0;
  for (const Kind kind : all_kinds) sum += different(facts, kind);
  return sum;
}

inline Piece piece(const Facts& facts, int i) {
  for (const Kind kind : all_kinds) {
    const auto chosen = facts.build.of(kind);
    if (i < static_cast<int>(chosen.size()))
      return {{kind, chosen[static_cast<std::size_t>(i)].row},
              chosen[static_cast<std::size_t>(i)].count};
    i -= static_cast<int>(chosen.size());
  }
  return {};
}

inline int markets_of(const Facts& facts) { return facts.prices ? facts.prices->markets() : 0; }

inline const MarketGoal& goal(const Facts& facts, int market) {
  return facts.brief.markets[static_cast<std::size_t>(market)];
}

/// Days between the day an offer was seen and the brief's.
inline int age_days(const Facts& facts, Row offer) {
  return days_between(
      facts.catalog.date(column("offers", "seen"), offer).value_or(facts.brief.as_of),
      facts.brief.as_of);
}

/// A place for every market, where some part has to be bought.
inline int buying_places(const Facts& facts) {
  const int markets = markets_of(facts);
  for (int i = 0; markets > 0 && i < parts_of(facts); ++i)
    if (!facts.prices->kept(piece(facts, i).part)) return markets;
  return 0;
}

/// Calls see(piece, offer) for every part that is bought; a part without a price is noted.
template <class See>
void each_bought(const Facts& facts, int market, Measure& m, See see) {
  for (int i = 0; i < parts_of(facts); ++i) {
    const Piece each = piece(facts, i);
    const auto price = facts.prices->price(each.part, market, each.count);
    if (!price)
      m.note_missing({offered_part, no_row, each.part}, false);
    else if (price->offer != no_row)
      see(each, price->offer);
  }
}

}  // namespace rigproof::match
