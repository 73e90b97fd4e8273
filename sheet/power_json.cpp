// `rigproof power --json`: docs/schema/power.schema.json.
#include "sheet/json_pieces.hpp"
#include "sheet/power_answer.hpp"

namespace rigproof::sheet {

// Found through the writer they are given, by the templates of json_pieces.hpp.

// Without a number where it is not known: places stay those of `loads`.
static void write(JsonWriter& out, const std::optional<Quantity>& quantity) {
  if (quantity) return write(out, *quantity);
  out.begin_object();
  out.end_object();
}

static void write(JsonWriter& out, const PowerPart& part) {
  out.begin_object();
  out.member("what", part.part);
  out.member("part", part.part_id);
  member(out, "by_load", part.by_load);
  out.end_object();
}

static void write(JsonWriter& out, const PowerWall& wall) {
  out.begin_object();
  if (!wall.where.empty()) out.member("market", wall.where);
  out.member("mains", wall.mains);
  out.member("mains_stated", wall.mains_stated);
  if (wall.kwh_price) out.member("kwh_price", *wall.kwh_price);
  member(out, "by_load", wall.by_load);
  out.key("only_bounded");
  out.begin_array();
  for (const bool bound : wall.bound) out.boolean(bound);
  out.end_array();
  if (wall.kwh_per_year) member(out, "kwh_per_year", *wall.kwh_per_year);
  if (wall.cost_per_year) member(out, "cost_per_year", *wall.cost_per_year);
  if (wall.cost_beside_other) member(out, "cost_beside_other", *wall.cost_beside_other);
  member(out, "odds_cheaper", wall.odds_cheaper);
  out.end_object();
}

static void write(JsonWriter& out, const PowerPlug& plug) {
  out.begin_object();
  out.member("plug", plug.plug);
  out.member("feeds", plug.feeds);
  if (plug.contact) member(out, "contact", *plug.contact);
  out.member("contact_at_most_a", plug.contact_at_most_a);
  if (plug.drop_v) member(out, "drop", *plug.drop_v);
  if (plug.loss_w) member(out, "loss", *plug.loss_w);
  out.end_object();
}

std::string power_json(const Power& power) {
  JsonWriter out;
  out.begin_object();
  out.member("schema", power_schema);
  out.member("build", power.build);
  if (!power.brief.empty()) out.member("brief", power.brief);
  if (!power.other.empty()) out.member("beside", power.other);
  if (!power.supply.empty()) out.member("supply", power.supply);
  member(out, "loads", power.loads);
  member(out, "parts", power.parts);
  member(out, "sums", power.sums);
  member(out, "share_of_rating", power.share_frac);
  member(out, "walls", power.walls);
  member(out, "plugs", power.plugs);
  member(out, "claims", power.claims);
  if (!power.work.empty()) member(out, "work", power.work);
  member(out, "notes", power.notes);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::sheet
