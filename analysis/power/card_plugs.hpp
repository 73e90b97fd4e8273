// What a card draws beside its slot, and how its plugs share it.
#pragma once

#include "claims/facts.hpp"
#include "claims/rule.hpp"

namespace rigproof::power {

inline constexpr ColumnId card_input_connector = column("gpu_inputs", "connector");
inline constexpr ColumnId card_input_count = column("gpu_inputs", "count");

/// (P3) Sustained power less what the slot gives, W. Absent cells are noted in `m`.
[[nodiscard]] Draws card_plugs_w(const Facts& facts, Row card, Measure& m);

/// Sustained rating of all plugs of an input's type, W; 0 where the type has none. Contract: a row
/// of gpu_inputs.
[[nodiscard]] double card_input_rated_w(const Catalog& catalog, Row input);

/// The share of all that goes through its plugs which plugs of an input's type carry: by what each
/// is rated for.
[[nodiscard]] double card_input_share(const Catalog& catalog, Row card, Row input);

}  // namespace rigproof::power
