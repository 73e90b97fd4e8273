// rigproof outlook BRIEF --catalog DIR
#include <memory>

#include "app/asks.hpp"
#include "app/files.hpp"
#include "app/outlook.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::OutlookAsk ask;
  std::string catalog;
  bool skip_bad = false;
};

Exit exit_of_outlook(const app::OutlookAnswer& answer) {
  using enum plan::BuildCount::How;
  if (answer.stopped) return Exit::stopped;
  if (answer.possible.how == counted && answer.possible.builds == 0.0) return Exit::no_build;
  return answer.possible.how == none_found ? Exit::unknown_asked : Exit::done;
}

Exit run(const Options& options, const Common& common) {
  app::Given brief = options.ask.brief;
  if (!brief.text) {
    auto bytes = app::read_file(brief.name);
    if (!bytes) return failed(bytes.error());
    brief.text = std::move(*bytes);
  }
  const auto session = open_session(brief, options.catalog, options.skip_bad);
  if (!session) return failed(session.error());
  const auto answer = app::outlook_of(
      *(*session)->planning,
      {.seed = app::seed_of(*brief.text), .job = {.stop = stop_asked, .progress = {}}});
  if (!answer) return failed(answer.error());
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? app::outlook_json(*answer) : app::outlook_text(*answer, style),
                 exit_of_outlook(*answer));
}

}  // namespace

Command outlook_command() {
  return {
      .name = std::string(app::OutlookAsk::name),
      .about = std::string(app::OutlookAsk::about),
      .examples = {{.arguments = "demo/briefs/careless-bargains.toml --catalog demo/catalog",
                    .shows =
                        "How much room the brief leaves, and that the age of a lone seller's offer "
                        "takes most of it."},
                   {.arguments = "demo/briefs/cannot-be-satisfied.toml --catalog demo/catalog",
                    .shows = "A brief that leaves nothing, whichever single line is given up.",
                    .exit = Exit::no_build}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
