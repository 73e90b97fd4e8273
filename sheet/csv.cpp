#include "sheet/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

#include "base/text.hpp"
#include "sheet/order.hpp"
#include "sheet/utf8.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {
namespace {

// Also the full-width forms, which some spreadsheets read as the same signs.
bool starts_a_formula(char32_t c) {
  constexpr char32_t signs[] = {'=',  '+',    '-',    '@',    '\t',  '\r',
                                '\n', 0xFF1D, 0xFF0B, 0xFF0D, 0xFF20};
  return std::ranges::find(signs, c) != std::ranges::end(signs);
}

bool is_dangerous(std::string_view text) {
  if (text.empty() || parse_number(text)) return false;
  const std::size_t start = text.find_first_not_of(' ');  // programs that trim see what follows
  return start != std::string_view::npos &&
         starts_a_formula(next_code_point(text.substr(start)).value);
}

class Table {
 public:
  explicit Table(std::string_view header) { out_ = std::string(header) + "\r\n"; }
  void row(std::initializer_list<std::string> cells) {
    bool first = true;
    for (const std::string& cell : cells) {
      if (!first) out_ += ',';
      first = false;
      out_ += csv_cell(cell);
    }
    out_ += "\r\n";
  }
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

std::string number(const std::optional<double>& value) {
  return value ? shortest(*value) : std::string{};
}

std::string joined(const std::vector<std::string>& texts) {
  std::string out;
  for (const std::string& text : texts) out += fmt::format("{}{}", out.empty() ? "" : "; ", text);
  return out;
}

std::string middle(const std::optional<Quantity>& quantity) {
  if (!quantity) return {};
  return quantity->text.empty() ? shortest(quantity->value) : quantity->text;
}

std::string missing_cells(const Claim& claim) {
  std::vector<std::string> cells;
  cells.reserve(claim.missing.size());
  for (const Missing& cell : claim.missing) cells.push_back(cell_words(cell));
  return joined(cells);
}

void put(Table& table, const Claim& claim) {
  const auto& value = claim.value;
  const auto& limit = claim.limit;
  const auto& margin = claim.margin;
  const auto& measured = claim.measured;
  const std::string limit_value = !limit                ? ""
                                  : limit->text.empty() ? shortest(limit->value)
                                                        : limit->text;
  table.row({claim.id,
             std::string(rigproof::name_of(claim.grade)),
             claim.where,
             joined(claim.subjects),
             claim.load,
             claim.statement,
             std::string(rigproof::name_of(claim.verdict)),
             number(claim.odds),
             middle(value),
             number(value ? value->low : std::nullopt),
             number(value ? value->high : std::nullopt),
             value ? value->unit : "",
             limit ? std::string(rigproof::name_of(limit->relation)) : "",
             limit_value,
             limit ? limit->unit : "",
             middle(margin),
             number(margin ? margin->low : std::nullopt),
             number(margin ? margin->high : std::nullopt),
             margin ? margin->unit : "",
             number(claim.margin_frac),
             std::string(rigproof::name_of(claim.basis)),
             claim.source,
             claim.remedy,
             missing_cells(claim),
             measured ? shortest(measured->value) : "",
             measured && measured->date ? to_string(*measured->date) : "",
             measured ? measured->log : "",
             measured ? measured->settled : ""});
}

}  // namespace

std::string csv_cell(std::string_view text) {
  std::string out = clean_text(text);
  if (is_dangerous(text) || is_dangerous(out)) out.insert(out.begin(), '\'');
  if (out.find_first_of("\",") == std::string::npos && out == trim(out)) return out;
  std::string quoted = "\"";
  for (const char c : out) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string claims_csv(const Sheet& sheet) {
  Table table(
      "id,grade,where,subjects,load,statement,verdict,odds,value,value_low,value_high,value_unit,"
      "relation,limit,"
      "limit_unit,margin,margin_low,margin_high,margin_unit,margin_frac,basis,source,remedy,"
      "missing,measured,"
      "measured_on,measured_log,settled");
  for (const Claim* claim : nearest_first(sheet.build.claims)) put(table, *claim);
  return table.take();
}

std::string parts_csv(const Sheet& sheet) {
  Table table(
      "place,kind,id,name,maker,maker_code,count,origin,why,because_cost,currency,runner_up_id,"
      "runner_up,"
      "runner_up_score_change,runner_up_price_change,runner_up_price_currency,runner_up_gains,"
      "runner_up_loses");
  for (const PartLine& part : sheet.build.parts) {
    const auto& other = part.runner_up;
    const bool replaced = other && !other->name.empty();
    table.row({part.place, part.kind, part.id, part.name, part.maker, part.maker_code,
               std::to_string(part.count), std::string(name_of(part.origin)), part.why,
               part.because_cost ? to_plain(*part.because_cost) : "",
               std::string(sheet.build.score.currency.view()), replaced ? other->id : "",
               replaced ? other->name : "", replaced ? to_plain(other->score_change) : "",
               replaced ? to_plain(other->price_change) : "",
               replaced ? std::string(other->price_change.currency.view()) : "",
               replaced ? joined(other->gains) : "", replaced ? joined(other->loses) : ""});
  }
  return table.take();
}

std::string prices_csv(const Sheet& sheet) {
  Table table("market,part_id,part,count,each,line,currency,seller,seen,age_days,tax,commission");
  for (const MarketPrices& market : sheet.markets)
    for (const PriceLine& line : prices_in_order(market, sheet.build.parts))
      table.row({market.market, line.part_id, line.part_name, std::to_string(line.count),
                 to_plain(line.each), to_plain(line.line), std::string(line.line.currency.view()),
                 line.seller, line.seen ? to_string(*line.seen) : "",
                 line.seen ? std::to_string(line.age_days) : "", line.tax_note,
                 line.commission ? "yes" : "no"});
  return table.take();
}

}  // namespace rigproof::sheet
