// One connection as the HTTP library reads and writes it, with limits of ours: so many bytes and so
// much time for each request, and an end at once when the service ends.
//
// The library bounds each single wait. It does not bound the time of a whole request (a byte now
// and then would hold its thread for days) nor that of an answer nobody takes.
#pragma once

#include <httplib.h>

#include <array>
#include <atomic>
#include <chrono>
#include <cstddef>
#include <string>

namespace rigproof::server {

struct ConnectionLimits {
  std::size_t head_bytes = 64U << 10;  ///< of the request line and the headers
  double idle_s = 10.0;                ///< until a request begins
  double request_s = 30.0;             ///< from the first byte of a request to its last
  double write_s = 30.0;               ///< until what was written last is taken
};

/// Used by one thread; `ending` may be set by another and is noticed within a tenth of a second.
class Connection final : public httplib::Stream {
 public:
  Connection(socket_t socket, const ConnectionLimits& limits, const std::atomic<bool>& ending)
      : socket_(socket), limits_(limits), ending_(ending) {}

  /// Waits for a request to begin. False: nobody is there, it lasts too long, or all ends.
  [[nodiscard]] bool wait_for_request();
  /// The head was read; a body of so many bytes follows.
  void expect_body(std::size_t bytes);
  /// Nothing of the request is left unread: another may follow.
  [[nodiscard]] bool is_read() const { return allowed_bytes_ == 0; }
  /// Ends what is written and takes what is still sent for a moment, so that an answer given early
  /// arrives; does not close the socket.
  void finish();

  [[nodiscard]] bool is_readable() const override;
  [[nodiscard]] bool is_writable() const override;
  ssize_t read(char* bytes, std::size_t size) override;
  ssize_t write(const char* bytes, std::size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  [[nodiscard]] socket_t socket() const override { return socket_; }

 private:
  using Clock = std::chrono::steady_clock;
  [[nodiscard]] bool wait(short what, Clock::time_point until) const;
  [[nodiscard]] bool fill(Clock::time_point until);

  socket_t socket_;
  const ConnectionLimits& limits_;
  const std::atomic<bool>& ending_;
  Clock::time_point read_until_{};
  std::size_t allowed_bytes_ = 0;  ///< of the head, then of the body
  std::array<char, 16U << 10> buffer_{};
  std::size_t from_ = 0, to_ = 0;  ///< what of the buffer is not read yet
};

}  // namespace rigproof::server
