// The store in one SQLite file. Its methods stand by subject: sqlite_documents.cpp,
// sqlite_prices.cpp, sqlite_items.cpp, sqlite_runs.cpp, sqlite_records.cpp, sqlite_upkeep.cpp.
#pragma once

#include <string>
#include <vector>

#include "store/sqlite_database.hpp"
#include "store/store.hpp"

namespace rigproof::store {

/// For messages: `document 'abcdefghij'`.
struct Named {
  std::string_view what;
  std::string_view id;
};
[[nodiscard]] Failure nothing_answers(const Named& thing);
/// Throws conflict unless the revision that a change was made from is the newest.
void demand_newest(const Named& thing, std::int64_t after_revision, std::int64_t head_revision);
/// A random id that `taken` (a count by id) does not know yet.
[[nodiscard]] std::string unused_id(Database& database, std::string_view taken);

class SqliteStore final : public Store {
 public:
  explicit SqliteStore(Database database) : database_(std::move(database)) {}

  Result<DocumentInfo> add_document(const NewDocument& document) override;
  Result<DocumentInfo> save_document(const DocumentId& id, std::int64_t after_revision,
                                     const DocumentChange& change) override;
  Result<DocumentInfo> remove_document(const DocumentId& id, std::int64_t after_revision,
                                       Instant saved_at) override;
  Result<Document> document(const DocumentId& id) override;
  Result<Document> document(const DocumentId& id, std::int64_t revision) override;
  Result<std::vector<DocumentInfo>> documents(DocumentKind kind, Listed listed) override;
  Result<std::vector<DocumentInfo>> revisions(const DocumentId& id) override;

  Result<Appended> append_prices(const PriceBatch& batch) override;
  Result<std::vector<PricePoint>> price_series(const PartName& part) override;

  Result<Item> add_item(const ItemFields& fields, Instant saved_at) override;
  Result<Item> change_item(const ItemId& id, std::int64_t after_revision, const ItemFields& fields,
                           Instant saved_at) override;
  Result<Item> item(const ItemId& id) override;
  Result<std::vector<Item>> items() override;
  Result<std::vector<Item>> item_history(const ItemId& id) override;

  Result<RunInfo> add_run(const NewRun& run) override;
  Result<std::vector<RunInfo>> runs() override;
  Result<Run> run(const RunId& id) override;

  Result<RecordInfo> freeze_record(const NewRecord& record) override;
  Result<std::vector<RecordInfo>> records() override;
  Result<Record> record(const RecordId& id) override;
  Result<Erratum> add_erratum(const RecordId& id, const std::string& text,
                              Instant noted_at) override;

  Result<void> backup_to(const std::string& path) override;
  Result<std::vector<std::string>> check() override;

 private:
  Database database_;
};

}  // namespace rigproof::store
