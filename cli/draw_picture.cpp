#include "cli/draw_picture.hpp"

#include <filesystem>
#include <fstream>
#include <ostream>

#include "cli/png_module.hpp"
#include "cli/print_findings.hpp"
#include "cli/read_file.hpp"
#include "picture/decision_map.hpp"
#include "picture/flow.hpp"
#include "picture/names.hpp"
#include "picture/svg.hpp"
#include "read/resolved_from_xml.hpp"
#include "read/vetted_bytes.hpp"
#include "verify/check.hpp"

namespace rushlight {
namespace {

/// Something to draw, or why not.
template <class Value>
using Or = std::variant<Value, Kind>;

std::vector<std::string> names_of(const Protocol& protocol, const std::vector<Subject>& subjects) {
  std::vector<std::string> names;
  for (const Subject& subject : subjects) names.push_back(name_of(protocol, subject));
  return names;
}

Or<Subject> subject_named(const Protocol& protocol, const std::vector<Subject>& read, const std::string& name) {
  for (const Subject& subject : read) {
    if (name_of(protocol, subject) == name) return subject;
  }
  return UnknownId{name, "fact or counter that this step reads", names_of(protocol, read)};
}

Or<Held> held_of(const Protocol& protocol, const std::vector<Subject>& read, const std::string& given) {
  const std::size_t sign = given.find('=');
  if (sign == std::string::npos)
    return WrongUse{"`--given " + given + "` holds no value", "write `--given FACT=VALUE`"};
  Or<Subject> found = subject_named(protocol, read, given.substr(0, sign));
  if (auto* kind = std::get_if<Kind>(&found)) return std::move(*kind);
  const Subject subject = std::get<Subject>(found);
  const std::string value = given.substr(sign + 1);
  bool unused = false;
  const Axis axis = axis_of(protocol, subject, {}, unused);
  std::vector<std::string> known;
  for (std::size_t i = 0; i < axis.values.size(); ++i) {
    const AxisValue& choice = axis.values[i];
    if (choice.kind != AxisValue::Kind::option && choice.kind != AxisValue::Kind::cant_tell) continue;
    known.push_back(choice.kind == AxisValue::Kind::cant_tell ? "unknown"
                                                              : words_of(protocol, axis, {i, i}, true).front());
    if (known.back() == value) return Held{subject, choice.in[0]};
  }
  if (known.size() < 2) {
    return WrongUse{"`" + name_of(protocol, subject) + "` is a number",
                    "give an answer to choose from, or make it an axis"};
  }
  return UnknownId{value, "answer to `" + name_of(protocol, subject) + "`", known};
}

Or<Picture> map_of(const Protocol& protocol, const PictureWish& wish) {
  const std::size_t colon = wish.map.find(':');
  if (colon == std::string::npos) {
    return WrongUse{"`--map " + wish.map + "` names no facts", "write `--map STEP:FACT,FACT`"};
  }
  const std::string name = wish.map.substr(0, colon);
  const auto id = protocol.step_named(name);
  if (!id) {
    std::vector<std::string> known;
    for (const Step& step : protocol.steps) known.push_back(step.name);
    return UnknownId{name, "step", known};
  }
  const Step& step = protocol[*id];
  const std::vector<Subject> read = read_by(protocol, step);
  const std::string axes = wish.map.substr(colon + 1);
  const std::size_t comma = axes.find(',');
  Or<Subject> across = subject_named(protocol, read, axes.substr(0, comma));
  if (auto* kind = std::get_if<Kind>(&across)) return std::move(*kind);
  std::optional<Subject> down;
  if (comma != std::string::npos) {
    Or<Subject> second = subject_named(protocol, read, axes.substr(comma + 1));
    if (auto* kind = std::get_if<Kind>(&second)) return std::move(*kind);
    down = std::get<Subject>(second);
    if (*down == std::get<Subject>(across)) {
      return WrongUse{"both axes are `" + axes.substr(0, comma) + "`", "name two facts, or one"};
    }
  }
  std::vector<Held> held;
  for (const std::string& given : wish.given) {
    Or<Held> one = held_of(protocol, read, given);
    if (auto* kind = std::get_if<Kind>(&one)) return std::move(*kind);
    held.push_back(std::get<Held>(one));
  }
  const auto decisions = decisions_of(protocol, step, std::get<Subject>(across), down, held);
  if (!decisions) {
    return WrongUse{"step `" + name + "` reads too many other answers to draw them exactly",
                    "fix some with `--given FACT=VALUE`"};
  }
  return decision_map(protocol, step, *decisions, held);
}

Or<Picture> flow_of(const Protocol& protocol) {
  if (auto picture = flow_picture(protocol)) return std::move(*picture);
  return WrongUse{"this protocol has too many steps for one page", "draw single steps with `--map`"};
}

int refused(std::ostream& out, const std::string& file, Kind kind) {
  print_findings(out, {Finding{Severity::error, Where{file, 0, 0, 0}, std::move(kind), {}}}, {});
  return 2;
}

std::optional<Kind> written(const std::string& path, const Picture& picture) {
  std::string bytes = svg_from(picture);
  if (std::filesystem::path(path).extension() == ".png") {
    auto png = png_by_module(bytes);
    if (!png) {
      return WrongUse{"no PNG could be drawn: `rushlight-raster.so` is not beside the program, or does not work here",
                      "name a file that ends in .svg"};
    }
    bytes = std::move(*png);
  }
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << bytes;
  file.close();
  if (!file) return NotReadable{"it cannot be written"};
  return std::nullopt;
}

}  // namespace

int draw_picture(const PictureWish& wish, std::ostream& out) {
  const std::string path = wish.paths.empty() ? "rushlight check" : wish.paths.front();
  const std::filesystem::path to(wish.out);
  if (to.extension() != ".svg" && to.extension() != ".png") {
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
  Or<Picture> picture = wish.flow ? flow_of(*read.value) : map_of(*read.value, wish);
  if (auto* kind = std::get_if<Kind>(&picture)) return refused(out, path, std::move(*kind));
  if (auto kind = written(wish.out, std::get<Picture>(picture))) return refused(out, wish.out, std::move(*kind));
  const bool has_errors = has_error(read.findings) || has_error(check(std::move(*read.value)).findings);
  out << wish.out << ": drawn on " << std::get<Picture>(picture).paper.name << '\n';
  if (has_errors) out << path << " has mistakes. To see them: rushlight check " << path << '\n';
  return has_errors ? 1 : 0;
}

}  // namespace rushlight
