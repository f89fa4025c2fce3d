#include "publish/put_together.hpp"

#include <algorithm>
#include <set>

#include "episode/words.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

/// Texts in the order in which they came up, each once, with how often.
class Counted {
 public:
  void add(const std::string& text, int times) {
    if (text.empty()) return;
    for (auto& [known, count] : texts_) {
      if (known == text) {
        count += times;
        return;
      }
    }
    texts_.emplace_back(text, times);
  }
  void say(std::vector<std::string>& parts) const {
    for (const auto& [text, count] : texts_)
      parts.push_back(count == 1 ? text : text + " \u00d7" + std::to_string(count));
  }

 private:
  std::vector<std::pair<std::string, int>> texts_;
};

std::string joined(const std::vector<std::string>& parts, const char* between) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : between) + part;
  return text;
}

/// LO below all numbers, HI above them.
std::int64_t height_of(const Value& value) {
  if (const auto* glucose = std::get_if<Glucose>(&value)) {
    if (glucose->mark()) return *glucose->mark() == MeterMark::lo ? INT64_MIN : INT64_MAX;
    return glucose->number()->micros();
  }
  if (const auto* ketones = std::get_if<KetoneReading>(&value)) {
    if (const auto number = ketones->number()) return number->quantity().value.micros();
    return INT64_MAX;
  }
  const auto* chosen = std::get_if<Chosen>(&value);
  return chosen != nullptr ? chosen->option : 0;
}

/// "140–210 mg/dL": the readings of one kind. What cannot be compared, two units, stands side by side.
class Span {
 public:
  void add(const RecordReading& reading) {
    const auto* glucose = std::get_if<Glucose>(&reading.value);
    const bool other = glucose != nullptr && glucose->unit() == GlucoseUnit::mmol_per_l;
    Ends& ends = ends_[other ? 1 : 0];
    if (ends.least == nullptr || height_of(reading.value) < height_of(ends.least->value)) ends.least = &reading;
    if (ends.most == nullptr || height_of(ends.most->value) < height_of(reading.value)) ends.most = &reading;
  }
  std::string text() const {
    std::string text;
    for (const Ends& ends : ends_)
      if (ends.least != nullptr) text += (text.empty() ? "" : ", ") + text_of(ends);
    return text;
  }

 private:
  struct Ends {
    const RecordReading *least = nullptr, *most = nullptr;
  };
  static std::string text_of(const Ends& ends) {
    const std::string &least = ends.least->text, &most = ends.most->text;
    if (least == most) return least;
    const std::size_t blank = least.find(' ');
    const bool same_unit = blank != std::string::npos && most.find(' ') != std::string::npos &&
                           least.substr(blank) == most.substr(most.find(' ')) &&
                           ends.least->of != RecordReading::Of::urine_ketones;
    return (same_unit ? least.substr(0, blank) : least) + "\u2013" + most;
  }

  Ends ends_[2];
};

class Together {
 public:
  Together(const NightRecord& night, std::size_t most, bool answers_too)
      : night_(night), most_(most), answers_too_(answers_too) {}

  std::vector<RecordLine> lines() {
    for (const RecordLine& line : night_.lines) {
      const bool known = is_known(line);
      if (!known || run_.size() == most_ || line.grave != was_grave_) finish_run(line.at);
      was_grave_ = line.grave;
      if (known) {
        run_.push_back(&line);
      } else {
        lines_.push_back(line);
      }
    }
    finish_run({night_.last.utc + Duration{1}, night_.last.offset});
    return std::move(lines_);
  }

 private:
  /// Whether nothing in it is new; from now on none of it is.
  bool is_known(const RecordLine& line) {
    bool known = !line.stands_alone && (!line.grave || was_grave_);
    for (const std::string& answer : line.answers) known = (!answers_.insert(answer).second || answers_too_) && known;
    if (!line.advised.empty()) known = !advice_.insert(line.advised + line.ground).second && known;
    for (const RecordDeed& deed : line.done) known = known && deed.everyday;
    return known;
  }

  /// `next`: when the line behind them begins.
  void finish_run(Moment next) {
    if (run_.size() == 1) lines_.push_back(*run_.front());
    if (run_.size() > 1) lines_.push_back(one_for_all(next));
    run_.clear();
  }

  static Moment end_of(const RecordLine& line) {
    Moment end = line.times > 1 ? line.until : line.at;
    for (const RecordDeed& deed : line.done) end = deed.at.utc > end.utc ? deed.at : end;
    return end;
  }

  RecordLine one_for_all(Moment next) const {
    RecordLine all{};
    all.at = run_.front()->at;
    all.until = end_of(*run_.back());
    all.told = told(all, next);
    Counted advice;
    for (const RecordLine* line : run_)
      advice.add(line->advised + (line->ground.empty() ? "" : " (" + line->ground + ")"), line->times);
    std::vector<std::string> advised;
    advice.say(advised);
    all.ground = joined(advised, "; ");
    all.done = done();
    return all;
  }

  std::string told(const RecordLine& all, Moment next) const {
    const bool same_day = local_day_of(all.at) == local_day_of(all.until);
    std::vector<std::string> parts;
    using Of = RecordReading::Of;
    for (const auto& [of, word] :
         {std::pair{Of::glucose, RecordWord::glucose}, std::pair{Of::blood_ketones, RecordWord::ketones},
          std::pair{Of::urine_ketones, RecordWord::urine_ketones}}) {
      Span span;
      for (const RecordReading& reading : night_.readings) {
        if (reading.of == of && reading.at.utc >= all.at.utc && reading.at.utc < next.utc) span.add(reading);
      }
      if (!span.text().empty()) parts.push_back(record_say(word, night_.language) + " " + span.text());
    }
    Counted answers;
    for (const RecordLine* line : run_)
      if (line->late) answers.add(record_say(RecordWord::late, night_.language), line->times);
    bool signs_absent = false, rest_same = false;
    for (const RecordLine* line : run_) {
      for (const std::string& answer : line->answers) answers.add(answer, line->times);
      signs_absent = signs_absent || line->signs_absent;
      rest_same = rest_same || line->rest_same;
    }
    answers.say(parts);
    if (signs_absent) parts.push_back(record_say(RecordWord::no_danger_signs, night_.language));
    if (rest_same) parts.push_back(record_say(RecordWord::else_unchanged, night_.language));
    return record_say(RecordWord::until, night_.language,
                      same_day ? wall_clock(all.until) : day_and_wall_clock(all.until)) +
           ": " + joined(parts, ", ");
  }

  /// Each kind of deed once: how much and how often.
  std::vector<RecordDeed> done() const {
    std::vector<RecordDeed> done;
    for (const RecordLine* line : run_) {
      for (const RecordDeed& deed : line->done) {
        const auto alike = std::find_if(done.begin(), done.end(), [&](const RecordDeed& each) {
          return each.what == deed.what && each.how == deed.how && each.amount.has_value() == deed.amount.has_value() &&
                 (!deed.amount || each.amount->unit == deed.amount->unit);
        });
        if (alike == done.end()) {
          done.push_back(deed);
          continue;
        }
        if (deed.amount) alike->amount->value = alike->amount->value + deed.amount->value;
        alike->times += deed.times;
      }
    }
    for (RecordDeed& deed : done) {
      if (deed.times == 1) continue;
      deed.text = deed.what + (deed.amount ? " " + said(*deed.amount, night_.language) : "") +
                  (deed.how.empty() ? "" : ": " + deed.how) + ", " +
                  record_say(RecordWord::times, night_.language, std::to_string(deed.times));
    }
    return done;
  }

  const NightRecord& night_;
  std::size_t most_;
  bool answers_too_, was_grave_ = false;
  std::set<std::string> answers_, advice_;
  std::vector<const RecordLine*> run_;
  std::vector<RecordLine> lines_;
};

}  // namespace

std::vector<RecordLine> put_together(const NightRecord& night, std::size_t most, bool answers_too) {
  return Together(night, most, answers_too).lines();
}

}  // namespace rushlight
