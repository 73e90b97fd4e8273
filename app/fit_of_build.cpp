#include "app/fit_of_build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <tuple>

#include "analysis/fit/layout.hpp"
#include "analysis/fit/mounting.hpp"
#include "app/claims_of_build.hpp"
#include "app/differences.hpp"
#include "app/files.hpp"
#include "app/measured_claims.hpp"
#include "base/text.hpp"
#include "base/units.hpp"
#include "catalog/split_bars.hpp"
#include "claims/working.hpp"
#include "sheet/drawing.hpp"
#include "sheet/scene_json.hpp"

namespace rigproof::app {
namespace {

std::string times(int count, std::string_view name) {
  return count == 1 ? std::string(name) : fmt::format("{} x {}", count, name);
}

constexpr std::string_view own_claims = "fit.";

// A build under a brief, an empty one where there is none, with draws of its own.
struct Placed {
  Placed(const Catalog& catalog, const Brief* asked, const BuildFile& build)
      : brief(asked != nullptr ? *asked : Brief()),
        draws(catalog),
        facts{.catalog = catalog,
              .brief = brief,
              .prices = nullptr,
              .build = build.build,
              .draws = draws,
              .setup = &build.setup} {}
  Placed(const Placed&) = delete;
  Placed& operator=(const Placed&) = delete;
  Brief brief;
  CellDraws draws;
  Facts facts;
};

std::vector<sheet::Seat> seats_of(const Facts& facts) {
  std::vector<sheet::Seat> out;
  if (!facts.build.has(Kind::chassis)) return out;
  const Catalog& catalog = facts.catalog;
  const fit::Mounting mounting = fit::choose_mounting(facts);
  const auto mount_name = [&](Row mount) { return std::string(fit::mount_name(catalog, mount)); };
  const auto wished = [&](const char* what) { return std::string(fit::author_mount(facts, what)); };
  if (fit::has_radiator(facts)) {
    const PartRef cooler{Kind::cooler, facts.build.one(Kind::cooler)};
    out.push_back({.mount = mounting.radiator == no_row ? "" : mount_name(mounting.radiator),
                   .what = fmt::format("radiator of {}", catalog.name(cooler)),
                   .part_id = std::string(catalog.id(cooler)),
                   .wished = wished("cooler"),
                   .displaced_fans = fit::fans_sold_on(facts, mounting.radiator)});
  }
  const auto fans = facts.build.of(Kind::fan);
  for (const fit::FanGroup& group : mounting.groups()) {
    const PartRef fan{Kind::fan, fans[static_cast<std::size_t>(group.model)].row};
    out.push_back({.mount = mount_name(group.mount),
                   .what = times(group.count, catalog.name(fan)),
                   .part_id = std::string(catalog.id(fan)),
                   .wished = wished("fan")});
  }
  for (std::size_t model = 0; model < fans.size(); ++model) {
    if (mounting.unplaced[model] == 0) continue;
    const PartRef fan{Kind::fan, fans[model].row};
    out.push_back({.mount = {},
                   .what = times(mounting.unplaced[model], catalog.name(fan)),
                   .part_id = std::string(catalog.id(fan)),
                   .wished = wished("fan")});
  }
  return out;
}

fit::StandoffPlan standoffs_of(const Facts& facts) {
  if (!facts.build.has(Kind::board) || !facts.build.has(Kind::chassis)) {
    fit::StandoffPlan none;
    none.why_not = "The build has no board or no case.";
    return none;
  }
  return fit::standoff_plan(
      facts.catalog.word(column("board", "form_factor"), facts.build.one(Kind::board)),
      split_bars(
          facts.catalog.word(column("case", "form_factors"), facts.build.one(Kind::chassis))));
}

// A claim hangs on its cells while tolerances, class ranges or holes leave its verdict open.
bool is_open(const Claim& claim) {
  return claim.verdict == Verdict::thin || claim.verdict == Verdict::doubtful ||
         claim.verdict == Verdict::unknown;
}

// The cells a claim's verdict hangs on. Where some are not known, nothing else can settle it.
std::vector<WorkingCell> cells_it_hangs_on(const Claim& claim) {
  std::vector<WorkingCell> out;
  for (const Missing& missing : claim.missing) {
    const auto read = std::ranges::find_if(claim.working.cells, [&](const WorkingCell& cell) {
      return cell.table == missing.table && cell.row == missing.row &&
             cell.column == missing.column;
    });
    if (read != claim.working.cells.end()) {
      out.push_back(*read);
      continue;
    }
    WorkingCell cell;
    cell.meaning = missing.how;
    cell.table = missing.table;
    cell.row = missing.row;
    cell.column = missing.column;
    cell.value.text = "not known";
    out.push_back(std::move(cell));
  }
  if (!out.empty()) return out;
  std::ranges::copy_if(claim.working.cells, std::back_inserter(out),
                       [](const WorkingCell& cell) { return !cell.certainty.empty(); });
  return out;
}

std::vector<sheet::ToMeasure> to_measure(const std::vector<Claim>& claims) {
  using Key = std::tuple<std::string, std::string, std::string>;
  std::vector<sheet::ToMeasure> out;
  std::map<Key, std::size_t> place;
  for (const Claim& claim : claims) {
    if (!is_open(claim)) continue;
    for (WorkingCell& cell : cells_it_hangs_on(claim)) {
      const auto [at, fresh] =
          place.try_emplace(Key(cell.table, cell.row, cell.column), out.size());
      if (fresh) out.push_back({.cell = std::move(cell), .claims = {}});
      out[at->second].claims.push_back(
          claim.where.empty() ? claim.id : fmt::format("{} ({})", claim.id, claim.where));
    }
  }
  std::ranges::stable_sort(out, std::ranges::greater{},
                           [](const sheet::ToMeasure& entry) { return entry.claims.size(); });
  return out;
}

bool looks_at(const Claim& claim, const WorkingCell& cell) {
  return claim.working.cells_left_out > 0 ||
         std::ranges::any_of(claim.working.cells, [&](const WorkingCell& seen) {
           return seen.table == cell.table && seen.row == cell.row && seen.column == cell.column;
         });
}

// A cell as its file says it, with its half-width: "128.5 mm, plus-minus 0.5 mm"; "not known".
std::string exact_words(const Catalog& catalog, CellRef cell) {
  if (catalog.absent(cell.column, cell.row)) return "not known";
  const Type type = spec(cell.column).type;
  const bool is_number = type == Type::number || type == Type::count;
  const std::string_view unit = is_number ? unit_of(spec(cell.column).name) : "";
  const std::string after = unit.empty() ? std::string() : fmt::format(" {}", unit);
  std::string out = catalog.text(cell.column, cell.row) + after;
  const double half_width = is_number ? catalog.half_width(cell.column, cell.row) : 0.0;
  if (half_width > 0.0) out += fmt::format(", plus-minus {}{}", shortest(half_width), after);
  return out;
}

}  // namespace

Result<sheet::Fit> fit_of_build(const Workshop& workshop, const Brief* brief,
                                const BuildFile& build, const std::function<bool()>& stop) {
  const Catalog& catalog = workshop.catalog;
  auto claims = claims_of_build(catalog, brief, build, stop, own_claims);
  if (!claims) return tl::unexpected(claims.error());
  const Placed placed(catalog, brief, build);
  const Facts& facts = placed.facts;
  sheet::Fit out;
  out.build = build.name;
  out.brief = placed.brief.name;
  if (build.build.has(Kind::chassis))
    out.chassis = catalog.name({Kind::chassis, build.build.one(Kind::chassis)});
  out.claims = std::move(*claims);
  out.seats = seats_of(facts);
  out.standoffs = standoffs_of(facts);
  out.fasteners = fit::fasteners(facts);
  out.to_measure = to_measure(out.claims);
  out.scene = fit::scene_of(facts, out.claims, build.name);
  return out;
}

std::optional<fit::Scene> scene_of_build(const Catalog& catalog, const Brief& brief,
                                         const Build& build, const Setup* setup,
                                         const std::vector<Claim>& claims,
                                         const std::string& title) {
  if (!build.has(Kind::chassis)) return {};
  CellDraws draws(catalog);
  return fit::scene_of({.catalog = catalog,
                        .brief = brief,
                        .prices = nullptr,
                        .build = build,
                        .draws = draws,
                        .setup = setup},
                       claims, title);
}

void add_measured(sheet::Fit& fit, const Catalog& before, const Brief* brief,
                  const BuildFile& build, const Catalog& now,
                  const std::vector<MeasuredCell>& cells) {
  const Placed placed(now, brief, build);
  for (const MeasuredCell& measured : cells) {
    const CellRef cell = measured.cell;
    fit.measured.push_back({.cell = working_cell(placed.facts, {cell.column, cell.row}),
                            .now = exact_words(now, cell),
                            .was = exact_words(before, cell)});
    sheet::MeasuredHere& here = fit.measured.back();
    here.read = std::ranges::any_of(fit.claims,
                                    [&](const Claim& claim) { return looks_at(claim, here.cell); });
  }
  std::vector<Claim> cataloged =
      claims_of(before, placed.brief, nullptr, build.build, &build.setup);
  std::erase_if(cataloged, [](const Claim& claim) { return !claim.id.starts_with(own_claims); });
  fit.turned = claim_changes(cataloged, fit.claims);
  settle_measured(fit.claims, before, brief, build, cells);
}

Result<WrittenDrawings> write_drawings(const sheet::Fit& fit, const std::filesystem::path& folder) {
  const fit::Scene scene = sheet::with_near_gaps(fit.scene);
  sheet::DrawingForm form = sheet::page_form();
  form.standalone = true;
  std::vector<FileToWrite> files = {{folder / "side.svg", sheet::side_section_svg(scene, form)},
                                    {folder / "top.svg", sheet::top_view_svg(scene, form)},
                                    {folder / "front.svg", sheet::front_view_svg(scene, form)},
                                    {folder / "drawing.svg", sheet::drawing_sheet_svg(scene)},
                                    {folder / "scene.json", sheet::scene_json(fit.scene)}};
  WrittenDrawings written;
  const std::filesystem::path form_file = folder / "measure.csv";
  const auto there = read_file(form_file);
  if (there && is_filled_in({.name = form_file.string(), .bytes = *there}))
    written.kept_form = form_file;
  else
    files.push_back({form_file, sheet::measure_form_csv(fit)});
  if (const auto done = write_together(files); !done) return tl::unexpected(done.error());
  for (const FileToWrite& file : files) written.files.push_back(file.path);
  return written;
}

}  // namespace rigproof::app
