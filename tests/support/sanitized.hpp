// Is this build one under sanitizers? Then the same code over fewer random cases shows as much.
#pragma once

namespace rigproof::test_support {

#ifdef RP_SANITIZED
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif

/// How many random cases: all, or a twelfth under sanitizers.
constexpr auto fewer(auto all) { return sanitized ? all / 12 : all; }
/// How many of them must have been of a sort for the test to say something.
constexpr auto enough(auto of_all) { return sanitized ? of_all / 30 : of_all; }

}  // namespace rigproof::test_support
