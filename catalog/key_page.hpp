// The tables of keys on the pages docs/brief.md and docs/mapping.md. Private to catalog/.
#pragma once

#include <span>
#include <string>

#include "catalog/brief_keys.hpp"

namespace rigproof {

/// A heading, a sentence and a table for every section.
[[nodiscard]] std::string key_tables(std::span<const SectionSpec> sections,
                                     std::span<const KeySpec> keys);

}  // namespace rigproof
