#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "episode/night.hpp"

// What every step of the sets that come with the program keeps to, whichever night leads through it.

using namespace rushlight;
using rushlight::test::checked;

namespace {

const char* const kSets[] = {"reference", "harbour-lane"};
const char* const kFiles[] = {"reference/low",    "reference/ketones",    "reference/illness",
                              "harbour-lane/low", "harbour-lane/ketones", "harbour-lane/illness"};

CheckedProtocol shipped_file(const std::string& file) {
  return checked(RUSHLIGHT_SOURCE_DIR "/protocols/" + file + ".xml");
}

CheckedProtocol shipped(const std::string& set) { return shipped_file(set + "/low"); }

std::string words_of(const Text& text, Language language) {
  std::string words;
  for (const Piece& piece : text.in(language)) {
    if (const auto* part = std::get_if<std::string>(&piece)) words += *part;
  }
  return words;
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

bool asks_the_glucose(const Protocol& protocol, const Step& step) {
  return std::any_of(step.asks.begin(), step.asks.end(),
                     [&](const Ask& ask) { return protocol[ask.fact].kind == FactKind::glucose; });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(shipped_sets)

BOOST_DATA_TEST_CASE(every_finger_prick_says_to_wash_and_dry_the_finger, boost::unit_test::data::make(kSets), set) {
  const CheckedProtocol set_checked = shipped(set);
  const Protocol& protocol = set_checked.protocol();
  int pricks = 0;
  for (const Action& action : protocol.actions) {
    if (action.kind != ActionKind::measure || !asks_the_glucose(protocol, protocol[action.step])) continue;
    ++pricks;
    BOOST_TEST(holds(words_of(action.text, Language::en), "Wash and dry the finger."), action.name);
    BOOST_TEST(holds(words_of(action.text, Language::es), "Lave y seque el dedo."), action.name);
  }
  BOOST_TEST(pricks >= 6);
}

// A call moves on, a headline does not: its number would compete with the one that counts.
BOOST_DATA_TEST_CASE(no_headline_holds_a_number_of_the_clinic, boost::unit_test::data::make(kFiles), file) {
  const CheckedProtocol set_checked = shipped_file(file);
  for (const Step& step : set_checked.protocol().steps) {
    for (const Language language : {Language::en, Language::es}) {
      for (const Piece& piece : step.headline.in(language)) {
        const auto* filler = std::get_if<Filler>(&piece);
        const bool number = filler && (*filler == Filler::clinic_number || *filler == Filler::on_call_number);
        BOOST_TEST(!number, step.name);
      }
    }
  }
}

// Any outcome of a rescue dose but "given" may have put some of it in: only the dispatcher can say whether more is
// right.
BOOST_DATA_TEST_CASE(a_rescue_dose_that_may_be_in_leads_to_no_other_dose, boost::unit_test::data::make(kSets), set) {
  const CheckedProtocol set_checked = shipped(set);
  const Protocol& protocol = set_checked.protocol();
  int doses = 0;
  for (const Action& action : protocol.actions) {
    if (action.kind != ActionKind::glucagon) continue;
    for (const Outcome outcome : {Outcome::part, Outcome::wrong}) {
      const auto& rule = action.on[static_cast<std::size_t>(outcome)];
      BOOST_REQUIRE(rule.has_value());
      if (!rule->go) continue;  // the step goes on, as when it was given
      ++doses;
      for (const ActionId next : protocol[*rule->go].actions)
        BOOST_TEST((protocol[next].kind != ActionKind::glucagon), action.name);
    }
  }
  BOOST_TEST(doses >= 4);
}

BOOST_AUTO_TEST_SUITE_END()
