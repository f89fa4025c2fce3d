#include "read/protocol_from_xml.hpp"

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>
#include <string>

#include "read/source_map.hpp"

namespace rushlight::tests {

namespace {

std::string example(const std::string& name) {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/good/protocol/" + name, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file, name);
  return {std::istreambuf_iterator<char>(file), {}};
}

Draft draft_of(const std::string& bytes) {
  Read<Draft> read = protocol_from_xml(bytes, "low.xml");
  for (const Finding& finding : read.findings)
    BOOST_ERROR(text_from_finding(finding, Lines(bytes).line(finding.where.line)));
  BOOST_REQUIRE(read.value);
  return *read.value;
}

std::string text(const MaybeWord& word) { return word ? word->text : "nothing"; }

/// A protocol with these parts between title and steps.
std::string protocol_with(const std::string& steps) {
  return "<protocol set='s' id='low' version='1' languages='en' start='a'><title><en>t</en></title>"
         "<sources><source id='p' common-practice='yes'/></sources>"
         "<facts><yes-no id='f'><ask><en>?</en></ask></yes-no></facts><steps>" +
         steps + "</steps></protocol>";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(protocol_reader)

BOOST_AUTO_TEST_CASE(every_word_of_a_protocol_reaches_the_draft) {
  const Draft draft = draft_of(example("every-word.xml"));
  BOOST_CHECK_EQUAL(text(draft.set) + text(draft.id) + text(draft.version) + text(draft.start), "examplelow1measure");
  BOOST_CHECK_EQUAL(text(draft.languages), "en es");
  BOOST_CHECK_EQUAL(text(draft.weight_fresh), "weight-age");
  BOOST_CHECK_EQUAL(draft.title.lines.at(1).text.text, "Glucosa baja");
  BOOST_CHECK_EQUAL(draft.cautions.size(), 2);
  BOOST_CHECK_EQUAL(draft.sources.size(), 3);
  BOOST_CHECK_EQUAL(draft.thresholds.size(), 27);
  BOOST_CHECK_EQUAL(draft.facts.size(), 10);
  BOOST_CHECK_EQUAL(draft.foods.size(), 1);
  BOOST_CHECK_EQUAL(draft.timers.size(), 2);
  BOOST_CHECK_EQUAL(draft.counters.size(), 2);
  BOOST_CHECK_EQUAL(text(draft.marks.at(0).id) + text(draft.marks[0].fact), "urine-thenurine-ketones");
  BOOST_CHECK_EQUAL(text(draft.history.value().low) + text(draft.history->high) + text(draft.history->near),
                    "lowbandedrecheck");
  BOOST_CHECK_EQUAL(text(draft.fluids.value().hourly), "fluid-hour");
  BOOST_CHECK_EQUAL(text(draft.daily_dose_fresh) + text(draft.insulin_doses), "weight-ageyes");
  const DraftApproval& approval = draft.approval.value();
  BOOST_CHECK_EQUAL(text(approval.by) + text(approval.role) + text(approval.on) + text(approval.until) +
                        text(approval.key) + text(approval.signature),
                    "a clinica nurse2026-03-012027-03-010000");
  BOOST_CHECK_EQUAL(text(approval.files.at(0).name) + text(approval.files.at(0).sha256), "low.xml00");
  BOOST_CHECK_EQUAL(draft.opening.size(), 1);
  BOOST_CHECK_EQUAL(draft.worse.size(), 1);
  BOOST_CHECK_EQUAL(draft.watch.size(), 2);
  BOOST_CHECK_EQUAL(text(draft.watch.at(1).told), "yes");
  BOOST_CHECK_EQUAL(draft.watch.at(0).also.value().lines.at(0).text.text, "Still not awake.");
  BOOST_CHECK_EQUAL(draft.steps.size(), 3);
}

BOOST_AUTO_TEST_CASE(sources_and_thresholds_keep_what_is_written) {
  const Draft draft = draft_of(example("every-word.xml"));
  const DraftSource& source = draft.sources[0];
  BOOST_CHECK_EQUAL(text(source.publisher) + text(source.year) + text(source.title) + text(source.place),
                    "ISPAD2022Hypoglycaemiatable 1");
  BOOST_CHECK_EQUAL(text(draft.sources[1].common_practice), "yes");
  BOOST_CHECK_EQUAL(text(draft.sources[2].from_memory), "yes");
  const DraftThreshold& low = draft.thresholds[0];
  BOOST_CHECK_EQUAL(low.kind.text + text(low.mg_dl) + text(low.mmol_l) + text(low.value), "glucose703.9nothing");
  BOOST_CHECK_EQUAL(text(low.least) + text(low.most) + text(low.source) + text(low.pair_exception),
                    "60 mg/dL100 mg/dLispad-2022practice");
  BOOST_CHECK_EQUAL(low.label.lines.size(), 2);
  BOOST_REQUIRE(low.note);
  BOOST_CHECK_EQUAL(low.note->lines.at(0).text.text, "Sources disagree.");
  const DraftBand& night = draft.thresholds[1].bands.at(1);
  BOOST_CHECK_EQUAL(text(night.age_from) + text(night.clock_from) + text(night.clock_up_to) + text(night.mg_dl),
                    "6 a22:0006:00100");
  BOOST_CHECK_EQUAL(text(draft.thresholds[1].bands.at(0).age_up_to), "6 a");
  BOOST_CHECK_EQUAL(text(draft.thresholds[9].bands.at(1).weight_from) + text(draft.thresholds[9].bands.at(1).value),
                    "25 kg2 g");
}

BOOST_AUTO_TEST_CASE(questions_foods_and_doses_keep_what_is_written) {
  const Draft draft = draft_of(example("every-word.xml"));
  BOOST_CHECK_EQUAL(draft.facts[0].kind.text, "choice");
  BOOST_CHECK_EQUAL(draft.facts[0].question.lines.at(1).text.text, "¿Se despierta?");
  BOOST_CHECK_EQUAL(draft.facts[0].options.at(1).text.lines.at(0).text.text, "Will not wake");
  BOOST_CHECK(draft.facts[1].help);
  const DraftFood& food = draft.foods[0];
  BOOST_CHECK_EQUAL(text(food.kind) + text(food.unit) + text(food.carbohydrate) + text(food.step),
                    "juicemLjuice-contentjuice-step");
  BOOST_CHECK_EQUAL(text(food.when.at(0).fact) + text(food.when.at(0).at_least), "agehoney-age");
  const DraftDose& dose = draft.doses.at(0);
  BOOST_CHECK_EQUAL(text(dose.unit) + text(dose.round) + text(dose.to), "gupone-gram");
  BOOST_CHECK_EQUAL(dose.label.lines.at(0).text.text, "Fast sugar");
  BOOST_CHECK_EQUAL(text(dose.rows.at(0).withheld) + text(dose.rows[1].per_kg) + text(dose.rows.at(2).fixed),
                    "yescarb-per-kglargest-carb");
  const auto row = [&](std::size_t place) { return draft.doses.at(place).rows.at(0); };
  BOOST_CHECK_EQUAL(text(row(1).over) + text(row(1).plus), "ten-kgsome-ml");
  BOOST_CHECK_EQUAL(text(row(2).dose) + text(row(2).during) + text(row(2).times), "fluid-hourrecheckhalf-more");
  BOOST_CHECK_EQUAL(text(row(3).per_year), "each-year");
  BOOST_CHECK_EQUAL(text(row(4).percent) + text(row(4).most_percent) + text(row(4).most_per_kg),
                    "ten-percentten-percentinsulin-each-kg");
  BOOST_CHECK_EQUAL(text(draft.doses[4].no_stacking) + text(draft.doses[4].floor) + text(draft.doses[4].fresh),
                    "rechecklowrecheck");
  BOOST_CHECK_EQUAL(text(row(5).correction) + text(row(6).larger_of), "lowketone-dose correction-dose");
  BOOST_CHECK_EQUAL(text(dose.rows[1].least) + text(dose.rows[1].most), "one-gramlargest-carb");
  BOOST_CHECK_EQUAL(dose.rows[0].text.value().lines.at(0).text.text, "Ask first.");
  BOOST_CHECK(!dose.rows[1].text);
  BOOST_CHECK_EQUAL(dose.rows[2].text.value().lines.at(1).text.text, "tres cucharadas");
}

BOOST_AUTO_TEST_CASE(steps_keep_what_is_written) {
  const Draft draft = draft_of(example("every-word.xml"));
  const DraftStep& step = draft.steps[0];
  BOOST_CHECK_EQUAL(text(step.urgency) + text(step.counts) + text(step.ends) + text(step.source),
                    "homelow-treatmentsnothingispad-2022");
  BOOST_CHECK_EQUAL(text(draft.steps[2].handles) + text(draft.steps[2].ends), "will-not-wakeyes");
  const DraftAction& pause = step.actions.at(0);
  BOOST_CHECK_EQUAL(text(pause.kind) + text(pause.records) + text(pause.as) + text(pause.starts) + text(pause.lasts),
                    "pumppump-pausedyesresume-pumprecheck");
  BOOST_CHECK_EQUAL(text(pause.when.at(0).is), "pump");
  const DraftAction& sugar = step.actions.at(1);
  BOOST_CHECK_EQUAL(text(sugar.dose) + text(sugar.counts), "fast-carbohydratedoses-given");
  BOOST_CHECK_EQUAL(text(sugar.outcomes.at(0).outcome) + text(sugar.outcomes[0].as) + text(sugar.outcomes.at(1).go),
                    "partgivencall");
  BOOST_CHECK_EQUAL(text(step.actions.at(2).stops) + text(step.actions.at(2).when.at(0).done), "resume-pumppause");
  BOOST_REQUIRE(step.wait);
  BOOST_CHECK_EQUAL(text(step.wait->timer) + text(step.wait->after) + text(step.wait->start_within),
                    "rechecksugarrecheck");
  BOOST_CHECK_EQUAL(text(step.wait->lasts) + text(step.wait->overdue) + text(step.wait->go), "recheckrecheckcall");
  BOOST_CHECK_EQUAL(text(step.asks.at(1).fact) + text(step.asks[1].fresh), "vomitsrecheck");
  BOOST_CHECK_EQUAL(text(step.rules.at(0).id) + text(step.rules[0].go) + text(step.rules[0].when.at(1).counter),
                    "againmeasurelow-treatments");
  BOOST_CHECK_EQUAL(text(step.rules.at(6).resets), "low-treatments doses-given");
  BOOST_CHECK(step.rules.at(6).otherwise && !step.rules.at(0).otherwise);
  BOOST_CHECK_EQUAL(text(step.rules.at(2).early), "yes");
  BOOST_CHECK_EQUAL(text(step.rules.at(4).visit) + text(step.rules[4].sets) + text(step.rules[4].when.at(0).change),
                    "illnessurine-then ketones-thenurine-then");
  BOOST_CHECK_EQUAL(text(draft.marks.at(1).fact) + text(draft.marks.at(1).rise_over), "ketonessome-ketones");
  BOOST_CHECK_EQUAL(text(step.rules.at(5).hand_over) + text(draft.steps[1].ends_visit), "ketonesyes");
  const DraftAction& call = draft.steps[1].actions.at(0);
  BOOST_CHECK_EQUAL(text(call.contact) + text(call.answer_within), "on-callrecheck");
}

BOOST_AUTO_TEST_CASE(texts_have_single_blanks_and_their_entities_resolved) {
  const Draft draft =
      draft_of(protocol_with("<step id='a' urgency='home' source='p'><headline><en>\n   Sugar &amp; water,<!-- then "
                             "-->\n\t&#191;yes?  \n</en></headline></step>"));
  BOOST_CHECK_EQUAL(draft.steps[0].headline.lines.at(0).text.text, "Sugar & water, ¿yes?");
  BOOST_CHECK_EQUAL(draft.steps[0].headline.lines[0].language.text, "en");
}

BOOST_AUTO_TEST_CASE(values_have_single_blanks_and_their_place_is_between_the_quote_signs) {
  const std::string bytes = protocol_with(
      "<step id='a' urgency='home' handles='  x\n   y ' source='p'><headline><en>t</en></headline></step>");
  const Draft draft = draft_of(bytes);
  BOOST_CHECK_EQUAL(text(draft.steps[0].handles), "x y");
  BOOST_CHECK_EQUAL(draft.steps[0].handles->where.column, bytes.find("x\n") + 1);
  BOOST_CHECK_EQUAL(draft.steps[0].where.column, bytes.find("step id") + 1);
  BOOST_CHECK_EQUAL(draft.steps[0].where.length, 4);
}

BOOST_AUTO_TEST_CASE(crlf_and_a_byte_order_mark_change_no_word_and_no_place) {
  const std::string plain = example("every-word.xml");
  std::string other = "\xEF\xBB\xBF";
  for (const char c : plain) other += c == '\n' ? "\r\n" : std::string(1, c);
  const Draft before = draft_of(plain);
  const Draft after = draft_of(other);
  BOOST_CHECK(before.steps[0].rules.at(6).resets->where == after.steps[0].rules.at(6).resets->where);
  BOOST_CHECK_EQUAL(before.steps[0].headline.lines.at(1).text.text, after.steps[0].headline.lines.at(1).text.text);
  BOOST_CHECK(before.where == after.where);
}

BOOST_AUTO_TEST_CASE(a_draft_comes_with_its_findings_and_holds_what_was_understood) {
  const Read<Draft> read = protocol_from_xml(
      protocol_with(
          "<step id='a' urgency='home' sorce='p'><headline><en>one</en><en>two</en></headline><dose/></step><step/>"),
      "low.xml");
  BOOST_CHECK_EQUAL(read.findings.size(), 8);
  BOOST_REQUIRE(read.value);
  BOOST_REQUIRE_EQUAL(read.value->steps.size(), 2);
  BOOST_CHECK_EQUAL(text(read.value->steps[0].urgency), "home");
  BOOST_REQUIRE_EQUAL(read.value->steps[0].headline.lines.size(), 1);
  BOOST_CHECK_EQUAL(read.value->steps[0].headline.lines[0].text.text, "one");
  BOOST_CHECK(!read.value->steps[1].id);
}

BOOST_AUTO_TEST_CASE(what_is_unknown_where_it_stands_does_not_reach_the_draft) {
  const Read<Draft> read = protocol_from_xml(
      protocol_with("<step id='a' urgency='home' source='p' go='b'><headline><en>t</en></headline><do id='d' "
                    "kind='note'><row/></do></step>"),
      "low.xml");
  BOOST_CHECK_EQUAL(read.findings.size(), 2);
  BOOST_REQUIRE(read.value);
  BOOST_CHECK_EQUAL(read.value->steps[0].actions.size(), 1);
}

BOOST_AUTO_TEST_CASE(there_is_no_draft_of_bytes_that_are_no_xml_or_of_another_outermost_element) {
  BOOST_CHECK(!protocol_from_xml("<protocol>", "low.xml").value);
  BOOST_CHECK(!protocol_from_xml("", "low.xml").value);
  BOOST_CHECK(!protocol_from_xml("<child/>", "low.xml").value);
  BOOST_CHECK(protocol_from_xml("<protocol/>", "low.xml").value);
}

BOOST_AUTO_TEST_CASE(a_file_of_unknown_words_gives_a_bounded_list) {
  std::string steps;
  for (int n = 0; n < 20000; ++n) steps += "<stp/>";
  BOOST_CHECK_EQUAL(protocol_from_xml(protocol_with(steps), "low.xml").findings.size(), 200);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
