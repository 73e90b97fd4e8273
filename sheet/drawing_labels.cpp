// Edges, hatched gaps, and the labels on them: a name stands inside its box where it can, a number
// hangs on a leader; what finds no room gets a letter or a number that the key explains.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

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

bool put_inside(const Rect& room, const std::vector<Rect>& not_in, const std::string& name,
                double em_mm, Placer& placer, Picture& picture) {
  const double width = text_width_mm(name, em_mm);
  for (const bool upright : {false, true}) {
    Words words{.text = name, .room = {}, .em_mm = em_mm, .upright = upright, .centered = true};
    const Point size = upright ? Point{em_mm, width} : Point{width, em_mm};
    if (!placer.inside(room, not_in, size, words.room)) continue;
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
  const double reach = 18.0 * em;
  std::vector<Words> lines;
  for (const std::string& line : wrapped(name, em, 10.0 * em))
    lines.push_back(words(line, Tone::ink));
  lines.push_back(words(number, tone));
  if (put_callout(at.middle(), lines, reach, placer, picture)) return;
  const std::string mark = letter(index);
  picture.key.push_back(mark + ": " + name + ", " + number);
  if (put_callout(at.middle(), {words(mark + "  " + number, tone)}, reach, placer, picture)) return;
  put_callout(at.middle(), {words(mark, tone)}, reach, placer, picture);
}

double area(const Rect& rect) { return rect.width_mm() * rect.height_mm(); }

bool same_place(const Rect& a, const Rect& b) {
  return contains(grown(a, 0.1), b) && contains(grown(b, 0.1), a);
}

// Smaller boxes within reach: a name that stands in one of them would be taken for theirs.
std::vector<Rect> smaller_in(const std::vector<FlatBox>& boxes, const Rect& box) {
  std::vector<Rect> out;
  for (const FlatBox& other : boxes)
    if (overlap(other.at, box) && area(other.at) < area(box) && !same_place(other.at, box))
      out.push_back(other.at);
  return out;
}

// Where a leader ends: a point of the box that is in no smaller one and clear of other leaders'
// ends, the nearer to the middle the better; else on its upper edge.
Point anchor_in(const Rect& box, const std::vector<Rect>& smaller, const Picture& picture) {
  const Point middle = box.middle();
  Point best{middle.x_mm, box.top_mm};
  double best_mm = 1e300;
  constexpr int steps = 12;
  for (int iy = 1; iy < steps; ++iy)
    for (int ix = 1; ix < steps; ++ix) {
      const Point p{box.left_mm + box.width_mm() * ix / steps,
                    box.top_mm + box.height_mm() * iy / steps};
      const Rect spot{p.x_mm - 0.6, p.y_mm - 0.6, p.x_mm + 0.6, p.y_mm + 0.6};
      const double from_middle_mm = std::hypot(p.x_mm - middle.x_mm, p.y_mm - middle.y_mm);
      const auto covers = [&](const Rect& other) { return overlap(spot, other); };
      const auto crowds = [&](const Spot& other) {
        return overlap(grown(spot, 1.4),
                       {other.at.x_mm, other.at.y_mm, other.at.x_mm, other.at.y_mm});
      };
      if (from_middle_mm >= best_mm || std::ranges::any_of(smaller, covers) ||
          std::ranges::any_of(picture.spots, crowds))
        continue;
      best_mm = from_middle_mm;
      best = p;
    }
  return best;
}

// Boxes that share one label: of one name in one place, as three fans seen along their row.
struct Named {
  std::string name;
  std::size_t count = 1;
  Rect at;
};

std::vector<Named> named_boxes(const fit::Scene& scene, const ViewPlan& plan) {
  std::vector<Named> out;
  for (const FlatBox& box : plan.flat.boxes) {
    const std::string name = box_name(scene.boxes[box.box], box.known);
    const auto found = std::ranges::find_if(
        out, [&](const Named& n) { return n.name == name && same_place(n.at, box.at); });
    if (found != out.end())
      ++found->count;
    else if (!name.empty())
      out.push_back({name, 1, box.at});
  }
  // The smallest boxes have the least choice.
  std::ranges::stable_sort(out, {}, [](const Named& n) { return area(n.at); });
  return out;
}

std::string counted_name(const Named& named) {
  return named.count > 1 ? fmt::format("{} \xC3\x97 {}", named.count, named.name) : named.name;
}

// Equal things need one name: those that found no room beside one that did are passed over, and
// several without room share a leader.
std::vector<Named> still_unnamed(const std::vector<Named>& todo,
                                 const std::vector<std::string>& done) {
  std::vector<Named> out;
  for (const Named& each : todo) {
    if (std::ranges::find(done, each.name) != done.end()) continue;
    const auto same = std::ranges::find(out, each.name, &Named::name);
    if (same != out.end())
      same->count += each.count;
    else
      out.push_back(each);
  }
  return out;
}

void put_names_on_leaders(const ViewPlan& plan, const std::vector<Named>& todo, Placer& placer,
                          Picture& picture) {
  constexpr std::size_t most_leaders = 14;  // ours: more make a hedgehog of a drawing
  const bool few = todo.size() <= most_leaders;
  const auto words = [&](const std::string& text) {
    return Words{.text = text, .room = {}, .em_mm = plan.em_mm};
  };
  std::string list, unmarked;
  int number = 0;
  for (const Named& each : todo) {
    const std::vector<Rect> smaller = smaller_in(plan.flat.boxes, each.at);
    const Point anchor = anchor_in(each.at, smaller, picture);
    const double reach = 18.0 * plan.em_mm;
    if (few && put_callout(anchor, {words(counted_name(each))}, reach, placer, picture)) continue;
    const std::string mark = std::to_string(number + 1);
    const bool marked = put_inside(each.at, smaller, mark, plan.em_mm, placer, picture) ||
                        (few && put_callout(anchor, {words(mark)}, reach, placer, picture));
    if (marked) ++number;
    std::string& to = marked ? list : unmarked;
    to += (to.empty() ? "" : "; ") + (marked ? mark + ": " : "") + counted_name(each);
  }
  if (!list.empty()) picture.key.push_back(list);
  if (!unmarked.empty()) picture.key.push_back("Without a mark: " + unmarked);
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
    const std::array edges =
        is_across ? std::array{Segment{{r.left_mm, r.top_mm}, {r.left_mm, r.bottom_mm}},
                               Segment{{r.right_mm, r.top_mm}, {r.right_mm, r.bottom_mm}}}
                  : std::array{Segment{{r.left_mm, r.top_mm}, {r.right_mm, r.top_mm}},
                               Segment{{r.left_mm, r.bottom_mm}, {r.right_mm, r.bottom_mm}}};
    for (const Segment& edge : edges) {
      picture.marks.push_back({edge, stroke, tight});
      placer.keep_off(edge);
    }
    placer.keep_off(Segment{{r.left_mm, r.top_mm}, {r.right_mm, r.bottom_mm}});
    placer.keep_off(Segment{{r.left_mm, r.bottom_mm}, {r.right_mm, r.top_mm}});
  }
}

void put_labels(const fit::Scene& scene, const ViewPlan& plan, const Told& told, Placer& placer,
                Picture& picture) {
  std::vector<Named> todo;
  std::vector<std::string> done;
  for (const Named& each : named_boxes(scene, plan)) {
    if (put_inside(each.at, smaller_in(plan.flat.boxes, each.at), counted_name(each), plan.em_mm,
                   placer, picture))
      done.push_back(each.name);
    else
      todo.push_back(each);
  }
  for (const std::size_t index : told.gaps) put_gap_label(scene, index, plan, placer, picture);
  put_names_on_leaders(plan, still_unnamed(todo, done), placer, picture);
}

}  // namespace rigproof::sheet
