#include "cli/paper_module.hpp"

#include <dlfcn.h>

#include <filesystem>

#include "publish/module.hpp"

namespace rushlight {

namespace {

/// A function of the part of the program that prints; null when that part is not there.
void* door(const char* name) {
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  const std::string module = (program.parent_path() / "rushlight-paper.so").string();
  void* const opened = dlopen(module.c_str(), RTLD_NOW | RTLD_LOCAL);  // never closed: glib cannot be unloaded
  return opened == nullptr ? nullptr : dlsym(opened, name);
}

}  // namespace

std::optional<Printed> printed_sheet(const Sheet& sheet, const std::string& paper, bool svg) {
  auto* const print = reinterpret_cast<decltype(&rushlight_print_sheet)>(door("rushlight_print_sheet"));
  if (print == nullptr) return std::nullopt;
  Printed printed;
  print(sheet, paper == "Letter", svg, printed);
  return printed;
}

std::optional<Printed> printed_records(const std::vector<NightRecord>& nights, Language language,
                                       const std::string& paper) {
  auto* const print = reinterpret_cast<decltype(&rushlight_print_records)>(door("rushlight_print_records"));
  if (print == nullptr) return std::nullopt;
  Printed printed;
  print(nights, language, paper == "Letter", printed);
  return printed;
}

}  // namespace rushlight
