#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <random>

#include "cli/sheet_text.hpp"
#include "publish/sheet_layout.hpp"
#include "sanitized.hpp"
#include "sheet/children.hpp"
#include "sheet/printed.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

using test::kToday;

constexpr double kPrinterEdge = 18;  // points that printers cannot reach: a quarter of an inch
constexpr double kHair = 0.6;        // rounding of the measures

bool lies_in(const Frame& inner, const Frame& outer) {
  return inner.x >= outer.x - kHair && inner.y >= outer.y - kHair &&
         inner.x + inner.width <= outer.x + outer.width + kHair &&
         inner.y + inner.height <= outer.y + outer.height + kHair;
}

bool overlap(const Frame& a, const Frame& b) {
  return a.x + kHair < b.x + b.width && b.x + kHair < a.x + a.width && a.y + kHair < b.y + b.height &&
         b.y + kHair < a.y + a.height;
}

void check_pages(const Laid& laid, const std::string& what) {
  const Frame reach{kPrinterEdge, kPrinterEdge, laid.paper.width - 2 * kPrinterEdge,
                    laid.paper.height - 2 * kPrinterEdge};
  for (const LaidPage& page : laid.pages) {
    std::vector<const Ink*> texts;
    for (const LaidBox& box : page.boxes) {
      BOOST_TEST(lies_in(box.frame, reach), what << ": " << box.name << " leaves the page");
      // The number of the page stands in a corner that the heading leaves free.
      for (const LaidBox& other : page.boxes) {
        if (&other == &box || box.name == "page number" || other.name == "page number") continue;
        BOOST_TEST(!overlap(box.frame, other.frame), what << ": " << box.name << " on " << other.name);
      }
      for (const PageBlock& block : box.blocks) {
        for (const Ink& ink : block.marks) {
          BOOST_TEST(lies_in(ink.frame, box.frame), what << ", " << box.name << ": \"" << ink.text << "\" runs over");
          if (ink.kind != Ink::Kind::text) continue;
          BOOST_TEST(ink.size >= kSmallestText, what << ": letters of " << ink.size);
          texts.push_back(&ink);
        }
      }
    }
    for (std::size_t i = 0; i < texts.size(); ++i) {
      for (std::size_t j = i + 1; j < texts.size(); ++j) {
        if (overlap(texts[i]->frame, texts[j]->frame))
          BOOST_ERROR(what << ": \"" << texts[i]->text << "\" on \"" << texts[j]->text << "\"");
      }
    }
  }
}

/// How often a box of the sheet stands on the pages.
int times(const Laid& laid, const std::string& name) {
  int found = 0;
  for (const LaidPage& page : laid.pages) {
    for (const LaidBox& box : page.boxes) found += box.name == name ? 1 : 0;
  }
  return found;
}

/// On which page the box of that name stands, and all its words in order.
std::pair<int, std::string> where_and_what(const Laid& laid, int number) {
  for (std::size_t page = 0; page < laid.pages.size(); ++page) {
    for (const LaidBox& box : laid.pages[page].boxes) {
      if (box.name != "box " + std::to_string(number)) continue;
      std::string words;
      for (const PageBlock& block : box.blocks) {
        for (const Ink& ink : block.marks) words += ink.text + " ";
      }
      return {static_cast<int>(page) + 1, words};
    }
  }
  return {0, ""};
}

BOOST_AUTO_TEST_SUITE(sheet_pages)

BOOST_AUTO_TEST_CASE(who_is_led_to_another_page_is_told_its_number) {
  Pen pen;
  test::Children children(11);
  int named = 0, third = 0;
  for (int drawn = 0; drawn < (tests::kSanitized ? 4 : 30); ++drawn) {
    const Child child = children.next(kToday);
    for (const char* set : test::kShippedSets) {
      const Sheet sheet = test::whole_sheet(set, child);
      const Laid laid = laid_sheet(sheet, kA4Upright, pen);
      const std::string word = sheet.language == Language::es ? "página\u00a0" : "page\u00a0";
      for (const SheetBox& box : sheet.low.boxes) {
        if (box.part == SheetPart::look) continue;
        const auto [here, words] = where_and_what(laid, box.number);
        for (const SheetWay& way : box.ways) {
          const int there = way.go == 0 || way.go == 1 ? here : where_and_what(laid, way.go).first;
          if (there == here) continue;
          BOOST_TEST(words.find(word + std::to_string(there)) != std::string::npos,
                     set << ", child " << drawn << ", box " << box.number << " to " << way.go << ": " << words);
          ++named;
          third += there == 3 ? 1 : 0;
        }
      }
    }
  }
  BOOST_TEST(named > 20);
  BOOST_TEST(third > 0);  // a sheet of three pages is among them
}

BOOST_AUTO_TEST_CASE(nothing_runs_over_or_is_split_for_any_child_set_language_and_paper) {
  Pen pen;
  test::Children children(10);
  constexpr int kDrawnPages = tests::kSanitized ? 8 : 60;
  for (int drawn = 0; drawn < kDrawnPages; ++drawn) {
    const Child child = children.next(kToday);
    for (const char* set : test::kShippedSets) {
      const Sheet sheet = test::whole_sheet(set, child);
      for (const PaperSize& paper : {kA4Upright, kLetter}) {
        const Laid laid = laid_sheet(sheet, paper, pen);
        const std::string what = std::string(set) + ", " + paper.name + ", child " + std::to_string(drawn);
        check_pages(laid, what);
        for (const SheetBox& box : sheet.low.boxes) {
          if (box.part == SheetPart::look) continue;
          BOOST_TEST(times(laid, "box " + std::to_string(box.number)) == 1, what << ", box " << box.number);
        }
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(a_text_is_broken_at_a_width_as_if_no_other_width_had_been_tried) {
  const std::string texts[] = {"Call 911.",
                               "Give 7 g of sugar by mouth, only if awake and able to swallow: 60 mL of juice.",
                               "¿Está despierta, puede tragar y contesta? Si no, es una emergencia: llame al 112 ya.",
                               "Donaudampfschifffahrtsgesellschaftskapitaensmuetze and some words behind it",
                               "\u0645\u0631\u062D\u0628\u0627 \u064A\u0627 \u0644\u064A\u0644\u0649 and 15 min later"};
  std::mt19937 dice(5);
  Pen used;
  int alike = 0;
  for (int draw = 0; draw < 400; ++draw) {
    const std::string& text = texts[dice() % std::size(texts)];
    const std::string bold = dice() % 2 == 0 ? "Then" : "";
    const Letters letters{static_cast<double>(12 + dice() % 3), dice() % 2 == 0};
    const double width = 5 + static_cast<double>(dice() % 4000) / 10;
    Pen fresh;
    const std::vector<PenLine>&was = used.lines(bold, text, letters, width),
          &now = fresh.lines(bold, text, letters, width);
    const bool same = std::equal(was.begin(), was.end(), now.begin(), now.end(), [](const auto& one, const auto& two) {
      return one.text == two.text && one.bold == two.bold && one.left == two.left && one.width == two.width &&
             one.ends_line == two.ends_line;
    });
    BOOST_TEST(same, text << " at " << width);
    alike += same ? 1 : 0;
  }
  BOOST_TEST(alike == 400);
}

BOOST_AUTO_TEST_CASE(the_first_page_holds_the_question_the_emergency_the_low_and_whom_to_call) {
  Pen pen;
  test::Children children(11);
  Child child = children.next(kToday);
  child.name = "Ada";
  child.contacts = {"555 0100", "555 0102", "Bo", "555 0101", "112", "1 Harbour Lane"};
  for (const char* set : test::kShippedSets) {
    for (const Language language : {Language::en, Language::es}) {
      for (const PaperSize& paper : {kA4Upright, kLetter}) {
        child.language = language;
        const Sheet sheet = test::whole_sheet(set, child);
        const LaidPage page = laid_sheet(sheet, paper, pen).pages.front();
        const auto stands = [&](const std::string& name) {
          return std::any_of(page.boxes.begin(), page.boxes.end(),
                             [&](const LaidBox& box) { return box.name == name; });
        };
        const std::string what = std::string(set) + " " + paper.name + (language == Language::es ? " es" : " en");
        BOOST_TEST((stands("look") && stands("calls")), what);
        for (const SheetPart part : {SheetPart::emergency, SheetPart::measure, SheetPart::give})
          BOOST_TEST(stands("box " + std::to_string(test::box_of(sheet, part).number)), what);
      }
    }
  }
}

/// Sheets of a set for children with and without telephone numbers, with injections and with a pump.
template <typename Seen>
void each_babysitters_sheet(const char* set, const Seen& seen) {
  test::Children children(11);
  Child child = children.next(kToday);
  child.rescue = {{RescueKind::nasal, *day_from_text("2030-01-01"), "top drawer in the kitchen"}};
  const Contacts numbers{"555 0100", "555 0102", "Bo", "555 0101", "112", "1 Harbour Lane"};
  for (const char* name : {"Ada", "Maximiliana Theodora Wilhelmina von und zu Hohenbergen-Oberschlatt"}) {
    for (const Contacts& contacts : {numbers, Contacts{}}) {
      for (const Delivery delivery : {Delivery::injections, Delivery::pump}) {
        for (const Language language : {Language::en, Language::es}) {
          for (const PaperSize& paper : {kA4Upright, kLetter}) {
            // Seventy letters, no number to call and a pump: no page bears all of the low (docs/sheet.md).
            const bool most_words = contacts.clinic.empty() && name != std::string("Ada") && delivery == Delivery::pump;
            if (most_words) continue;
            child.name = name;
            child.contacts = contacts;
            child.delivery = delivery;
            child.language = language;
            Sheet sheet = test::whole_sheet(set, child);
            sheet.further.clear();
            seen(sheet, paper,
                 std::string(set) + ", " + name + ", " + paper.name + (language == Language::es ? ", es" : ", en") +
                     (contacts.clinic.empty() ? ", no numbers" : "") + (delivery == Delivery::pump ? ", pump" : ""));
          }
        }
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(babysitter_gets_two_sheets_of_paper_and_whom_to_call_on_the_first) {
  Pen pen;
  each_babysitters_sheet("reference", [&](const Sheet& sheet, const PaperSize& paper, const std::string& what) {
    const Laid laid = laid_sheet(sheet, paper, pen);
    BOOST_TEST(laid.pages.size() <= 3U, what << ": " << laid.pages.size());  // the first sheet on both sides
    const LaidPage& first = laid.pages.front();
    for (const char* name : {"look", "box 2", "box 4", "box 5", "calls"})
      BOOST_TEST(
          std::any_of(first.boxes.begin(), first.boxes.end(), [&](const LaidBox& box) { return box.name == name; }),
          what << ": " << name << " is not on the first page");
  });
}

BOOST_AUTO_TEST_CASE(number_is_not_parted_from_its_unit_and_no_telephone_number_is_broken) {
  Pen pen;
  int numbers = 0;
  for (const char* set : test::kShippedSets) {
    each_babysitters_sheet(set, [&](const Sheet& sheet, const PaperSize& paper, const std::string& what) {
      for (const LaidPage& page : laid_sheet(sheet, paper, pen).pages) {
        for (const LaidBox& box : page.boxes) {
          for (const PageBlock& block : box.blocks) {
            for (const Ink& ink : block.marks) {
              if (ink.kind != Ink::Kind::text || ink.text.size() < 4) continue;
              if (ink.text.find("555 01") != std::string::npos || ink.text.find("7 g") != std::string::npos) ++numbers;
              BOOST_TEST(ink.text.compare(ink.text.size() - 3, 3, "555") != 0, what << ": \"" << ink.text << "\"");
              for (const char* half : {"0100", "0101", "0102", "g ", "mL ", "mg "})
                BOOST_TEST(ink.text.rfind(half, 0) != 0U, what << ": \"" << ink.text << "\"");
            }
          }
        }
      }
    });
  }
  BOOST_TEST(numbers > 100);
}

BOOST_AUTO_TEST_CASE(whoever_gave_something_else_is_led_on_to_the_check) {
  for (const char* set : test::kShippedSets) {
    each_babysitters_sheet(set, [&](const Sheet& sheet, const PaperSize&, const std::string& what) {
      const int again = test::box_of(sheet, SheetPart::again).number;
      const std::vector<SheetWay>& give = test::box_of(sheet, SheetPart::give).ways;
      BOOST_TEST(std::any_of(give.begin(), give.end(), [&](const SheetWay& way) { return way.go == again; }), what);
      for (const SheetWay& way : test::box_of(sheet, SheetPart::trouble).ways) {
        for (const SheetWord word :
             {SheetWord::refused, SheetWord::none_here, SheetWord::part_taken, SheetWord::vomited}) {
          if (way.when == sheet_say(word, sheet.language)) BOOST_TEST(way.go == again, what << ": " << way.when);
        }
      }
    });
  }
}

BOOST_AUTO_TEST_CASE(what_forbids_the_medicine_stands_before_it_and_is_said) {
  test::Children children(12);
  Child child = children.next(kToday);
  child.rescue = {{RescueKind::nasal, *day_from_text("2030-01-01"), "drawer"}};
  child.birth = *day_from_text("2018-01-15");
  for (const char* set : test::kShippedSets) {
    const Sheet sheet = test::whole_sheet(set, child);
    const SheetBox& emergency = test::box_of(sheet, SheetPart::emergency);
    BOOST_TEST(!emergency.trained.empty(), set);
    const auto forbidding =
        std::count_if(emergency.ways.begin(), emergency.ways.end(), [](const SheetWay& way) { return way.forbids; });
    BOOST_TEST(forbidding == 2, set << ": not breathing, and given before");
    const std::string text = text_from_sheet(sheet);
    for (const SheetWay& way : emergency.ways) {
      if (way.forbids)
        BOOST_TEST(text.find("> " + way.when) < text.find(emergency.trained.front().text.substr(0, 20)), way.when);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
