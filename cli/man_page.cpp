#include "cli/man_page.hpp"

#include <fmt/format.h>

#include "cli/command_line.hpp"

namespace rigproof::cli {
namespace {

// Text as roff prints it as it is: backslash and hyphen are escaped, a line never begins with a
// control character.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else
      out += c;
  }
  if (out.starts_with('.') || out.starts_with('\'')) out.insert(0, "\\&");
  return out;
}

std::string bold(std::string_view text) { return "\\fB" + roff(text) + "\\fR"; }

void put_section(std::string& out, std::string_view name) { out += fmt::format(".SH {}\n", name); }

// A hanging paragraph: `label` bold, `meaning` beside or below it.
void put_entry(std::string& out, std::string_view label, std::string_view meaning) {
  out += fmt::format(".TP\n{}\n{}\n", bold(label), roff(meaning));
}

void put_command(std::string& out, const CLI::App& top, const CLI::App& command) {
  out += fmt::format(".SS {}\n{}\n.PP\n{}\n", roff(command.get_name()),
                     roff(command.get_description()), bold(usage_line(top, command)));
  for (const CLI::Option* option : command.get_options())
    put_entry(out, option_label(*option), option_meaning(*option));
}

void put_examples(std::string& out, const CLI::App& top, const CLI::App& command) {
  for (const Example& example : examples_of(command.get_name()))
    out += fmt::format(".PP\n{} {}\n.PP\n.nf\n.RS\n{}\n.RE\n.fi\n", roff(example.shows),
                       how_it_ends(example), roff(example_line(top, command, example)));
}

}  // namespace

std::string man_page() {
  const CommandLine line{Terminal{}};
  const CLI::App& top = line.top();
  std::string out =
      ".\\\" Made from the commands declared in cli/; do not edit. Again: build/.../bin/help_files "
      "docs\n";
  out += fmt::format(".TH RIGPROOF 1 \"\" \"rigproof {}\" \"User commands\"\n", program_version());
  put_section(out, "NAME");
  out += "rigproof \\- compute every claim about a desktop PC build before anything is bought\n";
  put_section(out, "SYNOPSIS");
  out += fmt::format("{}\n", bold(usage_line(top, top)));
  put_section(out, "DESCRIPTION");
  out += roff(top.get_description()) + "\n.PP\n";
  out +=
      roff(
          "The result goes to standard output, as text or, with --json, as JSON; messages and "
          "progress go to standard error. Color and the progress line appear on a terminal only, "
          "and no color when NO_COLOR is set. Ctrl-C asks a job to stop and to say what it knows; "
          "a second one ends it at once. Files are replaced whole or not at all.") +
      "\n";
  put_section(out, "OPTIONS");
  for (const CLI::Option* option : top.get_options())
    put_entry(out, option_label(*option), option_meaning(*option));
  put_section(out, "COMMANDS");
  for (const CLI::App* command : top.get_subcommands({})) put_command(out, top, *command);
  put_section(out, "EXIT STATUS");
  for (const auto& [exit, says] : exit_meanings())
    put_entry(out, std::to_string(static_cast<int>(exit)), says);
  out += ".PP\nOnly claims of grade \\fBmust\\fR count for codes 1 and 5.\n";
  put_section(out, "EXAMPLES");
  out += "Each runs as it stands from the top of the source tree.\n";
  for (const CLI::App* command : top.get_subcommands({})) put_examples(out, top, *command);
  put_section(out, "WHERE TO BEGIN");
  for (const auto& [what, where] : where_to_begin())
    out += fmt::format(".PP\n{}\n{}\n", roff(what), roff(where));
  return out;
}

}  // namespace rigproof::cli
