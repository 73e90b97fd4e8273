#include "cli/session.hpp"

#include <chrono>
#include <utility>

#include "app/files.hpp"
#include "cli/terminal.hpp"

namespace rigproof::cli {

store::Instant now() {
  return {std::chrono::duration_cast<std::chrono::seconds>(
              std::chrono::system_clock::now().time_since_epoch())
              .count()};
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

Result<std::unique_ptr<Session>> open_session(const app::Given& brief, const std::string& catalog,
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

Result<std::optional<Brief>> open_brief_beside(const app::Given& brief, const Catalog& catalog) {
  if (brief.empty()) return std::optional<Brief>();
  auto opened = app::open_brief(brief, catalog);
  if (!opened) return tl::unexpected(opened.error());
  return std::optional<Brief>(std::move(*opened));
}

Result<GivenBuild> open_given_build(const app::Given& build, const std::string& catalog,
                                    bool skip_bad, const app::MeasuredInput& measured) {
  auto workshop = app::open_workshop(catalog, skip_bad);
  if (!workshop) return tl::unexpected(workshop.error());
  if (!workshop->skipped.empty()) complain("left out:\n" + workshop->skipped.report());
  GivenBuild out{.workshop = std::move(*workshop), .build = {}, .measured = {}, .before = {}};
  if (!measured.empty()) {
    auto now = app::with_measured(out.workshop, measured);
    if (!now) return tl::unexpected(now.error());
    out.before = std::move(out.workshop.catalog);
    out.workshop = std::move(now->workshop);
    out.measured = std::move(now->cells);
  }
  auto opened = app::open_build(build, out.workshop.catalog);
  if (!opened) return tl::unexpected(opened.error());
  out.build = std::move(*opened);
  return out;
}

}  // namespace rigproof::cli
