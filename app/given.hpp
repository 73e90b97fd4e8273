// A brief or a build as it is given: a file to read, or its text.
#pragma once

#include <optional>
#include <string>

namespace rigproof::app {

struct Given {
  std::string name = {};                 ///< the file; with a text only how messages call it
  std::optional<std::string> text = {};  ///< TOML; absent: it stands in the file
  [[nodiscard]] bool empty() const { return name.empty() && !text; }
};

enum class GivenKind { brief, build };

}  // namespace rigproof::app
