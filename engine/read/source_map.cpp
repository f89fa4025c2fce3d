#include "read/source_map.hpp"

#include <algorithm>

#include "finding/byte_order_mark.hpp"
#include "read/xml_characters.hpp"

namespace rushlight {

namespace {

// Columns are asked for anywhere in a line of any length; counting from the nearest block keeps a file of one single
// line from costing the square of its length.
constexpr std::size_t kBlock = 64;

bool starts_code_point(char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }

}  // namespace

Lines::Lines(std::string_view text) : text_(text) {
  find_starts();
  std::size_t points = 0;
  block_points_.reserve(text.size() / kBlock + 2);
  for (std::size_t byte = 0; byte < text.size(); byte += kBlock) {
    block_points_.push_back(points);
    points += points_in(text.substr(byte, kBlock));
  }
  block_points_.push_back(points);
  find_plain_lines();
}

void Lines::find_plain_lines() {
  plain_.assign(starts_.size(), true);
  for (std::size_t block = 0; block + 1 < block_points_.size(); ++block) {
    const std::size_t begin = block * kBlock, end = std::min(begin + kBlock, text_.size());
    if (block_points_[block + 1] - block_points_[block] == end - begin) continue;
    for (std::size_t line = line_of(std::max(begin, starts_.front())); line < starts_.size() && starts_[line] < end;
         ++line)
      plain_[line] = false;
  }
}

void Lines::find_starts() {
  starts_.push_back(text_.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0);
  std::size_t feed = text_.find('\n'), carriage = text_.find('\r');
  while (feed != std::string_view::npos || carriage != std::string_view::npos) {
    if (feed < carriage) {
      starts_.push_back(feed + 1);
      feed = text_.find('\n', feed + 1);
    } else {
      if (carriage + 1 != feed) starts_.push_back(carriage + 1);
      carriage = text_.find('\r', carriage + 1);
    }
  }
}

std::size_t Lines::points_before(std::size_t byte) const {
  const std::size_t block = byte / kBlock;
  if (block + 1 >= block_points_.size() && byte >= text_.size()) return block_points_.back();
  return block_points_[block] + points_in(text_.substr(block * kBlock, byte - block * kBlock));
}

std::size_t Lines::points_between(std::size_t begin, std::size_t end) const {
  if (end - begin <= 2 * kBlock) return points_in(text_.substr(begin, end - begin));
  return points_before(end) - points_before(begin);
}

std::size_t Lines::end_of_line(std::size_t index) const {
  std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] : text_.size();
  while (end > starts_[index] && (text_[end - 1] == '\n' || text_[end - 1] == '\r')) --end;
  return end;
}

bool Lines::holds(std::size_t index, std::size_t byte) const {
  return index < starts_.size() && starts_[index] <= byte && (index + 1 == starts_.size() || byte < starts_[index + 1]);
}

std::size_t Lines::line_of(std::size_t byte) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), byte);
  return static_cast<std::size_t>(after - starts_.begin()) - 1;
}

Place Lines::place_of(Span span) const {
  std::size_t near = 0;
  return place_of(span, near);
}

Place Lines::place_of(Span span, std::size_t& near) const {
  const std::size_t begin = std::min(std::max(span.begin, starts_.front()), text_.size());
  const std::size_t index = holds(near, begin) ? near : holds(near + 1, begin) ? near + 1 : line_of(begin);
  near = index;
  const std::size_t end = std::max(begin, std::min(span.end, end_of_line(index)));
  if (plain_[index]) {
    return {static_cast<std::uint32_t>(index + 1), static_cast<std::uint32_t>(begin - starts_[index] + 1),
            static_cast<std::uint32_t>(end - begin)};
  }
  return {static_cast<std::uint32_t>(index + 1), static_cast<std::uint32_t>(points_between(starts_[index], begin) + 1),
          static_cast<std::uint32_t>(points_between(begin, end))};
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

Where where_of(const Place& place, const FileName& file) { return {file, place.line, place.column, place.length}; }

}  // namespace rushlight
