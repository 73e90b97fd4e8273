// The sockets of the service: the HTTP library's server with connections of ours
// (connection.hpp), ended from another thread at any moment.
#pragma once

#include <httplib.h>

#include <atomic>
#include <functional>
#include <mutex>
#include <optional>
#include <set>
#include <string>

#include "server/connection.hpp"

namespace rigproof::server {

class Sockets final : public httplib::Server {
 public:
  /// In: `turned_away` says of a request whose head was read that it will be answered without its
  /// body; the connection ends after that.
  Sockets(ConnectionLimits limits, std::function<bool(const httplib::Request&)> turned_away);
  ~Sockets() override;

  /// In: a numeric address; port 0: any free one. Gives the port; 0: cannot.
  [[nodiscard]] int bind(const std::string& address, int port);
  /// Answers until `end`.
  void run();
  /// May come before `run`, more than once, and from any thread.
  void end();
  [[nodiscard]] const std::atomic<bool>& ending() const { return ending_; }

 private:
  bool process_and_close_socket(socket_t socket) override;
  void serve(Connection& connection);

  ConnectionLimits limits_;
  std::function<bool(const httplib::Request&)> turned_away_;
  std::atomic<bool> ending_ = false;
  socket_t listening_ = INVALID_SOCKET;
  std::mutex mutex_;
  std::set<socket_t> open_;
};

/// The bytes of the body that the head of a request declares. nullopt: more than one length, or
/// none that is a number.
[[nodiscard]] std::optional<std::size_t> declared_bytes(const httplib::Request& request);

/// Under this name the handlers find Accept-Encoding: the library would compress what it finds it
/// for, a second time where it is compressed already, and slowly.
inline constexpr const char* accept_encoding_as_sent = "Rigproof-Accept-Encoding";

}  // namespace rigproof::server
