#pragma once

#include <array>
#include <boost/test/unit_test.hpp>
#include <cstdio>
#include <string>

namespace rushlight::tests {

/// What a shell command prints. It must end well.
inline std::string printed_by(const std::string& command) {
  std::string text;
  FILE* pipe = popen(command.c_str(), "r");
  BOOST_REQUIRE(pipe != nullptr);
  std::array<char, 4096> part{};
  for (std::size_t count; (count = std::fread(part.data(), 1, part.size(), pipe)) > 0;) text.append(part.data(), count);
  BOOST_TEST(pclose(pipe) == 0, command);
  return text;
}

}  // namespace rushlight::tests
