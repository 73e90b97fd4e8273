// The job in one sentence, made from the brief alone.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "app/plain_words.hpp"
#include "base/text.hpp"
#include "catalog/title_name.hpp"
#include "sheet/wording.hpp"

namespace rigproof::app {
namespace {

// `A, B and C`.
std::string listed(const std::vector<std::string>& texts) {
  std::string out;
  for (std::size_t i = 0; i < texts.size(); ++i)
    out += (i == 0 ? "" : i + 1 == texts.size() ? " and " : ", ") + texts[i];
  return out;
}

std::string picture_words(int width_px, int height_px) {
  struct Known {
    int width_px, height_px;
    std::string_view name;
  };
  constexpr std::array known = {Known{3840, 2160, "4K"}, Known{7680, 4320, "8K"}};
  std::string size = fmt::format("{} x {}", width_px, height_px);
  for (const Known& picture : known)
    if (picture.width_px == width_px && picture.height_px == height_px)
      return fmt::format("{} ({})", picture.name, size);
  return size;
}

// Titles that are asked for alike are told together.
std::string titles_words(const Brief& brief, const Catalog& catalog) {
  std::vector<std::string> groups;
  std::vector<bool> told(brief.titles.size(), false);
  for (std::size_t i = 0; i < brief.titles.size(); ++i) {
    if (told[i]) continue;
    const TitleGoal& first = brief.titles[i];
    std::vector<std::string> names;
    for (std::size_t k = i; k < brief.titles.size(); ++k) {
      const TitleGoal& goal = brief.titles[k];
      if (goal.width_px != first.width_px || goal.height_px != first.height_px ||
          goal.target_fps != first.target_fps)
        continue;
      told[k] = true;
      names.push_back(title_name(catalog, goal.title));
    }
    groups.push_back(
        fmt::format("{} at {} and {} frames a second",
                    names.size() > 3 ? sheet::counted(static_cast<long long>(names.size()), "title")
                                     : listed(names),
                    picture_words(first.width_px, first.height_px), readable(first.target_fps)));
  }
  return groups.empty() ? std::string{} : " for " + listed(groups);
}

std::string load_words(std::string_view load) {
  if (load == "idle") return "at rest";
  if (load == "title") return "while playing";
  if (load == "all-core") return "with every core at work";
  if (load == "everything") return "with everything at work";
  return fmt::format("under \"{}\"", load);
}

void add_limits(const Brief& brief, std::vector<std::string>& out) {
  struct Told {
    std::string_view key, says, unit;
  };
  constexpr std::array told = {
      Told{"noise_dba", "no louder than", "dB(A)"},
      Told{"cpu_c", "its processor no hotter than", "degrees"},
      Told{"gpu_c", "its card no hotter than", "degrees"},
      Told{"coolant_c", "its loop's liquid no hotter than", "degrees"},
      Told{"board_stage_c", "its board's power stage no hotter than", "degrees"},
      Told{"drive_c", "its drives no hotter than", "degrees"},
      Told{"exhaust_c", "its exhaust no warmer than", "degrees"},
      Told{"wall_power_w", "drawing no more than", "W from the wall"}};
  for (const Told& limit : told) {
    const auto found = brief.limits.find(std::string(limit.key));
    if (found == brief.limits.end()) continue;
    std::string text =
        fmt::format("{} {} {}", limit.says, readable(found->second.at_most), limit.unit);
    const PhysicalLimit& asked = found->second;
    if (asked.distance_m) text += fmt::format(" at {} m", readable(*asked.distance_m));
    if (!asked.load.empty()) text += fmt::format(" {}", load_words(asked.load));
    out.push_back(std::move(text));
  }
  if (brief.volume_l_at_most)
    out.push_back(fmt::format("no larger than {} liters", readable(*brief.volume_l_at_most)));
}

std::string musts_words(const Brief& brief) {
  std::vector<std::string> musts;
  if (brief.memory_gib)
    musts.push_back(fmt::format("{} GB of memory", readable(*brief.memory_gib)));
  if (brief.storage_gb)
    musts.push_back(fmt::format("{} GB of storage", readable(*brief.storage_gb, 6)));
  if (brief.wifi) musts.emplace_back("Wi-Fi");
  if (brief.front_usb_c) musts.emplace_back("a USB-C port at the front");
  return musts.empty() ? std::string{} : ", with at least " + listed(musts);
}

std::string money_words(const Brief& brief) {
  std::vector<std::string> budgets;
  budgets.reserve(brief.markets.size());
  for (const MarketGoal& market : brief.markets)
    budgets.push_back(fmt::format("{}{}", sheet::plain_money_words(market.budget),
                                  brief.markets.size() > 1 ? " in " + market.market : ""));
  return budgets.empty() ? std::string{} : ", for at most " + listed(budgets);
}

}  // namespace

std::string job_words(const Brief& brief, const Catalog& catalog) {
  std::vector<std::string> limits;
  add_limits(brief, limits);
  std::string out = "A PC" + titles_words(brief, catalog);
  if (!limits.empty()) out += ", " + listed(limits);
  out += musts_words(brief) + money_words(brief);
  return fmt::format("{}, as of {}.", out, sheet::long_date_words(brief.as_of));
}

std::string no_job_words() {
  return "A given build without a brief: nobody stated a budget, titles or limits, so it is judged "
         "only on whether its parts go together.";
}

}  // namespace rigproof::app
