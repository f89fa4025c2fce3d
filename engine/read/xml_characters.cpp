#include "read/xml_characters.hpp"

#include <array>

namespace rushlight {

namespace {

struct Range {
  char32_t first, last;
};

// XML 1.0 fifth edition, production 4 (NameStartChar), without the colon: a protocol uses no namespaces.
constexpr std::array<Range, 15> kNameStarts = {{{'A', 'Z'},
                                                {'_', '_'},
                                                {'a', 'z'},
                                                {0xC0, 0xD6},
                                                {0xD8, 0xF6},
                                                {0xF8, 0x2FF},
                                                {0x370, 0x37D},
                                                {0x37F, 0x1FFF},
                                                {0x200C, 0x200D},
                                                {0x2070, 0x218F},
                                                {0x2C00, 0x2FEF},
                                                {0x3001, 0xD7FF},
                                                {0xF900, 0xFDCF},
                                                {0xFDF0, 0xFFFD},
                                                {0x10000, 0xEFFFF}}};

// Production 4a, what it adds.
constexpr std::array<Range, 5> kNameContinues = {
    {{'-', '.'}, {'0', '9'}, {0xB7, 0xB7}, {0x300, 0x36F}, {0x203F, 0x2040}}};

template <std::size_t Size>
bool lies_in(const std::array<Range, Size>& ranges, char32_t value) {
  for (const Range& range : ranges) {
    if (value >= range.first && value <= range.last) return true;
  }
  return false;
}

std::string hexadecimal(char32_t value) {
  constexpr const char* kDigits = "0123456789ABCDEF";
  std::string digits;
  for (char32_t rest = value; rest != 0 || digits.size() < 4; rest /= 16)
    digits.insert(digits.begin(), kDigits[rest % 16]);
  return "U+" + digits;
}

}  // namespace

CodePoint code_point_at(std::string_view bytes, std::size_t at) {
  constexpr CodePoint kNone{0, 0};
  if (at >= bytes.size()) return kNone;
  const auto byte = [&](std::size_t index) { return static_cast<unsigned char>(bytes[index]); };
  const unsigned char lead = byte(at);
  if (lead < 0x80) return {lead, 1};
  std::size_t size = 0;
  char32_t value = 0;
  char32_t smallest = 0;
  if (lead >= 0xC2 && lead <= 0xDF) {
    size = 2, value = lead & 0x1Fu, smallest = 0x80;
  } else if (lead >= 0xE0 && lead <= 0xEF) {
    size = 3, value = lead & 0x0Fu, smallest = 0x800;
  } else if (lead >= 0xF0 && lead <= 0xF4) {
    size = 4, value = lead & 0x07u, smallest = 0x10000;
  } else {
    return kNone;
  }
  if (bytes.size() - at < size) return kNone;
  for (std::size_t next = at + 1; next < at + size; ++next) {
    if ((byte(next) & 0xC0u) != 0x80u) return kNone;
    value = (value << 6) | (byte(next) & 0x3Fu);
  }
  const bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (value < smallest || value > 0x10FFFF || surrogate) return kNone;
  return {value, size};
}

bool is_foreign_blank(char32_t value) {
  return value == 0xA0 || value == 0x1680 || (value >= 0x2000 && value <= 0x200B) || value == 0x2028 ||
         value == 0x2029 || value == 0x202F || value == 0x205F || value == 0x2060 || value == 0x3000 || value == 0xFEFF;
}

std::optional<ForeignBlank> foreign_blank_in(const std::string& text) {
  std::uint32_t points = 0;
  for (std::size_t at = 0; at < text.size(); ++points) {
    const CodePoint point = code_point_at(text, at);
    const std::size_t end = at + std::max<std::size_t>(point.size, 1);
    if (is_foreign_blank(point.value)) {
      const std::string before = text.substr(0, at), behind = text.substr(end);
      const std::string side = behind.empty() ? "behind `" + before : "before `" + behind;
      return ForeignBlank{
          points, BadNumber{text, "a blank of another kind stands " + side + "`", "delete it and type a space"}};
    }
    at = end;
  }
  return std::nullopt;
}

bool is_curly_quote(char32_t value) { return (value >= 0x2018 && value <= 0x201F) || value == 0xAB || value == 0xBB; }

bool may_start_name(char32_t value) { return lies_in(kNameStarts, value); }

bool may_continue_name(char32_t value) { return lies_in(kNameStarts, value) || lies_in(kNameContinues, value); }

std::string without_extra_blanks(std::string_view text) {
  bool plain = text.empty() || (!is_blank(text.front()) && !is_blank(text.back()));
  bool after_blank = false;
  for (const char c : text) {
    const bool blank = is_blank(c);
    plain = plain && (!blank || (c == ' ' && !after_blank));
    after_blank = blank;
  }
  if (plain) return std::string(text);  // nearly all values
  std::string kept;
  kept.reserve(text.size());
  bool blank = false;
  for (const char c : text) {
    if (is_blank(c)) {
      blank = !kept.empty();
      continue;
    }
    if (blank) kept += ' ';
    blank = false;
    kept += c;
  }
  return kept;
}

std::optional<std::string> name_if_forbidden(char32_t value) {
  if (value == 0) return "NUL";
  if (value == '\t' || value == '\n' || value == '\r') return std::nullopt;
  if (value < 0x20 || (value >= 0x7F && value <= 0x9F)) return "control character " + hexadecimal(value);
  if ((value >= 0x202A && value <= 0x202E) || (value >= 0x2066 && value <= 0x2069)) {
    return "reading direction sign " + hexadecimal(value);
  }
  if ((value >= 0xD800 && value <= 0xDFFF) || value == 0xFFFE || value == 0xFFFF || value > 0x10FFFF) {
    return "character " + hexadecimal(value);
  }
  return std::nullopt;
}

}  // namespace rushlight
