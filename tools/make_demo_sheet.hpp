// What the demo's tables are written with: rows whose columns come from the schema, exact decimals,
// and dice that belong to a name, so that one part's row never depends on another's.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/schema.hpp"

namespace rigproof::demo {

/// value / 10^digits, exactly.
struct Decimal {
  std::int64_t value;
  int digits;
};
[[nodiscard]] inline Decimal tenths(std::int64_t value) { return {value, 1}; }
[[nodiscard]] inline Decimal hundredths(std::int64_t value) { return {value, 2}; }
[[nodiscard]] inline Decimal thousandths(std::int64_t value) { return {value, 3}; }
/// Without zeros at the end: {950, 2} is `9.5`. With `fixed`, all digits: `9.50`.
[[nodiscard]] std::string to_text(Decimal number, bool fixed = false);

/// Round half up, for value >= 0 and by > 0.
[[nodiscard]] constexpr std::int64_t divide_rounded(std::int64_t value, std::int64_t by) {
  return (value + by / 2) / by;
}

/// An own small generator of whole numbers (a 64-bit counter through a mixing function).
class Dice {
 public:
  explicit Dice(std::string_view name);
  /// A whole number in [low, high].
  [[nodiscard]] int between(int low, int high);
  [[nodiscard]] bool chance(int per_cent) { return between(1, 100) <= per_cent; }

 private:
  std::uint64_t next();
  std::uint64_t state_;
};

/// One row being written; cells never set stay empty, which means unknown.
class Line {
 public:
  explicit Line(int table);
  Line& text(ColumnId column, std::string_view value);
  Line& whole(ColumnId column, std::int64_t value);
  Line& decimal(ColumnId column, Decimal value) { return text(column, to_text(value)); }
  Line& money(ColumnId column, std::int64_t cents) {
    return text(column, to_text({cents, 2}, true));
  }
  Line& flag(ColumnId column, bool value) { return text(column, value ? "yes" : "no"); }
  [[nodiscard]] const std::vector<std::string>& cells() const { return cells_; }

 private:
  int table_;
  std::vector<std::string> cells_;
};

/// What the shops' base price of a part is, in euro cents with tax.
struct Priced {
  std::string id;
  Kind kind;
  std::int64_t cents;
};

/// All tables while they are filled. Tables are named by schema index; rows keep their order.
class Demo {
 public:
  Demo();
  void add(int table, const Line& line) { rows_[static_cast<std::size_t>(table)].push_back(line); }
  /// A part's row with its first four columns (id, name, maker, code) filled in, and its price
  /// noted.
  [[nodiscard]] Line part(Kind kind, std::string_view maker, std::string_view model,
                          std::int64_t euro);
  /// Makes a cell unknown. The row must exist: a wrong id is a bug.
  void forget(ColumnId column, std::string_view id);
  /// Removes the rows of a relation whose first column is `id`.
  void forget_rows(int table, std::string_view id);
  [[nodiscard]] const std::vector<Line>& rows(int table) const {
    return rows_[static_cast<std::size_t>(table)];
  }
  [[nodiscard]] const std::vector<Priced>& shop() const { return shop_; }
  [[nodiscard]] std::string csv(int table) const;

 private:
  std::vector<std::vector<Line>> rows_;
  std::vector<Priced> shop_;
};

/// `Orrvane Rowan 48 Depot` -> `orrvane-rowan-48-depot`.
[[nodiscard]] std::string slug(std::string_view name);

/// What a part plugs into on the board, beside its power: a row of part_headers.
struct Plug {
  std::string_view header;
  int count;
  int hundredths_a;  ///< lights and USB: current of each; 0: not stated
};
void add_plugs(Demo& demo, std::string_view part, const std::vector<Plug>& plugs);

// One function a file; the order of calls is the order of dependence (make_demo.cpp).
void add_cpus(Demo& demo);
void add_boards(Demo& demo);
void add_memory(Demo& demo);
void add_cards(Demo& demo);
void add_storage(Demo& demo);
void add_coolers(Demo& demo);
void add_cases(Demo& demo);
void add_supplies(Demo& demo);
void add_noise_points(Demo& demo);
void add_fans(Demo& demo);
void add_displays_and_others(Demo& demo);
void add_titles(Demo& demo);
void add_sellers_and_offers(Demo& demo);
void add_holes(Demo& demo);
void add_provenance(Demo& demo);

[[nodiscard]] std::string readme(const Demo& demo);
[[nodiscard]] std::string brief_quiet_living_room();
[[nodiscard]] std::string brief_competition_high_refresh();
[[nodiscard]] std::string brief_cannot_be_satisfied();
[[nodiscard]] std::string brief_boat_locker();
[[nodiscard]] std::string brief_second_life();
[[nodiscard]] std::string brief_careless_bargains();
[[nodiscard]] std::string build_evening_chair();
[[nodiscard]] std::string build_chair_with_set_fans();
[[nodiscard]] std::string build_shelf_mistake();

}  // namespace rigproof::demo
