#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <fstream>
#include <iterator>
#include <ostream>

#include "tests/protocol/small_protocol.hpp"
#include "verify/check.hpp"

// Edits of the reference set that take a protection away, as somebody might make them on purpose or at night. Each must
// be refused for what it takes away, at the line that has to be mended.

using namespace rushlight;
using namespace rushlight::tests;
namespace data = boost::unit_test::data;

namespace {

struct Edit {
  std::string what;
  std::string file;
  std::string old, to;
  std::string finding;  // id
  std::string line;     // holds this
};

std::ostream& operator<<(std::ostream& out, const Edit& edit) { return out << edit.what; }

const std::string kWakes = R"(<if fact="awake" is="no unknown"/></rule>
  <rule id="cannot-swallow")";
const std::string kOnSide = R"(    <do id="on-side" kind="position">
      <en>Turn {child} on the side. Nothing by mouth.</en>
      <es>Ponga a {child} de lado. Nada por la boca.</es>)";

const std::vector<Edit> kEdits = {
    {"will not wake is watched only when the glucose is low", "low", kWakes,
     R"(<if fact="awake" is="no unknown"/><if fact="glucose" below="low"/></rule>
  <rule id="cannot-swallow")",
     "watch-missing", R"(<choice id="awake">)"},
    {"can't tell whether the child wakes is no danger any more", "low", kWakes, R"(<if fact="awake" is="no"/></rule>
  <rule id="cannot-swallow")",
     "watch-missing", R"(<choice id="awake">)"},
    {"a seizure leads to the clinic", "low", R"(<rule id="having-seizure" go="severe-low")",
     R"(<rule id="having-seizure" go="worry")", "too-calm", R"(<step id="worry")"},
    {"a seizure is left out of the watch", "low",
     R"(<rule id="having-seizure" go="severe-low" source="rch-severe"><if fact="seizure" is="yes"/>)",
     R"(<rule id="having-seizure" go="severe-low" source="rch-severe"><if fact="symptoms" is="yes"/>)", "watch-missing",
     R"(<yes-no id="seizure">)"},
    {"cannot swallow cannot be said during a wait", "low",
     R"(  <sign fact="swallow" is="no"><en>Cannot swallow</en><es>No puede tragar</es></sign>
)",
     "", "sign-missing", R"(<sign fact="awake" is="no">)"},
    {"the line for a child who cannot swallow says that the child can", "low", R"(<sign fact="swallow" is="no">)",
     R"(<sign fact="swallow" is="yes">)", "sign-missing", R"(<sign fact="swallow" is="yes">)"},
    {"nobody is asked first whether the child wakes", "low", R"(<opening>
  <ask fact="awake"/>)",
     "<opening>", "opening-lacks", R"(<ask fact="already-given"/>)"},
    {"turning the child on the side makes the child awake", "low", kOnSide,
     changed(kOnSide, R"(kind="position")", R"(kind="position" records="awake" as="yes")"), "deed-answers", "on-side"},
    {"the emergency gives sugar and calls it a note", "low", kOnSide,
     R"(    <do id="on-side" kind="note">
      <en>Give {fast-carbohydrate} of sugar: {food}.</en>
      <es>Dé {fast-carbohydrate} de azúcar: {food}.</es>)",
     "mouth-while-danger", "on-side"},
    {"the emergency calls nobody", "low",
     R"(<do id="call-emergency" kind="call-emergency" contact="emergency" answer-within="emergency-wait">)",
     R"(<do id="call-emergency" kind="note">)", "emergency-not-called", R"(<step id="emergency")"},
    {"the emergency calls only for children with a pump", "low",
     R"(<do id="call-emergency" kind="call-emergency" contact="emergency" answer-within="emergency-wait">)",
     R"(<do id="call-emergency" kind="call-emergency" contact="emergency" answer-within="emergency-wait"><if fact="delivery" is="pump"/>)",
     "emergency-not-called", R"(<step id="emergency")"},
    {"a child who may not be awake is left to the clinic without being looked at", "low",
     R"(<if fact="awake" is="yes confused"/></rule>
    <rule go="glucagon-given"><if fact="already-given" is="glucagon"/></rule>
    <rule go="which-rescue">)",
     R"(<if fact="awake" is="yes confused"/></rule>
    <rule go="glucagon-given"><if fact="already-given" is="glucagon"/></rule>
    <rule go="clinic-leads">)",
     "emergency-left", R"(<rule go="clinic-leads"><if fact="breathing-normally")"},
    {"a second dose that is refused is called a recovery", "low",
     R"(<on outcome="refused" go="keep-watch"/>
      <on outcome="none-here" go="kit-search"/>)",
     R"(<on outcome="refused" go="recovered"/>
      <on outcome="none-here" go="kit-search"/>)",
     "emergency-left", R"(<on outcome="refused" go="recovered"/>)"},
    {"a step at home handles a child who will not wake", "low",
     R"(<step id="measure" urgency="home" handles="low-awake-told low-told very-low-told stools-told")",
     R"(<step id="measure" urgency="home" handles="low-awake-told low-told very-low-told stools-told will-not-wake")",
     "calmer-than-watch", R"(<step id="measure")"},
    {"a late check says all is well", "low",
     R"(<wait timer="recheck" lasts="recheck" after="sugar-very-low" start-within="start-allowance-very-low" overdue="overdue" go="nobody-checked"/>)",
     R"(<wait timer="recheck" lasts="recheck" after="sugar-very-low" start-within="start-allowance-very-low" overdue="overdue" go="in-range"/>)",
     "late-and-calm", R"(after="sugar-very-low")"},
    {"a late check of an emergency is left to the clinic", "low",
     R"(      <on outcome="none-here" as="given"/>
    </do>
    <wait timer="recheck" lasts="glucagon-wait" overdue="overdue" go="who-leads"/>)",
     R"(      <on outcome="none-here" as="given"/>
    </do>
    <wait timer="recheck" lasts="glucagon-wait" overdue="overdue" go="close-with-clinic"/>)",
     "late-and-calm", R"(<wait timer="recheck" lasts="glucagon-wait" overdue="overdue" go="close-with-clinic"/>)"},
    {"a late check waits for itself", "low",
     R"(No dé más azúcar todavía. Quédese a su lado.</es>
    </do>
    <wait timer="recheck" lasts="rest-of-wait" overdue="overdue" go="nobody-checked"/>)",
     R"(No dé más azúcar todavía. Quédese a su lado.</es>
    </do>
    <wait timer="recheck" lasts="rest-of-wait" overdue="overdue" go="sugar-wait"/>)",
     "late-and-calm", R"(go="sugar-wait"/>)"},
    {"insulin is given to a child who is low", "ketones",
     R"(<glucose id="insulin-floor" mg-dl="108" mmol-l="6.0" least="80 mg/dL")",
     R"(<glucose id="insulin-floor" mg-dl="54" mmol-l="3.0" least="50 mg/dL")", "insulin-floor-low", "insulin-floor"},
    {"an insulin dose loses its floor", "ketones",
     R"(<dose id="extra-insulin" unit="[iU]" round="down" to="insulin-step" no-stacking="no-stacking" floor="insulin-floor")",
     R"(<dose id="extra-insulin" unit="[iU]" round="down" to="insulin-step" no-stacking="no-stacking")",
     "missing-attribute", R"(<dose id="extra-insulin")"},
    {"insulin without the dose that holds it back", "ketones",
     R"(<do id="ketones-correction" kind="insulin" dose="extra-insulin")",
     R"(<do id="ketones-correction" kind="insulin")", "insulin-without-dose", "ketones-correction"},
    {"the sick-day emergency offers a drink", "illness",
     "      <en>Turn {child} on the side. Nothing by mouth.</en>\n      <es>Ponga a {child} de lado. Nada por la "
     "boca.</es>\n    </do>\n    <do id=\"sick-call-unconscious\"",
     "      <en>Give {sip} now.</en>\n      <es>Dé {sip} ahora.</es>\n    </do>\n    <do id=\"sick-call-unconscious\"",
     "mouth-while-danger", "sick-on-side"},
};

std::string reference(const std::string& name) {
  std::ifstream file(std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/reference/" + name + ".xml", std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string line_of(const std::string& text, const Where& where) {
  std::size_t at = 0;
  for (std::uint32_t line = 1; line < where.line; ++line) at = text.find('\n', at) + 1;
  return text.substr(at, text.find('\n', at) - at);
}

std::vector<Finding> all_findings(const std::string& text) {
  Read<Protocol> read = resolved_from_xml(text, "edited.xml");
  return read.value ? check(std::move(*read.value)).findings : std::move(read.findings);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(hostile_edits)

BOOST_DATA_TEST_CASE(an_edit_that_takes_a_protection_away_is_refused_at_its_line, data::make(kEdits), edit) {
  const std::string text = changed(reference(edit.file), edit.old, edit.to);
  const std::vector<Finding> findings = all_findings(text);
  bool found = false;
  for (const Finding& finding : findings) {
    const bool here = line_of(text, finding.where).find(edit.line) != std::string::npos;
    found = found || (finding.severity == Severity::error && id_of(finding.kind) == edit.finding && here);
  }
  BOOST_TEST(found, "wanted " + edit.finding + " at " + edit.line + ", and told was:\n" + told(findings));
}

BOOST_AUTO_TEST_SUITE_END()
