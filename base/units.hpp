// Units: the suffix of a name is its unit. One table serves messages, documents, claims and pages.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace rigproof {

/// The unit a person reads for a name such as `length_mm` ("mm") or `share_frac` (""); empty when
/// the name carries no unit.
[[nodiscard]] std::string_view unit_of(std::string_view name);

/// A number given in another unit: ours = theirs x scale + offset. Source: [nist-sp811] Appendix B;
/// binary prefixes [iec-80000-13].
struct UnitConversion {
  double scale = 1.0;
  double offset = 0.0;
  [[nodiscard]] double operator()(double theirs) const { return theirs * scale + offset; }
};
/// From a unit as people write it ("cm", "CFM") to one of ours ("mm", "m3/h"); capital letters
/// count (mW is not MW). nullopt: not a unit of the same quantity, or not known here.
[[nodiscard]] std::optional<UnitConversion> conversion(std::string_view from, std::string_view to);
/// Every unit a number in `to` may be given in, `to` itself first.
[[nodiscard]] std::vector<std::string_view> units_like(std::string_view to);

}  // namespace rigproof
