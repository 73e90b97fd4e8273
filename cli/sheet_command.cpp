// rigproof sheet BUILD -o DIR --catalog DIR [--brief BRIEF]
#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>

#include "app/asks.hpp"
#include "app/make_sheet.hpp"
#include "cli/commands.hpp"
#include "cli/inputs.hpp"
#include "cli/session.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::SheetAsk ask;
  std::string folder;
  std::string catalog;
  bool skip_bad = false;
};

std::string written_text(const std::vector<std::filesystem::path>& files, bool json) {
  if (json) {
    nlohmann::ordered_json out = {{"schema", "rigproof.sheet/1"},
                                  {"files", nlohmann::ordered_json::array()}};
    for (const auto& file : files) out["files"].push_back(file.string());
    return out.dump(2) + "\n";
  }
  std::string out;
  for (const auto& file : files) out += file.string() + "\n";
  return out;
}

Exit run(const Options& options, const Common& common) {
  const auto workshop = app::open_workshop(options.catalog, options.skip_bad);
  if (!workshop) return failed(workshop.error());
  if (!workshop->skipped.empty()) complain("left out:\n" + workshop->skipped.report());
  const auto build = app::open_build(options.ask.build, workshop->catalog);
  if (!build) return failed(build.error());
  sheet::Sheet sheet = app::sheet_of_build_alone(*workshop, *build);
  if (!options.ask.brief.empty()) {
    const auto brief = app::open_brief(options.ask.brief, workshop->catalog);
    if (!brief) return failed(brief.error());
    const auto planning = app::Planning::start(*workshop, *brief);
    if (!planning) return failed(planning.error());
    ProgressLine line(common.terminal.progress, brief->markets.front().budget.currency);
    sheet = app::sheet_of_build(*workshop, **planning, *build, job_for(line));
  }
  if (stop_asked()) return Exit::stopped;
  const auto written = app::write_sheet(sheet, options.folder);
  if (!written) return failed(written.error());
  return printed(written_text(*written, common.json), exit_of(app::standing(sheet.build.claims)));
}

}  // namespace

Command sheet_command() {
  return {
      .name = std::string(app::SheetAsk::name),
      .about = std::string(app::SheetAsk::about),
      .examples = {{.arguments = "demo/builds/evening-chair.toml -o out/evening-chair --catalog "
                                 "demo/catalog",
                    .shows = "Six files in out/evening-chair; open sheet.html in a browser."}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        add_inputs(app, options->ask, options->catalog);
        app.add_option("-o,--output", options->folder, "Folder the files go into")
            ->required()
            ->type_name("DIR");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
