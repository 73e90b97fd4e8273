#include "server/service.hpp"

#include <fmt/format.h>
#include <httplib.h>

#include <atomic>
#include <cctype>

#include "server/pages.hpp"
#include "server/route.hpp"

namespace rigproof::server {
namespace {

Request read(const httplib::Request& from) {
  Request out;
  out.method = from.method == "HEAD" ? "GET" : from.method;
  out.path = from.path;
  for (const auto& [name, value] : from.params) out.query.insert_or_assign(name, value);
  for (const auto& [name, value] : from.headers) {
    std::string lower = name;
    for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    out.headers.insert_or_assign(std::move(lower), value);
  }
  out.body = from.body;
  return out;
}

std::string event(std::string_view name, std::string_view data) {
  return fmt::format("event: {}\ndata: {}\n\n", name, data);
}

// Follows a job until it ends or nobody listens. Between two words it says at least one comment
// every ten seconds, by which a listener that went away is noticed.
void stream_events(Desk& desk, const std::string& id, const std::atomic<bool>& ending,
                   httplib::Response& out) {
  out.set_chunked_content_provider(
      "text/event-stream", [&desk, &ending, id, said = std::uint64_t{0}, silent = 0](
                               std::size_t, httplib::DataSink& sink) mutable {
        const auto view = desk.jobs.follow(id, said, 1.0);
        if (!view || ending) {
          sink.done();
          return true;
        }
        std::string text;
        if (view->said > said && !view->ended() && !view->progress.empty())
          text = event("progress", Json{{"text", view->progress}}.dump(
                                       -1, ' ', false, Json::error_handler_t::replace));
        if (view->ended()) text = event("end", job_json(*view, false));
        said = std::max(said, view->said);
        if (text.empty() && ++silent >= 10) text = ": still here\n\n";
        if (!text.empty()) {
          silent = 0;
          if (!sink.is_writable() || !sink.write(text.data(), text.size())) return false;
        }
        if (view->ended()) sink.done();
        return true;
      });
}

void write(Desk& desk, const Response& from, const std::atomic<bool>& ending,
           httplib::Response& out) {
  out.status = from.status;
  for (const auto& [name, value] : from.headers) out.set_header(name, value);
  for (const auto& [name, value] : safety_headers())
    if (!out.has_header(name)) out.set_header(name, value);
  if (from.events_of_job.empty())
    out.set_content(from.body, from.type);
  else
    stream_events(desk, from.events_of_job, ending, out);
}

std::string in_brackets(const std::string& address) {
  return address.find(':') == std::string::npos ? address : fmt::format("[{}]", address);
}

}  // namespace

bool is_loopback(std::string_view address) {
  return address == "::1" || address.starts_with("127.") || address == "localhost";
}

Response respond(Desk& desk, const Guarded& guarded, const Request& request) {
  if (auto refused = refusal(guarded, request)) return std::move(*refused);
  if (request.path == "/api" || request.path.starts_with("/api/")) return answer(desk, request);
  return page(desk.pages, request);
}

struct Service::Parts {
  Parts(Desk& the_desk, Listening where) : desk(the_desk), listening(std::move(where)) {}
  Desk& desk;
  Listening listening;
  Guarded guarded;
  httplib::Server sockets;
  std::atomic<bool> ending = false;
};

Service::Service(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Service::~Service() = default;

Result<std::unique_ptr<Service>> Service::open(Desk& desk, const Listening& listening) {
  if (!is_loopback(listening.address) && listening.token.empty())
    return bad_input(
        fmt::format("{}: others can reach this address, so a token is needed", listening.address));
  auto parts = std::make_unique<Parts>(desk, listening);
  httplib::Server& sockets = parts->sockets;
  sockets.new_task_queue = [] { return new httplib::ThreadPool(most_connections); };
  sockets.set_tcp_nodelay(true);
  sockets.set_keep_alive_max_count(1'000'000);
  sockets.set_keep_alive_timeout(read_timeout_s);
  sockets.set_read_timeout(read_timeout_s);
  sockets.set_write_timeout(read_timeout_s);
  sockets.set_payload_max_length(most_body_bytes);
  if (listening.port == 0) {
    const int port = sockets.bind_to_any_port(listening.address);
    if (port <= 0) return fail(ErrorCode::io, listening.address + ": cannot listen here");
    parts->listening.port = port;
  } else if (!sockets.bind_to_port(listening.address, listening.port)) {
    return fail(ErrorCode::io, fmt::format("{}:{}: cannot listen here; is the port taken?",
                                           listening.address, listening.port));
  }
  std::vector<std::string> names = listening.names;
  names.push_back(in_brackets(listening.address));
  if (is_loopback(listening.address)) names.insert(names.end(), {"localhost", "127.0.0.1"});
  for (const std::string& name : names) {
    parts->guarded.hosts.push_back(fmt::format("{}:{}", name, parts->listening.port));
    if (parts->listening.port == 80) parts->guarded.hosts.push_back(name);
  }
  parts->guarded.token = listening.token;

  const auto handle = [shared = parts.get()](const httplib::Request& request,
                                             httplib::Response& response) {
    write(shared->desk, respond(shared->desk, shared->guarded, read(request)), shared->ending,
          response);
  };
  const char* const anything = ".*";
  sockets.Get(anything, handle);
  sockets.Post(anything, handle);
  sockets.Put(anything, handle);
  sockets.Delete(anything, handle);
  sockets.Options(anything, handle);
  sockets.set_error_handler([](const httplib::Request&, httplib::Response& response) {
    for (const auto& [name, value] : safety_headers())
      if (!response.has_header(name)) response.set_header(name, value);
    if (response.body.empty())
      response.set_content(
          error_response(response.status, response.status == 413 ? "too_large" : "bad_input",
                         response.status == 413 ? "the body is larger than 32 MiB"
                                                : "the request was not understood")
              .body,
          "application/json; charset=utf-8");
  });
  return std::unique_ptr<Service>(new Service(std::move(parts)));
}

int Service::port() const { return parts_->listening.port; }

std::string Service::address() const {
  const std::string place =
      fmt::format("http://{}:{}/", in_brackets(parts_->listening.address), port());
  return parts_->listening.token.empty()
             ? place
             : fmt::format("{}?token={}", place, parts_->listening.token);
}

void Service::run() { parts_->sockets.listen_after_bind(); }

void Service::stop() {
  parts_->ending = true;
  parts_->desk.jobs.close();
  parts_->sockets.stop();
}

}  // namespace rigproof::server
