// Folders of a test's own, copies of the demo with something changed in them, and CSV read by
// nothing but a loop over characters: the oracle side shares no code with the catalog.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/test_folder.hpp"

namespace rigproof::cli_test {

inline const std::string demo_catalog = "demo/catalog";
inline const std::string living_room = "demo/briefs/quiet-living-room.toml";
inline const std::string high_refresh = "demo/briefs/competition-high-refresh.toml";
inline const std::string impossible = "demo/briefs/cannot-be-satisfied.toml";
inline const std::string evening_chair = "demo/builds/evening-chair.toml";
inline const std::string friday_shelf = "demo/builds/friday-shelf.toml";

using test_support::bytes_of;
using test_support::write_bytes;

class Folder : public test_support::TestFolder {
 public:
  [[nodiscard]] std::string operator/(std::string_view name) const { return file(name); }
  /// Names of what is in it, sorted; of a folder inside it when one is named.
  [[nodiscard]] std::vector<std::string> names(std::string_view inside = "") const;
};

using Row = std::vector<std::string>;
using Table = std::vector<Row>;  ///< the header first

/// Comma, double quotes, LF or CRLF; no BOM.
[[nodiscard]] Table table_of(std::string_view csv);
[[nodiscard]] std::string csv_of(const Table& table, char separator = ',',
                                 std::string_view line_end = "\n");
[[nodiscard]] std::size_t column_of(const Table& table, std::string_view name);

/// A copy of the demo catalog at `to`, each table passed through `change` as (name without .csv,
/// bytes).
void copy_demo(
    const std::filesystem::path& to,
    const std::function<std::string(const std::string&, const std::string&)>& change = {});

/// `text` with the one place where `old` stands changed; fails the test when it is not there once.
[[nodiscard]] std::string changed(std::string text, std::string_view old, std::string_view now);
/// The number of the line of `text` that begins with `start`.
[[nodiscard]] int line_of(std::string_view text, std::string_view start);

}  // namespace rigproof::cli_test
