// What commands about a brief begin with: the options they share, and catalog, brief and planning
// opened from them.
#pragma once

#include <CLI/CLI.hpp>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/inputs.hpp"
#include "app/measured.hpp"
#include "app/planning.hpp"
#include "store/instant.hpp"

namespace rigproof::cli {

/// The options --catalog DIR and --skip-bad, worded alike everywhere.
void add_catalog(CLI::App& app, std::string& catalog);
void add_skip_bad(CLI::App& app, bool& skip_bad);

/// The time of day, for what a store keeps.
[[nodiscard]] store::Instant now();

struct Session {
  app::Workshop workshop;
  Brief brief;
  std::unique_ptr<app::Planning> planning;  ///< looks at the other two
};

/// Bad rows that are left out are listed on stderr. Errors: what cannot be read, with file and
/// line.
[[nodiscard]] Result<std::unique_ptr<Session>> open_session(const app::Given& brief,
                                                            const std::string& catalog,
                                                            bool skip_bad);

/// For commands that a brief may stand beside: nothing where none is given.
[[nodiscard]] Result<std::optional<Brief>> open_brief_beside(const app::Given& brief,
                                                             const Catalog& catalog);

/// What commands about a given build begin with.
struct GivenBuild {
  app::Workshop workshop;  ///< with what was measured
  BuildFile build;
  std::vector<MeasuredCell> measured;
  std::optional<Catalog> before;  ///< as the catalog's files say; only where something was measured
};
/// Bad rows that are left out are listed on stderr. Errors: what cannot be read, with file and
/// line.
[[nodiscard]] Result<GivenBuild> open_given_build(const app::Given& build,
                                                  const std::string& catalog, bool skip_bad,
                                                  const app::MeasuredInput& measured);

}  // namespace rigproof::cli
