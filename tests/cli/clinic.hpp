#pragma once

#include <string>
#include <vector>

#include "cli/program.hpp"

namespace rushlight::tests {

/// A machine with settings and data of its own, which stay from one run of the program to the next.
class Machine {
 public:
  Run run(const std::vector<std::string>& words, const std::string& input = "") const;
  std::string path(const std::string& name) const { return folder_.path(name); }
  void write(const std::string& name, const std::string& bytes) const { folder_.write(name, bytes); }
  std::string read(const std::string& name) const { return folder_.read(name); }

 private:
  Folder folder_;
};

inline constexpr const char* kPassphrase = "four words of a nurse";

/// A machine with a key, made once for all tests: each key costs the Argon2id of a real one. It trusts its own key.
const Machine& clinic();

/// A new folder of the clinic with a set made from the shipped one; its whole path.
std::string own_set(const std::string& from = "reference");

/// Approves it as Ana Rill, consultant, until a year from today.
Run approve(const std::string& set, const std::vector<std::string>& more = {});

/// Every file of a folder, by its name.
std::vector<std::pair<std::string, std::string>> bytes_in(const std::string& folder);

/// "2027-03-01": so many days from today.
std::string day_from_today(int days);

bool tells(const std::string& text, const std::string& words);

/// A part of a file changed, as an editor would.
void change_file(const std::string& path, const std::string& from, const std::string& to);

}  // namespace rushlight::tests
