#include "analysis/fit/layout_gaps.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace rigproof::fit {
namespace {

std::size_t z(Axis axis) { return static_cast<std::size_t>(axis); }

// Of which box a claim measures what, along which axis, and from which plane its room is counted.
struct Reading {
  std::string_view claim_id;
  Use use;
  Axis axis;
  bool upwards = true;  ///< the room is counted from 0 upwards; else from the box's upper edge down
};
constexpr std::array readings = {
    Reading{"fit.card-length", Use::card, Axis::x},
    Reading{"fit.card-height", Use::card, Axis::y},
    Reading{"fit.card-thickness", Use::card, Axis::z, false},
    Reading{"fit.cooler-height", Use::cooler, Axis::y},
    Reading{"fit.supply-length", Use::supply, Axis::x},
    Reading{"fit.memory-height", Use::memory, Axis::y},
};

const Box* find_box(const Scene& scene, Use use) {
  const auto found = std::ranges::find(scene.boxes, use, &Box::use);
  return found == scene.boxes.end() ? nullptr : &*found;
}

double middle(const Extent& extent) { return 0.5 * (extent.low_mm + extent.high_mm); }

std::array<double, 3> middle_of(const Box& box) {
  return {middle(box.at[0]), middle(box.at[1]), middle(box.at[2])};
}

// A claim that compares two lengths.
struct Lengths {
  const Claim& claim;
  double value_mm, limit_mm, margin_mm;
};
std::optional<Lengths> lengths_of(const Claim& claim) {
  if (!claim.value || !claim.limit || !claim.margin || !claim.value->text.empty()) return {};
  return Lengths{.claim = claim,
                 .value_mm = claim.value->value,
                 .limit_mm = claim.limit->value,
                 .margin_mm = claim.margin->value};
}

Gap gap_of(const Lengths& lengths, const Box& box, Axis axis, double from_mm, double to_mm) {
  Gap gap{.claim_id = lengths.claim.id,
          .where = lengths.claim.where,
          .axis = axis,
          .from_mm = from_mm,
          .to_mm = to_mm,
          .at_mm = middle_of(box),
          .value_mm = lengths.value_mm,
          .limit_mm = lengths.limit_mm,
          .margin_mm = lengths.margin_mm,
          .verdict = lengths.claim.verdict};
  gap.at_mm[z(axis)] = 0.5 * (from_mm + to_mm);
  return gap;
}

// Of what hangs from the claim's mount, that which hangs lowest; the case's own fans are not
// judged.
const Box* lowest_on_mount(const Claim& claim, const Scene& scene) {
  const Box* lowest = nullptr;
  for (const Box& box : scene.boxes) {
    if (box.mount.empty() || box.mount != claim.where || box.part_id == scene.boxes.front().part_id)
      continue;
    if (lowest == nullptr || box.at[z(Axis::z)].low_mm < lowest->at[z(Axis::z)].low_mm)
      lowest = &box;
  }
  return lowest;
}

// (T9) says which of its two ways it took by what it compares: a depth, or a height beside.
void add_over_board(const CaseFrame& frame, const Lengths& lengths, Scene& scene) {
  const Box* const hung = lowest_on_mount(lengths.claim, scene);
  if (hung == nullptr) return;
  const Extent& up = hung->at[z(Axis::z)];
  const bool above = std::fabs(lengths.value_mm - (up.high_mm - up.low_mm)) < 0.5 &&
                     std::fabs(lengths.limit_mm - (up.high_mm - frame.board_top.at_mm)) < 0.5;
  if (above) {
    scene.gaps.push_back(gap_of(lengths, *hung, Axis::z, frame.board_top.at_mm, up.low_mm));
    return;
  }
  const Box* const memory = find_box(scene, Use::memory);
  if (memory == nullptr) return;
  scene.gaps.push_back(gap_of(lengths, *memory, Axis::y, lengths.value_mm, lengths.limit_mm));
}

// (T12) likewise: a depth over the cooler's edge, or its height beside.
void add_over_cooler(const Lengths& lengths, Scene& scene) {
  const Box* const hung = lowest_on_mount(lengths.claim, scene);
  const Box* const cooler = find_box(scene, Use::cooler);
  if (hung == nullptr || cooler == nullptr) return;
  const double from_mm = cooler->at[z(Axis::z)].high_mm;
  const double to_mm = hung->at[z(Axis::z)].low_mm;
  const bool over = std::fabs(to_mm - from_mm - lengths.margin_mm) < 0.5;
  scene.gaps.push_back(over
                           ? gap_of(lengths, *cooler, Axis::z, from_mm, to_mm)
                           : gap_of(lengths, *cooler, Axis::y, lengths.value_mm, lengths.limit_mm));
}

void add_plug_room(const Lengths& lengths, Scene& scene) {
  const Box* const bend = find_box(scene, Use::bend);
  const Box* const card = find_box(scene, Use::card);
  if (bend == nullptr || card == nullptr) return;
  const bool at_end = bend->at[z(Axis::x)].low_mm >= card->at[z(Axis::x)].high_mm;
  scene.gaps.push_back(
      gap_of(lengths, *bend, at_end ? Axis::x : Axis::y, lengths.value_mm, lengths.limit_mm));
}

double frac_left(const Gap& gap) {
  return gap.limit_mm > 0.0 ? gap.margin_mm / gap.limit_mm : gap.margin_mm;
}

}  // namespace

void add_gaps(const CaseFrame& frame, std::span<const Claim> claims, Scene& scene) {
  for (const Claim& claim : claims) {
    const auto lengths = lengths_of(claim);
    if (!lengths || !claim.id.starts_with("fit.")) continue;
    if (claim.id == "fit.over-board") add_over_board(frame, *lengths, scene);
    if (claim.id == "fit.over-cooler") add_over_cooler(*lengths, scene);
    if (claim.id == "fit.plug-room") add_plug_room(*lengths, scene);
    for (const Reading& reading : readings) {
      if (reading.claim_id != claim.id) continue;
      const Box* const box = find_box(scene, reading.use);
      if (box == nullptr) continue;
      const double upper_mm = box->at[z(reading.axis)].high_mm;
      scene.gaps.push_back(
          reading.upwards
              ? gap_of(*lengths, *box, reading.axis, lengths->value_mm, lengths->limit_mm)
              : gap_of(*lengths, *box, reading.axis, upper_mm - lengths->limit_mm,
                       upper_mm - lengths->value_mm));
    }
  }
  std::ranges::stable_sort(scene.gaps, {}, frac_left);
}

void add_dimensions(Scene& scene) {
  const Box* const outline = find_box(scene, Use::outline);
  if (outline == nullptr) return;
  const auto add = [&](const char* text, const Box& box, Axis axis) {
    const Extent& extent = box.at[z(axis)];
    if (!extent.sized || !(extent.high_mm > extent.low_mm)) return;
    scene.dimensions.push_back({.text = text,
                                .axis = axis,
                                .from_mm = extent.low_mm,
                                .to_mm = extent.high_mm,
                                .plus_minus_mm = 0.0,
                                .at_mm = middle_of(box)});
  };
  for (const Axis axis : {Axis::x, Axis::y, Axis::z}) add("case", *outline, axis);
  if (const Box* const card = find_box(scene, Use::card)) {
    add("card", *card, Axis::x);
    add("card", *card, Axis::y);
    add("card", *card, Axis::z);
  }
  if (const Box* const cooler = find_box(scene, Use::cooler)) add("cooler", *cooler, Axis::y);
  if (const Box* const memory = find_box(scene, Use::memory)) add("memory", *memory, Axis::y);
  if (const Box* const supply = find_box(scene, Use::supply)) add("supply", *supply, Axis::x);
}

}  // namespace rigproof::fit
