#include <boost/test/unit_test.hpp>

#include "night.hpp"

// Whoever has the emergency services on the line is not told to call them again.

namespace rushlight {
namespace {

using test::Night;

const ShownAction* call_to_help(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (action.kind == ActionKind::call_emergency) return &action;
  }
  return nullptr;
}

Night they_answered() {
  Night night;
  night.answer("awake", "no").at("02:11").call(Contact::emergency, Outcome::reached);
  return night;
}

BOOST_AUTO_TEST_SUITE(on_the_line)

BOOST_AUTO_TEST_CASE(next_emergency_step_opens_no_call_to_those_who_are_on_the_line) {
  Night night = they_answered();
  night.at("02:14").worse("swallow", "no");
  BOOST_REQUIRE(night.view().step == "keep-watch");
  BOOST_TEST(night.view().open_calls.empty());
  BOOST_REQUIRE(call_to_help(night.view()) != nullptr);
  BOOST_TEST((call_to_help(night.view())->outcome == Outcome::reached));
}

BOOST_AUTO_TEST_CASE(emergency_that_nobody_answered_stays_to_be_called) {
  Night night;
  night.answer("awake", "no").at("02:11").call(Contact::emergency, Outcome::no_answer);
  night.at("02:14").worse("swallow", "no");
  BOOST_TEST(night.view().open_calls.size() == 1);
}

BOOST_AUTO_TEST_CASE(line_that_went_dead_is_to_be_called_again) {
  Night night = they_answered();
  night.at("02:12").call(Contact::emergency, Outcome::no_answer);
  night.at("02:14").worse("swallow", "no");
  BOOST_TEST(night.view().open_calls.size() == 1);
}

BOOST_AUTO_TEST_CASE(emergency_after_a_calmer_step_is_called_anew) {
  Night night = they_answered();
  night.at("02:15").answer("awake", "yes").answer("seizure", "no");
  BOOST_REQUIRE(night.view().step == "after");
  night.at("02:40").worse("awake", "no");
  BOOST_REQUIRE(night.view().step == "emergency");
  BOOST_TEST(night.view().open_calls.size() == 1);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
