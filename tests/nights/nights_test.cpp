#include <boost/make_shared.hpp>
#include <boost/test/tree/test_case_template.hpp>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "episode/night.hpp"
#include "nights/walked_set.hpp"
#include "wire/child_from_json.hpp"
#include "wire/event_from_line.hpp"
#include "wire/json_from_view.hpp"

using namespace rushlight;
using rushlight::test::text_of_file;
using rushlight::test::walked_protocol;
using Json = nlohmann::json;

namespace {

const std::string kFolder = RUSHLIGHT_SOURCE_DIR "/tests/nights/";

std::vector<std::string> night_files() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(kFolder)) {
    if (entry.path().extension() == ".night") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// Every field that `wanted` names is in `shown`; a list is searched for each wanted entry, and an empty one must be
/// empty.
bool holds_all(const Json& wanted, const Json& shown) {
  if (wanted.is_object()) {
    if (!shown.is_object()) return false;
    for (const auto& [key, value] : wanted.items()) {
      if (!shown.contains(key) || !holds_all(value, shown.at(key))) return false;
    }
    return true;
  }
  if (wanted.is_array()) {
    if (wanted.empty()) return shown.is_array() && shown.empty();
    return shown.is_array() && std::all_of(wanted.begin(), wanted.end(), [&](const Json& entry) {
             return std::any_of(shown.begin(), shown.end(), [&](const Json& other) { return holds_all(entry, other); });
           });
  }
  return wanted == shown;
}

std::vector<std::string> sets_of(const Json& head) {
  const Json& set = head.at("set");
  return set.is_array() ? set.get<std::vector<std::string>>() : std::vector<std::string>{set.get<std::string>()};
}

/// The night being told: protocol, child and episode, and the view after the last line.
class Telling {
 public:
  Telling(const Json& head, const std::string& set)
      : protocol_(walked_protocol(RUSHLIGHT_SOURCE_DIR "/" + head.value("folder", "protocols/") + set,
                                  head.value("protocol", "low"), head.value("approved", false))),
        child_(child_of(head)) {}

  /// False when the line is none that a night may hold.
  bool tell(const std::string& line, const Json& json, int number) {
    if (json.contains("expect")) {
      expect(json.at("expect"), number);
    } else if (json.contains("look_at")) {
      look(*moment_from_text(json.at("look_at").get<std::string>()));
    } else if (json.contains("at")) {
      event(line);
    } else {
      return json.contains("source");
    }
    return true;
  }

 private:
  void event(const std::string& line) {
    const auto read = event_from_line(line, protocol_.protocol(), child_);
    if (const auto* findings = std::get_if<std::vector<Finding>>(&read)) {
      BOOST_FAIL(text_from_finding(findings->front(), line));
    }
    const Event& event = std::get<Event>(read);
    if (!episode_) episode_ = begun(protocol_.protocol(), child_, event.at);
    episode_ = folded(protocol_.protocol(), child_, std::move(*episode_), event);
    look(event.at);
  }

  void look(Moment at) { shown_ = json_from_view(view_of(protocol_.protocol(), child_, *episode_, at)); }

  void expect(const Json& wanted, int line) const {
    const Json view = Json::parse(shown_);
    for (const auto& [key, value] : wanted.items()) {
      if (key == "never") {
        BOOST_TEST(shown_.find(value.get<std::string>()) == std::string::npos, "line " << line << ": shows " << value
                                                                                       << "\n"
                                                                                       << shown_);
      } else if (key == "asks") {
        BOOST_TEST(view.at("ask") == value, "line " << line << ": asks " << view.at("ask") << ", not " << value);
      } else {
        BOOST_TEST((view.contains(key) && holds_all(value, view.at(key))), "line " << line << ": wanted " << key << " "
                                                                                   << value << " in\n"
                                                                                   << shown_);
      }
    }
  }

  static Child child_of(const Json& head) {
    Json file = Json::parse(text_of_file(kFolder + "child.json"));
    if (head.contains("child")) file.merge_patch(head.at("child"));
    const Read<Child> child = child_from_json(file.dump(), "child.json", *day_from_text("2026-03-01"));
    for (const Finding& finding : child.findings) BOOST_TEST_MESSAGE(text_from_finding(finding, std::nullopt));
    BOOST_REQUIRE(child.value.has_value());
    return *child.value;
  }

  CheckedProtocol protocol_;
  Child child_;
  std::optional<Episode> episode_;
  std::string shown_;
};

/// Every line of one file, told in each of its sets.
void tell(const std::string& name) {
  std::ifstream file(kFolder + name + ".night");
  std::string line;
  std::getline(file, line);
  const Json head = Json::parse(line);
  std::vector<Telling> tellings;
  for (const std::string& set : sets_of(head)) tellings.emplace_back(head, set);
  int expectations = 0;
  for (int number = 2; std::getline(file, line); ++number) {
    if (line.empty()) continue;
    const Json json = Json::parse(line);
    expectations += json.contains("expect") ? 1 : 0;
    for (Telling& telling : tellings)
      BOOST_REQUIRE_MESSAGE(telling.tell(line, json, number), name << ":" << number << ": unknown line");
  }
  BOOST_TEST(expectations > 0);
}

/// One test case a file, named after it.
class Nights : public boost::unit_test::test_unit_generator {
 public:
  boost::unit_test::test_unit* next() const override {
    if (at_ == names_.size()) return nullptr;
    const std::string& name = names_[at_++];
    return boost::unit_test::make_test_case([name] { tell(name); }, name, __FILE__, __LINE__);
  }

 private:
  std::vector<std::string> names_ = night_files();
  mutable std::size_t at_ = 0;
};

}  // namespace

BOOST_AUTO_TEST_SUITE(nights)

BOOST_AUTO_TU_REGISTRAR(each_night)(boost::make_shared<Nights>(), boost::unit_test::decorator::collector_t::instance());

BOOST_AUTO_TEST_SUITE_END()
