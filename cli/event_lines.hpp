#pragma once

#include <cstdint>
#include <istream>
#include <optional>
#include <string>

namespace rushlight {

/// Lines of any length from a stream, with never more of one in memory than is ever looked at.
class EventLines {
 public:
  /// A line is kept up to `most` bytes and one more, so that it can be seen to be too long.
  EventLines(std::istream& in, std::size_t most) : in_(in), most_(most) {}
  /// The next line without its end (LF or CR LF); empty at the end. A last line without an end still counts.
  std::optional<std::string> next();
  /// The number of the line given last, from 1.
  std::uint32_t number() const { return number_; }

 private:
  std::istream& in_;
  std::size_t most_;
  std::uint32_t number_ = 0;
};

}  // namespace rushlight
