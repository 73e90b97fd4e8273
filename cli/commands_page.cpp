// docs/commands.md, from the declarations.
#include <fmt/format.h>

#include "cli/command_line.hpp"

namespace rigproof::cli {
namespace {

std::string cell(std::string text) {
  for (std::size_t at = 0; (at = text.find('|', at)) != std::string::npos; at += 2)
    text.insert(at, 1, '\\');
  return text;
}

std::string section(const CLI::App& top, const CLI::App& command) {
  std::string out = fmt::format("## `{}`\n\n{}\n\n```sh\n{}\n```\n\n", command.get_name(),
                                command.get_description(), usage_line(top, command));
  out += "| option | what it is for |\n| --- | --- |\n";
  for (const CLI::Option* option : command.get_options())
    out +=
        fmt::format("| `{}` | {} |\n", cell(option_label(*option)), cell(option_meaning(*option)));
  out += "\n";
  for (const Example& example : examples_of(command.get_name()))
    out += fmt::format("{} {}\n\n```sh\n{}\n```\n\n", example.shows, how_it_ends(example),
                       example_line(top, command, example));
  return out;
}

}  // namespace

std::string commands_page() {
  const CommandLine line{Terminal{}};
  std::string out =
      "# Commands\n\n"
      "<!-- Made from the commands declared in cli/; do not edit. Again: "
      "build/.../bin/commands_page docs/commands.md -->\n\n";
  out +=
      line.top().get_description() +
      "\nThe result goes to standard output, as text or, with `--json`, as JSON; messages and "
      "progress go to\n"
      "standard error. Color and the progress line appear on a terminal only, and no color when\n"
      "`NO_COLOR` is set. Ctrl-C asks a job to stop and to say what it knows; a second one ends it "
      "at once.\n"
      "Files are replaced whole or not at all.\n\n";
  for (const CLI::App* command : line.top().get_subcommands({}))
    out += section(line.top(), *command);
  out += "## Exit codes\n\n| code | meaning |\n| --- | --- |\n";
  for (const auto& [exit, says] : exit_meanings())
    out += fmt::format("| {} | {} |\n", static_cast<int>(exit), says);
  return out + "\nOnly claims of grade `must` count for codes 1 and 5.\n";
}

}  // namespace rigproof::cli
