// The workshop: a catalog folder read and checked, and the whole rulebook beside it.
#pragma once

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "app/files.hpp"
#include "app/given.hpp"
#include "base/result.hpp"
#include "catalog/brief.hpp"
#include "catalog/build.hpp"
#include "catalog/load.hpp"
#include "catalog/price_book.hpp"
#include "claims/rule.hpp"

namespace rigproof::app {

/// Every rule of every engine, in the order claims are made and shown.
[[nodiscard]] std::span<const Rule* const> rulebook();
/// The rules a plan is searched under. Offers and budgets are not among them: the planner keeps
/// these itself, in exact money; the same market rules then speak of the finished build.
[[nodiscard]] std::span<const Rule* const> planning_rules();
/// These, and what of them can be said of fewer parts (Rule::foretells): for a search, not to tell.
[[nodiscard]] std::span<const Rule* const> searching_rules();

struct Workshop {
  std::string folder;
  Catalog catalog;
  Complaints skipped;  ///< rows left out with skip_bad
};

/// Errors: io; bad_input with the whole report of complaints.
[[nodiscard]] Result<Workshop> open_workshop(const std::filesystem::path& folder,
                                             bool skip_bad = false);

/// The same of tables that were read already: `files` are all of the folder.
[[nodiscard]] Result<Workshop> workshop_of(const std::filesystem::path& folder,
                                           const std::vector<FolderFile>& files,
                                           bool skip_bad = false);

/// Errors: io; bad_input with all complaints, unknown rule ids under [accept] among them.
[[nodiscard]] Result<Brief> open_brief(const std::filesystem::path& file, const Catalog& catalog);
[[nodiscard]] Result<BuildFile> open_build(const std::filesystem::path& file,
                                           const Catalog& catalog);
/// The same of a text.
[[nodiscard]] tl::expected<Brief, Complaints> read_given_brief(std::string_view toml,
                                                               const std::string& name,
                                                               const Catalog& catalog);
[[nodiscard]] tl::expected<BuildFile, Complaints> read_given_build(std::string_view toml,
                                                                   const std::string& name,
                                                                   const Catalog& catalog);
/// The same of what was given, file or text.
[[nodiscard]] Result<Brief> open_brief(const Given& brief, const Catalog& catalog);
[[nodiscard]] Result<BuildFile> open_build(const Given& build, const Catalog& catalog);

/// Every claim of a build under a brief (an empty one when it is judged alone).
[[nodiscard]] std::vector<Claim> claims_of(const Catalog& catalog, const Brief& brief,
                                           const PriceBook* prices, const Build& build,
                                           const Setup* setup = nullptr);

/// The share of the 256 draws in which every judged must claim holds.
[[nodiscard]] std::optional<double> odds_all_hold(const Catalog& catalog, const Brief& brief,
                                                  const PriceBook* prices, const Build& build,
                                                  const Setup* setup = nullptr);

/// What the exit code of a command says about claims (DESIGN section 8).
enum class Standing { nothing_fails, fails, unknown };
[[nodiscard]] Standing standing(const std::vector<Claim>& claims);

}  // namespace rigproof::app
