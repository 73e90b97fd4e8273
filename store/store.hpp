// The workshop's memory: what pages and commands keep, behind one class, whatever database holds
// it.
//
//   auto store = open_store("sqlite:workshop.db");
//   auto info = (*store)->add_document({.kind = DocumentKind::brief, .name = ..., .text = ...});
//
// Start here; documents.hpp, prices.hpp, items.hpp, runs.hpp and records.hpp say what is kept,
// accept.hpp within which limits.
//
// Guarantees, of every backend (store/conformance.hpp holds them to it):
// - Each call is one transaction: all of it is there afterwards, or nothing. What a call that
//   returned has written survives the end of the process at any moment.
// - Nothing is ever overwritten: a change is a new revision, a removal too.
// - A change names the revision it was made from; when another came between, it is refused
//   (conflict) and nothing is written.
// - Bytes come back as they were given: texts, captures and bodies are held against their hashes
//   (io when they differ).
// Threads: one object is used from one thread at a time. Any number of objects, in any number of
// processes, may be open on one store.
// Errors of every call: bad_input or out_of_range (accept.hpp), io (the file is gone, damaged,
// full, locked for too long: the message says which). More where a call says so.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "store/documents.hpp"
#include "store/items.hpp"
#include "store/prices.hpp"
#include "store/records.hpp"
#include "store/runs.hpp"

namespace rigproof::store {

class Store {
 public:
  virtual ~Store() = default;

  // Documents. Errors: not_found for an id or a revision that nothing answers to; conflict when
  // `after_revision` is not the newest.

  /// Revision 1. Of kind `table` there is one for each name (conflict with another, deleted or
  /// not).
  [[nodiscard]] virtual Result<DocumentInfo> add_document(const NewDocument& document) = 0;
  /// The next revision; brings back what was deleted. A table keeps its name (bad_input).
  [[nodiscard]] virtual Result<DocumentInfo> save_document(const DocumentId& id,
                                                           std::int64_t after_revision,
                                                           const DocumentChange& change) = 0;
  /// The next revision, which says that the document is no more. not_found when it is deleted.
  [[nodiscard]] virtual Result<DocumentInfo> remove_document(const DocumentId& id,
                                                             std::int64_t after_revision,
                                                             Instant saved_at) = 0;
  /// The newest revision, deleted or not.
  [[nodiscard]] virtual Result<Document> document(const DocumentId& id) = 0;
  [[nodiscard]] virtual Result<Document> document(const DocumentId& id, std::int64_t revision) = 0;
  /// Newest revisions, the last saved first.
  [[nodiscard]] virtual Result<std::vector<DocumentInfo>> documents(
      DocumentKind kind, Listed listed = Listed::present) = 0;
  /// All of one document, the oldest first.
  [[nodiscard]] virtual Result<std::vector<DocumentInfo>> revisions(const DocumentId& id) = 0;

  // Prices.

  /// Adds what is not there yet. Two rows are the same when they say the same of the offer, day
  /// included; where they came from does not count, and the first origin stays.
  [[nodiscard]] virtual Result<Appended> append_prices(const PriceBatch& batch) = 0;
  /// By the day they were seen, the oldest first; those of one day as they were appended. Empty for
  /// a part that was never seen.
  [[nodiscard]] virtual Result<std::vector<PricePoint>> price_series(const PartName& part) = 0;

  // Items. Errors: not_found; conflict when `after_revision` is not the newest.

  [[nodiscard]] virtual Result<Item> add_item(const ItemFields& fields, Instant saved_at) = 0;
  [[nodiscard]] virtual Result<Item> change_item(const ItemId& id, std::int64_t after_revision,
                                                 const ItemFields& fields, Instant saved_at) = 0;
  [[nodiscard]] virtual Result<Item> item(const ItemId& id) = 0;
  /// Newest revisions, by part, then by id.
  [[nodiscard]] virtual Result<std::vector<Item>> items() = 0;
  /// All revisions of one item, the oldest first.
  [[nodiscard]] virtual Result<std::vector<Item>> item_history(const ItemId& id) = 0;

  // Runs. Errors: not_found, also for a build that is not there.

  [[nodiscard]] virtual Result<RunInfo> add_run(const NewRun& run) = 0;
  /// By the moment they were taken, the oldest first.
  [[nodiscard]] virtual Result<std::vector<RunInfo>> runs() = 0;
  /// With its capture.
  [[nodiscard]] virtual Result<Run> run(const RunId& id) = 0;

  // Records. Errors: not_found, also for a build's revision or a predecessor that is not there.

  [[nodiscard]] virtual Result<RecordInfo> freeze_record(const NewRecord& record) = 0;
  /// By the moment they were frozen, the oldest first.
  [[nodiscard]] virtual Result<std::vector<RecordInfo>> records() = 0;
  /// With body, errata and successors.
  [[nodiscard]] virtual Result<Record> record(const RecordId& id) = 0;
  [[nodiscard]] virtual Result<Erratum> add_erratum(const RecordId& id, const std::string& text,
                                                    Instant noted_at) = 0;

  // Upkeep.

  /// The whole store as it is at one moment, into a new file, while others go on writing. The file
  /// is checked, then put in place; one that is there already is refused (bad_input).
  [[nodiscard]] virtual Result<void> backup_to(const std::string& path) = 0;
  /// Everything that is not as it should be, a line each; empty: all is well. Reads every byte.
  [[nodiscard]] virtual Result<std::vector<std::string>> check() = 0;

 protected:
  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
};

/// `sqlite:PATH`: a file, made when it is not there (its folder has to be). Errors: bad_input (no
/// such kind of store; a file of something else, or of a newer Rigproof: nothing is changed); io.
[[nodiscard]] Result<std::unique_ptr<Store>> open_store(std::string_view url);

}  // namespace rigproof::store
