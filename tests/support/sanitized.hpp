// Is this build one under sanitizers? Then the same code over fewer random cases shows as much.
#pragma once

namespace rigproof::test_support {

#if defined(__SANITIZE_ADDRESS__)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif

}  // namespace rigproof::test_support
