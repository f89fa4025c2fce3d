#pragma once

#include <string>
#include <string_view>

namespace rushlight {

/// SHA-256 (FIPS 180-4) of these bytes: as 64 hexadecimal digits, and in base 64 as a content security policy writes
/// it.
std::string sha256_of(std::string_view bytes);
std::string sha256_in_base64(std::string_view bytes);

}  // namespace rushlight
