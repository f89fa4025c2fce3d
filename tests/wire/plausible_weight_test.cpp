#include "wire/plausible_weight.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>

namespace rushlight::tests {

namespace {

// Median weights, in tenths of a kilogram. Source: WHO Child Growth Standards 2006, weight-for-age boys (12, 24, 48
// months); CDC growth charts 2000, weight-for-age M of boys and girls (72.5, 120.5, 168.5, 216.5 months).
struct Median {
  int months;
  int tenths;
  const char* source;
};
std::ostream& operator<<(std::ostream& out, const Median& row) {
  return out << row.source << ": " << row.tenths / 10 << "." << row.tenths % 10 << " kg at " << row.months << " months";
}
const Median kMedians[] = {
    {12, 96, "WHO 2006 boys"},   {24, 122, "WHO 2006 boys"},  {48, 163, "WHO 2006 boys"},  {72, 208, "CDC 2000 boys"},
    {72, 203, "CDC 2000 girls"}, {120, 321, "CDC 2000 boys"}, {168, 512, "CDC 2000 boys"}, {216, 562, "CDC 2000 girls"},
};

BodyWeight tenths_of_kilogram(int tenths) {
  return BodyWeight(Decimal::of_micros(std::int64_t{tenths} * 100'000), kKilogram);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(plausible_weights)

BOOST_DATA_TEST_CASE(median_child_is_not_asked_about_and_its_pounds_are, boost::unit_test::data::make(kMedians), row) {
  const WeightRange range = plausible_weight(Age::of_months(row.months));
  const BodyWeight kilograms = tenths_of_kilogram(row.tenths);
  const BodyWeight pounds = tenths_of_kilogram(row.tenths * 22046 / 10000);
  BOOST_CHECK(kilograms >= range.least && kilograms <= range.most);
  BOOST_CHECK(pounds > range.most);
}

BOOST_AUTO_TEST_CASE(range_never_shrinks_as_a_child_grows) {
  for (int months = 1; months <= 30 * 12; ++months) {
    const WeightRange before = plausible_weight(Age::of_months(months - 1));
    const WeightRange now = plausible_weight(Age::of_months(months));
    BOOST_CHECK_MESSAGE(now.least >= before.least && now.most >= before.most, "at " << months << " months");
    BOOST_CHECK(now.least < now.most);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
