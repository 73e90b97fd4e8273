// rigproof claims BUILD --catalog DIR [--brief BRIEF]
#include <fmt/format.h>

#include <memory>

#include "app/asks.hpp"
#include "app/claims_of_build.hpp"
#include "app/describe.hpp"
#include "app/measured_claims.hpp"
#include "app/workshop.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/json.hpp"
#include "sheet/text.hpp"
#include "sheet/text_short.hpp"
#include "sheet/wording.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::ClaimsAsk ask;
  std::string catalog;
  bool short_form = false;
  bool skip_bad = false;
};

Exit run(const Options& options, const Common& common) {
  const auto given =
      open_given_build(options.ask.build, options.catalog, options.skip_bad, options.ask.measured);
  if (!given) return failed(given.error());
  const app::Workshop* const workshop = &given->workshop;
  const BuildFile* const build = &given->build;
  const auto brief = open_brief_beside(options.ask.brief, workshop->catalog);
  if (!brief) return failed(brief.error());
  const std::optional<Brief>& asked = *brief;
  const Brief* const under = asked ? &*asked : nullptr;
  auto made = app::claims_of_build(workshop->catalog, under, *build, stop_asked);
  if (!made) return failed(made.error());
  if (const std::optional<Catalog>& before = given->before)
    app::settle_measured(*made, *before, under, *build, given->measured);
  const std::vector<Claim>& claims = *made;
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  const auto text = [&] {
    if (common.json) return sheet::claims_json(build->name, claims);
    if (!options.short_form) return sheet::claims_text(build->name, claims, style);
    const auto parts =
        app::part_lines(workshop->catalog, asked.value_or(Brief{}), build->build, &build->setup);
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
      .name = std::string(app::ClaimsAsk::name),
      .about = std::string(app::ClaimsAsk::about),
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
        add_inputs(app, options->ask, options->catalog);
        add_short(app, options->short_form);
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
