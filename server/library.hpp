// The kept library: the catalog folder read once, held for all requests, and read again when its
// files change.
#pragma once

#include <filesystem>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "app/workshop.hpp"

namespace rigproof::server {

/// A catalog as it was read at one moment; never changes, so many requests may look at it.
struct Edition {
  app::Workshop workshop;
  std::string revision;  ///< of the bytes of its tables: two readings of the same bytes are equal
};

/// May be used from many threads.
class Library {
 public:
  /// Errors: those of app::open_workshop.
  [[nodiscard]] static Result<std::unique_ptr<Library>> open(std::filesystem::path folder,
                                                             bool skip_bad);

  /// The newest edition that could be read. Looks at the files' times and sizes, at most twice a
  /// second, and reads them when one has changed; who asks meanwhile gets the edition before.
  [[nodiscard]] std::shared_ptr<const Edition> edition();
  /// What kept the files as they are now from being read; empty: nothing.
  [[nodiscard]] std::string trouble();
  /// Reads again at once: after the library itself wrote a table.
  void look_again();

  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

 private:
  Library(std::filesystem::path folder, bool skip_bad)
      : folder_(std::move(folder)), skip_bad_(skip_bad) {}
  [[nodiscard]] std::string stamp() const;
  void read_if_changed();

  std::filesystem::path folder_;
  bool skip_bad_ = false;
  std::mutex reading_;  ///< held by the one thread that reads the files; taken before the next
  std::mutex mutex_;    ///< of what follows
  std::shared_ptr<const Edition> edition_;
  std::string stamp_;  ///< of the files when edition_ or trouble_ came to be
  std::string trouble_;
  double looked_s_ = 0.0;
};

/// What some bytes are called, for telling whether they are the same: the first 64 bits of their
/// SHA-256.
[[nodiscard]] std::string revision_of(std::string_view bytes);

}  // namespace rigproof::server
