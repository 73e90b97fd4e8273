// Hubs among a build's small parts: what one feeds, and what feeds it. For the rules about headers.
#pragma once

#include <string_view>

#include "claims/facts.hpp"

namespace rigproof::power {

/// The row of `other_hubs` by which a part feeds this ("usb2", "light-5v"); no_row when it does
/// not.
[[nodiscard]] Row hub_row(const Facts& facts, PartRef part, std::string_view feeds);

/// By a plug of the supply, by the header that it hangs on, or nobody has listed its plugs.
enum class Fed { by_supply, by_header, untold };
[[nodiscard]] Fed fed(const Facts& facts, PartRef hub);

}  // namespace rigproof::power
