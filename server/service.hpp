// The service: sockets, limits and the order in which a request is looked at.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "server/desk.hpp"
#include "server/guard.hpp"

namespace rigproof::server {

/// Ours, far above what pages send. Times and the size of heads: ConnectionLimits.
inline constexpr std::size_t most_body_bytes = 32ULL << 20;
inline constexpr int most_connections = 96;  ///< each has a thread while it lasts

struct Listening {
  std::string address = "127.0.0.1";  ///< numeric
  int port = 0;                       ///< 0: any free one
  std::string token;                  ///< has to be there where the address is not loopback
  std::vector<std::string> names;     ///< further names this place is called by, without port
};

/// 127.0.0.0/8 and ::1, as numbers; a name is none, whatever it begins with.
[[nodiscard]] bool is_loopback(std::string_view address);
/// 16 to 200 letters, digits, - or _: as it may stand in an address, a header and a cookie.
[[nodiscard]] bool is_token(std::string_view text);

/// Looks at one request, whole: guard, API or page, safety headers. What the sockets call, and
/// tests.
[[nodiscard]] Response respond(Desk& desk, const Guarded& guarded, const Request& request);

class Service {
 public:
  /// Binds. Errors: bad_input (a place that is not loopback without a token, no numeric address, a
  /// token or name that is none), io (the port is taken, no such address).
  [[nodiscard]] static Result<std::unique_ptr<Service>> open(Desk& desk,
                                                             const Listening& listening);
  ~Service();
  Service(const Service&) = delete;
  Service& operator=(const Service&) = delete;

  [[nodiscard]] int port() const;
  /// `http://127.0.0.1:8460/`, with the token where there is one.
  [[nodiscard]] std::string address() const;
  /// Answers until `stop`, which may come from any thread, before it and more than once. Whoever
  /// is still connected then is let go of within a second.
  void run();
  void stop();

 private:
  struct Parts;
  explicit Service(std::unique_ptr<Parts> parts);
  std::unique_ptr<Parts> parts_;
};

}  // namespace rigproof::server
