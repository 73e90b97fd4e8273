// The bit table of allowed pairs (search.hpp).
#include "base/contract.hpp"
#include "decision/plan/search.hpp"

namespace rigproof::plan {

namespace {
constexpr int word_bits = 64;
}

PairTable PairTable::all_allowed(int first, int second, int rows, int columns, std::string why) {
  RP_EXPECT(first >= 0 && first < second && rows >= 0 && columns >= 0);
  PairTable table{.first = first, .second = second, .why = std::move(why)};
  table.words_per_row = (columns + word_bits - 1) / word_bits;
  const auto per_row = static_cast<std::size_t>(table.words_per_row);
  table.bits.assign(static_cast<std::size_t>(rows) * per_row, ~std::uint64_t{0});
  const int used = columns % word_bits;
  if (used == 0) return table;
  for (std::size_t last = per_row - 1; last < table.bits.size(); last += per_row)
    table.bits[last] = (std::uint64_t{1} << used) - 1;  // padding stays 0
  return table;
}

void PairTable::forbid(int row, int column) {
  const auto word = static_cast<std::size_t>(row) * static_cast<std::size_t>(words_per_row) +
                    static_cast<std::size_t>(column / word_bits);
  RP_EXPECT(row >= 0 && column >= 0 && column / word_bits < words_per_row && word < bits.size());
  bits[word] &= ~(std::uint64_t{1} << (column % word_bits));
}

bool PairTable::allows(int row, int column) const {
  const auto word = static_cast<std::size_t>(row) * static_cast<std::size_t>(words_per_row) +
                    static_cast<std::size_t>(column / word_bits);
  RP_EXPECT(row >= 0 && column >= 0 && column / word_bits < words_per_row && word < bits.size());
  return (bits[word] >> (column % word_bits) & 1U) != 0;
}

bool PairTable::allowed(int first_option, int second_option) const {
  const auto class_of = [](const std::vector<int>& classes, int option) {
    return classes.empty() ? option : classes.at(static_cast<std::size_t>(option));
  };
  return allows(class_of(row_class, first_option), class_of(column_class, second_option));
}

}  // namespace rigproof::plan
