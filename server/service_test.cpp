// The service with its sockets: events, broken and slow clients, limits, and the end of it all.
#include "server/service.hpp"

#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <atomic>
#include <future>
#include <thread>

#include "tests/server/test_bench.hpp"
#include "tests/support/sanitized.hpp"

namespace rigproof::server_test {
namespace {

using server::Service;
using testing::HasSubstr;
using testing::StartsWith;
using Clock = std::chrono::steady_clock;

double since_s(Clock::time_point begun) {
  return std::chrono::duration<double>(Clock::now() - begun).count();
}

// A service that runs while this lives.
class Running {
 public:
  explicit Running(Bench& bench, const server::Listening& listening = {})
      : service_(Service::open(*bench.desk, listening).value()),
        thread_([this] { service_->run(); }) {}
  ~Running() { end(); }
  void end() {
    if (!thread_.joinable()) return;
    service_->stop();
    thread_.join();
  }
  [[nodiscard]] int port() const { return service_->port(); }
  [[nodiscard]] httplib::Client client() const {
    httplib::Client out("127.0.0.1", port());
    out.set_read_timeout(20);
    return out;
  }

 private:
  std::unique_ptr<Service> service_;
  std::thread thread_;
};

// Bytes as they go over the wire: what no HTTP client would send.
class RawClient {
 public:
  explicit RawClient(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    ::inet_pton(AF_INET, "127.0.0.1", &to.sin_addr);
    EXPECT_EQ(::connect(socket_, reinterpret_cast<const sockaddr*>(&to), sizeof to), 0);
    const timeval most{.tv_sec = 20, .tv_usec = 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &most, sizeof most);
  }
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;
  ~RawClient() { ::close(socket_); }
  bool send(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }
  // Until the other side ends, or what is wanted has come.
  [[nodiscard]] std::string receive(std::string_view wanted = "\x01never") const {
    std::string out;
    std::array<char, 4096> block{};
    while (out.find(wanted) == std::string::npos) {
      const ssize_t got = ::recv(socket_, block.data(), block.size(), 0);
      if (got <= 0) break;
      out.append(block.data(), static_cast<std::size_t>(got));
    }
    return out;
  }

 private:
  int socket_;
};

std::string head(const Running& service, const std::string& line, const std::string& more = {}) {
  return line + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(service.port()) + "\r\n" + more +
         "\r\n";
}

std::string begin_endless(Running& service) {
  const auto begun = service.client().Post(
      "/api/jobs", Json{{"question", "plan"}, {"inputs", endless_inputs()}}.dump(),
      "application/json");
  EXPECT_TRUE(begun);
  return Json::parse(begun->body)["id"];
}

// printf 'x' | gzip -n9
constexpr unsigned char packed_x[] = {0x1f, 0x8b, 0x08, 0x00, 0x00, 0x00, 0x00,
                                      0x00, 0x02, 0x03, 0xab, 0x00, 0x00, 0x83,
                                      0x16, 0xdc, 0x8c, 0x01, 0x00, 0x00, 0x00};

TEST(Service, AnswersOverOneConnectionManyTimes) {
  Bench bench;
  Running service(bench);
  RawClient client(service.port());
  for (int i = 0; i < 3; ++i) {
    ASSERT_TRUE(client.send(head(service, "GET /api/documents?kind=brief")));
    EXPECT_THAT(client.receive("{\"documents\":[]}"), StartsWith("HTTP/1.1 200"));
  }
  // Two at once, and the one after a body.
  const std::string body = R"({"kind": "brief", "name": "x", "text": ""})";
  ASSERT_TRUE(client.send(
      head(service, "POST /api/documents",
           "Content-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) +
               "\r\n") +
      body + head(service, "GET /api/documents?kind=build", "Connection: close\r\n")));
  const std::string both = client.receive();
  EXPECT_THAT(both, StartsWith("HTTP/1.1 201"));
  EXPECT_THAT(both, HasSubstr("{\"documents\":[]}"));
}

TEST(Service, HeadIsGetWithoutTheBody) {
  Bench bench;
  Running service(bench);
  auto client = service.client();
  const auto whole = client.Get("/api/workshop");
  const auto bare = client.Head("/api/workshop");
  ASSERT_TRUE(whole && bare);
  EXPECT_EQ(bare->status, 200);
  EXPECT_EQ(bare->body, "");
  EXPECT_EQ(bare->get_header_value("Content-Length"), std::to_string(whole->body.size()));
}

// The library would cut an answer as a Range asks, under status 200, once for each of thousands.
TEST(Service, AnAnswerIsSentWhole) {
  Bench bench;
  Running service(bench);
  auto client = service.client();
  const auto whole = client.Get("/api/workshop");
  for (const char* range : {"bytes=0-9", "bytes=0-,0-,0-", "bytes=-1"}) {
    const auto part = client.Get("/api/workshop", httplib::Headers{{"Range", range}});
    ASSERT_TRUE(part);
    EXPECT_EQ(part->status, 200) << range;
    EXPECT_EQ(part->body, whole->body) << range;
    EXPECT_FALSE(part->has_header("Content-Range"));
  }
}

TEST(Service, APageIsPackedOnce) {
  Bench bench;
  static const server::Asset page[] = {
      {.path = "/index.html", .type = "text/html; charset=utf-8", .gzip = packed_x}};
  bench.desk->pages = page;
  Running service(bench);
  RawClient client(service.port());
  ASSERT_TRUE(client.send(
      head(service, "GET /", "Accept-Encoding: gzip, deflate, br\r\nConnection: close\r\n")));
  const std::string got = client.receive();
  EXPECT_THAT(got, HasSubstr("Content-Encoding: gzip\r\n"));
  EXPECT_THAT(got, testing::Not(HasSubstr(": br")));
  EXPECT_TRUE(
      got.ends_with(std::string_view(reinterpret_cast<const char*>(packed_x), sizeof packed_x)));
  RawClient plain(service.port());
  ASSERT_TRUE(plain.send(head(service, "GET /x/y", "Connection: close\r\n")));
  EXPECT_TRUE(plain.receive().ends_with("\r\n\r\nx"));
}

TEST(Service, EventsTellOfProgressAndTheEnd) {
  Bench bench;
  Running service(bench);
  const std::string id = begin_endless(service);
  std::string seen;
  auto client = service.client();
  bool stopped = false;
  const auto got = client.Get("/api/jobs/" + id + "/events", [&](const char* bytes, std::size_t n) {
    seen.append(bytes, n);
    if (!stopped && seen.find("event: progress\n") != std::string::npos) {
      stopped = true;
      EXPECT_TRUE(service.client().Delete("/api/jobs/" + id));
    }
    return true;
  });
  ASSERT_TRUE(got);
  EXPECT_EQ(got->get_header_value("Content-Type"), "text/event-stream");
  EXPECT_EQ(got->get_header_value("Cache-Control"), "no-store");
  EXPECT_THAT(seen, HasSubstr("event: progress\ndata: {\"text\":\""));
  const std::string mark = "event: end\ndata: ";
  const std::size_t at = seen.find(mark);
  ASSERT_NE(at, std::string::npos) << seen;
  EXPECT_TRUE(seen.ends_with("}\n\n"));
  const Json end = Json::parse(seen.substr(at + mark.size()));
  EXPECT_EQ(end["state"], "stopped");
  EXPECT_EQ(end["id"], id);
  EXPECT_FALSE(end.contains("answer"));
}

TEST(Service, EventsOfAJobThatEndedAreItsEnd) {
  Bench bench;
  Running service(bench);
  auto client = service.client();
  const auto job = client.Post(
      "/api/jobs",
      Json{{"question", "fit"}, {"inputs", {{"build", {{"text", "x"}}}}}, {"wait_ms", 10000}}
          .dump(),
      "application/json");
  ASSERT_TRUE(job);
  const std::string id = Json::parse(job->body)["id"];
  const auto got = client.Get("/api/jobs/" + id + "/events");
  ASSERT_TRUE(got);
  EXPECT_THAT(got->body, StartsWith("event: end\ndata: {"));
}

// All places are taken by listeners of a job that waits, and so says nothing; then they go away.
TEST(Service, AListenerThatGoesAwayFreesItsPlace) {
  Bench bench(0);
  Running service(bench);
  const std::string id = begin_endless(service);
  {
    std::vector<std::unique_ptr<RawClient>> listeners;
    for (int i = 0; i < server::most_connections; ++i) {
      listeners.push_back(std::make_unique<RawClient>(service.port()));
      ASSERT_TRUE(listeners.back()->send(head(service, "GET /api/jobs/" + id + "/events")));
    }
    for (const auto& listener : listeners)
      EXPECT_THAT(listener->receive("\r\n\r\n"), StartsWith("HTTP/1.1 200"));
  }
  const auto begun = Clock::now();
  EXPECT_TRUE(service.client().Get("/api/workshop"));
  EXPECT_LT(since_s(begun), 5.0) << "not the ten seconds until a comment is written";
}

TEST(Service, ListenersComeAndGo) {
  Bench bench;
  Running service(bench);
  const std::string id = begin_endless(service);
  for (int i = 0; i < 2 * server::most_connections; ++i) {
    RawClient listener(service.port());
    ASSERT_TRUE(listener.send(head(service, "GET /api/jobs/" + id + "/events")));
    if (i % 16 != 0) continue;
    EXPECT_THAT(listener.receive("\r\n\r\n"), StartsWith("HTTP/1.1 200")) << i;
  }
  EXPECT_TRUE(service.client().Get("/api/workshop"));
}

TEST(Service, BodiesHaveALimit) {
  Bench bench;
  Running service(bench);
  const auto refused = [&](const std::string& headers, const std::string& body = {}) {
    RawClient client(service.port());
    client.send(head(service, "POST /api/jobs", "Content-Type: application/json\r\n" + headers));
    client.send(body);
    return client.receive();  // and the connection ends
  };
  const std::string large = refused("Content-Length: 33554433\r\n", std::string(1 << 20, 'x'));
  EXPECT_THAT(large, StartsWith("HTTP/1.1 413"));
  EXPECT_THAT(large, HasSubstr("Connection: close\r\n"));
  EXPECT_THAT(large, HasSubstr("\"too_large\""));
  EXPECT_THAT(large, HasSubstr("Content-Security-Policy: default-src 'none'"));
  EXPECT_THAT(refused("Content-Length: 18446744073709551616\r\n"), StartsWith("HTTP/1.1 400"));
  EXPECT_THAT(refused("Content-Length: -1\r\n"), StartsWith("HTTP/1.1 400"));
  EXPECT_THAT(refused("Content-Length: 2\r\nContent-Length: 3\r\n", "{}"),
              StartsWith("HTTP/1.1 400"));
  EXPECT_THAT(refused("Transfer-Encoding: chunked\r\n", "2\r\n{}\r\n0\r\n\r\n"),
              StartsWith("HTTP/1.1 411"));
  EXPECT_THAT(refused("Content-Encoding: gzip\r\nContent-Length: 2\r\n", "xx"),
              StartsWith("HTTP/1.1 415"));
}

// Who is not let in does not get to send 32 MiB first.
TEST(Service, BodiesOfStrangersAreNotRead) {
  Bench bench;
  Running service(bench,
                  {.address = "127.0.0.1", .port = 0, .token = "0123456789abcdef", .names = {}});
  RawClient stranger(service.port());
  ASSERT_TRUE(stranger.send(head(service, "POST /api/jobs",
                                 "Content-Type: application/json\r\nContent-Length: 1000\r\n")));
  EXPECT_THAT(stranger.receive(), StartsWith("HTTP/1.1 401"));
  RawClient form(service.port());
  ASSERT_TRUE(form.send(head(service, "POST /api/jobs",
                             "Authorization: Bearer 0123456789abcdef\r\n"
                             "Content-Type: text/plain\r\nContent-Length: 1000\r\n")));
  EXPECT_THAT(form.receive(), StartsWith("HTTP/1.1 415"));
}

TEST(Service, OddRequestsAreRefusedAndDoNoHarm) {
  Bench bench;
  static const server::Asset page[] = {
      {.path = "/index.html", .type = "text/html; charset=utf-8", .gzip = packed_x}};
  bench.desk->pages = page;
  Running service(bench);
  struct Case {
    std::string sent, answer;
  };
  const std::string host = "Host: 127.0.0.1:" + std::to_string(service.port()) + "\r\n";
  for (const Case& c : std::vector<Case>{
           {head(service, "BREW /api/workshop"), "HTTP/1.1 400"},
           {head(service, "PATCH /api/workshop", "Connection: close\r\n"), "HTTP/1.1 405"},
           {head(service, "OPTIONS /api/workshop", "Connection: close\r\n"), "HTTP/1.1 405"},
           {head(service, "TRACE /", "Connection: close\r\n"), "HTTP/1.1 405"},
           {head(service, "GET /api/../api/workshop", "Connection: close\r\n"), "HTTP/1.1 404"},
           {head(service, "GET /../../etc/passwd.txt", "Connection: close\r\n"), "HTTP/1.1 404"},
           {head(service, "GET /%2e%2e/%2e%2e/etc/passwd.txt", "Connection: close\r\n"),
            "HTTP/1.1 404"},
           {head(service, "GET /api/tables/..%2f..%2fetc%2fpasswd", "Connection: close\r\n"),
            "HTTP/1.1 404"},
           {head(service, "GET /api/tables/gpu%00.csv", "Connection: close\r\n"), "HTTP/1.1 404"},
           {head(service, "GET /a.b%0d%0aX: y", "Connection: close\r\n"), "HTTP/1.1 400"},
           {head(service, "GET /a.b%0d%0aX:%20y", "Connection: close\r\n"), "HTTP/1.1 404"},
           {"GET /api/workshop HTTP/1.1\r\nConnection: close\r\n\r\n", "HTTP/1.1 403"},
           {"GET /api/workshop HTTP/1.1\r\n" + host + host + "Connection: close\r\n\r\n",
            "HTTP/1.1 400"},
           {"GET http://evil.example/api/workshop HTTP/1.1\r\n" + host +
                "Connection: close\r\n\r\n",
            "HTTP/1.1 "},
           {head(service, "GET /" + std::string(9000, 'a'), "Connection: close\r\n"),
            "HTTP/1.1 414"},
           {std::string(100'000, 'a'), ""},
           {"\r\n\r\n", ""},
           {std::string("\0\1\2\3", 4) + "\r\n\r\n", ""}}) {
    RawClient client(service.port());
    client.send(c.sent);
    const std::string answer = client.receive();
    EXPECT_THAT(answer, StartsWith(c.answer)) << c.sent.substr(0, 80);
    EXPECT_THAT(answer, testing::Not(HasSubstr("\r\nX: y")));
    EXPECT_THAT(answer, testing::Not(HasSubstr("HTTP/1.1 500"))) << c.sent.substr(0, 80);
    EXPECT_TRUE(service.client().Get("/api/workshop")) << "it goes on";
  }
}

TEST(Service, HeadsHaveALimit) {
  Bench bench;
  Running service(bench);
  RawClient client(service.port());
  std::string headers;
  for (int i = 0; i < 2000; ++i)
    headers += "X-" + std::to_string(i) + ": " + std::string(100, 'x') + "\r\n";
  client.send(head(service, "GET /api/workshop", headers));
  EXPECT_THAT(client.receive(), testing::Not(HasSubstr("HTTP/1.1 200")));
}

TEST(Service, ManyConnectionsAtOnce) {
  Bench bench;
  Running service(bench);
  std::vector<std::thread> clients;
  std::atomic<int> good = 0;
  for (int i = 0; i < 64; ++i)
    clients.emplace_back([&] {
      auto client = service.client();
      client.set_keep_alive(true);
      for (int k = 0; k < 20; ++k) {
        const auto got = client.Get("/api/documents?kind=brief");
        if (got && got->status == 200) ++good;
      }
    });
  for (std::thread& client : clients) client.join();
  EXPECT_EQ(good, 64 * 20);
}

// A second service must not share the port, and so half of the requests, with the first.
TEST(Service, APortIsTakenOnce) {
  Bench bench;
  Running service(bench);
  const auto second = Service::open(
      *bench.desk, {.address = "127.0.0.1", .port = service.port(), .token = {}, .names = {}});
  ASSERT_FALSE(second);
  EXPECT_EQ(second.error().code, ErrorCode::io);
  EXPECT_THAT(second.error().message, HasSubstr("is the port taken?"));
}

TEST(Service, ListensToOthersOnlyWithAToken) {
  Bench bench;
  struct Case {
    std::string address, token;
    std::vector<std::string> names;
    bool opens;
  };
  const std::string token = "0123456789abcdef";
  for (const Case& c : std::vector<Case>{{"127.0.0.1", "", {}, true},
                                         {"127.0.0.2", "", {}, true},
                                         {"0.0.0.0", "", {}, false},
                                         {"0.0.0.0", token, {"rig.local"}, true},
                                         {"0.0.0.0", "short", {}, false},
                                         {"0.0.0.0", token + "\r\nX: y", {}, false},
                                         {"::ffff:127.0.0.1", "", {}, false},
                                         {"127.evil.example", "", {}, false},
                                         {"localhost", "", {}, false},
                                         {"127.0.0.1", "", {"a/b"}, false},
                                         {"127.0.0.1", "", {""}, false},
                                         {"", "", {}, false}}) {
    const auto opened = Service::open(
        *bench.desk, {.address = c.address, .port = 0, .token = c.token, .names = c.names});
    EXPECT_EQ(opened.has_value(), c.opens) << c.address << ' ' << c.token;
    if (opened) continue;
    EXPECT_EQ(opened.error().code, ErrorCode::bad_input) << c.address;
  }
  const auto everywhere = Service::open(
      *bench.desk, {.address = "0.0.0.0", .port = 0, .token = token, .names = {"Rig.local"}});
  ASSERT_TRUE(everywhere);
  EXPECT_EQ((*everywhere)->address(),
            "http://Rig.local:" + std::to_string((*everywhere)->port()) + "/?token=" + token);
}

TEST(Service, EndsWhileAllKindsOfClientsHoldOn) {
  Bench bench;
  Running service(bench);
  const std::string id = begin_endless(service);
  RawClient idle(service.port());
  RawClient half_a_head(service.port());
  half_a_head.send("GET /api/work");
  RawClient half_a_body(service.port());
  half_a_body.send(head(service, "POST /api/jobs",
                        "Content-Type: application/json\r\nContent-Length: 1000\r\n") +
                   "{");
  RawClient listener(service.port());
  listener.send(head(service, "GET /api/jobs/" + id + "/events"));
  EXPECT_THAT(listener.receive("\r\n\r\n"), StartsWith("HTTP/1.1 200"));
  RawClient takes_nothing(service.port());
  for (int i = 0; i < 2000; ++i)
    if (!takes_nothing.send(head(service, "GET /api/forms"))) break;
  auto waits = std::async(std::launch::async, [&] {
    return service.client().Post(
        "/api/jobs",
        Json{{"question", "plan"}, {"inputs", endless_inputs()}, {"wait_ms", 10000}}.dump(),
        "application/json");
  });
  std::this_thread::sleep_for(std::chrono::milliseconds(200));
  // What is promised is two seconds; sanitizers slow a plan down tenfold until it looks up.
  constexpr double most_s = test_support::sanitized ? 20.0 : 2.0;
  const auto begun = Clock::now();
  service.end();
  EXPECT_LT(since_s(begun), most_s);
  waits.wait();
  const auto jobs_end = Clock::now();
  bench.jobs.reset();
  EXPECT_LT(since_s(jobs_end), most_s);
}

TEST(Service, MayBeStoppedBeforeItRuns) {
  Bench bench;
  const auto service = Service::open(*bench.desk, {}).value();
  service->stop();
  service->run();
  service->stop();
}

// The moment between the start of the thread and the first accept included.
TEST(Service, MayBeStoppedAtAnyMoment) {
  for (int us = 0; us < 2000; us += 50) {
    Bench* const bench = [] {
      static Bench kept(0);
      return &kept;
    }();
    Running service(*bench);
    std::this_thread::sleep_for(std::chrono::microseconds(us));
  }
}

}  // namespace
}  // namespace rigproof::server_test
