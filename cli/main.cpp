// rigproof: the command line. Runs one command and maps every outcome to an exit code.
#include <fmt/format.h>

#include <exception>
#include <new>

#include "cli/command_line.hpp"

int main(int argc, char** argv) {
  using namespace rigproof;
  try {
    cli::listen_for_stop();
    return static_cast<int>(cli::CommandLine(cli::look_at_terminal()).run(argc, argv));
  } catch (const std::bad_alloc&) {
    cli::complain("rigproof: out of memory");
  } catch (const std::exception& fault) {
    cli::complain(fmt::format(
        "rigproof: {}\nThis is a bug of ours; the input that led here would help to mend it.",
        fault.what()));
  }
  return static_cast<int>(cli::Exit::internal_fault);
}
