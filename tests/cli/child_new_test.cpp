#include "cli/child_new.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <sstream>

#include "cli/program.hpp"
#include "wire/child_from_json.hpp"

namespace rushlight::tests {

namespace {

constexpr Day kToday{std::chrono::year{2026}, std::chrono::March, std::chrono::day{1}};

// name, birth, unit, weight, day, delivery, strips, dose, strength, step, no correction, rescue, expiry, place, no more, food, name, content, no more,
// clinic, on call, adult, number, emergency, address, yes
const std::string kEnglish =
    "1\nAda\n2020-02-11\n1\n21\n\n1\n1\n15\n100\n0.5\n\n1\n2027-12-31\nkitchen drawer\n4\n1\napple juice\n9.6\n7\n"
    "555 0100\n\nBo\n555 0101\n\n1 Harbour Lane\ny\n";

struct Interviewed {
  int status;
  std::string said, file;
  std::optional<Child> child;
};

Interviewed interviewed(const std::string& answers) {
  const Folder folder;
  std::istringstream in(answers);
  std::ostringstream out;
  Interviewed result;
  result.status = child_new(in, out, ChildNew{folder.path("child.json"), kToday, std::nullopt});
  result.said = out.str();
  struct stat about {};
  if (::stat(folder.path("child.json").c_str(), &about) == 0) {
    BOOST_TEST((about.st_mode & 0777u) == 0600u);
    result.file = folder.read("child.json");
    result.child = child_from_json(result.file, "child.json", kToday).value;
  }
  return result;
}

std::string changed(std::string text, const std::string& old, const std::string& put) {
  const std::size_t at = text.find(old);
  BOOST_REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), put);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(making_a_child_file)

BOOST_AUTO_TEST_CASE(answers_become_a_file_that_only_its_owner_reads) {
  const Interviewed result = interviewed(kEnglish);
  BOOST_TEST(result.status == 0, result.said);
  BOOST_REQUIRE(result.child.has_value());
  BOOST_TEST(result.child->name == "Ada");
  BOOST_CHECK(result.child->weight == BodyWeight(Decimal::whole(21), kKilogram));
  BOOST_CHECK(result.child->weighed == kToday);
  BOOST_CHECK(result.child->daily_dose_on == kToday);
  BOOST_CHECK(result.child->insulin_strength->value == Decimal::whole(100));
  BOOST_CHECK(result.child->insulin_step == InsulinDose(Decimal::of_micros(500'000), kInsulinUnit));
  BOOST_CHECK(!result.child->correction_factor.has_value());
  BOOST_CHECK(result.child->rescue.at(0).kind == RescueKind::nasal);
  BOOST_CHECK(result.child->foods.at(0).carbohydrate == Decimal::of_micros(9'600'000));
  BOOST_TEST(result.child->contacts.second_adult == "555 0101");
  BOOST_TEST(result.child->contacts.emergency == "");
}

BOOST_AUTO_TEST_CASE(spanish_answers_with_a_decimal_comma_are_understood) {
  std::string answers = changed(kEnglish, "1\nAda", "español\nAda");
  answers = changed(answers, "\n21\n", "\n21,5\n");
  answers = changed(answers, "9.6", "9,6");
  answers = changed(answers, "\ny\n", "\nsí\n");
  const Interviewed result = interviewed(answers);
  BOOST_TEST(result.status == 0, result.said);
  BOOST_REQUIRE(result.child.has_value());
  BOOST_CHECK(result.child->language == Language::es);
  BOOST_CHECK(result.child->weight == BodyWeight(Decimal::of_micros(21'500'000), kKilogram));
  BOOST_TEST(result.said.find("Peso: 21.5 kg") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(pounds_typed_as_kilograms_are_asked_about_and_asked_for_again) {
  const Interviewed result = interviewed(changed(kEnglish, "\n21\n\n", "\n46\n\nn\n21\n\n"));
  BOOST_TEST(result.said.find("46 kg is unusual at this age: most weigh 13-36 kg.") != std::string::npos, result.said);
  BOOST_REQUIRE(result.child.has_value());
  BOOST_CHECK(result.child->weight == BodyWeight(Decimal::whole(21), kKilogram));
}

BOOST_AUTO_TEST_CASE(unusual_weight_that_is_confirmed_is_written_as_confirmed) {
  const Interviewed result = interviewed(changed(kEnglish, "\n21\n\n", "\n46\n\ny\n"));
  BOOST_REQUIRE(result.child.has_value());
  BOOST_TEST(result.file.find("\"weight_confirmed\": true") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(pounds_named_as_pounds_become_kilograms_and_are_shown_back) {
  // 46 lb x 0.45359237 = 20.865 kg, to one place 20.9 kg. Source: international yard and pound agreement, 1959.
  const Interviewed result = interviewed(changed(kEnglish, "\n21\n", "\n46 lb\n"));
  BOOST_REQUIRE(result.child.has_value());
  BOOST_CHECK(result.child->weight == BodyWeight(Decimal::of_micros(20'900'000), kKilogram));
  BOOST_TEST(result.said.find("Weight: 20.9 kg") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(answer_that_is_not_understood_is_asked_for_again_with_the_reason) {
  const Interviewed result = interviewed(changed(kEnglish, "2020-02-11", "11.2.2020\n2062-02-11\n2020-02-11"));
  BOOST_TEST(result.said.find("Type the date like 2019-05-14.") != std::string::npos);
  BOOST_TEST(result.said.find("2062-02-11 has not come yet.") != std::string::npos);
  BOOST_TEST(result.child.has_value());
}

BOOST_AUTO_TEST_CASE(what_enter_cannot_skip_is_said_at_the_start_and_when_it_is_tried) {
  const Interviewed result = interviewed(changed(kEnglish, "2020-02-11", "\n2020-02-11"));
  BOOST_TEST(result.said.find("Name and birth date are needed. Enter skips the rest.") != std::string::npos);
  BOOST_TEST(result.said.find("The birth date is needed: amounts go by age.") != std::string::npos);
  BOOST_TEST(result.child.has_value());
}

BOOST_AUTO_TEST_CASE(answers_that_run_out_at_any_line_write_nothing) {
  std::string answers;
  for (const std::string& line : lines_of(kEnglish)) {
    const Interviewed result = interviewed(answers);
    BOOST_TEST(result.status == 2, "after: " << answers);
    BOOST_TEST(result.file == "");
    answers += line + "\n";
  }
}

BOOST_AUTO_TEST_CASE(no_at_the_end_writes_nothing) {
  const Interviewed result = interviewed(changed(kEnglish, "\ny\n", "\nn\n"));
  BOOST_TEST(result.status == 1);
  BOOST_TEST(result.file == "");
}

BOOST_AUTO_TEST_CASE(file_that_is_there_is_never_overwritten_not_even_through_a_link) {
  const Folder folder;
  folder.write("child.json", "mine");
  BOOST_REQUIRE_EQUAL(::symlink("nowhere", folder.path("link.json").c_str()), 0);
  for (const char* name : {"child.json", "link.json"}) {
    BOOST_TEST(run_program({"child", "new", "--out", folder.path(name)}, kEnglish).status == 1);
  }
  BOOST_TEST(folder.read("child.json") == "mine");
}

BOOST_AUTO_TEST_CASE(child_made_with_the_program_walks_without_further_options) {
  const Folder folder;
  const std::vector<std::string> data{"XDG_DATA_HOME=" + folder.path("data")};
  BOOST_TEST(run_program({"child", "new"}, kEnglish, data).status == 0);
  BOOST_TEST(run_program({"check", folder.path("data/rushlight/child.json")}).status == 0);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
