// The whole command line, put together from the declared commands: what main parses, what the help
// prints and what docs/commands.md lists are the same declarations.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/commands.hpp"

namespace rigproof::cli {

class CommandLine {
 public:
  explicit CommandLine(const Terminal& terminal);

  /// Parses, then runs what was chosen; help, version and errors of usage are answered here.
  [[nodiscard]] Exit run(int argc, const char* const* argv);

  /// The program itself, with every command under it.
  [[nodiscard]] const CLI::App& top() const { return top_; }

 private:
  [[nodiscard]] const CLI::App& chosen() const;
  [[nodiscard]] Exit usage_error(const CLI::ParseError& error) const;

  CLI::App top_;
  Common common_;
  std::vector<std::pair<CLI::App*, Run>> commands_;
};

/// Help of the program (`command` is `top`) or of one of its commands, wrapped at `width` columns.
[[nodiscard]] std::string help_text(const CLI::App& top, const CLI::App& command, int width);

/// `BRIEF`, `--catalog DIR`, `-o, --output DIR`: as help and page show an option.
[[nodiscard]] std::string option_label(const CLI::Option& option);
/// What it is for, and whether it must be given or what it is otherwise.
[[nodiscard]] std::string option_meaning(const CLI::Option& option);
/// `rigproof plan BRIEF --catalog DIR [options]`.
[[nodiscard]] std::string usage_line(const CLI::App& top, const CLI::App& command);

/// `rigproof check demo/catalog`: an example as it is typed.
[[nodiscard]] std::string example_line(const CLI::App& top, const CLI::App& command,
                                       const Example& example);
/// For somebody who meets the program for the first time: what, and the command or page for it.
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& where_to_begin();

[[nodiscard]] std::string_view program_version();

/// An exit code and what it says, in the order of the codes.
struct ExitMeaning {
  Exit exit;
  std::string_view says;
};
[[nodiscard]] const std::vector<ExitMeaning>& exit_meanings();

/// docs/commands.md.
[[nodiscard]] std::string commands_page();

}  // namespace rigproof::cli
