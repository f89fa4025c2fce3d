#include "cli/record_text.hpp"

#include "cli/plain_text.hpp"
#include "episode/phrases.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

constexpr int kRecordWidth = 80;

std::string day_and_time(const Moment& moment) {
  return text_from_day(local_day_of(moment)) + " " + text_from_clock_time(clock_time_of(moment));
}

class RecordText {
 public:
  explicit RecordText(Language language) : language_(language) {}

  void patterns(const std::vector<std::string>& sentences) {
    heading(RecordWord::patterns_title);
    for (const std::string& sentence : sentences) line("- ", sentence);
    text_ += "\n";
  }

  void night(const NightRecord& night) {
    line("", in_capitals(word(RecordWord::title, night.title, night.child)));
    line("", night.about + ". " + word(RecordWord::from_to, day_and_time(night.began), day_and_time(night.last)) + "." +
                 (night.abandoned ? " " + word(RecordWord::left_off)
                  : night.ended   ? ""
                                  : " " + word(RecordWord::still_open)));
    line("", word(RecordWord::gravest, shown_as(night.gravest, language_)) + ". " +
                 word(RecordWord::set_line, night.set, night.protocol, night.version) + ". " + night.approval);
    heading(RecordWord::readings_title);
    std::string readings;
    for (const RecordReading& reading : night.readings)
      readings += (readings.empty() ? "" : ", ") + text_from_clock_time(clock_time_of(reading.at)) + " " +
                  reading.text + (reading.by_sensor ? " (" + word(RecordWord::sensor) + ")" : "");
    line("", readings);
    heading(RecordWord::totals_title);
    for (const RecordTotal& total : night.totals)
      line("", word(RecordWord::total_line, total.label, total.text,
                    total.times == 1 ? word(RecordWord::once) : word(RecordWord::times, std::to_string(total.times))));
    if (night.totals.empty()) line("", word(RecordWord::nothing_given));
    for (const std::string& call : night.open_calls) line("", word(RecordWord::call_open, call));
    heading(RecordWord::timeline);
    for (const RecordLine& each : night.lines) {
      const std::string lead =
          text_from_clock_time(clock_time_of(each.at)) + (each.kind == RecordLine::Kind::advised ? " > " : "   ");
      line(lead, each.text);
      if (!each.ground.empty()) line("          ", each.ground);
    }
    text_ += "\n";
  }

  std::string text() { return std::move(text_); }

 private:
  std::string word(RecordWord word, const std::string& one = "", const std::string& two = "",
                   const std::string& three = "") const {
    return record_say(word, language_, one, two, three);
  }
  void heading(RecordWord title) { text_ += "-- " + word(title) + "\n"; }
  void line(const std::string& lead, const std::string& words) {
    for (const std::string& each : wrapped(lead, cleaned(words), kRecordWidth)) text_ += each + "\n";
  }

  Language language_;
  std::string text_;
};

}  // namespace

std::string text_from_records(const std::vector<NightRecord>& nights, Language language) {
  RecordText text(language);
  if (nights.size() != 1) text.patterns(patterns_of(nights, language));
  for (const NightRecord& night : nights) text.night(night);
  return text.text();
}

}  // namespace rushlight
