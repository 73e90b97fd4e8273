// Questions over HTTP: asked as jobs, waited for or followed, stopped.
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "server/route.hpp"
#include "server/schemas.hpp"
#include "sheet/html.hpp"

namespace rigproof::server {
namespace {

constexpr int longest_wait_ms = 10'000;

Response no_such_job(const std::string& id) {
  return error_response(
      {.code = ErrorCode::not_found,
       .message = excerpt(id) + ": there is no such job; answers are kept until the service ends "
                                "or many others were asked. Ask again."});
}

// An id of a document in the place of a brief or a build becomes its text.
Result<void> put_texts(Desk& desk, const Question& question, Json& inputs) {
  for (const auto& [name, kind] : question.given) {
    const auto found = inputs.find(name);
    if (found == inputs.end() || !found->is_string()) continue;
    const store::DocumentId id{found->get<std::string>()};
    const auto document = desk.memory.with([&](store::Store& store) { return store.document(id); });
    if (!document)
      return fail(document.error().code, fmt::format("{}: {}", name, document.error().message));
    if (document->info.deleted)
      return fail(ErrorCode::not_found, fmt::format("{}: {} was removed", name, id.text));
    const auto wanted =
        kind == app::GivenKind::brief ? store::DocumentKind::brief : store::DocumentKind::build;
    if (document->info.kind != wanted)
      return bad_input(
          fmt::format("{}: {} is a {}", name, id.text, store::word(document->info.kind)));
    *found = {{"name", document->info.name}, {"text", document->text}};
  }
  return {};
}

Response view_response(const JobView& view) {
  return text_response(job_json(view, true), view.ended() ? 200 : 202);
}

Response start(Desk& desk, const Request& request, const PathParts& /*path*/) {
  const auto body = object_of(request.body, {"question", "inputs", "wait_ms"});
  if (!body) return error_response(body.error());
  const auto name = body->find("question");
  const Question* question =
      name != body->end() && name->is_string() ? question_named(name->get<std::string>()) : nullptr;
  if (question == nullptr) {
    std::string names;
    for (const Question& known : questions())
      names += fmt::format("{}{}", names.empty() ? "" : ", ", known.name);
    return bad_request("question: expected one of " + names);
  }
  Json inputs = Json::object();
  if (const auto given = body->find("inputs"); given != body->end()) inputs = *given;
  if (!inputs.is_object()) return bad_request("inputs: expected an object");
  int wait_ms = 0;
  if (const auto wait = body->find("wait_ms"); wait != body->end()) {
    if (!wait->is_number_integer() || wait->get<std::int64_t>() < 0 ||
        wait->get<std::int64_t>() > longest_wait_ms)
      return bad_request(fmt::format("wait_ms: expected a whole number, 0 to {}", longest_wait_ms));
    wait_ms = wait->get<int>();
  }
  if (const auto put = put_texts(desk, *question, inputs); !put) return error_response(put.error());
  if (const auto checked = question->check(inputs); !checked)
    return error_response(checked.error());
  const auto id = desk.jobs.start(*question, inputs, desk.library.edition());
  if (!id) return error_response(id.error());

  constexpr std::uint64_t whatever_is_said = ~0ULL;
  const auto view = desk.jobs.follow(*id, whatever_is_said, wait_ms / 1000.0);
  return view ? view_response(*view) : no_such_job(*id);
}

Response read(Desk& desk, const Request& /*request*/, const PathParts& path) {
  const auto view = desk.jobs.view(path.at("id"));
  return view ? view_response(*view) : no_such_job(path.at("id"));
}

Response stop(Desk& desk, const Request& /*request*/, const PathParts& path) {
  const std::string& id = path.at("id");
  if (!desk.jobs.stop(id)) return no_such_job(id);
  const auto view = desk.jobs.view(id);
  return view ? view_response(*view) : no_such_job(id);
}

Response events(Desk& desk, const Request& /*request*/, const PathParts& path) {
  if (!desk.jobs.view(path.at("id"))) return no_such_job(path.at("id"));
  Response out;
  out.type = "text/event-stream";
  out.events_of_job = path.at("id");
  return out;
}

std::string type_of_file(std::string_view name) {
  if (name.ends_with(".html")) return "text/html; charset=utf-8";
  if (name.ends_with(".svg")) return "image/svg+xml";
  if (name.ends_with(".csv")) return "text/csv; charset=utf-8";
  if (name.ends_with(".md")) return "text/markdown; charset=utf-8";
  return "application/json; charset=utf-8";
}

// A published file stands alone: it brings its own style, and may run nothing.
constexpr const char* policy_of_files =
    "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; sandbox; "
    "frame-ancestors 'self'";

// What the frame of a page shows: on the paper that was chosen in the pages.
Result<std::string> shown_bytes(const AnswerFile& file, const Request& request) {
  const auto paper = request.query.find("paper");
  if (paper == request.query.end() || file.name != "sheet.html") return file.bytes;
  if (paper->second != "light" && paper->second != "dark")
    return bad_input("paper: expected light or dark, got " + excerpt(paper->second));
  return sheet::on_paper(file.bytes, paper->second);
}

Response file(Desk& desk, const Request& request, const PathParts& path) {
  const auto view = desk.jobs.view(path.at("id"));
  if (!view) return no_such_job(path.at("id"));
  if (view->answer) {
    for (const AnswerFile& one : view->answer->files) {
      if (one.name != path.at("name")) continue;
      const bool save = request.query.contains("save");
      auto bytes = save ? Result<std::string>(one.bytes) : shown_bytes(one, request);
      if (!bytes) return error_response(bytes.error());
      Response out;
      out.type = type_of_file(one.name);
      out.body = std::move(*bytes);
      out.headers.emplace_back("Content-Security-Policy", policy_of_files);
      if (save)
        out.headers.emplace_back("Content-Disposition",
                                 fmt::format("attachment; filename=\"{}\"", one.name));
      return out;
    }
  }
  return error_response({.code = ErrorCode::not_found,
                         .message = excerpt(path.at("name")) + ": this job has no such file"});
}

}  // namespace

std::string job_json(const JobView& view, bool with_answer) {
  Json out = {{"id", view.id}, {"question", view.question}, {"state", name_of(view.state)}};
  if (!view.progress.empty()) out["progress"] = {{"text", view.progress}};
  if (view.error) out["error"] = error_json(*view.error);
  std::string text = out.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (!with_answer || !view.answer) return text;
  // The answer is JSON already: it is put in as it is.
  text.pop_back();
  return text + ",\"answer\":" + view.answer->json + "}";
}

std::vector<Route> job_routes() {
  Json names = Json::array();
  Json inputs = Json::array();
  for (const Question& question : questions()) {
    names.push_back(question.name);
    inputs.push_back(schema_ref("Inputs_" + std::string(question.name)));
  }
  Json start_body = object_schema({{"question", {{"enum", names}}}});
  start_body["properties"]["inputs"] = {
      {"anyOf", inputs}, {"description", "What the question asks for: Inputs_QUESTION."}};
  start_body["properties"]["wait_ms"] = {
      {"type", "integer"},
      {"minimum", 0},
      {"maximum", longest_wait_ms},
      {"description", "Wait so long for the answer before answering without it."}};
  return {
      {.method = "POST",
       .pattern = "/api/jobs",
       .about =
           "Asks a question. 200 with the answer where it is there in time, else 202. The same "
           "question about the same catalog is the same job.",
       .body = start_body,
       .answer = schema_ref("Job"),
       .statuses = {200, 202},
       .handle = start},
      {.method = "GET",
       .pattern = "/api/jobs/{id}",
       .about = "How a job stands, with its answer when it ended.",
       .answer = schema_ref("Job"),
       .statuses = {200, 202},
       .handle = read},
      {.method = "DELETE",
       .pattern = "/api/jobs/{id}",
       .about = "Asks it to stop: what was found by then is its answer.",
       .answer = schema_ref("Job"),
       .statuses = {200, 202},
       .handle = stop},
      {.method = "GET",
       .pattern = "/api/jobs/{id}/events",
       .about = "Server-sent events: `progress` with {text} as it goes on, and one `end` with the "
                "job, without its answer.",
       .type = "text/event-stream",
       .handle = events},
      {.method = "GET",
       .pattern = "/api/jobs/{id}/files/{name}",
       .about = "A file of an answer, as the sheet has them.",
       .query = {{"save", "given: to be saved, not shown"},
                 {"paper",
                  "light or dark: the sheet as a frame shows it, whatever the system "
                  "prefers; a saved one follows its reader's"}},
       .type = "*/*",
       .handle = file},
  };
}

}  // namespace rigproof::server
