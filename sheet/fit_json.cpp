// `rigproof fit --json`: docs/schema/fit.schema.json.
#include "sheet/fit_answer.hpp"
#include "sheet/json_pieces.hpp"
#include "sheet/scene_json.hpp"

namespace rigproof::sheet {
namespace {

void write_seat(JsonWriter& out, const Seat& seat) {
  out.begin_object();
  if (!seat.mount.empty()) out.member("mount", seat.mount);
  out.member("what", seat.what);
  out.member("part", seat.part_id);
  out.member("by_author", seat.by_author);
  out.end_object();
}

void write_standoffs(JsonWriter& out, const fit::StandoffPlan& plan) {
  out.begin_object();
  out.member("known", plan.known);
  if (!plan.why_not.empty()) out.member("why_not", plan.why_not);
  out.member("used", plan.used);
  out.member("if_holed", plan.if_holed);
  out.member("must_be_empty", plan.must_be_empty);
  out.member("beyond_board", plan.beyond_board);
  out.member("shared", plan.shared);
  out.member("doubtful", plan.doubtful);
  member(out, "notes", plan.notes);
  out.end_object();
}

void write_fastener(JsonWriter& out, const fit::FastenerLine& line) {
  out.begin_object();
  out.member("what_for", line.what_for);
  out.member("part", line.part_id);
  if (line.count) {
    out.member("at_least", line.count->low);
    out.member("at_most", line.count->high);
  }
  if (!line.kind.empty()) out.member("kind", line.kind);
  out.member("known", fit::name_of(line.known));
  if (!line.note.empty()) out.member("note", line.note);
  out.end_object();
}

void write_to_measure(JsonWriter& out, const ToMeasure& cell) {
  out.begin_object();
  if (!cell.part.empty()) out.member("part", cell.part);
  out.member("meaning", cell.meaning);
  out.member("table", cell.table);
  out.member("row", cell.row);
  out.member("column", cell.column);
  out.member("now", cell.now);
  member(out, "claims", cell.claims);
  out.end_object();
}

template <class T, class Write>
void list(JsonWriter& out, std::string_view name, const std::vector<T>& values, Write write_one) {
  out.key(name);
  out.begin_array();
  for (const T& value : values) write_one(out, value);
  out.end_array();
}

}  // namespace

std::string fit_json(const Fit& fit) {
  JsonWriter out;
  out.begin_object();
  out.member("schema", fit_schema);
  out.member("build", fit.build);
  if (!fit.chassis.empty()) out.member("case", fit.chassis);
  list(out, "seats", fit.seats, write_seat);
  member(out, "claims", fit.claims);
  out.key("standoffs");
  write_standoffs(out, fit.standoffs);
  list(out, "fasteners", fit.fasteners, write_fastener);
  list(out, "to_measure", fit.to_measure, write_to_measure);
  out.key("scene");
  write(out, fit.scene);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::sheet
