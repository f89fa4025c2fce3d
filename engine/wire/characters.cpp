#include "wire/characters.hpp"

#include <cstdint>

namespace rushlight {
namespace {

struct Decoded {
  char32_t point;
  std::size_t length;  // 0: no UTF-8
};

Decoded decoded_at(std::string_view text, std::size_t offset) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[offset + i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80U) return {lead, 1};
  const std::size_t length = lead >= 0xF0U ? 4 : lead >= 0xE0U ? 3 : 2;
  if (lead < 0xC2U || lead > 0xF4U || text.size() - offset < length) return {0, 0};
  char32_t point = lead & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {0, 0};
    point = (point << 6U) | (byte(i) & 0x3FU);
  }
  const bool overlong = (length == 3 && point < 0x800U) || (length == 4 && point < 0x10000U);
  const bool beyond = point > 0x10FFFFU || (point >= 0xD800U && point <= 0xDFFFU);
  return overlong || beyond ? Decoded{0, 0} : Decoded{point, length};
}

bool is_forbidden(char32_t point, LineEnds line_ends) {
  if (point == U'\n' || point == U'\r' || point == U'\t') return line_ends == LineEnds::refused;
  if (point < 0x20U || (point >= 0x7FU && point < 0xA0U)) return true;
  if (point == 0x2028U || point == 0x2029U) return true;                                    // line separators
  if (point == 0x200EU || point == 0x200FU) return true;                                    // direction marks
  return (point >= 0x202AU && point <= 0x202EU) || (point >= 0x2066U && point <= 0x2069U);  // direction turns
}

std::string name_of_point(char32_t point) {
  constexpr const char* kDigits = "0123456789ABCDEF";
  std::string name = "U+";
  for (int shift = 12; shift >= 0; shift -= 4) name += kDigits[(point >> static_cast<unsigned>(shift)) & 0xFU];
  return name;
}

}  // namespace

std::optional<std::size_t> first_not_utf8(std::string_view text) {
  for (std::size_t offset = 0; offset < text.size();) {
    const Decoded decoded = decoded_at(text, offset);
    if (decoded.length == 0) return offset;
    offset += decoded.length;
  }
  return std::nullopt;
}

std::optional<Forbidden> first_forbidden(std::string_view text, LineEnds line_ends) {
  for (std::size_t offset = 0; offset < text.size();) {
    const Decoded decoded = decoded_at(text, offset);
    if (decoded.length == 0) return std::nullopt;
    if (is_forbidden(decoded.point, line_ends)) return Forbidden{offset, name_of_point(decoded.point)};
    offset += decoded.length;
  }
  return std::nullopt;
}

std::size_t length_of(std::string_view text) {
  std::size_t count = 0;
  for (const char byte : text) {
    if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

}  // namespace rushlight
