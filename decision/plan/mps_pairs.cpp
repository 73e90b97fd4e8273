#include "decision/plan/mps_pairs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace rigproof::plan {
namespace {

Bits forbidden_row(const PairTable& table, int row, std::size_t columns) {
  Bits bits((columns + 63) / 64, 0);
  for (std::size_t column = 0; column < columns; ++column)
    if (!table.allowed(row, static_cast<int>(column))) set_bit(bits, column);
  return bits;
}

void unite(Bits& into, const Bits& more) {
  for (std::size_t word = 0; word < into.size(); ++word) into[word] |= more[word];
}

bool contains(const Bits& large, const Bits& small) {
  for (std::size_t word = 0; word < large.size(); ++word)
    if ((small[word] & ~large[word]) != 0) return false;
  return true;
}

// Rows of one class are equal.
bool add_table(const PairTable& table, ForbiddenPairs& pairs, const std::function<bool()>& stop) {
  std::map<int, Bits> known;
  for (std::size_t row = 0; row < pairs.rows.size(); ++row) {
    if (stop && stop()) return false;
    const int like = table.row_class.empty() ? static_cast<int>(row) : table.row_class[row];
    auto at = known.find(like);
    if (at == known.end())
      at = known.emplace(like, forbidden_row(table, static_cast<int>(row), pairs.columns)).first;
    unite(pairs.rows[row], at->second);
  }
  return true;
}

// A check over two slots forbids pairs as a table does: it is asked once for two classes.
bool add_check(const Problem& problem, const Check& check, ForbiddenPairs& pairs,
               const std::function<bool()>& stop) {
  const auto class_of = [&](int slot, std::size_t option) {
    return check.class_of ? check.class_of(slot, static_cast<int>(option))
                          : static_cast<std::uint32_t>(option);
  };
  std::map<std::uint32_t, std::vector<std::size_t>> columns;
  for (std::size_t column = 0; column < pairs.columns; ++column)
    columns[class_of(pairs.second, column)].push_back(column);
  std::vector<int> choice(problem.slots.size(), -1);
  std::map<std::uint32_t, Bits> known;
  for (std::size_t row = 0; row < pairs.rows.size(); ++row) {
    if (stop && stop()) return false;
    const auto [at, fresh] = known.try_emplace(class_of(pairs.first, row));
    if (fresh) {
      at->second.assign((pairs.columns + 63) / 64, 0);
      choice[static_cast<std::size_t>(pairs.first)] = static_cast<int>(row);
      for (const auto& [number, alike] : columns) {
        choice[static_cast<std::size_t>(pairs.second)] = static_cast<int>(alike.front());
        if (!check.holds(choice))
          for (const std::size_t column : alike) set_bit(at->second, column);
      }
    }
    unite(pairs.rows[row], at->second);
  }
  return true;
}

std::vector<Bits> turned(const ForbiddenPairs& pairs) {
  std::vector<Bits> out(pairs.columns, Bits((pairs.rows.size() + 63) / 64, 0));
  for (std::size_t row = 0; row < pairs.rows.size(); ++row)
    for (std::size_t column = 0; column < pairs.columns; ++column)
      if (bit(pairs.rows[row], column)) set_bit(out[column], row);
  return out;
}

// Options of one side by what they forbid on the other; those that forbid nothing are not in it.
std::map<Bits, std::vector<std::size_t>> by_forbidden(const std::vector<Bits>& rows) {
  std::map<Bits, std::vector<std::size_t>> groups;
  for (std::size_t row = 0; row < rows.size(); ++row)
    if (std::ranges::any_of(rows[row], [](std::uint64_t word) { return word != 0; }))
      groups[rows[row]].push_back(row);
  return groups;
}

}  // namespace

std::vector<ForbiddenPairs> forbidden_pairs(const Problem& problem,
                                            const std::function<bool()>& stop) {
  std::map<std::pair<int, int>, ForbiddenPairs> by_slots;
  const auto of = [&](int first, int second) -> ForbiddenPairs& {
    const auto [at, fresh] = by_slots.try_emplace({first, second});
    if (fresh) {
      const std::size_t rows = problem.slots[static_cast<std::size_t>(first)].options.size();
      at->second = {.first = first,
                    .second = second,
                    .columns = problem.slots[static_cast<std::size_t>(second)].options.size()};
      at->second.rows.assign(rows, Bits((at->second.columns + 63) / 64, 0));
    }
    return at->second;
  };
  for (const PairTable& table : problem.tables)
    if (!add_table(table, of(table.first, table.second), stop)) return {};
  for (const Check& check : problem.checks)
    if (check.scope.size() == 2 &&
        !add_check(problem, check, of(check.scope[0], check.scope[1]), stop))
      return {};
  std::vector<ForbiddenPairs> out;
  out.reserve(by_slots.size());
  for (auto& [slots, pairs] : by_slots) out.push_back(std::move(pairs));
  return out;
}

void add_pair_rows(const ForbiddenPairs& pairs, const std::string& name, int first_column,
                   int second_column, LinearModel& model) {
  const auto by_row = by_forbidden(pairs.rows);
  const auto by_column = by_forbidden(turned(pairs));
  const bool turn = by_column.size() < by_row.size();
  const auto& groups = turn ? by_column : by_row;
  if (turn) std::swap(first_column, second_column);
  int number = 0;
  for (const auto& [forbidden, unused] : groups) {
    const int row =
        model.add_row(fmt::format("{}_{}", name, number++), LinearModel::Sense::at_most, 1.0);
    for (const auto& [more, members] : groups)
      if (contains(more, forbidden))
        for (const std::size_t member : members)
          model.enter(row, first_column + static_cast<int>(member), 1.0);
    for (std::size_t other = 0; other < forbidden.size() * 64; ++other)
      if (bit(forbidden, other)) model.enter(row, second_column + static_cast<int>(other), 1.0);
  }
}

}  // namespace rigproof::plan
