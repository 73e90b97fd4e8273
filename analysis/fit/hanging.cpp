#include "analysis/fit/hanging.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/fit/room.hpp"

namespace rigproof::fit {
namespace {

const Chosen& model_of(const Facts& facts, const FanGroup& group) {
  return facts.build.of(Kind::fan)[static_cast<std::size_t>(group.model)];
}

// The most of one cell over the added fans on the mount.
Draws over_fans(const Facts& facts, const Hanging& hung, Row mount, ColumnId cell, Measure& m) {
  Draws most;
  for (const FanGroup& group : hung.mounting.groups())
    if (group.mount == mount)
      most = Draws::larger(most, m.read(facts, cell, model_of(facts, group).row));
  return most;
}

// How wide it is across the mount: as wide as its fans. Of a radiator both are its cooler's.
Draws width_mm(const Facts& facts, const Hanging& hung, Row mount, Measure& m) {
  if (mount == hung.mounting.radiator)
    return m.read(facts, column("cooler", "fan_mm"), facts.build.one(Kind::cooler));
  return over_fans(facts, hung, mount, column("fan", "size_mm"), m);
}

}  // namespace

Hanging hanging(const Facts& facts) {
  Hanging out{.mounting = choose_mounting(facts)};
  const auto add = [&](Row mount) {
    if (mount == no_row || facts.catalog.word(column("case_mounts", "face"), mount) != "top")
      return;
    const auto known = std::span(out.mounts).first(static_cast<std::size_t>(out.count));
    if (std::ranges::find(known, mount) != known.end() || out.count == most_mounts) return;
    out.mounts[static_cast<std::size_t>(out.count++)] = mount;
  };
  add(out.mounting.radiator);
  for (const FanGroup& group : out.mounting.groups()) add(group.mount);
  return out;
}

Draws hanging_depth_mm(const Facts& facts, const Hanging& hung, Row mount, Measure& m) {
  if (mount == hung.mounting.radiator) return radiator_stack_mm(facts, m);
  return over_fans(facts, hung, mount, column("fan", "thickness_mm"), m);
}

Draws room_beside_mm(const Facts& facts, const Hanging& hung, Row mount, Measure& m) {
  Draws room = m.read(facts, column("case_mounts", "middle_from_board_mm"), mount);
  room -= width_mm(facts, hung, mount, m) * 0.5;  // absent if either is
  return room;
}

void add_hanging_parts(const Facts& facts, const Hanging& hung, Row mount,
                       std::vector<PartRef>& subjects) {
  if (mount == hung.mounting.radiator)
    subjects.push_back({Kind::cooler, facts.build.one(Kind::cooler)});
  for (const FanGroup& group : hung.mounting.groups())
    if (group.mount == mount) subjects.push_back({Kind::fan, model_of(facts, group).row});
}

std::string hanging_words(const Facts& facts, const Hanging& hung, Row mount) {
  if (mount != hung.mounting.radiator) return "What the added fans take";
  return fmt::format("The radiator of {} with its fans",
                     facts.catalog.name({Kind::cooler, facts.build.one(Kind::cooler)}));
}

bool Way::holds() const {
  if (wanting()) return false;
  if (value.spans() || limit.spans()) return value.high() <= limit.low();
  return verdict_of(static_cast<int>(Draws::at_most(value, limit).count())) == Verdict::holds;
}

const Way* way_past(const Way& first, const Way& second) {
  if (first.holds()) return &first;
  const bool more_room =
      !second.wanting() &&
      (second.holds() || (!first.wanting() && second.room_mm() > first.room_mm()));
  if (more_room) return &second;
  return first.wanting() || second.wanting() ? nullptr : &first;
}

}  // namespace rigproof::fit
