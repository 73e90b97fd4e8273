#include "store/sha256.hpp"

#include <fmt/format.h>

#include <array>
#include <bit>
#include <cstdint>

namespace rigproof::store {
namespace {

using State = std::array<std::uint32_t, 8>;

// [fips-180-4] section 4.2.2: the first 32 bits of the fractions of the cube roots of the first 64
// primes.
constexpr std::array<std::uint32_t, 64> round_constants{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

// Section 5.3.3: the same of the square roots of the first eight primes.
constexpr State initial{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                        0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};

constexpr std::size_t block_bytes = 64;

std::array<std::uint32_t, 64> schedule(const unsigned char* block) {
  std::array<std::uint32_t, 64> w{};
  for (std::size_t t = 0; t < 16; ++t)
    for (std::size_t byte = 0; byte < 4; ++byte) w[t] = w[t] << 8U | block[t * 4 + byte];
  for (std::size_t t = 16; t < 64; ++t) {
    const std::uint32_t near = w[t - 2];
    const std::uint32_t far = w[t - 15];
    w[t] = (std::rotr(near, 17) ^ std::rotr(near, 19) ^ near >> 10U) + w[t - 7] +
           (std::rotr(far, 7) ^ std::rotr(far, 18) ^ far >> 3U) + w[t - 16];
  }
  return w;
}

void take_block(State& state, const unsigned char* block) {
  const auto w = schedule(block);
  auto [a, b, c, d, e, f, g, h] = state;
  for (std::size_t t = 0; t < 64; ++t) {
    const std::uint32_t t1 = h + (std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25)) +
                             ((e & f) ^ (~e & g)) + round_constants[t] + w[t];
    const std::uint32_t t2 =
        (std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
    h = g;
    g = f;
    f = e;
    e = d + t1;
    d = c;
    c = b;
    b = a;
    a = t1 + t2;
  }
  const State added{a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < state.size(); ++i) state[i] += added[i];
}

}  // namespace

std::string sha256(std::string_view bytes) {
  const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
  State state = initial;
  const std::size_t whole = bytes.size() / block_bytes * block_bytes;
  for (std::size_t at = 0; at < whole; at += block_bytes) take_block(state, data + at);

  // Section 5.1.1: a one bit, zeros, and the length in bits as 64 bits, most significant first.
  std::array<unsigned char, 2 * block_bytes> tail{};
  const std::size_t left = bytes.size() - whole;
  for (std::size_t i = 0; i < left; ++i) tail[i] = data[whole + i];
  tail[left] = 0x80;
  const std::size_t tail_bytes = left + 9 <= block_bytes ? block_bytes : 2 * block_bytes;
  const std::uint64_t length_bits = std::uint64_t{bytes.size()} * 8;
  for (std::size_t i = 0; i < 8; ++i)
    tail[tail_bytes - 1 - i] = static_cast<unsigned char>(length_bits >> (8 * i));
  for (std::size_t at = 0; at < tail_bytes; at += block_bytes) take_block(state, tail.data() + at);

  std::string digits;
  for (const std::uint32_t word : state) digits += fmt::format("{:08x}", word);
  return digits;
}

}  // namespace rigproof::store
