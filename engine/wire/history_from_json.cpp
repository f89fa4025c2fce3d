#include "wire/history_from_json.hpp"

#include <algorithm>

#include "wire/child_parts.hpp"
#include "wire/deeds_from_json.hpp"
#include "wire/object_reader.hpp"

namespace rushlight {
namespace {

std::optional<Glucose> reading_from(const std::string& text, GlucoseUnit usual) {
  const auto mark = [&](GlucoseUnit unit) -> std::optional<Glucose> {
    const std::string family = " " + std::string(ucum(unit_of(unit)));
    if (text == "LO" + family) return Glucose::lo(unit);
    if (text == "HI" + family) return Glucose::hi(unit);
    return std::nullopt;
  };
  for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
    if (const auto marked = mark(unit)) return marked;
  }
  const auto read = glucose_from_text(text, usual);
  const auto* reading = std::get_if<Glucose>(&read);
  return reading == nullptr ? std::nullopt : std::optional<Glucose>(*reading);
}

/// A time of the past, which cannot lie after the moment of telling.
std::optional<Moment> past_from(const JsonNode& node, const std::string& key, const std::optional<Moment>& told,
                                std::vector<Finding>& findings) {
  const auto when = moment_from_json(node, key, findings);
  if (!when || !told || when->utc <= told->utc) return when;
  findings.push_back(error_at(node, WrongUse{"`" + key + "` of `past` lies after the event that tells it",
                                             "give the time when it was, or leave it out"}));
  return std::nullopt;
}

std::vector<Moment> moments_from(const ObjectReader& reader, const std::string& key, const std::optional<Moment>& told,
                                 std::vector<Finding>& findings) {
  std::vector<Moment> moments;
  const JsonNode* node = reader.optional(key);
  if (node == nullptr) return moments;
  if (node->kind != JsonNode::Kind::list) {
    findings.push_back(error_at(*node, WrongType{key, "a list in square brackets: [...]"}));
    return moments;
  }
  for (const JsonNode& item : node->items) {
    if (const auto when = past_from(item, key, told, findings)) moments.push_back(*when);
  }
  return moments;
}

std::string text_at(const JsonNode& node, const char* key) {
  const JsonNode* found = node.find(key);
  return found != nullptr && found->kind == JsonNode::Kind::text ? found->text : "";
}

/// One kept line of an earlier episode, read without its protocol: what a unit says is enough to tell what was given.
class PastLine {
 public:
  PastLine(History& history, const JsonNode& root, GlucoseUnit usual) : history_(history), root_(root), usual_(usual) {}

  void add() {
    const auto at = moment_from_text(text_at(root_, "at"));
    if (!at) return;
    at_ = *at;
    for (const char* word : {"answer", "worse"}) {
      if (const JsonNode* said = root_.find(word)) add_reading(text_at(*said, "glucose"));
    }
    if (const JsonNode* corrected = root_.find("correct")) correct_reading(text_at(*corrected, "glucose"));
    if (const JsonNode* done = root_.find("done")) {
      if (done->kind == JsonNode::Kind::object) add_deed(*done);
      for (const JsonNode& deed : done->items) add_deed(deed);
    }
  }

 private:
  void add_reading(const std::string& text) {
    if (const auto reading = reading_from(text, usual_)) history_.readings.push_back({at_, *reading});
  }
  void correct_reading(const std::string& text) {
    if (text.empty()) return;
    if (!history_.readings.empty()) history_.readings.pop_back();
    add_reading(text);
  }

  void add_deed(const JsonNode& deed) {
    const std::string outcome = text_at(deed, "outcome"), amount = text_at(deed, "amount");
    if (outcome != "given" && outcome != "part" && outcome != "wrong") return;
    const auto when = moment_from_text(text_at(deed, "when")).value_or(at_);
    const auto read = quantity_from_text(amount);
    const auto* quantity = std::get_if<Quantity>(&read);
    if (quantity == nullptr) return;
    switch (quantity->unit) {
      case Unit::gram:
      case Unit::milligram:
      case Unit::microgram:
        history_.treatments.push_back(when);
        break;
      case Unit::insulin_unit:
        if (!history_.last_insulin || history_.last_insulin->utc < when.utc) history_.last_insulin = when;
        break;
      default:
        break;
    }
  }

  History& history_;
  const JsonNode& root_;
  GlucoseUnit usual_;
  Moment at_{};
};

}  // namespace

std::string text_from_history(const Glucose& reading) {
  const std::string text = text_from_glucose(reading);
  return reading.mark() ? text + " " + std::string(ucum(unit_of(reading.unit()))) : text;
}

History history_from_json(const JsonNode& node, GlucoseUnit usual, const std::optional<Moment>& told,
                          std::vector<Finding>& findings) {
  History history;
  const ObjectReader reader(node, "`past`", {"readings", "treated", "insulin"}, findings);
  if (node.kind != JsonNode::Kind::object) return history;
  if (const JsonNode* readings = reader.optional("readings")) {
    if (readings->kind != JsonNode::Kind::list)
      findings.push_back(error_at(*readings, WrongType{"readings", "a list in square brackets: [...]"}));
    for (const JsonNode& item : readings->items) {
      const ObjectReader one(item, "a reading", {"at", "glucose"}, findings);
      const JsonNode* at = one.required("at");
      const auto when = at != nullptr ? past_from(*at, "at", told, findings) : std::nullopt;
      const auto text = one.required_text("glucose", kLongestName);
      const auto value = text ? reading_from(*text, usual) : std::nullopt;
      if (text && !value) findings.push_back(error_at(*item.find("glucose"), BadNumber{*text, "a glucose like 52 mg/dL"}));
      if (when && value) history.readings.push_back({*when, *value});
    }
  }
  history.treatments = moments_from(reader, "treated", told, findings);
  if (const JsonNode* insulin = reader.optional("insulin"))
    history.last_insulin = past_from(*insulin, "insulin", told, findings);
  return history;
}

void add_lines_to_history(History& history, const std::vector<std::string>& lines, GlucoseUnit usual) {
  for (const std::string& line : lines) {
    const Read<JsonNode> tree = json_from_text(line, "journal", kEventLimits);
    if (tree.value) PastLine(history, *tree.value, usual).add();
  }
}

void keep_recent(History& history, const Moment& now) {
  constexpr std::chrono::hours kTwoWeeks{24 * 14};
  const auto is_outside = [&](const Moment& when) { return when.utc + kTwoWeeks < now.utc || now.utc < when.utc; };
  if (history.last_insulin && now.utc < history.last_insulin->utc) history.last_insulin = now;
  std::erase_if(history.readings, [&](const History::Reading& reading) { return is_outside(reading.when); });
  std::erase_if(history.treatments, is_outside);
  const auto earlier = [](const Moment& a, const Moment& b) { return a.utc < b.utc; };
  std::sort(history.treatments.begin(), history.treatments.end(), earlier);
  std::sort(history.readings.begin(), history.readings.end(),
            [&](const History::Reading& a, const History::Reading& b) { return earlier(a.when, b.when); });
}

}  // namespace rushlight
