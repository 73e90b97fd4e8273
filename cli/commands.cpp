#include "cli/commands.hpp"

#include <fmt/format.h>

#include "app/files.hpp"

namespace rigproof::cli {

std::vector<Command> all_commands() {
  return {check_command(),  import_command(),   plan_command(),   outlook_command(),
          insist_command(), frontier_command(), repair_command(), claims_command(),
          fit_command(),    power_command(),    air_command(),    sheet_command(),
          rules_command(),  export_command(),   serve_command()};
}

std::string how_it_ends(const Example& example) {
  return fmt::format("{} with code {}.",
                     example.until_stopped ? "It goes on until Ctrl-C, and ends then" : "It ends",
                     static_cast<int>(example.exit));
}

std::vector<Example> examples_of(const std::string& name) {
  for (const Command& command : all_commands())
    if (command.name == name) return command.examples;
  return {};
}

void add_short(CLI::App& app, bool& short_form) {
  app.add_flag("--short", short_form,
               "Print prices and parts first, then only the claims that do not hold, a line each; "
               "JSON is always whole");
}

Exit failed(const Error& error) {
  complain(error.message);
  return error.code == ErrorCode::stopped ? Exit::stopped : Exit::bad_input;
}

Exit printed(const std::string& text, Exit exit) { return print(text) ? exit : Exit::bad_input; }

Exit exit_of(app::Standing standing) {
  switch (standing) {
    case app::Standing::nothing_fails:
      return Exit::done;
    case app::Standing::fails:
      return Exit::claim_fails;
    case app::Standing::unknown:
      return Exit::unknown_asked;
  }
  return Exit::internal_fault;
}

Exit save_build(const std::string& file, const std::string& name, const Build& build,
                const Catalog& catalog, Exit exit) {
  const auto saved = write_build_file(file, name, build, catalog);
  if (!saved) return failed(saved.error());
  complain(*saved);
  return exit;
}

Result<std::string> write_build_file(const std::string& file, const std::string& name,
                                     const Build& build, const Catalog& catalog) {
  const BuildFile out{.name = name, .build = build, .setup = {}};
  if (const auto done = app::write_atomically(file, write_build(out, catalog)); !done)
    return tl::unexpected(done.error());
  return fmt::format("build: {}\n", file);
}

app::LongJob job_for(ProgressLine& line) {
  return {.stop = stop_asked,
          .progress = [&line](const plan::Progress& progress) { line.show(progress); }};
}

}  // namespace rigproof::cli
