#include "sheet/answers_json.hpp"

#include "sheet/json_pieces.hpp"

namespace rigproof::sheet {
namespace {

void begin(JsonWriter& out, const char* schema, const std::string& status, const Asked& asked) {
  out.begin_object();
  out.member("schema", schema);
  out.member("status", status);
  out.member("brief", asked.brief_name);
  out.member("brief_file", asked.brief_file);
  out.member("as_of", to_string(asked.as_of));
  out.member("market", asked.market);
}

}  // namespace

void write(JsonWriter& out, const MovedPart& part) {
  out.begin_object();
  out.member("id", part.id);
  out.member("name", part.name);
  out.member("count", part.count);
  member(out, "price", part.price);
  if (!part.note.empty()) out.member("note", part.note);
  out.end_object();
}

void write(JsonWriter& out, const SlotChange& change) {
  out.begin_object();
  out.member("kind", change.kind);
  member(out, "out", change.out);
  member(out, "in", change.in);
  out.member("swaps", change.swaps);
  out.end_object();
}

void write(JsonWriter& out, const TitleChange& title) {
  out.begin_object();
  out.member("title", title.id);
  out.member("name", title.name);
  out.member("target_fps", title.target_fps);
  member(out, "from_fps", title.from_fps);
  member(out, "to_fps", title.to_fps);
  out.end_object();
}

void write(JsonWriter& out, const FrontierStep& step) {
  const PlannedBuild& build = step.build;
  out.begin_object();
  if (!build.prices.empty()) member(out, "price", build.prices.front());
  member(out, "covers_to", step.covers_to);
  member(out, "score", build.score);
  member(out, "gain", step.gain);
  member(out, "per_50", step.per_50);
  out.key("prices");
  write_prices(out, build.markets, build.prices);
  out.key("parts");
  write_parts(out, build.parts);
  member(out, "titles", build.titles);
  member(out, "odds_all_hold", build.odds_all_hold);
  out.member("thin", step.thin);
  out.member("unknown", step.unknown);
  member(out, "changes", step.slots);
  member(out, "title_changes", step.titles);
  out.end_object();
}

std::string frontier_json(const Frontier& frontier) {
  JsonWriter out;
  begin(out, frontier_schema, frontier.status, frontier.asked);
  member(out, "from", frontier.from);
  member(out, "to", frontier.to);
  member(out, "counted_from", frontier.counted_from);
  member(out, "steps", frontier.steps);
  member(out, "least_price", frontier.least_price);
  member(out, "runs_out_at", frontier.runs_out_at);
  member(out, "other_budgets_cost", frontier.other_budgets_cost);
  out.member("searches", frontier.searches);
  out.member("nodes", frontier.nodes);
  member(out, "notes", frontier.notes);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::sheet
