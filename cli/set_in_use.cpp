#include "cli/set_in_use.hpp"

#include <filesystem>

namespace rushlight {

SetInUse set_in_use(const std::string& protocols, const std::string& set, const Child* child,
                    const std::string& child_file) {
  using Why = SetInUse::Why;
  const std::string of_child = child != nullptr ? child->set : "reference";
  const std::string& name = set.empty() ? of_child : set;
  if (!protocols.empty()) return {protocols, name, Why::option_protocols};
  if (!set.empty()) return {"", set, Why::option_set};
  if (child == nullptr) return {"", name, Why::nothing_said};
  if (child->protocols.empty()) return {"", name, Why::child_set};
  // A folder in the child file is meant from where that file is, not from wherever the program was started.
  const std::filesystem::path folder = std::filesystem::path(child_file).parent_path() / child->protocols;
  return {folder.string(), name, Why::child_protocols};
}

ProtocolSet read_set(const SetInUse& use) {
  return use.folder.empty() ? embedded_set(use.name) : set_in_folder(use.folder, use.name);
}

}  // namespace rushlight
