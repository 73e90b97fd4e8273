// Units: the suffix of a name is its unit. One table serves messages, documents, claims and pages.
#pragma once

#include <string_view>

namespace rigproof {

/// The unit a person reads for a name such as `length_mm` ("mm") or `share_frac` (""); empty when
/// the name carries no unit.
[[nodiscard]] std::string_view unit_of(std::string_view name);

}  // namespace rigproof
