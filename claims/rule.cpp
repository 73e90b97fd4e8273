#include "claims/rule.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "claims/working.hpp"

namespace rigproof {
namespace {

// How numbers of one place are shown.
struct Shown {
  std::string unit;
  double divisor = 1.0;
};

Shown shown_at(const Rule& rule, const Facts& facts, int place) {
  return {.unit = std::string(rule.unit_at ? rule.unit_at(facts, place) : rule.unit),
          .divisor = rule.divisor_at ? rule.divisor_at(facts, place) : 1.0};
}

Quantity quantity(const Draws& draws, const Shown& shown) {
  Quantity out = rigproof::quantity(draws, shown.unit);
  out.value /= shown.divisor;
  if (out.low) *out.low /= shown.divisor;
  if (out.high) *out.high /= shown.divisor;
  return out;
}

Draws margin_of(const Rule& rule, const Measure& m) {
  return rule.relation == Relation::at_least ? m.value - m.limit : m.limit - m.value;
}

DrawSet holding(const Rule& rule, const Measure& m) {
  switch (rule.relation) {
    case Relation::at_most:
      return Draws::at_most(m.value, m.limit);
    case Relation::at_least:
      return Draws::at_most(m.limit, m.value);
    case Relation::equals:
    case Relation::one_of:
      return Draws::at_most(m.value, m.limit) & Draws::at_most(m.limit, m.value);
  }
  return {};
}

// A claim that rests on a class range is given only when the whole range agrees.
Verdict verdict_over_span(const Rule& rule, const Measure& m) {
  const Draws margin = margin_of(rule, m);
  if (rule.relation == Relation::equals || rule.relation == Relation::one_of) {
    if (margin.low() == 0.0 && margin.high() == 0.0) return Verdict::holds;
    return margin.low() > 0.0 || margin.high() < 0.0 ? Verdict::fails : Verdict::unknown;
  }
  if (margin.low() >= 0.0) return Verdict::holds;
  if (margin.high() < 0.0) return Verdict::fails;
  return Verdict::unknown;
}

// "look up: socket it sits in (Orrin 6)"; for a whole relation its table says what is looked for.
std::string how_to_get(const Facts& facts, const MissingCell& cell) {
  const std::string_view what =
      cell.row == no_row ? spec(int{cell.column.table}).meaning : spec(cell.column).meaning;
  std::string how = "look up: " + std::string(what);
  if (cell.parent.row != no_row) how += " (" + std::string(facts.catalog.name(cell.parent)) + ")";
  return how;
}

Missing missing_text(const Facts& facts, const MissingCell& cell) {
  const TableSpec& table = spec(cell.column.table);
  const bool whole_relation = cell.row == no_row;
  return {.table = std::string(table.name),
          .row = whole_relation ? std::string(facts.catalog.id(cell.parent))
                                : facts.catalog.row_key(cell.column.table, cell.row),
          .column = whole_relation ? std::string("*") : std::string(spec(cell.column).name),
          .how = how_to_get(facts, cell)};
}

void put_words(const Rule& rule, const Measure& m, const Telling& telling, Claim& claim) {
  if (!m.unknown)
    claim.value =
        Quantity{.value = 0, .low = {}, .high = {}, .unit = {}, .text = std::string(m.value_text)};
  const std::string_view limit = telling.limit_text.empty() ? m.limit_text : telling.limit_text;
  if (!limit.empty())
    claim.limit =
        Limit{.relation = rule.relation, .value = 0, .unit = {}, .text = std::string(limit)};
}

void put_numbers(const Rule& rule, const Measure& m, const Shown& shown, Claim& claim) {
  const bool some_terms_only = m.unknown && rule.capacity && claim.verdict == Verdict::unknown;
  if (!m.value.is_absent() && !some_terms_only) claim.value = quantity(m.value, shown);
  if (!m.limit.is_absent())
    claim.limit = Limit{.relation = rule.relation,
                        .value = m.limit.median() / shown.divisor,
                        .unit = shown.unit,
                        .text = {}};
  if (claim.verdict == Verdict::unknown && m.unknown) return;
  if (m.value.is_absent() || m.limit.is_absent()) return;
  claim.margin = quantity(margin_of(rule, m), shown);
  const double size = std::fabs(m.limit.median() / shown.divisor);
  if (size > 0.0) claim.margin_frac = claim.margin->value / size;
}

}  // namespace

Quantity quantity(const Draws& draws, std::string_view unit) {
  Quantity out{
      .value = draws.median(), .low = {}, .high = {}, .unit = std::string(unit), .text = {}};
  if (draws.is_certain()) return out;
  out.low = draws.spans() ? draws.low() : draws.quantile(0.05);
  out.high = draws.spans() ? draws.high() : draws.quantile(0.95);
  return out;
}

const Draws& CellDraws::of(ColumnId column, Row row) {
  const std::uint64_t key =
      (std::uint64_t{column.table} << 48U) | (std::uint64_t{column.column} << 40U) | row;
  if (const auto found = made_.find(key); found != made_.end()) return found->second;
  return made_.emplace(key, catalog_->cell(column, row, seed_)).first->second;
}

std::size_t CellDraws::KeyHash::operator()(const Key& key) const {
  std::uint64_t hash = 0;
  for (const std::uint64_t word : key) hash = (hash ^ word) * 0x9E3779B97F4A7C15ULL;  // ours
  return hash ^ (hash >> 32U);
}

const Draws* CellDraws::kept(const Key& key) const {
  const auto found = kept_.find(key);
  return found == kept_.end() ? nullptr : &found->second;
}

void Measure::note_missing(MissingCell cell, bool has_class_range) {
  if (!has_class_range) unknown = true;
  const auto noted = std::span(missing).first(static_cast<std::size_t>(missing_count));
  if (std::ranges::find(noted, cell) != noted.end() || noted.size() == missing.size()) return;
  missing[static_cast<std::size_t>(missing_count++)] = cell;
}

void Measure::note_seen(ColumnId column, Row row) {
  if (deciding) return;
  const SeenCell cell{column, row};
  const auto noted = std::span(seen).first(static_cast<std::size_t>(seen_count));
  if (std::ranges::find(noted, cell) != noted.end()) return;
  if (noted.size() == seen.size())
    ++seen_beyond;
  else
    seen[static_cast<std::size_t>(seen_count++)] = cell;
}

const Draws& Measure::read(const Facts& facts, ColumnId column, Row row) {
  note_seen(column, row);
  const Draws& draws = facts.draws.of(column, row);
  if (draws.is_absent() || draws.spans())
    note_missing(
        {column, row,
         column.table < kind_count ? PartRef{static_cast<Kind>(column.table), row} : PartRef{}},
        draws.spans());
  return draws;
}

const Draws& Measure::read_claimed(const Facts& facts, ColumnId column, Row row) {
  claimed = {column, row};
  return read(facts, column, row);
}

std::string_view Measure::read_word(const Facts& facts, ColumnId column, Row row) {
  note_seen(column, row);
  const std::string_view word = facts.catalog.word(column, row);
  if (word.empty())
    note_missing(
        {column, row,
         column.table < kind_count ? PartRef{static_cast<Kind>(column.table), row} : PartRef{}},
        false);
  return word;
}

bool Measure::read_flag(const Facts& facts, ColumnId column, Row row) {
  note_seen(column, row);
  const auto flag = facts.catalog.flag(column, row);
  if (!flag)
    note_missing(
        {column, row,
         column.table < kind_count ? PartRef{static_cast<Kind>(column.table), row} : PartRef{}},
        false);
  return flag.value_or(false);
}

std::span<const Row> Measure::read_rows(const Facts& facts, int relation, PartRef part) {
  const auto rows = facts.catalog.rows_of(relation, part);
  if (rows.empty()) note_missing({{static_cast<std::uint8_t>(relation), 1}, no_row, part}, false);
  return rows;
}

void Measure::compare_text(std::string_view what, std::string_view against, bool holds) {
  is_text = true;
  value_text = what;
  limit_text = against;
  text_holds = holds;
}

Finding judge(const Rule& rule, const Measure& m) {
  Finding out;
  if (m.unknown) {
    const bool known_are_too_much = rule.capacity && !m.value.is_absent() && !m.limit.is_absent() &&
                                    m.value.low() > m.limit.high();
    if (known_are_too_much) out.verdict = Verdict::fails;
    return out;
  }
  if (m.is_text) {
    if (m.text_holds) out.holds.set();
    out.verdict = m.text_holds ? Verdict::holds : Verdict::fails;
    return out;
  }
  RP_EXPECT(!m.value.is_absent() && !m.limit.is_absent());
  if (m.value.spans() || m.limit.spans()) {
    out.verdict = verdict_over_span(rule, m);
    if (out.verdict == Verdict::holds) out.holds.set();
    return out;
  }
  out.holds = holding(rule, m);
  out.verdict = verdict_of(static_cast<int>(out.holds.count()));
  return out;
}

Finding judge(const Rule& rule, const Facts& facts, int place) {
  Measure measure;
  measure.deciding = true;
  rule.measure(facts, place, measure);
  return judge(rule, measure);
}

Finding judge_verdict(const Rule& rule, const Facts& facts, int place) {
  Measure measure;
  measure.deciding = true;
  measure.verdict_alone = true;
  rule.measure(facts, place, measure);
  return judge(rule, measure);
}

Claim explain(const Rule& rule, const Facts& facts, int place) {
  Measure m;
  rule.measure(facts, place, m);
  const Finding finding = judge(rule, m);
  Telling telling;
  rule.tell(facts, place, m, telling);

  Claim claim;
  claim.id = rule.id;
  claim.grade = rule.grade;
  claim.where = std::move(telling.where);
  claim.load = std::move(telling.load);
  claim.statement = std::move(telling.statement);
  for (const PartRef part : telling.subjects) claim.subjects.emplace_back(facts.catalog.id(part));
  claim.verdict = finding.verdict;
  claim.basis = rule.basis;
  claim.source = rule.source;
  if (finding.verdict != Verdict::holds) {
    claim.consequence = rule.consequence;
    claim.remedy = std::move(telling.remedy);
  }
  for (int i = 0; i < m.missing_count; ++i)
    claim.missing.push_back(missing_text(facts, m.missing[static_cast<std::size_t>(i)]));
  if (m.is_text)
    put_words(rule, m, telling, claim);
  else
    put_numbers(rule, m, shown_at(rule, facts, place), claim);
  claim.working = working_of(rule, facts, m);
  // Odds are a count of draws; over a class range there is no distribution to count.
  const bool spans = !m.is_text && (m.value.spans() || m.limit.spans());
  if (finding.verdict != Verdict::unknown && !spans)
    claim.odds = static_cast<double>(finding.holds.count()) / draw_count;
  return claim;
}

std::vector<Claim> all_claims(std::span<const Rule* const> rulebook, const Facts& facts) {
  std::vector<Claim> claims;
  for (const Rule* rule : rulebook) {
    const int places = rule->places(facts);
    for (int place = 0; place < places; ++place) claims.push_back(explain(*rule, facts, place));
  }
  return claims;
}

bool admitted(const Rule& rule, Verdict verdict, const Brief& brief) {
  if (rule.grade == Grade::tells) return true;
  const auto special = brief.accept_by_rule.find(std::string(rule.id));
  const Accept& accept = special == brief.accept_by_rule.end() ? brief.accept : special->second;
  switch (verdict) {
    case Verdict::holds:
      return true;
    case Verdict::thin:
      return accept.verdict == WorstVerdict::thin;
    case Verdict::unknown:
      return accept.unknown == Unknowns::accept;
    case Verdict::doubtful:
    case Verdict::fails:
      return false;
  }
  return false;
}

}  // namespace rigproof
