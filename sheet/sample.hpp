// An invented sheet for tests and for looking at the layout. Nothing in it was measured or computed
// by an engine; every name is invented.
#pragma once

#include "sheet/model.hpp"

namespace rigproof::sheet {

/// Ten parts, forty claims of every verdict, six titles (one unknown), two markets.
[[nodiscard]] Sheet sample_sheet();
/// Two builds of the same sample.
[[nodiscard]] Plan sample_plan();
/// A brief that nothing satisfies.
[[nodiscard]] Plan sample_conflict();
[[nodiscard]] std::vector<Claim> sample_claims();
/// Four pictures of the sample under one load: heat, warming, speed and supply.
[[nodiscard]] Physics sample_physics();

/// A small sheet for the golden files: two parts, four claims, one title, one market.
[[nodiscard]] Sheet small_sheet();

}  // namespace rigproof::sheet
