// SQLite for one thread: a connection, statements and transactions that close themselves.
//
// Inside the store's SQLite files errors travel as Failure; SqliteStore turns them into Result at
// its edge (sqlite_store.hpp). Nothing outside sees an exception or sqlite3.h.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <exception>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "base/date.hpp"
#include "base/result.hpp"
#include "store/instant.hpp"
#include "store/spelled.hpp"

namespace rigproof::store {

class Failure : public std::exception {
 public:
  explicit Failure(Error error) : error_(std::move(error)) {}
  [[nodiscard]] const Error& error() const { return error_; }
  [[nodiscard]] const char* what() const noexcept override { return error_.message.c_str(); }

 private:
  Error error_;
};

/// The bytes of the file make no sense: check() tells of it instead of failing.
class Damage : public Failure {
 public:
  using Failure::Failure;
};

/// A value that goes in as a blob. Its bytes stay where they are until the statement has run.
struct Blob {
  std::string_view bytes;
};

class Database;

/// A prepared statement with its values. Parameters and columns count from 0 here.
class Statement {
 public:
  Statement(Database& database, std::string_view sql);

  /// Sets all parameters anew, in order.
  template <class... Values>
  Statement& with(const Values&... values) {
    sqlite3_reset(statement_.get());
    int place = 0;
    (bind(++place, values), ...);
    return *this;
  }
  [[nodiscard]] bool next();  ///< steps to a row; false at the end
  void run();                 ///< to the end, rows ignored

  [[nodiscard]] bool is_null(int column) const;
  [[nodiscard]] std::int64_t integer(int column) const;
  [[nodiscard]] std::string text(int column) const;  ///< text or blob, every byte of it
  [[nodiscard]] bool flag(int column) const { return integer(column) != 0; }
  [[nodiscard]] std::optional<int> optional_int(int column) const;
  [[nodiscard]] Instant instant(int column) const;
  [[nodiscard]] Date date(int column) const;
  [[nodiscard]] std::optional<Date> optional_date(int column) const;
  template <class Enum>
  [[nodiscard]] Enum word(int column) const {
    const auto found = find_word<Enum>(text(column));
    if (!found) damaged(column);
    return *found;
  }
  /// Throws Damage that names the column and what stands in it.
  [[noreturn]] void damaged(int column) const;

 private:
  void bind(int place, std::nullptr_t);
  void bind(int place, std::int64_t value);
  void bind(int place, int value) { bind(place, std::int64_t{value}); }
  void bind(int place, bool value) { bind(place, std::int64_t{value}); }
  void bind(int place, std::string_view text);
  void bind(int place, const std::string& text) { bind(place, std::string_view(text)); }
  void bind(int place, const char* text) { bind(place, std::string_view(text)); }
  void bind(int place, Blob blob);
  void bind(int place, Date date) { bind(place, to_string(date)); }
  void bind(int place, Instant instant) { bind(place, to_string(instant)); }
  template <class Value>
  void bind(int place, const std::optional<Value>& value) {
    if (value)
      bind(place, *value);
    else
      bind(place, nullptr);
  }

  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  Database* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

class Database {
 public:
  /// Opens or, with SQLITE_OPEN_CREATE among the flags, makes the file. Throws Failure.
  Database(std::string path, int flags);

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] sqlite3* handle() const { return handle_.get(); }

  /// Any number of statements without parameters.
  void execute(const char* sql);
  template <class... Values>
  [[nodiscard]] Statement query(std::string_view sql, const Values&... values) {
    Statement statement(*this, sql);
    statement.with(values...);
    return statement;
  }
  template <class... Values>
  void run(std::string_view sql, const Values&... values) {
    query(sql, values...).run();
  }
  /// The first column of the only row; none where there is no row or NULL in it.
  template <class... Values>
  [[nodiscard]] std::optional<std::int64_t> integer(std::string_view sql, const Values&... values) {
    Statement found = query(sql, values...);
    if (!found.next() || found.is_null(0)) return {};
    return found.integer(0);
  }
  [[nodiscard]] std::int64_t changes() const { return sqlite3_changes64(handle()); }
  [[nodiscard]] std::int64_t last_row() const { return sqlite3_last_insert_rowid(handle()); }

  /// Throws what a result code of SQLite means for a person.
  [[noreturn]] void fail_with(int code) const;

 private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  std::string path_;
  std::unique_ptr<sqlite3, Close> handle_;
};

enum class Access : std::uint8_t {
  read,   ///< one moment of the file for all that is read
  write,  ///< the only writer from the first statement on: heads cannot move
};

/// Rolls back unless it was committed.
class Transaction {
 public:
  Transaction(Database& database, Access access);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
};

/// Runs the body and gives what it gives, or the error that it threw.
template <class Body>
[[nodiscard]] auto result_of(Body&& body) -> Result<decltype(body())> {
  try {
    if constexpr (std::is_void_v<decltype(body())>) {
      body();
      return {};
    } else {
      return body();
    }
  } catch (const Failure& failure) {
    return tl::unexpected(failure.error());
  }
}

/// The body as one transaction: all of it is there afterwards, or nothing.
template <class Body>
[[nodiscard]] auto in_transaction(Database& database, Access access, Body&& body)
    -> Result<decltype(body())> {
  return result_of([&] {
    Transaction transaction(database, access);
    auto value = body();
    transaction.commit();
    return value;
  });
}

}  // namespace rigproof::store
