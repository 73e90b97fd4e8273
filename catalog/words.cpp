#include "catalog/words.hpp"

#include <functional>

#include "base/contract.hpp"

namespace rigproof {
namespace {

std::uint32_t short_hash(std::string_view text) {
  const std::uint64_t full = std::hash<std::string_view>{}(text);
  return static_cast<std::uint32_t>(full ^ (full >> 32U));
}

}  // namespace

Words::Words() : starts_{0, 0}, slots_(64) {}

std::size_t Words::slot_of(std::string_view text, std::uint32_t hash) const {
  const std::size_t mask = slots_.size() - 1;
  std::size_t at = hash & mask;
  while (slots_[at].word != 0 && !(slots_[at].hash == hash && (*this)[slots_[at].word] == text))
    at = (at + 1) & mask;
  return at;
}

std::optional<std::uint32_t> Words::find(std::string_view text) const {
  if (text.empty()) return 0;
  const Slot& slot = slots_[slot_of(text, short_hash(text))];
  if (slot.word == 0) return {};
  return slot.word;
}

std::uint32_t Words::intern(std::string_view text) {
  if (text.empty()) return 0;
  const std::uint32_t hash = short_hash(text);
  const std::size_t at = slot_of(text, hash);
  if (slots_[at].word != 0) return slots_[at].word;
  RP_EXPECT(size() < 0xFFFFFFFFU);
  const auto word = static_cast<std::uint32_t>(size());
  text_ += text;
  starts_.push_back(text_.size());
  slots_[at] = {hash, word};
  if (2 * size() > slots_.size()) grow();
  return word;
}

void Words::grow() {
  std::vector<Slot> old(2 * slots_.size());
  old.swap(slots_);
  const std::size_t mask = slots_.size() - 1;
  for (const Slot& slot : old) {
    if (slot.word == 0) continue;
    std::size_t at = slot.hash & mask;
    while (slots_[at].word != 0) at = (at + 1) & mask;
    slots_[at] = slot;
  }
}

}  // namespace rigproof
