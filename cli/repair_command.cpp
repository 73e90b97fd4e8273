// rigproof repair BRIEF BUILD --catalog DIR [--most-swaps N]
#include <memory>

#include "app/asks.hpp"
#include "app/repair.hpp"
#include "app/time_limit.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/answers_json.hpp"
#include "sheet/repair_text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::RepairAsk ask;
  std::string catalog;
  std::string build_file;
  bool skip_bad = false;
};

Exit exit_of_repair(const app::Repaired& repaired) {
  if (repaired.stopped && stop_asked()) return Exit::stopped;
  if (repaired.choice) return exit_of(repaired.standing);
  return repaired.view.status == "not proven" ? Exit::unknown_asked : Exit::no_build;
}

Exit run(const Options& options, const Common& common) {
  const auto opened = open_session(options.ask.brief, options.catalog, options.skip_bad);
  if (!opened) return failed(opened.error());
  auto& [workshop, brief, planning] = **opened;
  const auto build = app::open_build(options.ask.build, workshop.catalog);
  if (!build) return failed(build.error());

  app::Repaired repaired;
  {
    ProgressLine line(common.terminal.progress, brief.markets.front().budget.currency);
    const app::TimeLimit limit(options.ask.time_limit_s);
    repaired = app::repair(workshop, *planning,
                           {.build = *build,
                            .file = options.ask.build.name,
                            .most_swaps = options.ask.most_swaps,
                            .job = limit.within(job_for(line))});
  }
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  const Exit exit = printed(
      common.json ? sheet::repair_json(repaired.view) : sheet::repair_text(repaired.view, style),
      exit_of_repair(repaired));
  if (options.build_file.empty() || !repaired.choice) return exit;
  return save_build(options.build_file, build->name, repaired.choice->build, workshop.catalog,
                    exit);
}

}  // namespace

Command repair_command() {
  return {
      .name = std::string(app::RepairAsk::name),
      .about = std::string(app::RepairAsk::about),
      .examples =
          {{.arguments = "demo/briefs/quiet-living-room.toml demo/builds/friday-shelf.toml "
                         "--catalog demo/catalog",
            .shows = "A build that does not go together: what is wrong with it, the fewest parts "
                     "to exchange, and what that does to score, price, rates and claims.",
            .exit = Exit::done},
           {.arguments = "demo/briefs/competition-high-refresh.toml demo/builds/evening-chair.toml "
                         "--catalog demo/catalog --most-swaps 3",
            .shows = "Another brief than the build was made for, within three swaps."}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        app.add_option("--save", options->build_file,
                       "Also write the repaired build as a build file")
            ->type_name("FILE");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
