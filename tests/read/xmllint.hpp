#pragma once

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

// The outside judge of what is XML. A machine without it fails these tests; the README's command installs it.

namespace rushlight::tests {

struct XmllintVerdict {
  std::set<std::string> refused;  // not well-formed
  std::set<std::string> valid;    // well-formed and as the schema says; empty without a schema
};

/// Gives all files to one run of xmllint. Names are plain words; the folder is made for the run and removed.
inline XmllintVerdict xmllint(const std::vector<std::pair<std::string, std::string>>& files,
                              const std::string& schema = "") {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("rushlight-xmllint-" + std::to_string(::getpid()));
  std::filesystem::create_directories(folder);
  std::string names;
  for (const auto& [name, bytes] : files) {
    std::ofstream(folder / name, std::ios::binary) << bytes;
    names += " " + name;
  }
  const std::string options = schema.empty() ? "" : " --schema '" + schema + "'";
  const std::string command = "cd '" + folder.string() + "' && xmllint --noout --nonet" + options + names + " 2> said";
  const int status = std::system(command.c_str());
  XmllintVerdict verdict;
  std::ifstream said(folder / "said");
  for (std::string line; std::getline(said, line);) {
    const std::string name = line.substr(0, line.find_first_of(": "));
    if (line.find("parser error :") != std::string::npos) verdict.refused.insert(name);
    if (line == name + " validates") verdict.valid.insert(name);
  }
  said.close();
  std::filesystem::remove_all(folder);
  if (status == -1 || WEXITSTATUS(status) > 9) throw std::runtime_error("xmllint did not run: install libxml2-utils");
  return verdict;
}

}  // namespace rushlight::tests
