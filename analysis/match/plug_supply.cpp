#include "analysis/match/plug_supply.hpp"

#include <algorithm>
#include <cmath>

#include "analysis/match/rule_words.hpp"
#include "base/contract.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId plug_connector = column("psu_cables", "connector");
constexpr ColumnId plug_count = column("psu_cables", "count");
constexpr ColumnId psu_family = column("psu", "cable_family");
constexpr ColumnId what = column("other", "what");
constexpr ColumnId set_family = column("other", "cable_family");
constexpr ColumnId set_connector = column("other_cables", "connector");
constexpr ColumnId set_count = column("other_cables", "count");
constexpr ColumnId takes = column("other_adapters", "takes");
constexpr ColumnId takes_count = column("other_adapters", "takes_count");
constexpr ColumnId gives = column("other_adapters", "gives");
constexpr ColumnId gives_count = column("other_adapters", "gives_count");
constexpr int sets = table("other_cables");
constexpr int adapters = table("other_adapters");

using Counts = std::array<double, plug_names.size()>;

std::string_view family_of_supply(const Facts& facts) {
  return facts.catalog.word(psu_family, facts.build.one(Kind::psu));
}

bool family_fits(const Facts& facts, Row set) {
  const auto family = family_of_supply(facts);
  return !family.empty() && family != fixed_cables && facts.catalog.word(set_family, set) == family;
}

struct Conversion {
  Row row = no_row;
  std::size_t from = 0;
  std::size_t to = 0;
  double from_count = 0.0;
  double to_count = 0.0;
  int pieces = 0;
  int used = 0;
};

struct Conversions {
  static constexpr std::size_t most = 8;
  std::array<Conversion, most> all{};
  std::size_t count = 0;
};

Conversions conversions_of(const Facts& facts) {
  Conversions out;
  for (const Chosen& other : facts.build.of(Kind::other))
    for (const Row row : facts.catalog.rows_of(adapters, {Kind::other, other.row})) {
      if (out.count == Conversions::most) return out;
      out.all[out.count++] = {.row = row,
                              .from = plug_index(facts.catalog.word(takes, row)),
                              .to = plug_index(facts.catalog.word(gives, row)),
                              .from_count = facts.catalog.number(takes_count, row),
                              .to_count = facts.catalog.number(gives_count, row),
                              .pieces = other.count,
                              .used = 0};
    }
  return out;
}

// Plugs before any adapter: the supply's own and those of sets that fit it.
Counts plain_plugs(const Facts& facts) {
  Counts out{};
  for (const Row row : facts.catalog.rows_of(table("psu_cables"), only(facts, Kind::psu)))
    out[plug_index(facts.catalog.word(plug_connector, row))] +=
        facts.catalog.number(plug_count, row);
  for (const Chosen& other : facts.build.of(Kind::other))
    if (family_fits(facts, other.row))
      for (const Row row : facts.catalog.rows_of(sets, {Kind::other, other.row}))
        out[plug_index(facts.catalog.word(set_connector, row))] +=
            facts.catalog.number(set_count, row) * other.count;
  return out;
}

// Tries how many of each adapter that gives what is judged are used.
class BestUse {
 public:
  BestUse(const PlugNeeds& needs, const Counts& plain, const Conversions& conversions)
      : needs_(needs), plain_(plain), now_(conversions) {
    for (std::size_t i = 0; i < now_.count; ++i)
      if (!needs_.judged[now_.all[i].to]) use(i, now_.all[i].pieces);
    best_ = now_;
    least_lacking_ = lacking();
    try_from(0);
  }
  [[nodiscard]] const Conversions& best() const { return best_; }

 private:
  void use(std::size_t i, int pieces) {
    Conversion& each = now_.all[i];
    taken_[each.from] += (pieces - each.used) * each.from_count;
    given_[each.to] += (pieces - each.used) * each.to_count;
    each.used = pieces;
  }
  [[nodiscard]] double lacking() const {
    double sum = 0.0;
    for (std::size_t n = 0; n < plug_names.size(); ++n)
      if (needs_.judged[n])
        sum += std::max(0.0, needs_.needed[n] + taken_[n] - plain_[n] - given_[n]);
    return sum;
  }
  void try_from(std::size_t i) {
    if (least_lacking_ <= 0.0) return;
    if (i == now_.count) {
      if (const double now = lacking(); now < least_lacking_) {
        least_lacking_ = now;
        best_ = now_;
      }
      return;
    }
    const Conversion& each = now_.all[i];
    if (!needs_.judged[each.to]) return try_from(i + 1);
    const double wanted = std::ceil(needs_.needed[each.to] / each.to_count);
    for (int pieces = 0; pieces <= each.pieces && pieces <= wanted; ++pieces) {
      use(i, pieces);
      if (pieces == 0 || taken_[each.from] <= plain_[each.from]) try_from(i + 1);
    }
    use(i, 0);
  }

  const PlugNeeds& needs_;
  const Counts& plain_;
  Conversions now_;
  Conversions best_;
  Counts taken_{};
  Counts given_{};
  double least_lacking_ = 0.0;
};

}  // namespace

std::size_t plug_index(std::string_view name) {
  const auto at = std::ranges::find(plug_names, name);
  RP_EXPECT(at != plug_names.end());
  return static_cast<std::size_t>(at - plug_names.begin());
}

PlugSum plugs(const Facts& facts, const PlugNeeds& needs, std::size_t name, Measure& m) {
  PlugSum out;
  const auto rows = m.read_rows(facts, table("psu_cables"), only(facts, Kind::psu));
  if (rows.empty()) return out;
  out.offered = 0.0;
  for (const Row row : rows)
    if (facts.catalog.word(plug_connector, row) == plug_names[name])
      out.offered += m.read(facts, plug_count, row);
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const auto added = facts.catalog.rows_of(sets, {Kind::other, other.row});
    if (added.empty() || !family_fits(facts, other.row)) continue;
    for (const Row row : added) {
      if (facts.catalog.word(set_connector, row) != plug_names[name]) continue;
      m.note_seen(set_family, other.row);
      m.note_seen(psu_family, facts.build.one(Kind::psu));
      out.offered += m.read(facts, set_count, row) * other.count;
    }
  }
  const Conversions conversions = conversions_of(facts);
  if (conversions.count == 0) return out;
  const Counts plain = plain_plugs(facts);
  const Conversions best = BestUse(needs, plain, conversions).best();
  for (std::size_t i = 0; i < best.count; ++i) {
    const Conversion& each = best.all[i];
    if (each.used == 0) continue;
    if (each.from == name) out.taken += m.read(facts, takes_count, each.row) * each.used;
    if (each.to == name) {
      m.note_seen(takes, each.row);
      out.offered += m.read(facts, gives_count, each.row) * each.used;
    }
  }
  return out;
}

void note_unknown_plugs(const Facts& facts, Measure& m) {
  const Row psu = facts.build.one(Kind::psu);
  for (const Chosen& other : facts.build.of(Kind::other)) {
    const PartRef part{Kind::other, other.row};
    const auto word = m.read_word(facts, what, other.row);
    if (word == "adapter") m.read_rows(facts, adapters, part);
    if (word != "cable-set" || family_of_supply(facts) == fixed_cables) continue;
    m.read_word(facts, psu_family, psu);
    m.read_word(facts, set_family, other.row);
    if (family_fits(facts, other.row)) m.read_rows(facts, sets, part);
  }
}

bool has_plug_parts(const Facts& facts) {
  return std::ranges::any_of(facts.build.of(Kind::other), [&](const Chosen& other) {
    const auto word = facts.catalog.word(what, other.row);
    return word == "adapter" || word == "cable-set";
  });
}

}  // namespace rigproof::match
