#include "cli/record_text.hpp"

#include <algorithm>

#include "cli/plain_text.hpp"
#include "record/reading_table.hpp"
#include "record/record_words.hpp"
#include "record/summary.hpp"

namespace rushlight {
namespace {

constexpr int kRecordWidth = 80;

/// Behind its words, enough blanks to fill so many columns.
std::string in_columns(const std::string& text, int columns) {
  return text + std::string(static_cast<std::size_t>(std::max(1, columns - columns_of(text))), ' ');
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
    const RecordSummary summary = summary_of(night);
    line("", in_capitals(summary.title));
    for (const std::string& sentence : summary.head) line("", sentence);
    heading(RecordWord::readings_title);
    readings(night);
    heading(RecordWord::totals_title);
    for (const std::string& total : summary.totals) line("", total);
    heading(RecordWord::calls_title);
    for (const std::string& call : summary.calls) line("", call);
    heading(RecordWord::timeline);
    line("       > ", word(RecordWord::advised_column));
    line("       = ", word(RecordWord::done_column));
    Day day = local_day_of(night.began);
    for (const RecordLine& each : night.lines) {
      if (local_day_of(each.at) != day) line("", text_from_day(day = local_day_of(each.at)));
      timeline(each);
    }
    heading(RecordWord::sources_title);
    for (const std::string& source : summary.sources) line("", source);
    line("", summary.foot);
    text_ += "\n";
  }

  std::string text() { return std::move(text_); }

 private:
  std::string word(RecordWord word, const std::string& one = "", const std::string& two = "",
                   const std::string& three = "") const {
    return record_say(word, language_, one, two, three);
  }
  /// As many columns as there is room for, then the next ones below.
  void readings(const NightRecord& night) {
    const ReadingTable table = reading_table_of(night);
    const int head = 2 + std::max({columns_of(table.glucose_head), columns_of(table.ketones_head),
                                   columns_of(table.urine_head), columns_of("2026-03-01")});
    int cell = 6;
    for (const ReadingColumn& column : table.columns)
      cell = std::max(
          {cell, columns_of(column.glucose) + 1, columns_of(column.ketones) + 1, columns_of(column.urine) + 1});
    const auto room = static_cast<std::size_t>(std::max(1, (kRecordWidth - head) / cell));
    for (const auto& [first, end] : bands_of(table, room)) {
      std::string times = in_columns(text_from_day(local_day_of(table.columns[first].at)), head);
      std::string glucose = in_columns(table.glucose_head, head), ketones = in_columns(table.ketones_head, head),
                  urine = in_columns(table.urine_head, head);
      for (std::size_t at = first; at < end; ++at) {
        times += in_columns(wall_clock(table.columns[at].at), cell);
        glucose += in_columns(table.columns[at].glucose, cell);
        ketones += in_columns(table.columns[at].ketones, cell);
        urine += in_columns(table.columns[at].urine, cell);
      }
      row(times);
      if (!table.glucose_head.empty()) row(glucose);
      if (!table.ketones_head.empty()) row(ketones);
      if (!table.urine_head.empty()) row(urine);
    }
    if (!table.sensor_note.empty()) line("", table.sensor_note);
  }
  void row(std::string text) {
    while (!text.empty() && text.back() == ' ') text.pop_back();
    text_ += text + "\n";
  }

  void timeline(const RecordLine& each) {
    const std::string when = wall_clock(each.at) + "  ";
    if (!each.told.empty()) line(when, each.told);
    if (!each.advised.empty())
      line((each.told.empty() ? when : "       ") + "> ",
           each.advised + (each.ground.empty() ? "" : " (" + each.ground + ")"));
    if (each.untold) line("       = ", word(RecordWord::untold));
    for (const RecordDeed& deed : each.done) line("       = ", wall_clock(deed.at) + " " + deed.text);
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
