#include <fmt/format.h>

#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>

#include "base/text.hpp"
#include "store/open_sqlite.hpp"
#include "store/sqlite_schema.hpp"
#include "store/sqlite_store.hpp"

namespace rigproof::store {
namespace {

namespace fs = std::filesystem;

/// What SQLite would say less plainly, or take for one of its own names (`:memory:`).
std::string usable(const std::string& path) {
  const auto io = [&path](std::string_view what) {
    return Failure({ErrorCode::io, fmt::format("{}: {}", path, what)});
  };
  if (path.empty())
    throw Failure({ErrorCode::bad_input, "sqlite: expected a path after the colon"});
  if (path.find('\0') != std::string::npos)
    throw Failure(
        {ErrorCode::bad_input, fmt::format("{}: no path has a NUL in it", excerpt(path))});
  const fs::path given(path);
  std::error_code ignored;
  const fs::file_status status = fs::status(given, ignored);
  if (fs::is_directory(status)) throw io("is a folder; expected a file");
  if (fs::exists(status) && !fs::is_regular_file(status)) throw io("is not a regular file");
  const fs::path folder = given.has_parent_path() ? given.parent_path() : fs::path(".");
  if (!fs::is_directory(folder, ignored)) throw io("the folder it should stand in is not there");
  return given.is_absolute() ? path : "./" + path;
}

/// Turning to the write-ahead log needs the file alone for a moment, which the busy timeout does
/// not wait for.
void write_ahead(Database& database, int timeout_ms) {
  using clock = std::chrono::steady_clock;
  const auto until = clock::now() + std::chrono::milliseconds(timeout_ms);
  while (true) {
    auto mode = result_of([&] {
      Statement set = database.query("PRAGMA journal_mode = WAL");
      return set.next() ? set.text(0) : std::string();
    });
    if (mode && *mode == "wal") return;
    const bool waits = (sqlite3_errcode(database.handle()) & 0xff) == SQLITE_BUSY;
    if (!waits || clock::now() > until) {
      if (!mode) throw Failure(mode.error());
      throw Failure({ErrorCode::io, database.path() + ": this place takes no write-ahead log"});
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
}

void refuse_strangers(FileState state, const std::string& path) {
  const auto refuse = [&path](std::string_view what) {
    throw Failure({ErrorCode::bad_input, fmt::format("{}: {}", path, what)});
  };
  if (state == FileState::newer)
    refuse("was written by a newer Rigproof; use that one. Nothing was changed");
  if (state == FileState::foreign) refuse("is an SQLite file of another program, no store");
}

}  // namespace

Result<std::unique_ptr<Store>> open_sqlite(const SqliteOptions& options) {
  return result_of([&]() -> std::unique_ptr<Store> {
    Database database(usable(options.path), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
    sqlite3_busy_timeout(database.handle(), options.busy_timeout_ms);
    sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    database.execute("PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON");
    if (sqlite3_db_readonly(database.handle(), "main") == 1)
      throw Failure({ErrorCode::io, options.path + ": may not be written"});
    refuse_strangers(state_of(database, migrations().size()), options.path);
    write_ahead(database, options.busy_timeout_ms);
    database.execute("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL");
    if (options.most_pages > 0)
      database.execute(fmt::format("PRAGMA max_page_count = {}", options.most_pages).c_str());
    migrate(database, migrations());
    // Another process may have made the file while this one looked.
    refuse_strangers(state_of(database, migrations().size()), options.path);
    return std::make_unique<SqliteStore>(std::move(database));
  });
}

Result<std::unique_ptr<Store>> open_store(std::string_view url) {
  constexpr std::string_view sqlite = "sqlite:";
  if (url.starts_with(sqlite)) return open_sqlite({.path = std::string(url.substr(sqlite.size()))});
  return bad_input(fmt::format("{}: expected sqlite:PATH", excerpt(url)));
}

}  // namespace rigproof::store
