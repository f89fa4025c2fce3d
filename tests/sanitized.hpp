#pragma once

namespace rushlight::tests {

/// Whether this is the build with the sanitizers. They look for other mistakes than the tests do and make every step several
/// times slower, so what goes through thousands of cases takes some of them there; the plain build takes them all.
#if defined(RUSHLIGHT_SANITIZED)
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif

}  // namespace rushlight::tests
