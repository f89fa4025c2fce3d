#include "protocol/words.hpp"

#include <boost/test/unit_test.hpp>

#include "protocol/child.hpp"
#include "protocol/step.hpp"
#include "tests/protocol/small_protocol.hpp"

using namespace rushlight;

BOOST_AUTO_TEST_SUITE(words_of_the_file)

BOOST_AUTO_TEST_CASE(every_word_is_written_as_it_is_read) {
  BOOST_TEST(name_of(ThresholdKind::glucose) == "glucose");
  BOOST_TEST(name_of(ThresholdKind::carbohydrate_per_weight) == "carbohydrate-per-weight");
  BOOST_TEST(name_of(ThresholdKind::clock) == "clock");
  BOOST_TEST(name_of(Urgency::home) == "home");
  BOOST_TEST(name_of(Urgency::clinic_now) == "clinic-now");
  BOOST_TEST(name_of(Urgency::emergency) == "emergency");
  BOOST_TEST(name_of(ActionKind::by_mouth) == "by-mouth");
  BOOST_TEST(name_of(ActionKind::call_emergency) == "call-emergency");
  BOOST_TEST(name_of(ActionKind::note) == "note");
  BOOST_TEST(name_of(Outcome::given) == "given");
  BOOST_TEST(name_of(Outcome::none_here) == "none-here");
  BOOST_TEST(name_of(Outcome::told) == "told");
  BOOST_TEST(name_of(Contact::on_call) == "on-call");
  BOOST_TEST(name_of(FoodKind::soft_drink) == "soft-drink");
  BOOST_TEST(name_of(FoodKind::other) == "other");
  BOOST_TEST(name_of(Delivery::automatic_pump) == "automatic-pump");
  BOOST_TEST(name_of(Strips::none) == "none");
  BOOST_TEST(name_of(RescueKind::premixed) == "premixed");
}

BOOST_AUTO_TEST_CASE(a_food_kind_is_read_back_and_another_word_is_not) {
  for (const auto name : words::kFoodKinds) {
    BOOST_TEST_REQUIRE(food_kind_from(name).has_value());
    BOOST_TEST(name_of(*food_kind_from(name)) == name);
  }
  BOOST_TEST(!food_kind_from("Juice").has_value());
  BOOST_TEST(!food_kind_from("").has_value());
}

BOOST_AUTO_TEST_CASE(rescue_options_begin_with_the_rescue_kinds) {
  for (std::size_t i = 0; i < words::kRescueKinds.size(); ++i) BOOST_TEST(kRescueOptions[i] == words::kRescueKinds[i]);
}

BOOST_AUTO_TEST_CASE(what_goes_by_mouth_covers_all_that_can_go_wrong) {
  const std::vector<Outcome> mouth = outcomes_to_cover(ActionKind::by_mouth);
  BOOST_TEST(mouth.size() == 5U);
  BOOST_TEST((mouth == outcomes_to_cover(ActionKind::fluid)));
  BOOST_TEST((outcomes_to_cover(ActionKind::glucagon) ==
              std::vector<Outcome>{Outcome::part, Outcome::refused, Outcome::none_here, Outcome::wrong}));
  BOOST_TEST((outcomes_to_cover(ActionKind::measure) == std::vector<Outcome>{Outcome::none_here}));
  BOOST_TEST(outcomes_to_cover(ActionKind::note).empty());
  BOOST_TEST(outcomes_to_cover(ActionKind::call_clinic).empty());
}

BOOST_AUTO_TEST_CASE(a_source_is_cited_with_what_it_names) {
  Source source{"x", "ISPAD", "2022", "Hypoglycaemia in children", "table 1", false, false, {}};
  BOOST_TEST(citation(source) == "ISPAD 2022, Hypoglycaemia in children, table 1");
  source.from_memory = true;
  source.place.clear();
  BOOST_TEST(citation(source) == "ISPAD 2022, Hypoglycaemia in children (from memory)");
  BOOST_TEST(citation(Source{"p", "", "", "", "", true, false, {}}) == "common practice, no source");
}

BOOST_AUTO_TEST_CASE(things_are_found_by_name) {
  const Protocol protocol = tests::resolved();
  BOOST_TEST((protocol.fact_named("age") == fact_id(ChildFact::age)));
  BOOST_TEST((protocol.fact_named("strips") == fact_id(ChildFact::strips)));
  BOOST_TEST_REQUIRE(protocol.fact_named("glucose").has_value());
  BOOST_TEST(protocol[*protocol.fact_named("glucose")].name == "glucose");
  BOOST_TEST(protocol[*protocol.action_named("pause")].name == "pause");
  BOOST_TEST((protocol[*protocol.action_named("pause")].step == *protocol.step_named("treat")));
  BOOST_TEST(!protocol.step_named("nowhere").has_value());
}

BOOST_AUTO_TEST_SUITE_END()
