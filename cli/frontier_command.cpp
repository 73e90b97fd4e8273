// rigproof frontier BRIEF --catalog DIR --from A --to B
#include <fmt/format.h>

#include <memory>

#include "app/asks.hpp"
#include "app/frontier.hpp"
#include "app/time_limit.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/answers_json.hpp"
#include "sheet/frontier_text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::FrontierAsk ask;
  std::string catalog;
  bool short_form = false;
  bool skip_bad = false;
};

Exit exit_of_frontier(const app::Frontier& frontier) {
  if (frontier.stopped && stop_asked()) return Exit::stopped;
  if (frontier.view.status == "impossible") return Exit::no_build;
  if (frontier.view.steps.empty()) return Exit::unknown_asked;
  return exit_of(frontier.standing);
}

Exit run(const Options& options, const Common& common) {
  const auto opened = open_session(options.ask.brief, options.catalog, options.skip_bad);
  if (!opened) return failed(opened.error());
  auto& [workshop, brief, planning] = **opened;
  auto request = app::frontier_request(options.ask, brief);
  if (!request) return failed(request.error());

  app::Frontier frontier;
  {
    ProgressLine line(common.terminal.progress, brief.markets.front().budget.currency);
    const app::TimeLimit limit(options.ask.time_limit_s);
    request->job = limit.within(job_for(line));
    frontier = app::frontier_of(workshop, *planning, *request);
  }
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? sheet::frontier_json(frontier.view)
                             : sheet::frontier_text(frontier.view, options.short_form, style),
                 exit_of_frontier(frontier));
}

}  // namespace

Command frontier_command() {
  return {
      .name = std::string(app::FrontierAsk::name),
      .about = std::string(app::FrontierAsk::about),
      .examples =
          {{.arguments = "demo/briefs/competition-high-refresh.toml --catalog demo/catalog --from "
                         "700 --to 2500 --short",
            .shows = "A line a step: from which price on a better build can be had, and how much "
                     "score every 50 more buys there."},
           {.arguments = "demo/briefs/quiet-living-room.toml --catalog demo/catalog --from 700 "
                         "--to 3000",
            .shows = "The living room whole: where it begins, which parts each step exchanges, and "
                     "where the money runs out.",
            .exit = Exit::done}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        app.add_flag("--short", options->short_form, "Print a line a step; JSON is always whole");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
