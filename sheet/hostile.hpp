// For tests: a sheet in which every text is hostile, and the plan of it.
#pragma once

#include "sheet/sample.hpp"

namespace rigproof::sheet {

/// Markup, quotes, a table's bar, a formula, line ends, an escape sequence, a right-to-left
/// override, malformed UTF-8, a noncharacter and a NUL, with a tag of its own to be found again.
inline std::string hostile_text(const std::string& tag) {
  std::string out = "=<script>alert('" + tag + "')</script>\"&|\n# x\t](javascript:1)\x1b[31m`$\\";
  out += "\xE2\x80\xAE";  // U+202E, right-to-left override
  out += "\xFF\xC0\xAF";  // malformed
  out += "\xEF\xBF\xBE";  // U+FFFE
  out += '\0';
  return out + "]]>-->" + tag;
}

inline void spoil_physics(Physics& physics) {
  const auto spoil = [](std::string& text, const char* tag) { text = hostile_text(tag); };
  if (auto& path = physics.heat_path) {
    spoil(path->load, "hload");
    for (HeatPlace& place : path->places) {
      spoil(place.name, "hplace");
      place.id = hostile_text(place.id);
    }
    for (HeatFlow& flow : path->flows)
      flow.from_id = hostile_text(flow.from_id), flow.to_id = hostile_text(flow.to_id);
  }
  if (auto& warming = physics.warming) {
    spoil(warming->load, "wload");
    for (WarmCurve& curve : warming->curves) spoil(curve.name, "warmed");
    for (std::string& note : warming->notes) spoil(note, "wnote");
  }
  if (auto& sweep = physics.speed_sweep) {
    spoil(sweep->load, "sload");
    for (SweepCurve& curve : sweep->temperatures) spoil(curve.name, "swept");
    sweep->notes = {hostile_text("swnote")};
  }
  if (auto& windows = physics.supply_windows) {
    spoil(windows->supply, "supply");
    for (SupplyWindow& window : windows->windows) spoil(window.name, "window");
  }
}

inline Sheet hostile_sheet() {
  Sheet out = sample_sheet();
  const auto spoil = [](std::string& text, const char* tag) { text = hostile_text(tag); };
  spoil(out.title, "title"), spoil(out.job, "job"), spoil(out.lead, "lead"),
      spoil(out.file_stem, "stem");
  spoil(out.drawn_by, "drawn"), spoil(out.catalog_note, "catalog");
  for (std::string& market : out.build.markets) spoil(market, "market");
  for (PartLine& part : out.build.parts) {
    spoil(part.place, "place"), spoil(part.kind, "kind"), spoil(part.id, "id");
    spoil(part.name, "name"), spoil(part.maker, "maker"), spoil(part.maker_code, "code");
    spoil(part.why, "why");
    part.runner_up = RunnerUp{hostile_text("other"),  hostile_text("otherid"), {}, {},
                              {hostile_text("gain")}, {hostile_text("loss")}};
    part.runner_up->score_change = part.runner_up->price_change = out.build.score;
  }
  for (TitleLine& title : out.build.titles) {
    spoil(title.name, "game"), spoil(title.resolution, "resolution");
    if (title.frame_time_ms) title.frame_time_ms->unit = hostile_text("ms");
    if (!title.why_unknown.empty()) spoil(title.why_unknown, "whynot");
  }
  for (Claim& claim : out.build.claims) {
    spoil(claim.id, "claim"), spoil(claim.where, "where"), spoil(claim.load, "load");
    spoil(claim.statement, "statement"), spoil(claim.source, "source");
    spoil(claim.remedy, "remedy"), spoil(claim.consequence, "consequence");
    spoil(claim.working.equation, "equation");
    for (WorkingCell& cell : claim.working.cells) {
      spoil(cell.part, "wpart"), spoil(cell.meaning, "meaning"), spoil(cell.table, "wtable");
      spoil(cell.row, "wrow"), spoil(cell.column, "wcolumn"), spoil(cell.source, "wsource");
      spoil(cell.certainty, "certainty");
      if (cell.value.text.empty())
        cell.value.unit = hostile_text("wunit");
      else
        spoil(cell.value.text, "wtext");
    }
    if (claim.swap) {  // without a remedy its ids are told
      spoil(claim.swap->out, "out"), spoil(claim.swap->in, "in");
      claim.remedy.clear();
    }
    for (std::string& subject : claim.subjects) spoil(subject, "subject");
    if (claim.value) claim.value->unit = hostile_text("unit");
    if (claim.margin) claim.margin->unit = hostile_text("unit");
    if (claim.limit && !claim.limit->text.empty()) spoil(claim.limit->text, "limit");
    for (Missing& cell : claim.missing)
      cell = {hostile_text("table"), hostile_text("row"), hostile_text("column"),
              hostile_text("how")};
    if (claim.measured)
      spoil(claim.measured->log, "log"), spoil(claim.measured->settled, "settled");
  }
  for (MarketPrices& market : out.markets) {
    spoil(market.market, "market"), spoil(market.note, "note");
    for (PriceLine& line : market.lines) {
      spoil(line.part_id, "lineid"), spoil(line.part_name, "linename");
      spoil(line.seller, "seller"), spoil(line.tax_note, "tax");
      spoil(line.condition, "condition");
    }
  }
  if (out.physics) spoil_physics(*out.physics);
  for (Caution& caution : out.cautions)
    caution = {hostile_text("subject"), hostile_text("caution"), hostile_text("csource")};
  for (Disclosure& disclosure : out.disclosures)
    disclosure = {hostile_text("dsubject"), hostile_text("disclosed")};
  for (std::string& note : out.notes) spoil(note, "snote");
  spoil(out.proof.note, "pnote");  // the status is one of our own words
  for (PrunedLine& line : out.proof.pruned) spoil(line.why, "pruned");
  return out;
}

}  // namespace rigproof::sheet
