// rigproof insist BRIEF PART... --catalog DIR [--without PART]...
#include <memory>

#include "app/asks.hpp"
#include "app/insist.hpp"
#include "app/time_limit.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/answers_json.hpp"
#include "sheet/insist_text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::InsistAsk ask;
  std::string catalog;
  std::string build_file;
  bool skip_bad = false;
};

Exit exit_of_insist(const app::Insisted& insisted) {
  if (insisted.stopped && stop_asked()) return Exit::stopped;
  if (insisted.view.status == "impossible") return Exit::no_build;
  if (!insisted.choice) return Exit::unknown_asked;
  return exit_of(insisted.standing);
}

Exit run(const Options& options, const Common& common) {
  if (options.ask.parts.empty() && options.ask.without.empty())
    return failed({.code = ErrorCode::bad_input,
                   .message = "insist: expected a part to insist on, or --without PART"});
  const auto opened = open_session(options.ask.brief, options.catalog, options.skip_bad);
  if (!opened) return failed(opened.error());
  auto& [workshop, brief, planning] = **opened;
  const auto wish = app::wish_of(workshop.catalog, options.ask.parts, options.ask.without);
  if (!wish) return failed(wish.error());

  app::Insisted insisted;
  {
    ProgressLine line(common.terminal.progress, brief.markets.front().budget.currency);
    const app::TimeLimit limit(options.ask.time_limit_s);
    insisted = app::insist_on(workshop, *planning, *wish, limit.within(job_for(line)));
  }
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  const Exit exit = printed(
      common.json ? sheet::insist_json(insisted.view) : sheet::insist_text(insisted.view, style),
      exit_of_insist(insisted));
  if (options.build_file.empty() || !insisted.choice) return exit;
  return save_build(options.build_file, brief.name, insisted.choice->build, workshop.catalog, exit);
}

}  // namespace

Command insist_command() {
  return {.name = std::string(app::InsistAsk::name),
          .about = std::string(app::InsistAsk::about),
          .examples =
              {{.arguments = "demo/briefs/quiet-living-room.toml orrvane-larch-16 --catalog "
                             "demo/catalog",
                .shows = "What a favorite processor costs in this room: score, price, rates and "
                         "claims, against the best build without it.",
                .exit = Exit::done},
               {.arguments = "demo/briefs/quiet-living-room.toml --without brantoak-bough-marl-40 "
                             "--catalog demo/catalog",
                .shows = "The best build that does without a card nobody has in stock.",
                .exit = Exit::done}},
          .declare = [](CLI::App& app, Common& common) -> Run {
            const auto options = std::make_shared<Options>();
            add_inputs(app, options->ask, options->catalog);
            app.add_option("--save", options->build_file, "Also write the build as a build file")
                ->type_name("FILE");
            add_skip_bad(app, options->skip_bad);
            return [options, &common] { return run(*options, common); };
          }};
}

}  // namespace rigproof::cli
