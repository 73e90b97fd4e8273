#include "server/gzip.hpp"

#include <zlib.h>

#include <array>
#include <optional>

#include "base/text.hpp"

namespace rigproof::server {
namespace {

std::string_view bare(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

bool same_word(std::string_view a, std::string_view lower) {
  if (a.size() != lower.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i)
    if ((a[i] >= 'A' && a[i] <= 'Z' ? a[i] - 'A' + 'a' : a[i]) != lower[i]) return false;
  return true;
}

// `gzip;q=0.0` is a refusal: no digit but 0 stands in the weight.
bool weighs_nothing(std::string_view parameters) {
  const std::size_t equals = parameters.find('=');
  if (equals == std::string_view::npos) return false;
  return parameters.find_first_of("123456789", equals) == std::string_view::npos;
}

}  // namespace

bool takes_gzip(std::string_view accept_encoding) {
  std::optional<bool> named;
  bool others = false;
  while (!accept_encoding.empty()) {
    const std::size_t end = std::min(accept_encoding.find(','), accept_encoding.size());
    const std::string_view one = accept_encoding.substr(0, end);
    accept_encoding.remove_prefix(std::min(end + 1, accept_encoding.size()));
    const std::size_t weight = std::min(one.find(';'), one.size());
    const std::string_view name = bare(one.substr(0, weight));
    const bool taken = !weighs_nothing(one.substr(weight));
    if (same_word(name, "gzip") || same_word(name, "x-gzip")) named = taken;
    if (name == "*") others = taken;
  }
  return named.value_or(others);
}

Result<std::string> unpacked(std::span<const unsigned char> gzip) {
  z_stream stream{};
  constexpr int gzip_alone = 16 + MAX_WBITS;
  if (inflateInit2(&stream, gzip_alone) != Z_OK) return bad_input("zlib cannot begin");
  // zlib does not write to what it reads from.
  stream.next_in = const_cast<unsigned char*>(gzip.data());
  stream.avail_in = static_cast<uInt>(gzip.size());
  std::string out;
  std::array<unsigned char, 1U << 14U> block{};
  int status = Z_OK;
  while (status == Z_OK) {
    stream.next_out = block.data();
    stream.avail_out = static_cast<uInt>(block.size());
    status = inflate(&stream, Z_NO_FLUSH);
    out.append(reinterpret_cast<const char*>(block.data()), block.size() - stream.avail_out);
  }
  inflateEnd(&stream);
  if (status != Z_STREAM_END) return bad_input("no whole gzip member");
  return out;
}

}  // namespace rigproof::server
