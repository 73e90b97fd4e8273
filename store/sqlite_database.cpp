#include "store/sqlite_database.hpp"

#include <fmt/format.h>

#include <cstring>

#include "base/text.hpp"

namespace rigproof::store {
namespace {

/// What went wrong in words, for the primary result codes that a user can meet.
std::string_view meaning(int primary) {
  switch (primary) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return "another program is writing to it and did not end in time; try again";
    case SQLITE_FULL:
      return "no room left on the disk, or in the size it may have; nothing of this was written";
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return "may not be written";
    case SQLITE_CANTOPEN:
      return "cannot be opened";
    case SQLITE_IOERR:
      return "cannot be read or written";
    case SQLITE_CORRUPT:
      return "is damaged; take the newest backup";
    case SQLITE_NOTADB:
      return "is no store: not an SQLite file";
    case SQLITE_NOMEM:
      return "not enough memory";
    case SQLITE_TOOBIG:
      return "a value is larger than the database takes";
    case SQLITE_CONSTRAINT:
      return "refused by a rule of the file";
    default:
      return "unexpected answer of the database";
  }
}

}  // namespace

Statement::Statement(Database& database, std::string_view sql) : database_(&database) {
  sqlite3_stmt* made = nullptr;
  const int code = sqlite3_prepare_v3(database.handle(), sql.data(), static_cast<int>(sql.size()),
                                      0, &made, nullptr);
  statement_.reset(made);
  if (code != SQLITE_OK) database.fail_with(code);
}

bool Statement::next() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  database_->fail_with(code);
}

void Statement::run() {
  while (next()) {
  }
}

bool Statement::is_null(int column) const {
  return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

std::int64_t Statement::integer(int column) const {
  if (sqlite3_column_type(statement_.get(), column) != SQLITE_INTEGER) damaged(column);
  return sqlite3_column_int64(statement_.get(), column);
}

std::string Statement::text(int column) const {
  const void* bytes = sqlite3_column_blob(statement_.get(), column);  // before the size: same form
  const int size_bytes = sqlite3_column_bytes(statement_.get(), column);
  if (bytes == nullptr || size_bytes <= 0) return {};
  return {static_cast<const char*>(bytes), static_cast<std::size_t>(size_bytes)};
}

std::optional<int> Statement::optional_int(int column) const {
  if (is_null(column)) return {};
  const std::int64_t value = integer(column);
  if (!std::in_range<int>(value)) damaged(column);
  return static_cast<int>(value);
}

Instant Statement::instant(int column) const {
  const auto found = parse_instant(text(column));
  if (!found) damaged(column);
  return *found;
}

Date Statement::date(int column) const {
  const auto found = parse_date(text(column));
  if (!found) damaged(column);
  return *found;
}

std::optional<Date> Statement::optional_date(int column) const {
  if (is_null(column)) return {};
  return date(column);
}

void Statement::damaged(int column) const {
  const char* name = sqlite3_column_name(statement_.get(), column);
  throw Damage({ErrorCode::io,
                fmt::format("{}: is damaged: '{}' cannot stand under {}; take the newest backup",
                            database_->path(), excerpt(text(column)),
                            name == nullptr ? "its column" : name)});
}

void Statement::bind(int place, std::nullptr_t) {
  if (const int code = sqlite3_bind_null(statement_.get(), place); code != SQLITE_OK)
    database_->fail_with(code);
}

void Statement::bind(int place, std::int64_t value) {
  if (const int code = sqlite3_bind_int64(statement_.get(), place, value); code != SQLITE_OK)
    database_->fail_with(code);
}

void Statement::bind(int place, std::string_view text) {
  const char* bytes = text.data() == nullptr ? "" : text.data();  // a null pointer would mean NULL
  const int code = sqlite3_bind_text64(statement_.get(), place, bytes, text.size(),
                                       SQLITE_TRANSIENT, SQLITE_UTF8);
  if (code != SQLITE_OK) database_->fail_with(code);
}

void Statement::bind(int place, Blob blob) {
  const char* bytes = blob.bytes.data() == nullptr ? "" : blob.bytes.data();
  const int code =
      sqlite3_bind_blob64(statement_.get(), place, bytes, blob.bytes.size(), SQLITE_STATIC);
  if (code != SQLITE_OK) database_->fail_with(code);
}

Database::Database(std::string path, int flags) : path_(std::move(path)) {
  sqlite3* opened = nullptr;
  const int code = sqlite3_open_v2(path_.c_str(), &opened,
                                   flags | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, nullptr);
  handle_.reset(opened);
  if (code != SQLITE_OK) fail_with(code);
}

void Database::execute(const char* sql) {
  if (const int code = sqlite3_exec(handle(), sql, nullptr, nullptr, nullptr); code != SQLITE_OK)
    fail_with(code);
}

void Database::fail_with(int code) const {
  const int primary = code & 0xff;
  std::string message = fmt::format("{}: {}", path_, meaning(primary));
  const int reason = handle() == nullptr ? 0 : sqlite3_system_errno(handle());
  const bool of_the_system = primary == SQLITE_CANTOPEN || primary == SQLITE_IOERR;
  if (of_the_system && reason != 0) message += fmt::format(" ({})", std::strerror(reason));
  if (!of_the_system && handle() != nullptr && primary != SQLITE_BUSY && primary != SQLITE_NOTADB)
    message += fmt::format(" ({})", sqlite3_errmsg(handle()));
  if (primary == SQLITE_CORRUPT) throw Damage({ErrorCode::io, std::move(message)});
  const bool input = primary == SQLITE_CONSTRAINT || primary == SQLITE_NOTADB;
  throw Failure({input                      ? ErrorCode::bad_input
                 : primary == SQLITE_TOOBIG ? ErrorCode::out_of_range
                                            : ErrorCode::io,
                 std::move(message)});
}

Transaction::Transaction(Database& database, Access access) : database_(database) {
  database_.execute(access == Access::write ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  // Some failures (a full disk) have rolled back already; then there is nothing to undo.
  if (sqlite3_get_autocommit(database_.handle()) == 0)
    sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() { database_.execute("COMMIT"); }

}  // namespace rigproof::store
