// Rows of a market as text at once: a market has a million of them, so none is kept. Not for others
// than make_market*.cpp.
#pragma once

#include <charconv>
#include <string>
#include <string_view>
#include <vector>

#include "base/contract.hpp"
#include "tools/make_demo_sheet.hpp"

namespace rigproof::demo {

/// One table's text. Cells are given in the order of the schema; those passed over stay empty.
class Rows {
 public:
  explicit Rows(int table);
  /// In: `value` needs no quotes.
  Rows& text(ColumnId column, std::string_view value) {
    RP_EXPECT(value.find_first_of(",\"\n") == std::string_view::npos);
    move_to(column);
    text_ += value;
    return *this;
  }
  Rows& whole(ColumnId column, std::int64_t value) {
    char digits[24];
    const auto end = std::to_chars(std::begin(digits), std::end(digits), value).ptr;
    return text(column, {digits, static_cast<std::size_t>(end - digits)});
  }
  Rows& decimal(ColumnId column, Decimal value) { return text(column, to_text(value)); }
  Rows& money(ColumnId column, std::int64_t cents) {
    return text(column, to_text({cents, 2}, true));
  }
  Rows& flag(ColumnId column, bool value) { return text(column, value ? "yes" : "no"); }
  void end_row();
  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  void move_to(ColumnId column) {
    RP_EXPECT(column.table == table_ && column.column >= at_);
    for (; at_ < column.column; ++at_) text_ += ',';
  }

  int table_;
  std::size_t columns_;
  std::size_t at_ = 0;
  std::string text_;
};

/// All tables of a market while they are filled, and what each part costs.
class Market {
 public:
  Market();
  [[nodiscard]] Rows& rows(int table) { return tables_[static_cast<std::size_t>(table)]; }
  /// The part's row with its first four columns written: the kind's name and a number are its id.
  Rows& part(Kind kind, int number, int euro);
  [[nodiscard]] const std::vector<Priced>& shop() const { return shop_; }
  /// Processors so far.
  [[nodiscard]] int processors() const { return processors_; }
  [[nodiscard]] std::string take(int table) { return rows(table).take(); }

 private:
  std::vector<Rows> tables_;
  std::vector<Priced> shop_;
  int processors_ = 0;
};

/// `board` and 17 -> `board-000017`.
[[nodiscard]] std::string market_id(Kind kind, int number);

inline constexpr int market_processors = 75;
inline constexpr int market_chips = 75;
inline constexpr int market_sockets = 5;
/// The socket of processor or board `number`, and its memory: `K0` to `K4`; the first two DDR4.
[[nodiscard]] std::string_view market_socket(int number);
[[nodiscard]] bool market_ddr4(int number);

void add_market_processors(Market& market, int count);
void add_market_cards(Market& market, int count);
void add_market_memory(Market& market, int count);
void add_market_drives(Market& market, int count);
void add_market_displays(Market& market, int count);
void add_market_others(Market& market, int count);
void add_market_boards(Market& market, int count);
void add_market_coolers(Market& market, int count);
void add_market_cases(Market& market, int count);
void add_market_supplies(Market& market, int count);
void add_market_fans(Market& market, int count);
void add_market_offers(Market& market);

}  // namespace rigproof::demo
