// The only place where use cases touch the disk: whole files in, whole files out, never half of
// one.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace rigproof::app {

/// A whole regular file. Errors: io, naming the path and why; files over 2 GiB are refused.
[[nodiscard]] Result<std::string> read_file(const std::filesystem::path& path);

/// The same of standard input when the path is "-".
[[nodiscard]] Result<std::string> read_input(const std::filesystem::path& path);

struct FolderFile {
  std::string name;  ///< as messages show it: the folder as given, a slash, the file
  std::string bytes;
};

/// Every `*.csv` of a folder (not of folders inside it), sorted by name.
/// Errors: io (no such folder, not a folder, unreadable), not_found (no .csv file in it).
[[nodiscard]] Result<std::vector<FolderFile>> read_tables(const std::filesystem::path& folder);

/// Writes beside the target, flushes to disk, then renames: readers see the old file or the new
/// one. Makes the folder when it is not there. Errors: io.
[[nodiscard]] Result<void> write_atomically(const std::filesystem::path& path,
                                            std::string_view bytes);

/// Files that belong together: all are written beside their targets before the first one is
/// renamed, so a full disk or a target that cannot be replaced leaves every old file as it was.
/// Errors: io; no draft stays behind.
struct FileToWrite {
  std::filesystem::path path;
  std::string bytes;
};
[[nodiscard]] Result<void> write_together(const std::vector<FileToWrite>& files);

}  // namespace rigproof::app
