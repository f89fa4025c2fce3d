#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "tests/compare/shipped.hpp"
#include "tests/verify/small_checks.hpp"
#include "verify/apart.hpp"

using namespace rushlight;
using namespace rushlight::tests;

// What stands otherwise in one place of a set than in all others: each case is a slip in a shipped file.

namespace {

std::string file_of(const char* name) { return shipped_text("reference", name); }

/// The first `old` after a place in a text, changed.
std::string changed_behind(std::string text, const std::string& behind, const std::string& old, const std::string& to) {
  const std::size_t from = text.find(behind);
  BOOST_REQUIRE_MESSAGE(from != std::string::npos, behind);
  const std::size_t at = text.find(old, from);
  BOOST_REQUIRE_MESSAGE(at != std::string::npos, old);
  return text.replace(at, old.size(), to);
}

std::vector<Finding> found_with(const std::string& name, const std::string& text) {
  std::vector<Protocol> protocols;
  for (const char* each : {"low", "ketones", "illness"})
    protocols.push_back(protocol_of(name == each ? text : file_of(each)));
  return apart_in_set({&protocols[0], &protocols[1], &protocols[2]});
}

/// The only finding over the set, of this kind.
template <class K>
K only_one(const std::string& name, const std::string& text) {
  const std::vector<Finding> findings = found_with(name, text);
  const K* kind = findings.size() == 1 ? findings.front().kind.as<K>() : nullptr;
  if (kind == nullptr) throw std::runtime_error("one other finding was expected, and found was:\n" + told(findings));
  return *kind;
}

template <class K>
std::vector<K> checked_for(const std::string& text) {
  std::vector<K> all;
  for (const Finding& finding : check(protocol_of(text)).findings) {
    if (const K* kind = finding.kind.as<K>()) all.push_back(*kind);
  }
  return all;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(alike_in_a_set)

BOOST_AUTO_TEST_CASE(answers_whose_texts_were_exchanged_are_told_by_the_other_files) {
  const std::string ketones = changed_behind(changed_behind(file_of("ketones"), R"(<choice id="belly-pain">)",
                                                            "<es>El dolor de barriga va y viene</es>", "<es>@</es>"),
                                             R"(<choice id="belly-pain">)", "<es>Dolor de barriga que no se pasa</es>",
                                             "<es>El dolor de barriga va y viene</es>");
  const auto found =
      only_one<ReadsAsOther>("ketones", changed(ketones, "<es>@</es>", "<es>Dolor de barriga que no se pasa</es>"));
  BOOST_TEST(found.fact == "belly-pain");
  BOOST_TEST(found.one == "yes");
  BOOST_TEST(found.other == "stays");
  BOOST_TEST(found.language == "es");
}

BOOST_AUTO_TEST_CASE(answers_that_name_each_other_are_told_in_one_file_alone) {
  std::string low = changed_behind(file_of("low"), R"(<option id="insulin">)", "Insulin<", "@<");
  low = changed_behind(low, R"(<option id="glucagon">)", "Rescue glucagon<", "Insulin<");
  low = changed(low, "@<", "Rescue glucagon<");
  const auto found = only_one<ReadsAsOther>("low", low);
  BOOST_TEST(found.one == "insulin");
  BOOST_TEST(found.other == "glucagon");
}

BOOST_AUTO_TEST_CASE(an_answer_in_other_words_is_no_exchange) {
  const std::string low = changed_behind(file_of("low"), R"(<option id="insulin">)", "Insulin<", "A dose of insulin<");
  BOOST_TEST(told(found_with("low", low)) == "");
}

BOOST_AUTO_TEST_CASE(a_line_of_getting_worse_with_the_words_of_another_is_told) {
  const std::string sign = R"(<sign fact="seizure")";
  const auto found = only_one<SignReadsAs>(
      "illness", changed_behind(changed_behind(file_of("illness"), sign, "Seizure: stiff or jerking", "Very drowsy"),
                                sign, "Convulsión: rigidez o sacudidas", "Mucho sueño"));
  BOOST_TEST(found.answer == "yes");
  BOOST_TEST(found.other_fact == "drowsy");
}

BOOST_AUTO_TEST_CASE(two_lines_that_are_each_about_the_question_of_the_other_are_told) {
  std::string low = changed_behind(file_of("low"), R"(<sign fact="breathing" )", "Breathes fast or deep", "@");
  low = changed_behind(low, R"(<sign fact="drowsy" )", "Very drowsy", "Breathes fast or deep");
  const auto found = only_one<SignReadsAs>("low", changed(low, "<en>@<", "<en>Very drowsy<"));
  BOOST_TEST(found.fact == "breathing");
  BOOST_TEST(found.other_fact == "drowsy");
}

BOOST_AUTO_TEST_CASE(an_action_that_others_show_to_other_children_is_told) {
  const auto found = only_one<ShownOtherwise>(
      "low", changed_behind(file_of("low"), R"(<do id="pause-very-low")", R"(is="pump")", R"(is="automatic-pump")"));
  BOOST_TEST(found.action == "pause-very-low");
  BOOST_TEST(found.there.find("delivery: pump") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_pump_to_pause_for_a_child_on_injections_is_told) {
  BOOST_TEST(only_one<PumpUnworn>("low", changed_behind(file_of("low"), R"(<do id="pause-unmeasured")", R"(is="pump")",
                                                        R"(is="injections")"))
                 .action == "pause-unmeasured");
}

BOOST_AUTO_TEST_CASE(a_blank_that_the_same_sentence_has_nowhere_else_is_told) {
  std::string low = changed_behind(file_of("low"), R"(<do id="sugar-unmeasured")", "{fast-carbohydrate} of sugar",
                                   "{smallest-carb} of sugar");
  low = changed_behind(low, R"(<do id="sugar-unmeasured")", "{fast-carbohydrate} de", "{smallest-carb} de");
  const Read<Protocol> read = resolved_from_xml(low, "low.xml");
  BOOST_TEST(has_error(read.findings));  // another amount than the dose is refused before
  const std::string illness =
      changed_behind(changed_behind(file_of("illness"), R"(<do id="sick-write-free")", "Below {low}", "Below {high}"),
                     R"(<do id="sick-write-free")", "de {low}", "de {high}");
  const auto found = only_one<OtherBlank>("illness", illness);
  BOOST_TEST(found.blank == "{high}");
  BOOST_TEST(found.usual == "{low}");
}

BOOST_AUTO_TEST_CASE(a_case_that_goes_to_another_protocol_than_everywhere_else_is_told) {
  const auto found =
      only_one<OtherProtocol>("ketones", changed_behind(file_of("ketones"), R"(<step id="emergency-measure")",
                                                        R"(hand-over="low")", R"(hand-over="illness")"));
  BOOST_TEST(found.step == "emergency-measure");
  BOOST_TEST(found.to == "illness");
  BOOST_TEST(found.usual == "low");
}

BOOST_AUTO_TEST_CASE(who_cannot_tell_goes_with_the_same_answer_everywhere) {
  std::string low = changed_behind(file_of("low"), R"(<step id="refused")", R"(<if fact="swallow" is="no unknown"/>)",
                                   R"(<if fact="swallow" is="no"/>)");
  low = changed_behind(low, R"(<step id="refused")", R"(<if fact="swallow" is="yes"/>)",
                       R"(<if fact="swallow" is="yes unknown"/>)");
  const auto found = only_one<CannotTellElsewhere>("low", low);
  BOOST_TEST(found.step == "refused");
  BOOST_TEST(found.fact == "swallow");
}

BOOST_AUTO_TEST_CASE(a_sign_that_waits_for_something_else_is_told_at_what_it_waits_for) {
  const std::string old = R"(<if fact="awake" is="confused"/>)";
  const auto held = [&](const std::string& beside) {
    return checked_for<WatchHeldBack>(
        changed_behind(file_of("illness"), R"(<rule id="acts-confused")", old, old + beside));
  };
  BOOST_TEST_REQUIRE(held(R"(<if fact="delivery" is="pump"/>)").size() == 1U);
  BOOST_TEST(held(R"(<if fact="delivery" is="pump"/>)").front().beside == "delivery: pump");
  BOOST_TEST(held(R"(<if fact="drowsy" is="yes"/>)").front().watch == "acts-confused");
  BOOST_TEST(held("").empty());
}

BOOST_AUTO_TEST_CASE(two_watches_that_share_the_children_among_them_leave_nobody_out) {
  std::string text = changed_behind(
      file_of("illness"), R"(<rule id="urine-told")", R"(<if fact="urine-ketones" is="small moderate large"/>)",
      R"(<if fact="urine-ketones" is="small moderate large"/><if fact="strips" is="urine none"/>)");
  BOOST_TEST(checked_for<WatchHeldBack>(text).size() == 1U);
  BOOST_TEST(checked_for<WatchHeldBack>(file_of("illness")).empty());
}

BOOST_AUTO_TEST_CASE(a_rule_that_leads_to_the_step_for_silence_is_told) {
  const auto found = checked_for<OddWay>(
      changed_behind(file_of("low"), R"(<step id="ketones-said")", R"(go="ketones-danger")", R"(go="nobody-checked")"));
  BOOST_TEST_REQUIRE(found.size() == 1U);
  BOOST_TEST(found.front().to == "nobody-checked");
  BOOST_TEST(found.front().from == "a rule of step `ketones-said`");
  BOOST_TEST(checked_for<OddWay>(file_of("low")).empty());
}

BOOST_AUTO_TEST_CASE(one_screen_names_one_kind_of_drink) {
  const auto found = checked_for<DrinksApart>(
      changed_behind(changed_behind(file_of("illness"), R"(<do id="sick-water")", "Give water or sugar-free drink",
                                    "Give juice or sugary drink"),
                     R"(<do id="sick-water")", "agua o bebida sin", "jugo o bebida con"));
  BOOST_TEST_REQUIRE(found.size() == 1U);
  BOOST_TEST(found.front().action == "sick-water");
  BOOST_TEST(checked_for<DrinksApart>(file_of("illness")).empty());
}

BOOST_AUTO_TEST_SUITE_END()
