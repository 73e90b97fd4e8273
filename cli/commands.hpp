// The commands, each declared once: its name, what it is for, its options, examples that run, what
// it does. The parser, the help, the did-you-mean, docs/commands.md, the man page and the shell
// completions are derived from these declarations.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <string>
#include <vector>

#include "app/planning.hpp"
#include "cli/terminal.hpp"

namespace rigproof::cli {

/// Options that every command has.
struct Common {
  bool json = false;
  Terminal terminal;
};

/// A command puts its options on `app` and returns what runs when it was chosen.
using Run = std::function<Exit()>;

/// One call that works as it stands from the top of the source tree; a test runs every one. What it
/// writes goes under `out/`, which the test puts elsewhere.
struct Example {
  std::string arguments;       ///< after `rigproof NAME`, separated by blanks; no quotes
  std::string shows;           ///< one sentence: what there is to see
  Exit exit = Exit::done;      ///< how it ends
  bool until_stopped = false;  ///< it goes on until Ctrl-C, and then ends so
};

struct Command {
  std::string name;
  std::string about;
  std::vector<Example> examples;  ///< at least one
  std::function<Run(CLI::App& app, Common& common)> declare;
};

[[nodiscard]] Command check_command();
[[nodiscard]] Command import_command();
[[nodiscard]] Command plan_command();
[[nodiscard]] Command outlook_command();
[[nodiscard]] Command insist_command();
[[nodiscard]] Command frontier_command();
[[nodiscard]] Command repair_command();
[[nodiscard]] Command claims_command();
[[nodiscard]] Command fit_command();
[[nodiscard]] Command power_command();
[[nodiscard]] Command air_command();
[[nodiscard]] Command sheet_command();
[[nodiscard]] Command rules_command();
[[nodiscard]] Command serve_command();
[[nodiscard]] Command export_command();
[[nodiscard]] std::vector<Command> all_commands();
/// How an example ends, as a sentence.
[[nodiscard]] std::string how_it_ends(const Example& example);
/// The examples of the command of this name; none for a name that is no command.
[[nodiscard]] std::vector<Example> examples_of(const std::string& name);

// Shared by the commands.

/// The flag `--short`, worded alike wherever there is a long list to shorten.
void add_short(CLI::App& app, bool& short_form);
/// Complains and says the exit code of an error.
[[nodiscard]] Exit failed(const Error& error);
/// Prints a result; a closed pipe is bad input (exit 2).
[[nodiscard]] Exit printed(const std::string& text, Exit exit);
[[nodiscard]] Exit exit_of(app::Standing standing);
/// Writes a build file and says so on stderr; gives `exit`, or that of the error.
[[nodiscard]] Exit save_build(const std::string& file, const std::string& name, const Build& build,
                              const Catalog& catalog, Exit exit);
/// The same, giving what is to be said.
[[nodiscard]] Result<std::string> write_build_file(const std::string& file, const std::string& name,
                                                   const Build& build, const Catalog& catalog);
/// A stop that listens to Ctrl-C and a progress line for as long as `line` lives.
[[nodiscard]] app::LongJob job_for(ProgressLine& line);

}  // namespace rigproof::cli
