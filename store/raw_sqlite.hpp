// For tests: the file seen past the store, as any other program with SQLite would.
#pragma once

#include <sqlite3.h>

#include <fstream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace rigproof::store {

class RawSqlite {
 public:
  explicit RawSqlite(const std::string& path) {
    sqlite3* opened = nullptr;
    const int code = sqlite3_open(path.c_str(), &opened);
    handle_.reset(opened);
    if (code != SQLITE_OK) throw std::runtime_error("cannot open " + path);
  }

  /// The message of SQLite; empty: it was done.
  std::string attempt(const std::string& sql) {
    char* message = nullptr;
    sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, &message);
    const std::string said = message == nullptr ? "" : message;
    sqlite3_free(message);
    return said;
  }
  void run(const std::string& sql) {
    if (const std::string said = attempt(sql); !said.empty()) throw std::runtime_error(said);
  }
  /// First column of every row, NULL as an empty text.
  std::vector<std::string> column(const std::string& sql) {
    std::vector<std::string> values;
    const auto take = [](void* into, int, char** cells, char**) {
      static_cast<std::vector<std::string>*>(into)->emplace_back(cells[0] == nullptr ? ""
                                                                                     : cells[0]);
      return 0;
    };
    sqlite3_exec(handle_.get(), sql.c_str(), take, &values, nullptr);
    return values;
  }

 private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  std::unique_ptr<sqlite3, Close> handle_;
};

inline std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline void put_bytes(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

}  // namespace rigproof::store
