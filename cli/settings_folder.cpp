#include "cli/settings_folder.hpp"

#include <cstdlib>

namespace rushlight {

std::string settings_folder() {
  // The specification: a path that is not absolute is to be ignored.
  const char* config = std::getenv("XDG_CONFIG_HOME");
  if (config != nullptr && config[0] == '/') return std::string(config) + "/rushlight";
  const char* home = std::getenv("HOME");
  return home != nullptr && home[0] == '/' ? std::string(home) + "/.config/rushlight" : "";
}

std::string usual_secret_key_file() {
  const std::string folder = settings_folder();
  return folder.empty() ? folder : folder + "/clinic.secret-key";
}

}  // namespace rushlight
