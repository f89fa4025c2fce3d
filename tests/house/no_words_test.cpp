#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <regex>

#include "house/source_text.hpp"

using namespace rushlight::house;
namespace data = boost::unit_test::data;

namespace {

const std::filesystem::path kTree = RUSHLIGHT_SOURCE_DIR;

/// Words that promise what nobody can promise, that beg, or that nobody reads as an order; empty when there is none.
/// "normally" stays: breathing normally is a question.
std::string harmful_word_in(std::string text) {
  static const std::string accented = "í";
  for (std::size_t at; (at = text.find(accented)) != std::string::npos;) text.replace(at, accented.size(), "i");
  static const std::regex words(
      R"((^|[^A-Za-z])(safe|safely|unsafe|proven|normal|please|should|shouldn|seguros?|seguras?|a salvo|comprobad[oa]s?|por favor|deber[i]a[ns]?)(?![A-Za-z]))",
      std::regex::icase);
  std::smatch found;
  if (std::regex_search(text, found, words)) return found[2];
  return text.find("[iU]") == std::string::npos ? "" : "[iU]";
}

/// The texts of a protocol: whatever stands in an <en> or an <es>.
std::vector<std::string> texts_of_protocol(const std::string& xml) {
  static const std::regex element(R"(<(en|es)>([^<]*)</(en|es)>)");
  std::vector<std::string> texts;
  for (auto found = std::sregex_iterator(xml.begin(), xml.end(), element); found != std::sregex_iterator(); ++found) {
    texts.push_back((*found)[2]);
  }
  return texts;
}

struct Said {
  const char* text;
  const char* word;
  friend std::ostream& operator<<(std::ostream& out, const Said& said) { return out << said.text; }
};
const Said kSaid[] = {
    {"Your child is safe now.", "safe"},          {"Please give sugar.", "Please"},
    {"You should call.", "should"},               {"Give 2 [iU] of insulin.", "[iU]"},
    {"La glucosa es normal.", "normal"},          {"Su hijo ya está seguro.", "seguro"},
    {"Por favor, llame.", "Por favor"},           {"Debería llamar.", "Deberia"},
    {"deberías llamar", "deberias"},                {"Is the child breathing normally?", ""},
    {"Give 7 g of sugar now: 70 mL of juice.", ""},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(words)

BOOST_DATA_TEST_CASE(a_word_that_harms_is_seen, data::make(kSaid)) {
  BOOST_TEST(harmful_word_in(sample.text) == sample.word);
}

BOOST_AUTO_TEST_CASE(no_text_of_a_shipped_protocol_holds_a_word_that_harms) {
  std::size_t texts = 0;
  for (const std::filesystem::path& path : files_below(kTree / "protocols", {".xml"})) {
    for (const std::string& text : texts_of_protocol(text_of(path))) {
      ++texts;
      const std::string word = harmful_word_in(text);
      BOOST_TEST(word.empty(), path.string() << ": \"" << word << "\" in: " << text);
    }
  }
  BOOST_TEST(texts > 100U);
}

BOOST_AUTO_TEST_CASE(no_phrase_of_the_program_holds_a_word_that_harms) {
  std::size_t texts = 0;
  for (const char* folder : {"engine/episode", "cli"}) {
    for (const std::filesystem::path& path : files_below(kTree / folder, {".cpp", ".hpp"})) {
      for (const SourceText::Literal& literal : taken_apart(text_of(path)).strings) {
        ++texts;
        const std::string word = harmful_word_in(literal.text);
        BOOST_TEST(word.empty(), path.string() << ":" << literal.line << ": \"" << word << "\" in: " << literal.text);
      }
    }
  }
  BOOST_TEST(texts > 50U);
}

BOOST_AUTO_TEST_CASE(no_file_puts_work_off) {
  const std::string marks[] = {std::string("TO") + "DO", std::string("FIX") + "ME"};
  for (const char* folder : {"engine", "cli", "tests", "protocols", "docs"}) {
    for (const std::filesystem::path& path : files_below(kTree / folder, {".cpp", ".hpp", ".sh", ".xml", ".md", ".txt", ".cmake"})) {
      const std::string text = text_of(path);
      for (const std::string& mark : marks) {
        BOOST_TEST(text.find(mark) == std::string::npos, path.string() << " holds " << mark);
      }
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
