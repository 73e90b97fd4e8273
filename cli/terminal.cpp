#include "cli/terminal.hpp"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include "app/progress_words.hpp"

namespace rigproof::cli {
namespace {

std::atomic<bool> stop_flag{false};

extern "C" void on_stop(int signal_number) {
  if (stop_flag.exchange(true)) {
    std::signal(signal_number, SIG_DFL);
    std::raise(signal_number);
  }
}

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

// When not even messages can be written (a full disk, a closed pipe) nobody is left to be told.
void to_stderr(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stderr); }

}  // namespace

Terminal look_at_terminal() {
  Terminal terminal;
  const char* no_color = std::getenv("NO_COLOR");
  terminal.color = ::isatty(STDOUT_FILENO) == 1 && (no_color == nullptr || *no_color == '\0');
  terminal.progress = ::isatty(STDERR_FILENO) == 1;
  winsize size{};
  if (::isatty(STDOUT_FILENO) == 1 && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 &&
      size.ws_col >= 40)
    terminal.width = std::min<int>(size.ws_col, 120);
  return terminal;
}

bool print(std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(STDOUT_FILENO, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) {
      complain(fmt::format("standard output: cannot be written: {}", std::strerror(errno)));
      return false;
    }
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

void complain(std::string_view text) {
  to_stderr(text);
  if (!text.ends_with('\n')) to_stderr("\n");
}

void listen_for_stop() {
  std::signal(SIGINT, on_stop);
  std::signal(SIGTERM, on_stop);
  std::signal(SIGPIPE, SIG_IGN);  // a closed pipe is an error of write(), not a death
}

bool stop_asked() { return stop_flag.load(std::memory_order_relaxed); }

ProgressLine::ProgressLine(bool shown, Currency currency) : shown_(shown), currency_(currency) {}

ProgressLine::~ProgressLine() {
  if (drawn_) to_stderr("\r\x1b[K");
}

bool ProgressLine::due() {
  const double now = now_s();
  if (!shown_ || now - last_s_ < 0.1) return false;
  last_s_ = now;
  drawn_ = true;
  return true;
}

void ProgressLine::show(std::string_view text) {
  if (due()) to_stderr(fmt::format("\r\x1b[K{}", text));
}

void ProgressLine::show(const plan::Progress& progress) {
  if (!due()) return;
  to_stderr("\r\x1b[K" + app::progress_words(progress, currency_));
}

}  // namespace rigproof::cli
