#include "cli/module_door.hpp"

#include <dlfcn.h>

#include <filesystem>

namespace rushlight {

void* door_of_module(const char* module, const char* function) {
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  const std::string file = (program.parent_path() / module).string();
  void* const opened = dlopen(file.c_str(), RTLD_NOW | RTLD_LOCAL);  // never closed: glib cannot be unloaded
  return opened == nullptr ? nullptr : dlsym(opened, function);
}

}  // namespace rushlight
