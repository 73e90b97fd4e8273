#include "app/make_sheet.hpp"

#include <fmt/format.h>

#include <array>

#include "app/describe.hpp"
#include "app/files.hpp"
#include "app/fit_of_build.hpp"
#include "app/physics_of_build.hpp"
#include "app/plain_words.hpp"
#include "app/remedies.hpp"
#include "app/runner_up.hpp"
#include "sheet/csv.hpp"
#include "sheet/drawing.hpp"
#include "sheet/html.hpp"
#include "sheet/markdown.hpp"
#include "sheet/physics_json.hpp"
#include "sheet/wording.hpp"

namespace rigproof::app {
namespace {

std::string lead(const sheet::Sheet& sheet, std::string_view how) {
  return fmt::format("{} Claims: {}.", how, sheet::verdict_counts(sheet.build.claims));
}

std::string stem_of(const std::string& file) { return std::filesystem::path(file).stem().string(); }

sheet::Sheet sheet_frame(const Workshop& workshop, const std::string& title,
                         const std::string& file) {
  sheet::Sheet sheet;
  sheet.title = title;
  sheet.file_stem = stem_of(file);
  sheet.part_count = workshop.catalog.part_count();
  return sheet;
}

// What stands on every sheet once its build and prices are there.
void finish(const Workshop& workshop, const Brief& brief, const Build& build, const Setup* setup,
            sheet::Sheet& sheet) {
  sheet.scene =
      scene_of_build(workshop.catalog, brief, build, setup, sheet.build.claims, sheet.title);
  sheet.physics = physics_of_build(workshop.catalog, brief, build, setup);
  sheet.disclosures = disclosures(workshop.catalog, sheet);
  for (const sheet::Disclosure& disclosure : sheet.disclosures)
    if (disclosure.subject == "Invented") sheet.catalog_note = disclosure.text;
}

void add_reasons_or_say(Planning& planning, const plan::PlannedChoice& choice, Beside beside,
                        sheet::Sheet& sheet, const LongJob& job) {
  if (!add_reasons(planning, choice, sheet.build, beside, job))
    sheet.notes.emplace_back("Stopped before every part's runner-up was known.");
}

}  // namespace

sheet::Sheet sheet_of_plan(const Workshop& workshop, Planning& planning, const Planned& planned,
                           const LongJob& job) {
  const Brief& brief = planning.brief();
  sheet::Sheet sheet = sheet_frame(workshop, brief.name, brief.file);
  sheet.as_of = brief.as_of;
  sheet.build = planned.view.builds.front();
  sheet.proof = planned.view.proof;
  sheet.notes = planned.view.notes;
  sheet.markets =
      market_prices(workshop.catalog, brief, planning.prices(), planned.choices.front().build);
  sheet.cautions = cautions(workshop.catalog, brief, planned.choices.front().build);
  add_reasons_or_say(planning, planned.choices.front(), Beside::everything, sheet, job);
  const bool proven = planned.status == plan::Outcome::Status::proven;
  sheet.job = job_words(brief, workshop.catalog);
  sheet.lead =
      lead(sheet, fmt::format("{} from {} parts.",
                              proven ? "Proven best build" : "Best build found, not proven best,",
                              sheet.part_count));
  finish(workshop, brief, planned.choices.front().build, nullptr, sheet);
  return sheet;
}

sheet::Sheet sheet_of_build(const Workshop& workshop, Planning& planning, const BuildFile& build,
                            const LongJob& job) {
  const Brief& brief = planning.brief();
  const auto choice = planning.scored(build.build);
  sheet::Sheet sheet = sheet_frame(workshop, build.name, brief.file);
  sheet.as_of = brief.as_of;
  sheet.markets = market_prices(workshop.catalog, brief, planning.prices(), build.build);
  sheet.cautions = cautions(workshop.catalog, brief, build.build);
  sheet.proof = {
      .status = "not planned",
      .bound = {},
      .nodes = 0,
      .leaves = 0,
      .pruned = {},
      .note = "This build was given and has no whole price, so nothing is proven about it."};
  sheet.notes = notes_on(brief, workshop, choice.has_value());
  if (choice) {
    sheet.build = view_of(planning, *choice, &build.setup);
    sheet.proof = proof_of_given(planning, *choice, build.setup, job);
    add_reasons_or_say(planning, *choice, Beside::nothing, sheet, job);
  } else {
    plan::PlannedChoice priceless{.build = build.build, .score = 0, .prices = {}};
    for (const sheet::MarketPrices& market : sheet.markets)
      priceless.prices.push_back(market.total.minor);
    sheet.build = view_of(planning, priceless, &build.setup);
    sheet.build.score = {};
    sheet.notes.emplace_back(
        "A part has no admissible offer in some market, so the build has no whole price and no "
        "score; the prices name it.");
  }
  add_swaps({.catalog = workshop.catalog,
             .brief = brief,
             .prices = &planning.prices(),
             .build = build.build,
             .setup = &build.setup},
            sheet.build.claims, job.stop);
  sheet.job = job_words(brief, workshop.catalog);
  sheet.lead =
      lead(sheet, fmt::format("A given build, held against the brief \"{}\".", brief.name));
  finish(workshop, brief, build.build, &build.setup, sheet);
  return sheet;
}

sheet::Sheet sheet_of_build_alone(const Workshop& workshop, const BuildFile& build) {
  const Brief nothing_asked;
  sheet::Sheet sheet = sheet_frame(workshop, build.name, "build");
  sheet.build.parts = part_lines(workshop.catalog, nothing_asked, build.build, &build.setup);
  sheet.build.claims =
      claims_of(workshop.catalog, nothing_asked, nullptr, build.build, &build.setup);
  add_swaps({.catalog = workshop.catalog,
             .brief = nothing_asked,
             .prices = nullptr,
             .build = build.build,
             .setup = &build.setup},
            sheet.build.claims);
  sheet.build.odds_all_hold =
      odds_all_hold(workshop.catalog, nothing_asked, nullptr, build.build, &build.setup);
  sheet.cautions = cautions(workshop.catalog, nothing_asked, build.build);
  sheet.proof.status = "not planned";
  sheet.proof.note =
      "This build was judged alone, without a brief: no prices, no titles, nothing proven.";
  sheet.job = no_job_words();
  sheet.lead = lead(sheet, "A given build, judged alone.");
  finish(workshop, nothing_asked, build.build, &build.setup, sheet);
  return sheet;
}

std::vector<SheetFile> sheet_files(const sheet::Sheet& sheet) {
  fit::Scene nothing;  // an older drawing must not stay beside a newer sheet
  nothing.title = sheet.title;
  nothing.notes.emplace_back("The build has no case: there is nothing to draw it in.");
  const fit::Scene scene = sheet::with_near_gaps(sheet.scene.value_or(nothing));
  return {{"sheet.html", sheet::sheet_html(sheet)},
          {"sheet.md", sheet::sheet_markdown(sheet)},
          {"parts.csv", sheet::parts_csv(sheet)},
          {"claims.csv", sheet::claims_csv(sheet)},
          {"prices.csv", sheet::prices_csv(sheet)},
          {"drawing.svg", sheet::drawing_sheet_svg(scene)},
          {"physics.json", sheet::physics_json(sheet.physics.value_or(sheet::Physics{}))}};
}

Result<std::vector<std::filesystem::path>> write_sheet(const sheet::Sheet& sheet,
                                                       const std::filesystem::path& folder) {
  std::vector<FileToWrite> files;
  std::vector<std::filesystem::path> written;
  for (SheetFile& file : sheet_files(sheet)) {
    written.push_back(folder / file.name);
    files.push_back({written.back(), std::move(file.bytes)});
  }
  if (const auto done = write_together(files); !done) return tl::unexpected(done.error());
  return written;
}

}  // namespace rigproof::app
