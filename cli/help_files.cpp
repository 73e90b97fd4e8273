#include "cli/help_files.hpp"

#include "cli/completion.hpp"
#include "cli/man_page.hpp"

namespace rigproof::cli {

std::vector<HelpFile> help_files() {
  return {{"man/rigproof.1", man_page()},
          {"completion/rigproof.bash", bash_completion()},
          {"completion/_rigproof", zsh_completion()},
          {"completion/rigproof.fish", fish_completion()}};
}

}  // namespace rigproof::cli
