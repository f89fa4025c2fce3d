#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "tests/protocol/small_protocol.hpp"

using namespace rushlight;
using namespace rushlight::tests;

BOOST_AUTO_TEST_SUITE(texts_and_names)

BOOST_AUTO_TEST_CASE(the_small_protocol_is_right) { BOOST_TEST(told(findings_of(small_protocol())) == ""); }

BOOST_AUTO_TEST_CASE(a_text_is_words_and_blanks) {
  const Protocol protocol = resolved();
  const Template& text = protocol[*protocol.action_named("sugar")].text.in(Language::en);
  BOOST_TEST_REQUIRE(text.size() == 5U);
  BOOST_TEST(std::get<std::string>(text[0]) == "Give ");
  BOOST_TEST(protocol[std::get<DoseId>(text[1])].name == "sugar-dose");
  BOOST_TEST(std::get<std::string>(text[2]) == ". Wait ");
  BOOST_TEST(protocol[std::get<ThresholdId>(text[3])].name == "recheck");
  BOOST_TEST((std::get<Filler>(protocol.steps.back().headline.in(Language::es)[1]) == Filler::glucose));
}

BOOST_AUTO_TEST_CASE(every_declared_language_is_written) {
  std::string text = with(R"(languages="en")", R"(languages="en es")");
  const std::size_t missing = findings_of(text).size();
  BOOST_TEST(missing > 20U);
  for (const Finding& finding : findings_of(text)) BOOST_TEST(finding.kind.is<MissingLanguage>());
  text = changed(text, "<title><en>Low glucose</en>", "<title><en>Low glucose</en><es>Glucosa baja</es>");
  BOOST_TEST(findings_of(text).size() == missing - 1);
}

namespace {

/// How often it is doubted that both languages say the same, when the title reads so.
std::size_t doubts_of(const std::string& english, const std::string& spanish) {
  const std::string text = changed(with(R"(languages="en")", R"(languages="en es")"), "<title><en>Low glucose</en>",
                                   "<title><en>" + english + "</en><es>" + spanish + "</es>");
  const std::vector<Finding> findings = findings_of(text);
  return static_cast<std::size_t>(std::count_if(
      findings.begin(), findings.end(), [](const Finding& finding) { return finding.kind.is<NegationMissing>(); }));
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_no_that_one_language_has_lost_is_doubted_and_one_in_other_words_is_none) {
  BOOST_TEST(doubts_of("Do not give it yet.", "Délo ya.") == 1U);
  BOOST_TEST(doubts_of("Give it now.", "No lo dé todavía.") == 1U);
  BOOST_TEST(doubts_of("Don't stop it.", "Quítela.") == 1U);
  BOOST_TEST(doubts_of("Never stop it.", "Nunca la quite.") == 0U);
  BOOST_TEST(doubts_of("Does the child not eat?", "¿No come?") == 0U);
  BOOST_TEST(doubts_of("¡NOTHING by mouth!", "¡NADA por la boca!") == 0U);
  BOOST_TEST(doubts_of("No meter here.", "Sin medidor.") == 0U);
  BOOST_TEST(doubts_of("Sugar-free drink.", "Bebida sin azúcar.") == 0U);
  BOOST_TEST(doubts_of("Give sugar now.", "Dé azúcar ya.") == 0U);
  BOOST_TEST(doubts_of("{child} now.", "{child} ya.") == 0U);
}

BOOST_AUTO_TEST_CASE(a_no_is_looked_for_sentence_by_sentence_and_another_word_may_stand_for_it) {
  BOOST_TEST(doubts_of("Sugar does not help. No answer: go on.", "El azúcar ayuda. Si no contestan: siga.") == 1U);
  BOOST_TEST(doubts_of("No answer: go on. Sugar does not help.", "El azúcar no ayuda. Si no contestan: siga.") == 0U);
  BOOST_TEST(doubts_of("Do not leave the child.", "Quédese a su lado.") == 0U);
  BOOST_TEST(doubts_of("The basal insulin goes on.", "Nunca quite la insulina basal.") == 0U);
  BOOST_TEST(doubts_of("A new set, not at the old place.", "Un equipo nuevo en otro lugar.") == 0U);
  BOOST_TEST(doubts_of("Stop the basal insulin.", "Nunca quite la insulina basal.") == 1U);
}

namespace {

/// The words of both languages that cannot both be right; empty when nothing is told.
std::string apart_in(const std::string& english, const std::string& spanish) {
  const std::string text = changed(with(R"(languages="en")", R"(languages="en es")"), "<title><en>Low glucose</en>",
                                   "<title><en>" + english + "</en><es>" + spanish + "</es>");
  std::string all;
  for (const Finding& finding : findings_of(text)) {
    if (const auto* kind = finding.kind.as<LanguagesApart>()) all += kind->english + "/" + kind->spanish;
  }
  return all;
}

}  // namespace

BOOST_AUTO_TEST_CASE(languages_that_say_two_things_are_told_with_both_words) {
  BOOST_TEST(apart_in("Water or sugar-free drinks.", "Jugo o bebidas con azúcar.") == "sugar free/jugo");
  BOOST_TEST(apart_in("Low again.", "Alta otra vez.") == "low/alta");
  BOOST_TEST(apart_in("No ketones, twice.", "Tres veces sin cetonas.") == "twice/tres");
  BOOST_TEST(apart_in("In the last 4 hours.", "En las últimas 24 horas.") == "4/24");
  BOOST_TEST(apart_in("On the back.", "De lado.") == "the back/de lado");
  BOOST_TEST(apart_in("Give half of it.", "Dé todo.") == "half/");
  BOOST_TEST(apart_in("Insulin", "Glucagón de rescate") == "insulin/glucagón");
  BOOST_TEST(apart_in("Cannot swallow", "No se despierta") == "swallow/despierta");
}

BOOST_AUTO_TEST_CASE(what_two_languages_say_in_their_own_way_is_not_apart) {
  BOOST_TEST(apart_in("Keep drinking.", "No deje de beber.") == "");      // a no turns the word
  BOOST_TEST(apart_in("Within 24 hours.", "En menos de un día.") == "");  // another unit
  BOOST_TEST(apart_in("Look two times: 2.", "Mire 2 veces.") == "");
  BOOST_TEST(apart_in("Both together.", "Las dos cosas.") == "");
  BOOST_TEST(apart_in("A second alarm.", "Otra alarma.") == "");
  BOOST_TEST(apart_in("Low or high?", "¿Alta o baja?") == "");
  BOOST_TEST(apart_in("Call at 3.0.", "Llame con 3.") == "");
}

BOOST_AUTO_TEST_CASE(a_number_that_no_clinic_changes_may_be_written) {
  const auto told_of = [](const std::string& text) { return told(findings_of(with("Call {clinic-number}.", text))); };
  BOOST_TEST(told_of("2 adults carry the child. {clinic-number}.") == "");
  BOOST_TEST(told_of("Wash the hand for 20 seconds. {clinic-number}.") == "");
  BOOST_TEST(told_of("Call at 8: {clinic-number}.") == "");
  BOOST_TEST(told_of("Call in 5 minutes: {clinic-number}.").find("`5 minutes` is written") != std::string::npos);
  BOOST_TEST(told_of("Call in five minutes: {clinic-number}.").find("`five minutes` is written") != std::string::npos);
  BOOST_TEST(told_of("Call at 60 minutes: {clinic-number}.").find("`60 minutes` is written") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_time_blank_reads_well_with_the_word_before_it) {
  const auto told_of = [](const std::string& text) { return told(findings_of(with("Wait {recheck}.", text))); };
  BOOST_TEST(told_of("Measure at {again}.").find("behind `at` stands `{again}`") != std::string::npos);
  BOOST_TEST(told_of("Measure that {again}.") == "");
  BOOST_TEST(told_of("Measure {again}.") == "");
}

BOOST_AUTO_TEST_CASE(a_text_in_a_language_that_is_not_declared_is_refused) {
  const auto found =
      only<UnknownElement>(with("<title><en>Low glucose</en>", "<title><en>Low glucose</en><es>Glucosa</es>"));
  BOOST_TEST(found.kind.element == "es");
  BOOST_TEST(found.kind.parent == "title");
  BOOST_TEST(found.underlined == "es");
}

BOOST_AUTO_TEST_CASE(a_language_that_is_not_declared_is_told_once_for_all_its_texts) {
  const std::string text =
      changed(with("<title><en>Low glucose</en>", "<title><en>Low glucose</en><es>Glucosa</es>"),
              "<caution><en>For tests only.</en>", "<caution><en>For tests only.</en><es>De prueba.</es>");
  const std::vector<Finding> findings = findings_of(text);
  BOOST_TEST(findings.size() == 1U, told(findings));
  BOOST_TEST(remedy(findings.front().kind) == "add `es` to `languages`, or take all these texts out");
}

BOOST_AUTO_TEST_CASE(the_type_of_the_diabetes_is_no_number_of_the_clinic) {
  BOOST_TEST(told(findings_of(with("Call {on-call-number}.", "Say: type 1 diabetes. Call {on-call-number}."))) == "");
  BOOST_TEST(only<NumberInText>(with("Call {on-call-number}.", "Wait 1 hour. Call {on-call-number}.")).kind.written ==
             "1 hour");
}

BOOST_AUTO_TEST_CASE(a_call_says_which_number_to_call) {
  const auto found = only<NumberUntold>(with("<en>Call {on-call-number}.", "<en>Call the clinic."));
  BOOST_TEST(found.kind.action == "phone");
  BOOST_TEST(found.kind.number == "on-call-number");
}

BOOST_AUTO_TEST_CASE(a_step_whose_name_stands_twice_is_not_told_to_be_used_nowhere) {
  const std::string text = changed(
      with(
          "  </steps>",
          R"(<step id="treat" urgency="home" source="practice" ends="yes"><headline><en>Well.</en></headline></step></steps>)"),
      R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
      R"(<rule go="treatt"><if fact="glucose" is="unknown"/></rule>)");
  for (const Finding& finding : findings_of(text))
    BOOST_TEST((!finding.because || finding.because->text.find("used nowhere") == std::string::npos), told({finding}));
}

BOOST_AUTO_TEST_CASE(a_meter_that_shows_lo_is_compared_with_a_number) {
  const auto found = only<WrongWord>(with(R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
                                          R"(<rule go="treat"><if fact="glucose" is="unknown LO"/></rule>)"));
  BOOST_TEST(remedy(found.kind) == "write `below=\"...\"`: LO is below every number");
}

BOOST_AUTO_TEST_CASE(an_empty_text_is_refused) {
  const auto found = only<EmptyText>(with("<en>Treat below</en>", "<en> </en>"));
  BOOST_TEST(found.kind.language == "en");
  BOOST_TEST(found.kind.element == "glucose");
}

BOOST_AUTO_TEST_CASE(a_blank_that_stands_for_nothing_is_underlined_alone) {
  const auto found = only<UnknownPlaceholder>(with("Wait {recheck}.", "Wait {rechek}."));
  BOOST_TEST(found.kind.name == "rechek");
  BOOST_TEST(found.underlined == "rechek");
  BOOST_TEST((near_word(found.kind.name, found.kind.known) == std::optional<std::string>{"recheck"}));
}

BOOST_AUTO_TEST_CASE(a_brace_without_its_partner_is_refused) {
  BOOST_TEST(only<BadPlaceholder>(with("Wait {recheck}.", "Wait {recheck.")).underlined == "{");
  BOOST_TEST(only<BadPlaceholder>(with("Wait {recheck}.", "Wait recheck}.")).underlined == "}");
  BOOST_TEST(only<BadPlaceholder>(with("Wait {recheck}.", "Wait {}.")).underlined == "{}");
  BOOST_TEST(only<BadPlaceholder>(with("Wait {recheck}.", "Wait {{recheck}.")).underlined == "{");
}

BOOST_AUTO_TEST_CASE(one_name_names_one_thing) {
  const auto step = only<RepeatedId>(with(
      "  </steps>",
      R"(<step id="well" urgency="home" source="practice" ends="yes"><headline><en>Well.</en></headline></step></steps>)"));
  BOOST_TEST(step.kind.what == "step");
  BOOST_TEST(step.underlined == "well");
  const std::string dose =
      R"(<dose id="late" unit="g" round="up" to="one-gram"><label><en>Late</en></label><row fixed="few-grams" source="table"/></dose>)";
  BOOST_TEST(only<RepeatedId>(with("  </doses>", dose + "  </doses>")).kind.what == "dose");
  BOOST_TEST(only<RepeatedId>(with(R"(<yes-no id="symptoms")", R"(<yes-no id="weight")")).kind.what == "fact");
  const std::string until = R"(<age id="until" value="2 a" least="1 a" most="3 a" source="table"><en>Until</en></age>)";
  BOOST_TEST(only<RepeatedId>(with("  </thresholds>", until + "  </thresholds>")).kind.what == "threshold");
  BOOST_TEST(only<RepeatedId>(with(R"(<do id="side")", R"(<do id="sugar")")).kind.what == "action");
}

BOOST_AUTO_TEST_CASE(a_rule_without_a_name_is_named_by_its_place) {
  const Protocol protocol = resolved();
  BOOST_TEST(protocol[*protocol.step_named("treat")].rules[1].name == "treat/2");
  const std::string named = with(R"(<rule go="treat"><if fact="glucose" is="unknown"/></rule>)",
                                 R"(<rule id="blind" go="treat"><if fact="glucose" is="unknown"/></rule>)");
  BOOST_TEST(resolved(named).steps[0].rules[1].name == "blind");
}

BOOST_AUTO_TEST_CASE(a_name_that_is_not_there_is_told_with_those_that_are) {
  const auto go = only<UnknownId>(with(R"(overdue="late" go="call")", R"(overdue="late" go="cal")"));
  BOOST_TEST(go.kind.what == "step");
  BOOST_TEST(go.underlined == "cal");
  BOOST_TEST((near_word("cal", go.kind.known) == std::optional<std::string>{"call"}));
  BOOST_TEST(only<UnknownId>(with(R"(start="measure")", R"(start="mesure")")).underlined == "mesure");
  BOOST_TEST(only<UnknownId>(with(R"(timer="recheck")", R"(timer="wait")")).kind.what == "timer");
  BOOST_TEST(only<UnknownId>(with(R"(resets="treatments")", R"(resets="treatments rounds")")).underlined == "rounds");
  BOOST_TEST(
      only<UnknownId>(
          with(
              R"(urgency="emergency" handles="will-not-wake cannot-swallow having-seizure" source="practice" ends)",
              R"(urgency="emergency" handles="will-not-wake cannot-swallow having-seizure asleep" source="practice" ends)"))
          .underlined == "asleep");
  BOOST_TEST(only<UnknownId>(with(R"(source="table"><en>Treat)", R"(source="tabel"><en>Treat)")).kind.what == "source");
}

BOOST_AUTO_TEST_CASE(a_source_says_who_printed_it) {
  const auto found = only<MissingAttribute>(with(R"(publisher="A society" )", ""));
  BOOST_TEST(found.kind.attribute == "publisher");
  BOOST_TEST(found.underlined == "source");
}

BOOST_AUTO_TEST_CASE(several_mistakes_are_told_in_one_run_in_file_order) {
  std::string text = with(R"(mg-dl="70")", R"(mg-dl="7O")");
  text = changed(text, R"(counts="treatments")", R"(counts="tretments")");
  text = changed(text, "Wait {recheck}.", "Wait {x}.");
  const std::vector<Finding> findings = findings_of(text);
  BOOST_TEST_REQUIRE(findings.size() == 3U);
  BOOST_TEST(findings[0].kind.is<BadNumber>());
  BOOST_TEST(findings[1].kind.is<UnknownId>());
  BOOST_TEST(findings[2].kind.is<UnknownPlaceholder>());
  BOOST_TEST(!resolved_from_xml(text, "low.xml").value.has_value());
}

BOOST_AUTO_TEST_CASE(the_end_of_a_wait_is_not_named_where_there_is_none) {
  const auto found = only<UntilWithoutWait>(with("<en>Measure.</en>", "<en>Measure at {until}.</en>"));
  BOOST_TEST(found.kind.step == "measure");
  BOOST_TEST(found.underlined == "{until}");
  const auto again = only<UntilWithoutWait>(with("<en>Measure.</en>", "<en>Measure {again}.</en>"));
  BOOST_TEST(again.kind.blank == "again");
  BOOST_TEST(told(findings_of(with("Wait {recheck}.", "Measure {again}."))) == "");
  const std::string in_watch =
      told(findings_of(with(R"(<if fact="awake" is="no unknown"/></rule>)",
                            R"(<if fact="awake" is="no unknown"/><en>Wake {again}.</en></rule>)")));
  BOOST_TEST(in_watch.find("`{again}` is the end of a wait, and this text stands in no step") != std::string::npos);
  BOOST_TEST(in_watch.find("try      take `{again}` out of the text") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_end_of_a_wait_is_not_named_before_an_action_has_started_it) {
  const auto found = only<UntilBeforeStart>(with("Wait {recheck}.", "Measure at {until}."));
  BOOST_TEST(found.kind.step == "treat");
  BOOST_TEST(found.kind.after == "sugar");
  BOOST_TEST(found.underlined == "{until}");
  BOOST_TEST(told(findings_of(changed(with("Wait {recheck}.", "Measure at {until}."),
                                      R"( after="sugar" start-within="late")", ""))) == "");
}

BOOST_AUTO_TEST_CASE(a_name_misspelt_where_it_is_given_is_told_there_and_once) {
  const auto found = only<UnusedName>(with(R"(<time id="late")", R"(<time id="latte")"));
  BOOST_TEST(found.kind.asked == "late");
  BOOST_TEST(found.kind.places == 5);
  BOOST_TEST(found.underlined == "latte");
  const auto in_texts = only<UnusedName>(with(R"(<dose id="sugar-dose")", R"(<dose id="suger-dose")"));
  BOOST_TEST(in_texts.kind.what == "dose");
  BOOST_TEST(in_texts.kind.places == 3);
}

BOOST_AUTO_TEST_CASE(a_name_misspelt_in_the_one_place_that_uses_it_is_told_there) {
  const auto found = only<UnknownId>(with(R"(at-least="most-treatments")", R"(at-least="most-treatment")"));
  BOOST_TEST(found.kind.id == "most-treatment");
  BOOST_TEST(found.because.value().text == "the threshold `most-treatments` is used nowhere");
}

BOOST_AUTO_TEST_CASE(a_name_that_is_gone_is_told_once_with_its_lines) {
  const std::string gone =
      R"(    <time id="late" value="10 min" least="5 min" most="30 min" source="practice"><en>Late after</en></time>
)";
  const auto found = only<UnknownId>(with(gone, ""));
  BOOST_TEST(found.kind.id == "late");
  BOOST_TEST(found.because.value().text == "also on lines 64, 64, 73, 77");
}

BOOST_AUTO_TEST_CASE(the_end_of_a_wait_is_named_only_in_a_step) {
  for (const char* text :
       {"Try to wake {child}.", "For tests only.", "Will not wake</en></sign>", "Treat below", "Confused"}) {
    const std::string old = text;
    const std::string place = old.substr(0, old.find('<'));
    BOOST_TEST(only<UntilWithoutWait>(with(old, "At {until}" + old.substr(place.size()))).kind.step == "", old);
  }
}

BOOST_AUTO_TEST_SUITE_END()
