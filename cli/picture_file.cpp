#include "cli/picture_file.hpp"

#include <filesystem>

#include "cli/png_module.hpp"
#include "cli/written_out.hpp"
#include "picture/names.hpp"
#include "picture/svg.hpp"

namespace rushlight {
namespace {

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

}  // namespace

Or<MapOf> map_named(const Protocol& protocol, const std::string& map, const std::vector<std::string>& givens) {
  const std::size_t colon = map.find(':');
  if (colon == std::string::npos) {
    return WrongUse{"`--map " + map + "` names no facts", "write `--map STEP:FACT,FACT`"};
  }
  const std::string name = map.substr(0, colon);
  const auto id = protocol.step_named(name);
  if (!id) {
    std::vector<std::string> known;
    for (const Step& step : protocol.steps) known.push_back(step.name);
    return UnknownId{name, "step", known};
  }
  const Step& step = protocol[*id];
  const std::vector<Subject> read = read_by(protocol, step);
  const std::string axes = map.substr(colon + 1);
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
  for (const std::string& given : givens) {
    Or<Held> one = held_of(protocol, read, given);
    if (auto* kind = std::get_if<Kind>(&one)) return std::move(*kind);
    held.push_back(std::get<Held>(one));
  }
  return MapOf{*id, std::get<Subject>(across), down, held};
}

bool is_picture_file(const std::string& path) {
  const std::filesystem::path extension = std::filesystem::path(path).extension();
  return extension == ".svg" || extension == ".png";
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
  auto finding = write_over(path, bytes, Reader::everybody);
  return finding ? std::optional<Kind>(std::move(finding->kind)) : std::nullopt;
}

}  // namespace rushlight
