// rigproof export --store URL [-o DIR --catalog DIR] [--backup FILE]
#include <memory>
#include <nlohmann/json.hpp>

#include "app/export_store.hpp"
#include "cli/commands.hpp"
#include "cli/session.hpp"

namespace rigproof::cli {
namespace {

struct Options {
  std::string store;
  std::string catalog;
  std::string folder;
  std::string backup;
  bool skip_bad = false;
};

std::string written_text(const std::vector<std::string>& files, bool json) {
  if (json)
    return nlohmann::ordered_json{{"schema", "rigproof.export/1"}, {"files", files}}.dump(2) + "\n";
  std::string out;
  for (const std::string& file : files) out += file + "\n";
  return out;
}

Exit run(const Options& options, const Common& common) {
  if (options.folder.empty() && options.backup.empty())
    return failed({.code = ErrorCode::bad_input,
                   .message = "export: expected -o DIR, --backup FILE, or both"});
  if (const auto there = app::store_is_there(options.store); !there) return failed(there.error());
  const auto opened = store::open_store(options.store);
  if (!opened) return failed(opened.error());
  std::vector<std::string> written;
  if (!options.backup.empty()) {
    if (const auto done = (*opened)->backup_to(options.backup); !done) return failed(done.error());
    written.push_back(options.backup);
  }
  if (!options.folder.empty()) {
    std::vector<store::PartName> parts;
    if (!options.catalog.empty()) {
      const auto workshop = app::open_workshop(options.catalog, options.skip_bad);
      if (!workshop) return failed(workshop.error());
      parts = app::part_names(workshop->catalog);
    }
    const auto files = app::exported(**opened, parts);
    if (!files) return failed(files.error());
    const auto paths = app::write_export(*files, options.folder);
    if (!paths) return failed(paths.error());
    for (const auto& path : *paths) written.push_back(path.string());
  }
  return printed(written_text(written, common.json), Exit::done);
}

}  // namespace

Command export_command() {
  return {
      .name = "export",
      .about =
          "What a store holds as plain files (briefs, builds and mappings as TOML, price series "
          "and items as CSV), and a whole copy of it, also while the pages are open.",
      .examples = {{.arguments = "--store sqlite:demo/no-store.db -o out/kept",
                    .shows = "A store that is not there is not made by asking for what it holds; "
                             "rigproof serve makes one.",
                    .exit = Exit::bad_input}},
      .declare = [](CLI::App& app, Common& common) -> Run {
        const auto options = std::make_shared<Options>();
        app.add_option("--store", options->store, "What rigproof serve keeps: sqlite:FILE")
            ->required()
            ->type_name("URL");
        app.add_option("-o,--output", options->folder, "Folder the files go into")
            ->type_name("DIR");
        app.add_option("--catalog", options->catalog,
                       "Folder of .csv tables: the parts whose price series are wanted")
            ->type_name("DIR");
        app.add_option("--backup", options->backup,
                       "Copy the whole store into this new file, as it is at one moment")
            ->type_name("FILE");
        add_skip_bad(app, options->skip_bad);
        return [options, &common] { return run(*options, common); };
      }};
}

}  // namespace rigproof::cli
