#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "store/sha256.hpp"
#include "store/sqlite_store.hpp"

namespace rigproof::store {
namespace {

namespace fs = std::filesystem;

Failure io_failure(const std::string& path, std::string_view what) {
  return Failure({ErrorCode::io, fmt::format("{}: {}", path, what)});
}

/// A draft beside the backup, gone again unless it became the backup.
class Draft {
 public:
  explicit Draft(const std::string& target)
      : target_(target), path_(fmt::format("{}.{}.part", target, random_id())) {}
  ~Draft() {
    std::error_code ignored;
    for (const char* tail : {"", "-journal", "-wal", "-shm"}) fs::remove(path_ + tail, ignored);
  }
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

  void put_in_place() {
    std::error_code code;
    fs::rename(path_, target_, code);
    if (code) throw io_failure(target_, code.message());
    const fs::path folder = fs::path(target_).parent_path();
    const int opened =
        ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (opened < 0) throw io_failure(folder.string(), std::strerror(errno));
    const bool synced = ::fsync(opened) == 0 || errno == EINVAL;  // some file systems need none
    ::close(opened);
    if (!synced) throw io_failure(folder.string(), "the new name cannot be written to the disk");
  }

 private:
  std::string target_;
  std::string path_;
};

/// All pages in one step: one moment of the source. In write-ahead mode writers go on meanwhile.
void copy_all(Database& from, Database& to) {
  sqlite3_backup* backup = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (backup == nullptr) to.fail_with(sqlite3_extended_errcode(to.handle()));
  const int step = sqlite3_backup_step(backup, -1);
  const int finish = sqlite3_backup_finish(backup);
  if (step != SQLITE_DONE) to.fail_with(step);
  if (finish != SQLITE_OK) to.fail_with(finish);
}

using Findings = std::vector<std::string>;

void check_pages(Database& database, Findings& findings) {
  Statement rows = database.query("PRAGMA integrity_check(100)");
  while (rows.next())
    if (std::string line = rows.text(0); line != "ok") findings.push_back(std::move(line));
}

void check_references(Database& database, Findings& findings) {
  Statement rows = database.query("PRAGMA foreign_key_check");
  while (rows.next())
    findings.push_back(fmt::format("{}: row {} refers to a {} that is not there", rows.text(0),
                                   rows.is_null(1) ? 0 : rows.integer(1), rows.text(2)));
}

/// Each question gives what is wrong, in words; no row: nothing is.
constexpr std::array<const char*, 6> house_questions{
    "SELECT 'document ' || id || ': has no revision' FROM document d "
    "WHERE NOT EXISTS (SELECT 1 FROM document_revision WHERE document = d.id)",
    "SELECT 'document ' || document || ': its revisions have gaps' FROM document_revision "
    "GROUP BY document HAVING min(revision) <> 1 OR max(revision) <> count(*)",
    "SELECT 'item ' || id || ': has no revision' FROM item i "
    "WHERE NOT EXISTS (SELECT 1 FROM item_revision WHERE item = i.id)",
    "SELECT 'item ' || item || ': its revisions have gaps' FROM item_revision "
    "GROUP BY item HAVING min(revision) <> 1 OR max(revision) <> count(*)",
    "SELECT 'record ' || record || ': its errata have gaps' FROM erratum "
    "GROUP BY record HAVING min(number) <> 1 OR max(number) <> count(*)",
    "SELECT 'price batch ' || number || ': has ' || there || ' of its ' || offers || ' offers' "
    "FROM (SELECT number, offers, (SELECT count(*) FROM price WHERE batch = b.number) AS there "
    "FROM price_batch b) WHERE there <> offers"};

void check_house(Database& database, Findings& findings) {
  for (const char* question : house_questions) {
    Statement rows = database.query(question);
    while (rows.next()) findings.push_back(rows.text(0));
  }
}

void check_hashes(Database& database, Findings& findings) {
  for (const char* question :
       {"SELECT 'document', document, sha256, text FROM document_revision WHERE deleted = 0",
        "SELECT 'run', id, sha256, capture FROM run",
        "SELECT 'record', id, sha256, body FROM record"}) {
    Statement rows = database.query(question);
    while (rows.next())
      if (sha256(rows.text(3)) != rows.text(2))
        findings.push_back(fmt::format("{} {}: its bytes are not what their hash says",
                                       rows.text(0), rows.text(1)));
  }
}

/// A check that stumbles over what it looks for has found it.
Findings findings_of(Database& database) {
  Findings findings;
  for (const auto look : {check_pages, check_references, check_house, check_hashes}) {
    try {
      look(database, findings);
    } catch (const Damage& damage) {
      findings.push_back(damage.error().message);
    }
  }
  return findings;
}

}  // namespace

Result<void> SqliteStore::backup_to(const std::string& path) {
  return result_of([&] {
    std::error_code ignored;
    if (path.empty() || path.find('\0') != std::string::npos)
      throw Failure({ErrorCode::bad_input, "backup: expected the path of a new file"});
    if (fs::exists(fs::symlink_status(path, ignored)))
      throw Failure({ErrorCode::bad_input,
                     fmt::format("{}: is there already; expected the path of a new file", path)});
    const std::string usable = fs::path(path).is_absolute() ? path : "./" + path;
    Draft draft(usable);
    {
      Database copy(draft.path(), SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
      copy_all(database_, copy);
      // One plain file: it can be read from where nothing can be written beside it.
      copy.execute("PRAGMA synchronous = FULL; PRAGMA journal_mode = DELETE");
      if (const Findings findings = findings_of(copy); !findings.empty())
        throw io_failure(path, "the copy is not whole: " + findings.front());
    }
    draft.put_in_place();
  });
}

Result<std::vector<std::string>> SqliteStore::check() {
  return in_transaction(database_, Access::read, [&] { return findings_of(database_); });
}

}  // namespace rigproof::store
