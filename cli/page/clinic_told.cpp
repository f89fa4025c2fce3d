#include "cli/page/clinic_told.hpp"

#include <algorithm>

#include "cli/plain_text.hpp"
#include "cli/told_differences.hpp"
#include "episode/words.hpp"
#include "finding/told_finding.hpp"
#include "picture/names.hpp"
#include "verify/decisions.hpp"

namespace rushlight {
namespace {

void write_texts(JsonWriter& json, const std::vector<std::string>& texts) {
  json.begin_list();
  for (const std::string& text : texts) json.text(cleaned(text));
  json.end_list();
}

// Among others of its turn a difference needs no word for it.
void write_difference(JsonWriter& json, const ToldDifference& told, const std::string& word) {
  json.begin_object()
      .key("word")
      .text(word)
      .key("was")
      .text(cleaned(told.was))
      .key("now")
      .text(cleaned(whole_now(told)));
  json.key("places");
  write_texts(json, told.places);
  json.end_object();
}

}  // namespace

void write_finding(JsonWriter& json, const Finding& finding, const std::optional<std::string>& line, bool fresh) {
  const ToldFinding told = told_finding(finding, line);
  json.begin_object().key("severity").text(finding.severity == Severity::error ? "error" : "warning");
  json.key("fresh").boolean(fresh).key("place").text(cleaned(told.place)).key("sentence").text(cleaned(told.sentence));
  // Each by itself: the mark stands under its word only while both keep their blanks.
  json.key("line").text(cleaned(told.line)).key("caret").text(cleaned(told.caret));
  json.key("because").text(cleaned(told.because)).key("try").text(cleaned(told.right)).end_object();
}

void write_differences(JsonWriter& json, const Differences& all) {
  const ToldDifferences told = told_differences(all);
  json.begin_object().key("protocol").text(all.sides.both.name).key("numbers");
  write_texts(json, told.numbers);
  json.key("common").text(cleaned(told.common)).key("groups").begin_list();
  if (!told.first.empty()) {
    json.begin_object().key("turn").text("first").key("heading").text(kFirstAnswers).key("differences").begin_list();
    for (const ToldDifference& each : told.first) write_difference(json, each, word_of(each.turn));
    json.end_list().end_object();
  }
  std::optional<Difference::Turn> turn;
  for (const ToldDifference& each : told.differences) {
    if (turn != each.turn) {
      if (turn) json.end_list().end_object();
      json.begin_object().key("turn").text(name_of(each.turn)).key("heading").text(heading_of(each.turn));
      json.key("differences").begin_list();
    }
    turn = each.turn;
    write_difference(json, each, "");
  }
  if (turn) json.end_list().end_object();
  json.end_list().key("gave_up").text(told.gave_up).key("same").text(told.same).end_object();
}

std::optional<Comparing> most_comparing(const Protocol& protocol, const std::vector<ThresholdId>& numbers) {
  const auto is_one = [&](ThresholdId limit) {
    return std::find(numbers.begin(), numbers.end(), limit) != numbers.end();
  };
  std::optional<Comparing> most;
  std::size_t most_rules = 0;
  for (const Step& step : protocol.steps) {
    std::string subject;
    std::size_t rules = 0;
    for (const Rule& rule : step.rules) {
      for (const Condition& condition : rule.when) {
        const auto* compares = std::get_if<Compares>(&condition.test);
        const auto* counted = std::get_if<CountedAtLeast>(&condition.test);
        if (!(compares && is_one(compares->limit)) && !(counted && is_one(counted->limit))) continue;
        subject = compares ? protocol[compares->fact].name : protocol[counted->counter].name;
        ++rules;
      }
    }
    if (rules <= most_rules) continue;
    most_rules = rules;
    most = Comparing{step.name, subject};
  }
  return most;
}

void write_steps(JsonWriter& json, const Protocol& protocol, Language language) {
  json.begin_object().key("protocol").text(protocol.name);
  json.key("title").text(cleaned(plain_words(protocol.title, language))).key("steps").begin_list();
  for (const Step& step : protocol.steps) {
    const std::vector<Subject> read = read_by(protocol, step);
    if (read.empty()) continue;
    json.begin_object().key("step").text(step.name).key("reads").begin_list();
    for (const Subject& subject : read) {
      json.begin_object().key("name").text(name_of(protocol, subject));
      json.key("meaning").text(cleaned(meaning_of(protocol, subject))).end_object();
    }
    json.end_list().end_object();
  }
  json.end_list().end_object();
}

}  // namespace rushlight
