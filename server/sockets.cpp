#include "server/sockets.hpp"

#include <sys/socket.h>
#include <unistd.h>

#include <charconv>
#include <optional>

namespace rigproof::server {
namespace {

constexpr int most_waiting_connections = 256;  // of those the system has taken and we have not

// Not SO_REUSEPORT, the library's own choice: a second service on the same port has to be refused.
void set_options(socket_t socket) {
  const int yes = 1;
  ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
}

}  // namespace

std::optional<std::size_t> declared_bytes(const httplib::Request& request) {
  const std::size_t count = request.get_header_value_count("Content-Length");
  if (count == 0) return 0;
  const std::string text = request.get_header_value("Content-Length");
  std::size_t bytes = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), bytes);
  if (count > 1 || error != std::errc() || end != text.data() + text.size()) return {};
  return bytes;
}

Sockets::Sockets(ConnectionLimits limits, std::function<bool(const httplib::Request&)> turned_away)
    : limits_(limits), turned_away_(std::move(turned_away)) {
  set_tcp_nodelay(true);
  set_socket_options(set_options);
  set_keep_alive_max_count(1'000'000);  // no fewer: of one connection, told in its answers
  set_keep_alive_timeout(static_cast<time_t>(limits_.idle_s));
}

Sockets::~Sockets() {
  end();
  if (listening_ != INVALID_SOCKET) ::close(listening_);
}

int Sockets::bind(const std::string& address, int port) {
  if (port == 0)
    port = bind_to_any_port(address);
  else if (!bind_to_port(address, port))
    port = 0;
  if (port <= 0) return 0;
  listening_ = svr_sock_;
  ::listen(listening_, most_waiting_connections);  // the library lets five wait
  return port;
}

void Sockets::run() {
  if (!ending_) listen_after_bind();
}

// The listening socket stays open, though of no use, until this object goes: its number may not
// become another's while the thread of `run` still looks at it.
void Sockets::end() {
  ending_ = true;
  const std::scoped_lock lock(mutex_);
  if (svr_sock_.exchange(INVALID_SOCKET) != INVALID_SOCKET) ::shutdown(listening_, SHUT_RDWR);
  for (const socket_t socket : open_) ::shutdown(socket, SHUT_RD);
}

bool Sockets::process_and_close_socket(socket_t socket) {
  {
    const std::scoped_lock lock(mutex_);
    open_.insert(socket);
  }
  {
    Connection connection(socket, limits_, ending_);
    serve(connection);
    connection.finish();
  }
  {
    const std::scoped_lock lock(mutex_);
    open_.erase(socket);
  }
  ::close(socket);
  return true;
}

void Sockets::serve(Connection& connection) {
  while (connection.wait_for_request()) {
    bool said_close = false;
    bool goes_on = false;
    const auto look = [&](httplib::Request& request) {
      connection.expect_body(declared_bytes(request).value_or(1));
      request.ranges.clear();  // an answer is sent whole
      request.headers.erase(accept_encoding_as_sent);
      const std::string accepted = request.get_header_value("Accept-Encoding");
      request.headers.erase("Accept-Encoding");
      request.headers.emplace(accept_encoding_as_sent, accepted);
      goes_on = !turned_away_(request);
      if (goes_on) return;
      request.headers.erase("Connection");
      request.headers.emplace("Connection", "close");
    };
    const bool answered = process_request(connection, false, said_close, look);
    if (!answered || said_close || !goes_on || !connection.is_read()) return;
  }
}

}  // namespace rigproof::server
