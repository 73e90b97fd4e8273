#include "catalog/fan_settings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "catalog/build.hpp"
#include "catalog/key_reader.hpp"

namespace rigproof {
namespace {

constexpr std::array group_names = {"case", "cooler"};
constexpr std::array followed_names = {"cpu", "gpu", "coolant"};
constexpr double percent = 100.0;

template <class Enum, std::size_t n>
Enum named(const std::array<const char*, n>& names, const std::string& name) {
  return static_cast<Enum>(std::ranges::find(names, name) - names.begin());
}

// What is wrong with a point after those before it; nothing: it is right.
struct Objection {
  const char* key;
  const char* what;
  const char* expected;
};
std::optional<Objection> objection(const FanSetting& so_far, FanSetting::Follows follows,
                                   const FanSetting::Point& point) {
  if (so_far.points.empty()) return {};
  if (so_far.follows != follows)
    return Objection{"follows", "these fans follow another temperature already",
                     "one temperature for each of case and cooler"};
  if (point.temp_c <= so_far.points.back().temp_c)
    return Objection{"temp_c", "no hotter than the point before", "points from cold to hot"};
  if (point.speed_percent < so_far.points.back().speed_percent)
    return Objection{"speed_percent", "slower than at the colder point before",
                     "fans that turn as fast or faster where it is hotter"};
  return {};
}

// A group that follows what is not there would never know how fast to turn.
bool is_there(const Catalog& catalog, const Build& build, FanSetting::Follows follows) {
  if (follows == FanSetting::Follows::gpu) return build.has(Kind::gpu);
  if (follows != FanSetting::Follows::coolant) return true;
  return build.has(Kind::cooler) &&
         catalog.word(column("cooler", "type"), build.one(Kind::cooler)) != "air";
}

}  // namespace

FanSetting FanSetting::still(double speed_percent) {
  return {.follows = Follows::cpu, .points = {{.temp_c = 0.0, .speed_percent = speed_percent}}};
}

double FanSetting::speed_frac_at(double temp_c) const {
  const auto above =
      std::ranges::find_if(points, [temp_c](const Point& point) { return point.temp_c >= temp_c; });
  if (above == points.end()) return points.back().speed_percent / percent;
  if (above == points.begin()) return above->speed_percent / percent;
  const Point& below = *std::prev(above);
  const double share = (temp_c - below.temp_c) / (above->temp_c - below.temp_c);
  return (below.speed_percent + share * (above->speed_percent - below.speed_percent)) / percent;
}

FanSettings read_fan_settings(const KeyReader& root, const Build& build) {
  FanSettings out;
  for (const TomlNode* table : root.tables("fan_speeds", "fan_speeds")) {
    const KeyReader entry(root.context(), *table, "fan_speeds", "fan_speeds");
    entry.refuse_unknown_keys();
    const auto fans = entry.text("fans");
    const auto follows = entry.text("follows");
    const auto temp_c = entry.number("temp_c");
    const auto speed = entry.number("speed_percent");
    if (!fans || !follows || !temp_c || !speed) continue;
    auto& setting = out[static_cast<std::size_t>(named<FanGroup>(group_names, *fans))];
    if (!setting) setting.emplace();
    const auto followed = named<FanSetting::Follows>(followed_names, *follows);
    if (!is_there(root.context().catalog, build, followed)) {
      const TomlNode* node = table->find("follows");
      root.context().complain(node->place, "the build has nothing of this temperature",
                              "a temperature of a part that is in it", node->written);
      continue;
    }
    const FanSetting::Point point{.temp_c = *temp_c, .speed_percent = *speed};
    if (const auto wrong = objection(*setting, followed, point)) {
      const TomlNode* node = table->find(wrong->key);
      root.context().complain(node->place, wrong->what, wrong->expected, node->written);
      continue;
    }
    setting->follows = followed;
    setting->points.push_back(point);
  }
  return out;
}

std::string write_fan_settings(const FanSettings& settings) {
  std::string out;
  for (const FanGroup group : all_fan_groups) {
    const auto& setting = settings[static_cast<std::size_t>(group)];
    if (!setting) continue;
    for (const FanSetting::Point& point : setting->points)
      out += fmt::format(
          "\n[[fan_speeds]]\nfans = \"{}\"\nfollows = \"{}\"\ntemp_c = {}\nspeed_percent = {}\n",
          group_names[static_cast<std::size_t>(group)],
          followed_names[static_cast<std::size_t>(setting->follows)], shortest(point.temp_c),
          shortest(point.speed_percent));
  }
  return out;
}

}  // namespace rigproof
