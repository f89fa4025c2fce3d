#include "cli/say.hpp"

#include <string_view>

namespace rushlight {

std::string say(const Both& both, Language language, const std::string& one, const std::string& two,
                const std::string& three) {
  // One pass from left to right, so that a name that holds "{2}" stays a name.
  std::string_view rest = language == Language::es ? both.es : both.en;
  std::string text;
  while (!rest.empty()) {
    const bool blank = rest.size() >= 3 && rest[0] == '{' && rest[1] >= '1' && rest[1] <= '3' && rest[2] == '}';
    if (blank) {
      text += rest[1] == '1' ? one : rest[1] == '2' ? two : three;
      rest.remove_prefix(3);
    } else {
      text += rest.front();
      rest.remove_prefix(1);
    }
  }
  return text;
}

}  // namespace rushlight
