// The files that are made from the declared commands and committed under docs/: the man page and
// the shell completions, by their path there.
#pragma once

#include <string>
#include <vector>

namespace rigproof::cli {

struct HelpFile {
  std::string path;  ///< below docs/, such as `man/rigproof.1`
  std::string bytes;
};
[[nodiscard]] std::vector<HelpFile> help_files();

}  // namespace rigproof::cli
