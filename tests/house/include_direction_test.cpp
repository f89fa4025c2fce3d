#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <map>
#include <regex>

#include "house/breaches.hpp"
#include "house/source_text.hpp"

using namespace rushlight::house;
namespace data = boost::unit_test::data;

namespace {

const std::filesystem::path kTree = RUSHLIGHT_SOURCE_DIR;

/// A file somebody could write, and what the rule must say to it.
struct Planted {
  std::string path, text, expected;  // expected: a part of the breach; empty: none
  friend std::ostream& operator<<(std::ostream& out, const Planted& planted) {
    return out << planted.path << ": " << planted.text;
  }
};

const Planted kPlanted[] = {
    {"engine/episode/fold.cpp", "#include \"verify/check.hpp\"\n", "includes upward"},
    {"engine/protocol/resolve.cpp", "#include \"episode/value.hpp\"\n", "includes upward"},
    {"engine/measure/decimal.cpp", "#include \"finding/finding.hpp\"\n", "includes upward"},
    {"engine/verify/check.cpp", "#include \"episode/fold.hpp\"\n#include <vector>\n", ""},
    {"engine/read/protocol_from_xml.cpp", "#include <tinyxml2.h>\n", ""},
    {"engine/wire/child_from_json.cpp", "#include <tinyxml2.h>\n", "library of another folder"},
    {"engine/episode/view.cpp", "#include <nlohmann/json.hpp>\n", "library of another folder"},
    {"engine/episode/view.cpp", "#include <unistd.h>\n", "standard library only"},
    {"engine/episode/view.cpp", "#include <iostream>\n", "must do without"},
    {"engine/episode/view.cpp", "#include \"fold.hpp\"\n", "not written from the root"},
    {"engine/episode/fold.cpp", "auto t = std::chrono::system_clock::now();\n", "no clock"},
    {"engine/episode/fold.cpp", "auto t = time(nullptr);\n", "no clock"},
    {"engine/episode/fold.cpp", "// std::chrono::system_clock::now()\nconst char* kText = \"getenv(x)\";\n", ""},
    {"engine/measure/amounts.cpp", "auto h = std::getenv(\"HOME\");\n", "no environment"},
    {"engine/protocol/resolve.cpp", "std::ifstream file(name);\n", "no file"},
    {"engine/measure/decimal.cpp", "throw 1;\n", "not exceptions"},
    {"engine/read/protocol_from_xml.cpp", "int n = std::stoi(word);\n", "measure/decimal only"},
    {"engine/read/protocol_from_xml.cpp", "element.QueryIntAttribute(\"value\", &n);\n", "taken as text"},
    {"engine/wire/event_from_line.cpp", "double v = node.get<double>();\n", "taken as its text"},
    {"engine/episode/view.cpp", "auto s = std::format(\"{}\", 1);\n", "not in the compilers"},
    {"engine/util/strings.cpp", "\n", "does not know"},
    {"cli/main.cpp", std::string(401, '\n'), "401 lines"},
    {"cli/main.cpp", "#include \"journal/store.hpp\"\n#include <CLI/CLI.hpp>\n", ""},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(house)

BOOST_DATA_TEST_CASE(each_rule_of_the_house_sees_its_breach, data::make(kPlanted)) {
  const std::vector<std::string> breaches = breaches_in(sample.path, sample.text);

  BOOST_TEST(breaches.size() == (sample.expected.empty() ? 0U : 1U));
  for (const std::string& breach : breaches) {
    BOOST_TEST((!sample.expected.empty() && breach.find(sample.expected) != std::string::npos), breach);
  }
}

BOOST_AUTO_TEST_CASE(no_file_includes_upward_and_the_core_asks_nothing_of_the_machine) {
  std::size_t files = 0;
  for (const char* folder : {"engine", "cli"}) {
    for (const std::filesystem::path& path : files_below(kTree / folder, {".cpp", ".hpp"})) {
      ++files;
      const std::string name = std::filesystem::relative(path, kTree).string();
      const std::vector<std::string> breaches = breaches_in(name, text_of(path));
      for (const std::string& breach : breaches) BOOST_ERROR(name << ": " << breach);
    }
  }
  BOOST_TEST(files > 50U);
}

// Two types of one name link without a word, and then a list of the one is grown by the code of the other.
BOOST_AUTO_TEST_CASE(no_two_headers_give_one_name_to_two_types) {
  const std::regex begins("^(struct|class) (\\w+)( final)?( :[^;]*)? \\{");
  std::map<std::string, std::string> first;
  for (const char* folder : {"engine", "cli"}) {
    for (const std::filesystem::path& path : files_below(kTree / folder, {".hpp"})) {
      const std::string name = std::filesystem::relative(path, kTree).string();
      for (const std::string& line : lines_of(taken_apart(text_of(path)).code)) {
        std::smatch found;
        if (!std::regex_search(line, found, begins)) continue;
        const auto [known, is_new] = first.emplace(found[2].str(), name);
        if (!is_new) BOOST_ERROR(found[2].str() << " stands in " << known->second << " and in " << name);
      }
    }
  }
  BOOST_TEST(first.size() > 100U);
}

BOOST_AUTO_TEST_CASE(a_test_file_is_one_page_too) {
  for (const std::filesystem::path& path : files_below(kTree / "tests", {".cpp", ".hpp"})) {
    const std::size_t lines = lines_of(text_of(path)).size();
    BOOST_TEST(lines <= 400U, path.string() << " has " << lines << " lines");
  }
}

BOOST_AUTO_TEST_SUITE_END()
