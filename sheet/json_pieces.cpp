#include "sheet/json_pieces.hpp"

#include <algorithm>
#include <array>

#include "base/contract.hpp"
#include "sheet/wording.hpp"

namespace rigproof::sheet {

void write(JsonWriter& out, const Money& money) {
  out.begin_object();
  out.member("currency", money.currency.view());
  out.member("minor", money.minor);
  out.end_object();
}

void write(JsonWriter& out, const Quantity& quantity) {
  out.begin_object();
  if (!quantity.text.empty()) {
    out.member("text", quantity.text);
  } else {
    out.member("value", quantity.value);
    if (quantity.low) out.member("low", *quantity.low);
    if (quantity.high) out.member("high", *quantity.high);
    out.member("unit", quantity.unit);
  }
  out.end_object();
}

void write(JsonWriter& out, const Limit& limit) {
  out.begin_object();
  out.member("relation", name_of(limit.relation));
  if (!limit.text.empty()) {
    out.member("text", limit.text);
  } else {
    out.member("value", limit.value);
    out.member("unit", limit.unit);
  }
  out.end_object();
}

void write(JsonWriter& out, const Missing& missing) {
  out.begin_object();
  out.member("table", missing.table);
  out.member("row", missing.row);
  out.member("column", missing.column);
  out.member("how", missing.how);
  out.end_object();
}

void write(JsonWriter& out, const Measured& measured) {
  out.begin_object();
  out.member("value", measured.value);
  out.member("log", measured.log);
  if (measured.date) out.member("date", to_string(*measured.date));
  out.member("settled", measured.settled);
  out.end_object();
}

void write(JsonWriter& out, const Swap& swap) {
  out.begin_object();
  out.member("kind", swap.kind);
  out.member("out", swap.out);
  out.member("in", swap.in);
  out.member("count", swap.count);
  out.end_object();
}

void write(JsonWriter& out, const Adjustment& adjustment) {
  out.begin_object();
  if (!adjustment.radiator_at.empty()) out.member("radiator_at", adjustment.radiator_at);
  if (!adjustment.fans_at.empty()) out.member("fans_at", adjustment.fans_at);
  member(out, "case_speed_percent", adjustment.case_speed_percent);
  member(out, "cooler_speed_percent", adjustment.cooler_speed_percent);
  out.end_object();
}

void write(JsonWriter& out, const WorkingCell& cell) {
  out.begin_object();
  out.member("part", cell.part);
  out.member("meaning", cell.meaning);
  out.member("table", cell.table);
  out.member("row", cell.row);
  out.member("column", cell.column);
  out.key("value");
  write(out, cell.value);
  out.member("certainty", cell.certainty);
  out.member("source", cell.source);
  if (cell.claimed) out.member("claimed", true);
  out.end_object();
}

void write(JsonWriter& out, const Working& working) {
  out.begin_object();
  out.member("equation", working.equation);
  member(out, "cells", working.cells);
  out.member("cells_left_out", working.cells_left_out);
  out.end_object();
}

namespace {

// A claim that only stands in the name of an engine to come has no working.
bool has_working(const Working& working) {
  return !working.equation.empty() || !working.cells.empty();
}

}  // namespace

void write(JsonWriter& out, const Claim& claim) {
  out.begin_object();
  out.member("id", claim.id);
  out.member("grade", name_of(claim.grade));
  out.member("where", claim.where);
  member(out, "subjects", claim.subjects);
  out.member("load", claim.load);
  out.member("statement", claim.statement);
  member(out, "value", claim.value);
  member(out, "limit", claim.limit);
  member(out, "margin", claim.margin);
  member(out, "margin_frac", claim.margin_frac);
  member(out, "odds", claim.odds);
  out.member("verdict", name_of(claim.verdict));
  out.member("basis", name_of(claim.basis));
  out.member("source", claim.source);
  out.member("remedy", claim.remedy);
  if (!claim.consequence.empty()) out.member("consequence", claim.consequence);
  member(out, "swap", claim.swap);
  member(out, "adjustment", claim.adjustment);
  member(out, "missing", claim.missing);
  if (has_working(claim.working)) member(out, "working", claim.working);
  member(out, "measured", claim.measured);
  out.end_object();
}

void write(JsonWriter& out, const TitleLine& title) {
  out.begin_object();
  out.member("title", title.id);
  out.member("name", title.name);
  out.member("resolution", title.resolution);
  out.member("render_scale", title.render_scale);
  out.member("generated_per_rendered", title.generated_per_rendered);
  out.member("weight", title.weight);
  out.member("target_fps", title.target_fps);
  member(out, "floor_fps", title.floor_fps);
  member(out, "rendered_fps", title.rendered_fps);
  member(out, "displayed_fps", title.displayed_fps);
  member(out, "p99_frame_time_fps", title.p99_frame_time_fps);
  member(out, "frame_time_ms", title.frame_time_ms);
  member(out, "p99_frame_time_ms", title.p99_frame_time_ms);
  if (!title.why_unknown.empty()) out.member("why_unknown", title.why_unknown);
  out.end_object();
}

namespace {

// Kinds a machine may have several of are always a list, so that a reader needs one case per kind.
bool is_listed(std::string_view kind) {
  constexpr std::array<std::string_view, 4> listed = {"storage", "fan", "display", "other"};
  return std::ranges::find(listed, kind) != listed.end();
}

}  // namespace

void write_parts(JsonWriter& out, const std::vector<PartLine>& parts) {
  out.begin_object();
  std::vector<std::string_view> done;
  for (const PartLine& part : parts) {
    if (std::ranges::find(done, part.kind) != done.end()) continue;
    done.push_back(part.kind);
    const auto same_kind = [&](const PartLine& other) { return other.kind == part.kind; };
    out.key(part.kind);
    if (!is_listed(part.kind) && part.count == 1 && std::ranges::count_if(parts, same_kind) == 1) {
      out.text(part.id);
      continue;
    }
    out.begin_array();
    for (const PartLine& other : parts) {
      if (!same_kind(other)) continue;
      out.begin_object();
      out.member("id", other.id);
      out.member("count", other.count);
      out.end_object();
    }
    out.end_array();
  }
  out.end_object();
}

namespace {

void write_runner_up(JsonWriter& out, const RunnerUp& runner_up) {
  out.begin_object();
  out.member("id", runner_up.id);
  out.member("name", runner_up.name);
  if (!runner_up.name.empty()) {
    member(out, "score_change", runner_up.score_change);
    member(out, "price_change", runner_up.price_change);
  }
  member(out, "gains", runner_up.gains);
  member(out, "loses", runner_up.loses);
  out.end_object();
}

}  // namespace

void write(JsonWriter& out, const PartLine& part) {
  out.begin_object();
  out.member("place", part.place);
  out.member("kind", part.kind);
  out.member("id", part.id);
  out.member("name", part.name);
  out.member("maker", part.maker);
  out.member("maker_code", part.maker_code);
  out.member("count", part.count);
  out.member("origin", name_of(part.origin));
  out.member("why", part.why);
  member(out, "because_cost", part.because_cost);
  if (part.runner_up) {
    out.key("runner_up");
    write_runner_up(out, *part.runner_up);
  }
  out.end_object();
}

void write_prices(JsonWriter& out, const std::vector<std::string>& markets,
                  const std::vector<Money>& prices) {
  RP_EXPECT(prices.size() == markets.size());
  out.begin_object();
  for (std::size_t i = 0; i < prices.size(); ++i) member(out, markets[i], prices[i]);
  out.end_object();
}

void write(JsonWriter& out, const PlannedBuild& build) {
  out.begin_object();
  member(out, "score", build.score);
  out.key("prices");
  write_prices(out, build.markets, build.prices);
  out.key("parts");
  write_parts(out, build.parts);
  member(out, "places", build.parts);
  member(out, "titles", build.titles);
  member(out, "odds_best", build.odds_best);
  member(out, "odds_all_hold", build.odds_all_hold);
  member(out, "odds_first_beats", build.odds_first_beats);
  if (build.rival) out.member("rival", true);
  member(out, "claims", build.claims);
  out.end_object();
}

namespace {

void write_relaxation(JsonWriter& out, const Relaxation& relaxation) {
  out.begin_object();
  out.member("how", relaxation.how);
  out.member("says", relaxation.says);
  member(out, "money_to", relaxation.money_to);
  member(out, "money_by", relaxation.money_by);
  member(out, "value_to", relaxation.value_to);
  member(out, "value_by", relaxation.value_by);
  if (!relaxation.unit.empty()) out.member("unit", relaxation.unit);
  member(out, "step", relaxation.step);
  out.end_object();
}

}  // namespace

void write(JsonWriter& out, const ConflictLine& line) {
  out.begin_object();
  out.member("path", line.path);
  out.member("line", line.line);
  out.member("says", line.says);
  if (line.relaxation) {
    out.key("relaxation");
    write_relaxation(out, *line.relaxation);
  }
  out.end_object();
}

void write_proof(JsonWriter& out, const Proof& proof) {
  out.begin_object();
  if (!proof.bound.currency.view().empty()) member(out, "bound", proof.bound);
  out.member("nodes", proof.nodes);
  out.member("leaves", proof.leaves);
  out.key("pruned");
  out.begin_object();
  for (const PrunedLine& line : proof.pruned) out.member(line.why, line.count);
  out.end_object();
  out.member("note", proof.note);
  member(out, "stopped_after_s", proof.stopped_after_s);
  member(out, "at_most_more", proof.at_most_more);
  out.end_object();
}

void write_conflicts(JsonWriter& out, const std::vector<Conflict>& conflicts) {
  out.key("conflicts");
  out.begin_array();
  for (const Conflict& conflict : conflicts) {
    out.begin_array();
    for (const ConflictLine& line : conflict.requirements) write(out, line);
    out.end_array();
  }
  out.end_array();
  out.key("through");
  out.begin_array();
  for (const Conflict& conflict : conflicts) {
    out.begin_array();
    for (const std::string& rule : conflict.through) out.text(rule);
    out.end_array();
  }
  out.end_array();
}

}  // namespace rigproof::sheet
