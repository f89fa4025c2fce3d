#include "read/vocabulary.hpp"

#include <algorithm>
#include <cassert>
#include <unordered_map>
#include <utility>

#include "protocol/words.hpp"

namespace rushlight {

namespace {

using Attributes = std::vector<AttributeWords>;
using Children = std::vector<ChildWords>;

AttributeWords needed(std::string_view name) { return {name, true, ValueRule::any, {}}; }
AttributeWords optional(std::string_view name) { return {name, false, ValueRule::any, {}}; }
AttributeWords id() { return {"id", true, ValueRule::id, {}}; }
AttributeWords optional_id() { return {"id", false, ValueRule::id, {}}; }
AttributeWords one_of(std::string_view name, bool required, std::vector<std::string> allowed) {
  return {name, required, ValueRule::one_of, std::move(allowed)};
}
AttributeWords flag(std::string_view name) { return one_of(name, false, {"yes", "no"}); }

ChildWords one(std::string_view name, std::string_view shape) { return {name, shape, 1, 1, false}; }
ChildWords maybe(std::string_view name, std::string_view shape) { return {name, shape, 0, 1, false}; }
ChildWords any(std::string_view name, std::string_view shape) { return {name, shape, 0, kAnyNumber, false}; }
ChildWords some(std::string_view name, std::string_view shape) { return {name, shape, 1, kAnyNumber, false}; }

ElementWords element(std::string_view shape, Attributes attributes, Children children) {
  return {shape, std::move(attributes), std::move(children), false, false};
}

/// The languages stand in any order among themselves.
Children with_lines(Children before, const Children& after = {}) {
  bool beside = false;
  for (const std::string_view language : words::kLanguages) {
    before.push_back({language, "line", 0, 1, beside});
    beside = true;
  }
  before.insert(before.end(), after.begin(), after.end());
  return before;
}

Children thresholds() {
  Children children;
  for (const std::string_view kind : words::kThresholdKinds) {
    children.push_back(any(kind, kind == "glucose" ? "glucose-threshold" : "number-threshold"));
  }
  return children;
}

Attributes band(const Attributes& value) {
  Attributes attributes = {optional("age-from"),     optional("age-up-to"),  optional("weight-from"),
                           optional("weight-up-to"), optional("clock-from"), optional("clock-up-to")};
  attributes.insert(attributes.end(), value.begin(), value.end());
  return attributes;
}

/// `given` needs no word about what follows: the step goes on.
std::vector<std::string> reported_outcomes() {
  std::vector<std::string> outcomes = words::all_of(words::kOutcomes);
  outcomes.erase(std::find(outcomes.begin(), outcomes.end(), "given"));
  return outcomes;
}

void add_head(std::vector<ElementWords>& all) {
  all.push_back(
      element("protocol",
              {needed("set"),
               id(),
               needed("version"),
               {"languages", true, ValueRule::several_of, words::all_of(words::kLanguages)},
               needed("start"),
               optional("weight-fresh"),
               optional("daily-dose-fresh"),
               flag("insulin-doses")},
              {maybe("approval", "approval"), one("title", "text"), any("caution", "text"), one("sources", "sources"),
               maybe("thresholds", "thresholds"), one("facts", "facts"), maybe("foods", "foods"),
               maybe("doses", "doses"), maybe("timers", "timers"), maybe("counters", "counters"),
               maybe("marks", "marks"), maybe("history", "history"), maybe("fluids", "fluids"),
               maybe("opening", "opening"), maybe("worse", "worse"), maybe("watch", "watch"), one("steps", "steps")}));
  all.push_back(element("approval",
                        {needed("by"), needed("role"), needed("on"), needed("until"), needed("key"), needed("signature")},
                        {some("file", "approved-file")}));
  all.push_back(element("approved-file", {needed("name"), needed("sha256")}, {}));
  all.push_back(element("text", {}, with_lines({})));
  all.push_back({"line", {}, {}, false, true});
  all.push_back(element("sources", {}, {some("source", "source")}));
  all.push_back(element("source",
                        {id(), optional("publisher"), optional("year"), optional("title"), optional("place"),
                         flag("common-practice"), flag("from-memory")},
                        {}));
}

void add_numbers(std::vector<ElementWords>& all) {
  all.push_back({"thresholds", {}, thresholds(), true, false});
  all.push_back(element("glucose-threshold",
                        {id(), optional("mg-dl"), optional("mmol-l"), needed("least"), needed("most"), needed("source"),
                         optional("pair-exception")},
                        with_lines({any("band", "glucose-band")}, {maybe("note", "text")})));
  all.push_back(element("number-threshold",
                        {id(), optional("value"), needed("least"), needed("most"), needed("source")},
                        with_lines({any("band", "number-band")}, {maybe("note", "text")})));
  all.push_back(element("glucose-band", band({needed("mg-dl"), needed("mmol-l")}), {}));
  all.push_back(element("number-band", band({needed("value")}), {}));
}

void add_questions(std::vector<ElementWords>& all) {
  all.push_back({"facts",
                 {},
                 {any("yes-no", "question"), any("choice", "choice-question"), any("ordered-choice", "choice-question"),
                  any("count", "question"), any("glucose", "question"), any("ketones", "question"),
                  any("time-since", "question")},
                 true,
                 false});
  all.push_back(element("question", {id()}, {one("ask", "text"), maybe("help", "text")}));
  all.push_back(
      element("choice-question", {id()}, {one("ask", "text"), maybe("help", "text"), some("option", "named")}));
  all.push_back(element("named", {id()}, with_lines({})));
}

void add_amounts(std::vector<ElementWords>& all) {
  all.push_back(element("foods", {}, {some("food", "food")}));
  all.push_back(element("food",
                        {one_of("kind", true, words::all_of(words::kFoodKinds)), one_of("unit", true, {"g", "mL"}),
                         needed("carbohydrate"), needed("step"), needed("source")},
                        with_lines({any("if", "if")})));
  all.push_back(element("doses", {}, {some("dose", "dose")}));
  all.push_back(element("dose",
                        {id(), one_of("unit", true, {"g", "mg", "ug", "mL", "[iU]"}),
                         one_of("round", true, words::all_of(words::kRoundDirections)), needed("to"),
                         optional("no-stacking"), optional("floor"), optional("fresh")},
                        {one("label", "text"), some("row", "row")}));
  all.push_back(element("row",
                        {optional("fixed"), optional("per-kg"), optional("over"), optional("plus"),
                         optional("per-year"), optional("percent"), optional("correction"), optional("dose"),
                         optional("during"), optional("times"), optional("larger-of"), flag("withheld"),
                         optional("least"), optional("most"), optional("most-percent"), optional("most-per-kg"),
                         needed("source")},
                        with_lines({any("if", "if")})));
  all.push_back(element("if",
                        {optional("fact"), optional("counter"), optional("done"), optional("clock-from"),
                         optional("clock-up-to"), optional("change"), optional("is"), optional("below"),
                         optional("at-least"), optional("above"), optional("at-most")},
                        {}));
}

void add_frame(std::vector<ElementWords>& all) {
  all.push_back(element("timers", {}, {some("timer", "named")}));
  all.push_back(element("counters", {}, {some("counter", "counter")}));
  all.push_back(element("counter", {id()}, {}));
  all.push_back(element("marks", {}, {some("mark", "mark")}));
  all.push_back(element("mark", {id(), needed("fact"), optional("rise-over")}, {}));
  all.push_back(element("history", {needed("low"), needed("high"), needed("near")}, {}));
  all.push_back(element("fluids", {needed("hourly")}, {}));
  all.push_back(element("opening", {}, {some("ask", "opening-ask")}));
  all.push_back(element("opening-ask", {needed("fact")}, {}));
  all.push_back(element("worse", {}, {some("sign", "sign")}));
  all.push_back(element("sign", {needed("fact"), needed("is")}, with_lines({})));
  all.push_back(element("watch", {}, {some("rule", "watch-rule")}));
  all.push_back(
      element("watch-rule", {id(), needed("go"), flag("told"), optional("source")}, with_lines({some("if", "if")})));
}

void add_steps(std::vector<ElementWords>& all) {
  all.push_back(element("steps", {}, {some("step", "step")}));
  all.push_back(element(
      "step",
      {id(), one_of("urgency", true, words::all_of(words::kUrgencies)), optional("handles"), optional("counts"),
       flag("ends"), flag("ends-visit"), needed("source")},
      {one("headline", "text"), any("do", "do"), maybe("wait", "wait"), any("ask", "ask"), any("rule", "rule")}));
  all.push_back(
      element("do",
              {id(), one_of("kind", true, words::all_of(words::kActionKinds)), optional("dose"), optional("source"),
               optional("counts"), optional("records"), optional("as"), optional("starts"), optional("lasts"),
               optional("stops"), one_of("contact", false, words::all_of(words::kContacts)), optional("answer-within")},
              with_lines({any("if", "if")}, {any("on", "on")})));
  all.push_back(element(
      "on", {one_of("outcome", true, reported_outcomes()), optional("go"), one_of("as", false, {"given"})}, {}));
  all.push_back(element(
      "wait",
      {needed("timer"), needed("lasts"), optional("after"), optional("start-within"), optional("insulin-again"),
       needed("overdue"), needed("go")},
      {}));
  all.push_back(element("ask", {needed("fact"), optional("fresh")}, {}));
  all.push_back(element("rule",
                        {optional_id(), optional("go"), optional("visit"), optional("hand-over"), optional("resets"),
                         optional("sets"), flag("otherwise"), flag("early"), optional("source")},
                        {any("if", "if")}));
}

std::vector<ElementWords> make_safety_vocabulary() {
  std::vector<ElementWords> all;
  all.push_back(element("safety", {needed("set")},
                        {maybe("approval", "approval"), one("sources", "sources"), any("never", "never"), any("within", "within"),
                         any("look", "look"), any("monotone", "monotone"), any("reading", "reading")}));
  all.push_back(element("never",
                        {id(), needed("protocol"), one_of("does", false, words::all_of(words::kActionKinds)),
                         one_of("calmer-than", false, words::all_of(words::kUrgencies)), needed("source")},
                        {some("if", "if")}));
  all.push_back(element("within",
                        {id(), needed("protocol"), one_of("come-to", true, words::all_of(words::kUrgencies)),
                         needed("at-once"), needed("late"), needed("source")},
                        {some("if", "if")}));
  all.push_back(element("look",
                        {id(), needed("protocol"), optional("after"),
                         one_of("urgency", false, words::all_of(words::kUrgencies)), optional("at-least"),
                         optional("at-most"), needed("source")},
                        {}));
  all.push_back(
      element("monotone",
              {id(), needed("protocol"), needed("fact"), one_of("worse", true, {"lower", "higher"}), needed("source")},
              {any("if", "if")}));
  all.push_back(element("reading",
                        {one_of("language", true, words::all_of(words::kLanguages)), optional("grade-at-most"),
                         optional("ease-at-least"), needed("source")},
                        {}));
  return all;
}

/// What happens and what is expected, one after the other.
ElementWords moment_words() {
  ElementWords words = element("example-moment", {needed("after")},
                               {any("answer", "example-answer"), any("worse", "example-answer"), any("done", "example-deed"),
                                any("all-done", "example-all-done"), any("call", "example-call"),
                                any("expect", "example-expect")});
  words.in_any_order = true;
  return words;
}

std::vector<ElementWords> make_examples_vocabulary() {
  std::vector<std::string> rescue = words::all_of(words::kRescueKinds), deeds = words::all_of(words::kOutcomes);
  rescue.insert(rescue.end(), {"expired", "none"});
  const std::vector<std::string> calls(deeds.end() - 3, deeds.end());
  deeds.resize(deeds.size() - 3);
  std::vector<ElementWords> all;
  all.push_back(element("examples", {needed("set")},
                        {maybe("approval", "approval"), one("sources", "sources"), some("child", "example-child"), some("example", "example")}));
  all.push_back(
      element("example-child",
              {id(), needed("age"), optional("weight"), optional("total-daily-dose"), optional("insulin-step"),
               optional("correction-factor"), one_of("delivery", false, words::all_of(words::kDeliveries)),
               one_of("rescue", false, std::move(rescue)), one_of("strips", false, words::all_of(words::kStrips)),
               one_of("unit", false, {"mg/dL", "mmol/L"}), flag("mini-dose-kit")},
              {}));
  all.push_back(element("example", {id(), needed("protocol"), needed("child"), needed("begins"), needed("source")},
                        {some("at", "example-moment")}));
  all.push_back(moment_words());
  all.push_back(element("example-answer", {needed("fact"), needed("is")}, {}));
  all.push_back(
      element("example-deed", {needed("action"), one_of("outcome", false, std::move(deeds)), optional("amount")}, {}));
  all.push_back(element("example-all-done", {}, {}));
  all.push_back(element(
      "example-call", {one_of("contact", true, words::all_of(words::kContacts)), one_of("outcome", true, calls)}, {}));
  all.push_back(
      element("example-expect",
              {optional("protocol"), optional("step"), one_of("urgency", false, words::all_of(words::kUrgencies)),
               optional("dose"), optional("amount"), one_of("withheld", false, {"yes"})},
              {}));
  return all;
}

std::vector<ElementWords> make_vocabulary() {
  std::vector<ElementWords> all;
  add_head(all);
  add_numbers(all);
  add_questions(all);
  add_amounts(all);
  add_frame(all);
  add_steps(all);
  return all;
}

}  // namespace

const std::vector<ElementWords>& vocabulary() {
  static const std::vector<ElementWords> kVocabulary = make_vocabulary();
  return kVocabulary;
}

const std::vector<ElementWords>& safety_vocabulary() {
  static const std::vector<ElementWords> kVocabulary = make_safety_vocabulary();
  return kVocabulary;
}

const std::vector<ElementWords>& examples_vocabulary() {
  static const std::vector<ElementWords> kVocabulary = make_examples_vocabulary();
  return kVocabulary;
}

namespace {

std::unordered_map<std::string_view, const ElementWords*> by_shape() {
  std::unordered_map<std::string_view, const ElementWords*> shapes;
  for (const std::vector<ElementWords>* all : {&vocabulary(), &safety_vocabulary(), &examples_vocabulary()}) {
    for (const ElementWords& words : *all) shapes.emplace(words.shape, &words);
  }
  return shapes;
}

}  // namespace

const ElementWords& words_of(std::string_view shape) {
  static const std::unordered_map<std::string_view, const ElementWords*> kByShape = by_shape();
  const auto found = kByShape.find(shape);
  assert(found != kByShape.end());  // shapes are written in the tables above and nowhere else
  return found == kByShape.end() ? vocabulary().front() : *found->second;
}

}  // namespace rushlight
