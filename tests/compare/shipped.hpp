#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "read/resolved_from_xml.hpp"

namespace rushlight::tests {

inline std::string shipped_text(const std::string& set, const std::string& name) {
  const std::string path = std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/" + set + "/" + name + ".xml";
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline Protocol protocol_of(const std::string& text) {
  Read<Protocol> read = resolved_from_xml(text, "edited.xml");
  std::string findings;
  for (const Finding& finding : read.findings) findings += text_from_finding(finding, std::nullopt) + "\n";
  if (!read.value) throw std::runtime_error(findings);
  return std::move(*read.value);
}

/// The text with one passage in place of another, that has to be there.
inline std::string with(std::string text, const std::string& old, const std::string& now) {
  const std::size_t at = text.find(old);
  if (at == std::string::npos) throw std::runtime_error("not in the protocol: " + old);
  return text.replace(at, old.size(), now);
}
inline std::string with_all(std::string text, const std::string& old, const std::string& now) {
  std::size_t count = 0;
  for (std::size_t at = text.find(old); at != std::string::npos; at = text.find(old, at + now.size()), ++count)
    text.replace(at, old.size(), now);
  if (count == 0) throw std::runtime_error("not in the protocol: " + old);
  return text;
}

}  // namespace rushlight::tests
