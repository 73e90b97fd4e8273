// Briefs, builds and mappings over HTTP: every save a revision, none overwritten.
#include <fmt/format.h>

#include <charconv>

#include "server/document_checks.hpp"
#include "server/route.hpp"
#include "server/schemas.hpp"

namespace rigproof::server {
namespace {

using store::DocumentId;
using store::DocumentKind;

Json info_json(const store::DocumentInfo& info) {
  return {{"id", info.id.text},
          {"kind", store::word(info.kind)},
          {"name", info.name},
          {"revision", info.revision},
          {"head_revision", info.head_revision},
          {"saved_at", store::to_string(info.saved_at)},
          {"deleted", info.deleted}};
}

Response document_response(Desk& desk, const store::Document& document, int status = 200) {
  Json out = info_json(document.info);
  out["text"] = document.text;
  const auto edition = desk.library.edition();
  out["problems"] =
      problems_json(problems_of(document.info.kind, document.info.name, document.text, *edition));
  return json_response(out, status);
}

// The kinds that pages edit as texts. Tables go through their own routes.
std::optional<DocumentKind> kind_of(std::string_view word) {
  for (const DocumentKind kind : {DocumentKind::brief, DocumentKind::build, DocumentKind::mapping})
    if (store::word(kind) == word) return kind;
  return {};
}

std::optional<std::int64_t> revision_of(std::string_view text) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < 1) return {};
  return number;
}

// A text member of the body; empty with a complaint in `wrong` where it is none.
std::string text_member(const Json& body, const char* name, std::string& wrong) {
  const auto found = body.find(name);
  if (found != body.end() && found->is_string()) return found->get<std::string>();
  if (wrong.empty()) wrong = fmt::format("{}: expected a text", name);
  return {};
}

Response list(Desk& desk, const Request& request, const PathParts& /*path*/) {
  const auto asked = request.query.find("kind");
  const auto kind = asked == request.query.end() ? std::nullopt : kind_of(asked->second);
  if (!kind) return bad_request("kind: expected brief, build or mapping");
  const auto found = desk.memory.with([&](store::Store& store) { return store.documents(*kind); });
  if (!found) return error_response(found.error());
  Json documents = Json::array();
  for (const store::DocumentInfo& info : *found) documents.push_back(info_json(info));
  return json_response({{"documents", documents}});
}

Response add(Desk& desk, const Request& request, const PathParts& /*path*/) {
  const auto body = object_of(request.body, {"kind", "name", "text"});
  if (!body) return error_response(body.error());
  std::string wrong;
  const auto kind = kind_of(text_member(*body, "kind", wrong));
  const std::string name = text_member(*body, "name", wrong);
  const std::string text = text_member(*body, "text", wrong);
  if (!wrong.empty()) return bad_request(wrong);
  if (!kind) return bad_request("kind: expected brief, build or mapping");
  const auto info = desk.memory.with([&](store::Store& store) {
    return store.add_document({.kind = *kind, .name = name, .text = text, .saved_at = desk.now()});
  });
  if (!info) return error_response(info.error());
  return document_response(desk, {.info = *info, .text = text}, 201);
}

Response read(Desk& desk, const Request& request, const PathParts& path) {
  const DocumentId id{path.at("id")};
  const auto asked = request.query.find("revision");
  std::optional<std::int64_t> revision;
  if (asked != request.query.end()) {
    revision = revision_of(asked->second);
    if (!revision) return bad_request("revision: expected a whole number from 1");
  }
  const auto found = desk.memory.with([&](store::Store& store) {
    return revision ? store.document(id, *revision) : store.document(id);
  });
  if (!found) return error_response(found.error());
  return document_response(desk, *found);
}

Response save(Desk& desk, const Request& request, const PathParts& path) {
  const auto body = object_of(request.body, {"name", "text", "after"});
  if (!body) return error_response(body.error());
  std::string wrong;
  const std::string name = text_member(*body, "name", wrong);
  const std::string text = text_member(*body, "text", wrong);
  if (!wrong.empty()) return bad_request(wrong);
  const auto after = body->find("after");
  if (after == body->end() || !after->is_number_integer())
    return bad_request("after: expected the revision that was changed");
  const auto after_revision = after->get<std::int64_t>();
  const auto info = desk.memory.with([&](store::Store& store) {
    return store.save_document({path.at("id")}, after_revision,
                               {.name = name, .text = text, .saved_at = desk.now()});
  });
  if (!info) return error_response(info.error());
  return document_response(desk, {.info = *info, .text = text});
}

Response remove(Desk& desk, const Request& request, const PathParts& path) {
  const auto asked = request.query.find("after");
  const auto after = asked == request.query.end() ? std::nullopt : revision_of(asked->second);
  if (!after) return bad_request("after: expected the revision that was seen");
  const auto info = desk.memory.with([&](store::Store& store) {
    return store.remove_document({path.at("id")}, *after, desk.now());
  });
  if (!info) return error_response(info.error());
  return json_response(info_json(*info));
}

Response history(Desk& desk, const Request& /*request*/, const PathParts& path) {
  const auto found =
      desk.memory.with([&](store::Store& store) { return store.revisions({path.at("id")}); });
  if (!found) return error_response(found.error());
  Json revisions = Json::array();
  for (const store::DocumentInfo& info : *found) revisions.push_back(info_json(info));
  return json_response({{"revisions", revisions}});
}

}  // namespace

std::vector<Route> document_routes() {
  const Json text = {{"type", "string"}};
  const Json kind = {{"enum", {"brief", "build", "mapping"}}};
  return {
      {.method = "GET",
       .pattern = "/api/documents",
       .about = "Briefs, builds or mappings that are kept, the last saved first.",
       .query = {{"kind", "brief, build or mapping", true}},
       .answer = object_schema({{"documents", list_schema(schema_ref("DocumentInfo"))}}),
       .handle = list},
      {.method = "POST",
       .pattern = "/api/documents",
       .about = "Keeps a new one. It may hold mistakes: they come back as problems.",
       .body = object_schema({{"kind", kind}, {"name", text}, {"text", text}}),
       .answer = schema_ref("Document"),
       .statuses = {201},
       .handle = add},
      {.method = "GET",
       .pattern = "/api/documents/{id}",
       .about = "One of them, as it is now or as a revision had it.",
       .query = {{"revision", "from 1; the newest unless said"}},
       .answer = schema_ref("Document"),
       .handle = read},
      {.method = "PUT",
       .pattern = "/api/documents/{id}",
       .about = "The next revision; 409 where somebody else saved one after `after`. Brings back "
                "what was removed.",
       .body = object_schema({{"name", text}, {"text", text}, {"after", {{"type", "integer"}}}}),
       .answer = schema_ref("Document"),
       .handle = save},
      {.method = "DELETE",
       .pattern = "/api/documents/{id}",
       .about = "Removes it, as a revision of its own: nothing is lost.",
       .query = {{"after", "the revision that was seen", true}},
       .answer = schema_ref("DocumentInfo"),
       .handle = remove},
      {.method = "GET",
       .pattern = "/api/documents/{id}/revisions",
       .about = "All revisions, the oldest first.",
       .answer = object_schema({{"revisions", list_schema(schema_ref("DocumentInfo"))}}),
       .handle = history},
  };
}

}  // namespace rigproof::server
