#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"
#include "printed_by.hpp"
#include "record/kept.hpp"

namespace rushlight::tests {
namespace {

using Json = nlohmann::json;

constexpr const char* kNight = R"({"at":"2026-03-01T02:10:00-05:00","answer":{"awake":"yes","already-given":"no"}}
{"at":"2026-03-01T02:11:00-05:00","answer":{"glucose":"52 mg/dL"}}
{"at":"2026-03-01T02:11:10-05:00","answer":{"reading-from":"meter"}}
{"at":"2026-03-01T02:13:00-05:00","done":true}
{"at":"2026-03-01T02:28:30-05:00","answer":{"glucose":"LO"}}
{"at":"2026-03-01T02:30:00-05:00","done":true}
{"at":"2026-03-01T02:46:00-05:00","answer":{"glucose":"84 mg/dL"}}
{"at":"2026-03-01T02:46:30-05:00","answer":{"awake":"yes"}}
{"at":"2026-03-01T02:47:00-05:00","answer":{"ketones":"1.2 mmol/L"}}
)";

BOOST_AUTO_TEST_SUITE(clinic_record)

BOOST_AUTO_TEST_CASE(record_tells_readings_advice_with_its_rule_and_what_was_given) {
  const Kept kept(kNight);
  const Run run = kept.record({"--text"});
  BOOST_REQUIRE_MESSAGE(run.status == 0, run.err);
  for (const char* part :
       {"2026-03-01 02:11 02:28 02:46 Glucose mg/dL 52 LO 84 Ketones mmol/L 1.2", "Very low. Give 7 g of sugar now. (",
        "02:13 Fast sugar 7 g", "Fast sugar: 14 g, 2 times", "Set reference, protocol low, version 1", "Not approved."})
    BOOST_TEST(says(run.out, part), part << " is not in\n" << run.out);
  for (const std::string& line : lines_of(run.out)) BOOST_TEST(line.size() <= 90U, line);
}

BOOST_AUTO_TEST_CASE(record_reads_the_same_twice_and_in_the_other_language) {
  const Kept kept(kNight);
  BOOST_TEST(kept.record({"--text"}).out == kept.record({"--text"}).out);
  BOOST_TEST(kept.record({"--fhir"}).out == kept.record({"--fhir"}).out);
  BOOST_TEST(kept.record({"--text", "--lang", "es"}).out.find("Glucosa muy baja.") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(record_as_pdf_is_tagged_and_holds_the_readings) {
  const Kept kept(kNight);
  const std::string pdf = kept.folder.path("night.pdf");
  const Run run = kept.record({"--out", pdf});
  BOOST_REQUIRE_MESSAGE(run.status == 0, run.err);
  BOOST_TEST(printed_by("pdfinfo " + pdf).find("Tagged:          yes") != std::string::npos);
  const std::string text = printed_by("pdftotext -layout " + pdf + " -");
  for (const char* part : {"52 mg/dL", "LO", "84 mg/dL", "ketones 1.2 mmol/L", "Fast sugar"})
    BOOST_TEST(text.find(part) != std::string::npos, part);
  const std::vector<std::string> fonts = lines_of(printed_by("pdffonts " + pdf));
  for (std::size_t at = 2; at < fonts.size(); ++at)
    BOOST_TEST(fonts[at].find("Andika") != std::string::npos, fonts[at]);
}

BOOST_AUTO_TEST_CASE(bundle_names_each_reading_with_its_code_unit_time_and_the_protocol) {
  const Kept kept(kNight);
  const Json bundle = Json::parse(kept.record({"--fhir"}).out);
  int glucose = 0, ketones = 0, low = 0, provenances = 0;
  for (const Json& entry : bundle["entry"]) {
    const Json& resource = entry["resource"];
    if (resource["resourceType"] == "Provenance") {
      ++provenances;
      BOOST_TEST(resource["entity"][0]["what"]["display"].get<std::string>().find("set reference, version 1") !=
                 std::string::npos);
    }
    if (resource["resourceType"] != "Observation") continue;
    const std::string code = resource["code"]["coding"][0]["code"];
    const std::string at = resource["effectiveDateTime"];
    BOOST_TEST(at.find("-05:00") != std::string::npos, at);
    if (code == "41653-7") ++glucose;
    if (code == "66441-7") ++ketones;
    if (resource.contains("valueString")) ++low;
  }
  BOOST_TEST(glucose == 3);
  BOOST_TEST(ketones == 1);
  BOOST_TEST(low == 1);
  BOOST_TEST(provenances == 1);
}

BOOST_AUTO_TEST_CASE(days_take_the_episodes_of_those_days_and_say_what_they_show) {
  const Kept kept(std::string(kNight) + R"({"at":"2026-03-01T09:00:00-05:00","abandon":{"why":"over"}})" + "\n");
  std::string second = kNight;
  for (std::size_t at; (at = second.find("2026-03-01")) != std::string::npos;) second.replace(at, 10, "2026-03-02");
  run_program({"walk", "--json", "--child", kept.child(), "--journal", kept.journal()}, second);
  const Run week = kept.record({"--text", "--days", "7"}, "2026-03-03T08:00:00-05:00");
  BOOST_TEST(week.status == 0);
  for (const char* part :
       {"2 episodes.", "Lowest glucose: LO", "Lows were treated on 2 days.", "4 of 4 treatments of a low between"})
    BOOST_TEST(says(week.out, part), part << " is not in\n" << week.out);
  const Run later = kept.record({"--text", "--days", "7"}, "2026-04-01T08:00:00-05:00");
  BOOST_TEST(later.out.find("No episode in these days.") != std::string::npos, later.out);
  BOOST_TEST(kept.record({"--text", "--days", "x"}).status == 2);
}

BOOST_AUTO_TEST_CASE(child_without_an_episode_has_no_record) {
  const Kept kept(kNight);
  kept.folder.write("other.json", [] {
    std::string text = file_in_tree("protocols/demo-child.json");
    return text.replace(text.find("Mika (practice)"), 15, "Zoe");
  }());
  const Run run =
      run_program({"record", "--text", "--child", kept.folder.path("other.json"), "--journal", kept.journal()});
  BOOST_TEST(run.status == 1);
  BOOST_TEST(run.err.find("no episode of Zoe") != std::string::npos, run.err);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight::tests
