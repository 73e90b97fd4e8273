#include "program.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <pty.h>
#include <spawn.h>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>

extern char** environ;

namespace rigproof::cli_test {
namespace {

using Clock = std::chrono::steady_clock;

void must(bool fine, const char* what) {
  if (!fine) throw std::runtime_error(what);
}

struct Ends {
  int ours = -1;  // to read from, -1 when nobody does
  int childs = -1;
};

Ends open_stream(Stream stream) {
  Ends ends;
  if (stream == Stream::terminal) {
    termios raw{};
    ::cfmakeraw(&raw);
    winsize size{.ws_row = 40, .ws_col = 90, .ws_xpixel = 0, .ws_ypixel = 0};
    must(::openpty(&ends.ours, &ends.childs, nullptr, &raw, &size) == 0, "openpty");
  } else if (stream == Stream::full_disk) {
    ends.childs = ::open("/dev/full", O_WRONLY | O_CLOEXEC);
    must(ends.childs >= 0, "/dev/full");
  } else {
    std::array<int, 2> fds{};
    must(::pipe(fds.data()) == 0, "pipe");
    ends = {fds[0], fds[1]};
    if (stream == Stream::nobody) {
      ::close(ends.ours);
      ends.ours = -1;
    }
  }
  for (const int fd : {ends.ours, ends.childs})
    if (fd >= 0) ::fcntl(fd, F_SETFD, FD_CLOEXEC);
  return ends;
}

std::vector<std::string> environment(const Call& call) {
  std::vector<std::string> all;
  for (char** entry = environ; *entry != nullptr; ++entry) {
    const std::string text = *entry;
    const std::string name = text.substr(0, text.find('='));
    if (name != "NO_COLOR" && !call.env.contains(name)) all.push_back(text);
  }
  for (const auto& [name, value] : call.env) all.push_back(fmt::format("{}={}", name, value));
  return all;
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> out;
  out.reserve(texts.size() + 1);
  for (std::string& text : texts) out.push_back(text.data());
  out.push_back(nullptr);
  return out;
}

// A terminal's reader sees EIO when the last writer is gone: the end, like 0 from a pipe.
bool read_some(int fd, std::string& into) {
  std::array<char, 65536> buffer{};
  const ssize_t got = ::read(fd, buffer.data(), buffer.size());
  if (got < 0 && errno == EINTR) return true;
  if (got <= 0) return false;
  into.append(buffer.data(), static_cast<std::size_t>(got));
  return true;
}

std::string status_of(pid_t pid) {
  std::ifstream file("/proc/" + std::to_string(pid) + "/status");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string field(const std::string& status, const std::string& name) {
  const auto at = status.find("\n" + name + ":\t");
  if (at == std::string::npos) return {};
  const auto from = at + name.size() + 3;
  return status.substr(from, status.find('\n', from) - from);
}

}  // namespace

Child::Child(const Call& call, bool held) {
  const Ends out = open_stream(call.out);
  const Ends err = open_stream(call.err);
  out_ = out.ours;
  err_ = err.ours;
  if (call.err == Stream::terminal) err_slave_ = ::fcntl(err.childs, F_DUPFD_CLOEXEC, 0);
  if (held) must(::tcflow(err_slave_, TCOOFF) == 0, "tcflow");

  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_adddup2(&actions, out.childs, 1);
  posix_spawn_file_actions_adddup2(&actions, err.childs, 2);
  if (!call.folder.empty()) posix_spawn_file_actions_addchdir_np(&actions, call.folder.c_str());
  // The signals as a shell hands them over, whatever the runner of these tests ignores.
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  sigset_t usual;
  sigemptyset(&usual);
  for (const int number : {SIGPIPE, SIGINT, SIGTERM}) sigaddset(&usual, number);
  posix_spawnattr_setsigdefault(&attributes, &usual);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGDEF);

  std::vector<std::string> args = {RIGPROOF_PROGRAM};
  args.insert(args.end(), call.args.begin(), call.args.end());
  std::vector<std::string> env = environment(call);
  const int failed = ::posix_spawn(&pid_, RIGPROOF_PROGRAM, &actions, &attributes,
                                   pointers(args).data(), pointers(env).data());
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&actions);
  ::close(out.childs);
  ::close(err.childs);
  must(failed == 0, "posix_spawn");
}

Child::~Child() {
  for (const int fd : {out_, err_, err_slave_})
    if (fd >= 0) ::close(fd);
  if (pid_ > 0) {
    ::kill(pid_, SIGKILL);
    ::waitpid(pid_, nullptr, 0);
  }
}

Ran Child::finish(double limit_s) {
  Ran ran;
  if (err_slave_ >= 0) ::close(err_slave_);
  err_slave_ = -1;
  const auto end = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                      std::chrono::duration<double>(limit_s));
  while ((out_ >= 0 || err_ >= 0) && Clock::now() < end) {
    std::array<pollfd, 2> wait = {{{out_, POLLIN, 0}, {err_, POLLIN, 0}}};
    ::poll(wait.data(), wait.size(), 100);
    for (const auto& [fd, into] : {std::pair{&out_, &ran.out}, std::pair{&err_, &ran.err}}) {
      const pollfd& state = fd == &out_ ? wait[0] : wait[1];
      if (*fd < 0 || state.revents == 0 || read_some(*fd, *into)) continue;
      ::close(*fd);
      *fd = -1;
    }
  }
  if (out_ >= 0 || err_ >= 0) ::kill(pid_, SIGKILL);
  int status = 0;
  while (::waitpid(pid_, &status, 0) < 0 && errno == EINTR) {
  }
  pid_ = -1;
  if (WIFEXITED(status)) ran.exit_code = WEXITSTATUS(status);
  if (WIFSIGNALED(status)) ran.signal = WTERMSIG(status);
  return ran;
}

void Child::release_stderr() { must(::tcflow(err_slave_, TCOON) == 0, "tcflow"); }

bool Child::waits_with_sigint_caught(double limit_s) const {
  const auto end = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                      std::chrono::duration<double>(limit_s));
  int still = 0;
  while (Clock::now() < end) {
    const std::string status = status_of(pid_);
    const std::string caught = field(status, "SigCgt");
    const bool catches =
        !caught.empty() && ((std::stoull(caught, nullptr, 16) >> (SIGINT - 1)) & 1U) == 1U;
    still = catches && field(status, "State").starts_with("S") ? still + 1 : 0;
    if (still == 10) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return false;
}

Ran run(const Call& call) { return Child(call).finish(); }

Ran rigproof(const std::vector<std::string>& args) { return run({.args = args}); }

}  // namespace rigproof::cli_test
