// A build: chosen parts with counts, and where each is mounted.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/catalog.hpp"
#include "catalog/complaints.hpp"
#include "catalog/fan_settings.hpp"

namespace rigproof {

struct Chosen {
  Row row = no_row;
  int count = 1;
  friend bool operator==(const Chosen&, const Chosen&) = default;
};

/// Parts by kind, without allocation: at most four different parts of a kind.
class Build {
 public:
  static constexpr int most_of_a_kind = 4;
  [[nodiscard]] std::span<const Chosen> of(Kind kind) const {
    const auto k = static_cast<std::size_t>(kind);
    return {parts_[k].data(), counts_[k]};
  }
  /// The only part of a kind of which there is at most one; no_row when there is none.
  [[nodiscard]] Row one(Kind kind) const {
    const auto all = of(kind);
    return all.empty() ? no_row : all.front().row;
  }
  [[nodiscard]] bool has(Kind kind) const { return !of(kind).empty(); }
  /// False when the kind is full.
  bool add(Kind kind, Row row, int count = 1);
  void clear(Kind kind) { counts_[static_cast<std::size_t>(kind)] = 0; }
  friend bool operator==(const Build& a, const Build& b);

 private:
  std::array<std::array<Chosen, most_of_a_kind>, kind_count> parts_{};
  std::array<std::uint8_t, kind_count> counts_{};
};

/// "cooler" -> mount name, "fan" -> mount name, drive id -> socket.
using Mounts = std::map<std::string, std::string>;

/// What its author fixed of a build: where parts sit, how fast fans turn.
struct Setup {
  Mounts mounts;
  FanSettings fans;
  friend bool operator==(const Setup&, const Setup&) = default;
};

/// A build as written in a file.
struct BuildFile {
  std::string name;
  Build build;
  Setup setup;
};

/// In: TOML bytes: `name = "..."`, `cpu = "id"`, `storage = ["id", { id = "id", count = 2 }]`,
/// optional `[mounts]` and `[[fan_speeds]]`. One piece of cpu, board, memory, gpu, cooler, case and
/// psu; 1 to 12 of any other part. A kind may be left out. Mounts are checked for what they place
/// (cooler, fan, a drive of this build), not for where: the fit engine does that. Errors:
/// complaints with line, the nearest valid key or id.
[[nodiscard]] tl::expected<BuildFile, Complaints> read_build(std::string_view toml,
                                                             const std::string& file,
                                                             const Catalog& catalog);
/// TOML that reads back to the same build. The name is one line of text.
[[nodiscard]] std::string write_build(const BuildFile& build, const Catalog& catalog);

}  // namespace rigproof
