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

Response bad(std::string message) {
  return error_response({.code = ErrorCode::bad_input, .message = std::move(message)});
}

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

// Keeps what stood in the file, when the store does not have it as its newest, and then what
// stands there now: in this order, so that a file that was changed elsewhere loses nothing.
Result<std::int64_t> keep(Desk& desk, int table, const std::string& before,
                          const std::string& now) {
  const std::string name = std::string(spec(table).name) + ".csv";
  return desk.memory.with([&](store::Store& store) -> Result<std::int64_t> {
    const auto info = kept(store, name);
    if (!info) return tl::unexpected(info.error());
    store::DocumentInfo head;
    if (!*info) {
      const auto added = store.add_document({.kind = store::DocumentKind::table,
                                             .name = name,
                                             .text = before,
                                             .saved_at = desk.now()});
      if (!added) return tl::unexpected(added.error());
      head = *added;
    } else {
      head = **info;
      const auto newest = store.document(head.id);
      if (!newest) return tl::unexpected(newest.error());
      if (newest->text != before) {
        const auto saved = store.save_document(
            head.id, head.head_revision, {.name = name, .text = before, .saved_at = desk.now()});
        if (!saved) return tl::unexpected(saved.error());
        head = *saved;
      }
    }
    const auto saved = store.save_document(head.id, head.head_revision,
                                           {.name = name, .text = now, .saved_at = desk.now()});
    if (!saved) return tl::unexpected(saved.error());
    return saved->revision;
  });
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
                        {"revision", short_hash(*bytes)}});
}

Result<app::RowEdit> edit_of(const Json& json) {
  app::RowEdit edit;
  if (!json.is_object()) return bad_input("edits: expected objects");
  for (const auto& [name, value] : json.items()) {
    if (name == "line" && value.is_number_unsigned()) {
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

// New bytes for a table: checked with the whole folder, and written when asked.
Response put(Desk& desk, int table, const std::string& before, const std::string& now, bool write) {
  const auto complaints = app::complaints_with(desk.library.folder(), table, now);
  if (!complaints) return error_response(complaints.error());
  Json out = {{"problems", problems_json(*complaints)},
              {"problem_count", complaints->count()},
              {"written", false},
              {"revision", short_hash(before)}};
  if (!write || !complaints->empty()) return json_response(out);
  if (now != before) {
    const auto revision = keep(desk, table, before, now);
    if (!revision) return error_response(revision.error());
    const auto path = app::file_of(desk.library.folder(), table);
    if (const auto done = app::write_atomically(path, now); !done)
      return error_response(done.error());
    desk.library.look_again();
  }
  out["written"] = true;
  out["revision"] = short_hash(now);
  return json_response(out);
}

Response edit(Desk& desk, const Request& request, const PathParts& path) {
  const auto table = find_table(path.at("name"));
  if (!table) return no_such_table(path.at("name"));
  const auto body = object_of(request.body);
  if (!body) return error_response(body.error());
  const auto after = body->find("after");
  const auto write = body->find("write");
  if (after == body->end() || !after->is_string())
    return bad("after: expected the revision that was seen");
  if (write != body->end() && !write->is_boolean()) return bad("write: expected true or false");
  const auto edits = edits_of(*body);
  if (!edits) return error_response(edits.error());

  const std::scoped_lock lock(desk.writing);
  const auto before = bytes_of(desk, *table);
  if (!before) return error_response(before.error());
  if (short_hash(*before) != after->get<std::string>())
    return error_response(
        {.code = ErrorCode::conflict,
         .message = fmt::format("{}.csv was changed meanwhile: read it again", spec(*table).name)});
  const auto now = app::edited_table(*before, *table, *edits);
  if (!now) return error_response(now.error());
  return put(desk, *table, *before, *now, write != body->end() && write->get<bool>());
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
  const auto body = object_of(request.body);
  if (!body) return error_response(body.error());
  const auto revision = body->find("revision");
  if (revision == body->end() || !revision->is_number_integer())
    return bad("revision: expected a whole number from 1");
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

Response import(Desk& desk, const Request& request, const PathParts& /*path*/) {
  const auto body = object_of(request.body);
  if (!body) return error_response(body.error());
  const auto text = [&](const char* name) -> std::optional<std::string> {
    const auto found = body->find(name);
    if (found == body->end() || !found->is_string()) return {};
    return found->get<std::string>();
  };
  const auto flag = [&](const char* name) {
    const auto found = body->find(name);
    return found != body->end() && found->is_boolean() && found->get<bool>();
  };
  const auto pasted = text("text");
  const auto mapping = text("mapping");
  if (!pasted || !mapping) return bad("expected text and mapping, each a text");
  const std::scoped_lock lock(desk.writing);
  const auto edition = desk.library.edition();
  app::ImportOptions options{.pasted = "pasted",
                             .mapping = "mapping",
                             .write = false,
                             .skip_bad = flag("skip_bad"),
                             .pasted_text = pasted,
                             .mapping_text = mapping};
  auto imported = app::import_table(edition->workshop, options);
  if (!imported) return error_response(imported.error());
  if (!flag("write")) return text_response(app::import_json(*imported));
  // Kept before and after, table by table, then written together.
  std::vector<std::pair<int, std::string>> before;
  for (const std::string& file : imported->files) {
    const auto table = find_table(std::filesystem::path(file).stem().string());
    if (!table) continue;
    auto bytes = bytes_of(desk, *table);
    if (!bytes) return error_response(bytes.error());
    before.emplace_back(*table, std::move(*bytes));
  }
  options.write = true;
  imported = app::import_table(edition->workshop, options);
  if (!imported) return error_response(imported.error());
  for (const auto& [table, old] : before) {
    const auto now = bytes_of(desk, table);
    if (!now) return error_response(now.error());
    if (*now == old) continue;
    if (const auto revision = keep(desk, table, old, *now); !revision)
      return error_response(revision.error());
  }
  desk.library.look_again();
  return text_response(app::import_json(*imported));
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
  one_edit["properties"] = {{"line", whole},
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
       .writes = true,
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
       .writes = true,
       .handle = put_back},
      {.method = "POST",
       .pattern = "/api/import",
       .about = "A pasted table held against the catalog through a mapping: what would be new and "
                "what would change; with `write` it is done.",
       .body = import_body,
       .answer = {{"type", "object"}},
       .writes = true,
       .handle = import},
  };
}

}  // namespace rigproof::server
