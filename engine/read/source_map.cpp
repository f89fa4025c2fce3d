#include "read/source_map.hpp"

#include <algorithm>

namespace rushlight {

namespace {

// Columns are asked for anywhere in a line of any length; counting from the nearest block keeps a file of one single
// line from costing the square of its length.
constexpr std::size_t kBlock = 32;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool starts_code_point(char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }

}  // namespace

Lines::Lines(std::string_view text) : text_(text) {
  starts_.push_back(text.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0);
  std::size_t points = 0;
  for (std::size_t byte = 0; byte < text.size(); ++byte) {
    if (byte % kBlock == 0) block_points_.push_back(points);
    if (starts_code_point(text[byte])) ++points;
    const bool lone_return = text[byte] == '\r' && (byte + 1 == text.size() || text[byte + 1] != '\n');
    if (text[byte] == '\n' || lone_return) starts_.push_back(byte + 1);
  }
  block_points_.push_back(points);
}

std::size_t Lines::points_before(std::size_t byte) const {
  const std::size_t block = byte / kBlock;
  if (block + 1 >= block_points_.size() && byte >= text_.size()) return block_points_.back();
  std::size_t points = block_points_[block];
  for (std::size_t at = block * kBlock; at < byte; ++at) {
    if (starts_code_point(text_[at])) ++points;
  }
  return points;
}

std::size_t Lines::end_of_line(std::size_t index) const {
  std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] : text_.size();
  while (end > starts_[index] && (text_[end - 1] == '\n' || text_[end - 1] == '\r')) --end;
  return end;
}

Place Lines::place_of(Span span) const {
  const std::size_t begin = std::min(std::max(span.begin, starts_.front()), text_.size());
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), begin);
  const auto index = static_cast<std::size_t>(after - starts_.begin()) - 1;
  const std::size_t end = std::max(begin, std::min(span.end, end_of_line(index)));
  const std::size_t before = points_before(begin);
  return {static_cast<std::uint32_t>(index + 1), static_cast<std::uint32_t>(before - points_before(starts_[index]) + 1),
          static_cast<std::uint32_t>(points_before(end) - before)};
}

std::size_t Lines::byte_at(std::uint32_t line, std::uint32_t column) const {
  if (line == 0 || line > starts_.size()) return text_.size();
  std::size_t byte = starts_[line - 1];
  for (std::uint32_t points = 1; byte < text_.size(); ++byte) {
    if (starts_code_point(text_[byte]) && points++ == column) break;
  }
  return byte;
}

std::optional<std::string> Lines::line(std::uint32_t number) const {
  if (number == 0 || number > starts_.size()) return std::nullopt;
  const std::size_t index = number - 1;
  return std::string(text_.substr(starts_[index], end_of_line(index) - starts_[index]));
}

Where where_of(const Place& place, const std::string& file) { return {file, place.line, place.column, place.length}; }

}  // namespace rushlight
