#include "server/service.hpp"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <httplib.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>

#include "base/text.hpp"
#include "server/pages.hpp"
#include "server/price_keeping.hpp"
#include "server/route.hpp"
#include "server/sockets.hpp"

namespace rigproof::server {
namespace {

constexpr std::chrono::seconds keep_every{2};
constexpr std::chrono::seconds keep_again_after{60};

std::string lower_case(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

bool is_numeric(std::string_view address) {
  const std::string text(address);
  in6_addr space{};
  return ::inet_pton(AF_INET, text.c_str(), &space) == 1 ||
         ::inet_pton(AF_INET6, text.c_str(), &space) == 1;
}

Request read(const httplib::Request& from) {
  Request out;
  out.method = from.method == "HEAD" ? "GET" : from.method;
  out.path = from.path;
  for (const auto& [name, value] : from.params) out.query.insert_or_assign(name, value);
  for (const auto& [name, value] : from.headers) {
    out.headers.insert_or_assign(lower_case(name), value);
  }
  out.headers.insert_or_assign("accept-encoding", from.get_header_value(accept_encoding_as_sent));
  out.body = from.body;
  return out;
}

std::string event(std::string_view name, std::string_view data) {
  return fmt::format("event: {}\ndata: {}\n\n", name, data);
}

// Follows a job until it ends or nobody listens, which is looked at every second. Between two words
// it says at least one comment every ten seconds, so that nobody on the way gives up.
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
        if (!sink.is_writable()) return false;  // nobody is there any more
        if (!text.empty()) {
          silent = 0;
          if (!sink.write(text.data(), text.size())) return false;
        }
        if (view->ended()) sink.done();
        return true;
      });
}

void write(Desk& desk, Response from, const std::atomic<bool>& ending, httplib::Response& out) {
  out.status = from.status;
  for (const auto& [name, value] : from.headers) out.set_header(name, value);
  for (const auto& [name, value] : safety_headers())
    if (!out.has_header(name)) out.set_header(name, value);
  if (!from.events_of_job.empty()) {
    stream_events(desk, from.events_of_job, ending, out);
    return;
  }
  out.set_header("Content-Type", from.type);
  out.body = std::move(from.body);
}

std::string in_brackets(const std::string& address) {
  return address.find(':') == std::string::npos ? address : fmt::format("[{}]", address);
}

Response too_large() {
  return error_response(413, "too_large",
                        fmt::format("the body is larger than {} MiB", most_body_bytes >> 20U));
}

// What no head of a request may say, whoever sends it.
std::optional<Response> bad_head(const httplib::Request& request) {
  if (request.get_header_value_count("Host") > 1)
    return error_response(400, "bad_input", "expected one Host header");
  if (request.has_header("Transfer-Encoding"))
    return error_response(411, "bad_input", "expected a body with its length, not in chunks");
  if (request.has_header("Content-Encoding"))
    return error_response(415, "bad_input", "expected a body that is not compressed");
  const auto bytes = declared_bytes(request);
  if (!bytes) return error_response(400, "bad_input", "Content-Length: expected one number");
  if (*bytes > most_body_bytes) return too_large();
  return {};
}

// A name that a header may hold: of this, what a service is called by.
bool is_plain(std::string_view text, std::string_view more) {
  return std::ranges::all_of(text, [&](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           more.find(c) != std::string_view::npos;
  });
}

Result<void> check(const Listening& listening) {
  if (!is_numeric(listening.address))
    return bad_input(fmt::format("{}: expected a numeric address, such as 127.0.0.1",
                                 excerpt(listening.address)));
  if (!listening.token.empty() && !is_token(listening.token))
    return bad_input("the token: expected 16 to 200 letters, digits, - or _");
  if (!is_loopback(listening.address) && listening.token.empty())
    return bad_input(
        fmt::format("{}: others can reach this address, so a token is needed", listening.address));
  for (const std::string& name : listening.names)
    if (name.empty() || !is_plain(name, ".-:"))
      return bad_input(fmt::format("{}: expected the name or address of this machine, without port",
                                   excerpt(name)));
  return {};
}

// Every name the service answers to, as a browser writes it.
std::vector<std::string> hosts_of(const Listening& listening, int port) {
  std::vector<std::string> names = listening.names;
  names.push_back(listening.address);
  if (is_loopback(listening.address)) names.insert(names.end(), {"localhost", "127.0.0.1"});
  std::vector<std::string> hosts;
  for (const std::string& name : names) {
    const std::string host = lower_case(in_brackets(name));
    hosts.push_back(fmt::format("{}:{}", host, port));
    if (port == 80) hosts.push_back(host);
  }
  return hosts;
}

}  // namespace

bool is_loopback(std::string_view address) {
  return is_numeric(address) && (address == "::1" || address.starts_with("127."));
}

bool is_token(std::string_view text) {
  return text.size() >= 16 && text.size() <= 200 && is_plain(text, "-_");
}

Response respond(Desk& desk, const Guarded& guarded, const Request& request) {
  if (auto refused = refusal(guarded, request)) return std::move(*refused);
  if (request.path == "/api" || request.path.starts_with("/api/")) return answer(desk, request);
  return page(desk.pages, request);
}

struct Service::Parts {
  Parts(Desk& the_desk, Listening where)
      : desk(the_desk),
        listening(std::move(where)),
        sockets(ConnectionLimits{},
                [this](const auto& request) { return turned_away(request).has_value(); }) {}

  // The answer to a request whose body is not to be read.
  [[nodiscard]] std::optional<Response> turned_away(const httplib::Request& request) const {
    if (auto refused = bad_head(request)) return refused;
    if (declared_bytes(request) == 0) return {};
    Request asked = read(request);
    asked.body_follows = true;
    if (auto refused = refusal(guarded, asked)) return refused;
    const bool takes_one =
        request.method == "POST" || request.method == "PUT" || request.method == "DELETE";
    if (!takes_one) return error_response(405, "bad_input", "no body is taken with this method");
    return {};
  }

  Desk& desk;
  Listening listening;
  Guarded guarded;
  Sockets sockets;
};

Service::Service(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
Service::~Service() = default;

Result<std::unique_ptr<Service>> Service::open(Desk& desk, const Listening& listening) {
  if (const auto good = check(listening); !good) return tl::unexpected(good.error());
  auto parts = std::make_unique<Parts>(desk, listening);
  Sockets& sockets = parts->sockets;
  sockets.new_task_queue = [] { return new httplib::ThreadPool(most_connections); };
  sockets.set_payload_max_length(most_body_bytes);
  const int port = sockets.bind(listening.address, listening.port);
  if (port == 0)
    return fail(ErrorCode::io, fmt::format("{}:{}: cannot listen here; is the port taken?",
                                           listening.address, listening.port));
  parts->listening.port = port;
  parts->guarded = {.hosts = hosts_of(listening, port), .token = listening.token};

  Parts* const shared = parts.get();
  const auto handle = [shared](const httplib::Request& request, httplib::Response& response) {
    write(shared->desk, respond(shared->desk, shared->guarded, read(request)),
          shared->sockets.ending(), response);
  };
  using Handled = httplib::Server::HandlerResponse;
  sockets.set_pre_routing_handler(
      [shared, handle](const httplib::Request& request, httplib::Response& response) {
        if (auto refused = shared->turned_away(request)) {
          write(shared->desk, std::move(*refused), shared->sockets.ending(), response);
          return Handled::Handled;
        }
        if (declared_bytes(request) != 0) return Handled::Unhandled;  // once the body is read
        handle(request, response);
        return Handled::Handled;
      });
  const char* const anything = "[^]*";
  sockets.Post(anything, handle);
  sockets.Put(anything, handle);
  sockets.Delete(anything, handle);
  sockets.set_exception_handler([](const httplib::Request&, httplib::Response& response,
                                   const std::exception_ptr&) { response.status = 500; });
  sockets.set_error_handler([](const httplib::Request&, httplib::Response& response) {
    for (const auto& [name, value] : safety_headers())
      if (!response.has_header(name)) response.set_header(name, value);
    if (!response.body.empty()) return;
    const Response said = response.status == 413 ? too_large()
                                                 : error_response(response.status, "bad_input",
                                                                  "the request was not understood");
    response.set_content(said.body, said.type);
  });
  return std::unique_ptr<Service>(new Service(std::move(parts)));
}

int Service::port() const { return parts_->listening.port; }

std::string Service::address() const {
  const Listening& listening = parts_->listening;
  // What listens everywhere is nowhere in particular: a name it is called by, where there is one.
  const bool everywhere = listening.address == "0.0.0.0" || listening.address == "::";
  const std::string& name =
      everywhere && !listening.names.empty() ? listening.names.front() : listening.address;
  const std::string place = fmt::format("http://{}:{}/", in_brackets(name), port());
  return listening.token.empty() ? place : fmt::format("{}?token={}", place, listening.token);
}

void Service::run() {
  Parts& parts = *parts_;
  // Offers are kept as they come, not only when somebody looks at them. What goes wrong is told to
  // who looks.
  const std::jthread keeper([&parts](const std::stop_token& over) {
    std::mutex mutex;
    std::unique_lock lock(mutex);
    std::condition_variable_any never;
    while (!over.stop_requested()) {
      const bool kept = keep_prices(parts.desk).has_value();
      never.wait_for(lock, over, kept ? keep_every : keep_again_after, [] { return false; });
    }
  });
  parts.sockets.run();
}

void Service::stop() {
  parts_->sockets.end();
  parts_->desk.jobs.close();
}

}  // namespace rigproof::server
