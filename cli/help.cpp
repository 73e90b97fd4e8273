// The help of the program and of each command, from the declarations.
#include <fmt/format.h>

#include <algorithm>

#include "cli/command_line.hpp"
#include "sheet/text_layout.hpp"

namespace rigproof::cli {
namespace {

using sheet::Ink;
using sheet::TextPage;

void add_lines(TextPage& page, const std::vector<std::pair<std::string, std::string>>& lines) {
  std::size_t widest = 0;
  for (const auto& [label, meaning] : lines) widest = std::max(widest, label.size());
  for (const auto& [label, meaning] : lines)
    page.labelled(2, label, static_cast<int>(widest) + 4, meaning);
}

void add_examples(TextPage& page, const CLI::App& top, const CLI::App& command) {
  const auto examples = examples_of(command.get_name());
  if (examples.empty()) return;
  page.line(0, examples.size() == 1 ? "Example, from the top of the source tree:"
                                    : "Examples, from the top of the source tree:");
  for (const Example& example : examples) {
    page.paragraph(2, example_line(top, command, example));
    page.paragraph(6, example.shows);
  }
  page.blank();
}

void add_where_to_begin(TextPage& page) {
  page.line(0, "Where to begin:");
  for (const auto& [what, where] : where_to_begin()) {
    page.paragraph(2, what);
    page.paragraph(6, where);
  }
  page.blank();
}

std::string exit_text() {
  std::string text;
  for (const auto& [exit, says] : exit_meanings())
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", static_cast<int>(exit), says);
  return text + ".";
}

}  // namespace

const std::vector<std::pair<std::string, std::string>>& where_to_begin() {
  static const std::vector<std::pair<std::string, std::string>> places = {
      {"A plan of the demo, an invented workshop:",
       "rigproof plan demo/briefs/quiet-living-room.toml --catalog demo/catalog --short"},
      {"Your own parts in ten minutes, from kind, name and price:", "docs/first-hour.md"},
      {"Saying what you want, and reading what comes out:",
       "docs/how-to-write-a-brief.md, docs/how-to-read-a-claim.md"}};
  return places;
}

const std::vector<ExitMeaning>& exit_meanings() {
  static const std::vector<ExitMeaning> meanings = {
      {Exit::done, "done, nothing fails"},
      {Exit::claim_fails, "a claim fails or is doubtful"},
      {Exit::bad_input, "usage or bad input"},
      {Exit::no_build, "no build satisfies the brief"},
      {Exit::internal_fault, "an internal fault"},
      {Exit::unknown_asked, "nothing fails, but something that is asked for is unknown"},
      {Exit::stopped, "stopped by the user"}};
  return meanings;
}

std::string option_label(const CLI::Option& option) {
  if (option.get_positional()) return option.get_name(true);
  std::string label;
  for (const std::string& name : option.get_snames()) label += "-" + name + ", ";
  for (const std::string& name : option.get_lnames()) label += "--" + name;
  // CLI11 appends what a check says to the type, after a colon; the meaning says it in words.
  const std::string type = option.get_type_name();
  if (option.get_items_expected_max() > 0 && !type.empty())
    label += " " + type.substr(0, type.find(':'));
  return label;
}

std::string option_meaning(const CLI::Option& option) {
  std::string meaning = option.get_description();
  if (option.get_required() && !option.get_positional()) meaning += "; must be given";
  if (!option.get_default_str().empty())
    meaning += fmt::format("; {} unless said", option.get_default_str());
  return meaning;
}

std::string usage_line(const CLI::App& top, const CLI::App& command) {
  if (&command == &top) return top.get_name() + " COMMAND [options]";
  std::string line = top.get_name() + " " + command.get_name();
  // What is given by its place first, then the options that must be there.
  for (const CLI::Option* option : command.get_options()) {
    if (!option->get_positional()) continue;
    const std::string label =
        option_label(*option) + (option->get_items_expected_max() > 1 ? "..." : "");
    line += option->get_required() ? " " + label : fmt::format(" [{}]", label);
  }
  for (const CLI::Option* option : command.get_options()) {
    if (option->get_positional() || !option->get_required()) continue;
    const std::string label = option_label(*option);
    line += " " + label.substr(label.rfind(", ") == std::string::npos ? 0 : label.rfind(", ") + 2);
  }
  return line + " [options]";
}

std::string example_line(const CLI::App& top, const CLI::App& command, const Example& example) {
  std::string line = top.get_name() + " " + command.get_name();
  if (!example.arguments.empty()) line += " " + example.arguments;
  return line;
}

std::string help_text(const CLI::App& top, const CLI::App& command, int width) {
  TextPage page(false, width);
  page.paragraph(0, command.get_description());
  page.blank();
  page.labelled(0, "Usage:", 7, usage_line(top, command));
  std::vector<std::pair<std::string, std::string>> given;
  std::vector<std::pair<std::string, std::string>> options;
  for (const CLI::Option* option : command.get_options())
    (option->get_positional() ? given : options)
        .emplace_back(option_label(*option), option_meaning(*option));
  if (&command == &top)
    for (const CLI::App* sub : top.get_subcommands({}))
      given.emplace_back(sub->get_name(), sub->get_description());
  if (!given.empty()) {
    page.blank();
    if (&command == &top) page.line(0, "Commands; each has its own --help:");
    add_lines(page, given);
  }
  page.blank();
  page.line(0, "Options:");
  add_lines(page, options);
  page.blank();
  if (&command == &top)
    add_where_to_begin(page);
  else
    add_examples(page, top, command);
  page.paragraph(0, "Exit codes: " + exit_text());
  return page.take();
}

}  // namespace rigproof::cli
