#include "decision/plan/relax.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "base/contract.hpp"

namespace rigproof::plan {
namespace {

using Values = std::set<double>;

// Where a claim about this quantity can change sides.
void add_values(const Draws& quantity, Values& values) {
  if (quantity.is_absent()) return;
  values.insert({quantity.low(), quantity.high()});
  if (quantity.is_certain()) return;
  for (int i = 0; i < draw_count; ++i) values.insert(quantity[i]);
}

Values volumes(const Catalog& catalog, CellDraws& draws) {
  Values values;
  for (Row row = 0; row < catalog.rows(table("case")); ++row) {
    add_values(draws.of(column("case", "volume_l"), row), values);
    const double box_l = catalog.number(column("case", "width_mm"), row) *
                         catalog.number(column("case", "height_mm"), row) *
                         catalog.number(column("case", "depth_mm"), row) * 1e-6;
    if (!std::isnan(box_l)) values.insert(box_l);
  }
  return values;
}

// A kit is certain in what it holds: modules and sizes are counted, not measured.
Values memory_sizes(const Catalog& catalog) {
  Values values;
  for (Row row = 0; row < catalog.rows(table("memory")); ++row) {
    const double gib = catalog.number(column("memory", "modules"), row) *
                       catalog.number(column("memory", "module_gib"), row);
    if (!std::isnan(gib)) values.insert(gib);
  }
  return values;
}

Values storage_sizes(const Catalog& catalog, CellDraws& draws) {
  Values values;
  const ColumnId capacity = column("storage", "capacity_gb");
  const Row rows = catalog.rows(table("storage"));
  std::set<double> certain;
  std::vector<Draws> uncertain;
  for (Row row = 0; row < rows; ++row) {
    const Draws& drive = draws.of(capacity, row);
    if (drive.is_absent()) continue;
    if (drive.is_certain())
      certain.insert(drive.low());
    else
      uncertain.push_back(drive);
  }
  for (const double first : certain) {
    values.insert(first);
    for (const double second : certain) values.insert(first + second);
  }
  for (const Draws& first : uncertain) {
    add_values(first, values);
    for (const double second : certain) add_values(first + Draws(second), values);
    for (const Draws& second : uncertain) add_values(first + second, values);
  }
  return values;
}

Values ages(const Catalog& catalog, const Brief& brief) {
  Values values;
  for (Row row = 0; row < catalog.rows(table("offers")); ++row)
    if (const auto seen = catalog.date(column("offers", "seen"), row))
      values.insert(static_cast<double>(brief.as_of.days - seen->days));
  return values;
}

Scale upwards(EasedIn in, double asked, const Values& values) {
  return {
      .in = in, .asked = asked, .step = 0.0, .values = {values.upper_bound(asked), values.end()}};
}

Scale downwards(EasedIn in, double asked, const Values& values) {
  Scale scale{.in = in, .asked = asked, .step = 0.0, .values = {}};
  for (const double value : values)
    if (value > 0.0 && value < asked) scale.values.push_back(value);
  std::ranges::reverse(scale.values);
  return scale;
}

Scale whole_fps(double asked) {
  Scale scale{.in = EasedIn::fps, .asked = asked, .step = 1.0, .values = {}};
  for (double fps = std::ceil(asked) - 1.0; fps >= 1.0; fps -= 1.0) scale.values.push_back(fps);
  return scale;
}

Scale whole_percent(double asked) {
  Scale scale{.in = EasedIn::reserve_frac, .asked = asked, .step = 0.01, .values = {}};
  for (int percent = static_cast<int>(std::ceil(100.0 * asked)); percent >= 0; --percent)
    if (percent / 100.0 < asked) scale.values.push_back(percent / 100.0);
  return scale;
}

// The wishes that a path names: of a title, at each resolution that the brief gives it.
std::vector<std::optional<double>*> wishes_of(Brief& brief, const std::string& path) {
  std::vector<std::optional<double>*> out;
  for (TitleGoal& title : brief.titles) {
    std::optional<double>* wish = nullptr;
    if (path == "titles." + title.title + ".floor_fps") wish = &title.floor_fps;
    if (path == "titles." + title.title + ".p99_frame_time_fps") wish = &title.p99_frame_time_fps;
    if (wish != nullptr && *wish) out.push_back(wish);
  }
  return out;
}

}  // namespace

std::optional<Scale> scale_of(const Catalog& catalog, CellDraws& draws, const Brief& brief,
                              const std::string& path) {
  if (path == "limits.volume_l" && brief.volume_l_at_most)
    return upwards(EasedIn::liters, *brief.volume_l_at_most, volumes(catalog, draws));
  if (path == "limits.supply_reserve_frac" && brief.supply_reserve_frac)
    return whole_percent(*brief.supply_reserve_frac);
  if (path == "musts.memory_gb" && brief.memory_gib)
    return downwards(EasedIn::gib, *brief.memory_gib, memory_sizes(catalog));
  if (path == "musts.storage_gb" && brief.storage_gb)
    return downwards(EasedIn::gb, *brief.storage_gb, storage_sizes(catalog, draws));
  if (path == "offers_not_older_than_days" && brief.offers_not_older_than_days)
    return upwards(EasedIn::days, *brief.offers_not_older_than_days, ages(catalog, brief));
  if (path == "lone_offers_not_older_than_days" && brief.lone_offers_not_older_than_days)
    return upwards(EasedIn::days, *brief.lone_offers_not_older_than_days, ages(catalog, brief));
  Brief copy = brief;
  double asked = 0.0;
  for (const std::optional<double>* wish : wishes_of(copy, path))
    asked = std::max(asked, wish->value_or(0.0));
  if (asked > 0.0) return whole_fps(asked);
  return {};
}

const MarketGoal* market_of_budget(const Brief& brief, const std::string& path) {
  for (const MarketGoal& market : brief.markets)
    if (path == "markets." + market.market + ".budget") return &market;
  return nullptr;
}

Brief eased(const Brief& brief, const std::string& path, double to) {
  Brief out = brief;
  if (path == "limits.volume_l") {
    out.volume_l_at_most = to;
  } else if (path == "limits.supply_reserve_frac") {
    out.supply_reserve_frac = to;
  } else if (path == "musts.memory_gb") {
    out.memory_gib = to;
  } else if (path == "musts.storage_gb") {
    out.storage_gb = to;
  } else if (path == "offers_not_older_than_days") {
    out.offers_not_older_than_days = static_cast<int>(to);
  } else if (path == "lone_offers_not_older_than_days") {
    out.lone_offers_not_older_than_days = static_cast<int>(to);
  } else {
    const auto wishes = wishes_of(out, path);
    RP_EXPECT(!wishes.empty());
    for (std::optional<double>* wish : wishes) *wish = std::min(to, wish->value_or(to));
  }
  return out;
}

Relaxation smallest_easing(const Brief& brief, const std::string& path, const Scale& scale,
                           const Satisfiable& satisfiable) {
  Relaxation out;
  const auto without_it = satisfiable(without(brief, {path}));
  if (!without_it) return out;
  if (!*without_it) return {.how = Easing::not_enough, .to = 0.0, .beyond = {}};
  // Every value before `first` leaves it closed, `last` and all after it open it; the place after
  // the end of the scale is leaving the requirement out.
  std::size_t first = 0;
  std::size_t last = scale.values.size();
  while (first < last) {
    const std::size_t middle = first + (last - first) / 2;
    const auto opens = satisfiable(eased(brief, path, scale.values[middle]));
    if (!opens) return out;
    if (*opens)
      last = middle;
    else
      first = middle + 1;
  }
  if (last == scale.values.size()) return {.how = Easing::drop, .to = 0.0, .beyond = {}};
  return {.how = Easing::value,
          .to = scale.values[last],
          .beyond = last == 0 ? scale.asked : scale.values[last - 1]};
}

Brief for_least_price(const Brief& brief, const std::string& market) {
  Brief out = brief;
  const auto first = std::ranges::find(out.markets, market, &MarketGoal::market);
  RP_EXPECT(first != out.markets.end());
  first->budget.minor = most_budget_minor;
  std::ranges::rotate(out.markets, first);  // score and ties use the first market
  out.saved_frac = 1.0;
  for (TitleGoal& title : out.titles) title.weight = 0.0;  // floors stay
  return out;
}

}  // namespace rigproof::plan
