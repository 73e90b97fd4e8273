// Files that are no store, cannot be written, are full or damaged: a clear error, never a crash.
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <random>
#include <thread>

#include "store/conformance.hpp"
#include "store/open_sqlite.hpp"
#include "store/raw_sqlite.hpp"
#include "tests/support/test_folder.hpp"

namespace rigproof::store {
namespace {

using test_support::TestFolder;

namespace fs = std::filesystem;

const Instant now = at("2026-11-27T09:00:00Z");

class SqliteFile : public testing::Test {
 protected:
  [[nodiscard]] std::string path(const std::string& name = "workshop.db") const {
    return folder_.file(name);
  }
  [[nodiscard]] std::unique_ptr<Store> opened(const std::string& name = "workshop.db") const {
    auto store = open_store("sqlite:" + path(name));
    if (!store) throw std::runtime_error(store.error().message);
    return std::move(*store);
  }
  /// Expects an error of the code whose message names the file and says `words`.
  void expect_refused(const std::string& file, ErrorCode code, const std::string& words) {
    const auto refused = open_store("sqlite:" + file);
    ASSERT_EQ(refusal(refused), code) << file;
    EXPECT_NE(refused.error().message.find(words), std::string::npos) << refused.error().message;
    EXPECT_NE(refused.error().message.find(fs::path(file).filename()), std::string::npos)
        << refused.error().message;
  }
  /// A store with a little of everything in it.
  void fill(Store& store) {
    const DocumentId id = store.add_document(a_brief("a", std::string(20'000, 'a')))->id;
    ASSERT_TRUE(store.save_document(id, 1, {.name = "b", .text = "b", .saved_at = now}));
    std::vector<SeenOffer> offers(300, an_offer());
    for (std::size_t i = 0; i < offers.size(); ++i) offers[i].price.minor += static_cast<int>(i);
    ASSERT_TRUE(store.append_prices(a_batch(offers)));
    ASSERT_TRUE(store.add_item({.part = {.kind = Kind::fan, .id = "fan-a"}}, now));
    ASSERT_TRUE(store.add_run({.machine = "m",
                               .title = "t",
                               .taken_at = now,
                               .context = "c",
                               .capture = std::string(9000, 'c'),
                               .build = id}));
    const auto record = store.freeze_record(
        {.name = "r", .body = "b", .frozen_at = now, .build = RevisionName{id, 2}});
    ASSERT_TRUE(record) << record.error().message;
    ASSERT_TRUE(store.add_erratum(record->id, "e", now));
  }

 private:
  TestFolder folder_;
};

TEST_F(SqliteFile, NoStoreIsOpenedWhereNoneCanBe) {
  EXPECT_EQ(refusal(open_store("sqlite:")), ErrorCode::bad_input);
  EXPECT_EQ(refusal(open_store("workshop.db")), ErrorCode::bad_input);
  EXPECT_EQ(refusal(open_store("oracle-bone:x")), ErrorCode::bad_input);
  EXPECT_EQ(refusal(open_store(std::string("sqlite:/tmp/a\0b", 15))), ErrorCode::bad_input);
  fs::create_directory(path("folder"));
  expect_refused(path("folder"), ErrorCode::io, "is a folder");
  expect_refused(path("nowhere/workshop.db"), ErrorCode::io, "folder it should stand in");
  put_bytes(path("file"), "x");
  expect_refused(path("file/workshop.db"), ErrorCode::io, "folder it should stand in");
  ASSERT_EQ(mkfifo(path("pipe").c_str(), 0600), 0);
  expect_refused(path("pipe"), ErrorCode::io, "not a regular file");
  expect_refused(path(std::string(300, 'x')), ErrorCode::io, "cannot be opened");
}

TEST_F(SqliteFile, FilesOfOthersAreRefusedAndStayAsTheyWere) {
  put_bytes(path("text"), "id,name\n" + std::string(5000, 'x'));
  RawSqlite(path("other")).run("CREATE TABLE theirs (x); INSERT INTO theirs VALUES (1)");
  RawSqlite(path("numbered")).run("PRAGMA user_version = 1; CREATE TABLE theirs (x)");
  RawSqlite(path("signed")).run("PRAGMA application_id = 77; CREATE TABLE theirs (x)");
  for (const char* name : {"text", "other", "numbered", "signed"}) {
    const std::string before = bytes_of(path(name));
    expect_refused(path(name), ErrorCode::bad_input, "no store");
    EXPECT_EQ(bytes_of(path(name)), before) << name;
  }
}

TEST_F(SqliteFile, EmptyFileBecomesAStore) {
  put_bytes(path("empty"), "");
  EXPECT_TRUE(opened("empty")->add_document(a_brief()));
}

TEST_F(SqliteFile, NamesThatSqliteKeepsForItselfAreFiles) {
  const fs::path before = fs::current_path();
  fs::current_path(path("."));
  EXPECT_TRUE(open_store("sqlite::memory:"));
  EXPECT_TRUE(open_store("sqlite:file:a?mode=memory"));
  fs::current_path(before);
  EXPECT_TRUE(fs::exists(path(":memory:")));
  EXPECT_TRUE(fs::exists(path("file:a?mode=memory")));
}

/// Root may write anything: for a while somebody else.
class AsNobody {
 public:
  AsNobody() : was_(geteuid()) {
    if (was_ == 0 && seteuid(65534) != 0) throw std::runtime_error("cannot become nobody");
  }
  ~AsNobody() {
    if (was_ == 0 && seteuid(0) != 0) std::abort();
  }
  AsNobody(const AsNobody&) = delete;
  AsNobody& operator=(const AsNobody&) = delete;

 private:
  uid_t was_;
};

TEST_F(SqliteFile, WhatMayNotBeWrittenIsSaidSo) {
  fill(*opened());
  const std::string before = bytes_of(path());
  fs::permissions(path("."), fs::perms(0755));
  fs::permissions(path(), fs::perms(0444));
  {
    const AsNobody nobody;
    expect_refused(path(), ErrorCode::io, "may not be written");
  }
  fs::permissions(path(), fs::perms(0000));
  {
    const AsNobody nobody;
    expect_refused(path(), ErrorCode::io, "cannot be opened");
  }
  fs::permissions(path(), fs::perms(0666));
  fs::permissions(path("."), fs::perms(0555));
  {
    const AsNobody nobody;  // the file may be written, its log beside it not
    expect_refused(path(), ErrorCode::io, "workshop.db");
    expect_refused(path("new.db"), ErrorCode::io, "cannot be opened");
  }
  fs::permissions(path("."), fs::perms(0755));
  EXPECT_EQ(bytes_of(path()), before);
}

TEST_F(SqliteFile, FullDiskRefusesTheCallAndKeepsTheRest) {
  auto bounded = open_sqlite({.path = path(), .most_pages = 200});
  ASSERT_TRUE(bounded) << bounded.error().message;
  Store& store = **bounded;
  const DocumentId id = store.add_document(a_brief("a", "small"))->id;
  std::vector<SeenOffer> offers(20'000, an_offer());
  for (std::size_t i = 0; i < offers.size(); ++i) offers[i].price.minor = static_cast<int>(i);
  const auto refused = store.append_prices(a_batch(offers));
  ASSERT_EQ(refusal(refused), ErrorCode::io);
  EXPECT_NE(refused.error().message.find("no room left"), std::string::npos)
      << refused.error().message;
  EXPECT_EQ(refusal(store.save_document(
                id, 1, {.name = "a", .text = std::string(1 << 20, 'x'), .saved_at = now})),
            ErrorCode::io);
  EXPECT_TRUE(store.price_series(an_offer().part)->empty()) << "nothing of the batch";
  EXPECT_EQ(store.document(id)->text, "small");
  EXPECT_EQ(*store.check(), std::vector<std::string>{});
  offers.resize(10);
  EXPECT_EQ(store.append_prices(a_batch(offers))->added, 10U) << "what is small still goes in";
}

TEST_F(SqliteFile, DiskThatIsFullFromTheBeginningMakesNoHalfStore) {
  expect_refused("/dev/full", ErrorCode::io, "not a regular file");
  const auto refused = open_sqlite({.path = path(), .most_pages = 5});
  ASSERT_EQ(refusal(refused), ErrorCode::io);
  EXPECT_NE(refused.error().message.find("no room left"), std::string::npos);
  fill(*opened());
  EXPECT_EQ(*opened()->check(), std::vector<std::string>{});
}

TEST_F(SqliteFile, LockedForTooLongIsSaidInTime) {
  static_cast<void>(opened());
  auto store = open_sqlite({.path = path(), .busy_timeout_ms = 50});
  ASSERT_TRUE(store);
  RawSqlite other(path());
  other.run("BEGIN IMMEDIATE");
  const auto begun = std::chrono::steady_clock::now();
  const auto refused = (*store)->add_document(a_brief());
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(3));
  ASSERT_EQ(refusal(refused), ErrorCode::io);
  EXPECT_NE(refused.error().message.find("another program"), std::string::npos);
  EXPECT_TRUE((*store)->documents(DocumentKind::brief)) << "reading goes on";
  other.run("ROLLBACK");
  EXPECT_TRUE((*store)->add_document(a_brief()));
}

TEST_F(SqliteFile, IsWrittenAheadAndChecksItsReferences) {
  fill(*opened());
  EXPECT_EQ(RawSqlite(path()).column("PRAGMA journal_mode"), std::vector<std::string>{"wal"});
  const auto store = opened();
  RawSqlite raw(path());
  raw.run("DROP TRIGGER document_stays; DELETE FROM document");  // foreign keys are off there
  const auto findings = store->check();
  ASSERT_TRUE(findings) << findings.error().message;
  EXPECT_FALSE(findings->empty());
}

TEST_F(SqliteFile, DamagedFileIsToldOfAndNeverCrashes) {
  fill(*opened());
  const std::string whole = bytes_of(path());
  std::mt19937 random(5);
  int noticed = 0;
  for (int round = 0; round < 300; ++round) {
    std::string spoiled = whole;
    if (round % 5 == 0) spoiled.resize(random() % whole.size());  // cut off
    const std::size_t bytes = spoiled.empty() ? 0 : 1 + random() % 100;
    const std::size_t reach =
        round % 2 == 0 ? spoiled.size() : std::min<std::size_t>(spoiled.size(), 8192);
    for (std::size_t i = 0; i < bytes; ++i) {
      spoiled[random() % reach] = static_cast<char>(random());
    }
    for (const char* tail : {"-wal", "-shm"}) fs::remove(path("bad") + tail);
    put_bytes(path("bad"), spoiled);
    auto store = open_store("sqlite:" + path("bad"));
    if (!store) {
      ++noticed;
      EXPECT_FALSE(store.error().message.empty());
      continue;
    }
    const auto findings = (*store)->check();
    noticed += !findings || !findings->empty() ? 1 : 0;
    for (const auto kind : {DocumentKind::brief, DocumentKind::table})
      if (const auto list = (*store)->documents(kind))
        for (const DocumentInfo& info : *list) static_cast<void>((*store)->document(info.id));
    static_cast<void>((*store)->price_series(an_offer().part));
    static_cast<void>((*store)->items());
    if (const auto runs = (*store)->runs())
      for (const RunInfo& info : *runs) static_cast<void>((*store)->run(info.id));
    if (const auto records = (*store)->records())
      for (const RecordInfo& info : *records) static_cast<void>((*store)->record(info.id));
    static_cast<void>((*store)->add_document(a_brief()));
    static_cast<void>((*store)->append_prices(a_batch({an_offer()})));
    static_cast<void>((*store)->backup_to(path(fmt::format("backup-{}", round))));
  }
  EXPECT_GT(noticed,
            100);  // a byte in empty room is nobody's to notice
}

TEST_F(SqliteFile, RowsOnlyGrowWhoeverWrites) {
  fill(*opened());
  RawSqlite raw(path());
  for (const std::string table : {"document", "document_revision", "price_batch", "price", "item",
                                  "item_revision", "run", "record", "erratum"}) {
    const std::string all = "SELECT count(*) FROM " + table;
    const auto before = raw.column(all);
    ASSERT_NE(before, std::vector<std::string>{"0"}) << table;
    EXPECT_NE(raw.attempt("DELETE FROM " + table).find("never"), std::string::npos) << table;
    EXPECT_NE(raw.attempt(fmt::format("UPDATE {0} SET rowid = rowid", table)).find("never"),
              std::string::npos)
        << table;
    EXPECT_NE(raw.attempt(fmt::format("REPLACE INTO {0} SELECT * FROM {0}", table)), "") << table;
    EXPECT_EQ(raw.column(all), before) << table;
  }
}

TEST_F(SqliteFile, RulesOfTheFileRefuseWhatTheStoreWould) {
  fill(*opened());
  RawSqlite raw(path());
  const std::string item =
      "INSERT INTO item_revision SELECT item, revision + 1, saved_at, part_kind, part, {}, "
      "condition, serial, from_whom, {}, {}, warranty_until, left_on, done FROM item_revision";
  EXPECT_EQ(raw.attempt("SAVEPOINT s; " +
                        fmt::format(fmt::runtime(item), "'loaned'", "NULL", "'2026-01-31'") +
                        "; ROLLBACK TO s; RELEASE s"),
            "");
  for (const auto& [came, came_on, due_back] : {std::array{"'stolen'", "NULL", "NULL"},
                                                {"'bought'", "NULL", "'2026-01-31'"},
                                                {"'loaned'", "'2026-02-01'", "'2026-01-31'"},
                                                {"'loaned'", "NULL", "'2026-02-30'"},
                                                {"'loaned'", "NULL", "20260131"},
                                                {"NULL", "NULL", "NULL"}})
    EXPECT_NE(raw.attempt(fmt::format(fmt::runtime(item), came, came_on, due_back)), "")
        << came << came_on << due_back;
  for (const char* sql :
       {"INSERT INTO document VALUES ('ABCDEFGHIJ', 'brief', NULL)",
        "INSERT INTO document VALUES ('aaaaaaaaaa', 'poem', NULL)",
        "INSERT INTO document VALUES ('aaaaaaaaaa', 'table', NULL)",
        "INSERT INTO document_revision SELECT document, 9, name, saved_at, 0, sha256, text FROM "
        "document_revision",
        "INSERT INTO document_revision SELECT document, 3, name, 'today', 0, sha256, text FROM "
        "document_revision WHERE revision = 2",
        "INSERT INTO erratum SELECT record, 3, noted_at, text FROM erratum"})
    EXPECT_NE(raw.attempt(sql), "") << sql;
}

TEST_F(SqliteFile, CheckFindsWhatWasTamperedWith) {
  const std::vector<std::pair<const char*, const char*>> deeds{
      {"DROP TRIGGER document_revision_keeps; UPDATE document_revision SET text = "
       "CAST('x' AS BLOB)",
       "hash"},
      {"DROP TRIGGER run_keeps; UPDATE run SET capture = CAST(zeroblob(9000) AS BLOB)", "hash"},
      {"DROP TRIGGER record_keeps; UPDATE record SET body = CAST('x' AS BLOB)", "hash"},
      {"DROP TRIGGER price_stays; DELETE FROM price WHERE number = 7", "299 of its 300"},
      {"DROP TRIGGER document_revision_stays; DELETE FROM document_revision WHERE revision = 1",
       "gaps"},
      {"DROP TRIGGER item_revision_stays; DELETE FROM item_revision", "no revision"},
      {"DROP TRIGGER price_batch_stays; DELETE FROM price_batch", "price_batch"},
      {"PRAGMA ignore_check_constraints = ON; DROP TRIGGER run_keeps; UPDATE run SET machine = ''",
       "CHECK"}};
  for (std::size_t i = 0; i < deeds.size(); ++i) {
    const std::string name = "store-" + std::to_string(i);
    fill(*opened(name));
    ASSERT_EQ(*opened(name)->check(), std::vector<std::string>{});
    RawSqlite(path(name)).run(deeds[i].first);
    const auto findings = opened(name)->check();
    ASSERT_TRUE(findings);
    std::string all;
    for (const std::string& finding : *findings) all += finding + "\n";
    EXPECT_NE(all.find(deeds[i].second), std::string::npos) << deeds[i].first << ": " << all;
  }
  const auto text = opened("store-0");
  EXPECT_EQ(refusal(text->document(text->documents(DocumentKind::brief)->at(0).id)), ErrorCode::io);
  const auto capture = opened("store-1");
  EXPECT_EQ(refusal(capture->run(capture->runs()->at(0).id)), ErrorCode::io);
  const auto body = opened("store-2");
  EXPECT_EQ(refusal(body->record(body->records()->at(0).id)), ErrorCode::io);
}

TEST_F(SqliteFile, BackupIsWholeWhileOthersWrite) {
  fill(*opened());
  std::atomic<bool> stop = false;
  std::atomic<int> written = 0;
  std::jthread writer([&] {
    const auto store = opened();
    for (int day_number = 0; !stop; ++day_number) {
      std::vector<SeenOffer> offers(50, an_offer());
      for (std::size_t i = 0; i < offers.size(); ++i) {
        offers[i].seen = {20'000 + day_number};
        offers[i].price.minor = static_cast<int>(i);
      }
      if (store->append_prices(a_batch(offers))) ++written;
    }
  });
  const auto store = opened();
  std::size_t last = 0;
  for (int round = 0; round < 10; ++round) {
    const int before = written;
    while (written == before) std::this_thread::yield();
    const std::string name = fmt::format("backup-{}.db", round);
    const auto done = store->backup_to(path(name));
    ASSERT_TRUE(done) << done.error().message;
    const auto copy = opened(name);
    EXPECT_EQ(*copy->check(), std::vector<std::string>{});
    const std::size_t prices = copy->price_series(an_offer().part)->size();
    EXPECT_EQ((prices - 300) % 50, 0U) << "whole batches";
    EXPECT_GE(prices, 300 + 50 * static_cast<std::size_t>(before)) << "all that was committed";
    EXPECT_GT(prices, last) << "it went on between the backups";
    last = prices;
  }
  stop = true;
  writer.join();
  for (const auto& entry : fs::directory_iterator(path(".")))
    EXPECT_EQ(entry.path().string().find(".part"), std::string::npos) << entry.path();
}

TEST_F(SqliteFile, BackupIsOneFileThatNeedsNoOther) {
  fill(*opened());
  ASSERT_TRUE(opened()->backup_to(path("backup.db")));
  EXPECT_FALSE(fs::exists(path("backup.db-wal")));
  EXPECT_EQ(RawSqlite(path("backup.db")).column("PRAGMA journal_mode"),
            std::vector<std::string>{"delete"});
  const auto copy = opened("backup.db");
  EXPECT_EQ(*copy->documents(DocumentKind::brief), *opened()->documents(DocumentKind::brief));
  EXPECT_EQ(*copy->price_series(an_offer().part), *opened()->price_series(an_offer().part));
}

TEST_F(SqliteFile, BackupGoesNowhereItMustNot) {
  const auto store = opened();
  fill(*store);
  put_bytes(path("there"), "precious");
  EXPECT_EQ(refusal(store->backup_to(path("there"))), ErrorCode::bad_input);
  EXPECT_EQ(bytes_of(path("there")), "precious");
  EXPECT_EQ(refusal(store->backup_to(path())), ErrorCode::bad_input) << "onto itself";
  EXPECT_EQ(refusal(store->backup_to("")), ErrorCode::bad_input);
  EXPECT_EQ(refusal(store->backup_to(path("nowhere/backup.db"))), ErrorCode::io);
  EXPECT_EQ(refusal(store->backup_to(path("."))), ErrorCode::bad_input);
  EXPECT_EQ(*store->check(), std::vector<std::string>{});
}

TEST_F(SqliteFile, BackupOfADamagedStoreIsRefused) {
  fill(*opened());
  RawSqlite(path()).run("DROP TRIGGER run_keeps; UPDATE run SET capture = zeroblob(9000)");
  const auto refused = opened()->backup_to(path("backup.db"));
  ASSERT_EQ(refusal(refused), ErrorCode::io);
  EXPECT_NE(refused.error().message.find("not whole"), std::string::npos);
  EXPECT_FALSE(fs::exists(path("backup.db")));
}

}  // namespace
}  // namespace rigproof::store
