// What a drawing is made of before it is written, and the steps that lay it out: edges, dimensions,
// gaps, names. Every step enters what it puts on the paper into the placer of the next ones.
#pragma once

#include <string>
#include <vector>

#include "sheet/drawing_view.hpp"

namespace rigproof::sheet {

enum class Stroke { thick, thin, hidden, unplaced, room, hatch, gap, unsure };
enum class Tone { ink, soft, tight, strong };

struct Mark {
  Segment line;
  Stroke stroke = Stroke::thin;
  bool tight = false;
};

struct Tip {  ///< an arrowhead
  Point at;
  Point along;  ///< unit vector in which it points
  bool tight = false;
};

struct Spot {  ///< the end of a leader on a surface
  Point at;
  bool tight = false;
};

struct Words {
  std::string text;  ///< cleaned, not escaped
  Rect room;         ///< as it lies on the paper
  double em_mm = 3.2;
  Tone tone = Tone::ink;
  bool upright = false;   ///< turned to be read from the right
  bool centered = false;  ///< in its room; else from its start
};

struct Picture {
  std::vector<Mark> marks;
  std::vector<Tip> tips;
  std::vector<Spot> spots;
  std::vector<Words> words;
  std::vector<std::string> key;  ///< lines that explain letters and numbers of the picture
};

/// What of the scene a view tells in numbers; hatching shows in every view.
struct Told {
  std::vector<std::size_t> gaps;        ///< indexes
  std::vector<std::size_t> dimensions;  ///< indexes
};
/// All that lies in the view's plane.
[[nodiscard]] Told all_of(const fit::Scene& scene, View view);

struct ViewPlan {  ///< where a view lies on its paper
  Flat flat;
  Rect outline;  ///< of all that is drawn in true size
  Rect field;    ///< labels stay inside
  double em_mm = 3.2;
};

/// `4 mm left`, `2 mm over`.
[[nodiscard]] std::string gap_words(const fit::Gap& gap);
/// `card length`, `cooler memory, nearest socket`.
[[nodiscard]] std::string gap_name(const fit::Gap& gap);
/// `card 321 ±2`.
[[nodiscard]] std::string dimension_words(const fit::Dimension& dimension);
/// Shown in the accent: computed, and not sure to hold.
[[nodiscard]] bool is_tight(const fit::Gap& gap);
/// Hatched: tight or unknown, or one of the two nearest to failing.
[[nodiscard]] bool is_hatched(const fit::Scene& scene, std::size_t gap);

/// Space between the outline and the first dimension line, and from one to the next.
[[nodiscard]] double dimension_step_mm(double em_mm);

void put_edges(const fit::Scene& scene, const ViewPlan& plan, Placer& placer, Picture& picture);
void put_dimensions(const fit::Scene& scene, const ViewPlan& plan, const Told& told, Placer& placer,
                    Picture& picture);
void put_gaps(const fit::Scene& scene, const ViewPlan& plan, Placer& placer, Picture& picture);
/// After put_gaps: names and numbers.
void put_labels(const fit::Scene& scene, const ViewPlan& plan, const Told& told, Placer& placer,
                Picture& picture);

/// All of a view.
[[nodiscard]] Picture lay_out(const fit::Scene& scene, const ViewPlan& plan, const Told& told);

/// The picture with its views, gaps and the like in words, for who cannot see it.
[[nodiscard]] std::string drawing_in_words(const fit::Scene& scene);

/// The smallest rectangle around all marks and words; `empty` when there are none.
[[nodiscard]] Rect bounds_of(const Picture& picture, const Rect& empty);

/// A line of text that begins at `at`, its top left corner.
[[nodiscard]] Words words_at(Point at, std::string text, double em_mm, Tone tone = Tone::ink);

/// A coordinate as it is written: hundredths of a millimetre.
[[nodiscard]] std::string coordinate(double mm);

/// SVG elements of the picture, moved by `shift`.
[[nodiscard]] std::string svg_of(const Picture& picture, Point shift);
/// `<svg ...><title/><desc/>` and, for a file of its own, style and paper.
struct SvgHead {
  double width_mm = 0.0, height_mm = 0.0, em_mm = 3.2;
  bool standalone = false;
  std::string id;
  std::string title, description;
};
[[nodiscard]] std::string svg_head(const SvgHead& head);

}  // namespace rigproof::sheet
