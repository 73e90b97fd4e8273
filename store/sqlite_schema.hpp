// The tables of the SQLite file, as numbered steps from one version to the next.
#pragma once

#include <cstdint>
#include <span>

#include "store/sqlite_database.hpp"

namespace rigproof::store {

/// "RgPf" in the head of the file: a file of ours, not of another program that uses SQLite.
inline constexpr std::int64_t application_id = 0x52675066;

/// Step n of the list, counted from 1, leads to version n (`PRAGMA user_version`). A step that was
/// ever released stays as it is; what changes later is a step of its own.
[[nodiscard]] std::span<const char* const> migrations();

enum class FileState : std::uint8_t {
  empty,    ///< nothing in it yet
  ours,     ///< of a version that we know; perhaps an old one
  newer,    ///< written by a later Rigproof
  foreign,  ///< of another program
};
/// Reads only.
[[nodiscard]] FileState state_of(Database& database, std::size_t newest);

/// Takes the file to the newest version, each step a transaction of its own: when a step fails the
/// file is at the version before it. Others may do the same at the same time. Throws Failure.
void migrate(Database& database, std::span<const char* const> steps);

}  // namespace rigproof::store
