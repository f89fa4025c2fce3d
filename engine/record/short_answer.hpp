#pragma once

#include "episode/scene.hpp"

namespace rushlight {

/// What an answer says, without the sentence that asked for it: "vomits 2", "no fever", "can swallow: no".
struct ShortAnswer {
  std::string text;
  enum class Kind : std::uint8_t {
    reading,      // glucose and ketones: they stand first in a line
    danger_sign,  // looked for and not there
    calm,         // nothing to speak of: once said, it may be left out while it stays the same
    news,         // everything else: said each time
  } kind;
  bool seen_sign = false;  // a danger sign that is there, or that nobody could look for
};

/// A question that is not known here is said whole; its options are short already.
ShortAnswer short_answer(const Scene& scene, FactId fact, const Value& value, Language language);

}  // namespace rushlight
