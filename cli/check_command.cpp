// rigproof check DIR
#include <memory>
#include <optional>

#include "app/asks.hpp"
#include "app/check_catalog.hpp"
#include "app/progress_words.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string folder;
  app::CheckAsk ask;
  bool skip_bad = false;
};

Exit run(const Options& options, const Common& common) {
  const auto workshop = app::open_workshop(options.folder, options.skip_bad);
  if (!workshop) return failed(workshop.error());
  if (!workshop->skipped.empty()) complain("left out:\n" + workshop->skipped.report());
  const auto opened = open_brief_beside(options.ask.brief, workshop->catalog);
  if (!opened) return failed(opened.error());
  const std::optional<Brief>& brief = *opened;
  Result<app::CatalogState> state;
  {
    ProgressLine line(common.terminal.progress, {});
    state = app::check_catalog(
        *workshop,
        {.brief = brief ? &*brief : nullptr,
         .job = {.stop = stop_asked, .report = [&line](std::size_t done, std::size_t all) {
                   line.show(app::counting_words(done, all));
                 }}});
  }
  if (!state) return failed(state.error());
  const app::CheckShown shown{.catalog = workshop->catalog,
                              .top = static_cast<std::size_t>(options.ask.top),
                              .width = common.terminal.width,
                              .color = common.terminal.color};
  return printed(common.json ? app::check_json(*state, shown) : app::check_text(*state, shown),
                 state->look_up.stopped ? Exit::stopped : Exit::done);
}

}  // namespace

Command check_command() {
  return {.name = std::string(app::CheckAsk::name),
          .about = std::string(app::CheckAsk::about),
          .examples = {{.arguments = "demo/catalog",
                        .shows = "What is unknown in the demo, and the cells whose number would "
                                 "settle most claims."}},
          .declare = [](CLI::App& app, Common& common) -> Run {
            const auto options = std::make_shared<Options>();
            app.add_option("DIR", options->folder, "Folder of .csv tables (docs/catalog.md)")
                ->required();
            OptionInputs inputs(app);
            declare(inputs, options->ask);
            app.add_flag("--skip-bad", options->skip_bad,
                         "Leave bad rows out and go on; they are listed");
            return [options, &common] { return run(*options, common); };
          }};
}

}  // namespace rigproof::cli
