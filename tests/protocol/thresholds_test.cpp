#include <boost/test/unit_test.hpp>

#include "tests/protocol/small_protocol.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

const std::string kLow =
    R"(<glucose id="low" mg-dl="70" mmol-l="3.9" least="60 mg/dL" most="100 mg/dL" source="table"><en>)";

std::string low_with(const std::string& attributes, const std::string& bands = "") {
  return with(kLow, "<glucose id=\"low\" " + attributes + " source=\"table\">" + bands + "<en>");
}

std::string banded(const std::string& bands) { return low_with("least=\"60 mg/dL\" most=\"100 mg/dL\"", bands); }

Context child(int months, std::optional<int> kilograms, int minutes) {
  std::optional<BodyWeight> weight;
  if (kilograms) weight = BodyWeight{Decimal::whole(*kilograms), kKilogram};
  return Context{Age::of_months(months), weight, ClockTime::of_minutes(minutes)};
}

std::string low_for(const Protocol& protocol, const Context& context) {
  return text_from_limit(value_in(protocol.thresholds.front(), context), GlucoseUnit::mg_per_dl);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(thresholds)

BOOST_AUTO_TEST_CASE(every_kind_is_read_with_its_unit) {
  const Protocol protocol = resolved();
  const auto text = [&](std::size_t place, GlucoseUnit unit) {
    return text_from_limit(protocol.thresholds[place].bands[0].value, unit);
  };
  BOOST_TEST(text(0, GlucoseUnit::mg_per_dl) == "70 mg/dL");
  BOOST_TEST(text(0, GlucoseUnit::mmol_per_l) == "3.9 mmol/L");
  BOOST_TEST(text(1, GlucoseUnit::mg_per_dl) == "15 min");
  BOOST_TEST(text(4, GlucoseUnit::mg_per_dl) == "2");
  BOOST_TEST(text(7, GlucoseUnit::mg_per_dl) == "0.3 g/kg");
  BOOST_TEST(text(10, GlucoseUnit::mg_per_dl) == "9.6 g/(100.mL)");
  BOOST_TEST(text(11, GlucoseUnit::mg_per_dl) == "1 a");
  BOOST_TEST(text(12, GlucoseUnit::mg_per_dl) == "22:00");
  BOOST_TEST(protocol.thresholds[0].least == "60 mg/dL");
}

BOOST_AUTO_TEST_CASE(a_band_holds_from_its_lower_edge_up_to_not_including_its_upper) {
  const Protocol protocol = resolved(banded(R"(<band age-up-to="6 a" mg-dl="90" mmol-l="5.0"/>
    <band age-from="6 a" clock-from="22:00" clock-up-to="06:00" mg-dl="100" mmol-l="5.6"/>
    <band age-from="6 a" clock-from="06:00" clock-up-to="22:00" mg-dl="80" mmol-l="4.4"/>)"));
  BOOST_TEST(low_for(protocol, child(71, 20, 0)) == "90 mg/dL");
  BOOST_TEST(low_for(protocol, child(72, 20, 0)) == "100 mg/dL");
  BOOST_TEST(low_for(protocol, child(72, 20, 359)) == "100 mg/dL");
  BOOST_TEST(low_for(protocol, child(72, 20, 360)) == "80 mg/dL");
  BOOST_TEST(low_for(protocol, child(72, 20, 1319)) == "80 mg/dL");
  BOOST_TEST(low_for(protocol, child(72, 20, 1320)) == "100 mg/dL");
}

BOOST_AUTO_TEST_CASE(an_unknown_weight_takes_the_band_of_the_lightest_child) {
  const Protocol protocol = resolved(banded(R"(<band weight-from="25 kg" mg-dl="70" mmol-l="3.9"/>
    <band weight-up-to="25 kg" mg-dl="80" mmol-l="4.4"/>)"));
  BOOST_TEST(low_for(protocol, child(100, 25, 0)) == "70 mg/dL");
  BOOST_TEST(low_for(protocol, child(100, 24, 0)) == "80 mg/dL");
  BOOST_TEST(low_for(protocol, child(100, std::nullopt, 0)) == "80 mg/dL");
}

BOOST_AUTO_TEST_CASE(a_clock_band_open_at_an_end_ends_at_midnight) {
  const Protocol protocol = resolved(banded(R"(<band clock-from="22:00" mg-dl="100" mmol-l="5.6"/>
    <band clock-up-to="22:00" mg-dl="80" mmol-l="4.4"/>)"));
  BOOST_TEST(low_for(protocol, child(72, 20, 1439)) == "100 mg/dL");
  BOOST_TEST(low_for(protocol, child(72, 20, 0)) == "80 mg/dL");
}

BOOST_AUTO_TEST_CASE(two_values_that_are_not_one_border_are_refused) {
  const auto found = only<ValuesDisagree>(with(R"(mmol-l="3.9")", R"(mmol-l="3.5")"));
  BOOST_TEST(found.kind.threshold == "low");
  BOOST_TEST(found.kind.mg_per_dl == "70");
  BOOST_TEST(found.kind.expected_mmol_per_l == "3.9");
  BOOST_TEST(found.kind.expected_mg_per_dl == "63");
  BOOST_TEST(found.underlined == "3.5");
}

BOOST_AUTO_TEST_CASE(a_pair_that_a_named_source_prints_is_taken) {
  const std::string pair = R"(mg-dl="100" mmol-l="5.5" least="60 mg/dL" most="100 mg/dL")";
  BOOST_CHECK_NO_THROW(only<ValuesDisagree>(low_with(pair)));
  BOOST_CHECK_NO_THROW(resolved(low_with(pair + " pair-exception=\"table\"")));
  const auto found = only<UnknownId>(low_with(pair + " pair-exception=\"tables\""));
  BOOST_TEST(found.kind.what == "source");
  BOOST_TEST(found.underlined == "tables");
}

BOOST_AUTO_TEST_CASE(a_value_outside_its_range_is_refused_in_either_unit) {
  const auto found = only<OutOfRange>(low_with(R"(mg-dl="110" mmol-l="6.1" least="60 mg/dL" most="100 mg/dL")"));
  BOOST_TEST(found.kind.what == "low");
  BOOST_TEST(found.kind.value == "110 mg/dL");
  BOOST_TEST(found.kind.most == "100 mg/dL");
  BOOST_TEST(found.underlined == "110");
  const auto mmol = only<OutOfRange>(low_with(R"(mg-dl="110" mmol-l="6.1" least="3.3 mmol/L" most="5.6 mmol/L")"));
  BOOST_TEST(mmol.kind.most == "101 mg/dL");
  // An exception may print a pair of which one value alone lies outside.
  const auto one = only<OutOfRange>(
      low_with(R"(mg-dl="100" mmol-l="7.0" least="60 mg/dL" most="100 mg/dL" pair-exception="table")"));
  BOOST_TEST(one.kind.value == "7 mmol/L");
}

BOOST_AUTO_TEST_CASE(the_border_of_a_range_belongs_to_it) {
  BOOST_CHECK_NO_THROW(resolved(low_with(R"(mg-dl="60" mmol-l="3.3" least="60 mg/dL" most="100 mg/dL")")));
  BOOST_CHECK_NO_THROW(resolved(low_with(R"(mg-dl="100" mmol-l="5.6" least="60 mg/dL" most="100 mg/dL")")));
}

BOOST_AUTO_TEST_CASE(a_clock_range_may_pass_midnight) {
  BOOST_CHECK_NO_THROW(resolved(with(R"(<clock id="night" value="22:00")", R"(<clock id="night" value="01:00")")));
  const auto found = only<OutOfRange>(with(R"(<clock id="night" value="22:00")", R"(<clock id="night" value="12:00")"));
  BOOST_TEST(found.underlined == "12:00");
}

BOOST_AUTO_TEST_CASE(a_range_upside_down_is_refused) {
  const auto found = only<OutOfRange>(low_with(R"(mg-dl="70" mmol-l="3.9" least="100 mg/dL" most="60 mg/dL")"));
  BOOST_TEST(found.kind.what == "least");
  BOOST_TEST(found.underlined == "100 mg/dL");
}

BOOST_AUTO_TEST_CASE(numbers_and_units_are_read_whole_or_refused) {
  BOOST_TEST(only<BadNumber>(with(R"(mg-dl="70")", R"(mg-dl="7O")")).underlined == "7O");
  BOOST_TEST(only<BadNumber>(with(R"(mmol-l="3.9")", R"(mmol-l="3,9")")).underlined == "3,9");
  BOOST_TEST(only<BadNumber>(with(R"(value="2" least)", R"(value="2.5" least)")).kind.why ==
             "a count is a whole number");
  BOOST_TEST(only<BadNumber>(with(R"(id="late" value="10 min")", R"(id="late" value="-10 min")")).underlined ==
             "-10 min");
  BOOST_TEST(only<BadNumber>(with(R"(value="06:00")", R"(value="6:00")")).underlined == "6:00");
  const auto missing = only<MissingUnit>(with(R"(value="15 min")", R"(value="15")"));
  BOOST_TEST(missing.kind.example == "15 min");
  BOOST_TEST(missing.underlined == "15");
  BOOST_TEST(only<WrongUnit>(with(R"(value="15 min")", R"(value="15 g")")).kind.wanted == "min, s, h or d");
  const auto spelled_out = only<WrongUnit>(with(R"(value="15 min")", R"(value="15 minutes")"));
  BOOST_TEST(spelled_out.underlined == "15 minutes");
  BOOST_TEST(remedy(spelled_out.kind) == "write `15 min`");
  BOOST_TEST(remedy(only<WrongUnit>(with(R"(least="60 mg/dL")", R"(least="60 mg/dl")")).kind) == "write `60 mg/dL`");
  BOOST_TEST(remedy(only<WrongUnit>(with(R"(value="5 g" least)", R"(value="5 minutes" least)")).kind) == "write it in g");
  const auto named_twice = only<BadNumber>(with(R"(mg-dl="70")", R"(mg-dl="70 mg/dL")"));
  BOOST_TEST(remedy(named_twice.kind) == "write `70`");
  BOOST_TEST(remedy(only<BadNumber>(with(R"(mg-dl="70")", R"(mg-dl="70 mmol/L")")).kind) == "");
  BOOST_TEST(only<MissingUnit>(with(R"(least="60 mg/dL")", R"(least="60")")).underlined == "60");
  const auto mixed = only<WrongUnit>(with(R"(value="5 mL" least="1 mL")", R"(value="5 mL" least="1 g")"));
  BOOST_TEST(mixed.kind.wanted == "mL");
  BOOST_TEST(mixed.underlined == "1 g");
}

BOOST_AUTO_TEST_CASE(a_child_that_no_band_holds_is_named) {
  const auto found = only<BandsGap>(banded(R"(<band age-up-to="6 a" mg-dl="90" mmol-l="5.0"/>
    <band age-from="6 a" clock-from="06:00" clock-up-to="22:00" mg-dl="80" mmol-l="4.4"/>
    <band age-from="6 a" clock-from="23:00" clock-up-to="06:00" mg-dl="100" mmol-l="5.6"/>)"));
  BOOST_TEST(found.kind.threshold == "low");
  BOOST_TEST(found.kind.example == "6 a, at 22:00");
  BOOST_TEST(found.underlined == "glucose");
}

BOOST_AUTO_TEST_CASE(a_child_that_two_bands_hold_is_named) {
  const auto found = only<BandsOverlap>(banded(R"(<band weight-up-to="30 kg" mg-dl="90" mmol-l="5.0"/>
    <band weight-from="25 kg" mg-dl="80" mmol-l="4.4"/>)"));
  BOOST_TEST(found.kind.example == "25 kg");
  BOOST_TEST(found.underlined == "80");
  BOOST_TEST_REQUIRE(found.because.has_value());
}

BOOST_AUTO_TEST_CASE(a_band_that_ends_before_it_begins_is_refused) {
  const std::string text = banded(R"(<band age-up-to="6 a" mg-dl="90" mmol-l="5.0"/>
    <band age-from="8 a" age-up-to="7 a" mg-dl="90" mmol-l="5.0"/><band age-from="6 a" mg-dl="80" mmol-l="4.4"/>)");
  BOOST_TEST(only<OutOfRange>(text).kind.what == "age-from");
}

BOOST_AUTO_TEST_CASE(a_range_holds_for_every_band) {
  const auto found = only<OutOfRange>(banded(R"(<band age-up-to="6 a" mg-dl="90" mmol-l="5.0"/>
    <band age-from="6 a" mg-dl="120" mmol-l="6.7"/>)"));
  BOOST_TEST(found.underlined == "120");
}

BOOST_AUTO_TEST_SUITE_END()
