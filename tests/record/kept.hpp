#pragma once

#include <boost/test/unit_test.hpp>
#include <string>
#include <vector>

#include "cli/program.hpp"

namespace rushlight::tests {

/// Lines are broken at blanks.
inline std::string on_one_line(const std::string& text) {
  std::string line;
  for (const char letter : text) {
    if (letter != '\n' && letter != ' ') {
      line += letter;
    } else if (!line.empty() && line.back() != ' ') {
      line += ' ';
    }
  }
  return line;
}

inline bool says(const std::string& text, const std::string& part) {
  return on_one_line(text).find(part) != std::string::npos;
}

/// A child with one night in a journal.
struct Kept {
  Folder folder;
  explicit Kept(const std::string& night, const std::string& protocol = "low") {
    folder.write("child.json", file_in_tree("protocols/demo-child.json"));
    const Run walk =
        run_program({"walk", "--json", "--protocol", protocol, "--child", child(), "--journal", journal()}, night);
    BOOST_REQUIRE_MESSAGE(walk.out.find("\"error\"") == std::string::npos, walk.out << walk.err);
  }
  std::string child() const { return folder.path("child.json"); }
  std::string journal() const { return folder.path("journal"); }
  Run record(std::vector<std::string> more, const std::string& clock = "2026-03-02T08:00:00-05:00") const {
    std::vector<std::string> words{"record", "--child", child(), "--journal", journal()};
    words.insert(words.end(), more.begin(), more.end());
    return run_program(words, "", {"RUSHLIGHT_CLOCK=" + clock});
  }
  /// The record as 80 columns.
  std::string text(const std::string& language = "en") const {
    const Run run = record({"--text", "--lang", language});
    BOOST_REQUIRE_MESSAGE(run.status == 0, run.err);
    return run.out;
  }
};

}  // namespace rushlight::tests
