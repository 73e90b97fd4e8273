#include "cli/session.hpp"

#include <utility>

#include "app/files.hpp"
#include "cli/terminal.hpp"

namespace rigproof::cli {

void add_brief(CLI::App& app, std::string& brief) {
  app.add_option("BRIEF", brief, "What the build is for (TOML, docs/brief.md)")->required();
}

void add_catalog(CLI::App& app, std::string& catalog) {
  app.add_option("--catalog", catalog, "Folder of .csv tables (docs/catalog.md)")
      ->required()
      ->type_name("DIR");
}

void add_skip_bad(CLI::App& app, bool& skip_bad) {
  app.add_flag("--skip-bad", skip_bad,
               "Leave bad rows of the catalog out and go on; they are listed");
}

Result<std::unique_ptr<Session>> open_session(const std::string& brief, const std::string& catalog,
                                              bool skip_bad) {
  auto workshop = app::open_workshop(catalog, skip_bad);
  if (!workshop) return tl::unexpected(workshop.error());
  if (!workshop->skipped.empty()) complain("left out:\n" + workshop->skipped.report());
  auto opened = app::open_brief(brief, workshop->catalog);
  if (!opened) return tl::unexpected(opened.error());
  auto session = std::make_unique<Session>(
      Session{.workshop = std::move(*workshop), .brief = std::move(*opened), .planning = {}});
  auto planning = app::Planning::start(session->workshop, session->brief);
  if (!planning) return tl::unexpected(planning.error());
  session->planning = std::move(*planning);
  return session;
}

}  // namespace rigproof::cli
