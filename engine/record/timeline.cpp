#include "record/timeline.hpp"

#include <algorithm>

#include "episode/words.hpp"
#include "record/record_words.hpp"
#include "record/short_answer.hpp"

namespace rushlight {
namespace {

constexpr std::chrono::minutes kOneLook{
    5};  // what is told within it is one look at the child; common practice, no source

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : ", ") + part;
  return text;
}

bool is_sign(const ShortAnswer& answer) { return answer.kind == ShortAnswer::Kind::danger_sign; }

void add_once(std::vector<std::string>& parts, const std::string& part) {
  if (!part.empty() && std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
}

bool is_same_look(const RecordLine& one, const RecordLine& other) {
  return one.told == other.told && one.advised == other.advised && one.ground == other.ground && one.done.empty() &&
         other.done.empty() && !one.untold && local_day_of(one.at) == local_day_of(other.at);
}

}  // namespace

Timeline::Line& Timeline::begin_line(Moment at) {
  lines_.emplace_back();
  lines_.back().line.at = at;
  return lines_.back();
}

Timeline::Line& Timeline::line_for_telling(Moment at) {
  const bool goes_on = !lines_.empty() && !lines_.back().apart && lines_.back().line.advised.empty() &&
                       lines_.back().line.done.empty() && at.utc - lines_.back().line.at.utc <= kOneLook;
  if (!goes_on) begin_line(at);
  return lines_.back();
}

void Timeline::put(Line& line, const Scene& scene, const Answers& answers, bool whole) {
  for (const auto& [fact, value] : answers) {
    if (fact.index < kChildFacts) continue;
    const ShortAnswer answer = short_answer(scene, fact, value, language_);
    line.seen_sign = line.seen_sign || answer.seen_sign;
    const auto before = before_.find(fact.index);
    const bool unchanged = before != before_.end() && before->second == value && !whole;
    if (answer.kind == ShortAnswer::Kind::reading) {
      line.readings.push_back(answer.text);
    } else if (unchanged && is_sign(answer)) {
      add_once(line.absent_signs, answer.text);
    } else if (unchanged && answer.kind == ShortAnswer::Kind::calm) {
      ++line.unchanged;
    } else {
      add_once(line.answers, answer.text);
    }
    before_.insert_or_assign(fact.index, value);
  }
}

void Timeline::answers(Moment at, const Scene& scene, const Answers& answers) {
  put(line_for_telling(at), scene, answers, false);
}

void Timeline::apart(Moment at, const std::string& lead, const Scene& scene, const Answers& answers) {
  begin_line(at).apart = true;
  lines_.back().leads.push_back(lead);
  put(lines_.back(), scene, answers, true);
}

void Timeline::late(Moment at, const std::string& words) {
  Line& line = line_for_telling(at);
  line.late = true;
  add_once(line.leads, words);
}

void Timeline::advice(Moment at, const Advice& advice) {
  const bool goes_on = !lines_.empty() && lines_.back().line.advised.empty() && lines_.back().line.done.empty() &&
                       at.utc - lines_.back().line.at.utc <= kOneLook;
  if (!goes_on) begin_line(at);
  lines_.back().line.advised = advice.words;
  lines_.back().line.ground = advice.ground;
  lines_.back().wants_a_deed = advice.wants_a_deed;
  lines_.back().grave = advice.grave;
  sips_ = false;
}

void Timeline::deed(Moment at, const ToldDeed& told) {
  if (lines_.empty()) begin_line(at);
  std::vector<RecordDeed>& done = lines_.back().line.done;
  const bool sip = told.drinks && told.amount && told.how.empty();
  if (sip && sips_ && !done.empty() && done.back().what == told.label &&
      done.back().amount->unit == told.amount->unit) {
    RecordDeed& sips = done.back();
    sips.amount->value = sips.amount->value + told.amount->value;
    ++sips.times;
    sips.text = told.label + " " + said(*sips.amount, language_) + ", " +
                record_say(RecordWord::times, language_, std::to_string(sips.times)) + ", " + wall_clock(sips.at) +
                "\u2013" + wall_clock(at);
    return;
  }
  RecordDeed deed{at, told.label, told.treats_low, sip || told.is_call, told.label, told.how, told.amount};
  if (told.amount) deed.text += " " + said(*told.amount, language_);
  if (!told.how.empty()) deed.text += ": " + told.how;
  done.push_back(std::move(deed));
  sips_ = sip;
}

std::string Timeline::told(const Line& line) const {
  std::vector<std::string> parts = line.readings;
  parts.insert(parts.end(), line.answers.begin(), line.answers.end());
  // One sign alone is named: "no danger signs" is more than that. So is each beside one that is there.
  if (line.absent_signs.size() > 1 && !line.seen_sign) {
    parts.push_back(record_say(RecordWord::no_danger_signs, language_));
  } else {
    parts.insert(parts.end(), line.absent_signs.begin(), line.absent_signs.end());
  }
  if (line.unchanged > 0) parts.push_back(record_say(RecordWord::else_unchanged, language_));
  std::string text;
  for (const std::string& lead : line.leads) text += (text.empty() ? "" : ". ") + lead;
  const std::string answers = joined(parts);
  return text + (text.empty() || answers.empty() ? "" : ": ") + answers;
}

std::vector<RecordLine> Timeline::finished() {
  std::vector<RecordLine> lines;
  for (Line& line : lines_) {
    RecordLine& made = line.line;
    made.told = told(line);
    made.untold = line.wants_a_deed && made.done.empty();
    made.answers = line.answers;
    made.signs_absent = !line.absent_signs.empty();
    made.rest_same = line.unchanged > 0;
    made.stands_alone = line.apart || line.seen_sign || made.untold;
    made.grave = line.grave;
    made.late = line.late;
    const bool again = !lines.empty() && !line.apart && !made.untold && is_same_look(lines.back(), made);
    if (!again) {
      lines.push_back(std::move(made));
      continue;
    }
    lines.back().until = made.at;
    ++lines.back().times;
  }
  for (RecordLine& line : lines) {
    if (line.times > 1)
      line.told += (line.told.empty() ? "" : "; ") +
                   record_say(RecordWord::times_until, language_, std::to_string(line.times), wall_clock(line.until));
  }
  return lines;
}

}  // namespace rushlight
