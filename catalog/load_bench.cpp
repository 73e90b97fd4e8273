// How long a large catalog takes: 100,000 parts and 300,000 offers, made in memory.
// Goal: under one second and 300 MB on one core. The counts are checked before anything is timed.
#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <sys/resource.h>

#include <cstdio>
#include <cstdlib>

#include "catalog/load.hpp"

namespace {

using namespace rigproof;

constexpr int parts_per_kind = 100'000 / 8;  // the eight kinds that must be there
constexpr int offers_per_part = 3;
constexpr std::array kinds = {"cpu", "board", "memory", "gpu", "storage", "cooler", "case", "psu"};

// A row with something in every numeric column, as well-kept tables have.
std::string part_row(int table, int number) {
  std::string row;
  for (const ColumnSpec& column : spec(table).columns) {
    if (!row.empty()) row += ',';
    if (column.name == "id") row += fmt::format("{}-{:06}", spec(table).name, number);
    if (column.name == "name")
      row += fmt::format("Maker {} {} model {}", number % 97, spec(table).name, number);
    if (column.name == "maker") row += fmt::format("Maker {}", number % 97);
    if (column.name == "maker_code") row += fmt::format("MC{:08}", number * 7 + table);
    if (column.type == Type::number || column.type == Type::count)
      row += fmt::format("{}", column.min + 1);
    if (column.type == Type::flag) row += number % 2 == 0 ? "yes" : "no";
    if (column.type == Type::token || column.type == Type::tokens)
      row += column.choices.empty() ? "word-a" : column.choices.substr(0, column.choices.find('|'));
  }
  return row + '\n';
}

std::string header(int table) {
  std::string row;
  for (const ColumnSpec& column : spec(table).columns)
    row += fmt::format("{}{}", row.empty() ? "" : ",", column.name);
  return row + '\n';
}

struct Folder {
  std::vector<std::string> names;
  std::vector<std::string> bytes;
  [[nodiscard]] std::vector<TableFile> files() const {
    std::vector<TableFile> out;
    for (std::size_t i = 0; i < names.size(); ++i) out.push_back({names[i], bytes[i]});
    return out;
  }
};

Folder make_folder() {
  Folder folder;
  std::string offers = header(table("offers"));
  for (const char* kind : kinds) {
    const int t = *find_table(kind);
    std::string text = header(t);
    for (int n = 0; n < parts_per_kind; ++n) {
      text += part_row(t, n);
      for (int o = 0; o < offers_per_part; ++o)
        offers +=
            fmt::format("{}-{:06},seller-{},{},2026-0{}-1{},new,{}.{:02},{},yes,{},{},plain\n",
                        kind, n, o, o == 2 ? "US" : "IE", 1 + n % 9, o, 20 + n % 900, n % 100,
                        o == 2 ? "USD" : "EUR", n % 30, n % 14);
    }
    folder.names.push_back(fmt::format("{}.csv", kind));
    folder.bytes.push_back(std::move(text));
  }
  folder.names.insert(folder.names.end(), {"sellers.csv", "offers.csv"});
  folder.bytes.push_back("id,name,market\nseller-0,S0,IE\nseller-1,S1,IE\nseller-2,S2,US\n");
  folder.bytes.push_back(std::move(offers));
  return folder;
}

void load(benchmark::State& state) {
  const Folder folder = make_folder();
  const auto files = folder.files();
  std::size_t bytes = 0;
  for (const auto& text : folder.bytes) bytes += text.size();
  {
    const auto loaded = load_catalog(files);
    if (!loaded) {
      std::fputs(loaded.error().report().c_str(), stderr);
      std::exit(1);
    }
    if (loaded->catalog.part_count() != 100'000 ||
        loaded->catalog.rows(table("offers")) != 300'000) {
      std::fputs("the benchmark did not load what it made\n", stderr);
      std::exit(1);
    }
  }
  for (auto _ : state) {
    auto loaded = load_catalog(files);
    benchmark::DoNotOptimize(loaded);
  }
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  state.SetBytesProcessed(static_cast<std::int64_t>(bytes) *
                          static_cast<std::int64_t>(state.iterations()));
  state.counters["text_mb"] = static_cast<double>(bytes) / 1e6;
  state.counters["peak_mb"] = static_cast<double>(usage.ru_maxrss) / 1e3;  // text included
}
BENCHMARK(load)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
