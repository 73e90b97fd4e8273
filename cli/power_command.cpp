// rigproof power BUILD --catalog DIR [--brief BRIEF] [--beside BUILD] [--show-work]
#include <memory>
#include <optional>

#include "app/asks.hpp"
#include "app/measured_claims.hpp"
#include "app/power_of_build.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::PowerAsk ask;
  std::string catalog;
  bool skip_bad = false;
};

Exit run(const Options& options, const Common& common) {
  const auto given =
      open_given_build(options.ask.build, options.catalog, options.skip_bad, options.ask.measured);
  if (!given) return failed(given.error());
  const Catalog& catalog = given->workshop.catalog;
  const auto asked = open_brief_beside(options.ask.brief, catalog);
  if (!asked) return failed(asked.error());
  const std::optional<Brief>& brief = *asked;
  std::optional<BuildFile> beside;
  if (!options.ask.beside.empty()) {
    auto opened = app::open_build(options.ask.beside, catalog);
    if (!opened) return failed(opened.error());
    beside = std::move(*opened);
  }
  const Brief* const under = brief ? &*brief : nullptr;
  sheet::Power power = app::power_of_build(given->workshop, given->build,
                                           {.brief = under,
                                            .other = beside ? &*beside : nullptr,
                                            .show_work = options.ask.show_work,
                                            .stop = stop_asked});
  if (stop_asked()) return Exit::stopped;
  if (const std::optional<Catalog>& before = given->before)
    app::settle_measured(power.claims, *before, under, given->build, given->measured);
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? sheet::power_json(power) : sheet::power_text(power, style),
                 exit_of(app::standing(power.claims)));
}

}  // namespace

Command power_command() {
  return {
      .name = std::string(app::PowerAsk::name),
      .about = std::string(app::PowerAsk::about),
      .examples =
          {{.arguments = "demo/builds/evening-chair.toml --catalog demo/catalog --brief "
                         "demo/briefs/quiet-living-room.toml",
            .shows = "A sound build: its loads, what it draws at the wall in each market, what a "
                     "year of it costs."},
           {.arguments = "demo/builds/evening-chair.toml --catalog demo/catalog --show-work",
            .shows = "The same without a brief, with every equation and the numbers in it."},
           {.arguments = "demo/builds/friday-shelf.toml --catalog demo/catalog --brief "
                         "demo/briefs/quiet-living-room.toml --beside "
                         "demo/builds/evening-chair.toml",
            .shows = "A supply that is too small, and what the machine would cost to run beside "
                     "another.",
            .exit = Exit::claim_fails}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
