#include "publish/record_layout.hpp"

#include <algorithm>

#include "publish/put_together.hpp"
#include "publish/record_chart.hpp"
#include "publish/slab.hpp"
#include "record/reading_table.hpp"
#include "record/record_words.hpp"
#include "record/summary.hpp"

namespace rushlight {
namespace {

constexpr double kMarginAround = 22;
constexpr double kFoot = 12;      // for the page's number
constexpr double kBelowLines = 0.5;  // between two lines of the timeline
// A clinic reads it at a desk: letters as large as one page allows. Of a night that takes more, as large as is easy to
// read.
constexpr double kSizes[] = {10, 9.5, 9, 8.5, kSmallestOnRecord};
constexpr double kSizeOfMorePages = 9;

/// The pages of one night, in letters of one size.
class NightPages {
 public:
  /// `foot`: kept free for the number of the page.
  /// `lines`: its timeline, which may be shorter than the night's own.
  NightPages(const NightRecord& night, const std::vector<RecordLine>& lines, const PaperSize& paper, double size,
             double foot, Pen& pen)
      : night_(night),
        lines_(lines),
        pen_(pen),
        size_(size),
        width_(paper.width - 2 * kMarginAround),
        bottom_(paper.height - kMarginAround - foot),
        inner_(width_ - 12) {}

  std::vector<LaidPage> pages() {
    const RecordSummary summary = summary_of(night_);
    begin_page();
    words(summary.title, size_ + 4, true, "H1");
    for (const std::string& sentence : summary.head) words(sentence, size_, &sentence == &summary.head.front(), "P");
    readings();
    side_by_side(summary);
    heading(RecordWord::timeline);
    if (lines_.size() < night_.lines.size()) words(word(RecordWord::looks_together), size_, false, "P");
    choose_columns();
    timeline_head();
    Day day = local_day_of(night_.began);
    for (const RecordLine& line : lines_) {
      if (local_day_of(line.at) != day) words(text_from_day(day = local_day_of(line.at)), size_, true, "P");
      put(timeline(line));
    }
    heading(RecordWord::sources_title);
    if (lines_.size() < night_.lines.size()) {
      std::string all;
      for (std::size_t at = 0; at < night_.sources.size(); ++at)
        all += (at == 0 ? "[" : ". [") + std::to_string(at + 1) + "] " + night_.sources[at].citation;
      words(all, kSmallestOnRecord, false, "P");
    } else {
      for (const std::string& source : summary.sources) words(source, kSmallestOnRecord, false, "P");
    }
    words(summary.foot, kSmallestOnRecord, true, "P");
    return std::move(pages_);
  }

 private:
  std::string word(RecordWord word) const { return record_say(word, night_.language); }

  void begin_page() {
    pages_.emplace_back();
    y_ = kMarginAround;
  }

  void put(const Slab& slab) {
    if (y_ + slab.height() > bottom_) begin_page();
    pages_.back().boxes.push_back(moved_to(slab.box(), kMarginAround, y_));
    y_ += slab.height() - 2 * Slab::kPad + kBelowLines;  // lines of one text stand close
  }

  void words(const std::string& text, double size, bool bold, const char* tag) {
    Slab slab(pen_, tag, width_, 0);
    slab.words(text, {{size, bold}, 0, 0, tag, false});
    put(slab);
  }

  void heading(RecordWord title) {
    Slab slab(pen_, "H2", width_, 0);
    slab.gap(2);
    slab.words(word(title), {{size_ + 1.5, true}, 0, 0, "H2", false});
    put(slab);
  }

  void readings() {
    const ReadingTable table = reading_table_of(night_);
    const RecordChart chart(night_, table, inner_, size_, pen_);
    if (!chart.holds_the_table()) bands(table);
    if (chart.is_worth_it()) {
      Slab slab(pen_, "chart", width_, 0);
      slab.gap(2);
      slab.put(chart.block(), chart.height());
      put(slab);
    }
    if (!table.sensor_note.empty()) words(table.sensor_note, size_, false, "P");
  }

  void bands(const ReadingTable& table) {
    const std::string* heads[] = {&table.glucose_head, &table.ketones_head, &table.urine_head};
    double head = measured("2026-03-01", true), cell = measured("02:11", true);
    for (const std::string* each : heads) head = std::max(head, measured(*each, true));
    for (const ReadingColumn& column : table.columns)
      for (const std::string* each : {&column.glucose, &column.ketones, &column.urine})
        cell = std::max(cell, std::min(measured(*each, true), inner_ / 5));
    head += 8;
    cell += 6;
    const auto room = static_cast<std::size_t>(std::max(1.0, (inner_ - head) / cell));
    for (const auto& [first, end] : bands_of(table, room)) {
      using Row = std::vector<Slab::Cell>;
      Row times{{0, head, "", text_from_day(local_day_of(table.columns[first].at))}};
      Row rows[] = {{{0, head, "", *heads[0]}}, {{0, head, "", *heads[1]}}, {{0, head, "", *heads[2]}}};
      for (std::size_t at = first; at < end; ++at) {
        const ReadingColumn& column = table.columns[at];
        const double left = head + cell * static_cast<double>(at - first);
        times.push_back({left, cell, "", wall_clock(column.at)});
        rows[0].push_back({left, cell, column.glucose, ""});
        rows[1].push_back({left, cell, column.ketones, ""});
        rows[2].push_back({left, cell, column.urine, ""});
      }
      Slab slab(pen_, "readings", width_, 0);
      slab.row(times, {size_, false});
      for (std::size_t each = 0; each < 3; ++each)
        if (!heads[each]->empty()) slab.row(rows[each], {size_, false});
      put(slab);
    }
  }

  double measured(const std::string& text, bool bold) {
    return text.empty() ? 0 : pen_.lines(text, {size_, bold}, 1000).front().width;
  }

  /// What went in, and who was called.
  void side_by_side(const RecordSummary& summary) {
    const double left = inner_ * 0.45, right = inner_ - left - kGap;
    Slab slab(pen_, "totals and calls", width_, 0);
    slab.gap(2);
    const auto column = [&](double at, double wide, RecordWord title, const std::vector<std::string>& lines) {
      Slab::Cell cell{at, wide, word(title), ""};
      slab.row({cell}, {size_ + 1.5, true}, "H2");
      for (const std::string& line : lines) slab.row({{at, wide, "", line}}, {size_, false});
    };
    const double top = slab.y();
    column(0, left, RecordWord::totals_title, summary.totals);
    const double below = slab.y();
    slab.gap(top - below);
    column(left + kGap, right, RecordWord::calls_title, summary.calls);
    slab.gap(std::max(0.0, below - slab.y()));
    put(slab);
  }

  /// What was told, was advised and was done, as parts of the width.
  struct Shares {
    double told, advised;
  };
  static constexpr Shares kShares[] = {{0.4, 0.38}, {0.46, 0.34}, {0.36, 0.44}, {0.5, 0.32}, {0.34, 0.4}};

  /// As the timeline is shortest.
  void choose_columns() {
    double shortest = 0;
    Shares best = kShares[0];
    for (const Shares& shares : kShares) {
      shares_ = shares;
      double height = 0;
      for (const RecordLine& line : lines_) height += timeline(line).height();
      if (&shares != kShares && height >= shortest) continue;
      shortest = height;
      best = shares;
    }
    shares_ = best;
  }

  struct Columns {
    double when, told, advised, done;  // where they begin
    double told_wide, advised_wide, done_wide;
  };
  Columns columns() {
    Columns columns{};
    columns.told = measured("00:00", false) + 6;
    const double room = inner_ - columns.told - 2 * kGap;
    columns.told_wide = room * shares_.told;
    columns.advised_wide = room * shares_.advised;
    columns.done_wide = room - columns.told_wide - columns.advised_wide;
    columns.advised = columns.told + columns.told_wide + kGap;
    columns.done = columns.advised + columns.advised_wide + kGap;
    return columns;
  }

  void timeline_head() {
    const Columns at = columns();
    Slab slab(pen_, "line", width_, 0);
    slab.row({{at.told, at.told_wide, word(RecordWord::told_column), ""},
              {at.advised, at.advised_wide, word(RecordWord::advised_column), ""},
              {at.done, at.done_wide, word(RecordWord::done_column), ""}},
             {size_, false});
    slab.rule();
    put(slab);
  }

  Slab timeline(const RecordLine& line) {
    const Columns at = columns();
    std::string done = line.untold ? word(RecordWord::untold) : "";
    for (const RecordDeed& deed : line.done) done += (done.empty() ? "" : "\n") + wall_clock(deed.at) + " " + deed.text;
    Slab slab(pen_, "line", width_, 0);
    slab.row({{0, at.told, "", wall_clock(line.at)},
              {at.told, at.told_wide, "", line.told},
              {at.advised, at.advised_wide, line.advised, ground_beside(line, at.advised_wide)},
              {at.done, at.done_wide, "", done}},
             {size_, false});
    return slab;
  }

  /// Behind the advice where it has room there; else below it, so that no rule's name is broken.
  std::string ground_beside(const RecordLine& line, double wide) {
    const bool fits = measured(line.advised, true) + measured(" " + line.ground, false) < wide;
    return line.advised.empty() || line.ground.empty() || fits ? line.ground : "\n" + line.ground;
  }

  static constexpr double kGap = 8;

  const NightRecord& night_;
  const std::vector<RecordLine>& lines_;
  Pen& pen_;
  double size_, width_, bottom_, inner_;
  Shares shares_ = kShares[0];
  std::vector<LaidPage> pages_;
  double y_ = 0;
};

/// The whole timeline in letters as large as one page allows; then with looks put together, no more than it takes.
std::vector<LaidPage> pages_of(const NightRecord& night, const PaperSize& paper, bool alone, Pen& pen) {
  for (const double size : kSizes) {
    std::vector<LaidPage> pages = NightPages(night, night.lines, paper, size, alone ? 0 : kFoot, pen).pages();
    if (pages.size() == 1) return pages;
  }
  for (const bool answers_too : {false, true}) {
    std::size_t before = night.lines.size();
    for (std::size_t most = 2; most < 2 * night.lines.size(); most *= 2) {
      const std::vector<RecordLine> lines = put_together(night, most, answers_too);
      if (lines.size() == before) break;
      before = lines.size();
      for (const double size : {kSizeOfMorePages, kSmallestOnRecord}) {
        std::vector<LaidPage> pages = NightPages(night, lines, paper, size, alone ? 0 : kFoot, pen).pages();
        if (pages.size() == 1) return pages;
      }
    }
  }
  return NightPages(night, night.lines, paper, kSizeOfMorePages, kFoot, pen).pages();
}

LaidPage patterns_page(const std::vector<NightRecord>& nights, Language language, const PaperSize& paper, Pen& pen) {
  Slab slab(pen, "patterns", paper.width - 2 * kMarginAround, 0);
  if (!nights.empty()) slab.words(nights.front().child, {{16, true}, 0, 0, "H1", false});
  slab.words(record_say(RecordWord::patterns_title, language), {{kSmallestText, true}, 0, 0, "H2", false});
  for (const std::string& sentence : patterns_of(nights, language)) slab.words(sentence, {});
  return {{moved_to(slab.box(), kMarginAround, kMarginAround)}};
}

}  // namespace

Laid laid_records(const std::vector<NightRecord>& nights, Language language, const PaperSize& paper, Pen& pen) {
  Laid laid{};
  laid.paper = paper;
  laid.language = language == Language::es ? "es" : "en";
  if (nights.size() != 1) laid.pages.push_back(patterns_page(nights, language, paper, pen));
  for (const NightRecord& night : nights) {
    for (LaidPage& page : pages_of(night, paper, nights.size() == 1, pen)) laid.pages.push_back(std::move(page));
  }
  if (!nights.empty()) {
    laid.title = record_say(RecordWord::title, language, nights.front().title, nights.front().child);
    laid.date = text_from_day(local_day_of(nights.front().last));
  }
  for (std::size_t at = 0; laid.pages.size() > 1 && at < laid.pages.size(); ++at) {
    Slab foot(pen, "page number", paper.width - 2 * kMarginAround, 0);
    foot.words(record_say(RecordWord::page_of, language, std::to_string(at + 1), std::to_string(laid.pages.size())),
               {{9, false}, 0, 0, "P", false});
    laid.pages[at].boxes.push_back(moved_to(foot.box(), kMarginAround, paper.height - kMarginAround - kFoot));
  }
  return laid;
}

}  // namespace rushlight
