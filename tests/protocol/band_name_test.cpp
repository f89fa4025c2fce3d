#include "protocol/band_name.hpp"

#include <boost/test/unit_test.hpp>

using namespace rushlight;

namespace {

Band band() { return Band{{}, {}, {}, {}, {}, {}, Limit{0}, Where{"low.xml", 1, 1, 1}}; }
BodyWeight kg(int number) { return BodyWeight{Decimal::whole(number), kKilogram}; }

}  // namespace

BOOST_AUTO_TEST_SUITE(names_of_bands)

BOOST_AUTO_TEST_CASE(band_is_called_by_the_child_and_the_hours_it_holds) {
  Band ages = band();
  BOOST_TEST(name_of(ages) == "every-child");
  ages.age_up_to = Age::of_years(6);
  BOOST_TEST(name_of(ages) == "under-6-years");
  ages.age_from = Age::of_years(1);
  BOOST_TEST(name_of(ages) == "1-to-under-6-years");
  ages.age_from = Age::of_months(6);
  BOOST_TEST(name_of(ages) == "6-months-to-under-6-years");
  ages.age_up_to = std::nullopt;
  BOOST_TEST(name_of(ages) == "from-6-months");
  ages.age_up_to = Age::of_years(1);
  BOOST_TEST(name_of(ages) == "6-months-to-under-1-year");

  Band weights = band();
  weights.weight_from = kg(10);
  weights.weight_up_to = BodyWeight{Decimal::of_micros(22'500'000), kKilogram};
  BOOST_TEST(name_of(weights) == "10-to-under-22.5-kg");

  Band hours = band();
  hours.clock_from = ClockTime::of_minutes(22 * 60);
  hours.clock_up_to = ClockTime::of_minutes(6 * 60);
  BOOST_TEST(name_of(hours) == "22:00-to-06:00");
  hours.age_from = Age::of_years(6);
  BOOST_TEST(name_of(hours) == "from-6-years-and-22:00-to-06:00");
  hours.clock_from = std::nullopt;
  BOOST_TEST(name_of(hours) == "from-6-years-and-before-06:00");
}

BOOST_AUTO_TEST_CASE(band_is_found_by_its_name_and_by_no_other) {
  Threshold threshold{};
  threshold.bands = {band(), band()};
  threshold.bands[0].age_up_to = Age::of_years(6);
  threshold.bands[1].age_from = Age::of_years(6);
  BOOST_TEST(band_named(threshold, "from-6-years").value() == 1U);
  BOOST_TEST(!band_named(threshold, "under-7-years").has_value());
  BOOST_TEST(has_bands(threshold));
  threshold.bands = {band()};
  BOOST_TEST(!has_bands(threshold));
}

BOOST_AUTO_TEST_SUITE_END()
