#include "tools/make_demo_sheet.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "base/text.hpp"

namespace rigproof::demo {

namespace {

std::uint64_t hash(std::string_view text) {  // FNV-1a, 64 bit
  std::uint64_t h = 14695981039346656037ULL;
  for (const char c : text) {
    h ^= static_cast<unsigned char>(c);
    h *= 1099511628211ULL;
  }
  return h;
}

// RFC 4180: quoted where it holds a comma, a quote or a line end.
std::string csv_text(std::string_view cell) {
  if (cell.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(cell);
  std::string out = "\"";
  for (const char c : cell) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

std::string maker_code(std::string_view maker, std::string_view id) {
  std::string code;
  code += maker.front();
  code += static_cast<char>(maker.back() - 'a' + 'A');
  Dice dice(id);
  return code + std::to_string(dice.between(10000, 99999));
}

}  // namespace

std::string to_text(Decimal number, bool fixed) {
  RP_EXPECT(number.value >= 0 && number.digits >= 0);
  std::string digits = std::to_string(number.value);
  const auto behind = static_cast<std::size_t>(number.digits);
  if (digits.size() <= behind) digits.insert(0, behind + 1 - digits.size(), '0');
  std::string whole = digits.substr(0, digits.size() - behind);
  std::string fraction = digits.substr(digits.size() - behind);
  while (!fixed && !fraction.empty() && fraction.back() == '0') fraction.pop_back();
  return fraction.empty() ? whole : whole + "." + fraction;
}

Dice::Dice(std::string_view name) : state_(hash(name)) {}

std::uint64_t Dice::next() {  // the mixing function is splitmix64's
  state_ += 0x9E3779B97F4A7C15ULL;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31U);
}

int Dice::between(int low, int high) {
  RP_EXPECT(low <= high);
  const auto span = static_cast<std::uint64_t>(high - low) + 1;
  return low + static_cast<int>((next() >> 11U) % span);
}

Line::Line(int table) : table_(table), cells_(spec(table).columns.size()) {}

Line& Line::text(ColumnId column, std::string_view value) {
  RP_EXPECT(column.table == table_);
  cells_[column.column] = value;
  return *this;
}

Line& Line::whole(ColumnId column, std::int64_t value) {
  return text(column, std::to_string(value));
}

Demo::Demo() : rows_(schema::table_count) {}

Line Demo::part(Kind kind, std::string_view maker, std::string_view model, std::int64_t euro) {
  const std::string name = std::string(maker) + " " + std::string(model);
  const std::string id = slug(name);
  RP_EXPECT(is_slug(id));
  RP_EXPECT(std::ranges::none_of(shop_, [&](const Priced& p) { return p.id == id; }));
  shop_.push_back({id, kind, euro * 100});
  const auto t = static_cast<std::uint8_t>(table_of(kind));
  Line line(t);
  line.text({t, 0}, id).text({t, 1}, name).text({t, 2}, maker).text({t, 3}, maker_code(maker, id));
  return line;
}

void Demo::forget(ColumnId column, std::string_view id) {
  auto& rows = rows_[column.table];
  const auto at =
      std::ranges::find_if(rows, [&](const Line& l) { return l.cells().front() == id; });
  RP_EXPECT(at != rows.end());
  RP_EXPECT(!spec(column).required);
  at->text(column, "");
}

void Demo::forget_rows(int table, std::string_view id) {
  const auto gone = std::erase_if(rows_[static_cast<std::size_t>(table)],
                                  [&](const Line& l) { return l.cells().front() == id; });
  RP_EXPECT(gone > 0);
}

std::string Demo::csv(int table) const {
  std::string out;
  const auto& columns = spec(table).columns;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (c > 0) out += ',';
    out += columns[c].name;
  }
  out += '\n';
  for (const Line& line : rows(table)) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      if (c > 0) out += ',';
      out += csv_text(line.cells()[c]);
    }
    out += '\n';
  }
  return out;
}

void add_plugs(Demo& demo, std::string_view part, const std::vector<Plug>& plugs) {
  for (const Plug& plug : plugs) {
    Line line(table("part_headers"));
    line.text(column("part_headers", "part"), part)
        .text(column("part_headers", "header"), plug.header)
        .whole(column("part_headers", "count"), plug.count);
    if (plug.hundredths_a > 0)
      line.decimal(column("part_headers", "current_a"), hundredths(plug.hundredths_a));
    demo.add(table("part_headers"), line);
  }
}

std::string slug(std::string_view name) {
  std::string out;
  for (const char c : name) {
    if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      out += c;
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  return out;
}

}  // namespace rigproof::demo
