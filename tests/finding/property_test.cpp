#define BOOST_TEST_DYN_LINK
#include "finding/property.hpp"

#include <boost/test/unit_test.hpp>
#include <set>

#include "finding/examples.hpp"

using namespace rushlight;

BOOST_AUTO_TEST_SUITE(property)

BOOST_AUTO_TEST_CASE(every_property_has_an_id_and_a_sentence_of_its_own) {
  std::set<std::string> ids, sentences;
  for (int i = 0; i < kProperties; ++i) {
    ids.insert(id_of(static_cast<Property>(i)));
    sentences.insert(sentence(static_cast<Property>(i)));
  }
  BOOST_TEST(ids.size() == static_cast<std::size_t>(kProperties));
  BOOST_TEST(sentences.size() == static_cast<std::size_t>(kProperties));
  BOOST_TEST(!ids.count(""));
}

BOOST_AUTO_TEST_CASE(every_property_is_broken_by_some_kind_of_finding) {
  std::set<Property> broken;
  for (const tests::Example& row : tests::examples()) broken.insert(property_of(row.kind));
  for (int i = 0; i < kProperties; ++i)
    BOOST_TEST(broken.count(static_cast<Property>(i)) == 1U, id_of(static_cast<Property>(i)) << " can never be broken");
}

BOOST_AUTO_TEST_CASE(gap_in_a_table_is_about_the_sense_and_a_misspelt_word_is_not) {
  BOOST_TEST(is_about_sense(property_of(ValuesNotCovered{"treat", "glucose 70 mg/dL"})));
  BOOST_TEST(!is_about_sense(property_of(UnknownElement{"stpe", "steps", {"step"}})));
}

BOOST_AUTO_TEST_SUITE_END()
