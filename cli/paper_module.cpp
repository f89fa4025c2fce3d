#include "cli/paper_module.hpp"

#include <ostream>

#include "cli/module_door.hpp"
#include "cli/plain_text.hpp"
#include "cli/refusals.hpp"
#include "cli/written_out.hpp"
#include "publish/module.hpp"

namespace rushlight {

namespace {

constexpr const char* kPaperModule = "rushlight-paper.so";

}  // namespace

std::optional<Printed> printed_sheet(const Sheet& sheet, const std::string& paper, bool svg) {
  auto* const print =
      reinterpret_cast<decltype(&rushlight_print_sheet)>(door_of_module(kPaperModule, "rushlight_print_sheet"));
  if (print == nullptr) return std::nullopt;
  Printed printed;
  print(sheet, paper == "Letter", svg, printed);
  return printed;
}

std::optional<Printed> printed_records(const std::vector<NightRecord>& nights, Language language,
                                       const std::string& paper) {
  auto* const print =
      reinterpret_cast<decltype(&rushlight_print_records)>(door_of_module(kPaperModule, "rushlight_print_records"));
  if (print == nullptr) return std::nullopt;
  Printed printed;
  print(nights, language, paper == "Letter", printed);
  return printed;
}

int put_printed(const std::optional<Printed>& printed, const std::string& command, const std::string& path,
                std::ostream& out, std::ostream& err) {
  if (!printed)
    return tell_no_use(err, cannot_do(command, "`rushlight-paper.so` is not beside the program, or does not work here",
                                      "write the plain text with `--text`"));
  for (const std::string& warning : printed->warnings) err << cleaned(warning) << '\n';
  return printed->bytes.empty() ? 2 : put_out(path, printed->bytes, out, err);
}

}  // namespace rushlight
