#include "cli/paper_module.hpp"

#include <dlfcn.h>

#include <filesystem>

#include "publish/module.hpp"

namespace rushlight {

std::optional<Printed> printed_sheet(const Sheet& sheet, const std::string& paper, bool svg) {
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  const std::string module = (program.parent_path() / "rushlight-paper.so").string();
  void* const opened = dlopen(module.c_str(), RTLD_NOW | RTLD_LOCAL);  // never closed: glib cannot be unloaded
  if (opened == nullptr) return std::nullopt;
  auto* const print = reinterpret_cast<decltype(&rushlight_print_sheet)>(dlsym(opened, "rushlight_print_sheet"));
  if (print == nullptr) return std::nullopt;
  Printed printed;
  print(sheet, paper == "Letter", svg, printed);
  return printed;
}

}  // namespace rushlight
