// The terminal: what goes to stdout and stderr, colour, width, progress, and how a user stops a
// job.
#pragma once

#include <string>
#include <string_view>

#include "base/money.hpp"
#include "decision/plan/search.hpp"

namespace rigproof::cli {

/// Exit codes of every command (DESIGN section 8).
enum class Exit {
  done = 0,
  claim_fails = 1,
  bad_input = 2,
  no_build = 3,
  internal_fault = 4,
  unknown_asked = 5,
  stopped = 6
};

struct Terminal {
  bool color = false;     ///< stdout is a terminal and NO_COLOR is not set
  bool progress = false;  ///< stderr is a terminal
  int width = 100;
};
[[nodiscard]] Terminal look_at_terminal();

/// Writes all of it to stdout. False when nobody reads it any more (a closed pipe) or the disk is
/// full; the reason is then on stderr.
[[nodiscard]] bool print(std::string_view text);
void complain(std::string_view text);

/// Ctrl-C and SIGTERM ask running jobs to stop; a second one ends the program at once.
void listen_for_stop();
[[nodiscard]] bool stop_asked();

/// One line on stderr, redrawn at most ten times a second; erased when it goes out of scope.
class ProgressLine {
 public:
  ProgressLine(bool shown, Currency currency);
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ~ProgressLine();
  void show(const plan::Progress& progress);
  void show(std::string_view text);

 private:
  [[nodiscard]] bool due();

  bool shown_;
  bool drawn_ = false;
  double last_s_ = -1.0;
  Currency currency_;
};

}  // namespace rigproof::cli
