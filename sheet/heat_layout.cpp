#include "sheet/heat_layout.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

#include "base/text.hpp"
#include "sheet/drawing_plane.hpp"
#include "sheet/physics_words.hpp"
#include "sheet/plot_bounds.hpp"

namespace rigproof::sheet {
namespace {

constexpr std::size_t most_places = 40, most_flows = 200, most_columns = 9;
constexpr double gap_px = 9.0;  ///< between what lies in one column

// Flows between places, by index; why not when they are not sound.
struct Links {
  std::string why_not;
  std::vector<HeatBand> bands;
};

Links links_of(const HeatPath& path) {
  Links out;
  if (path.places.size() > most_places || path.flows.size() > most_flows)
    return {"There are more places than a picture can tell apart.", {}};
  std::map<std::string_view, std::size_t> index;
  for (std::size_t i = 0; i < path.places.size(); ++i)
    if (!index.emplace(path.places[i].id, i).second)
      return {"Two places have the same id, so flows cannot be told apart.", {}};
  for (std::size_t i = 0; i < path.flows.size(); ++i) {
    const HeatFlow& flow = path.flows[i];
    if (!(flow.watts >= 0.0 && flow.watts <= most_power_w))
      return {"A flow of heat is not known, or runs backwards.", {}};
    const auto from = index.find(flow.from_id), to = index.find(flow.to_id);
    if (from == index.end() || to == index.end())
      return {"A flow of heat begins or ends at a place that is not named.", {}};
    if (flow.watts > 0.0) out.bands.push_back({i, from->second, to->second, flow.watts});
  }
  if (out.bands.empty()) return {"No heat flows.", {}};
  return out;
}

// The longest way from a source to each place; nothing when flows run in a circle.
std::vector<std::size_t> columns_of_places(const std::vector<HeatBand>& bands, std::size_t places) {
  std::vector<std::size_t> column(places, 0);
  for (std::size_t round = 0; round <= places; ++round) {
    bool moved = false;
    for (const HeatBand& band : bands)
      if (column[band.to] < column[band.from] + 1) {
        column[band.to] = column[band.from] + 1;
        moved = true;
      }
    if (!moved) return column;
  }
  return {};
}

void to_last_column(const HeatPath& path, const std::vector<HeatBand>& bands,
                    std::vector<std::size_t>& column) {
  const std::size_t last = std::ranges::max(column);
  for (std::size_t i = 0; i < column.size(); ++i)
    if (path.places[i].kind == HeatPlace::Kind::outside &&
        std::ranges::none_of(bands, [&](const HeatBand& band) { return band.from == i; }))
      column[i] = last;
}

// Bands from column to column only: a passing point in each column that a flow crosses.
void put_passing_points(HeatLayout& layout) {
  std::vector<HeatBand> pieces;
  for (HeatBand band : layout.bands) {
    const std::size_t end = band.to;
    for (std::size_t column = layout.nodes[band.from].column + 1; column < layout.nodes[end].column;
         ++column) {
      HeatNode point{.place = layout.nodes[band.from].place,
                     .passing = true,
                     .column = column,
                     .in_w = band.watts,
                     .out_w = band.watts,
                     .label = {}};
      layout.nodes.push_back(point);
      band.to = layout.nodes.size() - 1;
      pieces.push_back(band);
      band.from = band.to;
    }
    band.to = end;
    pieces.push_back(band);
  }
  layout.bands = std::move(pieces);
}

void put_labels(const HeatPath& path, const PlotForm& form, HeatLayout& layout) {
  const double width = layout.pitch_px - 5.0;  // from the bar to the next column
  for (HeatNode& node : layout.nodes) {
    if (node.passing) continue;
    const HeatPlace& place = path.places[node.place];
    node.label = wrapped(short_text(place.name, 60), 0.84 * form.text_px, width);
    if (node.label.size() > 2) {
      node.label.resize(2);
      node.label[1] += "\xE2\x80\xA6";
    }
    for (std::string& line : node.label) line = fitting(line, form.text_px, width);
    const std::string numbers = degrees(within(place.temp_c, most_temp_c));
    const std::string watts = readable(node.through_w()) + " W";
    std::string both = numbers;
    if (!both.empty()) both += ", ";
    both += watts;
    if (!numbers.empty() && plot_text_width(both, form.text_px) > width) {
      node.label.push_back(numbers);
      both = watts;
    }
    node.label.push_back(std::move(both));
    node.label_px = 1.2 * form.text_px * static_cast<double>(node.label.size()) + 3.0;
  }
}

double size_of(const HeatNode& node, const HeatLayout& layout) {
  return node.label_px + node.through_w() * layout.px_per_w;
}

double middle_of(const HeatNode& node, const HeatLayout& layout) {
  return node.top_px + node.through_w() * layout.px_per_w / 2;
}

std::vector<std::size_t> nodes_in(const HeatLayout& layout, std::size_t column) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < layout.nodes.size(); ++i)
    if (layout.nodes[i].column == column) out.push_back(i);
  return out;
}

double height_of(const HeatLayout& layout, const std::vector<std::size_t>& column) {
  double height = -gap_px;
  for (const std::size_t i : column) height += size_of(layout.nodes[i], layout) + gap_px;
  return height;
}

// The mean height, by watts, of what a node is fed from (or feeds).
double wanted_middle(const HeatLayout& layout, std::size_t node, bool from_before) {
  double sum = 0.0, watts = 0.0;
  for (const HeatBand& band : layout.bands) {
    if ((from_before ? band.to : band.from) != node) continue;
    sum += band.watts * middle_of(layout.nodes[from_before ? band.from : band.to], layout);
    watts += band.watts;
  }
  return watts > 0.0 ? sum / watts : middle_of(layout.nodes[node], layout);
}

// Orders a column by where its nodes want to be and puts them as near to it as labels allow.
void settle_column(HeatLayout& layout, std::size_t column, bool from_before) {
  std::vector<std::size_t> nodes = nodes_in(layout, column);
  // What wants to be at the same height keeps the order it has.
  std::ranges::stable_sort(nodes, {}, [&](std::size_t i) { return layout.nodes[i].top_px; });
  std::map<std::size_t, double> want;
  for (const std::size_t i : nodes) want[i] = wanted_middle(layout, i, from_before);
  std::ranges::stable_sort(nodes, {}, [&](std::size_t i) { return want[i]; });
  std::vector<double> tops, sizes;
  for (const std::size_t i : nodes) {
    const HeatNode& node = layout.nodes[i];
    sizes.push_back(size_of(node, layout));
    tops.push_back(want[i] - node.through_w() * layout.px_per_w / 2 - node.label_px);
  }
  const std::vector<double> placed = spread_out(tops, sizes, gap_px, 0.0, layout.height_px);
  for (std::size_t k = 0; k < nodes.size(); ++k)
    layout.nodes[nodes[k]].top_px = placed[k] + layout.nodes[nodes[k]].label_px;
}

void place_nodes(HeatLayout& layout) {
  double top = 0.0;
  for (const std::size_t i : nodes_in(layout, 0)) {
    layout.nodes[i].top_px = top + layout.nodes[i].label_px;
    top += size_of(layout.nodes[i], layout) + gap_px;
  }
  for (int round = 0; round < 3; ++round) {
    for (std::size_t column = 1; column < layout.columns; ++column)
      settle_column(layout, column, true);
    for (std::size_t column = layout.columns - 1; column-- > 0;)
      settle_column(layout, column, false);
  }
  for (std::size_t column = 1; column < layout.columns; ++column)
    settle_column(layout, column, true);
}

// At each node the bands lie side by side in the order of their other ends.
void place_bands(HeatLayout& layout) {
  for (const bool at_from : {true, false}) {
    std::vector<std::size_t> order(layout.bands.size());
    std::iota(order.begin(), order.end(), 0U);
    std::ranges::stable_sort(order, {}, [&](std::size_t i) {
      const HeatBand& band = layout.bands[i];
      return middle_of(layout.nodes[at_from ? band.to : band.from], layout);
    });
    std::vector<double> used(layout.nodes.size(), 0.0);
    for (const std::size_t i : order) {
      HeatBand& band = layout.bands[i];
      const std::size_t node = at_from ? band.from : band.to;
      (at_from ? band.from_px : band.to_px) = layout.nodes[node].top_px + used[node];
      used[node] += band.watts * layout.px_per_w;
    }
  }
}

HeatLayout columns_laid(const HeatPath& path, const PlotForm& form) {
  HeatLayout out;
  Links links = links_of(path);
  out.why_not = links.why_not;
  if (!out.why_not.empty()) return out;
  std::vector<std::size_t> column = columns_of_places(links.bands, path.places.size());
  if (column.empty())
    return {
        .why_not = "The flows run in a circle; they stand in the table.", .nodes = {}, .bands = {}};
  out.columns = std::ranges::max(column) + 1;
  if (out.columns > most_columns)
    return {
        .why_not = "The heat takes more steps than a picture can hold.", .nodes = {}, .bands = {}};
  to_last_column(path, links.bands, column);
  out.bands = std::move(links.bands);
  for (std::size_t i = 0; i < path.places.size(); ++i)
    out.nodes.push_back({.place = i, .column = column[i], .label = {}});
  for (const HeatBand& band : out.bands) {
    out.nodes[band.from].out_w += band.watts;
    out.nodes[band.to].in_w += band.watts;
  }
  out.pitch_px = form.width_px / static_cast<double>(out.columns);
  return out;
}

}  // namespace

double unaccounted_w(const HeatPlace& place, const HeatNode& node) {
  if (node.passing || place.kind == HeatPlace::Kind::source ||
      place.kind == HeatPlace::Kind::outside)
    return 0.0;
  const double rest = std::abs(node.in_w - node.out_w);
  return rest > 0.005 * node.through_w() ? rest : 0.0;
}

HeatLayout heat_layout(const HeatPath& path, const PlotForm& form) {
  HeatLayout out = columns_laid(path, form);
  if (!out.why_not.empty()) return out;
  put_passing_points(out);
  // Places no heat goes through take no room.
  for (HeatNode& node : out.nodes)
    if (node.through_w() == 0.0) node.column = out.columns;
  put_labels(path, form, out);
  double most_w = 0.0;
  for (std::size_t column = 0; column < out.columns; ++column) {
    double watts = 0.0;
    for (const std::size_t i : nodes_in(out, column)) watts += out.nodes[i].through_w();
    most_w = std::max(most_w, watts);
  }
  out.px_per_w = (form.names ? 230.0 : 150.0) / most_w;
  for (std::size_t column = 0; column < out.columns; ++column)
    out.height_px = std::max(out.height_px, height_of(out, nodes_in(out, column)));
  for (HeatNode& node : out.nodes) node.left_px = out.pitch_px * static_cast<double>(node.column);
  place_nodes(out);
  place_bands(out);
  return out;
}

}  // namespace rigproof::sheet
