#include "protocol/other_language.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>
#include <vector>

using namespace rushlight;

namespace {

struct Written {
  const char* text;
  Language language;
  const char* beside;
  bool in_the_other;
};

std::ostream& operator<<(std::ostream& out, const Written& row) { return out << row.text; }

const std::vector<Written> kWritten{
    {"Llame a la guardia y mida la glucosa.", Language::en, "Call the clinic.", true},
    {"Call the clinic and measure.", Language::es, "Llame a la guardia.", true},
    {"Call the clinic.", Language::en, "Llame.", false},
    {"Llame a la guardia.", Language::es, "Call.", false},
    {"Confusión.", Language::en, "Confused.", true},
    {"Confusión.", Language::en, "", false},  // alone it might be a name
    {"José's clinic", Language::en, "Clínica José", false},
    {"Confused.", Language::es, "Confusión.", false},  // told at the other text
    {"Call El Paso, on the line of La Paz", Language::en, "Llame a El Paso", false},
    {"The clinic says: \"no más\"", Language::en, "La clínica dice: no más", false},
    {"Glucose: {glucose}", Language::en, "Glucosa: {glucose}", false},
    {"{the} {and} {of}", Language::es, "", false},  // a blank is no word
    {"37.5 °C", Language::en, "37.5 C", false},
    {"NUNCA QUITE LA BASAL DE LA BOMBA", Language::en, "", true},
    {"", Language::en, "", false},
    {"{", Language::en, "", false},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(other_language)

BOOST_DATA_TEST_CASE(a_text_is_in_the_other_language_only_where_its_words_leave_no_doubt,
                     boost::unit_test::data::make(kWritten), row) {
  BOOST_TEST(is_in_other_language(row.text, row.language, row.beside) == row.in_the_other);
}

BOOST_AUTO_TEST_SUITE_END()
