// rigproof air BUILD --catalog DIR [--brief BRIEF] [--speed PERCENT]
//   [--cooler-speed PERCENT] [--show-work]
#include <fmt/format.h>

#include <memory>
#include <optional>

#include "app/air_of_build.hpp"
#include "app/asks.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::AirAsk ask;
  std::string catalog;
  bool skip_bad = false;
};

Exit run(const Options& options, const Common& common) {
  const auto given =
      open_given_build(options.ask.build, options.catalog, options.skip_bad, options.ask.measured);
  if (!given) return failed(given.error());
  const auto opened = open_brief_beside(options.ask.brief, given->workshop.catalog);
  if (!opened) return failed(opened.error());
  const std::optional<Brief>& brief = *opened;
  const sheet::Air air =
      app::air_of_build(given->workshop, given->build,
                        {.brief = brief ? &*brief : nullptr,
                         .speed_frac = options.ask.speed_percent / 100.0,
                         .cooler_speed_frac = options.ask.cooler_speed_percent / 100.0,
                         .distance_m = options.ask.distance_m,
                         .show_work = options.ask.show_work,
                         .stop = stop_asked});
  if (stop_asked()) return Exit::stopped;
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? sheet::air_json(air) : sheet::air_text(air, style),
                 exit_of(app::standing(air.claims)));
}

}  // namespace

Command air_command() {
  return {
      .name = std::string(app::AirAsk::name),
      .about = std::string(app::AirAsk::about),
      .examples =
          {{.arguments = "demo/builds/evening-chair.toml --catalog demo/catalog",
            .shows = "A sound build under each load, with its fans as slow as they may be."},
           {.arguments = "demo/builds/evening-chair.toml --catalog demo/catalog --speed 100 "
                         "--show-work",
            .shows = "The same with every fan at full speed, and the sums behind it."},
           {.arguments = "demo/builds/evening-chair-fans-set.toml --catalog demo/catalog --brief "
                         "demo/briefs/quiet-living-room.toml",
            .shows = "With the fans as the build file sets them, against a brief's limits."}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
