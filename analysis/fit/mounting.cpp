#include "analysis/fit/mounting.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>

namespace rigproof::fit {
namespace {

constexpr int case_mounts = table("case_mounts");
constexpr int case_fans = table("case_fans");
constexpr int case_clearances = table("case_clearances");
constexpr double none_known = std::numeric_limits<double>::infinity();

// Calls `each(number)` for the numbers in a cell such as `120|140`; words such as `none` are passed
// over.
template <class Each>
void each_number(std::string_view cell, Each each) {
  while (!cell.empty()) {
    const std::string_view token = cell.substr(0, cell.find('|'));
    cell.remove_prefix(std::min(cell.size(), token.size() + 1));
    double number = 0.0;
    const auto read = std::from_chars(token.data(), token.data() + token.size(), number);
    if (read.ec == std::errc{}) each(number);
  }
}

bool lists(std::string_view cell, double size_mm) {
  bool found = false;
  each_number(cell, [&](double number) { found = found || number == size_mm; });
  return found;
}

// What a thing of this depth on this mount takes from the card's length.
double taken_from_card_mm(const Facts& facts, Row mount, double depth_mm) {
  const Catalog& catalog = facts.catalog;
  const PartRef chassis{Kind::chassis, facts.build.one(Kind::chassis)};
  for (const Row row : catalog.rows_of(case_clearances, chassis)) {
    if (catalog.word(column("case_clearances", "limits"), row) != "card-length") continue;
    if (catalog.word(column("case_clearances", "when"), row) != mount_name(catalog, mount))
      continue;
    return catalog.number(column("case_clearances", "by_mm"), row) + depth_mm;
  }
  return 0.0;
}

double radiator_depth_mm(const Facts& facts) {
  const Row cooler = facts.build.one(Kind::cooler);
  return nominal(facts.catalog, column("cooler", "radiator_thickness_mm"), cooler) +
         nominal(facts.catalog, column("cooler", "fan_thickness_mm"), cooler);
}

// Smaller is better, first member first.
struct RadiatorRank {
  int fan_mount;          // 1: the author wants the fans here
  double too_shallow_mm;  // 0 when it fits or the depth is unknown
  double taken_mm;
  double tube_way_mm;  // what is not stated comes last
  auto operator<=>(const RadiatorRank&) const = default;
};

// (T2) Length that the case's own fans and the groups placed so far take of a mount.
double used_mm(const Facts& facts, const Mounting& mounting, Row mount) {
  const Catalog& catalog = facts.catalog;
  const PartRef chassis{Kind::chassis, facts.build.one(Kind::chassis)};
  double used = 0.0;
  for (const Row row : catalog.rows_of(case_fans, chassis))
    if (catalog.word(column("case_fans", "mount"), row) == mount_name(catalog, mount))
      used += catalog.number(column("case_fans", "count"), row) *
              catalog.number(column("case_fans", "size_mm"), row);
  for (const FanGroup& group : mounting.groups())
    if (group.mount == mount)
      used += group.count *
              catalog.number(column("fan", "size_mm"),
                             facts.build.of(Kind::fan)[static_cast<std::size_t>(group.model)].row);
  return used;
}

// (T3) How many more fans of this size the mount takes.
int free_places(const Facts& facts, const Mounting& mounting, Row mount, double size_mm) {
  const Catalog& catalog = facts.catalog;
  if (mount == mounting.radiator) return 0;
  if (!lists(catalog.word(column("case_mounts", "fan_sizes_mm"), mount), size_mm)) return 0;
  const double left_mm = row_length_mm(catalog, mount) - used_mm(facts, mounting, mount);
  return left_mm >= size_mm ? static_cast<int>(left_mm / size_mm) : 0;
}

struct FanMount {
  Row mount = no_row;
  double taken_mm = none_known;
  int places = 0;
};

// The mounts that take one model, those first that cost the card least; returns how many there are.
int rank_fan_mounts(const Facts& facts, const Mounting& mounting, Row fan, std::uint32_t no_fans,
                    std::array<FanMount, most_mounts>& out) {
  const Catalog& catalog = facts.catalog;
  const double size_mm = catalog.number(column("fan", "size_mm"), fan);
  const double thickness_mm = nominal(catalog, column("fan", "thickness_mm"), fan);
  const std::string_view fixed = author_mount(facts, "fan");
  int count = 0;
  for (const Row mount : mounts_of(facts)) {
    const bool left_free = (no_fans & 1U) != 0;
    no_fans >>= 1U;
    if (left_free || (!fixed.empty() && mount_name(catalog, mount) != fixed)) continue;
    if (thickness_mm > catalog.number(column("case_mounts", "depth_mm"), mount)) continue;
    const int places = free_places(facts, mounting, mount, size_mm);
    if (places == 0) continue;
    const FanMount entry{mount, taken_from_card_mm(facts, mount, thickness_mm), places};
    int at = count++;
    for (; at > 0 && out[static_cast<std::size_t>(at - 1)].taken_mm > entry.taken_mm; --at)
      out[static_cast<std::size_t>(at)] = out[static_cast<std::size_t>(at - 1)];
    out[static_cast<std::size_t>(at)] = entry;
  }
  return count;
}

void place_fans(const Facts& facts, Mounting& mounting, int model, std::uint32_t no_fans) {
  const Chosen& chosen = facts.build.of(Kind::fan)[static_cast<std::size_t>(model)];
  std::array<FanMount, most_mounts> ranked{};
  const int count = rank_fan_mounts(facts, mounting, chosen.row, no_fans, ranked);
  int left = chosen.count;
  int places = 0;
  for (int i = 0; i < count; ++i) {
    const FanMount& here = ranked[static_cast<std::size_t>(i)];
    places += here.places;
    const int put = std::min(left, here.places);
    if (put == 0 || mounting.fan_groups == most_mounts) continue;
    mounting.fans[static_cast<std::size_t>(mounting.fan_groups++)] = {here.mount, model, put};
    left -= put;
  }
  mounting.free_places[static_cast<std::size_t>(model)] = places;
  mounting.unplaced[static_cast<std::size_t>(model)] = left;
}

}  // namespace

std::string_view author_mount(const Facts& facts, const char* what) {
  if (facts.setup == nullptr) return {};
  const auto found = facts.setup->mounts.find(what);
  return found == facts.setup->mounts.end() ? std::string_view{} : std::string_view{found->second};
}

std::span<const Row> mounts_of(const Facts& facts) {
  const Row chassis = facts.build.one(Kind::chassis);
  if (chassis == no_row) return {};
  const auto rows = facts.catalog.rows_of(case_mounts, {Kind::chassis, chassis});
  return rows.first(std::min<std::size_t>(rows.size(), most_mounts));
}

std::string_view mount_name(const Catalog& catalog, Row mount) {
  return catalog.word(column("case_mounts", "mount"), mount);
}

int fans_sold_on(const Facts& facts, Row mount) {
  if (mount == no_row) return 0;
  const Catalog& catalog = facts.catalog;
  const PartRef chassis{Kind::chassis, facts.build.one(Kind::chassis)};
  double count = 0.0;
  for (const Row row : catalog.rows_of(case_fans, chassis))
    if (catalog.word(column("case_fans", "mount"), row) == mount_name(catalog, mount) &&
        !catalog.absent(column("case_fans", "count"), row))
      count += catalog.number(column("case_fans", "count"), row);
  return static_cast<int>(count);
}

double nominal(const Catalog& catalog, ColumnId column_id, Row row) {
  const double number = catalog.number(column_id, row);
  if (!std::isnan(number)) return number;
  return 0.5 *
         (spec(column_id).class_low + spec(column_id).class_high);  // NaN without a class range
}

bool has_radiator(const Facts& facts) {
  const Row cooler = facts.build.one(Kind::cooler);
  return cooler != no_row && facts.catalog.word(column("cooler", "type"), cooler) == "liquid";
}

bool takes_radiator(const Catalog& catalog, Row mount, double radiator_mm) {
  return lists(catalog.word(column("case_mounts", "radiators_mm"), mount), radiator_mm);
}

double row_length_mm(const Catalog& catalog, Row mount) {
  double smallest_mm = none_known;
  each_number(catalog.word(column("case_mounts", "fan_sizes_mm"), mount),
              [&](double size_mm) { smallest_mm = std::min(smallest_mm, size_mm); });
  const double places = catalog.number(column("case_mounts", "fan_places"), mount);
  double length_mm = std::isnan(places) || smallest_mm == none_known ? 0.0 : places * smallest_mm;
  each_number(catalog.word(column("case_mounts", "radiators_mm"), mount),
              [&](double radiator_mm) { length_mm = std::max(length_mm, radiator_mm); });
  return length_mm;
}

Row find_mount(const Facts& facts, std::string_view name) {
  for (const Row mount : mounts_of(facts))
    if (mount_name(facts.catalog, mount) == name) return mount;
  return no_row;
}

std::string mounting_text(const Facts& facts, const Mounting& mounting) {
  std::string text;
  if (mounting.radiator != no_row)
    text = fmt::format("with the radiator on {}", mount_name(facts.catalog, mounting.radiator));
  for (const FanGroup& group : mounting.groups())
    text += fmt::format("{}{} added fan{} on {}", text.empty() ? "with " : " and ", group.count,
                        group.count == 1 ? "" : "s", mount_name(facts.catalog, group.mount));
  return text;
}

int radiator_candidates(const Facts& facts, std::array<Row, most_mounts>& out) {
  if (!has_radiator(facts)) return 0;
  if (const auto fixed = author_mount(facts, "cooler"); !fixed.empty()) {
    out[0] = find_mount(facts, fixed);
    return out[0] == no_row ? 0 : 1;
  }
  const Catalog& catalog = facts.catalog;
  const Row cooler = facts.build.one(Kind::cooler);
  const double size_mm = catalog.number(column("cooler", "radiator_mm"), cooler);
  const double depth_mm = radiator_depth_mm(facts);
  const std::string_view fans_here = author_mount(facts, "fan");
  std::array<RadiatorRank, most_mounts> ranks{};
  int count = 0;
  for (const Row mount : mounts_of(facts)) {
    if (!takes_radiator(catalog, mount, size_mm)) continue;
    const double free_mm = catalog.number(column("case_mounts", "depth_mm"), mount);
    const double way_mm = catalog.number(column("case_mounts", "tube_way_mm"), mount);
    const RadiatorRank rank{.fan_mount = mount_name(catalog, mount) == fans_here ? 1 : 0,
                            .too_shallow_mm = depth_mm > free_mm ? depth_mm - free_mm : 0.0,
                            .taken_mm = taken_from_card_mm(facts, mount, depth_mm),
                            .tube_way_mm = std::isnan(way_mm) ? none_known : way_mm};
    auto at = static_cast<std::size_t>(count++);
    for (; at > 0 && rank < ranks[at - 1]; --at) {
      ranks[at] = ranks[at - 1];
      out[at] = out[at - 1];
    }
    ranks[at] = rank;
    out[at] = mount;
  }
  return count;
}

Mounting seated(const Facts& facts, Row radiator, std::uint32_t no_fans) {
  Mounting mounting;
  if (facts.build.one(Kind::chassis) == no_row) return mounting;
  mounting.radiator = radiator;
  const int models = static_cast<int>(facts.build.of(Kind::fan).size());
  for (int model = 0; model < models; ++model) place_fans(facts, mounting, model, no_fans);
  return mounting;
}

}  // namespace rigproof::fit
