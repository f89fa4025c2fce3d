#pragma once

#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "read/resolved_from_xml.hpp"
#include "sanitized.hpp"

namespace rushlight::tests {

inline std::string text_of_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline Protocol protocol_at(const std::string& path) {
  return *resolved_from_xml(text_of_file(std::string(RUSHLIGHT_SOURCE_DIR) + "/" + path), path).value;
}

/// Every protocol that comes with the program; two of them with the sanitizers.
inline const std::vector<std::string> kShipped =
    kSanitized ? std::vector<std::string>{"protocols/reference/illness.xml", "protocols/harbour-lane/low.xml"}
               : std::vector<std::string>{"protocols/reference/low.xml",        "protocols/reference/ketones.xml",
                                          "protocols/reference/illness.xml",    "protocols/harbour-lane/low.xml",
                                          "protocols/harbour-lane/ketones.xml", "protocols/harbour-lane/illness.xml"};

}  // namespace rushlight::tests
