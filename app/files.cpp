#include "app/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>

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

Result<std::vector<FolderFile>> read_tables(const fs::path& folder) {
  std::error_code error;
  if (!fs::exists(folder, error)) return io_error(folder, "there is no such folder");
  if (!fs::is_directory(folder, error)) return io_error(folder, "is not a folder; expected a folder of .csv tables");
  std::vector<fs::path> paths;
  for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error))
    if (it->path().extension() == ".csv") paths.push_back(it->path());
  if (error) return io_error(folder, error.message());
  if (paths.empty())
    return fail(ErrorCode::not_found, fmt::format("{}: holds no .csv table; expected a catalog folder with cpu.csv, board.csv "
                                                  "and the other tables of docs/catalog.md", folder.string()));
  std::ranges::sort(paths);
  std::vector<FolderFile> files;
  for (const fs::path& path : paths) {
    auto bytes = read_file(path);
    if (!bytes) return tl::unexpected(bytes.error());
    files.push_back({path.string(), std::move(*bytes)});
  }
  return files;
}

Result<void> write_atomically(const fs::path& path, std::string_view bytes) {
  std::error_code error;
  if (path.has_parent_path()) fs::create_directories(path.parent_path(), error);
  if (error) return io_error(path.parent_path(), "cannot be made: " + error.message());
  std::string draft = path.string() + ".XXXXXX";
  const Descriptor file(::mkstemp(draft.data()));
  if (file.get() < 0) return io_error(path, "cannot be written: " + last_error());
  const bool written = write_all(file.get(), bytes) && ::fchmod(file.get(), 0644) == 0 && ::fsync(file.get()) == 0;
  if (!written || std::rename(draft.c_str(), path.c_str()) != 0) {
    const std::string why = last_error();
    ::unlink(draft.c_str());
    return io_error(path, "cannot be written: " + why);
  }
  return {};
}

}  // namespace rigproof::app
