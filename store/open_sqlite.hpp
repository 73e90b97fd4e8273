// Opening the SQLite file of a store, with what a caller may set.
#pragma once

#include <memory>
#include <string>

#include "store/store.hpp"

namespace rigproof::store {

struct SqliteOptions {
  std::string path;
  int busy_timeout_ms = 5000;  ///< how long a call waits while others write, before it gives up
  int most_pages = 0;          ///< of 4096 bytes, beyond which the file may not grow; 0: no bound
};

/// As open_store (store.hpp).
[[nodiscard]] Result<std::unique_ptr<Store>> open_sqlite(const SqliteOptions& options);

}  // namespace rigproof::store
