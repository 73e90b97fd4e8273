// rigproof import TABLE --mapping MAP.toml --catalog DIR
#include <fmt/format.h>

#include <memory>

#include "app/import_table.hpp"
#include "app/seen_offers.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  app::ImportOptions import;
  std::string catalog;
  std::string store;
};

// With offers written, the price series of the store gains what is new.
Result<std::string> keep(const Options& options, bool written) {
  if (options.store.empty() || !written) return std::string();
  auto store = store::open_store(options.store);
  if (!store) return tl::unexpected(store.error());
  const auto kept = app::keep_offers(**store, options.catalog, now());
  if (!kept) return tl::unexpected(kept.error());
  return fmt::format("{}: {} new in the price series, {} known\n", options.store, kept->added,
                     kept->known);
}

Exit run(const Options& options, const Common& common) {
  const auto workshop = app::open_workshop(options.catalog);
  if (!workshop) return failed(workshop.error());
  const auto imported = app::import_table(*workshop, options.import);
  if (!imported) return failed(imported.error());
  if (!imported->bad.empty()) complain("left out:\n" + imported->bad.report());
  const auto kept = keep(options, imported->written);
  if (!kept) return failed(kept.error());
  if (!kept->empty()) complain(*kept);
  return printed(common.json ? app::import_json(*imported)
                             : app::import_text(*imported, workshop->catalog, common.terminal.width,
                                                common.terminal.color),
                 Exit::done);
}

}  // namespace

Command import_command() {
  return {.name = "import",
          .about =
              "Read part data or prices from any pasted table, by a mapping you write: what would "
              "be new, what would change, and with --write do it.",
          .examples = {{.arguments = "demo/pasted/price-list.txt --mapping "
                                     "demo/pasted/price-list.toml --catalog demo/catalog",
                        .shows = "Two prices that would be new, and one row that is of no part; "
                                 "nothing is written."}},
          .declare = [](CLI::App& app, Common& common) -> Run {
            const auto options = std::make_shared<Options>();
            app.add_option("TABLE", options->import.pasted,
                           "File with commas, semicolons or tabs between its cells; - is standard "
                           "input")
                ->required();
            app.add_option("--mapping", options->import.mapping,
                           "How the table is to be read (TOML, docs/mapping.md)")
                ->required()
                ->type_name("MAP");
            add_catalog(app, options->catalog);
            app.add_flag("--write", options->import.write,
                         "Write the table and provenance.csv; without it nothing changes");
            app.add_option("--store", options->store,
                           "With --write, also keep the catalog's offers in the price series of "
                           "this store: sqlite:FILE")
                ->type_name("URL");
            app.add_flag("--skip-bad", options->import.skip_bad,
                         "Leave bad rows of the pasted table out and go on; they are listed");
            return [options, &common] { return run(*options, common); };
          }};
}

}  // namespace rigproof::cli
