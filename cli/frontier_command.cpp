// rigproof frontier BRIEF --catalog DIR --from A --to B
#include <fmt/format.h>

#include <memory>

#include "app/frontier.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "cli/time_limit.hpp"
#include "sheet/answers_json.hpp"
#include "sheet/frontier_text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string brief;
  std::string catalog;
  std::string from;
  std::string to;
  bool short_form = false;
  bool skip_bad = false;
  std::optional<double> time_limit_s;
};

Result<std::int64_t> budget_of(const std::string& option, const std::string& text,
                               const Currency& currency) {
  const auto money = parse_money(text, currency);
  if (!money) return bad_input(fmt::format("{}: {}", option, money.error().message));
  if (money->minor < 0 || money->minor > most_budget_minor)
    return bad_input(fmt::format("{}: a budget is between 0 and {}, not {}", option,
                                 to_string(Money{currency, most_budget_minor}), to_string(*money)));
  return money->minor;
}

Result<app::FrontierRequest> request_of(const Options& options, const Brief& brief) {
  const Currency& currency = brief.markets.front().budget.currency;
  const auto from = budget_of("--from", options.from, currency);
  if (!from) return tl::unexpected(from.error());
  const auto to = budget_of("--to", options.to, currency);
  if (!to) return tl::unexpected(to.error());
  if (*from > *to)
    return bad_input(fmt::format("--from {} is more than --to {}",
                                 to_string(Money{currency, *from}),
                                 to_string(Money{currency, *to})));
  return app::FrontierRequest{.from_minor = *from, .to_minor = *to, .job = {}};
}

Exit exit_of_frontier(const app::Frontier& frontier) {
  if (frontier.stopped && stop_asked()) return Exit::stopped;
  if (frontier.view.status == "impossible") return Exit::no_build;
  if (frontier.view.steps.empty()) return Exit::unknown_asked;
  return exit_of(frontier.standing);
}

Exit run(const Options& options, const Common& common) {
  const auto opened = open_session(options.brief, options.catalog, options.skip_bad);
  if (!opened) return failed(opened.error());
  auto& [workshop, brief, planning] = **opened;
  auto request = request_of(options, brief);
  if (!request) return failed(request.error());

  app::Frontier frontier;
  {
    ProgressLine line(common.terminal.progress, brief.markets.front().budget.currency);
    const TimeLimit limit(options.time_limit_s);
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
      .name = "frontier",
      .about =
          "What more money buys: the best score for every budget between two, as the exact "
          "staircase, with the parts that change at each step.",
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
        add_brief(app, options->brief);
        add_catalog(app, options->catalog);
        app.add_option("--from", options->from,
                       "The smallest budget asked about, in money of the brief's first market")
            ->required()
            ->type_name("MONEY");
        app.add_option("--to", options->to,
                       "The largest; budgets of other markets stay as the brief has them")
            ->required()
            ->type_name("MONEY");
        add_time_limit(app, options->time_limit_s,
                       "with the steps that were found, from the largest budget down");
        app.add_flag("--short", options->short_form, "Print a line a step; JSON is always whole");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
