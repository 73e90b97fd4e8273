// Shell completions, from the same declarations as the help: commands, options, folders and files
// where a path is asked, rule ids where a rule is asked.
#pragma once

#include <string>

namespace rigproof::cli {

[[nodiscard]] std::string bash_completion();
[[nodiscard]] std::string zsh_completion();
[[nodiscard]] std::string fish_completion();

}  // namespace rigproof::cli
