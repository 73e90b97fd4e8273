#include "server/connection.hpp"

#include <poll.h>
#include <sys/socket.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

namespace rigproof::server {
namespace {

using Clock = std::chrono::steady_clock;
constexpr std::chrono::milliseconds slice{100};  // how late an end is noticed
constexpr double linger_s = 1.0;

Clock::time_point after(double seconds) {
  return Clock::now() +
         std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds));
}

}  // namespace

// True when the socket is ready, or has an error that the call after this will tell.
bool Connection::wait(short what, Clock::time_point until) const {
  while (!ending_) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
    if (left.count() <= 0) return false;
    pollfd one{.fd = socket_, .events = what, .revents = 0};
    const int ready = ::poll(&one, 1, static_cast<int>(std::min(left, slice).count()));
    if (ready > 0) return true;
    if (ready < 0 && errno != EINTR) return false;
  }
  return false;
}

bool Connection::fill(Clock::time_point until) {
  while (wait(POLLIN, until)) {
    const ssize_t got = ::recv(socket_, buffer_.data(), buffer_.size(), MSG_DONTWAIT);
    if (got < 0 && (errno == EINTR || errno == EAGAIN)) continue;
    if (got <= 0) return false;
    from_ = 0;
    to_ = static_cast<std::size_t>(got);
    return true;
  }
  return false;
}

bool Connection::wait_for_request() {
  if (ending_) return false;
  if (from_ == to_ && !fill(after(limits_.idle_s))) return false;
  read_until_ = after(limits_.request_s);
  allowed_bytes_ = limits_.head_bytes;
  return true;
}

void Connection::expect_body(std::size_t bytes) { allowed_bytes_ = bytes; }

ssize_t Connection::read(char* bytes, std::size_t size) {
  if (allowed_bytes_ == 0 || (from_ == to_ && !fill(read_until_))) return -1;
  const std::size_t taken = std::min({size, to_ - from_, allowed_bytes_});
  std::memcpy(bytes, buffer_.data() + from_, taken);
  from_ += taken;
  allowed_bytes_ -= taken;
  return static_cast<ssize_t>(taken);
}

ssize_t Connection::write(const char* bytes, std::size_t size) {
  const auto until = after(limits_.write_s);
  std::size_t sent = 0;
  while (sent < size) {
    const ssize_t got = ::send(socket_, bytes + sent, size - sent, MSG_DONTWAIT | MSG_NOSIGNAL);
    if (got > 0) {
      sent += static_cast<std::size_t>(got);
      continue;
    }
    if (got < 0 && errno != EINTR && errno != EAGAIN) return -1;
    if (!wait(POLLOUT, until)) return -1;
  }
  return static_cast<ssize_t>(sent);
}

void Connection::finish() {
  ::shutdown(socket_, SHUT_WR);
  const auto until = after(linger_s);
  while (fill(until)) {
  }
}

bool Connection::is_readable() const { return from_ < to_ || wait(POLLIN, after(0.001)); }

// Whoever went away is still writable for a while: its end can be read.
bool Connection::is_writable() const {
  if (!wait(POLLOUT, after(limits_.write_s))) return false;
  char one = 0;
  const ssize_t got = ::recv(socket_, &one, 1, MSG_PEEK | MSG_DONTWAIT);
  return got > 0 || (got < 0 && (errno == EAGAIN || errno == EINTR));
}

// Who asks makes no difference here, and is kept nowhere.
void Connection::get_remote_ip_and_port(std::string& ip, int& port) const {
  ip.clear();
  port = 0;
}

void Connection::get_local_ip_and_port(std::string& ip, int& port) const {
  ip.clear();
  port = 0;
}

}  // namespace rigproof::server
