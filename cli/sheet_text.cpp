#include "cli/sheet_text.hpp"

#include "cli/plain_text.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

constexpr int kSheetWidth = 80;

class SheetText {
 public:
  explicit SheetText(const Sheet& sheet) : sheet_(sheet) {}

  std::string text() {
    heading();
    page(sheet_.low);
    any_time();
    on_the_telephone();
    for (const SheetPage& further : sheet_.further) {
      rule('=');
      line("", in_capitals(further.title));
      page(further);
    }
    rule('=');
    for (const std::string& caution : sheet_.cautions) line("", caution);
    return text_;
  }

 private:
  std::string word(SheetWord word, const std::string& one = "", const std::string& two = "") const {
    return sheet_say(word, sheet_.language, one, two);
  }
  void line(const std::string& lead, const std::string& words) {
    for (const std::string& each : wrapped(lead, cleaned(words), kSheetWidth)) text_ += each + "\n";
  }
  void rule(char sign) { text_ += std::string(kSheetWidth, sign) + "\n"; }
  void empty() { text_ += "\n"; }

  void heading() {
    line("", in_capitals(sheet_.low.title));
    line("", sheet_.about + ". " + word(SheetWord::printed, text_from_day(sheet_.printed)) + ".");
    line("", sheet_.validity);
    line("", sheet_.approval);
  }

  void page(const SheetPage& page) {
    for (const SheetBox& each : page.boxes) box(each);
  }

  void box(const SheetBox& box) {
    rule(box.urgency == Urgency::emergency ? '#' : '-');
    line(box.number > 0 ? " " + std::to_string(box.number) + "  " : "    ", in_capitals(box.title));
    if (!box.help.empty()) line("    ", box.help);
    if (box.part == SheetPart::emergency) {
      line("    ", word(SheetWord::at_any_time));
      for (const std::string& sign : sheet_.any_time) line("     * ", sign);
    }
    checks(box.lines);
    for (const SheetWay& each : box.ways) {
      if (each.forbids) way(each);
    }
    if (!box.trained.empty()) {
      line("    ", in_capitals(word(SheetWord::trained_title)) + "  [ ] " + word(SheetWord::yes) + "  [ ] " +
                       word(SheetWord::no));
      line("    ", word(SheetWord::trained_tick));
      line("    ", word(SheetWord::yes) + ":");
      checks(box.trained);
      line("    ", word(SheetWord::trained_no) + ":");
      checks(box.untrained);
    }
    for (int round = 1; round <= box.rounds; ++round) {
      line("    ", word(SheetWord::round, std::to_string(round)) + ":  " + word(SheetWord::sugar_at) + " ___:___   " +
                       word(SheetWord::measured_at) + " ___:___   " + word(SheetWord::reading_blank) + " _____");
    }
    for (const SheetWay& each : box.ways) {
      if (!each.forbids) way(each);
    }
  }

  void checks(const std::vector<SheetLine>& lines) {
    for (const SheetLine& each : lines) {
      if (each.is_headline) {
        line("    ", each.text);
      } else {
        line("    [ ] ", each.text);
      }
    }
  }

  void way(const SheetWay& way) {
    const bool stands_alone = way.lines.empty() && way.go == 0;
    const bool ends_itself = stands_alone || (!way.when.empty() && (way.when.back() == '.' || way.when.back() == '?'));
    std::string words = way.when + (ends_itself ? "" : ":");
    for (const SheetLine& each : way.lines) words += " " + each.text;
    if (way.go != 0) words += " -> " + word(SheetWord::go_to, std::to_string(way.go));
    line(way.under ? "      > " : "    > ", words);
  }

  void any_time() {
    rule('-');
    std::string words = in_capitals(word(SheetWord::anything_else)) + ":";
    for (const SheetLine& each : sheet_.anything_else) words += " " + each.text;
    line("    ", words);
  }

  void on_the_telephone() {
    rule('-');
    for (const SheetContact& contact : sheet_.contacts)
      line("    ", contact.who + ": " + (contact.number.empty() ? "____________________" : contact.number));
    for (const std::string& each : sheet_.nobody_answers) line("    ", each);
    line("    ", word(SheetWord::address) + ": " + sheet_.address);
    std::string say = word(SheetWord::say_on_phone) + ":";
    for (const std::string& each : sheet_.say) say += " " + each;
    line("    ", say);
    line("    ", word(SheetWord::readings_and_times) + " " + word(SheetWord::what_was_given));
  }

  const Sheet& sheet_;
  std::string text_;
};

}  // namespace

std::string text_from_sheet(const Sheet& sheet) { return SheetText(sheet).text(); }

}  // namespace rushlight
