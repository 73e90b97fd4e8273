// The man page rigproof(1), from the same declarations as the help.
#pragma once

#include <string>

namespace rigproof::cli {

/// roff with the `man` macros, ASCII only; passes `groff -man -ww -z` without a warning.
[[nodiscard]] std::string man_page();

}  // namespace rigproof::cli
