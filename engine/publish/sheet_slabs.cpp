#include "publish/sheet_slabs.hpp"

#include <algorithm>

#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

constexpr double kThin = 1, kThick = 3;
constexpr double kUnder = 9;                // what follows upon the branch above it stands in by so much
constexpr double kTitles[] = {18, 16, 14};  // of the page: as large as its line bears
constexpr double kBig = 20, kTitle = 14, kLoud = 16;

std::string joined(const std::vector<SheetLine>& lines) {
  std::string text;
  for (const SheetLine& line : lines) text += (text.empty() ? "" : " ") + line.text;
  return text;
}

void tick_all(Slab& slab, const std::vector<SheetLine>& lines, double indent = 0) {
  for (const SheetLine& line : lines) {
    if (line.is_headline) {
      slab.words(line.text, {{kSmallestText, true}, indent, 0, "P", false});
    } else {
      slab.tick(line.text, indent);
    }
  }
}

/// One branch; where it leads to another page, that page.
void put_way(Slab& slab, const SheetWay& way, Language language, const Elsewhere& elsewhere) {
  std::string then = joined(way.lines);
  const auto page = elsewhere.find(way.go);
  if (page != elsewhere.end())
    then += (then.empty() ? "" : " ") + sheet_say(SheetWord::see_page, language, std::to_string(page->second));
  slab.branch(way.when, then, way.go == 0 ? "" : std::to_string(way.go), way.under ? kUnder : 0);
}

/// The title of the page: of a long name in smaller letters.
void page_title(Slab& slab, Pen& pen, const std::string& title, double largest) {
  double size = largest;
  for (const double each : kTitles) {
    if (each > largest) continue;
    size = each;
    if (pen.lines(title, {size, true}, slab.width() - 2 * Slab::kPad - kPageNumber - 8).size() == 1) break;
  }
  slab.words(title, {{size, true}, 0, kPageNumber, "H1", false});
}

Slab::Style bold(double indent = 0) { return {{kSmallestText, true}, indent, 0, "P", false}; }

void trained_box(Slab& slab, Pen& pen, const SheetBox& box, Language language) {
  slab.rule();
  slab.words(sheet_say(SheetWord::trained_title, language), {{kTitle, true}, 0, 0, "P", false});
  // Ticked before, by those who know.
  PageBlock answers{"P", {}};
  double x = 0;
  for (const SheetWord each : {SheetWord::yes, SheetWord::no}) {
    const PenLine line = pen.lines(sheet_say(each, language), {kSmallestText, true}, 100).front();
    Ink tick{Ink::Kind::check, {x, 2, 11, 11}};
    tick.weight = 1.4;
    Ink text{Ink::Kind::text, {x + 15, 0, line.width, line.above + line.below}, line.text};
    text.size = kSmallestText;
    text.bold = true;
    text.baseline = line.above;
    answers.marks.push_back(tick);
    answers.marks.push_back(text);
    x += 15 + line.width + 12;
  }
  const double first = slab.y();
  slab.put(std::move(answers), 0);
  slab.words(sheet_say(SheetWord::trained_tick, language), {{kSmallestText, false}, x, 0, "P", false});
  slab.gap(std::max(0.0, first + 15 - slab.y()));
  // An untrained eye begins at the top: each list says whom it is for.
  std::vector<SheetLine> trained = box.trained;
  trained.front().text = sheet_say(SheetWord::yes, language) + ": " + trained.front().text;
  tick_all(slab, trained, 6);
  slab.branch(sheet_say(SheetWord::trained_no, language), joined(box.untrained), "");
  slab.rule();
}

/// Room to write the time and the reading of each round in, a line that a pen fits into.
void rounds(Slab& slab, Pen& pen, const SheetBox& box, Language language) {
  constexpr double kRow = 19;
  const Letters plain{kSmallestText, false};
  const auto measured = [&](const std::string& text) { return pen.lines(text, plain, 500).front().width; };
  const std::string sugar = sheet_say(SheetWord::sugar_at, language), at = sheet_say(SheetWord::measured_at, language),
                    reading = sheet_say(SheetWord::reading_blank, language);
  for (int round = 1; round <= box.rounds; ++round) {
    PageBlock row{"P", {}};
    double x = 0;
    const double base = kRow - 6;
    const auto word = [&](const std::string& text, bool strong) {
      Ink mark{Ink::Kind::text,
               {x, base - kSmallestText * 0.93, measured(text) * (strong ? 1.1 : 1), kSmallestText * 1.2},
               text};
      mark.size = kSmallestText;
      mark.bold = strong;
      mark.baseline = kSmallestText * 0.93;
      row.marks.push_back(mark);
      x += mark.frame.width + 3;
    };
    // Three words and three blanks, and what stands between them.
    const double used = 14 + measured(sugar) + measured(at) + measured(reading) + 3 * 7;
    const double blank = (slab.width() - 12 - used) / 3;
    const auto room = [&] {
      Ink line{Ink::Kind::line, {x, base + 2, blank, 0}};
      line.weight = 0.8;
      row.marks.push_back(line);
      x += blank + 4;
    };
    word(std::to_string(round), true);
    x = 14;
    for (const std::string& text : {sugar, at, reading}) {
      word(text, false);
      room();
    }
    slab.put(std::move(row), kRow);
  }
}

}  // namespace

Slab heading_slab(Pen& pen, const Sheet& sheet, double width) {
  Slab slab(pen, "heading", width, 0);
  page_title(slab, pen, sheet.low.title, 18);
  slab.words(sheet.about + ". " + sheet_say(SheetWord::printed, sheet.language, text_from_day(sheet.printed)) + ". " +
                 sheet.validity,
             {});
  slab.words(sheet.approval, bold());
  return slab;
}

Slab look_slab(Pen& pen, const SheetBox& box, const Sheet& sheet, double width, double right,
               const Elsewhere& elsewhere) {
  Slab slab(pen, "look", width, kThick);
  slab.title(box.number, box.title, kBig, false);
  slab.words(box.help, {});
  for (std::size_t at = 2; at < box.ways.size(); ++at) put_way(slab, box.ways[at], sheet.language, elsewhere);
  // The two answers stand over the two columns that they lead to.
  PageBlock answers{"P", {}};
  double height = 0;
  for (std::size_t i = 0; i < box.ways.size() && i < 2; ++i) {
    const double left = i == 0 ? 0 : right, half = i == 0 ? right : width - right;
    double y = 0;
    for (const PenLine& line : pen.lines(box.ways[i].when, {15, true}, half - 76)) {
      Ink text{Ink::Kind::text, {left, y, line.width, line.above + line.below}, line.text};
      text.size = 15;
      text.bold = true;
      text.baseline = line.above;
      y += line.above + line.below;
      answers.marks.push_back(text);
    }
    Ink disc{Ink::Kind::disc, {left + half - 62, 1, 18, 18}, std::to_string(box.ways[i].go)};
    disc.size = 13;
    Ink arrow{Ink::Kind::arrow_down, {left + half - 32, 0, 0, 20}};
    arrow.weight = 3;
    answers.marks.push_back(disc);
    answers.marks.push_back(arrow);
    height = std::max({height, y, 20.0});
  }
  slab.put(std::move(answers), height);
  return slab;
}

Slab box_slab(Pen& pen, const SheetBox& box, const Sheet& sheet, double width, const Elsewhere& elsewhere) {
  const bool grave = box.urgency == Urgency::emergency;
  const Language language = sheet.language;
  Slab slab(pen, "box " + std::to_string(box.number), width, grave ? kThick : kThin);
  slab.title(box.number, box.title, grave ? kLoud : kTitle, grave);
  if (box.part == SheetPart::emergency) {
    std::string signs;
    for (const std::string& sign : sheet.any_time) signs += (signs.empty() ? "" : " \u2022 ") + sign;
    slab.branch(sheet_say(SheetWord::at_any_time, language), signs, "");
    slab.words(box.help, bold());
  } else {
    slab.words(box.help, {});
  }
  tick_all(slab, box.lines);
  const auto put_ways = [&](bool forbids) {
    for (const SheetWay& way : box.ways) {
      if (way.forbids == forbids) put_way(slab, way, language, elsewhere);
    }
  };
  put_ways(true);
  if (!box.trained.empty()) trained_box(slab, pen, box, language);
  rounds(slab, pen, box, language);
  put_ways(false);
  return slab;
}

Slab calls_slab(Pen& pen, const Sheet& sheet, double width) {
  const Language language = sheet.language;
  Slab slab(pen, "calls", width, 2);
  // Two beside each other, the first ones first.
  const double half = (width - 12) / 2;
  for (std::size_t at = 0; at < sheet.contacts.size(); at += 2) {
    PageBlock row{"P", {}};
    double height = 0;
    for (std::size_t i = at; i < sheet.contacts.size() && i < at + 2; ++i) {
      double y = 0;
      const SheetContact& contact = sheet.contacts[i];
      const std::string text = contact.who + ": " + (contact.number.empty() ? "______________" : contact.number);
      for (const PenLine& line : pen.lines(text, {13, true}, half - 8)) {
        Ink mark{
            Ink::Kind::text, {static_cast<double>(i - at) * half, y, line.width, line.above + line.below}, line.text};
        mark.size = 13;
        mark.bold = true;
        mark.baseline = line.above;
        y += line.above + line.below;
        row.marks.push_back(mark);
      }
      height = std::max(height, y);
    }
    slab.put(std::move(row), height + 1);
  }
  std::string silence;
  for (const std::string& each : sheet.nobody_answers) silence += (silence.empty() ? "" : " ") + each;
  slab.words(silence, {});
  std::string say;
  for (const std::string& line : sheet.say) say += (say.empty() ? "" : " ") + line;
  slab.branch(sheet_say(SheetWord::say_on_phone, language),
              say + " " + sheet_say(SheetWord::address, language) + ": " + sheet.address + ". " +
                  sheet_say(SheetWord::readings_and_times, language) + " " +
                  sheet_say(SheetWord::what_was_given, language),
              "");
  if (!sheet.anything_else.empty())
    slab.branch(sheet_say(SheetWord::anything_else, language), joined(sheet.anything_else), "");
  return slab;
}

Slab cautions_slab(Pen& pen, const Sheet& sheet, double width) {
  Slab slab(pen, "cautions", width, 0);
  std::string all;
  for (const std::string& caution : sheet.cautions) all += (all.empty() ? "" : " ") + caution;
  slab.words(all, {});
  return slab;
}

Slab title_slab(Pen& pen, const std::string& title, double width) {
  Slab slab(pen, "heading", width, 0);
  page_title(slab, pen, title, 16);
  return slab;
}

Slab number_slab(Pen& pen, const std::string& text) {
  Slab slab(pen, "page number", kPageNumber, 0);
  slab.words(text, {});
  return slab;
}

}  // namespace rushlight
