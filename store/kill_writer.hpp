// What the kill test's writer writes and its judge expects: everything follows from a number.
#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <string>

#include "store/store.hpp"

namespace rigproof::store::kill_writer {

inline constexpr int parts = 4;
inline constexpr int offers_per_batch = 40;
inline constexpr const char* journal_name = "journal";
inline constexpr const char* counter_name = "counter";

inline PartName part_of(std::int64_t batch) {
  return {.kind = Kind::gpu, .id = fmt::format("card-{}", batch % parts)};
}

inline std::string origin_of(std::int64_t batch) { return fmt::format("batch {}", batch); }

/// All offers of a batch are of one part; seller and price say which batch and which place.
inline PriceBatch batch_of(std::int64_t number) {
  PriceBatch batch{.origin = origin_of(number), .appended_at = {1'790'000'000}, .offers = {}};
  for (int i = 0; i < offers_per_batch; ++i)
    batch.offers.push_back({.part = part_of(number),
                            .seller = fmt::format("seller-{}", i),
                            .market = "IE",
                            .seen = {20'000},
                            .price = {.currency = {{"EUR"}}, .minor = number},
                            .tax_included = true});
  return batch;
}

/// Text of the journal's revision: several pages of the file, each with the number in it.
inline std::string text_of(std::int64_t revision) {
  std::string text;
  for (int line = 0; line < 400; ++line)
    text += fmt::format("revision {} line {}\n", revision, line);
  return text;
}

}  // namespace rigproof::store::kill_writer
