#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <regex>
#include <set>

#include "episode/words.hpp"
#include "sanitized.hpp"
#include "sheet/children.hpp"
#include "sheet/printed.hpp"
#include "sheet/sheet_words.hpp"

// What stands on the sheet, put to the engine anew.

namespace rushlight {
namespace {

using test::kToday;

constexpr int kDrawn = tests::kSanitized ? 20 : 150;  // of each set

/// A text of the sheet as a pattern: its blanks stand for a clock time and for a reading.
std::regex pattern_of(const std::string& text) {
  static const std::regex special(R"([.^$|()\[\]{}*+?\\])");
  std::string pattern = std::regex_replace(text, special, R"(\$&)");
  pattern = std::regex_replace(pattern, std::regex(R"(___:___ \\\((in|en) [^)]*\\\))"), R"(\d\d:\d\d)");
  pattern = std::regex_replace(pattern, std::regex("____"), "[0-9.]+ m[a-zA-Z/]+|LO|HI");
  return std::regex(pattern);
}

View view_after(const Protocol& protocol, const Child& child, const std::vector<Event>& night) {
  const Moment start{std::chrono::sys_days(kToday) + std::chrono::hours{12}, std::chrono::minutes{0}};
  Episode episode = begun(protocol, child, start);
  for (const Event& event : night) episode = folded(protocol, child, std::move(episode), event);
  return view_of(protocol, child, episode, night.empty() ? start : night.back().at);
}

/// What the walk shows after that night.
std::set<std::string> shown_after(const Protocol& protocol, const Child& child, const std::vector<Event>& night) {
  const View view = view_after(protocol, child, night);
  std::set<std::string> texts{view.headline, view.meanwhile};
  for (const ShownAction& action : view.actions) texts.insert(action.text);
  for (const ShownCall& call : view.open_calls) texts.insert(call.text);
  return texts;
}

bool is_the_papers_own_call(const SheetLine& line, const Child& child) {
  const std::string number = number_of(child.contacts, Contact::clinic, child.language);
  return line.kind == ActionKind::call_clinic &&
         (line.text == sheet_say(SheetWord::call_clinic, child.language, number) ||
          line.text == sheet_say(SheetWord::call_clinic_in_hours, child.language, number));
}

/// Lines of one page against the engine on that page's protocol; gives how many were put to it.
int check_page(const SheetPage& page, const Protocol& protocol, const Child& child, const std::string& sheet_title) {
  int lines = 0;
  const auto put = [&](const std::vector<SheetLine>& all) {
    for (const SheetLine& line : all) {
      if (is_the_papers_own_call(line, child)) {  // where paper cannot decide, or has nothing beside the call
        const View there = view_after(protocol, child, line.night);
        const bool calls = there.call || there.urgency > Urgency::home;
        if (page.title != sheet_title) BOOST_TEST(calls, page.title << ": no call in the walk for \"" << line.text << '"');
        continue;
      }
      ++lines;
      const std::set<std::string> shown = shown_after(protocol, child, line.night);
      const std::regex pattern = pattern_of(line.text);
      const bool said = std::any_of(shown.begin(), shown.end(),
                                    [&](const std::string& text) { return std::regex_match(text, pattern); });
      BOOST_TEST(said, page.title << ": the walk does not say \"" << line.text << "\"");
    }
  };
  for (const SheetBox& box : page.boxes) {
    put(box.lines);
    put(box.trained);
    put(box.untrained);
    for (const SheetWay& way : box.ways) put(way.lines);
  }
  return lines;
}

bool speaks_of_insulin_units(const std::string& text) {
  static const std::regex units(R"([0-9]+(\.[0-9]+)? (units?|unidad(es)?))");
  return std::regex_search(text, units);
}

BOOST_AUTO_TEST_SUITE(sheet_and_walk)

BOOST_AUTO_TEST_CASE(every_instruction_on_paper_is_one_that_the_walk_gives_for_those_answers) {
  for (const char* set : test::kShippedSets) {
    test::Children children(6);
    int lines = 0;
    for (int drawn = 0; drawn < kDrawn; ++drawn) {
      Child child = children.next(kToday);
      const Sheet sheet = test::whole_sheet(set, child);
      child = as_called(child);
      lines += check_page(sheet.low, test::protocol_of(set, "low"), child, sheet.low.title);
      lines += check_page(sheet.further[0], test::protocol_of(set, "ketones"), child, sheet.low.title);
      lines += check_page(sheet.further[1], test::protocol_of(set, "illness"), child, sheet.low.title);
    }
    BOOST_TEST(lines > kDrawn * 60, set << ": " << lines << " lines");
    BOOST_TEST_MESSAGE(set << ": " << kDrawn << " children, " << lines << " lines put to the engine");
  }
}

BOOST_AUTO_TEST_CASE(no_insulin_dose_stands_on_a_sheet) {
  test::Children children(7);
  for (int drawn = 0; drawn < kDrawn / 3; ++drawn) {
    const Child child = children.next(kToday);
    for (const char* set : test::kShippedSets) {
      const Sheet sheet = test::whole_sheet(set, child);
      for (const SheetLine* line : test::lines_of(sheet)) {
        BOOST_TEST((line->kind != ActionKind::insulin && !speaks_of_insulin_units(line->text)), line->text);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(every_danger_sign_of_the_walk_stands_in_the_emergency_box_or_is_a_call) {
  test::Children children(8);
  for (int drawn = 0; drawn < kDrawn / 5; ++drawn) {
    const Child child = children.next(kToday);
    for (const char* set : test::kShippedSets) {
      const Protocol& protocol = test::protocol_of(set, "low");
      const Sheet sheet = test::whole_sheet(set, child);
      const Moment start{std::chrono::sys_days(kToday) + std::chrono::hours{12}, std::chrono::minutes{0}};
      const Episode episode = begun(protocol, child, start);
      for (const auto& [sign, text] : signs_of(protocol, child, episode)) {
        const Event told{start, GotWorse{{{sign.fact, Chosen{static_cast<std::uint16_t>(sign.option)}}}}};
        const View view = view_of(protocol, child, folded(protocol, child, episode, told), start);
        const bool emergency = std::count(sheet.any_time.begin(), sheet.any_time.end(), text) == 1;
        // What is a call from the beginning is named beside the first question.
        const auto& first = test::box_of(sheet, SheetPart::look).ways;
        const bool named = std::any_of(first.begin(), first.end(), [&, text = text](const SheetWay& each) {
          return each.when.find(text) != std::string::npos && each.go == test::box_of(sheet, SheetPart::signs).number;
        });
        // What the walk hears only while sugar is given stands where the sugar goes wrong, up to its call.
        if (protocol[sign.fact].name == "drinking") {
          const auto& wrong = test::box_of(sheet, SheetPart::trouble).ways;
          BOOST_TEST(std::any_of(wrong.begin(), wrong.end(), [](const SheetWay& each) { return each.urgency >= Urgency::clinic_now; }));
          continue;
        }
        BOOST_TEST((emergency || named || protocol[sign.fact].name == "other-worry"), text);
        const auto& ways = test::box_of(sheet, SheetPart::signs).ways;
        const auto way = std::find_if(ways.begin(), ways.end(), [&, text = text](const SheetWay& each) {
          return !each.under && each.when.find(text) != std::string::npos;
        });
        BOOST_TEST((emergency || way != ways.end() || protocol[sign.fact].name == "other-worry"), text);
        if (way == ways.end() || view.urgency != Urgency::emergency) continue;
        const bool calls = std::any_of(way->lines.begin(), way->lines.end(),
                                       [](const SheetLine& line) { return line.kind == ActionKind::call_emergency; });
        BOOST_TEST(calls, text << ": an emergency that is not called");
      }
      BOOST_TEST(sheet.any_time.size() >= 4U);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
