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

void write(JsonWriter& out, const BudgetRange& range) {
  out.begin_object();
  member(out, "from", range.from);
  member(out, "to", range.to);
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

namespace {

// What a claim says of one of two builds.
void write_standing(JsonWriter& out, const Claim& claim) {
  out.begin_object();
  out.member("verdict", name_of(claim.verdict));
  member(out, "value", claim.value);
  member(out, "limit", claim.limit);
  member(out, "margin", claim.margin);
  member(out, "margin_frac", claim.margin_frac);
  member(out, "odds", claim.odds);
  out.end_object();
}

}  // namespace

void write(JsonWriter& out, const ClaimChange& change) {
  const Claim& either = either_of(change);
  out.begin_object();
  out.member("id", either.id);
  out.member("where", either.where);
  out.member("load", either.load);
  if (change.from) {
    out.key("from");
    write_standing(out, *change.from);
  }
  if (change.to) {
    out.key("to");
    write_standing(out, *change.to);
  }
  out.end_object();
}

void write(JsonWriter& out, const Differences& differences) {
  out.begin_object();
  member(out, "score_change", differences.score_change);
  if (!differences.price_changes.empty()) {
    out.key("price_changes");
    write_prices(out, differences.markets, differences.price_changes);
  }
  out.member("swaps", differences.swaps);
  member(out, "changes", differences.slots);
  member(out, "title_changes", differences.titles);
  member(out, "claim_changes", differences.claims);
  out.end_object();
}

void write(JsonWriter& out, const Wrong& wrong) {
  out.begin_object();
  out.member("what", wrong.what);
  out.member("id", wrong.id);
  out.member("says", wrong.says);
  if (wrong.line > 0) out.member("line", wrong.line);
  member(out, "claim", wrong.claim);
  out.end_object();
}

std::string frontier_json(const Frontier& frontier) {
  JsonWriter out;
  begin(out, frontier_schema, frontier.status, frontier.asked);
  member(out, "from", frontier.from);
  member(out, "to", frontier.to);
  member(out, "counted_from", frontier.counted_from);
  member(out, "steps", frontier.steps);
  if (!frontier.unsettled.empty()) member(out, "unsettled", frontier.unsettled);
  member(out, "least_price", frontier.least_price);
  member(out, "nine_tenths_at", frontier.nine_tenths_at);
  member(out, "runs_out_at", frontier.runs_out_at);
  member(out, "other_budgets_cost", frontier.other_budgets_cost);
  out.member("searches", frontier.searches);
  out.member("nodes", frontier.nodes);
  member(out, "notes", frontier.notes);
  out.end_object();
  return out.take();
}

std::string insist_json(const Insist& insist) {
  JsonWriter out;
  begin(out, insist_schema, insist.status, insist.asked);
  member(out, "insisted", insist.insisted);
  member(out, "without", insist.without);
  member(out, "free", insist.free);
  member(out, "with", insist.with);
  member(out, "differences", insist.differences);
  write_conflicts(out, insist.conflicts);
  if (!insist.unbudgeted_prices.empty()) {
    out.key("unbudgeted_prices");
    write_prices(out, insist.markets, insist.unbudgeted_prices);
    out.key("over_budgets");
    write_prices(out, insist.markets, insist.over_budgets);
  }
  member(out, "notes", insist.notes);
  out.end_object();
  return out.take();
}

std::string repair_json(const Repair& repair) {
  JsonWriter out;
  begin(out, repair_schema, repair.status, repair.asked);
  out.member("build", repair.build_name);
  out.member("build_file", repair.build_file);
  member(out, "wrong", repair.wrong);
  member(out, "score_now", repair.score_now);
  if (repair.score_now) {
    out.key("prices_now");
    write_prices(out, repair.markets, repair.prices_now);
  }
  if (repair.swaps) out.member("swaps", *repair.swaps);
  if (repair.asked_at_most) out.member("asked_at_most", *repair.asked_at_most);
  member(out, "repaired", repair.repaired);
  member(out, "differences", repair.differences);
  if (repair.repaired) out.member("one_more_known", repair.one_more_known);
  member(out, "one_more", repair.one_more);
  if (repair.one_more) member(out, "one_more_from_build", repair.one_more_from_build);
  write_conflicts(out, repair.conflicts);
  member(out, "notes", repair.notes);
  out.end_object();
  return out.take();
}

}  // namespace rigproof::sheet
