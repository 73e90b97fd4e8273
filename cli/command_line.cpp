#include "cli/command_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/text.hpp"

namespace rigproof::cli {
namespace {

using Names = std::vector<std::string>;

void add_option_names(const CLI::App& app, Names& names) {
  for (const CLI::Option* option : app.get_options())
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
}

Names command_names(const CLI::App& top) {
  Names names;
  for (const CLI::App* command : top.get_subcommands({})) names.push_back(command->get_name());
  return names;
}

std::optional<std::string> near_one(const std::string& word, const Names& names) {
  const std::vector<std::string_view> views(names.begin(), names.end());
  const auto near = nearest(word, views);
  if (!near) return {};
  return std::string(*near);
}

// What is said after "not understood here": the nearest word that would be, or where it belongs.
std::string did_you_mean(const std::string& given, const CLI::App& top, const CLI::App& chosen) {
  const std::string word = given.substr(0, given.find('='));
  Names here;
  if (word.starts_with("-"))
    add_option_names(chosen, here);
  else if (&chosen == &top)
    here = command_names(top);
  if (std::ranges::find(here, word) != here.end())
    return fmt::format(" {} stands after the command.", word);
  if (const auto near = near_one(word, here)) return fmt::format(" Did you mean {}?", *near);
  if (!word.starts_with("-") || &chosen != &top) return "";
  Names everywhere;
  for (const CLI::App* command : top.get_subcommands({})) add_option_names(*command, everywhere);
  const auto near = near_one(word, everywhere);
  return near ? fmt::format(" Did you mean {}, after a command?", *near) : "";
}

void say_where_to_begin() {
  std::string out = "Where to begin:";
  for (const auto& [what, where] : where_to_begin())
    out += fmt::format("\n  {}\n      {}", what, where);
  complain(out);
}

}  // namespace

CommandLine::CommandLine(const Terminal& terminal)
    : top_("Rigproof computes every claim about a desktop PC build before anything is bought.",
           "rigproof") {
  common_.terminal = terminal;
  top_.set_help_flag("-h,--help", "Print this help and end");
  top_.set_version_flag("--version", RP_VERSION, "Print the version and end");
  top_.require_subcommand(1);
  // Words nobody knows are kept, so that usage_error() can name the first and the nearest; run()
  // refuses them.
  top_.allow_extras();
  for (const Command& command : all_commands()) {
    CLI::App* sub = top_.add_subcommand(command.name, command.about);
    Run go = command.declare(*sub, common_);
    sub->add_flag("--json", common_.json, "Print JSON on standard output (schemas in docs/schema)");
    commands_.emplace_back(sub, std::move(go));
  }
}

std::string_view program_version() { return RP_VERSION; }

const CLI::App& CommandLine::chosen() const {
  const auto parsed = top_.get_subcommands();
  return parsed.empty() ? top_ : *parsed.front();
}

Exit CommandLine::usage_error(const CLI::ParseError& error) const {
  const CLI::App& app = chosen();
  const std::string name = &app == &top_ ? "rigproof" : "rigproof " + app.get_name();
  std::string text = error.what();
  const bool no_command =
      &app == &top_ && dynamic_cast<const CLI::RequiredError*>(&error) != nullptr;
  if (no_command)
    text = fmt::format("which command? One of {}.", fmt::join(command_names(top_), ", "));
  // A word before the command went to the top, one after it to the command.
  Names extra = app.remaining();
  if (extra.empty()) extra = top_.remaining();
  if (!extra.empty())
    text = fmt::format("{}: not understood here.{}", excerpt(extra.front()),
                       did_you_mean(extra.front(), top_, app));
  complain(fmt::format("{}: {}\nSee {} --help.", name, text, name));
  if (no_command && extra.empty()) say_where_to_begin();
  return Exit::bad_input;
}

Exit CommandLine::run(int argc, const char* const* argv) {
  try {
    top_.parse(argc, argv);
    if (const auto extra = top_.remaining(true); !extra.empty()) throw CLI::ExtrasError(extra);
  } catch (const CLI::CallForHelp&) {
    return printed(help_text(top_, chosen(), common_.terminal.width), Exit::done);
  } catch (const CLI::CallForVersion&) {
    return printed(std::string("rigproof ") + RP_VERSION + "\n", Exit::done);
  } catch (const CLI::ParseError& error) {
    return usage_error(error);
  }
  for (const auto& [sub, go] : commands_)
    if (sub->parsed()) return go();
  return Exit::internal_fault;
}

}  // namespace rigproof::cli
