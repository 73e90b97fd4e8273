// rigproof fit BUILD --catalog DIR [-o DIR]
#include <memory>

#include "app/fit_of_build.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"
#include "sheet/text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string build;
  std::string catalog;
  std::string folder;
  bool skip_bad = false;
};

Exit run(const Options& options, const Common& common) {
  const auto workshop = app::open_workshop(options.catalog, options.skip_bad);
  if (!workshop) return failed(workshop.error());
  if (!workshop->skipped.empty()) complain("left out:\n" + workshop->skipped.report());
  const auto build = app::open_build(options.build, workshop->catalog);
  if (!build) return failed(build.error());
  const sheet::Fit fit = app::fit_of_build(*workshop, *build, stop_asked);
  if (!options.folder.empty()) {
    const auto written = app::write_drawings(fit, options.folder);
    if (!written) return failed(written.error());
    for (const auto& file : *written) complain(file.string() + "\n");
  }
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? sheet::fit_json(fit) : sheet::fit_text(fit, style),
                 exit_of(app::standing(fit.claims)));
}

}  // namespace

Command fit_command() {
  return {
      .name = "fit",
      .about =
          "Where everything of a build sits: mounts, clearances, what to measure on the "
          "table, standoffs and screws.",
      .examples = {{.arguments = "demo/builds/evening-chair.toml --catalog demo/catalog -o "
                                 "out/evening-chair",
                    .shows = "A sound build: what is tight, the screws to count out beforehand, "
                             "and its drawings in out/evening-chair."},
                   {.arguments = "demo/builds/trap-plug-at-the-panel.toml --catalog demo/catalog",
                    .shows = "A card whose plug meets the side panel: by how much, and what to do.",
                    .exit = Exit::claim_fails}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        app.add_option("BUILD", options->build, "A build file (TOML, docs/brief.md)")->required();
        add_catalog(app, options->catalog);
        app.add_option("-o,--output", options->folder,
                       "Draw it as well: side.svg, top.svg, front.svg, drawing.svg (all three, "
                       "framed, for paper) and scene.json go into this folder")
            ->type_name("DIR");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
