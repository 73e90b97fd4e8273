// rigproof power BUILD --catalog DIR [--brief BRIEF] [--beside BUILD] [--show-work]
#include <memory>
#include <optional>

#include "app/power_of_build.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "sheet/text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string build;
  std::string catalog;
  std::string brief;
  std::string beside;
  bool show_work = false;
  bool skip_bad = false;
  app::MeasuredInput measured;
};

Exit run(const Options& options, const Common& common) {
  const auto given =
      open_given_build(options.build, options.catalog, options.skip_bad, options.measured);
  if (!given) return failed(given.error());
  const Catalog& catalog = given->workshop.catalog;
  const auto asked = open_brief_beside(options.brief, catalog);
  if (!asked) return failed(asked.error());
  const std::optional<Brief>& brief = *asked;
  std::optional<BuildFile> beside;
  if (!options.beside.empty()) {
    auto opened = app::open_build(options.beside, catalog);
    if (!opened) return failed(opened.error());
    beside = std::move(*opened);
  }
  const sheet::Power power = app::power_of_build(given->workshop, given->build,
                                                 {.brief = brief ? &*brief : nullptr,
                                                  .other = beside ? &*beside : nullptr,
                                                  .show_work = options.show_work,
                                                  .stop = stop_asked});
  if (stop_asked()) return Exit::stopped;
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? sheet::power_json(power) : sheet::power_text(power, style),
                 exit_of(app::standing(power.claims)));
}

}  // namespace

Command power_command() {
  return {
      .name = "power",
      .about =
          "What a build draws: each part under each load, the supply, the wall, each plug, a year "
          "of it.",
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
        add_build(app, options->build);
        add_catalog(app, options->catalog);
        app.add_option("--brief", options->brief,
                       "Its markets (mains_v, circuit_a, kwh_price), hours of use and limits")
            ->type_name("BRIEF");
        app.add_option("--beside", options->beside, "Hold a year of it beside this build")
            ->type_name("BUILD");
        app.add_flag("--show-work", options->show_work, "Print the equations with the numbers in");
        add_measured(app, options->measured);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
