#include "app/look_up.hpp"

#include <algorithm>
#include <array>
#include <unordered_map>

#include "app/look_alikes.hpp"
#include "base/contract.hpp"

namespace rigproof::app {
namespace {

constexpr Row whole_relation = no_row;
const Brief no_brief{};

// One absent cell, wherever it stands.
struct Cell {
  ColumnId column;
  Row row = no_row;  // of the cell; whole_relation: `part` says whose
  PartRef part;
  friend bool operator==(const Cell&, const Cell&) = default;
};

std::uint64_t key_of(const Cell& cell) {
  const bool whole = cell.row == whole_relation;
  return (std::uint64_t{cell.column.table} << 56U) | (std::uint64_t{cell.column.column} << 48U) |
         (std::uint64_t{whole} << 47U) |
         (whole ? std::uint64_t{static_cast<std::uint8_t>(cell.part.kind)} << 40U : 0U) |
         (whole ? cell.part.row : cell.row);
}

// The part a cell belongs to; row no_row when it is of no part.
PartRef part_of(const Catalog& catalog, const MissingCell& cell) {
  if (cell.row == no_row) return cell.parent;
  const int table = cell.column.table;
  if (table < kind_count) return {static_cast<Kind>(table), cell.row};
  const ColumnId first{cell.column.table, 0};
  if (spec(first).type != Type::reference) return {};
  if (spec(first).refers == "part") return catalog.part(first, cell.row);
  const auto kind = find_kind(spec(first).refers);
  return kind ? PartRef{*kind, catalog.reference(first, cell.row)} : PartRef{};
}

bool is_absent(const Catalog& catalog, const MissingCell& cell) {
  if (cell.row != no_row) return catalog.absent(cell.column, cell.row);
  return cell.parent.row != no_row &&
         spec(int{cell.column.table}).columns[0].type == Type::reference &&
         catalog.rows_of(cell.column.table, cell.parent).empty();
}

// The same cell of another part that looks alike.
Cell moved(const Catalog& catalog, const Cell& cell, Row to) {
  Cell out = cell;
  out.part.row = to;
  if (cell.row == whole_relation) return out;
  if (cell.column.table < kind_count) {
    out.row = to;
    return out;
  }
  const auto from_rows = catalog.rows_of(cell.column.table, cell.part);
  const auto place = std::ranges::find(from_rows, cell.row) - from_rows.begin();
  out.row = catalog.rows_of(cell.column.table, out.part)[static_cast<std::size_t>(place)];
  return out;
}

// The kinds that are filled. What helps (a hub, an adapter, a mounting set) is left out where two
// others are enough to judge: most builds have none, and any one would hide what is asked.
std::vector<Kind> kinds_of(const Rule& rule) {
  std::vector<Kind> kinds(rule.kinds.begin(), rule.kinds.end());
  if (kinds.size() > 2) std::erase(kinds, Kind::other);
  return kinds;
}

// Judges one rule on builds of which only its kinds are filled.
class Judge {
 public:
  Judge(const LookUpInput& input, const Rule& rule)
      : catalog_(input.catalog),
        rule_(rule),
        draws_(input.catalog),
        facts_{.catalog = input.catalog,
               .brief = input.brief != nullptr ? *input.brief : no_brief,
               .prices = input.prices,
               .build = build_,
               .draws = draws_,
               .setup = nullptr} {}

  void fill(Kind kind, Row row) {
    build_.clear(kind);
    if (row != no_row) build_.add(kind, row);
  }
  [[nodiscard]] int places() const { return rule_.places(facts_); }

  /// The absent cells that leave this judgement unknown; empty when it is known, or unknown for
  /// another reason.
  const std::vector<Cell>& holes(int place) {
    holes_.clear();
    if (judge(rule_, facts_, place).verdict != Verdict::unknown) return holes_;
    Measure whole;  // a quick decision may look at less than all
    rule_.measure(facts_, place, whole);
    for (int i = 0; i < whole.missing_count; ++i) {
      const MissingCell& cell = whole.missing[static_cast<std::size_t>(i)];
      if (!is_absent(catalog_, cell)) {
        holes_.clear();
        return holes_;
      }
      holes_.push_back({cell.column, cell.row, part_of(catalog_, cell)});
    }
    return holes_;
  }

 private:
  const Catalog& catalog_;
  const Rule& rule_;
  Build build_;
  CellDraws draws_;
  Facts facts_;
  std::vector<Cell> holes_;
};

class Counter {
 public:
  Counter(const LookUpInput& input, const LookUpJob& job) : input_(input), job_(job) {
    for (int k = 0; k < kind_count; ++k) find_parts(static_cast<Kind>(k));
  }

  LookUp count() {
    for (std::size_t i = 0; i < input_.rules.size() && !out_.stopped; ++i) {
      if (job_.report) job_.report(i, input_.rules.size());
      const Rule& rule = *input_.rules[i];
      const std::vector<Kind> kinds = kinds_of(rule);
      if (has_no_part(kinds)) continue;
      out_.rules.push_back({.rule = &rule, .sampled = kinds.size() > 2});
      if (out_.rules.back().sampled)
        judge_companies(rule, kinds);
      else
        judge_pairs(rule, kinds);
      if (out_.rules.back().judgements == 0) out_.rules.pop_back();
    }
    std::ranges::sort(out_.cells, [](const CellWorth& a, const CellWorth& b) {
      if (a.alone != b.alone) return a.alone > b.alone;
      if (a.share != b.share) return a.share > b.share;
      return key_of({a.column, a.row, a.part}) < key_of({b.column, b.row, b.part});
    });
    return std::move(out_);
  }

 private:
  struct Worth {
    Cell cell;
    std::uint64_t alone = 0;
    double share = 0.0;
  };

  [[nodiscard]] std::vector<Row>& parts(Kind kind) {
    return parts_[static_cast<std::size_t>(kind)];
  }
  [[nodiscard]] bool has_no_part(const std::vector<Kind>& kinds) {
    return std::ranges::any_of(kinds, [&](Kind kind) { return parts(kind).empty(); });
  }
  [[nodiscard]] bool stop() {
    if (job_.stop && job_.stop()) out_.stopped = true;
    return out_.stopped;
  }

  void find_parts(Kind kind);
  [[nodiscard]] bool usable(PartRef part) const;
  void judge_pairs(const Rule& rule, const std::vector<Kind>& kinds);
  void judge_companies(const Rule& rule, const std::vector<Kind>& kinds);
  [[nodiscard]] std::vector<LookAlikes> groups_of(const Rule& rule, Kind kind, bool capped);
  static void add(std::vector<Worth>& list, const Cell& cell, std::uint64_t alone, double share);
  void settle(const Cell& cell, std::uint64_t alone, double share);

  const LookUpInput& input_;
  const LookUpJob& job_;
  std::array<std::vector<Row>, kind_count> parts_;        // the universe
  std::array<std::vector<Row>, kind_count> company_;      // offered ones; all where none is
  std::unordered_map<std::uint64_t, std::size_t> place_;  // key of a cell -> index in out_.cells
  LookUp out_;
};

bool Counter::usable(PartRef part) const {
  if (input_.brief == nullptr || input_.prices == nullptr) return true;
  for (int market = 0; market < input_.prices->markets(); ++market)
    if (!input_.prices->price(part, market)) return false;
  return true;
}

void Counter::find_parts(Kind kind) {
  std::optional<Row> forced;
  if (input_.brief != nullptr)
    for (const auto* list : {&input_.brief->keep, &input_.brief->because})
      for (const ForcedPart& part : *list)
        if (part.kind == kind)
          if (const auto found = input_.catalog.find_part(part.id)) forced = found->row;
  auto& company = company_[static_cast<std::size_t>(kind)];
  const int offers = table("offers");
  for (Row row = 0; row < input_.catalog.rows(table_of(kind)); ++row) {
    const PartRef part{kind, row};
    if (forced ? row != *forced : !usable(part)) continue;
    parts(kind).push_back(row);
    if (!input_.catalog.rows_of(offers, part).empty()) company.push_back(row);
  }
  if (company.empty()) company = parts(kind);
}

std::vector<LookAlikes> Counter::groups_of(const Rule& rule, Kind kind, bool capped) {
  auto groups = look_alikes(input_.catalog, rule, kind, parts(kind));
  if (!capped) return groups;
  for (std::size_t i = most_groups; i < groups.size(); ++i)
    out_.rules.back().parts_set_aside += groups[i].size();
  if (groups.size() > most_groups) groups.resize(most_groups);
  return groups;
}

void Counter::add(std::vector<Worth>& list, const Cell& cell, std::uint64_t alone, double share) {
  auto at = std::ranges::find(list, cell, &Worth::cell);
  if (at == list.end()) at = list.insert(at, {.cell = cell});
  at->alone += alone;
  at->share += share;
}

void Counter::settle(const Cell& cell, std::uint64_t alone, double share) {
  const auto [at, is_new] = place_.try_emplace(key_of(cell), out_.cells.size());
  if (is_new)
    out_.cells.push_back({.column = cell.column, .row = cell.row, .part = cell.part, .rules = {}});
  CellWorth& worth = out_.cells[at->second];
  worth.alone += alone;
  worth.share += share;
  const auto rule = static_cast<std::uint16_t>(out_.rules.size() - 1);
  if (worth.rules.empty() || worth.rules.back().rule != rule) worth.rules.push_back({.rule = rule});
  worth.rules.back().alone += alone;
  worth.rules.back().share += share;
}

// Exact: one judgement for each pair of groups, counted for all the pairs of parts it stands for.
void Counter::judge_pairs(const Rule& rule, const std::vector<Kind>& kinds) {
  std::array<std::vector<LookAlikes>, 2> groups;
  for (std::size_t k = 0; k < 2; ++k)
    groups[k] = k < kinds.size() ? groups_of(rule, kinds[k], kinds.size() > 1)
                                 : std::vector<LookAlikes>{{.rows = {no_row}}};
  std::array<std::vector<std::vector<Worth>>, 2> worth;
  for (std::size_t k = 0; k < 2; ++k) worth[k].resize(groups[k].size());
  std::vector<Worth> elsewhere;
  const bool other_hole = hole_elsewhere(input_.catalog, rule);
  Judge judge(input_, rule);
  for (std::size_t a = 0; a < groups[0].size() && !stop(); ++a) {
    if (!kinds.empty()) judge.fill(kinds[0], groups[0][a].rows.front());
    for (std::size_t b = 0; b < groups[1].size(); ++b) {
      if (kinds.size() > 1) judge.fill(kinds[1], groups[1][b].rows.front());
      const std::array<std::uint64_t, 2> sizes = {groups[0][a].size(), groups[1][b].size()};
      const int places = judge.places();
      RuleCost& cost = out_.rules.back();
      cost.judgements += static_cast<std::uint64_t>(places) * sizes[0] * sizes[1];
      if (!groups[0][a].has_hole && !groups[1][b].has_hole && !other_hole) continue;
      for (int place = 0; place < places; ++place) {
        const auto& holes = judge.holes(place);
        if (holes.empty()) continue;
        cost.unknown += sizes[0] * sizes[1];
        const double part = 1.0 / static_cast<double>(holes.size());
        for (const Cell& cell : holes) {
          std::uint64_t times = sizes[0] * sizes[1];
          std::vector<Worth>* list = &elsewhere;
          for (std::size_t k = 0; k < kinds.size(); ++k) {
            const std::size_t g = k == 0 ? a : b;
            if (cell.part != PartRef{kinds[k], groups[k][g].rows.front()}) continue;
            list = &worth[k][g];
            times = sizes[1 - k];
          }
          add(*list, cell, holes.size() == 1 ? times : 0, part * static_cast<double>(times));
        }
      }
    }
  }
  for (std::size_t k = 0; k < 2; ++k)
    for (std::size_t g = 0; g < groups[k].size(); ++g)
      for (const Worth& one : worth[k][g])
        for (const Row row : groups[k][g].rows)
          settle(moved(input_.catalog, one.cell, row), one.alone, one.share);
  for (const Worth& one : elsewhere) settle(one.cell, one.alone, one.share);
}

// Bounded: every part in a few companies of offered parts, drawn by a hash of rule, part and
// number.
void Counter::judge_companies(const Rule& rule, const std::vector<Kind>& kinds) {
  std::size_t wanted = 0;
  for (const Kind kind : kinds) wanted += parts(kind).size();
  // Every part once or more if the cap allows, else every step-th one.
  const std::size_t companies =
      std::clamp(most_combinations / wanted, std::size_t{1}, companies_of_a_part);
  const std::size_t step = (wanted + most_combinations - 1) / most_combinations;
  std::size_t number = 0;
  RuleCost& cost = out_.rules.back();
  Judge judge(input_, rule);
  for (const Kind kind : kinds) {
    for (const Row row : parts(kind)) {
      if (number++ % step != 0) {
        ++cost.parts_set_aside;
        continue;
      }
      if (stop()) return;
      const std::string_view id = input_.catalog.id({kind, row});
      for (std::size_t c = 0; c < companies; ++c) {
        for (const Kind other : kinds) {
          const auto& choice = company_[static_cast<std::size_t>(other)];
          const std::uint64_t hash = stream(rule.id, id, name_of(other), c).seed;
          judge.fill(other, other == kind ? row : choice[hash % choice.size()]);
        }
        const int places = judge.places();
        cost.judgements += static_cast<std::uint64_t>(places);
        for (int place = 0; place < places; ++place) {
          const auto& holes = judge.holes(place);
          if (holes.empty()) continue;
          ++cost.unknown;
          for (const Cell& cell : holes)
            settle(cell, holes.size() == 1 ? 1 : 0, 1.0 / static_cast<double>(holes.size()));
        }
      }
    }
  }
}

}  // namespace

LookUp what_to_look_up(const LookUpInput& input, const LookUpJob& job) {
  return Counter(input, job).count();
}

std::string row_name(const Catalog& catalog, const CellWorth& cell) {
  return cell.row == no_row ? std::string(catalog.id(cell.part))
                            : catalog.row_key(cell.column.table, cell.row);
}

std::string_view column_name(const CellWorth& cell) {
  return cell.row == no_row ? "*" : spec(cell.column).name;
}

}  // namespace rigproof::app
