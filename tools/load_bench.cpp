// How long a whole market takes to load: 100,000 parts with 300,000 offers and every relation, the
// one that `make_demo DIR --scale 100000` writes. Goal: under one second and 300 MB on one core.
// The counts are checked before anything is timed.
//
// The market is made in a child process and read back from files, so that the peak is the loader's
// own with the text it reads.
#include <benchmark/benchmark.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "catalog/load.hpp"
#include "tools/make_market.hpp"

namespace {

using namespace rigproof;
namespace fs = std::filesystem;

constexpr int parts = 100'000;
constexpr int offers = 300'000;

[[noreturn]] void give_up(const char* why) {
  std::fputs(why, stderr);
  std::exit(1);
}

void write_market(const fs::path& folder) {
  for (const auto& [name, bytes] : demo::make_market(parts)) {
    if (!name.starts_with("catalog/")) continue;
    std::ofstream out(folder / fs::path(name).filename(), std::ios::binary);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!out) give_up("the market could not be written\n");
  }
}

struct Text {
  std::vector<std::string> names;
  std::vector<std::string> bytes;
  [[nodiscard]] std::vector<TableFile> files() const {
    std::vector<TableFile> out;
    for (std::size_t i = 0; i < names.size(); ++i) out.push_back({names[i], bytes[i]});
    return out;
  }
};

Text make_text() {
  std::string folder = (fs::temp_directory_path() / "rigproof-market-XXXXXX").string();
  if (::mkdtemp(folder.data()) == nullptr) give_up("no folder for the market\n");
  const pid_t child = ::fork();
  if (child == 0) {
    write_market(folder);
    std::_Exit(0);
  }
  int status = 0;
  if (child < 0 || ::waitpid(child, &status, 0) != child || status != 0)
    give_up("the market was not made\n");
  Text text;
  for (const auto& entry : fs::directory_iterator(folder)) {
    std::string bytes(fs::file_size(entry.path()), '\0');
    std::ifstream in(entry.path(), std::ios::binary);
    in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    text.names.push_back(entry.path().filename().string());
    text.bytes.push_back(std::move(bytes));
  }
  fs::remove_all(folder);
  return text;
}

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) * 1024 / 1e6;
}

void load(benchmark::State& state) {
  const Text text = make_text();
  const auto files = text.files();
  std::size_t bytes = 0;
  for (const auto& each : text.bytes) bytes += each.size();
  {
    const auto loaded = load_catalog(files);
    if (!loaded) give_up(loaded.error().report().c_str());
    if (loaded->catalog.part_count() != parts || loaded->catalog.rows(table("offers")) != offers)
      give_up("the benchmark did not load what it made\n");
  }
  for (auto _ : state) {
    auto loaded = load_catalog(files);
    benchmark::DoNotOptimize(loaded);
  }
  state.SetBytesProcessed(static_cast<std::int64_t>(bytes) *
                          static_cast<std::int64_t>(state.iterations()));
  state.counters["text_mb"] = static_cast<double>(bytes) / 1e6;
  state.counters["peak_mb"] = peak_mb();  // text included
}
BENCHMARK(load)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
