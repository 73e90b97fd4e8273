// rigproof insist BRIEF PART... --catalog DIR [--without PART]...
#include <memory>

#include "app/insist.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "cli/time_limit.hpp"
#include "sheet/answers_json.hpp"
#include "sheet/insist_text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string brief;
  std::vector<std::string> parts;
  std::vector<std::string> without;
  std::string catalog;
  std::string build_file;
  bool skip_bad = false;
  std::optional<double> time_limit_s;
};

Exit exit_of_insist(const app::Insisted& insisted) {
  if (insisted.stopped && stop_asked()) return Exit::stopped;
  if (insisted.view.status == "impossible") return Exit::no_build;
  if (!insisted.choice) return Exit::unknown_asked;
  return exit_of(insisted.standing);
}

Exit run(const Options& options, const Common& common) {
  if (options.parts.empty() && options.without.empty())
    return failed({.code = ErrorCode::bad_input,
                   .message = "insist: expected a part to insist on, or --without PART"});
  const auto opened = open_session(options.brief, options.catalog, options.skip_bad);
  if (!opened) return failed(opened.error());
  auto& [workshop, brief, planning] = **opened;
  const auto wish = app::wish_of(workshop.catalog, options.parts, options.without);
  if (!wish) return failed(wish.error());

  app::Insisted insisted;
  {
    ProgressLine line(common.terminal.progress, brief.markets.front().budget.currency);
    const TimeLimit limit(options.time_limit_s);
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
  return {
      .name = "insist",
      .about =
          "The best build with given parts in it, or without some, beside the best one: what the "
          "wish costs, difference by difference; or what stands against it.",
      .examples = {{.arguments = "demo/briefs/quiet-living-room.toml orrvane-larch-16 --catalog "
                                 "demo/catalog",
                    .shows =
                        "What a favorite processor costs in this room: score, price, rates and "
                        "claims, against the best build without it.",
                    .exit = Exit::done},
                   {.arguments =
                        "demo/briefs/quiet-living-room.toml --without brantoak-bough-marl-40 "
                        "--catalog demo/catalog",
                    .shows = "The best build that does without a card nobody has in stock.",
                    .exit = Exit::done}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_brief(app, options->brief);
        app.add_option("PART", options->parts, "Ids of parts that must be in the build")
            ->expected(0, -1);
        add_catalog(app, options->catalog);
        app.add_option("--without", options->without,
                       "A part that may not be in it; can be given more than once")
            ->type_name("PART")
            ->expected(1)
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
        app.add_option("--save", options->build_file, "Also write the build as a build file")
            ->type_name("FILE");
        add_time_limit(app, options->time_limit_s,
                       "with the builds that were found; what lies between them is then not told");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
