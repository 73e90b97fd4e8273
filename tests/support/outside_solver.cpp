#include "tests/support/outside_solver.hpp"

#include <fmt/format.h>
#include <sys/resource.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>
#include <stdexcept>
#include <vector>

#include "tests/support/test_folder.hpp"

namespace rigproof::test_support {
namespace {

using Status = OutsideAnswer::Status;

std::string printed_by(const std::string& command) {
  const auto close = [](std::FILE* pipe) { ::pclose(pipe); };
  const std::unique_ptr<std::FILE, decltype(close)> pipe(::popen((command + " 2>&1").c_str(), "r"),
                                                         close);
  if (!pipe) throw std::runtime_error("popen failed");
  std::string out;
  std::array<char, 4096> buffer{};
  while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe.get()))
    out.append(buffer.data(), got);
  return out;
}

bool says(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

// Names of columns in the order of the file: one solver answers by number.
std::vector<std::string> columns_of(const std::string& mps) {
  std::vector<std::string> names;
  std::istringstream in(mps);
  bool inside = false;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '*') continue;
    if (line[0] != ' ') {
      inside = line == "COLUMNS";
      continue;
    }
    if (!inside || says(line, "'MARKER'")) continue;
    std::istringstream words(line);
    std::string name;
    words >> name;
    if (names.empty() || names.back() != name) names.push_back(name);
  }
  return names;
}

// First line: what became of it and the objective. Then number, name, value, cost, perhaps with
// asterisks before them. With cutoff the solver may write nothing at all.
void read_cbc(const std::string& path, OutsideAnswer& answer) {
  std::ifstream in(path);
  std::string line;
  if (!std::getline(in, line)) {
    if (says(answer.log, "infeasible")) answer.status = Status::infeasible;
    return;
  }
  const auto at = line.find("objective value");
  if (line.starts_with("Optimal"))
    answer.status = Status::optimal;
  else if (line.starts_with("Infeasible") || line.starts_with("Integer infeasible"))
    answer.status = Status::infeasible;
  else if (line.starts_with("Stopped"))
    answer.status = Status::stopped;
  if (answer.status != Status::optimal && answer.status != Status::stopped) return;
  if (says(answer.log, "No feasible solution found")) return;
  if (at != std::string::npos)
    answer.objective = std::strtod(line.c_str() + at + sizeof("objective value") - 1, nullptr);
  answer.has_solution = true;
  while (std::getline(in, line)) {
    if (line.starts_with("**")) line.erase(0, 2);
    std::istringstream words(line);
    std::string number;
    std::string name;
    double value = 0.0;
    if (words >> number >> name >> value) answer.values[name] = value;
  }
}

// "s mip ROWS COLUMNS STATUS OBJECTIVE", then "j COLUMN VALUE".
void read_glpk(const std::string& path, const std::string& mps, OutsideAnswer& answer) {
  if (says(answer.log, "HAS NO PRIMAL FEASIBLE SOLUTION") ||
      says(answer.log, "HAS NO INTEGER FEASIBLE SOLUTION") ||
      says(answer.log, "PROBLEM HAS NO FEASIBLE SOLUTION"))
    answer.status = Status::infeasible;
  std::ifstream in(path);
  std::vector<std::string> names;
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    std::string tag;
    words >> tag;
    if (tag == "s") {
      std::string kind;
      std::string rows;
      std::string columns;
      std::string status;
      words >> kind >> rows >> columns >> status >> answer.objective;
      if (status == "o" || status == "f") {
        answer.has_solution = true;
        answer.status = status == "o" ? Status::optimal : Status::stopped;
        names = columns_of(mps);
      } else if (status == "n") {
        answer.status = Status::infeasible;
      }
    } else if (tag == "j" && answer.has_solution) {
      std::size_t column = 0;
      double value = 0.0;
      words >> column >> value;
      answer.values[names.at(column - 1)] = value;
    }
  }
  if (answer.status == Status::failed && says(answer.log, "TIME LIMIT EXCEEDED"))
    answer.status = Status::stopped;
}

// Of all children that have ended and were waited for.
double cpu_of_children_s() {
  rusage usage{};
  ::getrusage(RUSAGE_CHILDREN, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

}  // namespace

const char* name_of(Solver solver) { return solver == Solver::cbc ? "cbc" : "glpsol"; }

bool installed(Solver solver) {
  return !printed_by(std::string("command -v ") + name_of(solver)).empty();
}

OutsideAnswer solve(Solver solver, const std::string& mps, const SolverLimits& limits) {
  const TestFolder folder;
  const std::string model = folder.file("model.mps");
  const std::string out = folder.file("answer.txt");
  std::ofstream(model, std::ios::binary) << mps;
  std::string command;
  if (solver == Solver::cbc) {
    command = fmt::format("cbc {} timeMode elapsed sec {}", model, limits.seconds);
    if (limits.threads > 1) command += fmt::format(" threads {}", limits.threads);
    if (limits.cutoff < 1e300) command += fmt::format(" cutoff {}", limits.cutoff);
    command += fmt::format(" solve solution {}", out);
  } else {
    command = fmt::format("glpsol --freemps {} --tmlim {} -w {}", model, limits.seconds, out);
  }
  OutsideAnswer answer;
  const double cpu_before = cpu_of_children_s();
  const auto begun = std::chrono::steady_clock::now();
  answer.log = printed_by(command);
  answer.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
  answer.cpu_seconds = cpu_of_children_s() - cpu_before;
  if (solver == Solver::cbc)
    read_cbc(out, answer);
  else
    read_glpk(out, mps, answer);
  return answer;
}

}  // namespace rigproof::test_support
