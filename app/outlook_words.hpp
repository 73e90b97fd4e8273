// The words of an outlook: how many, which requirement, what was done to know.
#pragma once

#include <string>
#include <vector>

#include "app/outlook.hpp"

namespace rigproof::app {

/// "1,204", "41,000", "8.1 million", "1.5e20": two digits that count from 10,000 on, or every one
/// below when the number is exact. The last form can be pasted into a spreadsheet as it is; pages
/// set its exponent (web/src/lib/powers.ts).
[[nodiscard]] std::string how_many(double builds);
/// "Exactly 1,204.", "About 41,000 (90 %: 35,000 to 48,000).", "None found in 1,200 probes."...
[[nodiscard]] std::string count_words(const plan::BuildCount& count);
/// "the budget in IE", "the limit on noise"...
[[nodiscard]] std::string noun_of(const Catalog& catalog, const std::string& path);
/// In: an answer whose counts are there, its lines in order.
[[nodiscard]] std::vector<std::string> sentences_on(const OutlookAnswer& answer);
[[nodiscard]] std::vector<std::string> notes_on(const OutlookAnswer& answer);

}  // namespace rigproof::app
