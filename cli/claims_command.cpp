// rigproof claims BUILD --catalog DIR [--brief BRIEF]
#include <fmt/format.h>

#include <memory>

#include "app/describe.hpp"
#include "app/remedies.hpp"
#include "app/workshop.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "sheet/json.hpp"
#include "sheet/text.hpp"
#include "sheet/text_short.hpp"
#include "sheet/wording.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string build;
  std::string catalog;
  std::string brief;
  bool short_form = false;
  bool skip_bad = false;
  app::MeasuredInput measured;
};

Exit run(const Options& options, const Common& common) {
  const auto given =
      open_given_build(options.build, options.catalog, options.skip_bad, options.measured);
  if (!given) return failed(given.error());
  const app::Workshop* const workshop = &given->workshop;
  const BuildFile* const build = &given->build;
  Brief asked;
  std::optional<PriceBook> prices;
  if (!options.brief.empty()) {
    auto brief = app::open_brief(options.brief, workshop->catalog);
    if (!brief) return failed(brief.error());
    asked = std::move(*brief);
    auto book = PriceBook::make(workshop->catalog, asked);
    if (!book) return failed(book.error());
    prices = std::move(*book);
  }
  auto claims = app::claims_of(workshop->catalog, asked, prices ? &*prices : nullptr, build->build,
                               &build->setup);
  app::add_swaps({.catalog = workshop->catalog,
                  .brief = asked,
                  .prices = prices ? &*prices : nullptr,
                  .build = build->build,
                  .setup = &build->setup},
                 claims, stop_asked);
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  const auto text = [&] {
    if (common.json) return sheet::claims_json(build->name, claims);
    if (!options.short_form) return sheet::claims_text(build->name, claims, style);
    const auto parts = app::part_lines(workshop->catalog, asked, build->build, &build->setup);
    return sheet::claims_short_text(build->name, parts, claims, style);
  };
  const std::size_t measured = given->measured.size();
  const std::string rests =
      measured == 0 || common.json
          ? std::string()
          : fmt::format(
                "With {} in place of the catalog's; rigproof fit tells what that changes.\n\n",
                sheet::counted(static_cast<long long>(measured), "measured value"));
  return printed(rests + text(), exit_of(app::standing(claims)));
}

}  // namespace

Command claims_command() {
  return {
      .name = "claims",
      .about =
          "Every claim of a given build: what it rests on, how far from failing, and what to do.",
      .examples =
          {{.arguments = "demo/builds/evening-chair.toml --catalog demo/catalog --short",
            .shows = "A sound build in short: its parts, and whatever does not hold."},
           {.arguments = "demo/builds/friday-shelf.toml --catalog demo/catalog --brief "
                         "demo/briefs/quiet-living-room.toml",
            .shows = "A build that does not go together, held against a brief: each failing claim "
                     "says by how much it fails and what would mend it.",
            .exit = Exit::claim_fails}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_build(app, options->build);
        add_catalog(app, options->catalog);
        app.add_option("--brief", options->brief, "Hold the build against this brief as well")
            ->type_name("BRIEF");
        add_short(app, options->short_form);
        add_measured(app, options->measured);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
