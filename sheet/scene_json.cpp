// Writes the scene key by key in the order of the schema.
#include "sheet/scene_json.hpp"

#include <array>

namespace rigproof::sheet {
namespace {

constexpr std::array axes = {fit::Axis::x, fit::Axis::y, fit::Axis::z};

const fit::Extent& extent(const fit::Box& box, fit::Axis axis) {
  return box.at.at(static_cast<std::size_t>(axis));
}

void put_numbers(JsonWriter& out, std::string_view name, const std::array<double, 3>& numbers) {
  out.key(name);
  out.begin_array();
  for (const double number : numbers) out.number(number);
  out.end_array();
}

void put_box(JsonWriter& out, const fit::Box& box) {
  out.begin_object();
  out.member("name", box.name);
  out.member("part", box.part_id);
  out.member("use", name_of(box.use));
  for (const fit::Axis axis : axes) {
    out.key(name_of(axis));
    out.begin_array();
    out.number(extent(box, axis).low_mm);
    out.number(extent(box, axis).high_mm);
    out.end_array();
  }
  out.key("placed");
  out.begin_array();
  for (const fit::Axis axis : axes) out.boolean(extent(box, axis).placed);
  out.end_array();
  out.key("sized");
  out.begin_array();
  for (const fit::Axis axis : axes) out.boolean(extent(box, axis).sized);
  out.end_array();
  out.end_object();
}

void put_gap(JsonWriter& out, const fit::Gap& gap) {
  out.begin_object();
  out.member("claim", gap.claim_id);
  out.member("where", gap.where);
  out.member("axis", name_of(gap.axis));
  out.member("from_mm", gap.from_mm);
  out.member("to_mm", gap.to_mm);
  put_numbers(out, "at_mm", gap.at_mm);
  out.member("value_mm", gap.value_mm);
  out.member("limit_mm", gap.limit_mm);
  out.member("margin_mm", gap.margin_mm);
  out.member("verdict", name_of(gap.verdict));
  out.end_object();
}

void put_dimension(JsonWriter& out, const fit::Dimension& dimension) {
  out.begin_object();
  out.member("text", dimension.text);
  out.member("axis", name_of(dimension.axis));
  out.member("from_mm", dimension.from_mm);
  out.member("to_mm", dimension.to_mm);
  out.member("plus_minus_mm", dimension.plus_minus_mm);
  put_numbers(out, "at_mm", dimension.at_mm);
  out.end_object();
}

}  // namespace

std::string_view name_of(fit::Use use) {
  constexpr std::array<std::string_view, 10> names = {
      "outline", "board", "memory", "card", "cooler", "radiator", "fan", "supply", "drive", "bend"};
  return names.at(static_cast<std::size_t>(use));
}

std::string_view name_of(fit::Axis axis) {
  constexpr std::array<std::string_view, 3> names = {"x", "y", "z"};
  return names.at(static_cast<std::size_t>(axis));
}

void write(JsonWriter& out, const fit::Scene& scene) {
  out.begin_object();
  out.member("schema", scene_schema);
  out.member("title", scene.title);
  put_numbers(out, "size_mm", scene.size_mm);
  out.key("boxes");
  out.begin_array();
  for (const fit::Box& box : scene.boxes) put_box(out, box);
  out.end_array();
  out.key("gaps");
  out.begin_array();
  for (const fit::Gap& gap : scene.gaps) put_gap(out, gap);
  out.end_array();
  out.key("dimensions");
  out.begin_array();
  for (const fit::Dimension& dimension : scene.dimensions) put_dimension(out, dimension);
  out.end_array();
  out.key("notes");
  out.begin_array();
  for (const std::string& note : scene.notes) out.text(note);
  out.end_array();
  out.end_object();
}

std::string scene_json(const fit::Scene& scene) {
  JsonWriter out;
  write(out, scene);
  return out.take();
}

}  // namespace rigproof::sheet
