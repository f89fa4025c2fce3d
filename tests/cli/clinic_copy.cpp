#include "cli/clinic_copy.hpp"

#include <filesystem>
#include <stdexcept>

namespace rushlight::tests {

namespace fs = std::filesystem;

namespace {

const std::string kShipped = std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/reference";

}  // namespace

ClinicCopy::ClinicCopy() { fs::copy(kShipped, path()); }

void ClinicCopy::edit(const std::string& name, const std::string& old, const std::string& put) const {
  std::string bytes = read(name);
  const std::size_t at = bytes.find(old);
  if (at == std::string::npos) throw std::runtime_error(name + " has no " + old);
  write("clinic/" + name, bytes.replace(at, old.size(), put));
}

std::vector<std::string> ClinicCopy::changed() const {
  std::vector<std::string> names;
  for (const char* name : {"illness.xml", "ketones.xml", "low.xml", "safety.xml"}) {
    if (read(name) != file_in_tree(std::string("protocols/reference/") + name)) names.push_back(name);
  }
  for (const auto& entry : fs::directory_iterator(path())) {
    const std::string name = entry.path().filename().string();
    if (!fs::exists(kShipped + "/" + name)) names.push_back(name);
  }
  return names;
}

Run ClinicCopy::run(const std::vector<std::string>& words, const std::string& input) const {
  std::vector<std::string> all{"thresholds", path()};
  all.insert(all.end(), words.begin(), words.end());
  return run_program(all, input);
}

}  // namespace rushlight::tests
