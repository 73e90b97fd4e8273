// Edges, hatched gaps, and the labels on them: a name stands inside its box where it can, a number
// hangs on a leader; what finds no room gets a letter or a number that the key explains.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.hpp"
#include "sheet/drawing_layout.hpp"

namespace rigproof::sheet {
namespace {

std::string letter(std::size_t index) {
  std::string out(1, static_cast<char>('a' + index % 26));
  return index < 26 ? out : out + std::to_string(index / 26);
}

std::string box_name(const fit::Box& box, bool known) {
  std::string name = short_text(box.name, 22);
  return known ? name : name + " ?";  // the dashes alone would be easy to miss
}

Stroke stroke_of(const fit::Box& box, const FlatBox& flat, bool hidden) {
  if (!flat.known) return Stroke::unplaced;
  if (box.use == fit::Use::bend) return Stroke::room;
  return hidden ? Stroke::hidden : Stroke::thick;
}

bool lies_on(const Segment& piece, const Segment& line) {
  constexpr double near_mm = 0.05;
  const bool level = piece.from.y_mm == piece.to.y_mm;
  if (level != (line.from.y_mm == line.to.y_mm)) return false;
  const auto at = [&](Point p) { return level ? p.y_mm : p.x_mm; };
  const auto along = [&](Point p) { return level ? p.x_mm : p.y_mm; };
  return std::abs(at(piece.from) - at(line.from)) < near_mm &&
         along(piece.from) > along(line.from) - near_mm &&
         along(piece.to) < along(line.to) + near_mm;
}

void put_leader(const Leader& leader, bool tight, Placer& placer, Picture& picture) {
  picture.marks.push_back({leader.line, Stroke::thin, tight});
  picture.marks.push_back({leader.shelf, Stroke::thin, tight});
  picture.spots.push_back({leader.line.from, tight});
  placer.take(leader);
}

// Up to two lines of text on one leader.
bool put_callout(Point anchor, const std::vector<Words>& lines, double reach_mm, Placer& placer,
                 Picture& picture) {
  double width = 0.0, height = 0.0;
  for (const Words& line : lines) {
    width = std::max(width, text_width_mm(line.text, line.em_mm));
    height += 1.1 * line.em_mm;
  }
  Leader leader;
  if (!placer.beside(anchor, {width, height + 0.3}, reach_mm, leader)) return false;
  const bool tight = lines.back().tone == Tone::tight;
  put_leader(leader, tight, placer, picture);
  double top = leader.text.top_mm;
  for (const Words& line : lines) {
    picture.words.push_back(line);
    picture.words.back().room = {leader.text.left_mm, top,
                                 leader.text.left_mm + text_width_mm(line.text, line.em_mm),
                                 top + 1.1 * line.em_mm - 0.05};
    top += 1.1 * line.em_mm;
  }
  return true;
}

bool put_inside(const Rect& room, const std::string& name, double em_mm, Placer& placer,
                Picture& picture) {
  const double width = text_width_mm(name, em_mm);
  for (const bool upright : {false, true}) {
    Words words{.text = name, .room = {}, .em_mm = em_mm, .upright = upright, .centered = true};
    const Point size = upright ? Point{em_mm, width} : Point{width, em_mm};
    if (!placer.inside(room, size, words.room)) continue;
    placer.keep_clear(words.room);
    picture.words.push_back(words);
    return true;
  }
  return false;
}

void put_gap_label(const fit::Scene& scene, std::size_t index, const ViewPlan& plan, Placer& placer,
                   Picture& picture) {
  const fit::Gap& gap = scene.gaps[index];
  const double em = plan.em_mm;
  const Tone tone = is_tight(gap) ? Tone::tight : Tone::strong;
  const Rect at = gap_rect(scene, gap, plan.flat.projection, em);
  const std::string name = short_text(gap_name(gap), 26), number = gap_words(gap);
  const auto words = [&](const std::string& text, Tone as) {
    return Words{.text = text, .room = {}, .em_mm = em, .tone = as};
  };
  const double reach = 14.0 * em;
  if (put_callout(at.middle(), {words(name, Tone::ink), words(number, tone)}, reach, placer,
                  picture))
    return;
  const std::string mark = letter(index);
  picture.key.push_back(mark + ": " + name + ", " + number);
  if (put_callout(at.middle(), {words(mark + "  " + number, tone)}, reach, placer, picture)) return;
  put_callout(at.middle(), {words(mark, tone)}, reach, placer, picture);
}

// Which part of a box's name goes on a leader: boxes of one name share one.
void put_names_on_leaders(const fit::Scene& scene, const ViewPlan& plan,
                          const std::vector<std::size_t>& todo, Placer& placer, Picture& picture) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<std::size_t>> by_name;
  for (const std::size_t i : todo) {
    const std::string name = box_name(scene.boxes[i], plan.flat.boxes[i].known);
    if (name.empty()) continue;
    if (by_name[name].empty()) order.push_back(name);
    by_name[name].push_back(i);
  }
  constexpr std::size_t most_leaders = 14;  // ours: more make a hedgehog of a drawing
  std::string list;
  for (std::size_t i = 0; i < order.size(); ++i) {
    const std::vector<std::size_t>& boxes = by_name[order[i]];
    const Rect& at = plan.flat.boxes[boxes.front()].at;
    const std::string name =
        boxes.size() > 1 ? fmt::format("{} \xC3\x97 {}", boxes.size(), order[i]) : order[i];
    const Words words{.text = name, .room = {}, .em_mm = plan.em_mm};
    if (order.size() <= most_leaders &&
        put_callout(at.middle(), {words}, 14.0 * plan.em_mm, placer, picture))
      continue;
    const std::string number = std::to_string(i + 1);
    const bool marked =
        put_inside(at, number, plan.em_mm, placer, picture) ||
        (order.size() <= most_leaders &&
         put_callout(at.middle(), {{.text = number, .room = {}, .em_mm = plan.em_mm}},
                     14.0 * plan.em_mm, placer, picture));
    list += fmt::format("{}{}{}", list.empty() ? "" : ", ", marked ? number + " " : "", name);
  }
  if (!list.empty()) picture.key.push_back("Names: " + list);
}

}  // namespace

bool is_tight(const fit::Gap& gap) {
  return gap.verdict == Verdict::thin || gap.verdict == Verdict::doubtful ||
         gap.verdict == Verdict::fails;
}

bool is_hatched(const fit::Scene& scene, std::size_t gap) {
  return gap < 2 || scene.gaps[gap].verdict != Verdict::holds;
}

std::string gap_name(const fit::Gap& gap) {
  std::string name = gap.claim_id.substr(gap.claim_id.find('.') + 1);
  std::ranges::replace(name, '-', ' ');
  return gap.where.empty() ? name : name + ", " + gap.where;
}

std::string gap_words(const fit::Gap& gap) {
  std::string out =
      readable(std::abs(gap.margin_mm)) + (gap.margin_mm < 0.0 ? " mm over" : " mm left");
  return gap.verdict == Verdict::unknown ? out + " ?" : out;
}

void put_edges(const fit::Scene& scene, const ViewPlan& plan, Placer& placer, Picture& picture) {
  for (const EdgePiece& edge : plan.flat.edges) {
    const Stroke stroke = stroke_of(scene.boxes[edge.box], plan.flat.boxes[edge.box], edge.hidden);
    if (stroke == Stroke::hidden &&
        std::ranges::any_of(plan.flat.edges, [&](const EdgePiece& other) {
          return !other.hidden && other.box != edge.box && lies_on(edge.line, other.line);
        }))
      continue;  // a visible line covers it
    picture.marks.push_back({edge.line, stroke});
    placer.keep_off(edge.line);
  }
}

void put_gaps(const fit::Scene& scene, const ViewPlan& plan, Placer& placer, Picture& picture) {
  for (std::size_t i = 0; i < scene.gaps.size(); ++i) {
    const fit::Gap& gap = scene.gaps[i];
    const ViewAxes& axes = plan.flat.projection.axes;
    if (gap.axis != axes.across && gap.axis != axes.up) continue;
    Rect r = gap_rect(scene, gap, plan.flat.projection, plan.em_mm);
    const bool tight = is_tight(gap);
    if (is_hatched(scene, i)) {
      for (const Segment& line : hatching(r, 0.9, false))
        picture.marks.push_back({line, Stroke::hatch, tight});
      if (gap.to_mm < gap.from_mm)  // crossed: two things in one place
        for (const Segment& line : hatching(r, 0.9, true))
          picture.marks.push_back({line, Stroke::hatch, tight});
    }
    const Stroke stroke = gap.verdict == Verdict::unknown ? Stroke::unsure : Stroke::gap;
    const bool is_across = gap.axis == axes.across;
    // The two edges that face each other; the open sides stay open.
    if (is_across) {
      picture.marks.push_back({{{r.left_mm, r.top_mm}, {r.left_mm, r.bottom_mm}}, stroke, tight});
      picture.marks.push_back({{{r.right_mm, r.top_mm}, {r.right_mm, r.bottom_mm}}, stroke, tight});
    } else {
      picture.marks.push_back({{{r.left_mm, r.top_mm}, {r.right_mm, r.top_mm}}, stroke, tight});
      picture.marks.push_back(
          {{{r.left_mm, r.bottom_mm}, {r.right_mm, r.bottom_mm}}, stroke, tight});
    }
    placer.keep_off(Segment{{r.left_mm, r.top_mm}, {r.right_mm, r.bottom_mm}});
    placer.keep_off(Segment{{r.left_mm, r.bottom_mm}, {r.right_mm, r.top_mm}});
  }
}

void put_labels(const fit::Scene& scene, const ViewPlan& plan, const Told& told, Placer& placer,
                Picture& picture) {
  std::vector<std::size_t> todo;
  // The smallest boxes have the least choice.
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < plan.flat.boxes.size(); ++i) order.push_back(i);
  std::ranges::stable_sort(order, {}, [&](std::size_t i) {
    return plan.flat.boxes[i].at.width_mm() * plan.flat.boxes[i].at.height_mm();
  });
  for (const std::size_t i : order)
    if (!put_inside(plan.flat.boxes[i].at, box_name(scene.boxes[i], plan.flat.boxes[i].known),
                    plan.em_mm, placer, picture))
      todo.push_back(i);
  for (const std::size_t index : told.gaps) put_gap_label(scene, index, plan, placer, picture);
  put_names_on_leaders(scene, plan, todo, placer, picture);
}

}  // namespace rigproof::sheet
