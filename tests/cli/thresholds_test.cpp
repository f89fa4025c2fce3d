#include <sys/stat.h>

#include <algorithm>
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <ostream>
#include <sstream>

#include "cli/clinic_copy.hpp"
#include "cli/plain_text.hpp"
#include "cli/thresholds_command.hpp"
#include "sanitized.hpp"

namespace rushlight::tests {

namespace {

using Json = nlohmann::json;
using Names = std::vector<std::string>;

const Names kProtocols{"illness.xml", "ketones.xml", "low.xml"};

/// The words of the command that the run printed under "To take it back:", as a shell takes them.
std::vector<std::string> undo_words(const Run& run) {
  std::string text = run.out.substr(run.out.find("rushlight thresholds"));
  std::vector<std::string> words;
  std::string word;
  bool inside = false, any = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\'') {
      inside = !inside;
      any = true;
    } else if (!inside && c == '\\' && text[i + 1] == '\n') {
      ++i;
    } else if (!inside && (c == ' ' || c == '\n')) {
      if (any || !word.empty()) words.push_back(word);
      word.clear();
      any = false;
      if (c == '\n') break;
    } else {
      word += c;
    }
  }
  words.erase(words.begin());  // the name of the program
  return words;
}

struct Refusal {
  std::string change, says;
  int status = 1;
};
std::ostream& operator<<(std::ostream& out, const Refusal& row) { return out << row.change; }

const Refusal kRefusals[] = {
    {"low=7O mg/dL", "`7O` cannot be used: a number has only digits and at most one point"},
    {"low=66", "`66` has no unit"},
    {"low=66 g", "write it in mg/dL or mmol/L"},
    {"low=66 mg/dL", "write `low=66 mg/dL, 3.7 mmol/L`, or take 3.7 mmol/L with `--yes`"},
    {"low=66 mg/dL, 3.9 mmol/L", "write `66 mg/dL, 3.7 mmol/L` or `70 mg/dL, 3.9 mmol/L`"},
    {"low=40 mg/dL, 2.2 mmol/L", "`low` is 40 mg/dL, outside 60 mg/dL to 100 mg/dL"},
    {"low=", "`low=` names no value: write it like 'low=66 mg/dL'", 2},
    {"low=66 mmol/L", "`66 mmol/L` cannot be used: no meter shows so much in mmol/L"},
    {"low=66 mmol/L", "if mg/dL is meant, write `66 mg/dL`"},
    {"low=3.7 mg/dL", "if mmol/L is meant, write `3.7 mmol/L`"},
    {"low=66, 3.7 mmol/L", "`66` has no unit"},
    {"Treat as low below=66 mg/dL, 3.7 mmol/L", "write `low`"},
    {"tratar como baja por debajo de=66 mg/dL, 3.7 mmol/L", "write `low`"},
    {"lwo=66 mg/dL, 3.7 mmol/L", "write `low`"},
    {"recheck=12", "write it like `12 min`"},
    {"recheck=12 kg", "`12 kg` has the wrong unit"},
    {"recheck=1O min", "`1O min` cannot be used"},
    {"recheck=25 min", "outside 10 min to 20 min"},
    {"recheck=1,500 min", "write `1.5` or `1500`"},
    {"high=200 mg/dL, 11.1 mmol/L", "`high` is 200 mg/dL, outside 240 mg/dL to 300 mg/dL"},  // low.xml alone allows it
    {"most-rounds=3", "write `illness/most-rounds` or `ketones/most-rounds`"},
    {"most-late-checks=2", "write `illness,ketones/most-late-checks` or `low/most-late-checks`"},
    {"illnes/most-rounds=3", "write `illness`"},
    {"low/most-rounds=3", "no threshold of protocol `low` is called `most-rounds`"},
    {"carb-by-age=6 g", "`carb-by-age` has 3 bands, and none is named"},
    {"carb-by-age:under-7-years=6 g", "write `under-6-years`"},
    {"recheck:under-6-years=12 min", "no band of `recheck` is called `under-6-years`"},
    {"recheck=20 min", "against law `very-low-is-on-the-phone`"},
    {"nonsense", "is no change: write it like", 2},
    {"=66 mg/dL", "is no change: write it like", 2},
};

std::vector<Refusal> refusals() {
  std::vector<Refusal> some;
  for (std::size_t i = 0; i < std::size(kRefusals); i += kSanitized ? 4 : 1) some.push_back(kRefusals[i]);
  return some;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(thresholds)

BOOST_AUTO_TEST_CASE(list_names_every_number_of_every_file_with_its_value_range_source_and_place) {
  const ClinicCopy clinic;
  const Run run = clinic.run({});
  BOOST_TEST(run.status == 0, run.err);
  const Json json = Json::parse(clinic.run({"--json"}).out);
  std::size_t in_files = 0, listed = 0;
  for (const std::string& name : kProtocols) {
    const std::string xml = clinic.read(name);
    for (std::size_t at = xml.find(" least=\""); at != std::string::npos && at < xml.find("</thresholds>");
         at = xml.find(" least=\"", at + 1))
      ++in_files;
  }
  for (const Json& number : json["numbers"]) {
    listed += number["values"][0]["places"].size();
    BOOST_TEST(contains(run.out, number["name"].get<std::string>()));
    BOOST_TEST(!number["source"].get<std::string>().empty());
    for (const Json& place : number["values"][0]["places"]) {
      const std::string file = std::filesystem::path(place["file"].get<std::string>()).filename();
      const std::string there = lines_of(clinic.read(file)).at(place["line"].get<std::size_t>() - 1);
      const bool banded = number["values"][0].contains("band");
      BOOST_TEST(contains(there, banded ? "<band" : "id=\"" + number["id"].get<std::string>() + "\""), there);
    }
  }
  BOOST_TEST(listed == in_files);
  BOOST_TEST(listed > 200U);
  BOOST_TEST(contains(run.out, "carb-by-age:under-6-years          5 g "));
  BOOST_TEST(contains(run.out, "under 6 years\n"));
}

BOOST_AUTO_TEST_CASE(list_fits_its_page_in_both_languages_and_speaks_them) {
  for (const std::string set : {"reference", "harbour-lane"}) {
    for (const std::string language : {"en", "es"}) {
      const Run run = run_program({"thresholds", set, "--lang", language});
      BOOST_TEST(run.status == 0);
      for (const std::string& line : lines_of(run.out)) BOOST_TEST(columns_of(line) <= 100, line);
      BOOST_TEST(contains(run.out, language == "en" ? "WHAT IT IS" : "QUÉ ES"));
      BOOST_TEST(!contains(run.out, "[iU]"));
      BOOST_TEST(!contains(run.out, "(100.mL)"));
    }
  }
}

BOOST_DATA_TEST_CASE(change_that_cannot_be_is_refused_with_the_reason_and_nothing_is_written,
                     boost::unit_test::data::make(refusals()), row) {
  const ClinicCopy clinic;
  const Run run = clinic.run({"--change", row.change, "--change", "honey-age=13 months"});
  BOOST_TEST(run.status == row.status, run.out << run.err);
  BOOST_TEST(contains(run.out + run.err, row.says), run.out << run.err);
  BOOST_TEST(clinic.changed() == Names{});
}

BOOST_AUTO_TEST_CASE(one_number_of_three_files_changes_in_each_and_the_printed_command_takes_it_back) {
  const ClinicCopy clinic;
  const Run run = clinic.run({"--change", "low=66 mg/dL, 3.7 mmol/L"});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(
      contains(run.out, "70 mg/dL, 3.9 mmol/L -> 66 mg/dL, 3.7 mmol/L\n  in illness, ketones and low: one number"),
      run.out);
  BOOST_TEST(clinic.changed() == kProtocols);
  BOOST_TEST(contains(clinic.read("low.xml"), "<glucose id=\"low\" mg-dl=\"66\" mmol-l=\"3.7\" least=\"60 mg/dL\""));
  const Run back = run_program(undo_words(run));
  BOOST_TEST(back.status == 0, back.err);
  BOOST_TEST(clinic.changed() == Names{});
}

BOOST_AUTO_TEST_CASE(many_changes_at_once_come_back_by_one_command) {
  const ClinicCopy clinic;
  const Run run =
      clinic.run({"--change", "low=66 mg/dL, 3.7 mmol/L", "carb-by-age:under-6-years=6 g", "insulin-step=1 units",
                  "illness/most-rounds=30", "juice-content=11 g in 100 mL", "mini-per-year-from=2 years"});
  BOOST_TEST(run.status == 0, run.out << run.err);
  BOOST_TEST(contains(clinic.read("ketones.xml"), "id=\"insulin-step\" value=\"1 [iU]\""));
  BOOST_TEST(contains(clinic.read("low.xml"), "value=\"11 g/(100.mL)\""));
  BOOST_TEST(contains(run.out, "most-rounds stays as it is in ketones"), run.out);
  const Run back = run_program(undo_words(run));
  BOOST_TEST(back.status == 0, back.err);
  BOOST_TEST(clinic.changed() == Names{});
}

BOOST_AUTO_TEST_CASE(one_protocol_is_changed_alone_when_it_is_named) {
  const ClinicCopy clinic;
  const Run run = clinic.run({"--change", "ketones/recheck=12 min"});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(contains(run.out, "recheck stays as it is in illness and low"), run.out);
  BOOST_TEST(clinic.changed() == Names{"ketones.xml"});
  BOOST_TEST(contains(clinic.run({}).out, "ketones/recheck "));
  BOOST_TEST(run_program(undo_words(run)).status == 0);
  BOOST_TEST(clinic.changed() == Names{});
}

BOOST_AUTO_TEST_CASE(single_file_is_changed_alone_and_checked_with_its_set) {
  const ClinicCopy clinic;
  const auto change = [&](const std::string& word) {
    return run_program({"thresholds", clinic.path("low.xml"), "--change", word});
  };
  const Run late = change("recheck=20 min");
  BOOST_TEST(late.status == 1);
  BOOST_TEST(contains(late.out, "safety.xml:"), late.out);
  BOOST_TEST(clinic.changed() == Names{});
  BOOST_TEST(change("recheck=12 min").status == 0);
  BOOST_TEST(clinic.changed() == Names{"low.xml"});
  BOOST_TEST(run_program({"thresholds", clinic.path("/low.xml"), "--change", "recheck=11 min"}).status == 0);
}

BOOST_AUTO_TEST_CASE(change_that_the_check_refuses_is_written_as_a_draft_only) {
  const ClinicCopy clinic;
  BOOST_TEST(clinic.run({"--change", "recheck=20 min"}).status == 1);
  BOOST_TEST(clinic.changed() == Names{});
  const Run draft = clinic.run({"--change", "recheck=20 min", "--draft"});
  BOOST_TEST(draft.status == 0, draft.err);
  BOOST_TEST(contains(draft.out, "Written as a draft. Errors to mend before anybody can walk it: 2."), draft.out);
  BOOST_TEST(clinic.changed() == kProtocols);
  BOOST_TEST(run_program({"check", clinic.path()}).status == 1);
  BOOST_TEST(run_program(undo_words(draft)).status == 0);
  BOOST_TEST(clinic.changed() == Names{});
}

BOOST_AUTO_TEST_CASE(errors_from_before_are_told_and_the_way_back_to_them_is_a_draft_too) {
  const ClinicCopy clinic;
  clinic.run({"--change", "recheck=20 min", "--draft"});
  const Run other = clinic.run({"--change", "honey-age=13 months"});
  BOOST_TEST(other.status == 1);
  BOOST_TEST(contains(other.out, "Errors before this change: 2."), other.out);
  const Run mended = clinic.run({"--change", "recheck=15 min"});
  BOOST_TEST(mended.status == 0, mended.err);
  BOOST_TEST(contains(mended.out, " --draft --change 'recheck=20 min'"), mended.out);
}

BOOST_AUTO_TEST_CASE(value_of_the_other_unit_is_written_only_when_somebody_takes_it) {
  const ClinicCopy clinic;
  const auto answered = [&](const std::string& answer, bool asks) {
    std::istringstream in(answer);
    std::ostringstream out, err;
    ThresholdsOptions options;
    options.set = {clinic.path()};
    options.changes = {"low=66 mg/dL"};
    options.language = "en";
    const int status = thresholds_command(options, in, asks, out, err);
    BOOST_TEST(contains(out.str(), "nobody stated mmol/L: it is 3.7 mmol/L"), out.str());
    BOOST_TEST((contains(out.str(), "Write 3.7 mmol/L too? Type y for yes or n for no.") == asks), out.str());
    return status;
  };
  BOOST_TEST(answered("n\n", true) == 1);
  BOOST_TEST(answered("", true) == 1);
  BOOST_TEST(answered("y\n", false) == 1);
  BOOST_TEST(clinic.changed() == Names{});
  BOOST_TEST(answered("what\ny\n", true) == 0);
  BOOST_TEST(contains(clinic.read("low.xml"), "mg-dl=\"66\" mmol-l=\"3.7\""));
  BOOST_TEST(clinic.run({"--change", "low=4.0 mmol/L", "--yes"}).status == 0);
  BOOST_TEST(contains(clinic.read("low.xml"), "mg-dl=\"72\" mmol-l=\"4.0\""));
}

// The question is open for as long as somebody thinks about it.
BOOST_AUTO_TEST_CASE(file_changed_by_somebody_else_while_the_question_stood_is_not_written_over) {
  const ClinicCopy clinic;
  class Answering : public std::stringbuf {
   public:
    explicit Answering(const ClinicCopy& clinic) : clinic_(clinic) {}
    int_type underflow() override {
      if (!asked_) clinic_.edit("ketones.xml", "<en>", "<en>!");
      if (!asked_) str("y\n");
      asked_ = true;
      return std::stringbuf::underflow();
    }

   private:
    const ClinicCopy& clinic_;
    bool asked_ = false;
  } answering(clinic);
  std::istream in(&answering);
  std::ostringstream out, err;
  ThresholdsOptions options;
  options.set = {clinic.path()};
  options.changes = {"low=66 mg/dL"};
  options.language = "en";
  BOOST_TEST(thresholds_command(options, in, true, out, err) == 1);
  BOOST_TEST(contains(err.str(), "ketones.xml: error: somebody else changed this file after it was read here"),
             err.str());
  BOOST_TEST(clinic.changed() == Names{"ketones.xml"});
  BOOST_TEST(contains(clinic.read("ketones.xml"), "<en>!"));
}

BOOST_AUTO_TEST_CASE(approval_of_a_changed_file_is_said_to_be_void) {
  const ClinicCopy clinic;
  const std::string sum(64, '0');
  clinic.edit("low.xml", "  <title>",
              "  <approval by=\"Dr. Reyes\" role=\"consultant\" on=\"2026-03-01\" until=\"2027-03-01\" key=\"" + sum +
                  "\" signature=\"" + sum + sum + "\"><file name=\"low.xml\" sha256=\"" + sum +
                  "\"/></approval>\n  <title>");
  const Run other = clinic.run({"--change", "ketones/recheck=12 min"});
  BOOST_TEST(!contains(other.out, "approval"), other.out);
  const Run run = clinic.run({"--change", "honey-age=13 months"});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(contains(run.out, "(by Dr. Reyes, until 2027-03-01)"), run.out);
  BOOST_TEST(contains(run.out, "It is void."), run.out);
}

BOOST_AUTO_TEST_CASE(set_inside_the_program_is_listed_and_never_changed) {
  BOOST_TEST(contains(run_program({"thresholds", "reference"}).out, "rushlight new-set my-clinic --from"));
  const Run run = run_program({"thresholds", "reference", "--change", "low=66 mg/dL, 3.7 mmol/L"});
  BOOST_TEST(run.status == 1);
  BOOST_TEST(contains(run.err, "make a copy first: `rushlight new-set my-clinic --from reference`"), run.err);
}

BOOST_AUTO_TEST_CASE(what_is_no_set_is_told) {
  const Run near = run_program({"thresholds", "refrence"});
  BOOST_TEST(near.status == 2);
  BOOST_TEST(contains(near.err, "the program itself has a set `reference`"), near.err);
  BOOST_TEST(run_program({"thresholds"}).status == 2);
  BOOST_TEST(run_program({"thresholds", "a", "b"}).status == 2);
  BOOST_TEST(run_program({"thresholds", "reference", "--csv", "--change", "low=1"}).status == 2);
  BOOST_TEST(run_program({"thresholds", "reference", "--yes"}).status == 2);
  BOOST_TEST(run_program({"thresholds", "reference", "--from", "/no/such.csv"}).status == 2);
  const Folder empty;
  BOOST_TEST(run_program({"thresholds", empty.path("")}).status == 2);
}

BOOST_AUTO_TEST_CASE(file_that_cannot_be_read_is_told_and_the_others_are_listed) {
  const ClinicCopy clinic;
  clinic.edit("ketones.xml", "</thresholds>", "</threshold>");
  const Run list = clinic.run({});
  BOOST_TEST(list.status == 1);
  BOOST_TEST(contains(list.err, "ketones.xml:"), list.err);
  BOOST_TEST(contains(list.out, "In illness and low"), list.out);
  const Run change = clinic.run({"--change", "honey-age=13 months"});
  BOOST_TEST(change.status == 1);
  BOOST_TEST(clinic.changed() == Names{"ketones.xml"});
}

BOOST_AUTO_TEST_CASE(value_that_is_there_already_is_said_and_no_file_is_touched) {
  const ClinicCopy clinic;
  const Run run = clinic.run({"--change", "recheck=15 minutes"});
  BOOST_TEST(run.status == 0);
  BOOST_TEST(contains(run.out, "recheck is 15 min already."), run.out);
  BOOST_TEST(contains(run.out, "Nothing to change."), run.out);
  BOOST_TEST(clinic.changed() == Names{});
}

BOOST_AUTO_TEST_CASE(read_only_file_and_a_link_are_told) {
  const ClinicCopy clinic;
  ::chmod(clinic.path("low.xml").c_str(), 0444);
  const Run refused = clinic.run({"--change", "recheck=12 min"});
  BOOST_TEST(refused.status == 2);
  BOOST_TEST(contains(refused.err, "low.xml: error: this cannot be written: it is read-only"), refused.err);
  BOOST_TEST(clinic.changed() == Names{});
  ::chmod(clinic.path("low.xml").c_str(), 0644);
  std::filesystem::rename(clinic.path("low.xml"), clinic.beside("elsewhere.xml"));
  std::filesystem::create_symlink("../elsewhere.xml", clinic.path("low.xml"));
  const Run run = clinic.run({"--change", "honey-age=13 months"});
  BOOST_TEST(run.status == 0, run.err);
  BOOST_TEST(contains(run.out, "low.xml is a link and stays one."), run.out);
  BOOST_TEST(std::filesystem::is_symlink(clinic.path("low.xml")));
}

BOOST_AUTO_TEST_CASE(other_programs_get_the_changes_as_json) {
  const ClinicCopy clinic;
  const Json done = Json::parse(clinic.run({"--json", "--change", "low=66 mg/dL", "--yes"}).out);
  BOOST_TEST(done["written"] == true);
  BOOST_TEST(done["changes"][0]["before"]["mg_per_dl"] == "70");
  BOOST_TEST(done["changes"][0]["after"]["mmol_per_l"] == "3.7");
  BOOST_TEST(done["changes"][0]["worked_out"] == "mmol/L");
  BOOST_TEST(done["undo"][0] == "low=70 mg/dL, 3.9 mmol/L");
  const Run run = clinic.run({"--json", "--change", "low=70 mg/dL"});
  BOOST_TEST(run.status == 1);
  const Json refused = Json::parse(run.out);
  BOOST_TEST(refused["written"] == false);
  BOOST_TEST(refused["findings"][0]["kind"] == "other-unit-unstated");
}

BOOST_AUTO_TEST_CASE(two_values_for_one_number_are_refused_whichever_stands_there) {
  const ClinicCopy clinic;
  for (const char* first : {"low=70 mg/dL, 3.9 mmol/L", "low=66 mg/dL, 3.7 mmol/L"}) {
    const Run run = clinic.run({"--change", first, "illness,ketones,low/low=67 mg/dL, 3.7 mmol/L"});
    BOOST_TEST(run.status == 1, run.out);
    BOOST_TEST(contains(run.err, "`low` is written twice"), run.err);
    BOOST_TEST(contains(run.err, "it is here too"), run.err);
    BOOST_TEST(clinic.changed() == Names{});
  }
}

BOOST_AUTO_TEST_CASE(value_in_character_references_is_refused_since_it_could_not_be_restored) {
  const ClinicCopy clinic;
  clinic.edit("low.xml", R"(id="one-gram" value="1 g")", R"(id="one-gram" value="&#49; g")");
  const std::string before = clinic.read("low.xml");
  const Run run = clinic.run({"--change", "low/one-gram=2 g"});
  BOOST_TEST(run.status == 1, run.out);
  BOOST_TEST(contains(run.err, "could not be taken back byte for byte"), run.err);
  BOOST_TEST(contains(run.err, "write 1 g there in plain characters first"), run.err);
  BOOST_TEST(clinic.read("low.xml") == before);
}

BOOST_AUTO_TEST_CASE(set_may_stand_behind_its_changes) {
  const ClinicCopy clinic;
  BOOST_TEST(run_program({"thresholds", "--change", "recheck=12 min", clinic.path()}).status == 0);
  BOOST_TEST(clinic.changed() == kProtocols);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
