#include "publish/record_layout.hpp"

#include <algorithm>

#include "episode/phrases.hpp"
#include "publish/slab.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

constexpr double kMarginAround = 40;
constexpr double kPlain = 10.5, kHead = 12, kTop = 16;  // a clinic reads it at a desk
constexpr double kChart = 90;

double in_points(Decimal value) { return static_cast<double>(value.micros()) / 1e6; }

std::string clock_text_of(const Moment& moment) { return text_from_clock_time(clock_time_of(moment)); }
std::string day_and_clock(const Moment& moment) {
  return text_from_day(local_day_of(moment)) + " " + clock_text_of(moment);
}

/// The readings of one unit against the time; LO lies on the floor and HI under the roof.
class Chart {
 public:
  Chart(const NightRecord& night, double width) : width_(width) {
    for (const RecordReading& reading : night.readings) {
      if (reading.of == RecordReading::Of::glucose) readings_.push_back(&reading);
    }
    for (const RecordReading* reading : readings_) {
      if (const auto number = std::get<Glucose>(reading->value).number()) most_ = std::max(most_, in_points(*number));
    }
  }

  bool is_worth_it() const { return readings_.size() >= 2 && most_ > 0; }

  PageBlock block(Pen& pen) const {
    PageBlock block{"P", {}};
    const auto line = [&](double x, double y, double to_x, double to_y, double weight) {
      Ink ink{Ink::Kind::line, {x, y, to_x - x, to_y - y}};
      ink.weight = weight;
      block.marks.push_back(ink);
    };
    line(0, kChart - kLabel, width_, kChart - kLabel, 0.8);
    double last_x = -1, last_y = 0, free_from = -1;
    for (const RecordReading* reading : readings_) {
      const double x = x_of(reading->at), y = y_of(std::get<Glucose>(reading->value));
      if (last_x >= 0) line(last_x, last_y, x, y, 1.2);
      Ink dot{Ink::Kind::filled, {x - 2, y - 2, 4, 4}};
      block.marks.push_back(dot);
      const PenLine number = pen.lines(number_of(*reading), {kPlain, true}, width_).front();
      const PenLine when = pen.lines(clock_text_of(reading->at), {kPlain, false}, width_).front();
      const double left = std::clamp(x - number.width / 2, 0.0, width_ - when.width);
      if (left > free_from) {
        add(block, number, left, std::max(0.0, y - 4 - number.above - number.below));
        add(block, when, left, kChart - kLabel + 2);
        free_from = left + std::max(number.width, when.width) + 4;
      }
      last_x = x;
      last_y = y;
    }
    return block;
  }

 private:
  static constexpr double kLabel = 15;

  static void add(PageBlock& block, const PenLine& line, double x, double y) {
    Ink ink{Ink::Kind::text, {x, y, line.width, line.above + line.below}, line.text};
    ink.size = kPlain;
    ink.bold = line.bold;
    ink.baseline = line.above;
    block.marks.push_back(std::move(ink));
  }

  static std::string number_of(const RecordReading& reading) {
    const auto number = std::get<Glucose>(reading.value).number();
    return number ? text_from_decimal(*number) : reading.text;
  }

  double x_of(const Moment& at) const {
    const auto whole = (readings_.back()->at.utc - readings_.front()->at.utc).count();
    const auto part = (at.utc - readings_.front()->at.utc).count();
    return whole <= 0 ? 0 : (width_ - 30) * static_cast<double>(part) / static_cast<double>(whole) + 10;
  }
  double y_of(const Glucose& glucose) const {
    const double floor = kChart - kLabel - 3, roof = 20;
    if (glucose.mark()) return *glucose.mark() == MeterMark::lo ? floor : roof;
    return floor - (floor - roof) * in_points(*glucose.number()) / most_;
  }

  double width_;
  std::vector<const RecordReading*> readings_;
  double most_ = 0;
};

class RecordLayout {
 public:
  RecordLayout(Language language, const PaperSize& paper, Pen& pen) : language_(language), pen_(pen) {
    laid_.paper = paper;
    laid_.language = language == Language::es ? "es" : "en";
    width_ = paper.width - 2 * kMarginAround;
    bottom_ = paper.height - kMarginAround;
  }

  void patterns(const std::vector<std::string>& sentences, const std::string& child) {
    begin_page();
    words(child, kTop, true, "H1");
    words(word(RecordWord::patterns_title), kHead, true, "H2");
    for (const std::string& sentence : sentences) words(sentence, kHead, false, "P");
  }

  void night(const NightRecord& night) {
    begin_page();
    if (laid_.title.empty()) {
      laid_.title = word(RecordWord::title, night.title, night.child);
      laid_.date = text_from_day(local_day_of(night.last));
    }
    words(word(RecordWord::title, night.title, night.child), kTop, true, "H1");
    words(night.about + ". " + word(RecordWord::from_to, day_and_clock(night.began), day_and_clock(night.last)) + "." +
              (night.abandoned ? " " + word(RecordWord::left_off)
               : night.ended   ? ""
                               : " " + word(RecordWord::still_open)),
          kPlain, false, "P");
    words(word(RecordWord::gravest, shown_as(night.gravest, language_)) + ". " +
              word(RecordWord::set_line, night.set, night.protocol, night.version) + ". " + night.approval,
          kPlain, false, "P");
    readings(night);
    words(word(RecordWord::totals_title), kHead, true, "H2");
    for (const RecordTotal& total : night.totals)
      words(word(RecordWord::total_line, total.label, total.text,
                 total.times == 1 ? word(RecordWord::once) : word(RecordWord::times, std::to_string(total.times))),
            kPlain, false, "P");
    if (night.totals.empty()) words(word(RecordWord::nothing_given), kPlain, false, "P");
    for (const std::string& call : night.open_calls) words(word(RecordWord::call_open, call), kPlain, true, "P");
    words(word(RecordWord::timeline), kHead, true, "H2");
    for (const RecordLine& line : night.lines) timeline(line);
  }

  Laid finished() {
    for (std::size_t at = 0; laid_.pages.size() > 1 && at < laid_.pages.size(); ++at) {
      Slab foot(pen_, "page number", width_, 0);
      foot.words(word(RecordWord::page_of, std::to_string(at + 1), std::to_string(laid_.pages.size())),
                 {{kPlain, false}, 0, 0, "P", false});
      laid_.pages[at].boxes.push_back(moved_to(foot.box(), kMarginAround, bottom_ + 6));
    }
    return std::move(laid_);
  }

 private:
  std::string word(RecordWord word, const std::string& one = "", const std::string& two = "",
                   const std::string& three = "") const {
    return record_say(word, language_, one, two, three);
  }

  void begin_page() {
    laid_.pages.emplace_back();
    y_ = kMarginAround;
  }

  void put(const Slab& slab) {
    if (y_ + slab.height() > bottom_) begin_page();
    laid_.pages.back().boxes.push_back(moved_to(slab.box(), kMarginAround, y_));
    y_ += slab.height() - Slab::kPad;  // lines of one text stand close
  }

  void words(const std::string& text, double size, bool bold, const char* tag) {
    Slab slab(pen_, tag, width_, 0);
    if (size > kPlain) slab.gap(4);
    slab.words(text, {{size, bold}, 0, 0, tag, false});
    put(slab);
  }

  void readings(const NightRecord& night) {
    words(word(RecordWord::readings_title), kHead, true, "H2");
    std::string all;
    for (const RecordReading& reading : night.readings)
      all += (all.empty() ? "" : ", ") + clock_text_of(reading.at) + " " + reading.text +
             (reading.by_sensor ? " (" + word(RecordWord::sensor) + ")" : "");
    words(all, kPlain, false, "P");
    const Chart chart(night, width_ - 12);
    if (!chart.is_worth_it()) return;
    Slab slab(pen_, "chart", width_, 0);
    slab.put(chart.block(pen_), kChart);
    put(slab);
  }

  void timeline(const RecordLine& line) {
    Slab slab(pen_, "line", width_, 0);
    const bool advised = line.kind == RecordLine::Kind::advised;
    const std::string when = clock_text_of(line.at);
    slab.words(when, (advised ? "\u2192 " : "") + line.text, {{kPlain, false}, 0, 0, "P", false});
    if (!line.ground.empty()) slab.words(line.ground, {{kPlain, false}, 36, 0, "P", false});
    put(slab);
  }

  Language language_;
  Pen& pen_;
  Laid laid_{};
  double width_, bottom_;
  double y_ = 0;
};

}  // namespace

Laid laid_records(const std::vector<NightRecord>& nights, Language language, const PaperSize& paper, Pen& pen) {
  RecordLayout layout(language, paper, pen);
  if (nights.size() != 1) layout.patterns(patterns_of(nights, language), nights.empty() ? "" : nights.front().child);
  for (const NightRecord& night : nights) layout.night(night);
  return layout.finished();
}

}  // namespace rushlight
