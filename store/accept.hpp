// What the store takes, whichever database is behind it: every limit and every check at its door.
//
// A backend asks accept() before it touches its database. Errors: bad_input (text, dates, words)
// or out_of_range (sizes and numbers), naming the field, what is wrong and what was expected.
#pragma once

#include <cstddef>
#include <string_view>

#include "base/result.hpp"
#include "store/documents.hpp"
#include "store/items.hpp"
#include "store/prices.hpp"
#include "store/records.hpp"
#include "store/runs.hpp"

namespace rigproof::store {

/// The sizes are ours: far above what the trade needs, far below what memory and file bear.
inline constexpr std::size_t max_line_bytes = 200;         ///< names, serials, origins...
inline constexpr std::size_t max_prose_bytes = 64U << 10;  ///< what was done, errata
inline constexpr std::size_t max_text_bytes = 64U << 20;   ///< documents, contexts, bodies
inline constexpr std::size_t max_capture_bytes = 256U << 20;
inline constexpr std::size_t max_batch_offers = 1'000'000;

/// A line: 1 to `max_line_bytes` bytes of UTF-8, not blanks alone, no control characters.
[[nodiscard]] Result<void> accept_line(std::string_view field, std::string_view text);
/// Prose: UTF-8 up to `max_prose_bytes`; of control characters only tabs and line ends.
[[nodiscard]] Result<void> accept_prose(std::string_view field, std::string_view text);
[[nodiscard]] Result<void> accept_instant(std::string_view field, Instant instant);

[[nodiscard]] Result<void> accept(const NewDocument& document);
[[nodiscard]] Result<void> accept(const DocumentChange& change);
[[nodiscard]] Result<void> accept(const PartName& part);
/// The first offer that is not as it should be, named by its place from 1.
[[nodiscard]] Result<void> accept(const PriceBatch& batch);
[[nodiscard]] Result<void> accept(const ItemFields& fields);
[[nodiscard]] Result<void> accept(const NewRun& run);
[[nodiscard]] Result<void> accept(const NewRecord& record);
/// The text of an erratum: prose that says something.
[[nodiscard]] Result<void> accept_erratum(std::string_view text);

}  // namespace rigproof::store
