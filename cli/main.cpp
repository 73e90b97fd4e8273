// rigproof: the command line. Parses, runs one command, maps every outcome to an exit code.
#include <fmt/format.h>

#include <exception>

#include "base/contract.hpp"
#include "base/text.hpp"
#include "cli/commands.hpp"

namespace rigproof::cli {
namespace {

// The nearest command or option to a word nobody knows.
std::string did_you_mean(const std::string& word, const CLI::App& app) {
  std::vector<std::string> names;
  if (word.starts_with("-")) {
    for (const CLI::Option* option : app.get_options())
      for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  } else {
    for (const CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  const auto near = nearest(word, views);
  return near ? fmt::format(" Did you mean {}?", *near) : "";
}

Exit usage(const CLI::App& top, const CLI::ParseError& error) {
  const CLI::App* chosen = &top;
  for (const CLI::App* command : top.get_subcommands()) chosen = command;
  std::string text = error.what();
  std::vector<std::string> extra = chosen->remaining();
  if (extra.empty()) extra = top.remaining();
  if (!extra.empty())
    text = fmt::format("{}: not understood here.{}", excerpt(extra.front()), did_you_mean(extra.front(), *chosen));
  complain(fmt::format("rigproof{}: {}\nSee rigproof{} --help.", chosen == &top ? "" : " " + chosen->get_name(), text,
                       chosen == &top ? "" : " " + chosen->get_name()));
  return Exit::bad_input;
}

Exit run(int argc, char** argv) {
  CLI::App top("Rigproof computes every claim about a desktop PC build before anything is bought.", "rigproof");
  top.set_version_flag("--version", RP_VERSION);
  top.require_subcommand(1);
  top.allow_extras();
  Common common;
  common.terminal = look_at_terminal();
  std::vector<std::pair<CLI::App*, Run>> commands;
  for (const Command& command : all_commands()) {
    CLI::App* sub = top.add_subcommand(command.name, command.about);
    sub->add_flag("--json", common.json, "Print JSON on standard output (schemas in docs/schema)");
    commands.emplace_back(sub, command.declare(*sub, common));
  }
  top.footer(
      "Exit codes: 0 done, nothing fails; 1 a claim fails or is doubtful; 2 usage or bad input; 3 no build satisfies the brief; "
      "4 an internal fault; 5 nothing fails, but something asked for is unknown; 6 stopped.");
  try {
    top.parse(argc, argv);
    if (!top.remaining().empty()) throw CLI::ExtrasError(top.remaining());
  } catch (const CLI::CallForHelp&) {
    const auto chosen = top.get_subcommands();
    return printed((chosen.empty() ? top : *chosen.front()).help(), Exit::done);
  } catch (const CLI::CallForVersion&) {
    return printed(std::string("rigproof ") + RP_VERSION + "\n", Exit::done);
  } catch (const CLI::ParseError& error) {
    return usage(top, error);
  }
  for (const auto& [sub, go] : commands)
    if (sub->parsed()) return go();
  return Exit::internal_fault;
}

}  // namespace
}  // namespace rigproof::cli

int main(int argc, char** argv) {
  using namespace rigproof;
  try {
    cli::listen_for_stop();
    return static_cast<int>(cli::run(argc, argv));
  } catch (const std::bad_alloc&) {
    cli::complain("rigproof: out of memory");
  } catch (const std::exception& fault) {
    cli::complain(fmt::format("rigproof: {}\nThis is a bug of ours; the input that led here would help to mend it.", fault.what()));
  }
  return static_cast<int>(cli::Exit::internal_fault);
}
