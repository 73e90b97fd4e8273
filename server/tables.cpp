// The catalog's tables over HTTP: read as they stand in their files, edited by cell, imported into
// from a pasted text. Every table that is changed here keeps all its revisions.
#include <fmt/format.h>

#include "app/edit_table.hpp"
#include "app/files.hpp"
#include "app/import_table.hpp"
#include "base/text.hpp"
#include "server/route.hpp"
#include "server/schemas.hpp"

namespace rigproof::server {
namespace {

constexpr std::size_t most_edits = 100'000;  // of one request: a large paste

Response no_such_table(const std::string& name) {
  return error_response(
      {.code = ErrorCode::not_found, .message = excerpt(name) + ": there is no such table"});
}

// The bytes of a table's file; empty where it has none.
Result<std::string> bytes_of(const Desk& desk, int table) {
  const auto path = app::file_of(desk.library.folder(), table);
  std::error_code error;
  if (!std::filesystem::exists(path, error)) return std::string();
  return app::read_file(path);
}

// The revisions that pages made of a table; nothing where it was never edited here.
Result<std::optional<store::DocumentInfo>> kept(store::Store& store, const std::string& name) {
  const auto all = store.documents(store::DocumentKind::table, store::Listed::deleted_too);
  if (!all) return tl::unexpected(all.error());
  for (const store::DocumentInfo& info : *all)
    if (info.name == name) return info;
  return std::nullopt;
}

// A table's text as its newest revision, unless it is that already.
Result<void> keep(Desk& desk, int table, const std::string& text) {
  const std::string name = std::string(spec(table).name) + ".csv";
  return desk.memory.with([&](store::Store& store) -> Result<void> {
    const auto info = kept(store, name);
    if (!info) return tl::unexpected(info.error());
    if (!*info) {
      const auto added = store.add_document(
          {.kind = store::DocumentKind::table, .name = name, .text = text, .saved_at = desk.now()});
      if (!added) return tl::unexpected(added.error());
      return {};
    }
    const auto newest = store.document((*info)->id);
    if (!newest) return tl::unexpected(newest.error());
    if (newest->text == text && !newest->info.deleted) return {};
    const auto saved = store.save_document((*info)->id, (*info)->head_revision,
                                           {.name = name, .text = text, .saved_at = desk.now()});
    if (!saved) return tl::unexpected(saved.error());
    return {};
  });
}

Error changed_meanwhile(int table) {
  return {.code = ErrorCode::conflict,
          .message = fmt::format("{}.csv was changed meanwhile: read it again", spec(table).name)};
}

// No bytes: a table that has no file.
Result<void> write_file(const Desk& desk, int table, const std::string& bytes) {
  const auto path = app::file_of(desk.library.folder(), table);
  if (!bytes.empty()) return app::write_atomically(path, bytes);
  std::error_code error;
  std::filesystem::remove(path, error);
  if (error) return fail(ErrorCode::io, path.string() + ": " + error.message());
  return {};
}

Response read(Desk& desk, const Request& /*request*/, const PathParts& path) {
  const auto table = find_table(path.at("name"));
  if (!table) return no_such_table(path.at("name"));
  const auto bytes = bytes_of(desk, *table);
  if (!bytes) return error_response(bytes.error());
  const auto text = app::read_table_text(*bytes, std::string(spec(*table).name) + ".csv");
  if (!text) return error_response(text.error());
  Json rows = Json::array();
  for (const app::TableRow& row : text->rows)
    rows.push_back({{"line", row.line}, {"cells", row.cells}});
  std::vector<std::string> columns = text->columns;
  for (const ColumnSpec& column : spec(*table).columns)
    if (std::ranges::find(columns, column.name) == columns.end()) columns.emplace_back(column.name);
  return json_response({{"name", spec(*table).name},
                        {"columns", columns},
                        {"rows", rows},
                        {"revision", revision_of(*bytes)}});
}

Result<app::RowEdit> edit_of(const Json& json) {
  app::RowEdit edit;
  if (!json.is_object()) return bad_input("edits: expected objects");
  for (const auto& [name, value] : json.items()) {
    if (name == "line" && value.is_null()) {
      edit.line = 0;
    } else if (name == "line" && value.is_number_unsigned()) {
      edit.line = value.get<std::size_t>();
    } else if (name == "remove" && value.is_boolean()) {
      edit.remove = value.get<bool>();
    } else if (name == "cells" && value.is_object()) {
      for (const auto& [column, cell] : value.items()) {
        if (!cell.is_string())
          return bad_input(fmt::format("edits: {}: expected a text", excerpt(column)));
        edit.cells.emplace(column, cell.get<std::string>());
      }
    } else {
      return bad_input(fmt::format(
          "edits: {}: expected line (whole, 0 for a new row), cells or remove", excerpt(name)));
    }
  }
  return edit;
}

Result<std::vector<app::RowEdit>> edits_of(const Json& body) {
  const auto list = body.find("edits");
  if (list == body.end() || !list->is_array()) return bad_input("edits: expected a list");
  if (list->size() > most_edits)
    return bad_input(fmt::format("edits: at most {} in one request", most_edits));
  std::vector<app::RowEdit> out;
  for (const Json& one : *list) {
    auto edit = edit_of(one);
    if (!edit) return tl::unexpected(edit.error());
    out.push_back(std::move(*edit));
  }
  return out;
}

// New bytes for a table: checked with the whole folder, and written when asked. What stood there
// is kept before, what stands there after, so that nothing is lost whatever happens between.
Response put(Desk& desk, int table, const std::string& before, const std::string& now, bool write) {
  const auto complaints = app::complaints_with(desk.library.folder(), table, now);
  if (!complaints) return error_response(complaints.error());
  Json out = {{"problems", problems_json(*complaints)},
              {"problem_count", complaints->count()},
              {"written", false},
              {"revision", revision_of(before)}};
  if (!write || !complaints->empty()) return json_response(out);
  if (now != before) {
    if (const auto done = keep(desk, table, before); !done) return error_response(done.error());
    // Checking took a while: somebody may have written beside us.
    const auto there = bytes_of(desk, table);
    if (!there) return error_response(there.error());
    if (*there != before) return error_response(changed_meanwhile(table));
    if (const auto done = write_file(desk, table, now); !done) return error_response(done.error());
    desk.library.look_again();
    if (const auto done = keep(desk, table, now); !done) return error_response(done.error());
  }
  out["written"] = true;
  out["revision"] = revision_of(now);
  return json_response(out);
}

Response edit(Desk& desk, const Request& request, const PathParts& path) {
  const auto table = find_table(path.at("name"));
  if (!table) return no_such_table(path.at("name"));
  const auto body = object_of(request.body, {"after", "edits", "write"});
  if (!body) return error_response(body.error());
  const auto after = body->find("after");
  if (after == body->end() || !after->is_string())
    return bad_request("after: expected the revision that was seen");
  const auto write = flag_of(*body, "write");
  if (!write) return error_response(write.error());
  const auto edits = edits_of(*body);
  if (!edits) return error_response(edits.error());

  const std::scoped_lock lock(desk.writing);
  const auto before = bytes_of(desk, *table);
  if (!before) return error_response(before.error());
  if (revision_of(*before) != after->get<std::string>())
    return error_response(changed_meanwhile(*table));
  const auto now = app::edited_table(*before, *table, *edits);
  if (!now) return error_response(now.error());
  return put(desk, *table, *before, *now, *write);
}

Response revisions(Desk& desk, const Request& /*request*/, const PathParts& path) {
  const auto table = find_table(path.at("name"));
  if (!table) return no_such_table(path.at("name"));
  const auto found =
      desk.memory.with([&](store::Store& store) -> Result<std::vector<store::DocumentInfo>> {
        const auto info = kept(store, std::string(spec(*table).name) + ".csv");
        if (!info) return tl::unexpected(info.error());
        if (!*info) return std::vector<store::DocumentInfo>();
        return store.revisions((*info)->id);
      });
  if (!found) return error_response(found.error());
  Json out = Json::array();
  for (const store::DocumentInfo& info : *found)
    out.push_back({{"revision", info.revision}, {"saved_at", store::to_string(info.saved_at)}});
  return json_response({{"revisions", out}});
}

// Puts a revision back: undo, and undo of undo, as a revision of its own.
Response put_back(Desk& desk, const Request& request, const PathParts& path) {
  const auto table = find_table(path.at("name"));
  if (!table) return no_such_table(path.at("name"));
  const auto body = object_of(request.body, {"revision"});
  if (!body) return error_response(body.error());
  const auto revision = body->find("revision");
  if (revision == body->end() || !revision->is_number_integer())
    return bad_request("revision: expected a whole number from 1");
  const auto wanted = desk.memory.with([&](store::Store& store) -> Result<store::Document> {
    const auto info = kept(store, std::string(spec(*table).name) + ".csv");
    if (!info) return tl::unexpected(info.error());
    if (!*info) return fail(ErrorCode::not_found, "this table was never changed here");
    return store.document((*info)->id, revision->get<std::int64_t>());
  });
  if (!wanted) return error_response(wanted.error());
  const std::scoped_lock lock(desk.writing);
  const auto before = bytes_of(desk, *table);
  if (!before) return error_response(before.error());
  return put(desk, *table, *before, wanted->text, true);
}

// The tables that an import writes, with their bytes as they are.
Result<std::vector<std::pair<int, std::string>>> tables_as_they_are(
    const Desk& desk, const std::vector<std::string>& files) {
  std::vector<std::pair<int, std::string>> out;
  for (const std::string& file : files) {
    const auto table = find_table(std::filesystem::path(file).stem().string());
    if (!table) continue;
    auto bytes = bytes_of(desk, *table);
    if (!bytes) return tl::unexpected(bytes.error());
    out.emplace_back(*table, std::move(*bytes));
  }
  return out;
}

Result<app::Imported> import_and_keep(Desk& desk, const Edition& edition,
                                      app::ImportOptions options) {
  const auto shown = app::import_table(edition.workshop, options);
  if (!shown) return tl::unexpected(shown.error());
  const auto tables = tables_as_they_are(desk, shown->files);
  if (!tables) return tl::unexpected(tables.error());
  for (const auto& [table, bytes] : *tables)
    if (const auto done = keep(desk, table, bytes); !done) return tl::unexpected(done.error());
  options.write = true;
  auto imported = app::import_table(edition.workshop, options);
  if (!imported) return imported;
  desk.library.look_again();
  for (const auto& [table, before] : *tables) {
    const auto now = bytes_of(desk, table);
    if (!now) return tl::unexpected(now.error());
    if (const auto done = keep(desk, table, *now); !done) return tl::unexpected(done.error());
  }
  return imported;
}

Response import(Desk& desk, const Request& request, const PathParts& /*path*/) {
  const auto body = object_of(request.body, {"text", "mapping", "write", "skip_bad"});
  if (!body) return error_response(body.error());
  const auto text = [&](const char* name) -> std::optional<std::string> {
    const auto found = body->find(name);
    if (found == body->end() || !found->is_string()) return {};
    return found->get<std::string>();
  };
  const auto pasted = text("text");
  const auto mapping = text("mapping");
  if (!pasted || !mapping) return bad_request("expected text and mapping, each a text");
  const auto write = flag_of(*body, "write");
  if (!write) return error_response(write.error());
  const auto skip_bad = flag_of(*body, "skip_bad");
  if (!skip_bad) return error_response(skip_bad.error());
  const app::ImportOptions options{.pasted = "pasted",
                                   .mapping = "mapping",
                                   .write = false,
                                   .skip_bad = *skip_bad,
                                   .pasted_text = pasted,
                                   .mapping_text = mapping};
  const std::scoped_lock lock(desk.writing);
  if (*write) desk.library.look_again();
  const auto edition = desk.library.edition();
  const auto imported = *write ? import_and_keep(desk, *edition, options)
                               : app::import_table(edition->workshop, options);
  return imported ? text_response(app::import_json(*imported)) : error_response(imported.error());
}

}  // namespace

std::vector<Route> table_routes() {
  const Json text = {{"type", "string"}};
  const Json whole = {{"type", "integer"}};
  const Json flag = {{"type", "boolean"}};
  const Json edited = object_schema({{"problems", list_schema(schema_ref("Problem"))},
                                     {"problem_count", whole},
                                     {"written", flag},
                                     {"revision", text}});
  Json one_edit = object_schema(Json::object());
  one_edit["properties"] = {{"line", {{"type", {"integer", "null"}}, {"minimum", 0}}},
                            {"cells", {{"type", "object"}, {"additionalProperties", text}}},
                            {"remove", flag}};
  Json edit_body = object_schema({{"after", text}, {"edits", list_schema(one_edit)}});
  edit_body["properties"]["write"] = flag;
  Json import_body = object_schema({{"text", text}, {"mapping", text}});
  import_body["properties"]["write"] = flag;
  import_body["properties"]["skip_bad"] = flag;
  return {
      {.method = "GET",
       .pattern = "/api/tables/{name}",
       .about = "A table of the catalog as its file has it, cell by cell.",
       .answer = object_schema(
           {{"name", text},
            {"columns", list_schema(text)},
            {"rows", list_schema(object_schema({{"line", whole}, {"cells", list_schema(text)}}))},
            {"revision", text}}),
       .handle = read},
      {.method = "POST",
       .pattern = "/api/tables/{name}/edits",
       .about =
           "Changes cells, adds rows (line 0), removes rows. What would be wrong with the whole "
           "catalog comes back; only what is right is written, and only with `write`.",
       .body = edit_body,
       .answer = edited,
       .handle = edit},
      {.method = "GET",
       .pattern = "/api/tables/{name}/revisions",
       .about = "The revisions that edits made of it, the oldest first.",
       .answer = object_schema(
           {{"revisions", list_schema(object_schema({{"revision", whole}, {"saved_at", text}}))}}),
       .handle = revisions},
      {.method = "POST",
       .pattern = "/api/tables/{name}/back",
       .about = "Puts a revision back, as a new one.",
       .body = object_schema({{"revision", whole}}),
       .answer = edited,
       .handle = put_back},
      {.method = "POST",
       .pattern = "/api/import",
       .about = "A pasted table held against the catalog through a mapping: what would be new and "
                "what would change; with `write` it is done.",
       .body = import_body,
       .answer = {{"type", "object"}},
       .handle = import},
  };
}

}  // namespace rigproof::server
