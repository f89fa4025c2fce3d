#include "cli/answers.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "episode/night.hpp"

namespace rushlight {
namespace {

using test::Night;

ShownQuestion asked(FactKind kind) { return ShownQuestion{FactId{9}, "asked", kind, "?", "", {}}; }

ShownQuestion yes_no() {
  ShownQuestion question = asked(FactKind::choice);
  question.choices = {{"yes", "Sí"}, {"no", "No"}};
  return question;
}

AnswerSetting setting(Language language, GlucoseUnit unit) { return {language, unit, Night::moment("02:10")}; }

struct Typing {
  FactKind kind;
  Language language;
  GlucoseUnit unit;
  const char* typed;
  const char* shown;
};
std::ostream& operator<<(std::ostream& out, const Typing& row) { return out << '"' << row.typed << '"'; }

constexpr GlucoseUnit kMg = GlucoseUnit::mg_per_dl;
constexpr GlucoseUnit kMmol = GlucoseUnit::mmol_per_l;

const Typing kTaken[] = {
    {FactKind::glucose, Language::en, kMg, "52", "52 mg/dL"},
    {FactKind::glucose, Language::en, kMg, " 52 ", "52 mg/dL"},
    {FactKind::glucose, Language::en, kMg, "lo", "LO"},
    {FactKind::glucose, Language::en, kMg, "HI", "HI"},
    {FactKind::glucose, Language::en, kMg, "2.9 mmol", "2.9 mmol/L"},
    {FactKind::glucose, Language::en, kMmol, "2.9", "2.9 mmol/L"},
    {FactKind::glucose, Language::es, kMmol, "3,9", "3.9 mmol/L"},
    {FactKind::glucose, Language::en, kMmol, "52 mg", "52 mg/dL"},
    {FactKind::ketones, Language::es, kMg, "0,6", "0.6 mmol/L"},
    {FactKind::ketones, Language::en, kMg, "hi", "HI"},
    {FactKind::count, Language::en, kMg, "0", "0"},
    {FactKind::count, Language::en, kMg, "3", "3"},
    {FactKind::time_since, Language::en, kMg, "40 min", "40 min ago, at 01:30"},
    {FactKind::time_since, Language::es, kMg, "2 horas", "hace 2 h, a las 00:10"},
    {FactKind::time_since, Language::en, kMg, "no", "not in the last day"},
    {FactKind::time_since, Language::en, kMg, "3 days", "not in the last day"},
};

const Typing kAskedAgain[] = {
    {FactKind::glucose, Language::en, kMg, "4.2",
     "4.2 mg/dL cannot be right. Type the whole number, as 50 or 105. Only if the meter itself says mmol/L: type 4.2 "
     "mmol/L."},
    {FactKind::glucose, Language::en, kMmol, "110",
     "110 mmol/L cannot be right. Type it with its point, as 5.2 or 10.5. Only if the meter itself says mg/dL: type "
     "110 "
     "mg/dL."},
    {FactKind::glucose, Language::es, kMg, "4,2",
     "4,2 mg/dL no puede ser. Escriba el número entero, como 50 o 105. Solo si el medidor mismo dice mmol/L: escriba "
     "4,2 "
     "mmol/L."},
    {FactKind::glucose, Language::en, kMmol, "3,9", "\"3,9\" has a comma. With a point it is 3.9. Type it like that."},
    {FactKind::glucose, Language::en, kMg, "7O", "\"7O\" is not a number I can read. Type it like 52."},
    {FactKind::glucose, Language::en, kMg, "070", "\"070\" is not a number I can read. Type it like 52."},
    {FactKind::glucose, Language::en, kMg, "5 2", "\"5 2\" is not a number I can read. Type it like 52."},
    {FactKind::glucose, Language::en, kMg, "4.2 mg/dL",
     "4.2 mg/dL cannot be right. Type the whole number, as 50 or 105. Only if the meter itself says mmol/L: type 4.2 "
     "mmol/L."},
    {FactKind::glucose, Language::en, kMg, "5200", "No meter shows 5200. Look again. LO and HI are answers too."},
    {FactKind::glucose, Language::en, kMg, "52 kg", "\"52 kg\" is not a number I can read. Type it like 52."},
    {FactKind::glucose, Language::en, kMg, "low", "\"low\" is not a number I can read. Type it like 52."},
    {FactKind::ketones, Language::en, kMg, "52", "52 is too high for mmol/L. Look again at the meter, or type HI."},
    {FactKind::ketones, Language::en, kMg, "9", "No ketone meter shows 9. Look again, or type HI."},
    {FactKind::count, Language::en, kMg, "2.5", "Type a whole number, like 2."},
    {FactKind::count, Language::en, kMg, "-1", "Type a whole number, like 2."},
    {FactKind::count, Language::en, kMg, "100", "Type a whole number, like 2."},
    {FactKind::time_since, Language::en, kMg, "2", "2 minutes or hours? Type 2 min or 2 h."},
    {FactKind::time_since, Language::es, kMg, "2", "¿2 minutos u horas? Escriba 2 min o 2 h."},
    {FactKind::time_since, Language::en, kMg, "later", "Type it like 40 min or 2 h. Or no."},
};

BOOST_AUTO_TEST_SUITE(answers)

BOOST_DATA_TEST_CASE(an_answer_is_shown_back_as_it_was_understood, boost::unit_test::data::make(kTaken), row) {
  const ShownQuestion question = asked(row.kind);
  const AnswerSetting here = setting(row.language, row.unit);
  const auto answer = answer_from_text(question, row.typed, here);
  BOOST_REQUIRE(std::holds_alternative<Value>(answer));
  BOOST_TEST(text_from_answer(question, std::get<Value>(answer), here) == row.shown);
}

BOOST_DATA_TEST_CASE(a_doubtful_answer_is_asked_about_and_never_guessed, boost::unit_test::data::make(kAskedAgain),
                     row) {
  const auto answer = answer_from_text(asked(row.kind), row.typed, setting(row.language, row.unit));
  BOOST_REQUIRE(std::holds_alternative<std::string>(answer));
  BOOST_TEST(std::get<std::string>(answer) == row.shown);
}

BOOST_AUTO_TEST_CASE(a_choice_takes_its_number_its_words_and_yes_or_no) {
  const AnswerSetting here = setting(Language::es, kMg);
  for (const char* typed : {"1", "s", "sí", "yes", "SÍ"}) {
    const auto answer = answer_from_text(yes_no(), typed, here);
    BOOST_TEST((answer == std::variant<Value, std::string>{Value{Chosen{0}}}), typed);
  }
  for (const char* typed : {"2", "n", "No"}) {
    const auto answer = answer_from_text(yes_no(), typed, here);
    BOOST_TEST((answer == std::variant<Value, std::string>{Value{Chosen{1}}}), typed);
  }
}

BOOST_AUTO_TEST_CASE(a_wrong_number_names_the_right_ones) {
  for (const char* typed : {"0", "3", "99", "z", "12345678901234567890"}) {
    const auto answer = answer_from_text(yes_no(), typed, setting(Language::en, kMg));
    BOOST_REQUIRE(std::holds_alternative<std::string>(answer));
    BOOST_TEST(std::get<std::string>(answer) == "The answers here are 1 to 2. Nothing is lost.");
  }
}

BOOST_AUTO_TEST_CASE(yes_is_no_answer_to_a_choice_between_other_things) {
  ShownQuestion question = asked(FactKind::choice);
  question.choices = {{"meter", "Meter"}, {"sensor", "Sensor"}};
  BOOST_TEST(std::holds_alternative<std::string>(answer_from_text(question, "yes", setting(Language::en, kMg))));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
