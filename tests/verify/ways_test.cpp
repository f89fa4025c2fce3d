#include <boost/test/unit_test.hpp>

#include "tests/verify/small_checks.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

const std::string kBack = R"(<rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="well" resets)";
const std::string kLimit =
    R"(<rule go="call"><if fact="glucose" below="low"/><if counter="treatments" at-least="most-treatments"/></rule>)";

/// The last step of the small protocol with another one behind it.
std::string with_step(const std::string& text, const std::string& step) {
  return changed(text, "  </steps>", step + "  </steps>");
}

/// The first step takes a glucose that was just answered: nobody pricks the finger twice.
std::string taking_what_was_answered(const std::string& text) {
  return changed(text, R"(<headline><en>Measure.</en></headline>
      <ask fact="glucose"/>)",
                 R"(<headline><en>Measure.</en></headline>
      <ask fact="glucose" fresh="late"/>)");
}

/// The other signs can be said too.
std::string with_a_sign(const std::string& text) {
  return changed(text, "<worse>", R"(<worse><sign fact="symptoms" is="yes"><en>Shaky or pale</en></sign>)");
}

using Steps = std::vector<std::string>;

}  // namespace

BOOST_AUTO_TEST_SUITE(ways)

BOOST_AUTO_TEST_CASE(a_step_nothing_leads_to_is_told) {
  const std::string text = with_step(
      small_protocol(),
      R"(<step id="lost" urgency="home" source="practice" ends="yes"><headline><en>Lost.</en></headline></step>)");
  BOOST_TEST(only_check<StepUnreachable>(text).kind.step == "lost");
}

BOOST_AUTO_TEST_CASE(a_step_that_only_the_watch_or_an_outcome_leads_to_is_reachable) {
  const std::string text = changed(
      with_step(
          small_protocol(),
          R"(<step id="trouble" urgency="clinic" source="practice" ends="yes"><headline><en>Trouble.</en></headline></step>)"),
      R"(<on outcome="vomited" go="call"/>)", R"(<on outcome="vomited" go="trouble"/>)");
  BOOST_TEST(told(checked(text)) == "");
}

BOOST_AUTO_TEST_CASE(a_step_that_neither_ends_nor_has_a_rule_is_a_dead_end) {
  const auto found = only_check<DeadEnd>(
      with(R"(<rule go="crew"/>)", R"(<wait timer="recheck" lasts="recheck" overdue="late" go="crew"/>)"));
  BOOST_TEST(found.kind.step == "emergency");
  BOOST_TEST(found.underlined == "step");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(readings)

BOOST_AUTO_TEST_CASE(sugar_is_not_judged_by_a_reading_from_before_it) {
  const auto treating = [](const std::string& fresh) {
    return changed(small_protocol(), R"(<ask fact="glucose"/>
      <rule go="call"><if fact="glucose" below="low"/><if counter)",
                   "<ask fact=\"glucose\"" + fresh + R"(/>
      <rule go="call"><if fact="glucose" below="low"/><if counter)");
  };
  const std::string text = treating(R"( fresh="recheck")");
  const auto found = only_check<OldReading>(text);
  BOOST_TEST(found.kind.step == "treat");
  BOOST_TEST(found.kind.action == "sugar");
  BOOST_TEST(found.kind.fresh == "15 min");
  BOOST_TEST(found.underlined == "ask");
  BOOST_TEST(told(checked(treating(R"( fresh="late")"))) == "");  // no older than the wait is long
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(nights)

BOOST_AUTO_TEST_CASE(a_night_does_not_end_calmly_with_a_glucose_that_is_very_low) {
  const std::string text = measuring(R"(
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="well"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" at-least="low"/></rule>)");
  const auto found = only_check<NumberEndsCalmly>(text);
  BOOST_TEST(found.kind.example == "glucose 53 mg/dL");
  BOOST_TEST(found.kind.to == "well");
  BOOST_TEST(found.underlined == "rule");
}

BOOST_AUTO_TEST_CASE(a_border_for_lows_at_50_lets_53_end_calmly) {
  const std::string text = changed(small_protocol(), R"(mg-dl="70" mmol-l="3.9" least="60 mg/dL")",
                                   R"(mg-dl="50" mmol-l="2.8" least="45 mg/dL")");
  BOOST_TEST(told(check(resolved(text)).findings).find("with glucose 53 mg/dL: very low") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_night_does_not_end_as_if_all_were_well_when_nobody_can_tell_the_glucose) {
  const std::string text = changed(small_protocol(), R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
                                   R"(<rule go="well"><if fact="glucose" is="unknown"/></rule>)");
  const auto found = only_check<UnknownIsCalm>(text);
  BOOST_TEST(found.kind.law == "");
  BOOST_TEST(found.kind.to == "well");
}

BOOST_AUTO_TEST_CASE(an_emergency_is_no_call_to_the_clinic_alone) {
  const std::string text = changed(
      small_protocol(),
      R"(<step id="crew" urgency="emergency" handles="will-not-wake cannot-swallow having-seizure" source="practice" ends="yes"><headline><en>Stay, from {night} to {morning}.</en></headline></step>)",
      R"(<step id="crew" urgency="emergency" handles="will-not-wake cannot-swallow having-seizure" source="practice" ends="yes"><headline><en>Stay, from {night} to {morning}.</en></headline>
      <do id="tell" kind="call-clinic" contact="clinic" answer-within="late"><en>Call {clinic-number}.</en></do></step>)");
  const auto found = only_check<CallsClinicOnly>(text);
  BOOST_TEST(found.kind.step == "crew");
  BOOST_TEST(found.kind.action == "tell");
}

BOOST_AUTO_TEST_CASE(sugar_is_looked_at_again_after_the_usual_time) {
  const auto waiting = [](const std::string& lasts) {
    return changed(small_protocol(), R"(<time id="recheck" value="15 min" least="10 min" most="20 min")",
                   "<time id=\"recheck\" value=\"" + lasts + "\" least=\"1 min\" most=\"20 h\"");
  };
  const auto found = only_check<WaitUnusual>(waiting("15 h"));
  BOOST_TEST(found.kind.step == "treat");
  BOOST_TEST(found.kind.what == "after `sugar`");
  BOOST_TEST(found.underlined == "wait");
  BOOST_CHECK_NO_THROW(only_check<WaitUnusual>(waiting("9 min")));
  BOOST_TEST(told(checked(waiting("20 min"))) == "");
}

BOOST_AUTO_TEST_CASE(insulin_is_given_by_an_action_and_not_in_words) {
  const auto saying = [](const std::string& text) {
    return changed(small_protocol(), "<en>Turn the child on the side.</en>", "<en>" + text + "</en>");
  };
  BOOST_TEST(!only_check<InsulinInWords>(saying("Give the usual insulin now.")).kind.stops);
  BOOST_TEST(only_check<InsulinInWords>(saying("Wait. Stop the basal insulin.")).kind.stops);
  BOOST_TEST(told(checked(saying("Give no insulin now."))) == "");
  BOOST_TEST(told(checked(saying("Never stop the basal insulin."))) == "");
}

BOOST_AUTO_TEST_CASE(food_in_an_emergency_is_an_order_without_a_verb_too) {
  const auto saying = [](const std::string& text) {
    return changed(small_protocol(), "<en>Turn the child on the side.</en>", "<en>" + text + "</en>");
  };
  for (const char* text :
       {"A spoon of sugar in the cheek.", "Nothing but juice by mouth.", "Glucose gel inside the cheek."})
    BOOST_CHECK_NO_THROW(only_check<MouthWhileDanger>(saying(text)));
  BOOST_TEST(told(checked(saying("Nothing by mouth, no juice."))) == "");
  BOOST_TEST(told(checked(saying("Take sugar and the meter."))) == "");
}

BOOST_AUTO_TEST_CASE(a_heavier_child_is_not_given_less_sugar_than_a_lighter_one) {
  const std::string rows = R"(<row fixed="many-grams" source="practice"><if fact="weight" below="twenty"/></row>
      <row fixed="few-grams" source="practice"><if fact="weight" at-least="twenty"/></row>)";
  const std::string weight =
      R"(    <weight id="twenty" value="20 kg" least="10 kg" most="30 kg" source="practice"><en>Big</en></weight>
)";
  const std::string per_kilogram = R"(<row per-kg="per-kilogram" least="few-grams" most="many-grams" source="table"/>)";
  const std::string text = with_threshold(changed(small_protocol(), per_kilogram, rows), weight);
  const std::vector<Finding> findings = checked(text);
  const auto falls =
      std::find_if(findings.begin(), findings.end(), [](const Finding& each) { return each.kind.is<DoseFalls>(); });
  BOOST_TEST_REQUIRE((falls != findings.end()), told(findings));
  BOOST_TEST(falls->kind.get<DoseFalls>().row == 2);
  BOOST_TEST(falls->kind.get<DoseFalls>().amount == "5 g");
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(counters)

BOOST_AUTO_TEST_CASE(a_counter_of_glucagon_need_not_be_read_and_any_other_must) {
  Protocol protocol = resolved();
  protocol.counters.push_back(Counter{"spare", protocol.counters.front().where});
  const auto unread = [](const Protocol& each) {
    const std::vector<Finding> findings = check(each).findings;
    return std::count_if(findings.begin(), findings.end(),
                         [](const Finding& finding) { return finding.kind.is<NobodyUses>(); });
  };
  BOOST_TEST(unread(protocol) == 1);
  Action kit = protocol.actions.back();
  kit.kind = ActionKind::glucagon;
  kit.counts = CounterId{1};
  protocol.actions.push_back(kit);
  BOOST_TEST(unread(protocol) == 0);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(loops)

BOOST_AUTO_TEST_CASE(a_loop_without_a_counter_can_go_on_for_ever) {
  const std::string text = changed(small_protocol(), kLimit, "");
  const auto found = only_check<LoopWithoutLimit>(text);
  BOOST_TEST((found.kind.steps == Steps{"treat"}));
  BOOST_TEST(found.underlined == "step");
  BOOST_TEST_REQUIRE(found.because.has_value());
  BOOST_TEST(underlined(text, *found.because->where) == "rule");
}

BOOST_AUTO_TEST_CASE(a_limit_behind_the_way_back_does_not_hold_it) {
  const std::string text = changed(changed(small_protocol(), kLimit, ""), kBack,
                                   R"(<rule go="treat"><if fact="glucose" below="low"/></rule>)" + kLimit + R"(
      <rule go="well" resets)");
  const std::vector<Finding> findings = checked(text);
  BOOST_TEST_REQUIRE(findings.size() == 2U);
  BOOST_TEST(findings[0].kind.is<LoopWithoutLimit>());
  BOOST_TEST(findings[1].kind.is<RuleNeverMatches>());
}

BOOST_AUTO_TEST_CASE(a_limit_above_a_rule_that_is_looked_at_during_the_wait_does_not_hold_it) {
  const std::string limit = R"(<rule go="call"><if counter="treatments" at-least="most-treatments"/></rule>)";
  const auto with_signs = [&](const std::string& early) {
    return changed(small_protocol(), kLimit,
                   R"(<ask fact="symptoms"/>
      )" + limit + R"(<rule go="treat")" +
                       early + R"(><if fact="symptoms" is="yes"/></rule>)");
  };
  BOOST_TEST(told(checked(with_signs(""))) == "");
  const auto found = only_check<LoopWithoutLimit>(with_signs(R"( early="yes")"));
  BOOST_TEST((found.kind.steps == Steps{"treat"}));
}

BOOST_AUTO_TEST_CASE(a_limit_for_some_children_does_not_hold_all) {
  const std::string text = changed(
      small_protocol(), kLimit,
      R"(<rule go="call"><if fact="glucose" below="low"/><if counter="treatments" at-least="most-treatments"/><if fact="delivery" is="pump"/></rule>)");
  BOOST_CHECK_NO_THROW(only_check<LoopWithoutLimit>(text));
}

BOOST_AUTO_TEST_CASE(a_limit_split_over_two_rules_holds) {
  const std::string text = changed(
      small_protocol(), kLimit,
      R"(<rule go="call"><if counter="treatments" at-least="most-treatments"/><if fact="delivery" is="pump"/></rule>
      <rule go="call"><if counter="treatments" at-least="most-treatments"/><if fact="delivery" is="injections automatic-pump"/></rule>)");
  for (const Finding& finding : checked(text)) BOOST_TEST(!finding.kind.is<LoopWithoutLimit>());
}

BOOST_AUTO_TEST_CASE(a_loop_that_resets_its_own_counter_can_go_on_for_ever) {
  const std::string text =
      changed(small_protocol(), R"(<rule go="well" resets="treatments"><if fact="glucose" at-least="low"/></rule>)",
              R"(<rule go="measure" resets="treatments"><if fact="glucose" at-least="low"/></rule>)");
  const std::string taking = taking_what_was_answered(text);
  const auto found = only_check<LoopWithoutLimit>(taking);
  BOOST_TEST((found.kind.steps == Steps{"treat", "measure"}));
  BOOST_TEST(found.kind.set_back == "treatments");
  BOOST_TEST_REQUIRE(found.because.has_value());
  BOOST_TEST(found.because->text == "this sets `treatments` back to 0");
  BOOST_TEST(underlined(taking, *found.because->where) == "rule");
}

BOOST_AUTO_TEST_CASE(a_counter_that_an_outer_loop_resets_still_bounds_the_inner_one) {
  // Back to the start with the inner counter reset, but at most so often by a counter of its own.
  std::string text = changed(small_protocol(), R"(<counters>)", R"(<counters><counter id="rounds"/>)");
  text = changed(text, R"(<step id="measure" urgency="home")", R"(<step id="measure" urgency="home" counts="rounds")");
  text = changed(
      text, R"(<rule go="well" resets="treatments"><if fact="glucose" at-least="low"/></rule>)",
      R"(<rule go="well"><if fact="glucose" at-least="low"/><if counter="rounds" at-least="most-treatments"/></rule>
                    <rule go="measure" resets="treatments"><if fact="glucose" at-least="low"/></rule>)");
  BOOST_TEST(told(checked(taking_what_was_answered(text))) == "");
}

BOOST_AUTO_TEST_CASE(a_counter_counted_in_another_step_of_the_round_bounds_it) {
  // The limit is asked in one step, the counting happens in the next.
  std::string text = changed(small_protocol(), kBack, R"(<rule go="choose"><if fact="glucose" below="low"/></rule>
      <rule go="well" resets)");
  text = with_step(text, R"(<step id="choose" urgency="home" source="practice"><headline><en>Choose.</en></headline>
      <do id="fetch" kind="note"><en>Fetch the sugar.</en></do><rule go="treat"/></step>)");
  BOOST_TEST(told(checked(text)) == "");
}

BOOST_AUTO_TEST_CASE(a_child_who_will_not_drink_holds_no_loop_open) {
  const std::string text = with(R"(<on outcome="refused" go="call"/>)", R"(<on outcome="refused" go="treat"/>)");
  const std::vector<Finding> findings = checked(text);
  BOOST_TEST_REQUIRE(findings.size() == 2U);
  BOOST_TEST((findings[0].kind.get<LoopWithoutWait>().steps == Steps{"treat"}));
  BOOST_TEST((findings[1].kind.get<LoopWithoutLimit>().steps == Steps{"treat"}));
  BOOST_TEST(underlined(text, *findings[0].because->where) == "on");
}

BOOST_AUTO_TEST_CASE(nobody_answering_holds_no_loop_open) {
  const std::vector<Finding> findings = checked(with(R"(overdue="late" go="call")", R"(overdue="late" go="treat")"));
  BOOST_TEST_REQUIRE(findings.size() == 2U, told(findings));
  BOOST_TEST((findings[0].kind.get<LoopWithoutLimit>().steps == Steps{"treat"}));
  BOOST_TEST(findings[1].kind.get<LateAndCalm>().late == "treat");
}

BOOST_AUTO_TEST_CASE(a_question_answered_before_is_no_wait) {
  // Without a wait, only a question that must be answered anew takes time.
  const std::string round =
      R"(<step id="again" urgency="home" counts="treatments" source="practice"><headline><en>Again.</en></headline>
      <ask fact="symptoms"FRESH/>
      <rule go="well"><if counter="treatments" at-least="most-treatments"/></rule><rule go="again"/></step>)";
  const std::string leading =
      changed(with_step(small_protocol(), round), R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
              R"(<rule go="again"><if fact="glucose" is="unknown"/></rule>)");
  BOOST_TEST(told(checked(changed(leading, "FRESH", ""))) == "");
  BOOST_TEST((only_check<LoopWithoutWait>(changed(leading, "FRESH", R"( fresh="late")")).kind.steps == Steps{"again"}));
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(danger_signs)

BOOST_AUTO_TEST_CASE(each_danger_sign_that_is_asked_is_watched) {
  BOOST_TEST(only_check<WatchMissing>(with(R"(<if fact="awake" is="no unknown"/>)", R"(<if fact="awake" is="no"/>)"))
                 .kind.danger == "may not wake (`awake` is unknown)");
  BOOST_TEST(
      only_check<WatchMissing>(with(R"(<if fact="awake" is="no unknown"/>)", R"(<if fact="awake" is="unknown"/>)"))
          .kind.danger == "will not wake");
  const auto seizure = only_check<WatchMissing>(with_a_sign(
      with(R"(go="emergency"><if fact="seizure" is="yes"/>)", R"(go="emergency"><if fact="symptoms" is="yes"/>)")));
  BOOST_TEST(seizure.kind.danger == "has a seizure");
  BOOST_TEST(seizure.underlined == "yes-no");
  const auto swallow = only_check<WatchMissing>(
      with_a_sign(with(R"(<if fact="swallow" is="no unknown"/>)", R"(<if fact="symptoms" is="yes"/>)")));
  BOOST_TEST(swallow.kind.danger == "cannot swallow");
  BOOST_TEST(swallow.kind.condition == R"(<if fact="swallow" is="no unknown"/>)");
  BOOST_TEST(!swallow.because.has_value());
  const auto breathing = only_check<WatchMissing>(changed(
      with(R"(<yes-no id="symptoms">)",
           R"(<yes-no id="breathing-normally"><ask><en>Breathes as usual?</en></ask></yes-no><yes-no id="symptoms">)"),
      "<worse>", R"(<worse><sign fact="breathing-normally" is="no"><en>Hardly breathes</en></sign>)"));
  BOOST_TEST(breathing.kind.danger.find("does not breathe") == 0U);
}

BOOST_AUTO_TEST_CASE(a_watch_that_asks_for_more_than_the_sign_may_stay_silent) {
  const std::string text = with(R"(<if fact="awake" is="no unknown"/>)",
                                R"(<if fact="awake" is="no unknown"/><if fact="symptoms" is="yes"/>)");
  const auto found = only_check<WatchMissing>(text);
  BOOST_TEST(found.kind.danger == "will not wake");
  BOOST_TEST(found.because.value().text == "watch `will-not-wake` takes only a part of it");
}

BOOST_AUTO_TEST_CASE(a_watch_that_waits_for_the_hour_alone_is_refused) {
  const auto watching = [](const std::string& conditions) {
    const std::string rule = R"(<rule id="late-night" go="emergency">)" + conditions + "</rule>";
    return changed(with("<watch>", "<watch>" + rule), R"(<step id="emergency" urgency="emergency" handles=")",
                   R"(<step id="emergency" urgency="emergency" handles="late-night )");
  };
  const std::string hour = R"(<if clock-from="night" clock-up-to="morning"/>)";
  const auto found = only_check<WatchByTimeAlone>(watching(hour));
  BOOST_TEST(found.kind.watch == "late-night");
  BOOST_TEST(found.underlined == "rule");
  // With an answer it is not alone; and by day that answer is looked out for by nobody.
  const std::string with_answer = with_a_sign(watching(hour + R"(<if fact="symptoms" is="yes"/>)"));
  BOOST_TEST(only_check<WatchHeldBack>(with_answer).kind.beside == "between 22:00 (`night`) and 06:00 (`morning`)");
}

BOOST_AUTO_TEST_CASE(a_protocol_that_never_asks_whether_the_child_wakes_is_refused) {
  const std::string text = with(R"(<choice id="awake">)", R"(<choice id="wakes">)");
  std::string renamed = text;
  for (std::size_t at = 0; (at = renamed.find("fact=\"awake\"", at)) != std::string::npos;)
    renamed.replace(at, 12, "fact=\"wakes\"");
  BOOST_TEST(only_check<WatchMissing>(renamed).kind.danger == "will not wake");
}

BOOST_AUTO_TEST_CASE(the_step_a_watch_leads_to_handles_it) {
  const auto found =
      only_check<WatchNotHandled>(with(R"(handles="will-not-wake cannot-swallow having-seizure" source="practice">
      <headline><en>Call)",
                                       R"(handles="cannot-swallow having-seizure" source="practice">
      <headline><en>Call)"));
  BOOST_TEST(found.kind.step == "emergency");
  BOOST_TEST(found.kind.watch == "will-not-wake");
  BOOST_TEST(found.underlined == "rule");
}

BOOST_AUTO_TEST_CASE(a_step_that_handles_a_watch_is_not_calmer) {
  const auto found = only_check<CalmerThanWatch>(
      with(R"(<step id="crew" urgency="emergency")", R"(<step id="crew" urgency="clinic-now")"));
  BOOST_TEST(found.kind.step == "crew");
  BOOST_TEST(found.kind.watch == "will-not-wake");
}

BOOST_AUTO_TEST_CASE(nothing_goes_by_mouth_while_the_child_may_not_be_awake) {
  const auto mouth = [](const std::string& kind) {
    return with(R"(<do id="side" kind="position"><en>Turn the child on the side.</en></do>)",
                "<do id=\"side\" kind=\"" + kind +
                    R"("><en>Give sugar.</en><on outcome="part" as="given"/><on outcome="refused" as="given"/>
                <on outcome="vomited" as="given"/><on outcome="none-here" as="given"/><on outcome="wrong" as="given"/></do>)");
  };
  for (const std::string kind : {"by-mouth", "fluid"}) {
    const auto found = only_check<MouthWhileDanger>(mouth(kind));
    BOOST_TEST(found.kind.step == "emergency");
    BOOST_TEST(found.kind.action == "side");
    BOOST_TEST(found.underlined == "do");
  }
}

BOOST_AUTO_TEST_SUITE_END()
