// rigproof air BUILD --catalog DIR [--brief BRIEF] [--speed PERCENT]
//   [--cooler-speed PERCENT] [--show-work]
#include <fmt/format.h>

#include <memory>
#include <optional>

#include "app/air_of_build.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "sheet/text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string build;
  std::string catalog;
  std::string brief;
  double speed_percent = 0.0;
  double cooler_speed_percent = 0.0;
  double distance_m = 1.0;
  bool show_work = false;
  bool skip_bad = false;
  app::MeasuredInput measured;
};

// CLI::Range would let a NaN pass.
CLI::Validator between(double least, double most, const char* unit) {
  return {[=](const std::string& text) {
            double value = 0.0;
            if (CLI::detail::lexical_cast(text, value) && value >= least && value <= most)
              return std::string();
            return fmt::format("expected {:g} to {:g} {}, got {}", least, most, unit, text);
          },
          "", unit};
}

Exit run(const Options& options, const Common& common) {
  const auto given =
      open_given_build(options.build, options.catalog, options.skip_bad, options.measured);
  if (!given) return failed(given.error());
  const auto opened = open_brief_beside(options.brief, given->workshop.catalog);
  if (!opened) return failed(opened.error());
  const std::optional<Brief>& brief = *opened;
  const sheet::Air air =
      app::air_of_build(given->workshop, given->build,
                        {.brief = brief ? &*brief : nullptr,
                         .speed_frac = options.speed_percent / 100.0,
                         .cooler_speed_frac = options.cooler_speed_percent / 100.0,
                         .distance_m = options.distance_m,
                         .show_work = options.show_work,
                         .stop = stop_asked});
  if (stop_asked()) return Exit::stopped;
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? sheet::air_json(air) : sheet::air_text(air, style),
                 exit_of(app::standing(air.claims)));
}

}  // namespace

Command air_command() {
  return {
      .name = "air",
      .about =
          "How much air goes through a build, how hot it gets, what power it keeps up, how loud it "
          "is.",
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
        add_build(app, options->build);
        add_catalog(app, options->catalog);
        app.add_option("--brief", options->brief,
                       "Its room and its limits on temperature and noise")
            ->type_name("BRIEF");
        app.add_option("--speed", options->speed_percent,
                       "Run all fans at this share of full speed, 10 to 100, instead of what the "
                       "build file sets or the quietest that keeps the limits")
            ->check(between(10.0, 100.0, "percent"))
            ->type_name("PERCENT");
        app.add_option("--cooler-speed", options->cooler_speed_percent,
                       "The same for the cooler's fans alone; the case's as --speed says, else as "
                       "without it")
            ->check(between(10.0, 100.0, "percent"))
            ->type_name("PERCENT");
        app.add_option("--distance", options->distance_m,
                       "Heard from so many meters, 0.1 to 10, where the brief does not say")
            ->check(between(0.1, 10.0, "meters"))
            ->type_name("METERS");
        app.add_flag("--show-work", options->show_work, "Print the equations with the numbers in");
        add_measured(app, options->measured);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
