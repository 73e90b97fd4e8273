#include "cli/completion.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "app/workshop.hpp"
#include "cli/command_line.hpp"

namespace rigproof::cli {
namespace {

/// What may stand for a value. A value of another kind, such as a count, is not completed.
enum class Asks { nothing, value, folder, file, toml_file, rule };

// By the word the help shows for the value.
Asks asks(const CLI::Option& option) {
  if (option.get_items_expected_max() == 0) return Asks::nothing;
  const std::string label = option_label(option);
  const std::string word = label.substr(label.rfind(' ') + 1);
  if (word == "DIR") return Asks::folder;
  if (word == "FILE") return Asks::file;
  if (word == "BRIEF" || word == "BUILD") return Asks::toml_file;
  if (word == "RULE") return Asks::rule;
  return Asks::value;
}

std::vector<std::string> spellings(const CLI::Option& option) {
  std::vector<std::string> names;
  for (const std::string& name : option.get_snames()) names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) names.push_back("--" + name);
  return names;
}

struct Split {
  std::vector<const CLI::Option*> positionals, options;
};
Split split(const CLI::App& command) {
  Split out;
  for (const CLI::Option* option : command.get_options())
    (option->get_positional() ? out.positionals : out.options).push_back(option);
  return out;
}

std::string option_words(const CLI::App& command) {
  std::vector<std::string> words;
  for (const CLI::Option* option : split(command).options)
    for (std::string& name : spellings(*option)) words.push_back(std::move(name));
  return fmt::format("{}", fmt::join(words, " "));
}

std::string command_words(const CLI::App& top) {
  std::vector<std::string> words;
  for (const CLI::App* command : top.get_subcommands({})) words.push_back(command->get_name());
  return fmt::format("{}", fmt::join(words, " "));
}

std::string rule_words() {
  std::vector<std::string_view> words;
  for (const Rule* rule : app::rulebook()) words.push_back(rule->id);
  return fmt::format("{}", fmt::join(words, " "));
}

std::string made_note(std::string_view shell) {
  return fmt::format(
      "# Completion of rigproof for {}. Made from the commands declared in cli/; do not edit.\n"
      "# Again: build/.../bin/help_files docs\n",
      shell);
}

std::string bash_kind(Asks kind) {
  switch (kind) {
    case Asks::nothing:
    case Asks::value:
      return "value";
    case Asks::folder:
      return "folder";
    case Asks::file:
      return "file";
    case Asks::toml_file:
      return "toml";
    case Asks::rule:
      return "rule";
  }
  return "value";
}

// `--catalog|--sheet) kind=folder ;;` for each option with a value, then the positionals by number.
std::string bash_command(const CLI::App& command) {
  const auto [positionals, options] = split(command);
  std::string out = fmt::format("    {})\n      options='{}'\n      case $1 in\n",
                                command.get_name(), option_words(command));
  for (const CLI::Option* option : options)
    if (asks(*option) != Asks::nothing)
      out += fmt::format("        {}) kind={} ;;\n", fmt::join(spellings(*option), "|"),
                         bash_kind(asks(*option)));
  std::vector<std::string> kinds;
  kinds.reserve(positionals.size());
  for (const CLI::Option* positional : positionals) kinds.push_back(bash_kind(asks(*positional)));
  return out + fmt::format("      esac\n      places=({})\n      ;;\n", fmt::join(kinds, " "));
}

// Text inside single quotes of a shell, as sh, bash and zsh read it.
std::string in_quotes(std::string_view text) {
  std::string out;
  for (const char c : text)
    if (c == '\'')
      out += "'\\''";
    else
      out += c;
  return out;
}

// In a specification of zsh's _arguments brackets and colons mean something.
std::string zsh_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
    out += c;
  }
  return in_quotes(out);
}

std::string zsh_action(Asks kind) {
  switch (kind) {
    case Asks::nothing:
    case Asks::value:
      return " ";
    case Asks::folder:
      return "_files -/";
    case Asks::file:
      return "_files";
    case Asks::toml_file:
      return "_files -g \"*.toml\"";
    case Asks::rule:
      return fmt::format("({})", rule_words());
  }
  return " ";
}

std::string zsh_option(const CLI::Option& option) {
  std::string value;
  if (asks(option) != Asks::nothing) {
    const std::string label = option_label(option);
    value = fmt::format(":{}:{}", label.substr(label.rfind(' ') + 1), zsh_action(asks(option)));
  }
  std::string out;
  for (const std::string& name : spellings(option))
    out += fmt::format("        '({}){}[{}]{}' \\\n", fmt::join(spellings(option), " "), name,
                       zsh_text(option_meaning(option)), value);
  return out;
}

std::string zsh_command(const CLI::App& command) {
  const auto [positionals, options] = split(command);
  std::string out = fmt::format("    {})\n      _arguments \\\n", command.get_name());
  for (const CLI::Option* option : options) out += zsh_option(*option);
  int place = 0;
  for (const CLI::Option* positional : positionals)
    out += fmt::format("        '{}:{}:{}' \\\n", ++place, option_label(*positional),
                       zsh_action(asks(*positional)));
  out.erase(out.size() - 3);  // the last " \" and its line end
  return out + "\n      ;;\n";
}

std::string fish_value(Asks kind) {
  switch (kind) {
    case Asks::nothing:
      return "";
    case Asks::value:
      return " -x";
    case Asks::folder:
      return " -x -a '(__fish_complete_directories)'";
    case Asks::file:
      return " -r -F";
    case Asks::toml_file:
      return " -x -a '(__fish_complete_suffix .toml)'";
    case Asks::rule:
      return fmt::format(" -x -a '{}'", rule_words());
  }
  return "";
}

// In single quotes fish reads a backslash before a quote or a backslash only.
std::string fish_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

}  // namespace

std::string bash_completion() {
  const CommandLine line{Terminal{}};
  const CLI::App& top = line.top();
  std::string out = made_note("bash");
  out += R"(
# What the options of a command are, what an option ($1) asks for, what stands at each place.
_rigproof_command() {
  case $command in
)";
  for (const CLI::App* command : top.get_subcommands({})) out += bash_command(*command);
  out += fmt::format(R"(  esac
}}

_rigproof() {{
  local current=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}}
  local command= kind= options= word place=0 i
  local -a places=()
  COMPREPLY=()
  # bash makes words of --option, = and the value.
  if [[ $current == = ]]; then current=
  elif [[ $before == = ]]; then before=${{COMP_WORDS[COMP_CWORD - 2]}}; fi
  # The command, and how many words stand at a place of their own before this one.
  for ((i = 1; i < COMP_CWORD; ++i)); do
    word=${{COMP_WORDS[i]}}
    if [[ $word == = ]]; then
      ((++i))
    elif [[ -z $command ]]; then
      [[ $word == -* ]] || command=$word
    elif [[ $word == -* ]]; then
      kind=
      _rigproof_command "$word"
      [[ -n $kind && ${{COMP_WORDS[i + 1]}} != = ]] && ((++i))
    else
      ((++place))
    fi
  done
  if [[ -z $command ]]; then
    mapfile -t COMPREPLY < <(compgen -W '{} {}' -- "$current")
    return
  fi
  kind=
  _rigproof_command "$before"
  if [[ -z $kind && $current == -* ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$options" -- "$current")
    return
  fi
  [[ -n $kind ]] || kind=${{places[place]}}
  case $kind in
    folder)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -d -- "$current") ;;
    file)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -f -- "$current") ;;
    toml)
      compopt -o filenames 2>/dev/null
      mapfile -t COMPREPLY < <(compgen -d -- "$current"; compgen -f -X '!*.toml' -- "$current") ;;
    rule)
      mapfile -t COMPREPLY < <(compgen -W '{}' -- "$current") ;;
    '')
      mapfile -t COMPREPLY < <(compgen -W "$options" -- "$current") ;;
  esac
}}
complete -F _rigproof rigproof
)",
                     command_words(top), option_words(top), rule_words());
  return out;
}

std::string zsh_completion() {
  const CommandLine line{Terminal{}};
  const CLI::App& top = line.top();
  std::string out = "#compdef rigproof\n" + made_note("zsh");
  out += R"(
_rigproof() {
  local curcontext=$curcontext state line
  local -a commands=(
)";
  for (const CLI::App* command : top.get_subcommands({}))
    out += fmt::format("    '{}:{}'\n", command->get_name(), zsh_text(command->get_description()));
  out += "  )\n  _arguments -C \\\n";
  for (const CLI::Option* option : top.get_options()) out += zsh_option(*option);
  out += R"(        '1:command:->command' \
        '*::argument:->argument'
  case $state in
    command) _describe 'command' commands; return ;;
    argument) ;;
    *) return ;;
  esac
  case $words[1] in
)";
  for (const CLI::App* command : top.get_subcommands({})) out += zsh_command(*command);
  return out + "  esac\n}\n\n_rigproof \"$@\"\n";
}

std::string fish_completion() {
  const CommandLine line{Terminal{}};
  const CLI::App& top = line.top();
  std::string out = made_note("fish");
  out += "\ncomplete -c rigproof -f\n";
  for (const CLI::Option* option : top.get_options()) {
    out += "complete -c rigproof -n __fish_use_subcommand";
    for (const std::string& name : option->get_snames()) out += " -s " + name;
    for (const std::string& name : option->get_lnames()) out += " -l " + name;
    out += fmt::format(" -d '{}'\n", fish_text(option_meaning(*option)));
  }
  for (const CLI::App* command : top.get_subcommands({}))
    out += fmt::format("complete -c rigproof -n __fish_use_subcommand -a {} -d '{}'\n",
                       command->get_name(), fish_text(command->get_description()));
  for (const CLI::App* command : top.get_subcommands({})) {
    const std::string start = fmt::format(
        "complete -c rigproof -n '__fish_seen_subcommand_from {}'", command->get_name());
    const auto [positionals, options] = split(*command);
    for (const CLI::Option* positional : positionals)
      out += start + fish_value(asks(*positional)) + "\n";
    for (const CLI::Option* option : options) {
      out += start;
      for (const std::string& name : option->get_snames()) out += " -s " + name;
      for (const std::string& name : option->get_lnames()) out += " -l " + name;
      out += fmt::format("{} -d '{}'\n", fish_value(asks(*option)),
                         fish_text(option_meaning(*option)));
    }
  }
  return out;
}

}  // namespace rigproof::cli
