#include "catalog/brief.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "catalog/key_reader.hpp"

namespace rigproof {
namespace {

using NodeType = TomlNode::Type;

static_assert(std::ranges::find(keys::brief_keys, "conditions", &KeySpec::name)->choices ==
                  spec(column("offers", "condition")).choices,
              "a brief may name every condition an offer may have");

constexpr std::array<std::string_view, kind_count> kind_names = [] {
  std::array<std::string_view, kind_count> names;
  for (int k = 0; k < kind_count; ++k)
    names[static_cast<std::size_t>(k)] = name_of(static_cast<Kind>(k));
  return names;
}();

// Two slugs and a point: engine.name.
bool is_rule_id(std::string_view text) {
  const std::size_t point = text.find('.');
  return point != std::string_view::npos && is_slug(text.substr(0, point)) &&
         is_slug(text.substr(point + 1));
}

void read_head(const KeyReader& root, Brief& brief) {
  const FileContext& context = root.context();
  const auto section = root.table("brief", "brief");
  if (!section) {
    if (root.node().find("brief") == nullptr)
      context.complain({}, "there is no [brief]", "a table [brief] with name and as_of", "");
    return;
  }
  // Paths of these keys have no prefix: they speak of the brief as a whole.
  const KeyReader head(context, section->node(), "brief", "");
  head.refuse_unknown_keys();
  brief.name = head.text("name").value_or("");
  brief.as_of = head.date("as_of").value_or(Date{});
  brief.offers_not_older_than_days = head.whole("offers_not_older_than_days");
  brief.lone_offers_not_older_than_days = head.whole("lone_offers_not_older_than_days");
  if (auto conditions = head.choices("conditions"); !conditions.empty())
    brief.conditions = std::move(conditions);
}

// Path of an entry of a list: by the id it names, else by its place in the list.
std::string entry_path(std::string_view list, const TomlNode& table, std::string_view id_key,
                       std::size_t index) {
  const TomlNode* id = table.find(id_key);
  if (id != nullptr && id->type == NodeType::text) return fmt::format("{}.{}", list, id->text);
  return fmt::format("{}.#{}", list, index + 1);
}

void read_markets(const KeyReader& root, Brief& brief) {
  const FileContext& context = root.context();
  const auto tables = root.tables("markets", "markets");
  if (root.node().find("markets") == nullptr)
    context.complain({}, "there is no market", "at least one [[markets]]", "");
  for (std::size_t i = 0; i < tables.size(); ++i) {
    const KeyReader entry(context, *tables[i], "markets",
                          entry_path("markets", *tables[i], "market", i));
    context.remember(entry.path(), tables[i]->place);
    entry.refuse_unknown_keys();
    const auto market = entry.market("market");
    const auto currency = entry.currency("currency");
    const auto budget = entry.money("budget", currency);
    const auto tax = entry.rate("sales_tax");
    if (!market || !budget) continue;
    if (budget->minor > most_budget_minor) {
      context.complain(
          tables[i]->find("budget")->place, "this budget is too large",
          fmt::format("at most {}", to_string(Money{budget->currency, most_budget_minor})),
          tables[i]->find("budget")->written);
      continue;
    }
    if (std::ranges::find(brief.markets, *market, &MarketGoal::market) != brief.markets.end()) {
      context.complain(tables[i]->find("market")->place, "this market stands twice",
                       "each market once", tables[i]->find("market")->written);
      continue;
    }
    brief.markets.push_back({.market = *market,
                             .budget = *budget,
                             .sales_tax = tax,
                             .mains_v = entry.number("mains_v"),
                             .circuit_a = entry.number("circuit_a"),
                             .kwh_price = entry.number("kwh_price"),
                             .kwh_price_night = entry.number("kwh_price_night")});
  }
  if (const TomlNode* list = root.node().find("markets");
      list != nullptr && list->type == NodeType::array && list->children.empty())
    context.complain(list->place, "there is no market", "at least one [[markets]]", list->written);
}

void read_title(const KeyReader& entry, Brief& brief) {
  entry.refuse_unknown_keys();
  const auto title = entry.title("title");
  const auto size = entry.resolution("resolution").value_or(Pixels{});
  TitleGoal goal{.title = title.value_or(""),
                 .weight = entry.number("weight").value_or(1.0),
                 .width_px = size.width_px,
                 .height_px = size.height_px,
                 .target_fps = entry.number("target_fps").value_or(0.0),
                 .floor_fps = entry.number("floor_fps"),
                 .p99_frame_time_fps = entry.number("p99_frame_time_fps"),
                 .render_scale = entry.number("render_scale").value_or(1.0),
                 .generated_per_rendered = entry.whole("generated_per_rendered").value_or(0)};
  if (!title) return;
  if (std::ranges::find(brief.titles, *title, &TitleGoal::title) != brief.titles.end()) {
    const TomlNode& node = *entry.node().find("title");
    entry.context().complain(node.place, "this title stands twice", "each title once",
                             node.written);
    return;
  }
  brief.titles.push_back(std::move(goal));
}

void read_titles(const KeyReader& root, Brief& brief) {
  const auto tables = root.tables("titles", "titles");
  bool weighs = tables.empty();
  for (std::size_t i = 0; i < tables.size(); ++i) {
    const KeyReader entry(root.context(), *tables[i], "titles",
                          entry_path("titles", *tables[i], "title", i));
    root.context().remember(entry.path(), tables[i]->place);
    read_title(entry, brief);
    const TomlNode* weight = tables[i]->find("weight");
    const bool zero =
        weight != nullptr && ((weight->type == NodeType::whole && weight->whole == 0) ||
                              (weight->type == NodeType::real && weight->real == 0.0));
    weighs = weighs || !zero;
  }
  if (!weighs)
    root.context().complain(tables.front()->find("weight")->place, "no title has any weight",
                            "a weight of more than 0 in one [[titles]] at least", "");
}

constexpr std::array given_loads = {"idle", "title", "all-core", "everything"};

bool is_load(const Brief& brief, std::string_view name) {
  return std::ranges::find(given_loads, name) != given_loads.end() ||
         std::ranges::find(brief.loads, name, &OwnLoad::name) != brief.loads.end();
}

void read_loads(const KeyReader& root, Brief& brief) {
  const auto tables = root.tables("loads", "loads");
  for (std::size_t i = 0; i < tables.size(); ++i) {
    const KeyReader entry(root.context(), *tables[i], "loads",
                          entry_path("loads", *tables[i], "name", i));
    root.context().remember(entry.path(), tables[i]->place);
    entry.refuse_unknown_keys();
    const auto name = entry.text("name");
    OwnLoad load{.name = name.value_or(""),
                 .cpu_frac = entry.number("cpu_frac").value_or(0.0),
                 .gpu_frac = entry.number("gpu_frac").value_or(0.0),
                 .hours_per_day = entry.number("hours").value_or(0.0)};
    if (!name) continue;
    if (is_load(brief, *name))
      root.context().complain(
          tables[i]->find("name")->place, "a load of this name is already there",
          "each load once, and none named idle, title, all-core or everything", excerpt(*name));
    else if (brief.loads.size() == most_own_loads)
      root.context().complain(tables[i]->place, "so many loads are not read",
                              fmt::format("at most {} [[loads]]", most_own_loads), "");
    else
      brief.loads.push_back(std::move(load));
  }
}

void check_load(const KeyReader& limit, const Brief& brief) {
  const TomlNode* load = limit.node().find("load");
  if (load == nullptr || load->type != NodeType::text || is_load(brief, load->text)) return;
  std::string names;
  for (const char* name : given_loads) names += fmt::format("{}, ", name);
  limit.context().complain(load->place, "no load of this name",
                           names + "or the name of one of [[loads]]", excerpt(load->text));
}

void read_limits(const KeyReader& root, Brief& brief) {
  const auto limits = root.table("limits", "limits");
  if (!limits) return;
  limits->refuse_unknown_keys();
  brief.supply_reserve_frac = limits->number("supply_reserve_frac");
  brief.running_cost_per_year = limits->number("running_cost_per_year");
  if (!brief.markets.empty()) brief.running_cost_market = brief.markets.front().market;
  for (const SectionSpec& section : keys::brief_sections) {
    constexpr std::string_view inside = "limits.";
    if (!section.name.starts_with(inside)) continue;
    const std::string_view name = section.name.substr(inside.size());
    const auto entry = limits->table(name, section.name);
    if (!entry) continue;
    entry->refuse_unknown_keys();
    const auto at_most = entry->number("at_most");
    if (name == "volume_l") {
      brief.volume_l_at_most = at_most;
      continue;
    }
    check_load(*entry, brief);
    PhysicalLimit limit{.at_most = at_most.value_or(0.0),
                        .load = entry->text("load").value_or(""),
                        .distance_m = {}};
    if (name == "noise_dba") limit.distance_m = entry->number("distance_m");
    brief.limits.emplace(name, std::move(limit));
  }
}

// A year of no hours costs nothing, and every build would keep the limit.
void check_cost(const KeyReader& root, const Brief& brief) {
  const TomlNode* limits = root.node().find("limits");
  const TomlNode* cost = limits == nullptr ? nullptr : limits->find("running_cost_per_year");
  if (cost == nullptr || !brief.running_cost_per_year) return;
  for (const double hours : brief.use.hours_per_day)
    if (hours > 0.0) return;
  for (const OwnLoad& load : brief.loads)
    if (load.hours_per_day > 0.0) return;
  root.context().complain(cost->place, "[use] states no hours, so a year costs nothing",
                          "hours a day in [use], such as title_h = 3", "");
}

void check_day(const KeyReader& root, const TomlNode& at, double sum_h) {
  constexpr double day_h = 24.0;
  if (sum_h > day_h + 1e-9)
    root.context().complain(at.place, "a day has not so many hours",
                            "hours of [use] and [[loads]] that sum to at most 24",
                            fmt::format("{:g} h", sum_h));
}

void read_use(const KeyReader& root, Brief& brief) {
  double sum = 0.0;
  for (const OwnLoad& load : brief.loads) sum += load.hours_per_day;
  const auto use = root.table("use", "use");
  if (!use) {
    if (const TomlNode* loads = root.node().find("loads"); loads != nullptr)
      check_day(root, *loads, sum);
    return;
  }
  use->refuse_unknown_keys();
  constexpr std::array keys = {"idle_h", "title_h", "all_core_h", "everything_h"};
  for (std::size_t i = 0; i < keys.size(); ++i) {
    brief.use.hours_per_day[i] = use->number(keys[i]).value_or(0.0);
    sum += brief.use.hours_per_day[i];
  }
  brief.use.night_frac = use->number("night_frac").value_or(0.0);
  check_day(root, use->node(), sum);
}

void read_room_and_musts(const KeyReader& root, Brief& brief) {
  if (const auto room = root.table("room", "room")) {
    room->refuse_unknown_keys();
    const auto temp_c = room->number("temp_c");
    brief.room_stated = temp_c.has_value();
    brief.room_c = temp_c.value_or(brief.room_c);
    brief.room_noise_dba = room->number("noise_dba");
  }
  if (const auto musts = root.table("musts", "musts")) {
    musts->refuse_unknown_keys();
    brief.memory_gib = musts->number("memory_gb");
    brief.storage_gb = musts->number("storage_gb");
    brief.wifi = musts->flag("wifi").value_or(false);
    brief.front_usb_c = musts->flag("front_usb_c").value_or(false);
  }
}

void read_worths(const KeyReader& root, Brief& brief) {
  const auto worths = root.table("worths", "worths");
  if (!worths) return;
  worths->refuse_unknown_keys();
  // The first market's currency, even when something else of that market was refused.
  std::optional<Currency> currency;
  if (const TomlNode* markets = root.node().find("markets");
      markets != nullptr && !markets->children.empty())
    if (const TomlNode* code = markets->children.front().find("currency"); code != nullptr)
      currency = parse_currency(code->text);
  for (const char* name : {"quiet", "lasting"})
    if (const auto worth = worths->money(name, currency)) brief.worths.emplace(name, *worth);
  brief.saved_frac = worths->number("saved_frac").value_or(0.0);
}

void read_keep(const KeyReader& root, Brief& brief) {
  const auto keep = root.table("keep", "keep");
  if (!keep) return;
  keep->refuse_unknown_keys(kind_names);
  for (const TomlNode& child : keep->node().children) {
    const auto kind = find_kind(child.key);
    if (!kind) continue;
    root.context().remember(fmt::format("keep.{}", child.key), child.key_place);
    if (check_part(root.context(), child, *kind)) brief.keep.push_back({*kind, child.text, ""});
  }
}

void read_because(const KeyReader& root, Brief& brief) {
  const auto because = root.table("because", "because");
  if (!because) return;
  because->refuse_unknown_keys(kind_names);
  for (const TomlNode& child : because->node().children) {
    const auto kind = find_kind(child.key);
    if (!kind) continue;
    const auto entry = because->table(child.key, "because.*");
    if (!entry) continue;
    entry->refuse_unknown_keys();
    const auto id = entry->part("id", *kind);
    const auto why = entry->text("why");
    const auto kept = std::ranges::find(brief.keep, *kind, &ForcedPart::kind);
    if (id && kept != brief.keep.end() && kept->id != *id)
      root.context().complain(child.find("id")->place,
                              fmt::format("[keep] already fixes the {}: {}", child.key, kept->id),
                              "one of the two, or the same part", child.find("id")->written);
    if (id && why) brief.because.push_back({*kind, *id, *why});
  }
}

// What is written in this table over what holds without it.
Accept read_accept_keys(const KeyReader& table, Accept accept) {
  if (const auto verdict = table.text("verdict"))
    accept.verdict = *verdict == "holds" ? WorstVerdict::holds : WorstVerdict::thin;
  if (const auto unknown = table.text("unknown"))
    accept.unknown = *unknown == "accept" ? Unknowns::accept : Unknowns::refuse;
  return accept;
}

void read_accept(const KeyReader& root, Brief& brief) {
  const auto accept = root.table("accept", "accept");
  if (!accept) return;
  std::vector<std::string_view> rules;
  for (const TomlNode& child : accept->node().children)
    if (child.type == NodeType::table &&
        std::ranges::none_of(keys::brief_keys, [&](const KeySpec& key) {
          return key.section == "accept" && key.name == child.key;
        }))
      rules.push_back(child.key);
  accept->refuse_unknown_keys(rules);
  brief.accept = read_accept_keys(*accept, {});
  brief.accept_adapters = accept->flag("adapters").value_or(false);
  brief.accept_shared_lanes = accept->flag("shared_lanes").value_or(false);
  for (const std::string_view rule : rules) {
    const auto entry = accept->table(rule, "accept.*");
    if (!is_rule_id(rule))
      root.context().complain(accept->node().find(rule)->key_place, "not the id of a rule",
                              "engine and name in quotes: [accept.\"fit.card-length\"]",
                              excerpt(rule));
    if (!entry || !is_rule_id(rule)) continue;
    entry->refuse_unknown_keys();
    brief.accept_by_rule.emplace(rule, read_accept_keys(*entry, brief.accept));
  }
}

void read_display(const KeyReader& root, Brief& brief) {
  const auto display = root.table("display", "display");
  if (!display) return;
  display->refuse_unknown_keys();
  const auto size = display->resolution("resolution").value_or(Pixels{});
  brief.display =
      DisplayGoal{size.width_px, size.height_px, display->number("refresh_hz").value_or(0.0)};
}

}  // namespace

tl::expected<Brief, Complaints> read_brief(std::string_view toml, const std::string& file,
                                           const Catalog& catalog) {
  Complaints complaints;
  Brief brief;
  brief.file = file;
  const auto tree = read_toml(toml, file, complaints);
  if (!tree) return tl::unexpected(std::move(complaints));
  const FileContext context{file,    keys::brief_sections, keys::brief_keys,
                            catalog, complaints,           &brief.lines};
  const KeyReader root(context, *tree, "", "");
  root.refuse_unknown_keys();
  read_head(root, brief);
  read_markets(root, brief);
  read_titles(root, brief);
  read_loads(root, brief);
  read_limits(root, brief);
  read_use(root, brief);
  check_cost(root, brief);
  read_room_and_musts(root, brief);
  read_worths(root, brief);
  read_keep(root, brief);
  read_because(root, brief);
  read_accept(root, brief);
  read_display(root, brief);
  if (!complaints.empty()) return tl::unexpected(std::move(complaints));
  return brief;
}

}  // namespace rigproof
