#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <regex>
#include <set>

#include "cli/program.hpp"
#include "cli/sheet_text.hpp"
#include "printed_by.hpp"
#include "sheet/children.hpp"
#include "sheet/printed.hpp"

// The finished files, read by other people's programs: poppler and xmllint.

namespace rushlight {
namespace {

using tests::Folder;
using tests::printed_by;
using tests::Run;
using tests::run_program;

constexpr const char* kAda = R"json({"name": "Ada", "birth": "2020-02-11", "weight": "21 kg", "weighed": "2026-02-20",
  "unit": "mg/dL", "delivery": "injections", "strips": "blood", "total_daily_dose": "15 [iU]",
  "rescue": [{"kind": "nasal", "expires": "2027-12-31", "place": "kitchen drawer"}],
  "foods": [{"kind": "juice", "name": {"en": "apple juice", "es": "jugo de manzana"}, "unit": "mL",
             "carbohydrate": "9.6 g/(100.mL)",
                     "measure" : {"name" : {"en" : "tablespoon", "es" : "cucharada"}, "size" : "15 mL"},
                     "source" : "the label"
}],
  "contacts": {"clinic": "555 0100", "on_call": "555 0102", "second_adult": {"name": "Bo", "number": "555 0101"},
               "emergency": "112", "address": "1 Harbour Lane"}, "language": "en"
})json";

std::vector<std::string> words_for(const Folder& folder, const std::string& out, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"sheet",      "--child", folder.path("ada.json"), "--on",
                                 "2026-03-01", "--out",   folder.path(out)};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

/// Lines of a page are broken anywhere.
std::string on_one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  return text;
}

/// Numbers as they stand, in any order.
std::multiset<std::string> numbers_in(const std::string& text) {
  static const std::regex number(R"([0-9]+(\.[0-9]+)?)");
  std::multiset<std::string> numbers;
  for (auto found = std::sregex_iterator(text.begin(), text.end(), number); found != std::sregex_iterator(); ++found)
    numbers.insert(found->str());
  return numbers;
}

BOOST_AUTO_TEST_SUITE(sheet_files)

BOOST_AUTO_TEST_CASE(pdf_is_tagged_titled_in_its_language_and_has_its_fonts_inside) {
  Folder folder;
  folder.write("ada.json", kAda);
  for (const char* language : {"en", "es"}) {
    const Run run = run_program(words_for(folder, "ada.pdf", {"--lang", language}));
    BOOST_REQUIRE_MESSAGE(run.status == 0, run.err);
    const std::string about = printed_by("pdfinfo " + folder.path("ada.pdf"));
    BOOST_TEST(about.find("Tagged:          yes") != std::string::npos, about);
    BOOST_TEST(
        about.find(language == std::string("en") ? "Low glucose: Ada" : "Glucosa baja: Ada") != std::string::npos,
        about);
    BOOST_TEST(folder.read("ada.pdf").find(std::string("/Lang (") + language + ")") != std::string::npos);
    const std::vector<std::string> fonts = tests::lines_of(printed_by("pdffonts " + folder.path("ada.pdf")));
    BOOST_TEST(fonts.size() > 2U);
    for (std::size_t at = 2; at < fonts.size(); ++at) {
      BOOST_TEST(fonts[at].find("Andika") != std::string::npos, "another font: " << fonts[at]);
      BOOST_TEST(std::regex_search(fonts[at], std::regex("yes yes yes")), "not embedded: " << fonts[at]);
    }
    const std::string structure = printed_by("pdfinfo -struct " + folder.path("ada.pdf"));
    BOOST_TEST(structure.find("H1") != std::string::npos);
    BOOST_TEST(structure.find("H2") != std::string::npos);
  }
}

BOOST_AUTO_TEST_CASE(page_about_a_child_is_for_its_owner_alone_and_whole_or_not_there) {
  namespace fs = std::filesystem;
  Folder folder;
  folder.write("ada.json", kAda);
  folder.write("kept.txt", "an older page, longer than nothing");
  fs::permissions(folder.path("kept.txt"), fs::perms::owner_all | fs::perms::others_read);
  fs::create_symlink("kept.txt", folder.path("page.txt"));
  BOOST_TEST(run_program(words_for(folder, "page.txt", {"--text"})).status == 0);
  BOOST_TEST(fs::is_symlink(folder.path("page.txt")));
  BOOST_TEST(folder.read("kept.txt").rfind("LOW GLUCOSE: ADA", 0) == 0U);
  BOOST_TEST((fs::status(folder.path("kept.txt")).permissions() == (fs::perms::owner_read | fs::perms::owner_write)));
  const Run printed =
      run_program({"sheet", "--child", folder.path("ada.json"), "--on", "2026-03-01", "--text", "--out", "/dev/stdout"});
  BOOST_TEST(printed.status == 0, printed.err);
  BOOST_TEST(printed.out == folder.read("kept.txt"));
  const Run nowhere = run_program(words_for(folder, "no/such/folder.txt", {"--text"}));
  BOOST_TEST(nowhere.status == 2);
  BOOST_TEST(nowhere.err.find("folder.txt") != std::string::npos, nowhere.err);
  int files = 0;
  for ([[maybe_unused]] const fs::directory_entry& each : fs::directory_iterator(folder.path(""))) ++files;
  BOOST_TEST(files == 3, "something was left behind");
}

BOOST_AUTO_TEST_CASE(same_child_and_day_give_the_same_bytes) {
  Folder folder;
  folder.write("ada.json", kAda);
  for (const std::vector<std::string>& form :
       {std::vector<std::string>{}, std::vector<std::string>{"--svg"}, std::vector<std::string>{"--text"}}) {
    BOOST_TEST(run_program(words_for(folder, "one", form)).status == 0);
    BOOST_TEST(run_program(words_for(folder, "two", form)).status == 0);
    BOOST_TEST((folder.read("one") == folder.read("two")));
    BOOST_TEST(!folder.read("one").empty());
  }
}

BOOST_AUTO_TEST_CASE(pdf_svg_and_text_hold_the_same_numbers) {
  Folder folder;
  folder.write("ada.json", kAda);
  for (const char* paper : {"A4", "Letter"}) {
    BOOST_TEST(run_program(words_for(folder, "ada.pdf", {"--paper", paper})).status == 0);
    const std::string pdf = on_one_line(printed_by("pdftotext -raw " + folder.path("ada.pdf") + " -"));
    BOOST_TEST(run_program(words_for(folder, "ada.txt", {"--text"})).status == 0);
    std::set<std::string> seen;
    for (const std::string& number : numbers_in(pdf)) seen.insert(number);
    for (const std::string& number : numbers_in(folder.read("ada.txt")))
      BOOST_TEST(seen.count(number) == 1U, number << " is not in the PDF");
    BOOST_TEST(pdf.find("75 mL") != std::string::npos);
    BOOST_TEST(pdf.find("3 mg") != std::string::npos);
  }
}

BOOST_AUTO_TEST_CASE(svg_is_well_formed_and_its_text_is_text) {
  Folder folder;
  std::string child = kAda;
  child.replace(child.find("\"Ada\""), 5, "\"<b>Ada</b> & \\\"Bo\\\"\"");
  folder.write("ada.json", child);
  BOOST_TEST(run_program(words_for(folder, "ada.svg", {"--svg"})).status == 0);
  printed_by("xmllint --noout --nonet " + folder.path("ada.svg"));
  const std::string svg = folder.read("ada.svg");
  BOOST_TEST(svg.find("<text") != std::string::npos);
  BOOST_TEST(svg.find("&lt;b&gt;Ada&lt;/b&gt; &amp;") != std::string::npos);
  BOOST_TEST(svg.find("<b>") == std::string::npos);
  BOOST_TEST(svg.size() < 100'000U);
}

BOOST_AUTO_TEST_CASE(plain_text_is_no_wider_than_80_columns_and_obeys_nothing) {
  for (const std::string& name : test::hard_names()) {
    test::Children children(12);
    Child child = children.next(test::kToday);
    child.name = name + "\x1b[31m\x07";
    const std::string text = text_from_sheet(test::whole_sheet("reference", child));
    for (const std::string& line : tests::lines_of(text)) {
      // Letters and not bytes: count what begins a letter.
      const auto letters = std::count_if(line.begin(), line.end(), [](char each) { return (each & 0xC0) != 0x80; });
      BOOST_TEST(letters <= 80, line);
    }
    BOOST_TEST(text.find('\x1b') == std::string::npos);
    BOOST_TEST(text.find('\x07') == std::string::npos);
    BOOST_TEST(text.find("\xE2\x80\xAE") == std::string::npos);
  }
}

BOOST_AUTO_TEST_CASE(sheet_says_until_when_it_may_be_used_and_why) {
  Folder folder;
  folder.write("ada.json", kAda);
  BOOST_TEST(run_program(words_for(folder, "ada.txt", {"--text"})).status == 0);
  // Weighed on 2026-02-20; a weight is old after 90 days.
  BOOST_TEST(folder.read("ada.txt").find("Use until 2026-05-21, then weigh again.") != std::string::npos);
  const Run late = run_program({"sheet", "--child", folder.path("ada.json"), "--on", "2026-06-01", "--text"});
  BOOST_TEST(late.status == 0);
  BOOST_TEST(late.out.find("OUT OF DATE") != std::string::npos);
  BOOST_TEST(late.err.find("OUT OF DATE") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(invented_child_is_never_out_of_date_and_a_real_one_is_told) {
  for (const char* day : {"2026-03-01", "2026-11-30", "2027-02-28", "2041-07-04"}) {
    const Run demo = run_program({"sheet", "--text", "--on", day});
    BOOST_TEST(demo.status == 0, demo.err);
    BOOST_TEST(demo.err.empty(), demo.err);
    BOOST_TEST(demo.out.find("6 years, 21 kg") != std::string::npos, day << "\n" << demo.out.substr(0, 300));
    BOOST_TEST(demo.out.find("3 mg of glucagon") != std::string::npos, day << ": the medicine is good");
  }
  const Run today = run_program({"sheet", "--text"});
  BOOST_TEST(today.out.find("OUT OF DATE") == std::string::npos, today.out.substr(0, 300));
  Folder folder;
  folder.write("mika.json", tests::file_in_tree("protocols/demo-child.json"));
  const Run kept = run_program({"sheet", "--text", "--child", folder.path("mika.json"), "--on", "2026-11-30"});
  BOOST_TEST(kept.err.find("OUT OF DATE") != std::string::npos, kept.err);
}

BOOST_AUTO_TEST_CASE(page_about_the_sheet_shows_what_the_program_prints) {
  const std::string page = tests::file_in_tree("docs/sheet.md");
  const std::size_t begin = page.find("```\n") + 4;
  const std::string shown = page.substr(begin, page.find("```", begin) - begin);
  BOOST_TEST(tests::lines_of(shown).size() > 20U);
  const Run run = run_program({"sheet", "--text", "--on", "2026-03-01"});
  BOOST_TEST(run.out.find(shown) == 0U, "the program prints otherwise:\n" << run.out);
}

BOOST_AUTO_TEST_CASE(what_cannot_be_printed_is_said_with_its_remedy) {
  const Run no_file = run_program({"sheet"});
  BOOST_TEST(no_file.status == 2);
  BOOST_TEST(no_file.err.find("--out FILE.pdf") != std::string::npos, no_file.err);
  const Run no_page = run_program({"sheet", "--text", "--also", "measles"});
  BOOST_TEST(no_page.status == 2);
  const Run no_day = run_program({"sheet", "--text", "--on", "1 March"});
  BOOST_TEST(no_day.status == 2);
  const Run no_child = run_program({"sheet", "--text", "--child", "/nowhere/ada.json"});
  BOOST_TEST(no_child.status == 2);
  const Run no_place = run_program({"sheet", "--out", "/nowhere/ada.pdf"});
  BOOST_TEST(no_place.status == 2);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
