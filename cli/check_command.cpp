// rigproof check DIR
#include <memory>
#include <optional>

#include "app/check_catalog.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string folder;
  std::string brief;
  std::size_t top = 10;
  bool skip_bad = false;
};

Exit run(const Options& options, const Common& common) {
  const auto workshop = app::open_workshop(options.folder, options.skip_bad);
  if (!workshop) return failed(workshop.error());
  if (!workshop->skipped.empty()) complain("left out:\n" + workshop->skipped.report());
  const auto opened = open_brief_beside(options.brief, workshop->catalog);
  if (!opened) return failed(opened.error());
  const std::optional<Brief>& brief = *opened;
  Result<app::CatalogState> state;
  {
    ProgressLine line(common.terminal.progress, {});
    state = app::check_catalog(
        *workshop,
        {.brief = brief ? &*brief : nullptr,
         .job = {.stop = stop_asked, .report = [&line](std::size_t done, std::size_t all) {
                   line.show("counting what empty cells cost: rule " + std::to_string(done + 1) +
                             " of " + std::to_string(all));
                 }}});
  }
  if (!state) return failed(state.error());
  const app::CheckShown shown{.catalog = workshop->catalog,
                              .top = options.top,
                              .width = common.terminal.width,
                              .color = common.terminal.color};
  return printed(common.json ? app::check_json(*state, shown) : app::check_text(*state, shown),
                 state->look_up.stopped ? Exit::stopped : Exit::done);
}

}  // namespace

Command check_command() {
  return {.name = "check",
          .about =
              "Validate a catalog folder: every bad row, what is unknown and what that costs in "
              "verdicts, what to look up first, values worth a second look, where cells come "
              "from.",
          .examples = {{.arguments = "demo/catalog",
                        .shows = "What is unknown in the demo, and the cells whose number would "
                                 "settle most claims."}},
          .declare = [](CLI::App& app, Common& common) -> Run {
            const auto options = std::make_shared<Options>();
            app.add_option("DIR", options->folder, "Folder of .csv tables (docs/catalog.md)")
                ->required();
            app.add_option("--brief", options->brief,
                           "Count for the parts this brief may use, and with what it asks for")
                ->type_name("BRIEF");
            app.add_option("--top", options->top,
                           "How many cells to look up first, 0 to 1000, ranked as in "
                           "docs/decisions/0006-what-to-look-up-first.md")
                ->type_name("N")
                ->check(CLI::Range(0, 1000))
                ->capture_default_str();
            app.add_flag("--skip-bad", options->skip_bad,
                         "Leave bad rows out and go on; they are listed");
            return [options, &common] { return run(*options, common); };
          }};
}

}  // namespace rigproof::cli
