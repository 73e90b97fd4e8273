#include <fmt/format.h>

#include "base/text.hpp"
#include "store/accept.hpp"
#include "store/sha256.hpp"
#include "store/sqlite_store.hpp"

namespace rigproof::store {
namespace {

constexpr std::string_view revision_columns = R"sql(
  SELECT r.document, d.kind, r.name, r.revision,
    (SELECT max(revision) FROM document_revision WHERE document = r.document) AS head_revision,
    r.saved_at, r.deleted
  FROM document_revision r JOIN document d ON d.id = r.document )sql";

Named named(const DocumentId& id) { return {"document", id.text}; }

DocumentInfo info_of(const Statement& row) {
  return {.id = {row.text(0)},
          .kind = row.word<DocumentKind>(1),
          .name = row.text(2),
          .revision = row.integer(3),
          .head_revision = row.integer(4),
          .saved_at = row.instant(5),
          .deleted = row.flag(6)};
}

std::vector<DocumentInfo> infos_of(Statement rows) {
  std::vector<DocumentInfo> all;
  while (rows.next()) all.push_back(info_of(rows));
  return all;
}

DocumentInfo info_of_revision(Database& database, const DocumentId& id, std::int64_t revision) {
  Statement found =
      database.query(fmt::format("{} WHERE r.document = ?1 AND r.revision = ?2", revision_columns),
                     id.text, revision);
  if (found.next()) return info_of(found);
  throw Failure({ErrorCode::not_found, fmt::format("document '{}': there is no revision {}",
                                                   excerpt(id.text), revision)});
}

std::int64_t head_of(Database& database, const DocumentId& id) {
  const auto head =
      database.integer("SELECT max(revision) FROM document_revision WHERE document = ?1", id.text);
  if (!head) throw nothing_answers(named(id));
  return *head;
}

/// A text with its hash, which is made before others have to wait.
struct Hashed {
  explicit Hashed(std::string_view bytes) : text{bytes}, digits(sha256(bytes)) {}
  Blob text;
  std::string digits;
};

void add_revision(Database& database, const DocumentInfo& info, const Hashed* text) {
  database.run(
      "INSERT INTO document_revision (document, revision, name, saved_at, deleted, sha256, "
      "text) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
      info.id.text, info.revision, info.name, info.saved_at, info.deleted,
      text == nullptr ? std::nullopt : std::optional(text->digits),
      text == nullptr ? std::nullopt : std::optional(text->text));
}

/// Of a revision that deletes: the text that stood before it.
Document document_of(Database& database, const DocumentId& id, std::int64_t revision) {
  Document found{.info = info_of_revision(database, id, revision), .text = {}};
  Statement text = database.query(
      "SELECT text, sha256 FROM document_revision WHERE document = ?1 AND revision <= ?2 AND "
      "deleted = 0 "
      "ORDER BY revision DESC LIMIT 1",
      id.text, revision);
  if (text.next()) found.text = text.text(0);
  if (sha256(found.text) != text.text(1))
    throw Damage(
        {ErrorCode::io, fmt::format("{}: document '{}': the text is not what its hash says",
                                    database.path(), id.text)});
  return found;
}

void demand_unused_table(Database& database, const std::string& name) {
  Statement other = database.query("SELECT id FROM document WHERE table_name = ?1", name);
  if (!other.next()) return;
  throw Failure({ErrorCode::conflict, fmt::format("table '{}': document '{}' holds it already",
                                                  excerpt(name), other.text(0))});
}

}  // namespace

Result<DocumentInfo> SqliteStore::add_document(const NewDocument& document) {
  if (auto good = accept(document); !good) return tl::unexpected(good.error());
  const Hashed text(document.text);
  return in_transaction(database_, Access::write, [&] {
    const bool table = document.kind == DocumentKind::table;
    if (table) demand_unused_table(database_, document.name);
    DocumentInfo info{.id = {unused_id(database_, "SELECT count(*) FROM document WHERE id = ?1")},
                      .kind = document.kind,
                      .name = document.name,
                      .saved_at = document.saved_at};
    database_.run("INSERT INTO document (id, kind, table_name) VALUES (?1, ?2, ?3)", info.id.text,
                  word(info.kind), table ? std::optional(info.name) : std::nullopt);
    add_revision(database_, info, &text);
    return info;
  });
}

Result<DocumentInfo> SqliteStore::save_document(const DocumentId& id, std::int64_t after_revision,
                                                const DocumentChange& change) {
  if (auto good = accept(change); !good) return tl::unexpected(good.error());
  const Hashed text(change.text);
  return in_transaction(database_, Access::write, [&] {
    const std::int64_t head = head_of(database_, id);
    demand_newest(named(id), after_revision, head);
    DocumentInfo info = info_of_revision(database_, id, head);
    if (info.kind == DocumentKind::table && info.name != change.name)
      throw Failure(
          {ErrorCode::bad_input, fmt::format("name: the table '{}' keeps its name", info.name)});
    info.name = change.name;
    info.revision = info.head_revision = head + 1;
    info.saved_at = change.saved_at;
    info.deleted = false;
    add_revision(database_, info, &text);
    return info;
  });
}

Result<DocumentInfo> SqliteStore::remove_document(const DocumentId& id, std::int64_t after_revision,
                                                  Instant saved_at) {
  if (auto good = accept_instant("saved_at", saved_at); !good) return tl::unexpected(good.error());
  return in_transaction(database_, Access::write, [&] {
    const std::int64_t head = head_of(database_, id);
    demand_newest(named(id), after_revision, head);
    DocumentInfo info = info_of_revision(database_, id, head);
    if (info.deleted)
      throw Failure({ErrorCode::not_found, fmt::format("document '{}': is deleted", id.text)});
    info.revision = info.head_revision = head + 1;
    info.saved_at = saved_at;
    info.deleted = true;
    add_revision(database_, info, nullptr);
    return info;
  });
}

Result<Document> SqliteStore::document(const DocumentId& id) {
  return in_transaction(database_, Access::read,
                        [&] { return document_of(database_, id, head_of(database_, id)); });
}

Result<Document> SqliteStore::document(const DocumentId& id, std::int64_t revision) {
  return in_transaction(database_, Access::read, [&] {
    static_cast<void>(head_of(database_, id));  // an id that is not there is said first
    return document_of(database_, id, revision);
  });
}

Result<std::vector<DocumentInfo>> SqliteStore::documents(DocumentKind kind, Listed listed) {
  return in_transaction(database_, Access::read, [&] {
    return infos_of(database_.query(
        fmt::format("{} WHERE d.kind = ?1 AND r.revision = head_revision AND r.deleted <= ?2 "
                    "ORDER BY r.saved_at DESC, r.document",
                    revision_columns),
        word(kind), listed == Listed::deleted_too));
  });
}

Result<std::vector<DocumentInfo>> SqliteStore::revisions(const DocumentId& id) {
  return in_transaction(database_, Access::read, [&] {
    auto all = infos_of(database_.query(
        fmt::format("{} WHERE r.document = ?1 ORDER BY r.revision", revision_columns), id.text));
    if (all.empty()) throw nothing_answers(named(id));
    return all;
  });
}

}  // namespace rigproof::store
