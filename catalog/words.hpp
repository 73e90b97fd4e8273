// Words: every distinct text of the catalog once, in one block, named by a small number.
//
// Two cells hold the same text exactly when their numbers are equal, so ids, references and keys
// are compared as integers. Number 0 is the empty text, which a table uses for "absent".
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rigproof {

class Words {
 public:
  Words();
  /// The number of a text; a new one when it was not there. Amortised constant time.
  std::uint32_t intern(std::string_view text);
  /// The number of a text that is there; nullopt otherwise.
  [[nodiscard]] std::optional<std::uint32_t> find(std::string_view text) const;
  /// Valid until the next intern().
  [[nodiscard]] std::string_view operator[](std::uint32_t word) const {
    return std::string_view(text_).substr(starts_[word], starts_[word + 1] - starts_[word]);
  }
  [[nodiscard]] std::size_t size() const { return starts_.size() - 1; }

 private:
  struct Slot {
    std::uint32_t hash = 0;
    std::uint32_t word = 0;  // 0: empty slot, since the empty text is never looked up here
  };
  [[nodiscard]] std::size_t slot_of(std::string_view text, std::uint32_t hash) const;
  void grow();

  std::string text_;
  std::vector<std::size_t> starts_;  // words + 1 offsets into text_
  std::vector<Slot> slots_;          // open addressing, a power of two, at most half full
};

}  // namespace rigproof
