#include <boost/test/unit_test.hpp>

#include "wire/child_from_json.hpp"
#include "wire/json_from_child.hpp"
#include "wire/sample.hpp"

namespace rushlight::tests {

namespace {

Child child_in(const std::string& text) {
  const Read<Child> read = child_from_json(text, "child.json", kToday);
  if (!read.value) BOOST_FAIL(text << "\n" << text_from_finding(read.findings.at(0), std::nullopt));
  return *read.value;
}

std::string kinds_in(const std::string& text) { return kinds_of(child_from_json(text, "child.json", kToday).findings); }

}  // namespace

BOOST_AUTO_TEST_SUITE(child_file)

BOOST_AUTO_TEST_CASE(whole_file_is_read_to_the_last_word) {
  const Child child = sample_child();
  BOOST_TEST(child.name == "Ada");
  BOOST_CHECK(child.weight == BodyWeight(Decimal::whole(21), kKilogram));
  BOOST_CHECK(child.total_daily_dose == InsulinDose(Decimal::whole(15), kInsulinUnit));
  BOOST_CHECK(child.unit == GlucoseUnit::mg_per_dl);
  BOOST_CHECK(child.delivery == Delivery::injections);
  BOOST_REQUIRE_EQUAL(child.rescue.size(), 1u);
  BOOST_CHECK(child.rescue[0].kind == RescueKind::nasal);
  BOOST_TEST(child.rescue[0].place == "kitchen drawer");
  BOOST_REQUIRE_EQUAL(child.foods.size(), 1u);
  BOOST_TEST(child.foods[0].name[static_cast<int>(Language::es)] == "jugo de manzana");
  BOOST_CHECK(child.foods[0].carbohydrate == Decimal::of_micros(9'600'000));
  BOOST_REQUIRE(child.foods[0].measure.has_value());
  BOOST_CHECK(child.foods[0].measure->size == Decimal::whole(15));
  BOOST_TEST(child.foods[0].measure->name[static_cast<int>(Language::en)] == "tablespoon");
  BOOST_TEST(child.contacts.clinic == "555 0100");
  BOOST_TEST(child.contacts.second_adult == "555 0101");
  BOOST_TEST(child.contacts.emergency == "");
  BOOST_TEST(child.set == "reference");
}

BOOST_AUTO_TEST_CASE(what_is_not_said_is_not_made_up) {
  const Child child = child_in(R"({"name": "Bo", "birth": "2014-07-30", "unit": "mmol/L", "delivery": "pump"})");
  BOOST_CHECK(!child.weight);
  BOOST_CHECK(!child.total_daily_dose);
  BOOST_CHECK(child.rescue.empty());
  BOOST_CHECK(child.foods.empty());
  BOOST_CHECK(child.strips == Strips::none);
  BOOST_TEST(child.contacts.emergency == "");
}

BOOST_AUTO_TEST_CASE(child_written_and_read_again_is_the_same_file) {
  for (const char* file : {"tests/findings/good/child/whole.json", "tests/findings/good/child/smallest.json",
                           "protocols/demo-child.json", "tests/nights/child.json"}) {
    const std::string once = json_from_child(child_in(file_in_tree(file)));
    BOOST_TEST(json_from_child(child_in(once)) == once, file);
  }
}

BOOST_AUTO_TEST_CASE(demo_child_weighs_21_kg_so_that_its_dose_rounds_up_to_7_g) {
  const Child child = child_in(file_in_tree("protocols/demo-child.json"));
  BOOST_CHECK(child.weight == BodyWeight(Decimal::whole(21), kKilogram));
  BOOST_TEST(child.contacts.emergency == "");
}

BOOST_AUTO_TEST_CASE(pounds_typed_as_kilograms_are_asked_about_until_confirmed) {
  const std::string pounds = changed(whole_child_file(), "21 kg", "46 kg");
  BOOST_TEST(kinds_in(pounds) == "implausible-value");
  const std::string confirmed = changed(pounds, "\"unit\"", "\"weight_confirmed\": true, \"unit\"");
  BOOST_CHECK(child_in(confirmed).weight == BodyWeight(Decimal::whole(46), kKilogram));
  BOOST_TEST(kinds_in(changed(confirmed, "true", "false")) == "implausible-value");
}

BOOST_AUTO_TEST_CASE(insulin_above_two_units_a_kilogram_is_asked_about_and_exactly_two_is_not) {
  BOOST_TEST(kinds_in(changed(whole_child_file(), "15 [iU]", "42 [iU]")) == "");
  BOOST_TEST(kinds_in(changed(whole_child_file(), "15 [iU]", "42.001 [iU]")) == "implausible-value");
}

BOOST_AUTO_TEST_CASE(weight_accepted_today_is_accepted_on_every_later_day) {
  const std::string text = whole_child_file();
  for (int year = 2026; year < 2060; ++year) {
    const Day later{std::chrono::year{year}, std::chrono::December, std::chrono::day{31}};
    BOOST_TEST(child_from_json(text, "child.json", later).value.has_value(), "refused in " << year);
  }
}

BOOST_AUTO_TEST_CASE(birthday_today_is_not_in_the_future_and_tomorrow_is) {
  const std::string text = R"({"name": "Bo", "birth": "2026-03-01", "unit": "mmol/L", "delivery": "pump"})";
  BOOST_TEST(kinds_in(text) == "");
  BOOST_TEST(kinds_in(changed(text, "2026-03-01", "2026-03-02")) == "out-of-range");
}

BOOST_AUTO_TEST_CASE(file_with_a_byte_order_mark_and_windows_line_ends_is_read) {
  std::string text = "\xEF\xBB\xBF";
  for (const char c : whole_child_file()) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  BOOST_TEST(child_in(text).name == "Ada");
}

BOOST_AUTO_TEST_CASE(file_cut_at_any_place_is_refused) {
  std::string text = whole_child_file();
  while (text.back() == '\n') text.pop_back();
  for (std::size_t length = 0; length < text.size(); ++length) {
    BOOST_REQUIRE_MESSAGE(!child_from_json(text.substr(0, length), "child.json", kToday).value,
                          "accepted at " << length);
  }
}

BOOST_AUTO_TEST_CASE(two_foods_of_three_units_are_written_in_their_own_units) {
  const std::string foods =
      R"x([{"kind":"tablets","name":"tablet","unit":"piece","carbohydrate":"4 g","source":"label"},)x"
      R"x({"kind":"honey","name":"honey","unit":"g","carbohydrate":"82 g/(100.g)","source":"label"}])x";
  const std::string text =
      R"({"name":"Bo","birth":"2014-07-30","unit":"mmol/L","delivery":"pump","foods":)" + foods + "}";
  const std::string written = json_from_child(child_in(text));
  BOOST_TEST(written.find("\"unit\": \"piece\",\n      \"carbohydrate\": \"4 g\"") != std::string::npos);
  BOOST_TEST(written.find("\"unit\": \"g\",\n      \"carbohydrate\": \"82 g/(100.g)\"") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
