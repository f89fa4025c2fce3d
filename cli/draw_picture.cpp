#include "cli/draw_picture.hpp"

#include <filesystem>
#include <ostream>

#include "cli/map_named.hpp"
#include "cli/picture_file.hpp"
#include "cli/print_findings.hpp"
#include "cli/read_file.hpp"
#include "picture/flow.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/vetted_bytes.hpp"
#include "verify/check.hpp"

namespace rushlight {
namespace {

Or<Picture> flow_of(const Protocol& protocol) {
  if (auto picture = flow_picture(protocol)) return std::move(*picture);
  return WrongUse{"this protocol has too many steps for one page", "draw single steps with `--map`"};
}

int refused(std::ostream& out, const std::string& file, Kind kind) {
  print_findings(out, {Finding{Severity::error, Where{file, 0, 0, 0}, std::move(kind), {}}}, {});
  return 2;
}

}  // namespace

int draw_picture(const PictureWish& wish, std::ostream& out) {
  const std::string path = wish.paths.empty() ? "rushlight check" : wish.paths.front();
  if (!wish.flow && wish.map.empty()) {
    return refused(
        out, path,
        WrongUse{"`--out` names a file, and nothing is to be drawn", "add `--flow`, or `--map STEP:FACT,FACT`"});
  }
  if (!is_picture_file(wish.out)) {
    return refused(out, path,
                   WrongUse{"a picture needs a file to be written to", "add `--out FILE.svg` or `--out FILE.png`"});
  }
  std::error_code error;
  if (wish.paths.size() != 1 || std::filesystem::is_directory(path, error)) {
    return refused(out, path, WrongUse{"a picture is of one protocol", "name one file"});
  }
  FileBytes bytes = bytes_of_file(path, kMostBytes);
  if (auto* finding = std::get_if<Finding>(&bytes)) {
    print_findings(out, {*finding}, {});
    return 2;
  }
  const std::string& text = std::get<std::string>(bytes);
  Read<Protocol> read = resolved_from_xml(text, path);
  if (!read.value) {
    print_findings(out, read.findings, {{path, text}});
    return 2;
  }
  Or<Picture> picture = wish.flow ? flow_of(*read.value) : map_of(*read.value, wish.map, wish.given);
  if (auto* kind = std::get_if<Kind>(&picture)) return refused(out, path, std::move(*kind));
  if (auto kind = written(wish.out, std::get<Picture>(picture))) return refused(out, wish.out, std::move(*kind));
  const bool has_errors = has_error(read.findings) || has_error(check(std::move(*read.value)).findings);
  out << wish.out << ": drawn on " << std::get<Picture>(picture).paper.name << '\n';
  if (has_errors) out << path << " has mistakes. To see them: rushlight check " << path << '\n';
  return has_errors ? 1 : 0;
}

}  // namespace rushlight
