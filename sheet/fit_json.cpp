// `rigproof fit --json`: docs/schema/fit.schema.json.
#include "sheet/answers_json.hpp"
#include "sheet/fit_answer.hpp"
#include "sheet/json_pieces.hpp"
#include "sheet/scene_json.hpp"

namespace rigproof::sheet {

// Found through the writer they are given, by the templates of json_pieces.hpp.

static void write(JsonWriter& out, const Seat& seat) {
  out.begin_object();
  if (!seat.mount.empty()) out.member("mount", seat.mount);
  out.member("what", seat.what);
  out.member("part", seat.part_id);
  if (!seat.wished.empty()) out.member("wished", seat.wished);
  if (seat.displaced_fans > 0) out.member("displaced_fans", seat.displaced_fans);
  out.end_object();
}

static void write(JsonWriter& out, const fit::StandoffPlan& plan) {
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

static void write(JsonWriter& out, const fit::FastenerLine& line) {
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

static void write(JsonWriter& out, const ToMeasure& entry) {
  out.begin_object();
  member(out, "cell", entry.cell);
  member(out, "claims", entry.claims);
  out.end_object();
}

static void write(JsonWriter& out, const MeasuredHere& here) {
  out.begin_object();
  member(out, "cell", here.cell);
  out.member("now", here.now);
  out.member("was", here.was);
  out.member("read", here.read);
  out.end_object();
}

std::string fit_json(const Fit& fit) {
  JsonWriter out;
  out.begin_object();
  out.member("schema", fit_schema);
  out.member("build", fit.build);
  if (!fit.brief.empty()) out.member("brief", fit.brief);
  if (!fit.chassis.empty()) out.member("case", fit.chassis);
  member(out, "seats", fit.seats);
  member(out, "claims", fit.claims);
  member(out, "standoffs", fit.standoffs);
  member(out, "fasteners", fit.fasteners);
  member(out, "to_measure", fit.to_measure);
  member(out, "measured", fit.measured);
  member(out, "turned", fit.turned);
  member(out, "scene", fit.scene);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::sheet
