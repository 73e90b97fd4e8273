// rigproof check DIR
#include <memory>

#include "app/check_catalog.hpp"
#include "cli/commands.hpp"

namespace rigproof::cli {

Command check_command() {
  return {
      .name = "check",
      .about = "Validate a catalog folder: every bad row, what is unknown, where cells come from.",
      .declare = [](CLI::App& app, Common& common) -> Run {
        struct Options {
          std::string folder;
          bool skip_bad = false;
        };
        const auto options = std::make_shared<Options>();
        app.add_option("DIR", options->folder, "Folder of .csv tables (docs/catalog.md)")
            ->required();
        app.add_flag("--skip-bad", options->skip_bad,
                     "Leave bad rows out and go on; they are listed");
        return [options, &common] {
          const auto workshop = app::open_workshop(options->folder, options->skip_bad);
          if (!workshop) return failed(workshop.error());
          if (!workshop->skipped.empty()) complain("left out:\n" + workshop->skipped.report());
          const auto state = app::check_catalog(*workshop);
          return printed(common.json ? app::check_json(state) : app::check_text(state), Exit::done);
        };
      }};
}

}  // namespace rigproof::cli
