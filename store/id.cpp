#include "store/id.hpp"

#include <algorithm>
#include <cstdint>
#include <random>

namespace rigproof::store {
namespace {

constexpr std::string_view alphabet = "abcdefghijklmnopqrstuvwxyz234567";

}  // namespace

std::string random_id() {
  std::random_device device;
  const std::uint64_t high = device();
  std::uint64_t bits = high << 32U | device();
  std::string id(id_letters, 'a');
  for (char& letter : id) {
    letter = alphabet[bits & 31U];
    bits >>= 5U;
  }
  return id;
}

bool is_id(std::string_view text) {
  return text.size() == id_letters && std::ranges::all_of(text, [](char letter) {
           return alphabet.find(letter) != std::string_view::npos;
         });
}

}  // namespace rigproof::store
