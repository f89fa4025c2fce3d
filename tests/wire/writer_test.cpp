#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "wire/json_from_finding.hpp"
#include "wire/json_from_view.hpp"
#include "wire/json_tree.hpp"
#include "wire/json_writer.hpp"
#include "wire/sample.hpp"

namespace rushlight::tests {

BOOST_AUTO_TEST_SUITE(json_written)

BOOST_AUTO_TEST_CASE(amount_is_written_digit_for_digit) {
  JsonWriter out;
  out.begin_list()
      .number(Decimal::of_micros(6'300'000))
      .number(Decimal::of_micros(50'000))
      .number(Decimal::whole(7))
      .end_list();
  BOOST_TEST(out.json() == "[6.3,0.05,7]");
}

BOOST_AUTO_TEST_CASE(bytes_that_are_no_utf_8_never_throw) {
  JsonWriter out;
  out.begin_object().key("a\xff").text("b\xff\x1b\n").end_object();
  BOOST_TEST(nlohmann::json::accept(out.json()));
  BOOST_TEST(out.json().find('\n') == std::string::npos);
  BOOST_TEST(out.json().find('\x1b') == std::string::npos);
}

BOOST_AUTO_TEST_CASE(empty_lists_and_objects_stay_on_their_line) {
  JsonWriter out(JsonWriter::Form::indented);
  out.begin_object().key("a").begin_list().end_list().key("b").begin_list().whole(1).end_list().end_object();
  BOOST_TEST(out.json() == "{\n  \"a\": [],\n  \"b\": [\n    1\n  ]\n}");
}

BOOST_AUTO_TEST_CASE(refusal_holds_every_finding_and_the_place_of_each) {
  const Where place{"input", 3, 5, 2};
  const std::vector<Finding> findings{
      Finding{Severity::error, place, RepeatedKey{"awake"}, Because{"it stands here first", Where{"input", 3, 1, 2}}},
      Finding{Severity::error, Where{"input", 0, 0, 0}, NotUtf8{}, {}}};
  const auto json = nlohmann::json::parse(json_from_refusal(findings));
  BOOST_TEST(json["error"]["kind"] == "repeated-key");
  BOOST_TEST(json["error"]["line"] == 3);
  BOOST_TEST(json["error"]["column"] == 5);
  BOOST_TEST(json["error"]["sentence"] == sentence(findings[0].kind));
  BOOST_TEST(json["error"]["because"]["column"] == 1);
  BOOST_TEST(json["error"]["also"][0]["kind"] == "not-utf8");
  BOOST_TEST(!json["error"]["also"][0].contains("line"));
}

BOOST_AUTO_TEST_CASE(view_has_every_fixed_key_in_its_order_and_takes_amounts_as_numbers) {
  View view{};
  view.protocol = "low";
  view.step = "treat";
  view.headline = "Give 7 g now.";
  ShownAction action{ActionId{0}, "sugar", ActionKind::by_mouth, "Give it.", std::nullopt, std::nullopt, std::nullopt};
  action.dose =
      DoseResult{Quantity{Decimal::whole(7), Unit::gram}, "0.3 g/kg x 21 kg = 6.3 g, up to 7 g", "", {}, std::nullopt};
  view.actions.push_back(action);
  const auto json = nlohmann::ordered_json::parse(json_from_view(view));
  std::vector<std::string> fixed{"protocol", "step",    "urgency", "headline", "also",       "meanwhile",
                                 "ask",      "do",      "wait",    "timers",   "open_calls", "call",
                                 "withheld", "caution", "why",     "ended"};
  std::size_t next = 0;
  for (const auto& [key, value] : json.items()) {
    if (next < fixed.size() && key == fixed[next]) ++next;
  }
  BOOST_TEST(next == fixed.size());
  BOOST_TEST(json["do"][0]["amount"].dump() ==
             R"({"value":7,"unit":"g","working":"0.3 g/kg x 21 kg = 6.3 g, up to 7 g"})");
  BOOST_TEST(json["wait"].is_null());
  BOOST_TEST(!json.contains("saved"));
  BOOST_TEST(nlohmann::json::parse(json_from_view(view, false))["saved"] == false);
}

BOOST_AUTO_TEST_CASE(view_says_the_share_of_an_amount_and_whom_a_call_reaches) {
  View view{};
  view.headline = "Call 911 now.";
  view.meanwhile = "Give it.";
  view.also.emplace_back("Wrong insulin too.");
  ShownAction action{ActionId{0},  "ring",       ActionKind::call_clinic, "Call 911 now.",
                     std::nullopt, std::nullopt, Contact::emergency};
  action.dose = DoseResult{Quantity{Decimal::whole(1), Unit::milligram}, "Full dose: 1 mg", "all of the vial", {}, {}};
  view.actions.push_back(action);
  view.call = ShownCall{Contact::emergency, "the emergency services", "911", "Call 911 now.", std::nullopt};
  const auto json = nlohmann::json::parse(json_from_view(view));
  BOOST_TEST(json["meanwhile"] == "Give it.");
  BOOST_TEST(json["also"][0] == "Wrong insulin too.");
  BOOST_TEST(json["do"][0]["contact"] == "emergency");
  BOOST_TEST(json["do"][0]["amount"]["share"] == "all of the vial");
  BOOST_TEST(json["call"]["text"] == "Call 911 now.");
}

BOOST_AUTO_TEST_CASE(place_of_every_value_is_known_across_lines_and_letters) {
  const Read<JsonNode> read = json_from_text("{\"ñ\": [1,\n  {\"b\": \"é\"}]}", "file", kChildLimits);
  BOOST_REQUIRE(read.value.has_value());
  const JsonNode& list = *read.value->find("ñ");
  BOOST_CHECK(list.where == (Where{"file", 1, 7, 1}));
  BOOST_CHECK(list.items[0].where == (Where{"file", 1, 8, 1}));
  BOOST_CHECK(list.items[1].members[0].key_where == (Where{"file", 2, 5, 1}));
  BOOST_CHECK(list.items[1].members[0].value.where == (Where{"file", 2, 10, 1}));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
