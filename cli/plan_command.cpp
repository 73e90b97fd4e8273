// rigproof plan BRIEF --catalog DIR
#include <fmt/format.h>

#include <memory>

#include "app/asks.hpp"
#include "app/files.hpp"
#include "app/integer_program.hpp"
#include "app/make_sheet.hpp"
#include "app/plan_brief.hpp"
#include "app/time_limit.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/json.hpp"
#include "sheet/text.hpp"
#include "sheet/text_short.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::PlanAsk ask;
  std::string catalog;
  bool short_form = false;
  bool skip_bad = false;
  std::string sheet_folder;
  std::string build_file;
  std::string mps_file;
};

// A time limit is no stop by the user: what was found by then is what was asked for. When nothing
// was, whether there is a build is unknown.
Exit exit_of_plan(const app::Planned& planned) {
  if (planned.stopped && stop_asked()) return Exit::stopped;
  if (planned.status == plan::Outcome::Status::impossible) return Exit::no_build;
  if (planned.choices.empty()) return Exit::unknown_asked;
  return exit_of(planned.standing);
}

// What was written, and what an outside solver will not see.
std::string words_on(const sheet::IntegerProgram& program) {
  std::string said = fmt::format("integer program: {} ({} columns, {} rows)\n", program.file,
                                 program.columns, program.rows);
  if (program.left_out.empty()) return said + "It is complete: its best score is the plan's.\n";
  said +=
      "It leaves out conditions over several parts that are not linear, so its best score is the "
      "plan's or above it:\n";
  for (const sheet::PrunedLine& line : program.left_out)
    said +=
        fmt::format("  {} ({} {})\n", line.why, line.count, line.count == 1 ? "check" : "checks");
  return said;
}

// The time limit is one of the search; this is stopped by the user alone.
Result<std::string> write_program(const Options& options, app::Planning& planning,
                                  ProgressLine& line, sheet::Plan& view) {
  if (options.mps_file.empty()) return std::string();
  auto written = app::write_integer_program(
      planning, options.mps_file, job_for(line).stop, [&](std::size_t done, std::size_t all) {
        line.show(fmt::format("integer program: {} of {} values", done, all));
      });
  if (!written) return tl::unexpected(written.error());
  view.integer_program = std::move(*written);
  return words_on(*view.integer_program);
}

// Files that were asked for beside the printed plan.
Result<std::string> write_extras(const Options& options, const app::Workshop& workshop,
                                 app::Planning& planning, const app::Planned& planned,
                                 const app::LongJob& job) {
  std::string said;
  if (planned.choices.empty()) return said;
  if (!options.build_file.empty()) {
    const auto saved = write_build_file(options.build_file, planning.brief().name,
                                        planned.choices.front().build, workshop.catalog);
    if (!saved) return tl::unexpected(saved.error());
    said += *saved;
  }
  if (!options.sheet_folder.empty()) {
    const auto written = app::write_sheet(app::sheet_of_plan(workshop, planning, planned, job),
                                          options.sheet_folder);
    if (!written) return tl::unexpected(written.error());
    said += fmt::format("sheet: {}\n", written->front().string());
  }
  return said;
}

Exit run(const Options& options, const Common& common) {
  const auto opened = open_session(options.ask.brief, options.catalog, options.skip_bad);
  if (!opened) return failed(opened.error());
  auto& [workshop, brief, planning] = **opened;

  app::Planned planned;
  Result<std::string> extras = std::string();
  Result<std::string> program = std::string();
  {
    ProgressLine line(common.terminal.progress, brief.markets.front().budget.currency);
    const app::TimeLimit limit(options.ask.time_limit_s);
    const app::LongJob job = limit.within(job_for(line));
    planned = app::plan_brief(workshop, *planning, {.best = options.ask.best, .job = job});
    if (planned.status == plan::Outcome::Status::not_proven && limit.over() && !stop_asked())
      planned.view.proof.stopped_after_s = limit.limit_s();
    program = write_program(options, *planning, line, planned.view);
    extras = write_extras(options, workshop, *planning, planned, job);
  }
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  const std::string text = common.json          ? sheet::plan_json(planned.view)
                           : options.short_form ? sheet::plan_short_text(planned.view, style)
                                                : sheet::plan_text(planned.view, style);
  const Exit exit = printed(text, exit_of_plan(planned));
  for (const Result<std::string>* written : {&program, &extras})
    if (*written && !(*written)->empty()) complain(**written);
  for (const Result<std::string>* written : {&program, &extras})
    if (!*written) return failed(written->error());
  return exit;
}

}  // namespace

Command plan_command() {
  return {
      .name = std::string(app::PlanAsk::name),
      .about = std::string(app::PlanAsk::about),
      .examples =
          {{.arguments = "demo/briefs/quiet-living-room.toml --catalog demo/catalog --short",
            .shows = "The three best builds for a living room in short: prices, parts, and only "
                     "the claims that do not hold.",
            .exit = Exit::done},
           {.arguments = "demo/briefs/quiet-living-room.toml --catalog demo/catalog --best 1 "
                         "--sheet out/sheet --save out/best.toml",
            .shows = "The best build whole, its sheet for publishing in out/sheet, and its parts "
                     "as a build file for the other commands.",
            .exit = Exit::done},
           {.arguments = "demo/briefs/quiet-living-room.toml --catalog demo/catalog --best 2 "
                         "--time-limit 600 --short",
            .shows =
                "The same, but after ten minutes at the latest: were it not proven by then, the "
                "best found would stand here with how much more there can be.",
            .exit = Exit::done},
           {.arguments = "demo/briefs/second-life.toml --catalog demo/catalog --best 1 "
                         "--short --export-mps out/second-life.mps",
            .shows = "The best build for a second life of old parts, and the same question as an "
                     "integer program that any solver can prove again; what it leaves out is "
                     "named."},
           {.arguments = "demo/briefs/cannot-be-satisfied.toml --catalog demo/catalog",
            .shows = "A brief that nothing satisfies: which of its lines stand against each "
                     "other, and how far each would have to be eased.",
            .exit = Exit::no_build}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        app.add_option("--sheet", options->sheet_folder,
                       "Also write the sheet of the best build into this folder")
            ->type_name("DIR");
        app.add_option("--save", options->build_file, "Also write the best build as a build file")
            ->type_name("FILE");
        app.add_option("--export-mps", options->mps_file,
                       "Also write the brief as an integer program (free MPS), for solvers from "
                       "outside to prove again")
            ->type_name("FILE");
        add_short(app, options->short_form);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
