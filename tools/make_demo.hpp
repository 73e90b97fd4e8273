// The demo, written by code: an invented workshop's catalog, briefs and builds. Same bytes
// everywhere.
#pragma once

#include <map>
#include <string>

namespace rigproof::demo {

/// Every file of the demo: its path below `demo/` -> its bytes. Nothing is read; nothing depends on
/// the machine, the clock or the locale (integers only).
using Files = std::map<std::string, std::string>;
[[nodiscard]] Files make_demo();

/// How the committed files are remade, for messages.
inline constexpr const char* remake_command =
    "ninja -C build/dev make_demo && build/dev/bin/make_demo demo";

}  // namespace rigproof::demo
