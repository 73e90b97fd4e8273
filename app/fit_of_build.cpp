#include "app/fit_of_build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "analysis/fit/layout.hpp"
#include "analysis/fit/mounting.hpp"
#include "app/files.hpp"
#include "app/remedies.hpp"
#include "base/text.hpp"
#include "sheet/drawing.hpp"
#include "sheet/scene_json.hpp"

namespace rigproof::app {
namespace {

std::string times(int count, std::string_view name) {
  return count == 1 ? std::string(name) : fmt::format("{} x {}", count, name);
}

std::vector<sheet::Seat> seats_of(const Facts& facts) {
  std::vector<sheet::Seat> out;
  if (!facts.build.has(Kind::chassis)) return out;
  const Catalog& catalog = facts.catalog;
  const fit::Mounting mounting = fit::choose_mounting(facts);
  const auto mount_name = [&](Row mount) {
    return std::string(catalog.word(column("case_mounts", "mount"), mount));
  };
  const auto fixed = [&](const char* what) {
    return facts.mounts != nullptr && facts.mounts->contains(what);
  };
  if (fit::has_radiator(facts)) {
    const PartRef cooler{Kind::cooler, facts.build.one(Kind::cooler)};
    out.push_back({.mount = mounting.radiator == no_row ? "" : mount_name(mounting.radiator),
                   .what = fmt::format("radiator of {}", catalog.name(cooler)),
                   .part_id = std::string(catalog.id(cooler)),
                   .by_author = fixed("cooler")});
  }
  const auto fans = facts.build.of(Kind::fan);
  for (const fit::FanGroup& group : mounting.groups()) {
    const PartRef fan{Kind::fan, fans[static_cast<std::size_t>(group.model)].row};
    out.push_back({.mount = mount_name(group.mount),
                   .what = times(group.count, catalog.name(fan)),
                   .part_id = std::string(catalog.id(fan)),
                   .by_author = fixed("fan")});
  }
  for (std::size_t model = 0; model < fans.size(); ++model) {
    if (mounting.unplaced[model] == 0) continue;
    const PartRef fan{Kind::fan, fans[model].row};
    out.push_back({.mount = {},
                   .what = times(mounting.unplaced[model], catalog.name(fan)),
                   .part_id = std::string(catalog.id(fan)),
                   .by_author = fixed("fan")});
  }
  return out;
}

fit::StandoffPlan standoffs_of(const Facts& facts) {
  if (!facts.build.has(Kind::board) || !facts.build.has(Kind::chassis)) {
    fit::StandoffPlan none;
    none.why_not = "The build has no board or no case.";
    return none;
  }
  std::vector<std::string_view> taken;
  std::string_view list =
      facts.catalog.word(column("case", "form_factors"), facts.build.one(Kind::chassis));
  while (!list.empty()) {
    const std::string_view word = list.substr(0, list.find('|'));
    list.remove_prefix(std::min(list.size(), word.size() + 1));
    taken.push_back(word);
  }
  return fit::standoff_plan(
      facts.catalog.word(column("board", "form_factor"), facts.build.one(Kind::board)), taken);
}

// A claim hangs on its cells while tolerances, class ranges or holes leave its verdict open.
bool is_open(const Claim& claim) {
  return claim.verdict == Verdict::thin || claim.verdict == Verdict::doubtful ||
         claim.verdict == Verdict::unknown;
}

std::string now_words(const WorkingCell& cell) {
  if (!cell.value.text.empty()) return cell.value.text;
  std::string out = shortest(cell.value.value);
  if (!cell.value.unit.empty()) out += " " + cell.value.unit;
  if (!cell.certainty.empty()) out += ", " + cell.certainty;
  return out;
}

std::vector<sheet::ToMeasure> to_measure(const std::vector<Claim>& claims) {
  using Key = std::tuple<std::string, std::string, std::string>;
  std::vector<sheet::ToMeasure> out;
  std::map<Key, std::size_t> place;
  for (const Claim& claim : claims) {
    if (!is_open(claim)) continue;
    for (const WorkingCell& cell : claim.working.cells) {
      const bool absent = cell.value.text == "not known";
      if (cell.certainty.empty() && !absent) continue;
      const auto [at, fresh] =
          place.try_emplace(Key(cell.table, cell.row, cell.column), out.size());
      if (fresh)
        out.push_back({.part = cell.part,
                       .meaning = cell.meaning,
                       .table = cell.table,
                       .row = cell.row,
                       .column = cell.column,
                       .now = now_words(cell),
                       .claims = {}});
      out[at->second].claims.push_back(
          claim.where.empty() ? claim.id : fmt::format("{} ({})", claim.id, claim.where));
    }
  }
  std::ranges::stable_sort(out, std::ranges::greater{},
                           [](const sheet::ToMeasure& cell) { return cell.claims.size(); });
  return out;
}

}  // namespace

sheet::Fit fit_of_build(const Workshop& workshop, const BuildFile& build,
                        const std::function<bool()>& stop) {
  const Catalog& catalog = workshop.catalog;
  const Brief alone;
  CellDraws draws(catalog);
  const Facts facts{.catalog = catalog,
                    .brief = alone,
                    .prices = nullptr,
                    .build = build.build,
                    .draws = draws,
                    .mounts = &build.mounts};
  sheet::Fit out;
  out.build = build.name;
  if (build.build.has(Kind::chassis))
    out.chassis = catalog.name({Kind::chassis, build.build.one(Kind::chassis)});
  out.claims = claims_of(catalog, alone, nullptr, build.build, &build.mounts);
  add_swaps({.catalog = catalog,
             .brief = alone,
             .prices = nullptr,
             .build = build.build,
             .mounts = &build.mounts},
            out.claims, stop);
  std::erase_if(out.claims, [](const Claim& claim) { return !claim.id.starts_with("fit."); });
  out.seats = seats_of(facts);
  out.standoffs = standoffs_of(facts);
  out.fasteners = fit::fasteners(facts);
  out.to_measure = to_measure(out.claims);
  out.scene = fit::scene_of(facts, out.claims, build.name);
  return out;
}

std::optional<fit::Scene> scene_of_build(const Catalog& catalog, const Build& build,
                                         const Mounts* mounts, const std::vector<Claim>& claims,
                                         const std::string& title) {
  if (!build.has(Kind::chassis)) return {};
  const Brief alone;
  CellDraws draws(catalog);
  return fit::scene_of({.catalog = catalog,
                        .brief = alone,
                        .prices = nullptr,
                        .build = build,
                        .draws = draws,
                        .mounts = mounts},
                       claims, title);
}

Result<std::vector<std::filesystem::path>> write_drawings(const sheet::Fit& fit,
                                                          const std::filesystem::path& folder) {
  const fit::Scene scene = sheet::with_near_gaps(fit.scene);
  sheet::DrawingForm form = sheet::page_form();
  form.standalone = true;
  const std::vector<FileToWrite> files = {
      {folder / "side.svg", sheet::side_section_svg(scene, form)},
      {folder / "top.svg", sheet::top_view_svg(scene, form)},
      {folder / "front.svg", sheet::front_view_svg(scene, form)},
      {folder / "drawing.svg", sheet::drawing_sheet_svg(scene)},
      {folder / "scene.json", sheet::scene_json(fit.scene)}};
  if (const auto done = write_together(files); !done) return tl::unexpected(done.error());
  std::vector<std::filesystem::path> written;
  written.reserve(files.size());
  for (const FileToWrite& file : files) written.push_back(file.path);
  return written;
}

}  // namespace rigproof::app
