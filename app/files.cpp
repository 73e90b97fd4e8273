#include "app/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <utility>

namespace rigproof::app {
namespace {

namespace fs = std::filesystem;
constexpr std::uintmax_t most_bytes = 2ULL << 30U;

tl::unexpected<Error> io_error(const fs::path& path, std::string_view what) {
  return fail(ErrorCode::io, fmt::format("{}: {}", path.string(), what));
}

std::string last_error() { return std::strerror(errno); }

// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  [[nodiscard]] int get() const { return fd_; }

 private:
  int fd_;
};

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(fd, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

Result<std::string> read_file(const fs::path& path) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status)) return io_error(path, "there is no such file");
  if (fs::is_directory(status)) return io_error(path, "is a folder; expected a file");
  if (!fs::is_regular_file(status)) return io_error(path, "is not an ordinary file");
  const std::uintmax_t size = fs::file_size(path, error);
  if (error) return io_error(path, error.message());
  if (size > most_bytes) return io_error(path, "is larger than 2 GiB");
  std::ifstream in(path, std::ios::binary);
  if (!in) return io_error(path, "cannot be read: " + last_error());
  std::string bytes(static_cast<std::size_t>(size), '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(size));
  if (in.bad()) return io_error(path, "cannot be read: " + last_error());
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return bytes;
}

Result<std::string> read_input(const fs::path& path) {
  if (path != "-") return read_file(path);
  std::string bytes;
  std::string block(1U << 16U, '\0');
  for (;;) {
    const ssize_t got = ::read(STDIN_FILENO, block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return io_error("standard input", "cannot be read: " + last_error());
    if (got == 0) return bytes;
    bytes.append(block, 0, static_cast<std::size_t>(got));
    if (bytes.size() > most_bytes) return io_error("standard input", "is larger than 2 GiB");
  }
}

Result<std::vector<FolderFile>> read_tables(const fs::path& folder) {
  std::error_code error;
  if (!fs::exists(folder, error)) return io_error(folder, "there is no such folder");
  if (!fs::is_directory(folder, error))
    return io_error(folder, "is not a folder; expected a folder of .csv tables");
  std::vector<fs::path> paths;
  for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error))
    if (it->path().extension() == ".csv") paths.push_back(it->path());
  if (error) return io_error(folder, error.message());
  if (paths.empty())
    return fail(
        ErrorCode::not_found,
        fmt::format("{}: holds no .csv table; expected at least one, such as cpu.csv (all of them: "
                    "docs/catalog.md; a first one by hand: docs/first-hour.md)",
                    folder.string()));
  std::ranges::sort(paths);
  std::vector<FolderFile> files;
  for (const fs::path& path : paths) {
    auto bytes = read_file(path);
    if (!bytes) return tl::unexpected(bytes.error());
    files.push_back({path.string(), std::move(*bytes)});
  }
  return files;
}

namespace {

// A file beside its target, removed again unless it took the target's place.
class Draft {
 public:
  explicit Draft(fs::path target) : target_(std::move(target)) {}
  Draft(Draft&& other) noexcept
      : target_(std::move(other.target_)), name_(std::exchange(other.name_, {})) {}
  Draft& operator=(Draft&&) = delete;
  ~Draft() {
    if (!name_.empty()) ::unlink(name_.c_str());
  }

  [[nodiscard]] Result<void> write(std::string_view bytes) {
    std::error_code error;
    if (target_.has_parent_path()) fs::create_directories(target_.parent_path(), error);
    if (error) return io_error(target_.parent_path(), "cannot be made: " + error.message());
    if (fs::is_directory(target_, error))
      return io_error(target_, "cannot be written: is a folder");
    std::string name = target_.string() + ".XXXXXX";
    const Descriptor file(::mkstemp(name.data()));
    if (file.get() < 0) return io_error(target_, "cannot be written: " + last_error());
    name_ = std::move(name);
    if (!write_all(file.get(), bytes) || ::fchmod(file.get(), 0644) != 0 ||
        ::fsync(file.get()) != 0)
      return io_error(target_, "cannot be written: " + last_error());
    return {};
  }

  [[nodiscard]] Result<void> take_place() {
    if (std::rename(name_.c_str(), target_.c_str()) != 0)
      return io_error(target_, "cannot be written: " + last_error());
    name_.clear();
    return {};
  }

 private:
  fs::path target_;
  std::string name_;
};

}  // namespace

Result<void> write_together(const std::vector<FileToWrite>& files) {
  std::vector<Draft> drafts;
  for (const FileToWrite& file : files) {
    drafts.emplace_back(file.path);
    if (auto done = drafts.back().write(file.bytes); !done) return done;
  }
  for (Draft& draft : drafts)
    if (auto done = draft.take_place(); !done) return done;
  return {};
}

Result<void> write_atomically(const fs::path& path, std::string_view bytes) {
  Draft draft(path);
  if (auto done = draft.write(bytes); !done) return done;
  return draft.take_place();
}

}  // namespace rigproof::app
