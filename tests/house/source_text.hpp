#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace rushlight::house {

/// A C++ file taken apart: its code with comments and the inside of literals blanked out (line for line as long as the
/// file), and its string literals, each with its line.
struct SourceText {
  std::string code;
  struct Literal {
    std::string text;
    int line;
  };
  std::vector<Literal> strings;
};
SourceText taken_apart(const std::string& text);

/// The bytes of a file; fails the test when it cannot be read.
std::string text_of(const std::filesystem::path& path);

/// Every file below `folder` with one of the endings (".cpp"), sorted; build output and node_modules left out.
std::vector<std::filesystem::path> files_below(const std::filesystem::path& folder,
                                               const std::vector<std::string>& endings);

std::vector<std::string> lines_of(const std::string& text);

}  // namespace rushlight::house
