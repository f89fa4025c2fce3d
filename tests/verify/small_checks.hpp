#pragma once

#include "tests/protocol/small_protocol.hpp"
#include "verify/check.hpp"

// Changes of the small protocol, as the checks see them.

namespace rushlight::tests {

inline std::vector<Finding> checked(const std::string& text) { return check(resolved(text)).findings; }

/// The one finding of the checks, of this kind.
template <class K>
Found<K> only_check(const std::string& text) {
  return only<K>(checked(text), text);
}

/// The small protocol with other rules in its first step, which asks for glucose, or for what is named.
inline std::string measuring(const std::string& rules, const std::string& asks = R"(<ask fact="glucose"/>)") {
  return with(R"(      <ask fact="glucose"/>
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>)",
              asks + rules);
}

/// Bands for the threshold `low`.
inline std::string banded(const std::string& text, const std::string& bands) {
  return changed(text, R"(<glucose id="low" mg-dl="70" mmol-l="3.9" least="60 mg/dL" most="100 mg/dL" source="table">)",
                 R"(<glucose id="low" least="60 mg/dL" most="100 mg/dL" source="table">)" + bands);
}

/// One more threshold.
inline std::string with_threshold(const std::string& text, const std::string& threshold) {
  return changed(text, R"(    <time id="recheck")", threshold + R"(    <time id="recheck")");
}

}  // namespace rushlight::tests
