#include "finding/markup.hpp"

#include <boost/test/unit_test.hpp>

using namespace rushlight;

BOOST_AUTO_TEST_SUITE(markup)

BOOST_AUTO_TEST_CASE(a_name_with_signs_of_markup_is_written_so_that_it_is_read_back_as_it_is) {
  BOOST_TEST(escaped_for_markup(R"(Dr. "A" & B <clinic>)") == "Dr. &quot;A&quot; &amp; B &lt;clinic&gt;");
  BOOST_TEST(escaped_for_markup("5 < 7 &amp; 70 mg/dL") == "5 &lt; 7 &amp;amp; 70 mg/dL");
  BOOST_TEST(escaped_for_markup("niño, 3.9 mmol/L") == "niño, 3.9 mmol/L");
}

BOOST_AUTO_TEST_SUITE_END()
