#include "decision/plan/verdicts.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>

#include "base/contract.hpp"

namespace rigproof::plan {
namespace {

void append(std::string& key, std::uint64_t value) {
  key.append(reinterpret_cast<const char*>(&value), sizeof value);
}

// What a rule sees of one cell. False: draws belong to its place, so it is like no other.
bool append_cell(std::string& key, const Catalog& catalog, ColumnId id, Row row) {
  const ColumnSpec& column = spec(id);
  switch (column.type) {
    case Type::number:
    case Type::count: {
      const double value = catalog.number(id, row);
      append(key, std::bit_cast<std::uint64_t>(value));
      return std::isnan(value) ? std::isnan(column.class_low) : catalog.half_width(id, row) == 0.0;
    }
    case Type::flag: {
      const auto flag = catalog.flag(id, row);
      key += !flag ? '?' : *flag ? 'y' : 'n';
      return true;
    }
    case Type::money:
      append(key, static_cast<std::uint64_t>(catalog.minor(id, row).value_or(-1)));
      return true;
    case Type::date: {
      const auto date = catalog.date(id, row);
      append(key, date ? static_cast<std::uint64_t>(date->days) : ~std::uint64_t{0});
      return true;
    }
    case Type::reference:
      append(key, column.refers == "part" ? catalog.part(id, row).row : catalog.reference(id, row));
      return true;
    case Type::slug:
    case Type::text:
    case Type::token:
    case Type::tokens:
    case Type::currency:
    case Type::market:
      key += catalog.word(id, row);
      key += '\0';
      return true;
  }
  return true;
}

void append(std::string& key, double value) { append(key, std::bit_cast<std::uint64_t>(value)); }
void append(std::string& key, std::optional<double> value) {
  append(key, value.value_or(no_number));
}

// What a title's picture is, and the one wish of it that a rule reads.
void append_goal(std::string& key, const TitleGoal& goal, std::optional<double> wish) {
  key += goal.title;
  key += '\0';
  for (const double value : {double(goal.width_px), double(goal.height_px), goal.render_scale,
                             double(goal.generated_per_rendered)})
    append(key, value);
  append(key, wish);
}

void append_titles(std::string& key, const Brief& brief, std::string_view path) {
  for (const TitleGoal& goal : brief.titles) {
    if (path.ends_with(".floor_fps")) {
      if (goal.floor_fps) append_goal(key, goal, goal.floor_fps);
    } else if (path.ends_with(".p99_frame_time_fps")) {
      if (goal.p99_frame_time_fps) append_goal(key, goal, goal.p99_frame_time_fps);
    } else {
      append_goal(key, goal, goal.target_fps);
    }
  }
}

void append_accept(std::string& key, const Brief& brief) {
  const auto add = [&](const Accept& accept) {
    append(key, static_cast<std::uint64_t>(accept.verdict));
    append(key, static_cast<std::uint64_t>(accept.unknown));
  };
  add(brief.accept);
  for (const auto& [id, accept] : brief.accept_by_rule) {
    key += id;
    key += '\0';
    add(accept);
  }
}

void append_loads(std::string& key, const Brief& brief) {
  for (const OwnLoad& load : brief.loads) {
    key += load.name;
    key += '\0';
    for (const double number : {load.cpu_frac, load.gpu_frac, load.hours_per_day})
      append(key, number);
  }
}

void append_wall(std::string& key, const Brief& brief) {
  const auto limit = brief.limits.find("wall_power_w");
  if (limit == brief.limits.end()) return;
  append(key, limit->second.at_most);
  key += limit->second.load;
  key += '\0';
  append_loads(key, brief);
}

void append_limits(std::string& key, const Brief& brief) {
  for (const auto& [name, limit] : brief.limits) {
    key += name;
    key += '\0';
    append(key, limit.at_most);
    key += limit.load;
    key += '\0';
    append(key, limit.distance_m);
  }
  append_loads(key, brief);
}

// What a market says of its wall; its money is another matter.
void append_mains(std::string& key, const Brief& brief) {
  for (const MarketGoal& market : brief.markets) {
    key += market.market;
    for (const auto& number :
         {market.mains_v, market.circuit_a, market.kwh_price, market.kwh_price_night})
      append(key, number);
  }
}

void append_cost(std::string& key, const Brief& brief) {
  key += brief.running_cost_market;
  append(key, brief.running_cost_per_year);
}

void append_use(std::string& key, const Brief& brief) {
  for (const double hours : brief.use.hours_per_day) append(key, hours);
  append(key, brief.use.night_frac);
  append_loads(key, brief);
}

// What a rule's keys find in the brief, as bytes: equal bytes, equal verdicts.
std::string what_it_reads(const Brief& brief, const Rule& rule) {
  std::string key;
  for (const std::string_view path : rule.brief_keys) {
    key += path;
    key += '\0';
    if (path.starts_with("titles"))
      append_titles(key, brief, path);
    else if (path == "limits.volume_l")
      append(key, brief.volume_l_at_most);
    else if (path == "limits.supply_reserve_frac")
      append(key, brief.supply_reserve_frac);
    else if (path == "limits.wall_power_w")
      append_wall(key, brief);
    else if (path == "limits.running_cost_per_year")
      append_cost(key, brief);
    else if (path == "markets")
      append_mains(key, brief);
    else if (path == "limits")
      append_limits(key, brief);
    else if (path == "room")
      append(key, brief.room_c);
    else if (path == "use")
      append_use(key, brief);
    else if (path == "musts.memory_gb")
      append(key, brief.memory_gib);
    else if (path == "musts.storage_gb")
      append(key, brief.storage_gb);
    else if (path == "musts.wifi")
      key += brief.wifi ? 'y' : 'n';
    else if (path == "musts.front_usb_c")
      key += brief.front_usb_c ? 'y' : 'n';
    else if (path == "accept.adapters")
      key += brief.accept_adapters ? 'y' : 'n';
    else if (path == "accept.shared_lanes")
      key += brief.accept_shared_lanes ? 'y' : 'n';
    else if (path == "accept")
      append_accept(key, brief);
    else if (path == "display")
      for (const double value : {brief.display ? double(brief.display->width_px) : 0.0,
                                 brief.display ? double(brief.display->height_px) : 0.0,
                                 brief.display ? brief.display->refresh_hz : 0.0})
        append(key, value);
    else
      expect(false, "a planning rule to read only keys that are remembered here");
  }
  return key;
}

// The verdicts of a rule's places on one case, each once.
using VerdictSet = std::uint8_t;
constexpr VerdictSet bit_of(Verdict verdict) {
  return static_cast<VerdictSet>(1U << static_cast<unsigned>(verdict));
}
constexpr VerdictSet fails_in_every_draw = 1U << 7U;  // beside the bit of `fails`

bool answers(VerdictSet seen, VerdictSet admitted, Verdicts::Ask ask) {
  if (ask == Verdicts::Ask::not_failing) return (seen & fails_in_every_draw) == 0;
  return (seen & ~admitted & ~fails_in_every_draw) == 0;
}

}  // namespace

struct Verdicts::PerRule {
  std::array<Numbers, kind_count> part_groups;
  std::array<std::map<std::vector<std::uint32_t>, std::uint32_t>, kind_count> groups_of_several;
  std::array<std::uint32_t, kind_count> option_groups{};           // how many
  std::map<std::string, KnownVerdicts> by_asked;                   // by what it reads of the brief
  std::array<std::vector<std::uint32_t>, kind_count> group_alone;  // by group of the only part
  KnownVerdicts* known = nullptr;                                  // those of the brief in use
  VerdictSet admitted = 0;                                         // by the brief in use
};

Verdicts::Verdicts(const Catalog& catalog, std::span<const Rule* const> rules, std::uint64_t seed)
    : catalog_(&catalog), rules_(rules), draws_(catalog, seed) {
  for (std::size_t i = 0; i < rules.size(); ++i) per_rule_.push_back(std::make_unique<PerRule>());
}

Verdicts::~Verdicts() = default;

// A rule that is not asked tells no parts apart.
std::vector<ColumnId> Verdicts::read_by_any(const Brief& brief) const {
  std::vector<ColumnId> out = {column("gpu", "chip")};  // the best K differ in it
  for (const Rule* rule : rules_)
    if (rule->grade == Grade::must && (rule->concerns == nullptr || rule->concerns(brief)))
      out.insert(out.end(), rule->reads.begin(), rule->reads.end());
  const auto place = [](ColumnId id) { return std::pair(id.table, id.column); };
  std::ranges::sort(out, {}, place);
  const auto again = std::ranges::unique(out, {}, place);
  out.erase(again.begin(), again.end());
  // Cells that may be drawn first: one that is settles it.
  std::ranges::stable_partition(out, [](ColumnId id) {
    return spec(id).type == Type::number || spec(id).type == Type::count;
  });
  return out;
}

void Verdicts::use(const Brief& brief, const PriceBook& prices) {
  brief_ = &brief;
  prices_ = &prices;
  std::string asked;
  for (const Rule* rule : rules_)
    asked += rule->concerns == nullptr || rule->concerns(brief) ? 'y' : 'n';
  const auto [looks, fresh] = looks_by_asked_.try_emplace(std::move(asked));
  looks_ = &looks->second;
  if (fresh) looks_->reads = read_by_any(brief);
  for (std::size_t i = 0; i < rules_.size(); ++i) {
    PerRule& memory = *per_rule_[i];
    memory.known = &memory.by_asked[what_it_reads(brief, *rules_[i])];
    memory.admitted = 0;
    for (const Verdict verdict :
         {Verdict::holds, Verdict::thin, Verdict::doubtful, Verdict::fails, Verdict::unknown})
      if (admitted(*rules_[i], verdict, brief)) memory.admitted |= bit_of(verdict);
  }
}

// All that these columns say of a part, as bytes. False: it is like no other.
bool Verdicts::append_part(std::string& key, Kind kind, Row row,
                           std::span<const ColumnId> reads) const {
  for (const ColumnId id : reads) {
    const std::string_view parent = spec(int{id.table}).columns[0].refers;
    if (id.table == table_of(kind)) {
      if (!append_cell(key, *catalog_, id, row)) return false;
    } else if (id.column > 0 && spec(id).refers == name_of(kind)) {
      append(key, std::uint64_t{row});  // a relation of another kind names this very part
    } else if (parent == name_of(kind) || parent == "part") {  // a relation of this kind
      for (const Row child : catalog_->rows_of(id.table, {kind, row}))
        if (!append_cell(key, *catalog_, id, child)) return false;
      key += '\x1F';
    }
  }
  return true;
}

std::uint32_t Verdicts::number(Numbers& numbers, Kind kind, Row row,
                               std::span<const ColumnId> reads) {
  if (numbers.of_row.empty()) numbers.of_row.assign(catalog_->rows(table_of(kind)), ~0U);
  std::uint32_t& known = numbers.of_row[row];
  if (known != ~0U) return known;
  key_.clear();
  if (append_part(key_, kind, row, reads)) {
    const auto [at, fresh] = numbers.by_cells.try_emplace(key_, numbers.count);
    if (fresh) ++numbers.count;
    known = at->second;
  } else {
    known = numbers.count++;
  }
  return known;
}

std::uint32_t Verdicts::look(Kind kind, Row row) {
  RP_EXPECT(looks_ != nullptr);
  return number(looks_->of_kind[static_cast<std::size_t>(kind)], kind, row, looks_->reads);
}

std::uint32_t Verdicts::group(std::size_t rule, Kind kind, const SlotOption& option) {
  PerRule& memory = *per_rule_[rule];
  const auto k = static_cast<std::size_t>(kind);
  const auto group_of = [&](Row row) {
    return number(memory.part_groups[k], kind, row, rules_[rule]->reads);
  };
  if (option.parts.size() == 1 && option.parts.front().count == 1) {  // nearly all options
    auto& alone = memory.group_alone[k];
    const std::uint32_t part = group_of(option.parts.front().row);
    if (alone.size() <= part) alone.resize(part + 1U, ~0U);
    if (alone[part] == ~0U) alone[part] = memory.option_groups[k]++;
    return alone[part];
  }
  std::vector<std::uint32_t> parts;
  for (const Chosen& part : option.parts)
    for (int i = 0; i < part.count; ++i) parts.push_back(group_of(part.row));
  std::ranges::sort(parts);
  // Equal parts in one row with a count, or in two rows: the same to every rule, as counts are
  // respected.
  const auto [at, fresh] =
      memory.groups_of_several[k].try_emplace(std::move(parts), memory.option_groups[k]);
  if (fresh) ++memory.option_groups[k];
  return at->second;
}

std::uint8_t Verdicts::judged(const Rule& rule, std::span<const Filling> fillings) {
  Build build;
  for (const Filling& filling : fillings)
    for (const Chosen& part : filling.option->parts) build.add(filling.kind, part.row, part.count);
  const Facts facts{.catalog = *catalog_,
                    .brief = *brief_,
                    .prices = prices_,
                    .build = build,
                    .draws = draws_,
                    .setup = nullptr};
  const int places = rule.places(facts);
  VerdictSet seen = 0;
  for (int place = 0; place < places && (seen & fails_in_every_draw) == 0; ++place) {
    const Finding finding = judge_verdict(rule, facts, place);
    seen |= bit_of(finding.verdict);
    if (fails_for_certain(finding)) seen |= fails_in_every_draw;
  }
  return seen;
}

std::optional<bool> Verdicts::known(std::size_t rule, const Groups& groups, Ask ask) const {
  const PerRule& memory = *per_rule_[rule];
  const auto found = memory.known->find(groups);
  if (!found) return {};
  return answers(*found, memory.admitted, ask);
}

bool Verdicts::reads_alike(std::size_t rule, const Brief& a, const Brief& b) const {
  const Rule& of = *rules_[rule];
  const auto concerns = [&](const Brief& brief) {
    return of.concerns == nullptr || of.concerns(brief);
  };
  if (concerns(a) != concerns(b)) return false;
  for (const Verdict verdict :
       {Verdict::holds, Verdict::thin, Verdict::doubtful, Verdict::fails, Verdict::unknown})
    if (admitted(of, verdict, a) != admitted(of, verdict, b)) return false;
  return what_it_reads(a, of) == what_it_reads(b, of);
}

bool Verdicts::admits(std::size_t rule, const Groups& groups, std::span<const Filling> fillings,
                      Ask ask) {
  RP_EXPECT(brief_ != nullptr);
  const PerRule& memory = *per_rule_[rule];
  auto found = memory.known->find(groups);
  if (!found) {
    found = judged(*rules_[rule], fillings);
    memory.known->add(groups, *found);
  }
  return answers(*found, memory.admitted, ask);
}

}  // namespace rigproof::plan
