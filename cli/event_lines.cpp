#include "cli/event_lines.hpp"

namespace rushlight {

std::optional<std::string> EventLines::next() {
  std::string line;
  bool any = false;
  for (int got = in_.get(); got != std::istream::traits_type::eof(); got = in_.get()) {
    any = true;
    if (got == '\n') break;
    if (line.size() <= most_) line += static_cast<char>(got);
  }
  if (!any) return std::nullopt;
  ++number_;
  if (!line.empty() && line.back() == '\r') line.pop_back();
  return line;
}

}  // namespace rushlight
