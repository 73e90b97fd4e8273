// Runs the built program as a user would: a process of its own, streams of its own, and what came
// out of it. Only POSIX; a child that does not end is killed after a while and reported.
#pragma once

#include <sys/types.h>

#include <map>
#include <string>
#include <vector>

namespace rigproof::cli_test {

/// Where a stream of the child leads.
enum class Stream {
  pipe,       ///< read by the test
  terminal,   ///< a pseudo-terminal, raw, read by the test
  nobody,     ///< a pipe whose reader is gone
  full_disk,  ///< /dev/full
};

struct Call {
  std::vector<std::string> args;  ///< without the program's own name
  Stream out = Stream::pipe;
  Stream err = Stream::pipe;
  std::map<std::string, std::string>
      env{};             ///< beside the test's own, of which NO_COLOR is left out
  std::string folder{};  ///< to run in; empty: the test's own, the top of the tree
};

struct Ran {
  int exit_code = -1;  ///< -1: ended by a signal
  int signal = 0;
  std::string out, err;
};

class Child {
 public:
  /// `held`: output of the terminal on standard error is stopped before the child begins (as Ctrl-S
  /// does), so that it waits where it first writes there.
  explicit Child(const Call& call, bool held = false);
  Child(const Child&) = delete;
  Child& operator=(const Child&) = delete;
  ~Child();

  [[nodiscard]] pid_t pid() const { return pid_; }
  /// Reads both streams to their ends and waits for the child; kills it after `limit_s`.
  [[nodiscard]] Ran finish(double limit_s = 120.0);

  /// Lets a held terminal go on.
  void release_stderr();
  /// True once the child catches SIGINT and has waited in one system call for a while.
  [[nodiscard]] bool waits_with_sigint_caught(double limit_s) const;

 private:
  int out_ = -1;
  int err_ = -1;
  int err_slave_ = -1;
  pid_t pid_ = -1;
};

[[nodiscard]] Ran run(const Call& call);
/// The usual case: these arguments, two pipes.
[[nodiscard]] Ran rigproof(const std::vector<std::string>& args);

}  // namespace rigproof::cli_test
