#include "app/workshop.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "analysis/fit/fit_rules.hpp"
#include "analysis/forecast/frame_rules.hpp"
#include "analysis/match/match_rules.hpp"
#include "analysis/power/power_rules.hpp"
#include "app/files.hpp"
#include "base/text.hpp"
#include "coupled/air/air_rules.hpp"

namespace rigproof::app {
namespace {

using Rules = std::vector<const Rule*>;

Rules joined(std::initializer_list<std::span<const Rule* const>> engines) {
  Rules rules;
  for (const auto engine : engines) rules.insert(rules.end(), engine.begin(), engine.end());
  return rules;
}

void complain_of_unknown_rules(const Brief& brief, Complaints& complaints) {
  std::vector<std::string_view> ids;
  for (const Rule* rule : rulebook()) ids.push_back(rule->id);
  for (const auto& [id, accept] : brief.accept_by_rule) {
    if (std::ranges::find(ids, id) != ids.end()) continue;
    const auto near = nearest(id, ids);
    const auto line = brief.lines.find("accept." + id);
    complaints.add({.file = brief.file,
                    .line = line == brief.lines.end() ? 0 : static_cast<std::size_t>(line->second),
                    .column = 0,
                    .what = "no rule has this id",
                    .expected = near ? fmt::format("a rule id, such as \"{}\"", *near)
                                     : "a rule id (see rigproof rules)",
                    .text = excerpt(id)});
  }
}

// The places a build file may name: mounts of its case, drive sockets of its board.
std::vector<std::string> places_for(const std::string& key, const BuildFile& build,
                                    const Catalog& catalog) {
  std::vector<std::string> places;
  const bool on_a_face = key == "cooler" || key == "fan";
  const Kind holder = on_a_face ? Kind::chassis : Kind::board;
  const Row row = build.build.one(holder);
  if (row == no_row) return places;
  const int relation = on_a_face ? table("case_mounts") : table("board_m2");
  for (const Row place : catalog.rows_of(relation, {holder, row}))
    places.push_back(on_a_face ? std::string(catalog.word(column("case_mounts", "mount"), place))
                               : shortest(catalog.number(column("board_m2", "socket"), place)));
  return places;
}

void complain_of_unknown_places(const BuildFile& build, const std::string& file,
                                const Catalog& catalog, Complaints& complaints) {
  for (const auto& [key, place] : build.setup.mounts) {
    const auto places = places_for(key, build, catalog);
    if (places.empty() || std::ranges::find(places, place) != places.end()) continue;
    std::string known;
    for (const std::string& name : places)
      known += fmt::format("{}\"{}\"", known.empty() ? "" : ", ", name);
    complaints.add({.file = file,
                    .line = 0,
                    .column = 0,
                    .what = fmt::format("mounts.{}: there is no such place", key),
                    .expected = fmt::format("one of {}", known),
                    .text = excerpt(place)});
  }
}

}  // namespace

std::span<const Rule* const> planning_rules() {
  static const Rules rules =
      joined({match_rules(), fit_rules(), power_rules(), forecast_rules(), air_rules()});
  return rules;
}

std::span<const Rule* const> searching_rules() {
  static const Rules rules =
      joined({planning_rules(), power_foretelling_rules(), air_foretelling_rules()});
  return rules;
}

std::span<const Rule* const> rulebook() {
  static const Rules rules = joined({planning_rules(), air_told_rules(), market_rules()});
  return rules;
}

Result<Workshop> open_workshop(const std::filesystem::path& folder, bool skip_bad) {
  const auto files = read_tables(folder);
  if (!files) return tl::unexpected(files.error());
  return workshop_of(folder, *files, skip_bad);
}

Result<Workshop> workshop_of(const std::filesystem::path& folder,
                             const std::vector<FolderFile>& files, bool skip_bad) {
  std::vector<TableFile> tables;
  tables.reserve(files.size());
  for (const FolderFile& file : files) tables.push_back({file.name, file.bytes});
  auto loaded = load_catalog(tables, {.skip_bad = skip_bad});
  if (!loaded) return bad_input(loaded.error().report());
  return Workshop{folder.string(), std::move(loaded->catalog), std::move(loaded->skipped)};
}

tl::expected<Brief, Complaints> read_given_brief(std::string_view toml, const std::string& name,
                                                 const Catalog& catalog) {
  auto brief = read_brief(toml, name, catalog);
  if (!brief) return brief;
  Complaints complaints;
  complain_of_unknown_rules(*brief, complaints);
  if (!complaints.empty()) return tl::unexpected(std::move(complaints));
  return brief;
}

tl::expected<BuildFile, Complaints> read_given_build(std::string_view toml, const std::string& name,
                                                     const Catalog& catalog) {
  auto build = read_build(toml, name, catalog);
  if (!build) return build;
  Complaints complaints;
  complain_of_unknown_places(*build, name, catalog, complaints);
  if (!complaints.empty()) return tl::unexpected(std::move(complaints));
  return build;
}

Result<Brief> open_brief(const Given& given, const Catalog& catalog) {
  const auto bytes = given.text ? Result<std::string>(*given.text) : read_file(given.name);
  if (!bytes) return tl::unexpected(bytes.error());
  auto brief = read_given_brief(*bytes, given.name, catalog);
  if (!brief) return bad_input(brief.error().report());
  return std::move(*brief);
}

Result<BuildFile> open_build(const Given& given, const Catalog& catalog) {
  const auto bytes = given.text ? Result<std::string>(*given.text) : read_file(given.name);
  if (!bytes) return tl::unexpected(bytes.error());
  auto build = read_given_build(*bytes, given.name, catalog);
  if (!build) return bad_input(build.error().report());
  return std::move(*build);
}

Result<Brief> open_brief(const std::filesystem::path& file, const Catalog& catalog) {
  return open_brief(Given{.name = file.string()}, catalog);
}

Result<BuildFile> open_build(const std::filesystem::path& file, const Catalog& catalog) {
  return open_build(Given{.name = file.string()}, catalog);
}

std::vector<Claim> claims_of(const Catalog& catalog, const Brief& brief, const PriceBook* prices,
                             const Build& build, const Setup* setup) {
  CellDraws draws(catalog);
  const Facts facts{.catalog = catalog,
                    .brief = brief,
                    .prices = prices,
                    .build = build,
                    .draws = draws,
                    .setup = setup};
  return all_claims(rulebook(), facts);
}

std::optional<double> odds_all_hold(const Catalog& catalog, const Brief& brief,
                                    const PriceBook* prices, const Build& build,
                                    const Setup* setup) {
  CellDraws draws(catalog);
  const Facts facts{.catalog = catalog,
                    .brief = brief,
                    .prices = prices,
                    .build = build,
                    .draws = draws,
                    .setup = setup};
  DrawSet all;
  all.set();
  bool any = false;
  for (const Rule* rule : rulebook()) {
    if (rule->grade == Grade::tells) continue;
    const int places = rule->places(facts);
    for (int place = 0; place < places; ++place) {
      const Finding finding = judge(*rule, facts, place);
      if (finding.verdict == Verdict::unknown) continue;
      all &= finding.holds;
      any = true;
    }
  }
  if (!any) return {};
  return static_cast<double>(all.count()) / draw_count;
}

Standing standing(const std::vector<Claim>& claims) {
  bool unknown = false;
  for (const Claim& claim : claims) {
    if (claim.grade != Grade::must) continue;
    if (claim.verdict == Verdict::fails || claim.verdict == Verdict::doubtful)
      return Standing::fails;
    unknown = unknown || claim.verdict == Verdict::unknown;
  }
  return unknown ? Standing::unknown : Standing::nothing_fails;
}

}  // namespace rigproof::app
