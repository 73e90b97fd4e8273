#include "analysis/match/rule_words.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace rigproof::match {

PartRef only(const Facts& facts, Kind kind) { return {kind, facts.build.one(kind)}; }

PartRef nth(const Facts& facts, Kind kind, int i) {
  return {kind, facts.build.of(kind)[static_cast<std::size_t>(i)].row};
}

int different(const Facts& facts, Kind kind) {
  return static_cast<int>(facts.build.of(kind).size());
}

Draws product(const Draws& a, const Draws& b) {
  if (a.is_absent() || b.is_absent()) return Draws::absent();
  if (b.is_certain()) return a * b.low();
  if (a.is_certain()) return b * a.low();
  std::array<double, draw_count> samples;
  for (int i = 0; i < draw_count; ++i) samples[static_cast<std::size_t>(i)] = a[i] * b[i];
  return Draws::of(samples, a.spans() || b.spans());
}

void set_need(double known_need, const Draws& offered, bool need_unknown, Measure& m) {
  m.limit = offered;
  const bool too_many = !offered.is_absent() && known_need > offered.high();
  if (!need_unknown || too_many) m.value = known_need;
  if (too_many) m.unknown = false;
}

void take_seen(const Measure& from, Measure& m) {
  for (int i = 0; i < from.seen_count; ++i) {
    const SeenCell& cell = from.seen[static_cast<std::size_t>(i)];
    m.note_seen(cell.column, cell.row);
  }
}

void take_missing(const Measure& from, Measure& m) {
  for (int i = 0; i < from.missing_count; ++i)
    m.note_missing(from.missing[static_cast<std::size_t>(i)], false);
}

std::string name(const Facts& facts, PartRef part) { return std::string(facts.catalog.name(part)); }

std::string number(double value) { return readable(value, 9); }

std::string cell(const Facts& facts, ColumnId column, Row row) {
  if (facts.catalog.absent(column, row)) return "not known";
  const Type type = spec(column).type;
  if (type == Type::number || type == Type::count) return number(facts.catalog.number(column, row));
  std::string out;
  for (const char c : facts.catalog.word(column, row)) {
    if (c == '|')
      out += ", ";
    else
      out += c;
  }
  return out;
}

std::string counted(double count, std::string_view one, std::string_view several) {
  return fmt::format("{} {}", number(count), count == 1.0 ? one : several);
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

}  // namespace rigproof::match
