#include "server/library.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "app/files.hpp"
#include "store/sha256.hpp"

namespace rigproof::server {
namespace {

constexpr double look_every_s = 0.5;

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// The files are read once: what was understood and what it is called are of the same bytes.
Result<std::shared_ptr<const Edition>> read_edition(const std::filesystem::path& folder,
                                                    bool skip_bad) {
  const auto files = app::read_tables(folder);
  if (!files) return tl::unexpected(files.error());
  auto workshop = app::workshop_of(folder, *files, skip_bad);
  if (!workshop) return tl::unexpected(workshop.error());
  std::string all;
  for (const app::FolderFile& file : *files)
    all += fmt::format("{} {}\n", file.name, revision_of(file.bytes));
  return std::make_shared<const Edition>(
      Edition{.workshop = std::move(*workshop), .revision = revision_of(all)});
}

}  // namespace

std::string revision_of(std::string_view bytes) { return store::sha256(bytes).substr(0, 16); }

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
  for (std::filesystem::directory_iterator at(folder_, error), end; !error && at != end;
       at.increment(error)) {
    if (at->path().extension() != ".csv") continue;
    std::error_code ignored;
    const auto time = at->last_write_time(ignored).time_since_epoch().count();
    lines.push_back(
        fmt::format("{} {} {}\n", at->path().filename().string(), time, at->file_size(ignored)));
  }
  std::ranges::sort(lines);
  for (const std::string& line : lines) out += line;
  return out;
}

// In: reading_ is held. Others go on with the edition before while files are read.
void Library::read_if_changed() {
  std::string stamp_now = stamp();
  {
    const std::scoped_lock lock(mutex_);
    looked_s_ = now_s();
    if (stamp_now == stamp_) return;
  }
  auto edition = read_edition(folder_, skip_bad_);
  const std::scoped_lock lock(mutex_);
  stamp_ = std::move(stamp_now);
  trouble_ = edition ? std::string() : edition.error().message;
  if (edition) edition_ = std::move(*edition);
}

std::shared_ptr<const Edition> Library::edition() {
  {
    const std::scoped_lock lock(mutex_);
    if (now_s() - looked_s_ < look_every_s) return edition_;
  }
  if (const std::unique_lock reading(reading_, std::try_to_lock); reading) read_if_changed();
  const std::scoped_lock lock(mutex_);
  return edition_;
}

std::string Library::trouble() {
  const std::scoped_lock lock(mutex_);
  return trouble_;
}

void Library::look_again() {
  const std::scoped_lock reading(reading_);
  {
    const std::scoped_lock lock(mutex_);
    stamp_.clear();
  }
  read_if_changed();
}

}  // namespace rigproof::server
