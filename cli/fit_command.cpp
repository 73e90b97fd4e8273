// rigproof fit BUILD --catalog DIR [--brief BRIEF] [-o DIR]
#include <memory>
#include <optional>

#include "app/asks.hpp"
#include "app/fit_of_build.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"
#include "sheet/text.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::FitAsk ask;
  std::string catalog;
  std::string folder;
  bool skip_bad = false;
};

Exit run(const Options& options, const Common& common) {
  const auto given =
      open_given_build(options.ask.build, options.catalog, options.skip_bad, options.ask.measured);
  if (!given) return failed(given.error());
  const auto brief = open_brief_beside(options.ask.brief, given->workshop.catalog);
  if (!brief) return failed(brief.error());
  const std::optional<Brief>& beside = *brief;
  const Brief* const asked = beside ? &*beside : nullptr;
  auto made = app::fit_of_build(given->workshop, asked, given->build, stop_asked);
  if (!made) return failed(made.error());
  sheet::Fit& fit = *made;
  if (stop_asked()) return Exit::stopped;
  if (const std::optional<Catalog>& before = given->before)
    app::add_measured(fit, *before, asked, given->build, given->workshop.catalog, given->measured);
  if (!options.folder.empty()) {
    const auto written = app::write_drawings(fit, options.folder);
    if (!written) return failed(written.error());
    for (const auto& file : written->files) complain(file.string() + "\n");
    if (const auto& form = written->kept_form)
      complain(form->string() + ": left as it is, since values stand in it\n");
  }
  const sheet::TextStyle style{.color = common.terminal.color, .width = common.terminal.width};
  return printed(common.json ? sheet::fit_json(fit) : sheet::fit_text(fit, style),
                 exit_of(app::standing(fit.claims)));
}

}  // namespace

Command fit_command() {
  return {
      .name = std::string(app::FitAsk::name),
      .about = std::string(app::FitAsk::about),
      .examples =
          {{.arguments = "demo/builds/evening-chair.toml --catalog demo/catalog -o "
                         "out/evening-chair",
            .shows = "A sound build: what is tight, the screws to count out beforehand, "
                     "and its drawings in out/evening-chair."},
           {.arguments = "demo/builds/trap-plug-at-the-panel.toml --catalog demo/catalog",
            .shows = "A card whose plug meets the side panel: by how much, and what to do.",
            .exit = Exit::claim_fails},
           {.arguments = "demo/builds/trap-one-header.toml --catalog demo/catalog --measure "
                         "gpu,pollwright-beam-marl-40,height_mm,128.5",
            .shows = "A card measured in the hand: the claim about its plug is no longer thin."}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        app.add_option("-o,--output", options->folder,
                       "Draw it as well: side.svg, top.svg, front.svg, drawing.svg (all three, "
                       "framed, for paper), scene.json, and measure.csv, a form for --measured, go "
                       "into this folder")
            ->type_name("DIR");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
