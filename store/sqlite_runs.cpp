#include <fmt/format.h>

#include "store/accept.hpp"
#include "store/sha256.hpp"
#include "store/sqlite_store.hpp"

namespace rigproof::store {
namespace {

constexpr std::string_view run_columns =
    "SELECT id, machine, title, taken_at, build, size_bytes, sha256";

RunInfo info_of(const Statement& row) {
  RunInfo info{.id = {row.text(0)},
               .machine = row.text(1),
               .title = row.text(2),
               .taken_at = row.instant(3),
               .size_bytes = row.integer(5),
               .sha256 = row.text(6)};
  if (!row.is_null(4)) info.build = DocumentId{row.text(4)};
  return info;
}

}  // namespace

Result<RunInfo> SqliteStore::add_run(const NewRun& run) {
  if (auto good = accept(run); !good) return tl::unexpected(good.error());
  const std::string digits = sha256(run.capture);  // before others have to wait
  return in_transaction(database_, Access::write, [&] {
    if (run.build &&
        database_.integer("SELECT count(*) FROM document WHERE id = ?1", run.build->text) == 0)
      throw nothing_answers({"document", run.build->text});
    RunInfo info{.id = {unused_id(database_, "SELECT count(*) FROM run WHERE id = ?1")},
                 .machine = run.machine,
                 .title = run.title,
                 .taken_at = run.taken_at,
                 .build = run.build,
                 .size_bytes = static_cast<std::int64_t>(run.capture.size()),
                 .sha256 = digits};
    database_.run(R"sql(
      INSERT INTO run (id, machine, title, taken_at, build, size_bytes, sha256, context, capture)
      VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9))sql",
                  info.id.text, info.machine, info.title, info.taken_at,
                  info.build ? std::optional(info.build->text) : std::nullopt, info.size_bytes,
                  info.sha256, Blob{run.context}, Blob{run.capture});
    return info;
  });
}

Result<std::vector<RunInfo>> SqliteStore::runs() {
  return in_transaction(database_, Access::read, [&] {
    Statement rows = database_.query(fmt::format("{} FROM run ORDER BY taken_at, id", run_columns));
    std::vector<RunInfo> all;
    while (rows.next()) all.push_back(info_of(rows));
    return all;
  });
}

Result<Run> SqliteStore::run(const RunId& id) {
  return in_transaction(database_, Access::read, [&] {
    Statement found = database_.query(
        fmt::format("{}, context, capture FROM run WHERE id = ?1", run_columns), id.text);
    if (!found.next()) throw nothing_answers({"run", id.text});
    Run run{.info = info_of(found), .context = found.text(7), .capture = found.text(8)};
    if (sha256(run.capture) != run.info.sha256)
      throw Damage(
          {ErrorCode::io, fmt::format("{}: run '{}': the capture is not what its hash says",
                                      database_.path(), id.text)});
    return run;
  });
}

}  // namespace rigproof::store
