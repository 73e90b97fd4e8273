// A plain main for a fuzz target, so that every compiler builds it and ctest runs it: replays each
// kept input, and each input cut short, through LLVMFuzzerTestOneInput. It fails by crashing, by a
// sanitizer's report, or because there was nothing to replay.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;
using Bytes = std::vector<std::uint8_t>;

constexpr std::size_t cuts = 64;  ///< how many cut lengths per input, evenly spaced; ours

// The target gets its own block of exactly `size` bytes, so that a sanitizer sees a read past the
// end.
void run(const Bytes& input, std::size_t size) {
  const std::unique_ptr<std::uint8_t[]> block(new std::uint8_t[size]);
  std::copy_n(input.begin(), size, block.get());
  LLVMFuzzerTestOneInput(block.get(), size);
}

void replay(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw fs::filesystem_error("cannot read", file, std::error_code{});
  const Bytes input{std::istreambuf_iterator<char>(in), {}};
  run(input, input.size());
  const std::size_t step = std::max<std::size_t>(1, input.size() / cuts);
  for (std::size_t size = 0; size < input.size(); size += step) run(input, size);
}

std::vector<fs::path> files_below(const fs::path& place) {
  if (!fs::is_directory(place)) return {place};
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(place))
    if (entry.is_regular_file()) files.push_back(entry.path());
  std::ranges::sort(files);
  return files;
}

}  // namespace

int main(int argc, char** argv) try {
  std::size_t count = 0;
  for (int i = 1; i < argc; ++i) {
    for (const fs::path& file : files_below(argv[i])) {
      replay(file);
      ++count;
    }
  }
  std::printf("%zu inputs replayed\n", count);
  return count > 0 ? 0 : 1;
} catch (const std::exception& fault) {
  std::fprintf(stderr, "replay: %s\n", fault.what());
  return 1;
}
