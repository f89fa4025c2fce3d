#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "finding/finding.hpp"
#include "read/resolved_from_xml.hpp"

// A protocol that is right in every respect and just large enough to make every mistake in. A test changes one place of
// it.

namespace rushlight::tests {

inline const std::string& small_protocol() {
  static const std::string kText =
      R"xml(<protocol set="example" id="low" version="1" languages="en" start="measure" weight-fresh="ninety-days">
  <title><en>Low glucose</en></title>
  <caution><en>For tests only.</en></caution>
  <sources>
    <source id="practice" common-practice="yes"/>
    <source id="table" publisher="A society" year="2022" title="A guideline" place="table 1"/>
  </sources>
  <thresholds>
    <glucose id="low" mg-dl="70" mmol-l="3.9" least="60 mg/dL" most="100 mg/dL" source="table"><en>Treat below</en></glucose>
    <time id="recheck" value="15 min" least="10 min" most="20 min" source="practice"><en>Check after</en></time>
    <time id="late" value="10 min" least="5 min" most="30 min" source="practice"><en>Late after</en></time>
    <time id="ninety-days" value="90 d" least="30 d" most="365 d" source="practice"><en>Weigh after</en></time>
    <count id="most-treatments" value="2" least="1" most="4" source="practice"><en>Treatments</en></count>
    <carbohydrate id="few-grams" value="5 g" least="3 g" most="10 g" source="practice"><en>A little</en></carbohydrate>
    <carbohydrate id="many-grams" value="15 g" least="10 g" most="20 g" source="practice"><en>A lot</en></carbohydrate>
    <carbohydrate-per-weight id="per-kilogram" value="0.3 g/kg" least="0.1 g/kg" most="0.5 g/kg" source="table"><en>For each kg</en></carbohydrate-per-weight>
    <portion id="one-gram" value="1 g" least="1 g" most="5 g" source="practice"><en>Whole grams</en></portion>
    <portion id="five-ml" value="5 mL" least="1 mL" most="10 mL" source="practice"><en>Spoons</en></portion>
    <content id="juice-content" value="9.6 g/(100.mL)" least="8 g/(100.mL)" most="16 g/(100.mL)" source="practice"><en>In juice</en></content>
    <age id="honey-age" value="12 mo" least="12 mo" most="24 mo" source="practice"><en>Honey from</en></age>
    <clock id="night" value="22:00" least="20:00" most="02:00" source="practice"><en>Night from</en></clock>
    <clock id="morning" value="06:00" least="04:00" most="09:00" source="practice"><en>Day from</en></clock>
  </thresholds>
  <facts>
    <choice id="awake"><ask><en>Try to wake {child}.</en></ask>
      <option id="yes"><en>Wakes</en></option><option id="confused"><en>Confused</en></option><option id="no"><en>No</en></option></choice>
    <yes-no id="swallow"><ask><en>Can {child} swallow?</en></ask></yes-no>
    <yes-no id="seizure"><ask><en>Is there a seizure?</en></ask></yes-no>
    <glucose id="glucose"><ask><en>What is the glucose?</en></ask></glucose>
    <yes-no id="symptoms"><ask><en>Shaky or pale?</en></ask></yes-no>
    <yes-no id="pump-paused"><ask><en>Is the pump paused?</en></ask></yes-no>
  </facts>
  <foods>
    <food kind="juice" unit="mL" carbohydrate="juice-content" step="five-ml" source="practice"><if fact="age" at-least="honey-age"/><en>juice</en></food>
  </foods>
  <doses>
    <dose id="sugar-dose" unit="g" round="up" to="one-gram"><label><en>Sugar</en></label>
      <row per-kg="per-kilogram" least="few-grams" most="many-grams" source="table"/>
      <row fixed="few-grams" source="practice"><if fact="weight" is="unknown"/></row></dose>
  </doses>
  <timers><timer id="recheck"><en>Check</en></timer><timer id="resume"><en>Resume</en></timer></timers>
  <counters><counter id="treatments"/></counters>
  <opening><ask fact="awake"/></opening>
  <worse><sign fact="awake" is="no"><en>Will not wake</en></sign>
    <sign fact="swallow" is="no"><en>Cannot swallow</en></sign>
    <sign fact="seizure" is="yes"><en>Seizure</en></sign></worse>
  <watch><rule id="will-not-wake" go="emergency"><if fact="awake" is="no unknown"/></rule>
    <rule id="cannot-swallow" go="emergency"><if fact="swallow" is="no unknown"/></rule>
    <rule id="having-seizure" go="emergency"><if fact="seizure" is="yes"/></rule></watch>
  <steps>
    <step id="measure" urgency="home" source="practice">
      <headline><en>Measure.</en></headline>
      <ask fact="glucose"/>
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if fact="glucose" is="unknown"/></rule>
      <rule go="well"><if fact="glucose" at-least="low"/></rule>
    </step>
    <step id="treat" urgency="home" counts="treatments" source="practice">
      <headline><en>Give {sugar-dose} of {food}.</en></headline>
      <do id="sugar" kind="by-mouth" dose="sugar-dose"><en>Give {sugar-dose}. Wait {recheck}.</en>
        <on outcome="part" as="given"/><on outcome="refused" go="call"/><on outcome="vomited" go="call"/>
        <on outcome="none-here" go="call"/><on outcome="wrong" go="call"/></do>
      <do id="pause" kind="pump" records="pump-paused" as="yes" starts="resume" lasts="late"><if fact="delivery" is="pump"/><en>Pause the pump.</en>
        <on outcome="none-here" as="given"/></do>
      <wait timer="recheck" lasts="recheck" after="sugar" start-within="late" overdue="late" go="call"/>
      <ask fact="glucose"/>
      <rule go="call"><if fact="glucose" below="low"/><if counter="treatments" at-least="most-treatments"/></rule>
      <rule go="call"><if fact="glucose" is="unknown"/></rule>
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="well" resets="treatments"><if fact="glucose" at-least="low"/></rule>
    </step>
    <step id="call" urgency="clinic-now" source="practice" ends="yes">
      <headline><en>Call {clinic-number}.</en></headline>
      <do id="phone" kind="call-clinic" contact="on-call" answer-within="late"><en>Call {on-call-number}.</en></do>
    </step>
    <step id="emergency" urgency="emergency" handles="will-not-wake cannot-swallow having-seizure" source="practice">
      <headline><en>Call {emergency-number}.</en></headline>
      <do id="help" kind="call-emergency" contact="emergency" answer-within="late"><en>Call {emergency-number}.</en></do>
      <do id="side" kind="position"><en>Turn the child on the side.</en></do>
      <rule go="crew"/>
    </step>
    <step id="crew" urgency="emergency" handles="will-not-wake cannot-swallow having-seizure" source="practice" ends="yes"><headline><en>Stay, from {night} to {morning}.</en></headline></step>
    <step id="well" urgency="home" source="practice" ends="yes"><headline><en>The glucose is {glucose}.</en></headline></step>
  </steps>
</protocol>
)xml";
  return kText;
}

/// The text with its only `old` place changed; a test that names no place, or two, is itself wrong.
inline std::string changed(std::string text, const std::string& old, const std::string& to) {
  const std::size_t at = text.find(old);
  if (at == std::string::npos) throw std::runtime_error("not in the protocol: " + old);
  if (text.find(old, at + 1) != std::string::npos) throw std::runtime_error("twice in the protocol: " + old);
  return text.replace(at, old.size(), to);
}
inline std::string with(const std::string& old, const std::string& to) { return changed(small_protocol(), old, to); }

/// What a finding underlines.
inline std::string underlined(const std::string& text, const Where& where) {
  std::size_t at = 0;
  for (std::uint32_t line = 1; line < where.line; ++line) at = text.find('\n', at) + 1;
  return where.line == 0 ? "" : text.substr(at + where.column - 1, where.length);
}

inline std::vector<Finding> findings_of(const std::string& text) { return resolved_from_xml(text, "low.xml").findings; }

/// Everything found, one line each, for messages.
inline std::string told(const std::vector<Finding>& findings) {
  std::string lines;
  for (const Finding& finding : findings) lines += text_from_finding(finding, std::nullopt) + "\n";
  return lines;
}

template <class K>
struct Found {
  K kind;
  std::string underlined;
  std::optional<Because> because;
};

/// The one finding there is, of this kind; anything else fails the test and says what there is.
template <class K>
Found<K> only(const std::vector<Finding>& findings, const std::string& text) {
  const K* kind = findings.size() == 1 ? findings.front().kind.as<K>() : nullptr;
  if (kind == nullptr) throw std::runtime_error("one other finding was expected, and found was:\n" + told(findings));
  return {*kind, underlined(text, findings.front().where), findings.front().because};
}
template <class K>
Found<K> only(const std::string& text) {
  return only<K>(findings_of(text), text);
}

/// The small protocol, or another text that must be right, resolved.
inline Protocol resolved(const std::string& text = small_protocol()) {
  Read<Protocol> read = resolved_from_xml(text, "low.xml");
  if (!read.value) throw std::runtime_error("it was to be right, and found was:\n" + told(read.findings));
  return std::move(*read.value);
}

}  // namespace rushlight::tests
