// What the routes work with: the kept library, the jobs, the workshop's memory, the time of day.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <span>

#include "server/jobs.hpp"
#include "server/library.hpp"
#include "server/pages.hpp"
#include "store/store.hpp"

namespace rigproof::server {

/// A store used by one thread at a time, as it asks for.
class Memory {
 public:
  explicit Memory(std::unique_ptr<store::Store> store) : store_(std::move(store)) {}
  /// Calls `use` with the store while nobody else has it.
  template <class Use>
  auto with(Use&& use) {
    const std::scoped_lock lock(mutex_);
    return std::forward<Use>(use)(*store_);
  }

 private:
  std::mutex mutex_;
  std::unique_ptr<store::Store> store_;
};

struct Desk {
  Library& library;
  Jobs& jobs;
  Memory& memory;
  std::function<store::Instant()> now;
  std::span<const Asset> pages{};  ///< empty: the API alone
  std::mutex writing{};            ///< of the library's tables: one edit at a time
  std::mutex pricing{};            ///< of the next
  std::string prices_of{};         ///< revision of the edition whose offers were kept last
};

}  // namespace rigproof::server
