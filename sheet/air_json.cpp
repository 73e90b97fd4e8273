// `rigproof air --json`: docs/schema/air.schema.json.
#include "sheet/air_answer.hpp"
#include "sheet/json_pieces.hpp"

namespace rigproof::sheet {

// Found through the writer they are given, by the templates of json_pieces.hpp.

static void write(JsonWriter& out, const AirPart& part) {
  out.begin_object();
  out.member("what", part.what);
  member(out, "temperature", part.temp_c);
  out.member("power_w", part.power_w);
  out.member("asked_w", part.asked_w);
  member(out, "lost", part.lost_percent);
  out.end_object();
}

static void write(JsonWriter& out, const AirFollower& follower) {
  out.begin_object();
  out.member("what", follower.what);
  member(out, "temperature", follower.temp_c);
  out.end_object();
}

static void write(JsonWriter& out, const AirWarm& warm) {
  out.begin_object();
  out.member("what", warm.what);
  member(out, "warm", warm.warm_s);
  member(out, "rest", warm.rest_s);
  if (warm.slows_after_s) out.member("slows_after_s", *warm.slows_after_s);
  out.end_object();
}

static void write(JsonWriter& out, const AirSource& source) {
  out.begin_object();
  out.member("what", source.what);
  member(out, "level", source.level_dba);
  out.end_object();
}

static void write(JsonWriter& out, const AirApart& apart) {
  out.begin_object();
  out.member("speed_percent", apart.speed_percent);
  out.member("cooler_speed_percent", apart.cooler_speed_percent);
  member(out, "noise", apart.noise_dba);
  out.end_object();
}

static void write(JsonWriter& out, const AirInlet& inlet) {
  out.begin_object();
  out.member("where", inlet.where);
  out.member("flow_m3_h", inlet.flow_m3_h);
  out.member("filtered", inlet.filtered);
  out.end_object();
}

static void write(JsonWriter& out, const AirLoad& load) {
  out.begin_object();
  out.member("load", load.load);
  out.member("known", load.known);
  if (load.known) {
    out.member("speed_percent", load.speed_percent);
    out.member("cooler_speed_percent", load.cooler_speed_percent);
    out.member("speed_from", load.speed_set ? "set" : load.speed_found ? "least" : "full");
    if (!load.held_by.empty()) out.member("held_by", load.held_by);
    member(out, "apart", load.apart);
    member(out, "parts", load.parts);
    member(out, "followers", load.followers);
    member(out, "warm", load.warm);
    out.member("upper_c", load.upper_c);
    member(out, "lower_c", load.lower_c);
    member(out, "exhaust", load.exhaust_c);
    out.member("through_m3_h", load.through_m3_h);
    if (load.changes_per_minute > 0.0) out.member("changes_per_minute", load.changes_per_minute);
    out.member("pressure_pa", load.pressure_pa);
    out.member("by_fans_percent", load.by_fans_percent);
    member(out, "inlets", load.inlets);
    out.member("stalled", load.stalled);
    out.member("blown_backwards", load.blown_backwards);
    member(out, "sources", load.sources);
    member(out, "noise", load.noise_dba);
    member(out, "noise_with_room", load.with_room_dba);
  }
  out.end_object();
}

std::string air_json(const Air& air) {
  JsonWriter out;
  out.begin_object();
  out.member("schema", air_schema);
  out.member("build", air.build);
  if (!air.brief.empty()) out.member("brief", air.brief);
  out.member("room_c", air.room_c);
  out.member("distance_m", air.distance_m);
  member(out, "loads", air.loads);
  member(out, "claims", air.claims);
  member(out, "missing", air.missing);
  if (!air.work.empty()) member(out, "work", air.work);
  member(out, "notes", air.notes);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::sheet
