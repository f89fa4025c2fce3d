#include "cli/data_folder.hpp"

#include <cstdlib>

namespace rushlight {
namespace {

// The specification: a path that is not absolute is to be ignored.
std::string absolute_path_in(const char* variable) {
  const char* value = std::getenv(variable);
  return value != nullptr && value[0] == '/' ? value : "";
}

std::string in_data_folder(const char* name) {
  const std::string folder = data_folder();
  return folder.empty() ? folder : folder + "/" + name;
}

}  // namespace

std::string data_folder() {
  const std::string data = absolute_path_in("XDG_DATA_HOME");
  if (!data.empty()) return data + "/rushlight";
  const std::string home = absolute_path_in("HOME");
  return home.empty() ? home : home + "/.local/share/rushlight";
}

std::string usual_child_file() { return in_data_folder("child.json"); }
std::string usual_journal_file() { return in_data_folder("journal.db"); }

}  // namespace rushlight
