#include "cli/screen.hpp"

#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"
#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::mara;

const Terminal::Size kUsual{24, 80};
const Terminal::Size kSmall{12, 40};
const Terminal::Size kTiny{8, 20};

AtTheScreen treating(Child child = mara()) {
  AtTheScreen person(std::move(child));
  person.types("1").types("1").types("52");
  return person;
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

/// Every place a person passes on a night with trouble.
std::vector<Screen> many_screens(Language language) {
  std::vector<Screen> screens;
  Child child = mara();
  child.language = language;
  child.name = "Maximiliana Guadalupe del Carmen";
  child.delivery = Delivery::pump;
  child.contacts.on_call = "555 0101 0101";
  child.contacts.address = "12 Harbour Lane, second floor, the green door";
  AtTheScreen person(child);
  person.first = true;
  screens.push_back(person.screen());
  person.first = false;
  const auto note = [&] { screens.push_back(person.screen()); };
  const char* worse = language == Language::es ? "p" : "w";
  const char* back = language == Language::es ? "v" : "b";
  person.types("1").types("1"), note();
  person.types("4.2"), note();
  person.types("52"), note();
  for (const char* menu : {"r", "m", "x", worse, back}) {
    person.types(menu), note();
    person.types("");
  }
  person.types(""), note();
  person.at("02:15").types("58"), note();
  person.at("02:26"), note();
  person.types("61").types("1").types("2"), note();
  person.types(""), note();
  person.types("2"), note();
  person.types(worse).types("1"), note();
  person.saving = false;
  note();
  return screens;
}

BOOST_AUTO_TEST_SUITE(screen)

BOOST_AUTO_TEST_CASE(the_urgency_is_the_first_line_and_the_child_the_second) {
  BOOST_TEST(treating().text().rfind("TREAT HERE\nMara, 02:10, not approved\nLow. Give sugar now.\n", 0) == 0);
  AtTheScreen person;
  person.types("3");
  BOOST_TEST(first_line(person.text()) == "EMERGENCY");
}

BOOST_AUTO_TEST_CASE(an_action_begins_with_its_amount) { BOOST_TEST(treating().shows("1. 7 g of sugar now: ")); }

BOOST_AUTO_TEST_CASE(cautions_are_whole_on_the_first_screen_and_short_later) {
  AtTheScreen person;
  person.first = true;
  BOOST_TEST(person.shows("It does not replace the clinic"));
  BOOST_TEST(person.shows("That beep was the alarm."));
  person.first = false;
  BOOST_TEST(!person.shows("It does not replace the clinic"));
  BOOST_TEST(person.shows("No clinic has approved it for care."));
  person.types("m").types("1");
  BOOST_TEST(person.shows("It does not replace the clinic"));
}

BOOST_AUTO_TEST_CASE(the_first_wait_says_to_set_a_second_alarm_and_when_it_ends) {
  AtTheScreen person = treating();
  person.types("").at("02:11:30");
  BOOST_TEST(person.shows("Time left 13:30, until 02:25."));
  BOOST_TEST(person.shows("Set a second alarm on another clock."));
  BOOST_TEST(person.shows("Given at 02:10: Fast sugar: 7 g"));
}

BOOST_AUTO_TEST_CASE(what_was_given_is_not_ordered_again_while_the_child_waits) {
  AtTheScreen person = treating();
  BOOST_TEST(person.shows("Give sugar now."));
  person.types("");
  BOOST_TEST(!person.shows("Give sugar now."));
  BOOST_TEST(person.shows("Now wait until 02:25."));
  BOOST_TEST(!person.at("02:26").shows("Give sugar now."));
}

BOOST_AUTO_TEST_CASE(a_name_too_wide_for_the_screen_never_cuts_off_the_time) {
  Child child = mara();
  child.name = "Maximiliana Guadalupe del Carmen de los Montes";
  const AtTheScreen person = treating(child);
  for (const int columns : {20, 40, 80}) {
    const std::string second = pages_of(person.screen(), {24, columns}, Language::en).front()[1].text;
    BOOST_TEST(second.find(", 02:10") != std::string::npos, second);
    BOOST_TEST(second.rfind("Maxim", 0) == 0, second);
    BOOST_TEST(columns_of(second) < columns);
  }
}

BOOST_AUTO_TEST_CASE(words_behind_the_clock_that_do_not_fit_are_left_out_whole) {
  Screen screen{"TREAT HERE", "Maximiliana", "02:10, practice clock, 60 times as fast", "", {}, "", "", "", "", ""};
  BOOST_TEST(who_line(screen, 79) == "Maximiliana, 02:10, practice clock, 60 times as fast");
  BOOST_TEST(who_line(screen, 39) == "Maximiliana, 02:10");
  BOOST_TEST(who_line(screen, 15) == "Maximil\u2026, 02:10");
}

BOOST_AUTO_TEST_CASE(a_child_file_without_an_emergency_number_is_said_at_the_start_once) {
  AtTheScreen person;
  person.first = true;
  BOOST_TEST(person.shows("The child file has no emergency number."));
  person.first = false;
  BOOST_TEST(!person.shows("The child file has no emergency number."));
  Child child = mara();
  child.contacts.emergency = "555 0999";
  AtTheScreen other(child);
  other.first = true;
  BOOST_TEST(!other.shows("no emergency number"));
}

BOOST_AUTO_TEST_CASE(once_help_has_answered_the_screen_no_longer_says_call_now) {
  AtTheScreen person;
  person.types("3");
  BOOST_TEST(person.shows("Call your local emergency number now."));
  person.types("").types("1");
  BOOST_TEST(!person.shows("Call your local emergency number now."));
  BOOST_TEST(person.shows("Stay. Watch Mara until 02:25."));
}

BOOST_AUTO_TEST_CASE(when_the_wait_is_over_the_check_is_asked_for) {
  AtTheScreen person = treating();
  person.types("").at("02:26");
  BOOST_TEST(person.shows("Time is up. Check now."));
  BOOST_TEST(person.shows("What is the glucose?"));
}

BOOST_AUTO_TEST_CASE(an_action_not_marked_done_is_still_named_when_the_check_is_due) {
  AtTheScreen person = treating();
  person.at("02:31");
  BOOST_TEST(person.shows("Not marked as done yet: 7 g of sugar now"));
  BOOST_TEST(person.shows("What is the glucose?"));
}

BOOST_AUTO_TEST_CASE(a_walk_that_is_not_saved_says_so_on_the_step) {
  AtTheScreen person = treating();
  person.saving = false;
  BOOST_TEST(person.shows("NOT BEING SAVED."));
}

BOOST_AUTO_TEST_CASE(an_open_call_is_named_with_its_number_until_it_is_answered) {
  Child child = mara();
  child.contacts.on_call = "555 0101";
  AtTheScreen person = treating(child);
  person.types("1").types("2");
  BOOST_TEST(person.shows("555 0101"));
  person.types("").types("1");
  BOOST_TEST(!person.shows("Call: the clinic's on-call line"));
}

BOOST_AUTO_TEST_CASE(a_paused_pump_is_reminded_of_with_the_time) {
  Child child = mara();
  child.delivery = Delivery::pump;
  AtTheScreen person = treating(child);
  person.types("");
  BOOST_TEST(person.shows("Reminder at 03:10: Start the pump again"));
  BOOST_TEST(AtTheScreen(person).at("03:11").shows("Due now: Start the pump again"));
}

BOOST_AUTO_TEST_CASE(why_begins_with_what_was_answered_and_ends_with_the_rule_the_number_and_its_source) {
  AtTheScreen person = treating();
  person.types("r");
  const std::string text = person.text(1000);
  BOOST_TEST(text.find("What is the glucose? 52 mg/dL.") < text.find("For the clinic"));
  BOOST_TEST(text.find("Rule: measure") > text.find("For the clinic"));
  BOOST_TEST(text.find("Treat as low below") > text.find("For the clinic"));
  BOOST_TEST(person.shows("70 mg/dL"));
  BOOST_TEST(person.shows("ISPAD 2022"));
  BOOST_TEST(person.shows("0.3 g/kg"));
}

BOOST_AUTO_TEST_CASE(every_screen_fits_the_terminal_and_says_all_it_has_to_say) {
  for (const Language language : {Language::en, Language::es}) {
    for (const Screen& screen : many_screens(language)) {
      for (const Terminal::Size& size : {kUsual, kSmall}) {
        const auto pages = pages_of(screen, size, language);
        std::string all;
        for (const auto& page : pages) {
          BOOST_TEST(static_cast<int>(page.size()) < size.rows, screen.headline);
          BOOST_TEST(page.front().strong);
          for (const Line& line : page) {
            BOOST_TEST(columns_of(line.text) < size.columns);
            all += line.text + " ";
          }
        }
        std::string squeezed;
        for (const char letter : all) squeezed += letter == ' ' ? "" : std::string(1, letter);
        for (const Block& block : screen.body) {
          std::string wanted;
          for (const char letter : block.text) wanted += letter == ' ' ? "" : std::string(1, letter);
          const bool whole = squeezed.find(wanted) != std::string::npos;
          BOOST_TEST((whole || pages.size() > 1), block.text);
        }
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(every_step_fits_one_page_of_24_by_80) {
  for (const Language language : {Language::en, Language::es}) {
    for (const Screen& screen : many_screens(language)) {
      BOOST_TEST(pages_of(screen, kUsual, language).size() == 1, screen.headline);
    }
  }
}

BOOST_AUTO_TEST_CASE(a_page_that_is_not_the_last_says_so_and_never_offers_all_done) {
  Screen screen{"TREAT HERE", "Mara", "02:10", "Low.", {}, "", "Enter: all done.", "keys", "keys", ""};
  for (int number = 1; number <= 30; ++number) screen.body.push_back({std::to_string(number) + ". ", "one line"});
  const auto pages = pages_of(screen, kUsual, Language::en);
  BOOST_TEST(pages.size() == 2);
  const auto has = [](const std::vector<Line>& page, const std::string& words) {
    return std::any_of(page.begin(), page.end(),
                       [&](const Line& line) { return line.text.find(words) != std::string::npos; });
  };
  BOOST_TEST(has(pages[0], "Page 1 of 2. Enter: next."));
  BOOST_TEST(!has(pages[0], "all done"));
  BOOST_TEST(has(pages[1], "Page 2 of 2. Enter: all done."));
  BOOST_TEST(has(pages[1], "30. one line"));
  BOOST_TEST(pages[1].front().text == "TREAT HERE");
}

BOOST_AUTO_TEST_CASE(list_to_choose_from_is_not_torn_where_a_page_can_hold_it) {
  Screen screen{"TREAT HERE", "Mara", "02:10", "Low.", {}, "", "Type the number.", "keys", "keys", ""};
  for (int line = 0; line < 5; ++line) screen.body.push_back({"", "something to read first"});
  for (int number = 1; number <= 4; ++number)
    screen.body.push_back({std::to_string(number) + ". ", "an answer", false, true});
  const auto pages = pages_of(screen, kSmall, Language::en);
  BOOST_REQUIRE(pages.size() == 2);
  const auto answers = [](const std::vector<Line>& page) {
    return std::count_if(page.begin(), page.end(),
                         [](const Line& line) { return line.text.find("an answer") != std::string::npos; });
  };
  BOOST_TEST(answers(pages[0]) == 0);
  BOOST_TEST(answers(pages[1]) == 4);
}

BOOST_AUTO_TEST_CASE(on_a_small_screen_every_answer_to_the_first_question_stands_on_the_first_page) {
  Child child = mara();
  child.name = "Jo";
  AtTheScreen person(child);
  person.first = true;
  Screen screen = person.screen();
  screen.body.insert(screen.body.begin() + 1,
                     Block{"", "Say the name aloud. Touch the shoulder. Asleep is not unconscious.", true});
  const auto pages = pages_of(screen, kSmall, Language::en);
  BOOST_TEST(pages.size() > 1);
  const auto has = [&](std::size_t page, const std::string& words) {
    return std::any_of(pages[page].begin(), pages[page].end(),
                       [&](const Line& line) { return line.text.find(words) != std::string::npos; });
  };
  BOOST_TEST(has(0, "3. Will not wake"));
  BOOST_TEST(has(0, "t. I can't tell"));
  BOOST_TEST(!has(0, "Say the name aloud."));
  BOOST_TEST(has(1, "Say the name aloud."));
}

BOOST_AUTO_TEST_CASE(on_a_small_screen_the_dose_comes_before_every_note) {
  AtTheScreen person = treating();
  person.saving = false;
  const auto pages = pages_of(person.screen(), kSmall, Language::en);
  BOOST_TEST(pages.size() > 1);
  BOOST_TEST(pages[0][3].text.rfind("1. 7 g of sugar now: ", 0) == 0, pages[0][3].text);
  const auto says_not_saved = [](const std::vector<Line>& page) {
    return std::any_of(page.begin(), page.end(),
                       [](const Line& line) { return line.text.find("NOT BEING SAVED.") != std::string::npos; });
  };
  BOOST_TEST((std::any_of(pages.begin(), pages.end(), says_not_saved)));
}

BOOST_AUTO_TEST_CASE(the_smallest_screen_still_ends_with_what_to_type) {
  const auto pages = pages_of(treating().screen(), kTiny, Language::en);
  BOOST_TEST(pages.size() > 1);
  BOOST_TEST(pages.front().front().text == "TREAT HERE");
}

BOOST_AUTO_TEST_CASE(spanish_screens_hold_no_english) {
  for (const Screen& screen : many_screens(Language::es)) {
    for (const auto& page : pages_of(screen, {1000, 1000}, Language::es)) {
      for (const Line& line : page) {
        for (const char* word : {" the ", " your ", "Type ", "Press ", "Call ", " now", "Wait", "worse", "Reminder"}) {
          BOOST_TEST(line.text.find(word) == std::string::npos, line.text);
        }
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(texts_that_would_steer_the_terminal_are_shown_as_marks) {
  Child child = mara();
  child.name = "Mara\x1b[2J\xE2\x80\xAE";
  child.contacts.on_call = "555\x1b]0;x\a";
  AtTheScreen person = treating(child);
  person.types("1").types("2");
  for (const auto& page : pages_of(person.screen(), kUsual, Language::en)) {
    for (const Line& line : page) BOOST_TEST(cleaned(line.text).find('\x1b') == std::string::npos);
  }
}

BOOST_AUTO_TEST_CASE(only_the_clock_makes_no_new_screen) {
  AtTheScreen person = treating();
  person.types("");
  const Screen before = person.screen();
  BOOST_TEST(before.says_the_same_as(person.at("02:12").screen()));
  BOOST_TEST(!before.says_the_same_as(person.at("02:26").screen()));
}

BOOST_AUTO_TEST_CASE(the_time_left_reads_like_a_clock) {
  BOOST_TEST(text_from_time_left(Duration{872}) == "14:32");
  BOOST_TEST(text_from_time_left(Duration{5}) == "0:05");
  BOOST_TEST(text_from_time_left(Duration{3723}) == "1:02:03");
  BOOST_TEST(text_from_time_left(Duration{-3}) == "0:00");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
