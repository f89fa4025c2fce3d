#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <regex>
#include <sstream>

#include "printed_by.hpp"
#include "record/kept.hpp"

// A clinic reads the record in a minute: one page, short words, nothing twice and nothing lost.

namespace rushlight::tests {
namespace {

constexpr const char* kLow = R"({"at":"2026-03-01T02:10:00-05:00","answer":{"awake":"yes","already-given":"no"}}
{"at":"2026-03-01T02:11:00-05:00","answer":{"glucose":"52 mg/dL"}}
{"at":"2026-03-01T02:11:10-05:00","answer":{"reading-from":"meter"}}
)";

std::string sick_day() { return file_in_tree("tests/record/sick_day.jsonl"); }
std::string sick_days() { return file_in_tree("tests/record/sick_days_of_38_hours.jsonl"); }
std::string sick_day_and_night() { return file_in_tree("tests/record/sick_day_and_night.jsonl"); }

std::string paper(const Kept& kept, const std::string& size, const std::string& language) {
  const std::string pdf = kept.folder.path(size + language + ".pdf");
  const Run run = kept.record({"--out", pdf, "--paper", size, "--lang", language});
  BOOST_REQUIRE_MESSAGE(run.status == 0, run.err);
  return pdf;
}

int pages_of(const std::string& pdf) {
  const std::string told = printed_by("pdfinfo " + pdf);
  const std::size_t at = told.find("Pages:");
  BOOST_REQUIRE(at != std::string::npos);
  return std::stoi(told.substr(at + 6));
}

int times_in(const std::string& text, const std::string& part) {
  int times = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) ++times;
  return times;
}

void fits_one_page(const Kept& kept) {
  for (const char* size : {"A4", "Letter"})
    for (const char* language : {"en", "es"}) BOOST_TEST(pages_of(paper(kept, size, language)) == 1, size << language);
}

BOOST_AUTO_TEST_SUITE(record_in_a_minute)

BOOST_AUTO_TEST_CASE(sick_day_of_thirteen_hours_fits_one_page) { fits_one_page(Kept(sick_day(), "illness")); }

BOOST_AUTO_TEST_CASE(night_with_two_lows_fits_one_page) {
  fits_one_page(Kept(std::string(kLow) + R"({"at":"2026-03-01T02:13:00-05:00","done":true}
{"at":"2026-03-01T02:28:30-05:00","answer":{"glucose":"50 mg/dL"}}
{"at":"2026-03-01T02:30:00-05:00","done":true}
{"at":"2026-03-01T02:46:00-05:00","answer":{"glucose":"84 mg/dL"}}
)"));
}

BOOST_AUTO_TEST_CASE(sick_day_and_night_with_five_calls_fits_one_page) {
  fits_one_page(Kept(sick_day_and_night(), "illness"));
}

BOOST_AUTO_TEST_CASE(sick_days_of_38_hours_fit_one_page_and_nothing_told_is_lost) {
  const Kept kept(sick_days(), "illness");
  fits_one_page(kept);
  const std::string page = on_one_line(printed_by("pdftotext -layout " + paper(kept, "Letter", "es") + " -"));
  BOOST_TEST(says(page, "rushlight record --text"), page);
  BOOST_TEST(says(page, ": Glucosa 98–210 mg/dL"), page);
  const std::string text = kept.text("es");
  BOOST_TEST(!says(text, "rushlight record --text"), text);
  // Each reading has its place on the page, and each call.
  std::istringstream events(sick_days());
  int readings = 0, calls = 0;
  for (std::string event; std::getline(events, event);) {
    const std::size_t glucose = event.find("\"glucose\": \"");
    const std::string time = event.substr(event.find('T') + 1, 5);
    if (glucose != std::string::npos) {
      ++readings;
      const std::string number = event.substr(glucose + 12, event.find(' ', glucose + 12) - glucose - 12);
      BOOST_TEST(says(page, number), number);
      BOOST_TEST(says(page, time), time << " is not on\n" << page);
    }
    if (event.find("\"call\"") != std::string::npos) {
      ++calls;
      BOOST_TEST(says(page, time), time << " is not on\n" << page);
    }
  }
  BOOST_TEST(readings == 19);
  BOOST_TEST(calls == 5);
}

BOOST_AUTO_TEST_CASE(what_is_new_stands_alone_when_looks_are_put_together) {
  const Kept kept(sick_days(), "illness");
  const std::string page = printed_by("pdftotext -layout " + paper(kept, "Letter", "en") + " -");
  for (const char* part : {"Mika (practice) needs a doctor today.", "Vomits or does not drink. Call now.",
                           "Call your local emergency number now.", "3 good checks. Back to the usual days."})
    BOOST_TEST(says(page, part), part << "\n" << page);
  BOOST_TEST(says(page, "22:17 on-call: no answer"), page);
}

BOOST_AUTO_TEST_CASE(letters_are_never_smaller_than_8_points_and_lie_on_the_page) {
  const Kept kept(sick_day_and_night(), "illness");
  const std::string pdf = paper(kept, "A4", "en");
  // At a zoom of three a point is three units.
  const std::string fonts = printed_by("pdftohtml -xml -zoom 3 -stdout " + pdf);
  const std::regex size("<fontspec id=\"[0-9]+\" size=\"([0-9]+)\"");
  int sizes = 0;
  for (auto at = std::sregex_iterator(fonts.begin(), fonts.end(), size); at != std::sregex_iterator(); ++at, ++sizes)
    BOOST_TEST(std::stoi((*at)[1]) >= 24);
  BOOST_TEST(sizes > 1);
  const std::string words = printed_by("pdftotext -bbox " + pdf + " -");
  const std::regex word("<word xMin=\"([-0-9.]+)\" yMin=\"([-0-9.]+)\" xMax=\"([-0-9.]+)\" yMax=\"([-0-9.]+)\"");
  for (auto at = std::sregex_iterator(words.begin(), words.end(), word); at != std::sregex_iterator(); ++at) {
    BOOST_TEST(std::stod((*at)[1]) >= 18);
    BOOST_TEST(std::stod((*at)[3]) <= 595.28 - 18);
    BOOST_TEST(std::stod((*at)[4]) <= 841.89 - 18);
  }
}

BOOST_AUTO_TEST_CASE(each_source_is_printed_once) {
  const std::string text = on_one_line(Kept(sick_day(), "illness").text());
  for (const char* publisher : {"Starship Children's Health", "University of Texas Medical Branch", "Pump therapy: sick days",
                                "Italian Society of Pediatric Endocrinology"})
    BOOST_TEST(times_in(text, publisher) == 1, publisher << "\n" << text);
  BOOST_TEST(says(text, "10 mL of sugary drink every 10 min. (next-round/8 [1,2])"), text);
  BOOST_TEST(says(text, "[3] Royal Children's Hospital Melbourne undated, Pump therapy: sick days"), text);
  BOOST_TEST(says(text, "Vomits or does not drink. Call now. (vomit-how-long/1 [3])"), text);
}

BOOST_AUTO_TEST_CASE(answer_is_said_in_short_words) {
  const Kept kept(sick_day(), "illness");
  const std::string text = kept.text();
  for (const char* words : {"breathes as always, not drowsy", "no belly pain", "vomits 1", "supplies last"})
    BOOST_TEST(says(text, words), words << "\n" << text);
  for (const char* question : {"How does", "Does the belly hurt?", "How often", "?"})
    BOOST_TEST(!says(text, question), question << "\n" << text);
  BOOST_TEST(says(kept.text("es"), "sin dolor de barriga"));
}

BOOST_AUTO_TEST_CASE(answers_that_stay_calm_are_said_together) {
  const std::string text = Kept(sick_day(), "illness").text();
  BOOST_TEST(says(text, "140 mg/dL, ketones 0.4 mmol/L, vomits 1, no danger signs, rest same"), text);
}

BOOST_AUTO_TEST_CASE(step_that_only_asked_has_no_advice_of_its_own) {
  const std::string text = Kept(sick_day(), "illness").text();
  for (const char* headline : {"Measure the blood ketones now.", "How is Mika", "Three more questions"})
    BOOST_TEST(!says(text, headline), headline << "\n" << text);
}

BOOST_AUTO_TEST_CASE(danger_sign_is_named_and_so_is_each_beside_it) {
  const std::string text =
      Kept(std::string(kLow) + R"({"at":"2026-03-01T02:12:00-05:00","worse":{"awake":"confused"}})" + "\n").text();
  BOOST_TEST(says(text, "02:12 Got worse: confused or acting odd"), text);
  BOOST_TEST(!says(text, "no danger signs"), text);
}

BOOST_AUTO_TEST_CASE(alarm_that_nobody_answered_and_the_calls_after_it_stand_at_their_times) {
  const std::string text = Kept(std::string(kLow) + R"({"at":"2026-03-01T02:13:00-05:00","done":true}
{"at":"2026-03-01T04:30:00-05:00","answer":{"glucose":"61 mg/dL"}}
)")
                               .text();
  for (const char* line : {"02:33 Alarm at 02:28: nobody answered > The check is late.",
                           "02:33 the clinic: nobody answered by 02:43", "the emergency services: not answered yet"})
    BOOST_TEST(says(text, line), line << "\n" << text);
}

BOOST_AUTO_TEST_CASE(late_answer_says_when_it_was_asked_for) {
  const std::string night = sick_day();
  const std::size_t at = night.find("T04:04:30");
  BOOST_REQUIRE(at != std::string::npos);
  const std::string text = Kept(night.substr(0, night.rfind('\n', at) + 1) +
                                    R"({"at":"2026-03-01T04:12:00-05:00","answer":{"glucose":"140 mg/dL"}})" + "\n",
                                "illness")
                               .text();
  BOOST_TEST(says(text, "04:12 late, asked at 04:04: 140 mg/dL"), text);
}

BOOST_AUTO_TEST_CASE(correction_takeover_and_note_stay_visible_as_text) {
  const std::string night = std::string(kLow) + R"({"at":"2026-03-01T02:12:00-05:00","correct":{"glucose":"57 mg/dL"}}
{"at":"2026-03-01T02:13:00-05:00","takeover":{"by":"<b>Robin</b> \"R\" & co"}}
{"at":"2026-03-01T02:14:00-05:00","answer":{"awake":"yes","already-given":"no"}}
{"at":"2026-03-01T02:15:00-05:00","call":{"contact":"clinic","outcome":"told","text":"<i>wait</i> & look"}}
)";
  const Kept kept(night);
  const std::string printed = printed_by("pdftotext -layout " + paper(kept, "A4", "en") + " -");
  for (const std::string& text : {kept.text(), printed}) {
    BOOST_TEST(says(text, "52 mg/dL, finger-prick meter"), text);
    BOOST_TEST(says(text, "Corrected: 57 mg/dL"), text);
    BOOST_TEST(says(text, "<b>Robin</b> \"R\" & co carries on"), text);
    BOOST_TEST(says(text, "02:15: <i>wait</i> & look"), text);
  }
}

BOOST_AUTO_TEST_CASE(dose_that_nobody_told_of_is_said_to_be_untold) {
  const std::string text = Kept(kLow).text();
  BOOST_TEST(says(text, "Very low. Give 7 g of sugar now. (which-very-low/2 [1,2,3]) = not told"), text);
  BOOST_TEST(says(text, "Not told as given: sugar, insulin, glucagon"), text);
}

BOOST_AUTO_TEST_CASE(withheld_insulin_is_named_with_its_reason) {
  const std::string text = Kept(R"({"at":"2026-03-01T19:00:00-05:00","answer":{"awake":"yes","already-given":"no"}}
{"at":"2026-03-01T19:00:30-05:00","answer":{"breathing":"usual","drowsy":"no"}}
{"at":"2026-03-01T19:01:00-05:00","answer":{"glucose":"280 mg/dL"}}
{"at":"2026-03-01T19:01:30-05:00","answer":{"ketones":"1.6 mmol/L","vomits":0,"belly-pain":"no"}}
{"at":"2026-03-01T19:03:00-05:00","answer":{"last-rapid-insulin":"5 h"}}
)",
                                "ketones")
                               .text();
  BOOST_TEST(says(text, "No insulin dose here: this guide is not approved now."), text);
  BOOST_TEST(says(text, "Withheld: Extra rapid-acting insulin."), text);
}

BOOST_AUTO_TEST_CASE(looks_that_are_all_the_same_are_one_line) {
  std::string night = R"({"at":"2026-03-01T02:00:00-05:00","answer":{"awake":"no"}}
{"at":"2026-03-01T02:00:30-05:00","call":{"contact":"emergency","outcome":"reached"}}
{"at":"2026-03-01T02:01:00-05:00","answer":{"breathing-normally":"yes","seizure":"no"}}
{"at":"2026-03-01T02:01:30-05:00","done":true}
)";
  for (const char* minute : {"07", "13", "19", "25", "31"})
    night += "{\"at\":\"2026-03-01T02:" + std::string(minute) +
             ":00-05:00\",\"answer\":{\"help-here\":\"no\",\"awake\":\"no\",\"breathing-normally\":\"yes\"}}\n";
  const std::string text = Kept(night).text();
  BOOST_TEST(says(text, " times until 02:31"), text);
}

BOOST_AUTO_TEST_CASE(first_page_of_a_long_night_holds_the_whole_summary) {
  std::string night = sick_day_and_night();
  night = night.substr(0, night.rfind("{\"at\""));
  for (int minute = 10; minute < 50; ++minute)
    night += "{\"at\":\"2026-03-02T16:" + std::to_string(minute) + ":00-05:00\",\"takeover\":{\"by\":\"carer " +
             std::to_string(minute) + "\"}}\n";
  const Kept kept(night, "illness");
  const std::string pdf = paper(kept, "Letter", "es");
  BOOST_TEST(pages_of(pdf) == 2);
  const std::string first = printed_by("pdftotext -layout -l 1 " + pdf + " -");
  for (const char* part : {"Lo más grave", "Glucosa mg/dL", "En total", "Llamadas", "Qué pasó", "Página 1 de 2"})
    BOOST_TEST(says(first, part), part << "\n" << first);
}

BOOST_AUTO_TEST_CASE(first_call_after_midnight_has_its_day) {
  const std::string text = Kept(sick_day_and_night(), "illness").text();
  BOOST_TEST(says(text, "21:05 the clinic's on-call line: answered 21:05 2026-03-02 01:19 the clinic's on-call line"),
             text);
}

BOOST_AUTO_TEST_CASE(record_is_the_same_bytes_each_time) {
  const Kept kept(sick_day(), "illness");
  const std::string once = printed_by("cat " + paper(kept, "A4", "en"));
  BOOST_TEST((once == printed_by("cat " + paper(kept, "A4", "en"))));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight::tests
