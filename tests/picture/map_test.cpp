#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "picture/decision_map.hpp"
#include "picture/flow.hpp"
#include "picture/svg.hpp"
#include "raster/png_from_svg.hpp"
#include "tests/picture/shipped.hpp"
#include "tests/protocol/small_protocol.hpp"
#include "tests/verify/small_checks.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

Subject fact(const Protocol& protocol, const std::string& name) {
  return {Subject::Kind::fact, protocol.fact_named(name)->index};
}

/// What the map of the small protocol's first step says, as it is told to one who cannot see it.
std::string told_map(const std::string& text, const std::string& across = "glucose", const std::string& down = "") {
  const Protocol protocol = resolved(text);
  const Step& step = protocol.steps.front();
  std::optional<Subject> second;
  if (!down.empty()) second = fact(protocol, down);
  const auto decisions = decisions_of(protocol, step, fact(protocol, across), second, {});
  return decision_map(protocol, step, *decisions, {}).told;
}

bool says(const std::string& told, const std::string& words) { return told.find(words) != std::string::npos; }

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
  return count;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(maps)

BOOST_AUTO_TEST_CASE(each_region_says_its_values_the_urgency_and_the_next_step) {
  const std::string told = told_map(small_protocol());
  BOOST_TEST(says(told, " glucose below 70 mg/dL: TREAT HERE \u2192 treat."), told);
  BOOST_TEST(says(told, " glucose 70 or more mg/dL: TREAT HERE \u2192 well."), told);
}

BOOST_AUTO_TEST_CASE(lo_and_hi_and_cant_tell_are_bands_of_their_own) {
  const std::string told = told_map(small_protocol());
  BOOST_TEST(says(told, " glucose LO: TREAT HERE \u2192 treat."), told);
  BOOST_TEST(says(told, " glucose HI: TREAT HERE \u2192 well."), told);
  BOOST_TEST(says(told, " glucose can't tell: TREAT HERE \u2192 treat."), told);
}

BOOST_AUTO_TEST_CASE(a_hole_exactly_on_a_border_is_a_band_that_no_rule_takes) {
  const std::string told = told_map(measuring(R"(<rule go="treat"><if fact="glucose" below="low"/></rule>
    <rule go="treat"><if fact="glucose" is="unknown"/></rule><rule go="well"><if fact="glucose" above="low"/></rule>)"));
  BOOST_TEST(says(told, " glucose exactly 70 mg/dL: NO RULE."), told);
  BOOST_TEST(says(told, " glucose above 70 mg/dL: TREAT HERE \u2192 well."), told);
}

BOOST_AUTO_TEST_CASE(where_another_answer_decides_it_is_named_and_nothing_is_guessed) {
  const std::string told = told_map(measuring(R"(<rule go="treat"><if fact="glucose" below="low"/></rule>
    <rule go="treat"><if fact="glucose" is="unknown"/></rule>
    <rule go="treat"><if fact="glucose" at-least="low"/><if fact="symptoms" is="yes unknown"/></rule>
    <rule go="well"><if fact="glucose" at-least="low"/></rule>)",
                                              R"(<ask fact="glucose"/><ask fact="symptoms"/>)"));
  BOOST_TEST(says(told, " glucose below 70 mg/dL: TREAT HERE \u2192 treat."), told);
  BOOST_TEST(
      says(told, " glucose 70 or more mg/dL: DEPENDS ON symptoms: \u2192 treat (TREAT HERE) \u2192 well (TREAT HERE)."),
      told);
}

BOOST_AUTO_TEST_CASE(a_danger_sign_comes_before_the_rules_of_the_step) {
  const std::string told = told_map(
      measuring(R"(<rule go="well"><if fact="awake" is="yes confused no unknown"/></rule>)", R"(<ask fact="awake"/>)"),
      "awake");
  BOOST_TEST(says(told, " awake can't tell: EMERGENCY \u2192 emergency."), told);
}

BOOST_AUTO_TEST_CASE(a_watch_for_news_is_on_the_map_of_a_step_that_asks_all_it_reads) {
  const auto with_watch = [](const std::string& text) {
    return changed(text, R"(<if fact="seizure" is="yes"/></rule></watch>)",
                   R"(<if fact="seizure" is="yes"/></rule>
    <rule id="low-and-shaky" go="call" told="yes"><if fact="glucose" below="low"/><if fact="symptoms" is="yes"/></rule></watch>)");
  };
  const std::string one = told_map(with_watch(small_protocol()));
  BOOST_TEST(says(one, " glucose below 70 mg/dL: TREAT HERE \u2192 treat."), one);
  const std::string both = told_map(with_watch(changed(small_protocol(), R"(<ask fact="glucose"/>
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if)",
                                                       R"(<ask fact="glucose"/><ask fact="symptoms"/>
      <rule go="treat"><if fact="glucose" below="low"/></rule>
      <rule go="treat"><if)")));
  BOOST_TEST(says(both, " glucose below 70 mg/dL: DEPENDS ON symptoms:"), both);
  BOOST_TEST(says(both, " glucose 70 or more mg/dL: TREAT HERE \u2192 well."), both);
}

BOOST_AUTO_TEST_CASE(a_limit_with_bands_depends_on_the_age) {
  const std::string told = told_map(
      banded(small_protocol(),
             R"(<band age-up-to="6 a" mg-dl="90" mmol-l="5.0"/><band age-from="6 a" mg-dl="70" mmol-l="3.9"/>)"));
  BOOST_TEST(says(told, " glucose 70 to below 90 mg/dL: DEPENDS ON age:"), told);
  BOOST_TEST(says(told, " glucose below 70 mg/dL: TREAT HERE \u2192 treat."), told);
}

BOOST_AUTO_TEST_CASE(ages_are_told_in_words_and_not_in_the_codes_of_a_file) {
  const Protocol protocol = protocol_at("protocols/reference/illness.xml");
  int maps = 0;
  for (const Step& step : protocol.steps) {
    const std::vector<Subject> read = read_by(protocol, step);
    const Subject age = fact(protocol, "age");
    if (std::find(read.begin(), read.end(), age) == read.end()) continue;
    const auto decisions = decisions_of(protocol, step, age, std::nullopt, {});
    const std::string told = decision_map(protocol, step, *decisions, {}).told;
    ++maps;
    BOOST_TEST(says(told, " years"), told);
    BOOST_TEST(!says(told, " a:"), told);
  }
  BOOST_TEST(maps > 0);
}

BOOST_AUTO_TEST_CASE(the_regions_cover_the_map_once) {
  const Protocol protocol = protocol_at("protocols/reference/low.xml");
  for (const Step& step : protocol.steps) {
    const std::vector<Subject> read = read_by(protocol, step);
    if (read.size() < 2) continue;
    const auto decisions = decisions_of(protocol, step, read[0], read[1], {});
    const Regions all = regions_of(*decisions);
    std::vector<int> covered(all.columns.size() * all.rows.size());
    for (const Region& region : all.regions) {
      for (std::size_t y = region.down.first; y <= region.down.last; ++y) {
        for (std::size_t x = region.across.first; x <= region.across.last; ++x) {
          ++covered[y * all.columns.size() + x];
          for (std::size_t value = all.columns[x].first; value <= all.columns[x].last; ++value) {
            BOOST_TEST((decisions->at(value, all.rows[y].first) == region.decided), step.name);
          }
        }
      }
    }
    BOOST_TEST(std::all_of(covered.begin(), covered.end(), [](int times) { return times == 1; }), step.name);
  }
}

BOOST_AUTO_TEST_CASE(a_text_that_looks_like_markup_stays_a_text) {
  Picture picture{kA4, "a < b & \"c\"", "<script>", {Words{{0, 0}, 600, "</text><b>&", 1000}}};
  const std::string svg = svg_from(picture);
  BOOST_TEST(count_of(svg, "<script>") == 0U);
  BOOST_TEST(count_of(svg, "&lt;/text&gt;&lt;b&gt;&amp;</text>") == 1U);
  BOOST_TEST(!png_from_svg(svg, 72).empty());
}

BOOST_AUTO_TEST_CASE(every_step_stands_once_in_the_flow_with_its_waits_and_limits) {
  const Protocol protocol = resolved(small_protocol());
  const auto flow = flow_picture(protocol);
  BOOST_TEST_REQUIRE(flow.has_value());
  for (const Step& step : protocol.steps) {
    const auto titles = std::count_if(flow->shapes.begin(), flow->shapes.end(), [&](const Shape& shape) {
      const auto* words = std::get_if<Words>(&shape);
      return words != nullptr && words->bold && words->text.size() > step.name.size() &&
             words->text.substr(words->text.find(' ') + 1) == step.name && words->text[0] >= '0' &&
             words->text[0] <= '9';
    });
    BOOST_TEST(titles == 1, step.name);
  }
  BOOST_TEST(says(flow->told, "WAIT 15 min, begun within 10 min; no answer for 10 min \u2192"), flow->told);
  BOOST_TEST(says(flow->told, "counts treatments."), flow->told);
  BOOST_TEST(says(flow->told, "glucose below low and treatments at 2 \u2192"), flow->told);
  BOOST_TEST(says(flow->told, "low: 70 mg/dL = 3.9 mmol/L"), flow->told);
  BOOST_TEST(says(flow->told, "awake no/can't tell \u2192"), flow->told);
}

BOOST_AUTO_TEST_SUITE_END()
