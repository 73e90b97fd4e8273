#include "decision/plan/requirements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "catalog/title_name.hpp"

namespace rigproof::plan {
namespace {

class Lister {
 public:
  Lister(const Brief& brief, const Catalog* catalog) : brief_(brief), catalog_(catalog) {}

  std::vector<Requirement> list() {
    for (const MarketGoal& market : brief_.markets)
      add("markets." + market.market + ".budget",
          fmt::format("at most {} in {}", to_string(market.budget), market.market));
    for (const TitleGoal& title : brief_.titles) {
      const std::string name = catalog_ ? title_name(*catalog_, title.title) : title.title;
      if (title.floor_fps)
        add("titles." + title.title + ".floor_fps",
            fmt::format("at least {} rendered fps in {} at {}x{}", shortest(*title.floor_fps), name,
                        title.width_px, title.height_px));
      if (title.p99_frame_time_fps)
        add("titles." + title.title + ".p99_frame_time_fps",
            fmt::format("99 % of frames in {} at {}x{} at least as fast as {} fps", name,
                        title.width_px, title.height_px, shortest(*title.p99_frame_time_fps)));
    }
    if (brief_.volume_l_at_most)
      add("limits.volume_l",
          fmt::format("a case of at most {} l", shortest(*brief_.volume_l_at_most)));
    if (brief_.supply_reserve_frac)
      add("limits.supply_reserve_frac", fmt::format("{} % of the supply kept in reserve",
                                                    shortest(100.0 * *brief_.supply_reserve_frac)));
    add_physical_limits();
    if (brief_.running_cost_per_year && !brief_.markets.empty())
      add("limits.running_cost_per_year",
          fmt::format("at most {} {} a year for energy", shortest(*brief_.running_cost_per_year),
                      brief_.markets.front().budget.currency.view()));
    for (const MarketGoal& market : brief_.markets)
      if (market.circuit_a && market.mains_v)
        add("markets." + market.market + ".circuit_a",
            fmt::format("a circuit of {} A at {} V in {}", shortest(*market.circuit_a),
                        shortest(*market.mains_v), market.market));
    if (brief_.memory_gib)
      add("musts.memory_gb",
          fmt::format("at least {} GiB of memory", shortest(*brief_.memory_gib)));
    if (brief_.storage_gb)
      add("musts.storage_gb",
          fmt::format("at least {} GB of storage", shortest(*brief_.storage_gb)));
    if (brief_.wifi) add("musts.wifi", "a radio (Wi-Fi)");
    if (brief_.front_usb_c) add("musts.front_usb_c", "a USB-C port at the front that works");
    if (brief_.display)
      add("display", fmt::format("an output that feeds {}x{} at {} Hz", brief_.display->width_px,
                                 brief_.display->height_px, shortest(brief_.display->refresh_hz)));
    for (const ForcedPart& part : brief_.keep)
      add(fmt::format("keep.{}", name_of(part.kind)),
          fmt::format("{} is kept and must be used", name_of_part(part)));
    for (const ForcedPart& part : brief_.because)
      add(fmt::format("because.{}", name_of(part.kind)),
          fmt::format("{} is chosen against the numbers", name_of_part(part)));
    if (brief_.accept.verdict == WorstVerdict::holds) add("accept.verdict", "no claim may be thin");
    if (brief_.accept.unknown == Unknowns::refuse) add("accept.unknown", "no claim may be unknown");
    for (const auto& [rule, accept] : brief_.accept_by_rule)
      if (accept.verdict == WorstVerdict::holds || accept.unknown == Unknowns::refuse)
        add("accept." + rule, fmt::format("what is accepted of {}", rule));
    if (brief_.lone_offers_not_older_than_days)
      add("lone_offers_not_older_than_days",
          fmt::format("a price that one seller alone gives seen within {} days",
                      *brief_.lone_offers_not_older_than_days));
    if (!brief_.accept_adapters) add("accept.adapters", "no power adapter");
    if (!brief_.accept_shared_lanes)
      add("accept.shared_lanes", "no drive takes lanes from the card");
    if (brief_.offers_not_older_than_days)
      add("offers_not_older_than_days",
          fmt::format("offers seen within {} days", *brief_.offers_not_older_than_days));
    std::ranges::stable_sort(found_, {},
                             [](const Requirement& r) { return r.line == 0 ? 1 << 30 : r.line; });
    return std::move(found_);
  }

 private:
  [[nodiscard]] std::string name_of_part(const ForcedPart& part) const {
    const auto row = catalog_ ? catalog_->find_row(table_of(part.kind), part.id) : std::nullopt;
    return row ? std::string(catalog_->name({part.kind, *row})) : part.id;
  }
  void add_physical_limits() {
    struct Words {
      const char* key;
      std::string_view says;  // {}: the number
    };
    constexpr std::array all = {Words{"noise_dba", "at most {} dB(A)"},
                                Words{"cpu_c", "a processor of at most {} degC"},
                                Words{"gpu_c", "a card of at most {} degC"},
                                Words{"coolant_c", "a loop's liquid of at most {} degC"},
                                Words{"board_stage_c", "a power stage of at most {} degC"},
                                Words{"drive_c", "drives of at most {} degC"},
                                Words{"exhaust_c", "air that leaves at {} degC at most"},
                                Words{"wall_power_w", "at most {} W at the wall"}};
    for (const Words& words : all) {
      const auto limit = brief_.limits.find(words.key);
      if (limit == brief_.limits.end()) continue;
      add(std::string("limits.") + words.key,
          fmt::format("{} ({})",
                      fmt::format(fmt::runtime(words.says), shortest(limit->second.at_most)),
                      limit->second.load));
    }
  }
  void add(std::string path, std::string says) {
    auto line = brief_.lines.find(path);
    if (line == brief_.lines.end()) line = brief_.lines.find("brief." + path);
    found_.push_back(
        {std::move(path), line == brief_.lines.end() ? 0 : line->second, std::move(says)});
  }

  const Brief& brief_;
  const Catalog* catalog_;
  std::vector<Requirement> found_;
};

}  // namespace

std::vector<Requirement> requirements(const Brief& brief, const Catalog* catalog) {
  return Lister(brief, catalog).list();
}

Brief without(const Brief& brief, const std::set<std::string>& paths) {
  const auto dropped = [&](const std::string& path) { return paths.contains(path); };
  Brief out = brief;
  for (MarketGoal& market : out.markets)
    if (dropped("markets." + market.market + ".budget")) market.budget.minor = max_minor;
  for (TitleGoal& title : out.titles) {
    if (dropped("titles." + title.title + ".floor_fps")) title.floor_fps.reset();
    if (dropped("titles." + title.title + ".p99_frame_time_fps")) title.p99_frame_time_fps.reset();
  }
  if (dropped("limits.volume_l")) out.volume_l_at_most.reset();
  if (dropped("limits.supply_reserve_frac")) out.supply_reserve_frac.reset();
  for (const char* key : {"noise_dba", "cpu_c", "gpu_c", "coolant_c", "board_stage_c", "drive_c",
                          "exhaust_c", "wall_power_w"})
    if (dropped(std::string("limits.") + key)) out.limits.erase(key);
  if (dropped("limits.running_cost_per_year")) out.running_cost_per_year.reset();
  for (MarketGoal& market : out.markets)
    if (dropped("markets." + market.market + ".circuit_a")) market.circuit_a.reset();
  if (dropped("musts.memory_gb")) out.memory_gib.reset();
  if (dropped("musts.storage_gb")) out.storage_gb.reset();
  if (dropped("musts.wifi")) out.wifi = false;
  if (dropped("musts.front_usb_c")) out.front_usb_c = false;
  if (dropped("display")) out.display.reset();
  if (dropped("accept.adapters")) out.accept_adapters = true;
  if (dropped("accept.shared_lanes")) out.accept_shared_lanes = true;
  if (dropped("lone_offers_not_older_than_days")) out.lone_offers_not_older_than_days.reset();
  std::erase_if(out.keep, [&](const ForcedPart& part) {
    return dropped(fmt::format("keep.{}", name_of(part.kind)));
  });
  std::erase_if(out.because, [&](const ForcedPart& part) {
    return dropped(fmt::format("because.{}", name_of(part.kind)));
  });
  if (dropped("accept.verdict")) out.accept.verdict = WorstVerdict::thin;
  if (dropped("accept.unknown")) out.accept.unknown = Unknowns::accept;
  // Dropping what is asked of one rule must never ask more of it than before.
  for (auto& [rule, accept] : out.accept_by_rule)
    if (dropped("accept." + rule))
      accept = {.verdict = WorstVerdict::thin, .unknown = Unknowns::accept};
  if (dropped("offers_not_older_than_days")) out.offers_not_older_than_days.reset();
  return out;
}

namespace {

// With `dropped` gone from the start and never put back.
ConflictSet conflict_beside(const std::vector<Requirement>& all,
                            const SatisfiableWithout& satisfiable, std::set<std::string> dropped) {
  ConflictSet out{.known = true, .requirements = {}};
  for (const Requirement& requirement : all) {
    if (!dropped.insert(requirement.path).second) continue;
    const auto possible = satisfiable(dropped);
    if (!possible) out.known = false;
    if (possible && !*possible) continue;  // impossible without it as well: not needed
    dropped.erase(requirement.path);
    out.requirements.push_back(requirement);
    if (!out.known) break;
  }
  return out;
}

}  // namespace

// Ends: each round but the last drops a requirement that stood before.
std::vector<ConflictSet> conflicts(const std::vector<Requirement>& all,
                                   const SatisfiableWithout& satisfiable,
                                   const std::set<std::string>& shared) {
  std::vector<ConflictSet> out;
  std::set<std::string> dropped;
  for (;;) {
    out.push_back(conflict_beside(all, satisfiable, dropped));
    const ConflictSet& last = out.back();
    const std::size_t before = dropped.size();
    for (const Requirement& requirement : last.requirements)
      if (!shared.contains(requirement.path)) dropped.insert(requirement.path);
    if (!last.known || dropped.size() == before) return out;
    if (satisfiable(dropped).value_or(true)) return out;
  }
}

std::vector<ConflictSet> conflicts(const Brief& brief, const Satisfiable& satisfiable) {
  return conflicts(requirements(brief), [&](const std::set<std::string>& dropped) {
    return satisfiable(without(brief, dropped));
  });
}

}  // namespace rigproof::plan
