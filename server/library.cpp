#include "server/library.hpp"

#include <fmt/format.h>

#include <chrono>

#include "app/files.hpp"

namespace rigproof::server {
namespace {

constexpr double look_every_s = 0.5;

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

Result<std::shared_ptr<const Edition>> read_edition(const std::filesystem::path& folder,
                                                    bool skip_bad) {
  auto workshop = app::open_workshop(folder, skip_bad);
  if (!workshop) return tl::unexpected(workshop.error());
  const auto files = app::read_tables(folder);
  if (!files) return tl::unexpected(files.error());
  std::string all;
  for (const app::FolderFile& file : *files)
    all += fmt::format("{} {}\n", file.name, short_hash(file.bytes));
  return std::make_shared<const Edition>(
      Edition{.workshop = std::move(*workshop), .revision = short_hash(all)});
}

}  // namespace

std::string short_hash(std::string_view bytes) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char byte : bytes) {
    hash ^= static_cast<unsigned char>(byte);
    hash *= 1099511628211ULL;
  }
  return fmt::format("{:016x}", hash);
}

Result<std::unique_ptr<Library>> Library::open(std::filesystem::path folder, bool skip_bad) {
  std::unique_ptr<Library> out(new Library(std::move(folder), skip_bad));
  out->stamp_ = out->stamp();
  auto edition = read_edition(out->folder_, skip_bad);
  if (!edition) return tl::unexpected(edition.error());
  out->edition_ = std::move(*edition);
  out->looked_s_ = now_s();
  return out;
}

// Times and sizes of the tables; a folder that is away has an empty one.
std::string Library::stamp() const {
  std::string out;
  std::error_code error;
  std::vector<std::string> lines;
  for (const auto& entry : std::filesystem::directory_iterator(folder_, error)) {
    if (entry.path().extension() != ".csv") continue;
    std::error_code ignored;
    const auto time = entry.last_write_time(ignored).time_since_epoch().count();
    lines.push_back(fmt::format("{} {} {}\n", entry.path().filename().string(), time,
                                entry.file_size(ignored)));
  }
  std::ranges::sort(lines);
  for (const std::string& line : lines) out += line;
  return out;
}

void Library::read_if_changed() {
  std::string stamp_now = stamp();
  if (stamp_now == stamp_) return;
  auto edition = read_edition(folder_, skip_bad_);
  stamp_ = std::move(stamp_now);
  trouble_ = edition ? std::string() : edition.error().message;
  if (edition) edition_ = std::move(*edition);
}

std::shared_ptr<const Edition> Library::edition() {
  const std::scoped_lock lock(mutex_);
  if (now_s() - looked_s_ >= look_every_s) {
    read_if_changed();
    looked_s_ = now_s();
  }
  return edition_;
}

std::string Library::trouble() {
  const std::scoped_lock lock(mutex_);
  return trouble_;
}

void Library::look_again() {
  const std::scoped_lock lock(mutex_);
  stamp_.clear();
  read_if_changed();
}

}  // namespace rigproof::server
