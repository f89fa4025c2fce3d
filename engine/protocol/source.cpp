#include "protocol/source.hpp"

namespace rushlight {

std::string citation(const Source& source) {
  std::string text;
  if (source.common_practice && source.publisher.empty()) {
    text = "common practice, no source";
  } else {
    text = source.publisher;
    if (!source.year.empty()) text += (text.empty() ? "" : " ") + source.year;
    for (const std::string& part : {source.title, source.place}) {
      if (part.empty()) continue;
      if (!text.empty()) text += ", ";
      text += part;
    }
  }
  if (source.from_memory) text += " (from memory)";
  return text;
}

}  // namespace rushlight
