#include "cli/map_named.hpp"

#include "picture/comparison_map.hpp"
#include "picture/decision_map.hpp"
#include "picture/names.hpp"

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

WrongUse too_many(const std::string& step) {
  return {"step `" + step + "` reads too many other answers to draw them exactly",
          "fix some with `--given FACT=VALUE`"};
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

Or<Picture> map_of(const Protocol& protocol, const std::string& map, const std::vector<std::string>& givens) {
  Or<MapOf> found = map_named(protocol, map, givens);
  if (auto* kind = std::get_if<Kind>(&found)) return std::move(*kind);
  const MapOf& of = std::get<MapOf>(found);
  const Step& step = protocol[of.step];
  const auto decisions = decisions_of(protocol, step, of.across, of.down, of.held);
  if (!decisions) return too_many(step.name);
  return decision_map(protocol, step, *decisions, of.held);
}

Or<ComparisonMap> map_of(const SideBySide& sides, StepId now, const std::string& map,
                         const std::vector<std::string>& givens) {
  Or<MapOf> found = map_named(sides.both, map, givens);
  if (auto* kind = std::get_if<Kind>(&found)) return std::move(*kind);
  const MapOf& of = std::get<MapOf>(found);
  const StepId beside{static_cast<std::uint16_t>(now.index + sides.now_steps)};
  auto drawn = comparison_map(sides, of.step, beside, of.across, of.down, of.held);
  if (!drawn) return too_many(sides.both[of.step].name);
  return std::move(*drawn);
}

}  // namespace rushlight
