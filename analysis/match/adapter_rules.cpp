// What may stand between a supply and a part: adapters only where the brief accepts them, loose
// cables only of the supply's own family.
#include <fmt/format.h>

#include "analysis/match/rule_words.hpp"
#include "analysis/match/rulebook.hpp"

namespace rigproof::match {
namespace {

constexpr ColumnId what = column("other", "what");
constexpr ColumnId set_family = column("other", "cable_family");
constexpr ColumnId psu_family = column("psu", "cable_family");

// The different others of one sort.
int others(const Facts& facts, std::string_view sort) {
  int sum = 0;
  for (const Chosen& other : facts.build.of(Kind::other))
    sum += facts.catalog.word(what, other.row) == sort ? 1 : 0;
  return sum;
}

PartRef nth_other(const Facts& facts, std::string_view sort, int place) {
  for (const Chosen& other : facts.build.of(Kind::other))
    if (facts.catalog.word(what, other.row) == sort && place-- == 0)
      return {Kind::other, other.row};
  return {Kind::other, no_row};
}

constexpr std::array other_kind = {Kind::other};
constexpr std::array adapters_reads = {what};
constexpr std::array<std::string_view, 1> adapters_keys = {"accept.adapters"};

// A build judged without a brief has nobody who accepts or refuses.
int adapter_places(const Facts& facts) {
  return facts.brief.markets.empty() ? 0 : others(facts, "adapter");
}

void measure_adapters(const Facts& facts, int place, Measure& m) {
  m.note_seen(what, nth_other(facts, "adapter", place).row);
  m.compare_text("adapter", facts.brief.accept_adapters ? "accepted" : "not accepted",
                 facts.brief.accept_adapters);
}

void tell_adapters(const Facts& facts, int place, const Measure&, Telling& t) {
  const PartRef adapter = nth_other(facts, "adapter", place);
  t.where = facts.catalog.id(adapter);
  t.statement =
      fmt::format("The brief accepts power adapters such as the {}.", name(facts, adapter));
  t.remedy =
      "choose a supply that has the plugs itself, or say adapters = true in [accept] of the brief";
  t.subjects = {adapter};
}

constexpr std::array psu_other = {Kind::psu, Kind::other};
constexpr std::array family_reads = {psu_family, what, set_family};

int family_places(const Facts& facts) {
  return facts.build.has(Kind::psu) ? others(facts, "cable-set") : 0;
}

void measure_family(const Facts& facts, int place, Measure& m) {
  const PartRef set = nth_other(facts, "cable-set", place);
  const auto of_supply = m.read_word(facts, psu_family, facts.build.one(Kind::psu));
  if (of_supply == fixed_cables) {
    m.note_seen(set_family, set.row);
    const auto of_set = facts.catalog.word(set_family, set.row);
    m.compare_text(of_set.empty() ? "a cable set" : of_set, "no loose cables", false);
    return;
  }
  const auto of_set = m.read_word(facts, set_family, set.row);
  m.compare_text(of_set, of_supply, of_set == of_supply);
}

void tell_family(const Facts& facts, int place, const Measure&, Telling& t) {
  const PartRef set = nth_other(facts, "cable-set", place);
  const PartRef psu = only(facts, Kind::psu);
  t.where = facts.catalog.id(set);
  t.statement = fmt::format("The {} belongs to the family of the {} supply ({}, {}).",
                            name(facts, set), name(facts, psu), cell(facts, set_family, set.row),
                            cell(facts, psu_family, psu.row));
  t.remedy =
      "use only cables of the supply's own family: cables of another set can fit and still destroy "
      "hardware; never mix them, and keep them apart";
  t.subjects = {psu, set};
}

}  // namespace

constexpr Rule adapters = {
    .id = "match.adapters",
    .about = "power adapters only where the brief accepts them",
    .consequence = "An adapter would stand between the supply and a part; a poor one can overheat.",
    .kinds = other_kind,
    .reads = adapters_reads,
    .brief_keys = adapters_keys,
    .relation = Relation::equals,
    .equation = "the brief's accept.adapters says true",
    .source = "the brief",
    .places = adapter_places,
    .measure = measure_adapters,
    .tell = tell_adapters};

constexpr Rule cable_family = {.id = "match.cable-family",
                               .about = "every cable set is of the supply's own family",
                               .consequence =
                                   "A cable of another make would fit the supply's sockets and put "
                                   "the wrong voltage on a part: it can destroy the part at once.",
                               .kinds = psu_other,
                               .reads = family_reads,
                               .relation = Relation::equals,
                               .equation =
                                   "family of the cable set = family of the supply, which "
                                   "is not \"fixed\"",
                               .source = part_data,
                               .places = family_places,
                               .measure = measure_family,
                               .tell = tell_family};

}  // namespace rigproof::match
