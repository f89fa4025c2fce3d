#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "cli/clinic_copy.hpp"
#include "cli/program.hpp"
#include "read/xmllint.hpp"

namespace rushlight::tests {

namespace {

using Json = nlohmann::json;

const std::string kSourceTree = RUSHLIGHT_SOURCE_DIR;
const std::string kReference = kSourceTree + "/protocols/reference";
const std::string kDeadRule = kSourceTree + "/tests/findings/bad/sense/dead-rule.xml";
const std::string kBadWord = kSourceTree + "/tests/findings/bad/protocol/unknown-attribute.xml";

Json state_of(const Json& file, const std::string& property) {
  for (const Json& each : file["properties"]) {
    if (each["id"] == property) return each["state"];
  }
  return "missing";
}

bool fits_junit(const std::string& text) {
  return xmllint({{"junit.xml", text}}, kSourceTree + "/tests/cli/junit.xsd").valid.count("junit.xml") == 1;
}

std::size_t count_of(const std::string& what, const std::string& text) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
  return count;
}

/// The shipped set, with another border for a low in its protocol `low` alone.
void write_with_low(const Folder& folder, const std::string& values) {
  for (const char* name : {"low.xml", "ketones.xml", "illness.xml", "safety.xml", "examples.xml"})
    folder.write(name, file_in_tree(std::string("protocols/reference/") + name));
  std::string low = folder.read("low.xml");
  const std::string border = "id=\"low\" mg-dl=\"70\" mmol-l=\"3.9\"";
  BOOST_REQUIRE(low.find(border) != std::string::npos);
  folder.write("low.xml", low.replace(low.find(border), border.size(), "id=\"low\" " + values));
}

/// The case of this name, from its tag to the next case.
std::string case_named(const std::string& name, const std::string& junit) {
  const std::size_t at = junit.find("name=\"" + name + "\"");
  return at == std::string::npos ? "" : junit.substr(at, junit.find("<testcase", at) - at);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(check_command)

BOOST_AUTO_TEST_CASE(several_paths_are_told_in_the_order_named_and_counted_in_all) {
  const Run run = run_program({"check", kDeadRule, kReference, kBadWord});
  BOOST_TEST(run.status == 1);
  const std::size_t dead = run.out.find("dead-rule.xml:"), word = run.out.find("unknown-attribute.xml:");
  const std::size_t clean = run.out.find("/reference: 0 errors\n");
  BOOST_TEST((dead < clean && clean < word && word != std::string::npos), run.out);
  BOOST_TEST(lines_of(run.out).back() == "in all: 2 errors");
}

BOOST_AUTO_TEST_CASE(examples_that_come_out_otherwise_are_told_behind_what_they_follow_from) {
  const Folder folder;
  write_with_low(folder, "mg-dl=\"66\" mmol-l=\"3.7\"");
  const Run run = run_program({"check", folder.path("")});
  const std::size_t apart = run.out.find("low.xml:"), example = run.out.find("examples.xml:");
  BOOST_TEST((apart < example && example != std::string::npos), run.out);
}

BOOST_AUTO_TEST_CASE(of_many_examples_that_come_out_otherwise_the_first_show_how_and_json_has_all) {
  const Folder folder;
  write_with_low(folder, "mg-dl=\"60\" mmol-l=\"3.3\"");
  const Run run = run_program({"check", folder.path("")});
  const std::size_t told = count_of("examples.xml:", run.out) - count_of("examples.xml:\n", run.out);
  BOOST_TEST(told == 5U, run.out);
  const std::size_t more = run.out.find(" more lines of the examples come out otherwise; --json tells them");
  BOOST_TEST_REQUIRE(more != std::string::npos, run.out);
  const std::size_t number = std::stoul(run.out.substr(run.out.rfind(' ', more - 1) + 1));
  const std::string json = run_program({"check", "--json", folder.path("")}).out;
  BOOST_TEST(count_of("\"example-differs\"", json) + count_of("\"example-stuck\"", json) == told + number);
}

BOOST_AUTO_TEST_CASE(a_set_whose_laws_or_examples_are_gone_says_so_and_is_no_error) {
  const Folder folder;
  for (const char* name : {"low.xml", "ketones.xml", "illness.xml"})
    folder.write(name, file_in_tree(std::string("protocols/reference/") + name));
  const Run bare = run_program({"check", folder.path("")});
  BOOST_TEST(bare.status == 0, bare.out);
  BOOST_TEST(count_of("no `safety.xml` stands in this set", bare.out) == 1U, bare.out);
  BOOST_TEST(count_of("no `examples.xml` stands in this set", bare.out) == 1U, bare.out);
  BOOST_TEST(count_of("stands in this set", run_program({"check", kReference}).out) == 0U);
}

BOOST_AUTO_TEST_CASE(ketones_after_insulin_are_measured_and_not_taken_from_before_it) {
  const Folder folder;
  std::string ketones = file_in_tree("protocols/reference/ketones.xml");
  const std::size_t step = ketones.find("<step id=\"dose-sugar-free\""),
                    ask = ketones.find("<ask fact=\"glucose\"/>", step);
  BOOST_REQUIRE(ask < ketones.find("</step>", step));
  folder.write("ketones.xml", ketones.insert(ask, "<ask fact=\"ketones\" fresh=\"weight-age\"/>"));
  const Run run = run_program({"check", folder.path("ketones.xml")});
  BOOST_TEST(run.status == 1);
  BOOST_TEST(run.out.find("then takes a `ketones` that is up to 90 d old, from before it") != std::string::npos,
             run.out);
}

BOOST_AUTO_TEST_CASE(one_path_that_cannot_be_read_among_others_is_told_by_the_status) {
  const Run run = run_program({"check", kDeadRule, "/no/such/file.xml"});
  BOOST_TEST(run.status == 2);
  BOOST_TEST(run.out.find("dead-rule.xml:") != std::string::npos, "the other file is checked all the same");
}

BOOST_AUTO_TEST_CASE(json_is_one_document_with_what_was_found_and_what_was_looked_at) {
  const Run run = run_program({"check", "--json", kDeadRule, kBadWord, kSourceTree + "/protocols/demo-child.json"});
  BOOST_TEST(run.status == 1);
  const Json document = Json::parse(run.out);
  BOOST_TEST(document["errors"] == 2);
  BOOST_REQUIRE(document["files"].size() == 3U);

  const Json& dead = document["files"][0];
  BOOST_TEST(dead["kind"] == "protocol");
  BOOST_TEST(dead["to_the_end"] == true);
  BOOST_TEST(dead["findings"][0]["kind"] == "rule-never-matches");
  BOOST_TEST(dead["findings"][0].contains("try"));
  BOOST_TEST(state_of(dead, "no-dead-rule") == "broken");
  BOOST_TEST(state_of(dead, "answers-covered") == "holds");

  const Json& word = document["files"][1];
  BOOST_TEST(word["to_the_end"] == false);
  BOOST_TEST(state_of(word, "words-known") == "broken");
  BOOST_TEST(state_of(word, "no-dead-rule") == "not-looked-at");

  BOOST_TEST(document["files"][2]["kind"] == "child");
  BOOST_TEST(state_of(document["files"][2], "no-dead-rule") == "missing");
}

BOOST_AUTO_TEST_CASE(junit_of_a_clean_set_is_a_suite_for_each_file_with_nothing_but_passes) {
  const Run run = run_program({"check", "--junit", "-", kReference});
  BOOST_TEST(run.status == 0);
  BOOST_TEST(fits_junit(run.out), run.out);
  BOOST_TEST(count_of("<testsuite ", run.out) == 5U);  // three protocols, the laws and the examples
  BOOST_TEST(count_of("<testcase ", run.out) >= 3U * 15U);
  BOOST_TEST(count_of("<failure", run.out) + count_of("<error", run.out) + count_of("<skipped", run.out) == 0U);
}

BOOST_AUTO_TEST_CASE(junit_fails_the_property_that_does_not_hold_and_skips_what_was_not_looked_at) {
  const Run dead = run_program({"check", "--junit", "-", kDeadRule});
  BOOST_TEST(dead.status == 1);
  BOOST_TEST(fits_junit(dead.out), dead.out);
  const std::string failed = case_named("every rule can match", dead.out);
  BOOST_TEST(failed.find("<failure message=\"rule ") != std::string::npos, dead.out);
  BOOST_TEST(failed.find("type=\"rule-never-matches\"") != std::string::npos, failed);
  BOOST_TEST(failed.find("  try      ") != std::string::npos, failed);
  BOOST_TEST(count_of("<failure", dead.out) == 1U);

  const Run word = run_program({"check", "--junit", "-", kBadWord});
  BOOST_TEST(fits_junit(word.out), word.out);
  BOOST_TEST(case_named("every rule can match", word.out).find("<skipped") != std::string::npos, word.out);

  const Run none = run_program({"check", "--junit", "-", "/no/such/file.xml"});
  BOOST_TEST(none.status == 2);
  BOOST_TEST(fits_junit(none.out), none.out);
  BOOST_TEST(case_named("the file can be read", none.out).find("<error ") != std::string::npos, none.out);
}

BOOST_AUTO_TEST_CASE(junit_fails_an_example_that_comes_out_otherwise_although_the_set_is_no_error) {
  const ClinicCopy clinic;
  clinic.edit("examples.xml", R"(<answer fact="glucose" is="69 mg/dL"/><expect step="treat"/>)",
              R"(<answer fact="glucose" is="69 mg/dL"/><expect step="not-low"/>)");
  const Run run = run_program({"check", "--junit", "-", clinic.path()});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(fits_junit(run.out), run.out);
  BOOST_TEST(count_of("type=\"example-differs\"", run.out) == 1U, run.out);
  BOOST_TEST(count_of("<failure", run.out) == 1U);
}

BOOST_AUTO_TEST_CASE(junit_goes_into_a_file_beside_what_people_or_programs_read) {
  const Folder folder;
  const Run people = run_program({"check", kDeadRule, "--junit", folder.path("people.xml")});
  BOOST_TEST(people.status == 1);
  BOOST_TEST(people.out == run_program({"check", kDeadRule}).out);
  BOOST_TEST(fits_junit(folder.read("people.xml")));
  const Run programs = run_program({"check", kDeadRule, "--json", "--junit", folder.path("programs.xml")});
  BOOST_TEST(Json::parse(programs.out)["errors"] == 1);
  BOOST_TEST(folder.read("programs.xml") == folder.read("people.xml"));
}

BOOST_AUTO_TEST_CASE(wrong_use_is_told_and_ends_with_two) {
  const Run both = run_program({"check", kReference, "--json", "--junit", "-"});
  BOOST_TEST(both.status == 2);
  BOOST_TEST(both.out.empty());
  BOOST_TEST(both.err.find("Name a file for --junit") != std::string::npos, both.err);
  const Run nowhere = run_program({"check", kReference, "--junit", "/no/such/folder/junit.xml"});
  BOOST_TEST(nowhere.status == 2);
  BOOST_TEST(nowhere.err.find("cannot be written") != std::string::npos, nowhere.err);
}

BOOST_AUTO_TEST_CASE(signs_that_xml_and_terminals_do_not_take_never_reach_the_report) {
  const Folder folder;
  folder.write("a&b<c>\xEF\xBF\xBF.xml", "<protocol \x1b[2J \"&\" >\xff ]]>");
  const std::string name = folder.path("a&b<c>\xEF\xBF\xBF.xml");
  const Run run = run_program({"check", "--junit", "-", name});
  BOOST_TEST(fits_junit(run.out), run.out);
  BOOST_TEST(run.out.find('\x1b') == std::string::npos);
  BOOST_TEST(Json::parse(run_program({"check", "--json", name}).out)["errors"].get<int>() > 0);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
