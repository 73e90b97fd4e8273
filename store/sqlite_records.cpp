#include <fmt/format.h>

#include "store/accept.hpp"
#include "store/sha256.hpp"
#include "store/sqlite_store.hpp"

namespace rigproof::store {
namespace {

constexpr std::string_view record_columns =
    "SELECT id, name, frozen_at, build, build_revision, succeeds, size_bytes, sha256";

Named named(const RecordId& id) { return {"record", id.text}; }

RecordInfo info_of(const Statement& row) {
  RecordInfo info{.id = {row.text(0)},
                  .name = row.text(1),
                  .frozen_at = row.instant(2),
                  .size_bytes = row.integer(6),
                  .sha256 = row.text(7)};
  if (!row.is_null(3))
    info.build = RevisionName{.document = {row.text(3)}, .revision = row.integer(4)};
  if (!row.is_null(5)) info.succeeds = RecordId{row.text(5)};
  return info;
}

void demand_record(Database& database, const RecordId& id) {
  if (database.integer("SELECT count(*) FROM record WHERE id = ?1", id.text) == 0)
    throw nothing_answers(named(id));
}

void demand_revision(Database& database, const RevisionName& name) {
  const auto found = database.integer(
      "SELECT count(*) FROM document_revision WHERE document = ?1 AND revision = ?2",
      name.document.text, name.revision);
  if (found == 0)
    throw Failure({ErrorCode::not_found, fmt::format("document '{}': there is no revision {}",
                                                     name.document.text, name.revision)});
}

std::vector<Erratum> errata_of(Database& database, const RecordId& id) {
  Statement rows = database.query(
      "SELECT number, noted_at, text FROM erratum WHERE record = ?1 ORDER BY number", id.text);
  std::vector<Erratum> all;
  while (rows.next())
    all.push_back({.number = rows.integer(0), .noted_at = rows.instant(1), .text = rows.text(2)});
  return all;
}

std::vector<RecordId> successors_of(Database& database, const RecordId& id) {
  Statement rows =
      database.query("SELECT id FROM record WHERE succeeds = ?1 ORDER BY frozen_at, id", id.text);
  std::vector<RecordId> all;
  while (rows.next()) all.push_back({rows.text(0)});
  return all;
}

}  // namespace

Result<RecordInfo> SqliteStore::freeze_record(const NewRecord& record) {
  if (auto good = accept(record); !good) return tl::unexpected(good.error());
  const std::string digits = sha256(record.body);  // before others have to wait
  return in_transaction(database_, Access::write, [&] {
    if (record.build) demand_revision(database_, *record.build);
    if (record.succeeds) demand_record(database_, *record.succeeds);
    RecordInfo info{.id = {unused_id(database_, "SELECT count(*) FROM record WHERE id = ?1")},
                    .name = record.name,
                    .frozen_at = record.frozen_at,
                    .build = record.build,
                    .succeeds = record.succeeds,
                    .size_bytes = static_cast<std::int64_t>(record.body.size()),
                    .sha256 = digits};
    const auto& build = info.build;
    database_.run(R"sql(
      INSERT INTO record (id, name, frozen_at, build, build_revision, succeeds, size_bytes, sha256,
        body)
      VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9))sql",
                  info.id.text, info.name, info.frozen_at,
                  build ? std::optional(build->document.text) : std::nullopt,
                  build ? std::optional(build->revision) : std::nullopt,
                  info.succeeds ? std::optional(info.succeeds->text) : std::nullopt,
                  info.size_bytes, info.sha256, Blob{record.body});
    return info;
  });
}

Result<std::vector<RecordInfo>> SqliteStore::records() {
  return in_transaction(database_, Access::read, [&] {
    Statement rows =
        database_.query(fmt::format("{} FROM record ORDER BY frozen_at, id", record_columns));
    std::vector<RecordInfo> all;
    while (rows.next()) all.push_back(info_of(rows));
    return all;
  });
}

Result<Record> SqliteStore::record(const RecordId& id) {
  return in_transaction(database_, Access::read, [&] {
    Statement found =
        database_.query(fmt::format("{}, body FROM record WHERE id = ?1", record_columns), id.text);
    if (!found.next()) throw nothing_answers(named(id));
    Record record{.info = info_of(found),
                  .body = found.text(8),
                  .errata = errata_of(database_, id),
                  .successors = successors_of(database_, id)};
    if (sha256(record.body) != record.info.sha256)
      throw Damage(
          {ErrorCode::io, fmt::format("{}: record '{}': the body is not what its hash says",
                                      database_.path(), id.text)});
    return record;
  });
}

Result<Erratum> SqliteStore::add_erratum(const RecordId& id, const std::string& text,
                                         Instant noted_at) {
  if (auto good = accept_erratum(text); !good) return tl::unexpected(good.error());
  if (auto good = accept_instant("noted_at", noted_at); !good) return tl::unexpected(good.error());
  return in_transaction(database_, Access::write, [&] {
    demand_record(database_, id);
    const auto last =
        database_.integer("SELECT max(number) FROM erratum WHERE record = ?1", id.text);
    Erratum erratum{.number = last.value_or(0) + 1, .noted_at = noted_at, .text = text};
    database_.run("INSERT INTO erratum (record, number, noted_at, text) VALUES (?1, ?2, ?3, ?4)",
                  id.text, erratum.number, noted_at, text);
    return erratum;
  });
}

}  // namespace rigproof::store
