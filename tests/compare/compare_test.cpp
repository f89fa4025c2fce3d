#include "verify/compare.hpp"

#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "shipped.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

const std::string& low() {
  static const std::string text = shipped_text("reference", "low");
  return text;
}

Differences between(const std::string& was, const std::string& now) {
  return compare(protocol_of(was), protocol_of(now));
}

std::string words_of(const Differences& all, const Cases& region) {
  std::string text;
  for (const CaseLimit& limit : region.limits)
    text += (text.empty() ? "" : ", ") + in_words(all.sides.both, limit, region.unit);
  return text;
}

bool is_at(const Difference& difference, const std::string& occasion, const std::string& step) {
  const Difference::Place place{occasion, step};
  return std::find(difference.at.begin(), difference.at.end(), place) != difference.at.end();
}

/// The one difference of this kind in this place.
const Difference& one_at(const Differences& all, Difference::Kind kind, const std::string& occasion,
                         const std::string& step) {
  const auto fits = [&](const Difference& each) { return each.kind == kind && is_at(each, occasion, step); };
  const auto found = std::find_if(all.changes.begin(), all.changes.end(), fits);
  BOOST_REQUIRE_MESSAGE(found != all.changes.end(), occasion << " " << step);
  return *found;
}

std::size_t count_of(const Differences& all, Difference::Kind kind) {
  return static_cast<std::size_t>(
      std::count_if(all.changes.begin(), all.changes.end(), [&](const Difference& each) { return each.kind == kind; }));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(compare_versions)

BOOST_AUTO_TEST_CASE(a_protocol_beside_itself_shows_no_difference) {
  for (const char* name : {"low", "ketones", "illness"}) {
    const std::string text = shipped_text("reference", name);
    const Differences all = between(text, text);
    BOOST_TEST(all.changes.empty());
    BOOST_TEST(!all.gave_up);
    BOOST_TEST(all.ways > 500U);
    BOOST_TEST(all.ways_changed == 0U);
  }
}

BOOST_AUTO_TEST_CASE(a_low_from_65_on_changes_readings_from_65_to_69_and_no_other) {
  const Differences all =
      between(low(), with(low(), R"(id="low" mg-dl="70" mmol-l="3.9")", R"(id="low" mg-dl="65" mmol-l="3.6")"));
  BOOST_TEST(!all.changes.empty());
  for (const Difference& each : all.changes) {
    if (each.kind != Difference::Kind::leads) continue;
    for (const Cases& region : each.regions)
      BOOST_TEST(words_of(all, region).find("glucose 65 to 69 mg/dL") != std::string::npos, words_of(all, region));
    for (const Cases& region : each.regions_mmol)
      BOOST_TEST(words_of(all, region).find("glucose 3.6 to 3.8 mmol/L") != std::string::npos, words_of(all, region));
  }
  BOOST_TEST(count_of(all, Difference::Kind::number) == 1U);
}

BOOST_AUTO_TEST_CASE(what_becomes_calmer_stands_first) {
  const Differences all =
      between(low(), with(low(), R"(id="low" mg-dl="70" mmol-l="3.9")", R"(id="low" mg-dl="65" mmol-l="3.6")"));
  BOOST_TEST((all.changes.front().turn == Difference::Turn::calmer));
  BOOST_TEST(std::is_sorted(all.changes.begin(), all.changes.end(),
                            [](const Difference& a, const Difference& b) { return a.turn < b.turn; }));
}

BOOST_AUTO_TEST_CASE(what_was_an_emergency_stands_first_of_what_is_calmer_and_then_what_falls_deepest) {
  const Differences all = between(low(), shipped_text("harbour-lane", "low"));
  std::pair before{false, -9};  // whether it was no emergency, and how far it falls
  int calmer = 0;
  for (const Difference& each : all.changes) {
    if (each.turn != Difference::Turn::calmer) break;
    const std::pair here{each.loss.urgency < static_cast<int>(Urgency::emergency), -each.falls};
    BOOST_TEST((before <= here), each.was << " -> " << each.now);
    BOOST_TEST(each.falls >= 1);
    before = here;
    ++calmer;
  }
  BOOST_TEST(calmer > 1);
}

BOOST_AUTO_TEST_CASE(in_brief_nothing_is_left_out_and_each_outcome_is_said_once) {
  const Protocol was = protocol_of(low()), now = protocol_of(shipped_text("harbour-lane", "low"));
  const Differences full = compare(was, now), brief = compare(was, now, Detail::worst_first);
  BOOST_TEST(!full.in_brief);
  BOOST_REQUIRE(brief.in_brief);
  BOOST_TEST(brief.ways_changed == full.ways_changed);
  const auto is_same = [](const Difference& a, const Difference& b) {
    return a.kind == b.kind && a.turn == b.turn && a.was == b.was && a.now == b.now;
  };
  for (const Difference& each : full.changes) {
    std::vector<const Difference*> said;
    for (const Difference& other : brief.changes) {
      if (is_same(each, other)) said.push_back(&other);
    }
    if (each.kind == Difference::Kind::number || each.kind == Difference::Kind::other) continue;
    BOOST_REQUIRE_MESSAGE(said.size() == 1, each.was << " -> " << each.now);
    BOOST_TEST(said.front()->falls >= each.falls);
    for (const Difference::Place& place : each.at) BOOST_TEST(is_at(*said.front(), place.occasion, place.step));
    if (each.kind == Difference::Kind::dose) continue;
    BOOST_TEST(each.regions.size() + each.regions_mmol.size() >= 1U);
  }
  // What is told has the case that the full form has in the same place, and what is calmer is told first.
  std::size_t told = 0;
  for (const Difference& each : brief.changes) {
    if (!each.is_told || !each.soonest) continue;
    ++told;
    const auto has_the_case = [&](const Difference& other) {
      const auto& regions = other.regions;
      return is_same(each, other) && is_at(other, each.soonest->at.occasion, each.soonest->at.step) &&
             std::find(regions.begin(), regions.end(), each.soonest->who.regions.front()) != regions.end();
    };
    BOOST_TEST(std::any_of(full.changes.begin(), full.changes.end(), has_the_case), each.was << " -> " << each.now);
  }
  BOOST_TEST(told >= 3U);
  BOOST_TEST(brief.changes.front().is_told);
  BOOST_TEST((brief.changes.front().turn == Difference::Turn::calmer));
  BOOST_TEST(brief.changes.size() < full.changes.size());
}

BOOST_AUTO_TEST_CASE(few_outcomes_are_told_case_by_case) {
  const Protocol was = protocol_of(low());
  const Protocol now = protocol_of(with(low(), R"(id="honey-age" value="12 mo")", R"(id="honey-age" value="13 mo")"));
  const Differences full = compare(was, now), few = compare(was, now, Detail::worst_first);
  BOOST_TEST(!few.in_brief);
  BOOST_TEST(!full.changes.empty());
  BOOST_TEST(few.changes.size() == full.changes.size());
}

BOOST_AUTO_TEST_CASE(a_border_that_moves_the_other_way_is_graver) {
  const Differences all =
      between(low(), with(low(), R"(id="low" mg-dl="70" mmol-l="3.9")", R"(id="low" mg-dl="80" mmol-l="4.4")"));
  const auto is_graver = [](const Difference& each) { return each.turn == Difference::Turn::graver; };
  BOOST_TEST(std::any_of(all.changes.begin(), all.changes.end(), is_graver));
  for (const Difference& each : all.changes) {
    if (each.kind != Difference::Kind::leads) continue;
    for (const Cases& region : each.regions)
      BOOST_TEST(words_of(all, region).find("glucose 70 to 79 mg/dL") != std::string::npos, words_of(all, region));
  }
}

BOOST_AUTO_TEST_CASE(ids_labels_sources_and_comments_make_no_difference) {
  std::string now = with_all(low(), "\"recheck\"", "\"second-look\"");
  now = with_all(now, "\"low-treatments\"", "\"lows-treated\"");
  now = with_all(now, "\"call-and-treat\"", "\"treat-and-call\"");
  now = with(now, "<steps>", "<steps><!-- the same as ever -->");
  const Differences all = between(low(), now);
  for (const Difference& each : all.changes) {
    // A text that names the threshold by its new id has other words in the file, and shows the same.
    BOOST_TEST((each.kind == Difference::Kind::words || each.kind == Difference::Kind::wait ||
                each.kind == Difference::Kind::other),
               each.was << " -> " << each.now);
  }
  BOOST_TEST(all.ways_changed == 0U);
}

BOOST_AUTO_TEST_CASE(a_step_that_asks_two_things_may_be_split_in_two) {
  // `measure` asks where the reading is from only in the step behind it.
  const std::string was = with(low(), "<step id=\"sugar-given\"",
                               "<step id=\"two-things\" urgency=\"home\" source=\"practice\"><headline><en>Two "
                               "things.</en><es>Dos cosas.</es></headline><ask fact=\"symptoms\"/><ask "
                               "fact=\"meal-soon\"/><rule go=\"treat\"><if fact=\"symptoms\" is=\"yes\"/></rule><rule "
                               "go=\"measure\"><if fact=\"meal-soon\" is=\"yes no unknown\"/></rule></step><step "
                               "id=\"sugar-given\"");
  const std::string now = with(low(), "<step id=\"sugar-given\"",
                               "<step id=\"first-thing\" urgency=\"home\" source=\"practice\"><headline><en>One "
                               "thing.</en><es>Una cosa.</es></headline><ask fact=\"symptoms\"/><rule go=\"treat\"><if "
                               "fact=\"symptoms\" is=\"yes\"/></rule><rule go=\"other-thing\"><if fact=\"symptoms\" "
                               "is=\"no unknown\"/></rule></step><step id=\"other-thing\" urgency=\"home\" "
                               "source=\"practice\"><headline><en>One more.</en><es>Otra "
                               "cosa.</es></headline><ask fact=\"meal-soon\"/><rule go=\"measure\"><if "
                               "fact=\"meal-soon\" is=\"yes no unknown\"/></rule></step><step id=\"sugar-given\"");
  const std::string to_two = R"(<rule go="two-things"><if fact="already-given" is="no yes unknown"/></rule>)";
  const std::string to_first = R"(<rule go="first-thing"><if fact="already-given" is="no yes unknown"/></rule>)";
  const std::string to_measure = R"(<rule go="measure"><if fact="already-given" is="no yes unknown"/></rule>)";
  const Differences all = between(with(was, to_measure, to_two), with(now, to_measure, to_first));
  BOOST_TEST(all.ways_changed == 0U);
  BOOST_TEST(count_of(all, Difference::Kind::leads) == 0U);
}

BOOST_AUTO_TEST_CASE(rules_in_an_order_that_does_not_matter_are_the_same) {
  const std::string one = R"(<rule go="woke-up"><if fact="already-given" is="glucagon"/></rule>)";
  const std::string other = R"(<rule go="sugar-given"><if fact="already-given" is="sugar"/></rule>)";
  const std::string now = with(with(with(low(), one, "@"), other, one), "@", other);
  const Differences all = between(low(), now);
  // Only a confused child who had glucagon or sugar meets the one before the other.
  for (const Difference& each : all.changes) {
    for (const Cases& region : each.regions)
      BOOST_TEST(words_of(all, region).find("awake: confused") != std::string::npos, words_of(all, region));
  }
}

BOOST_AUTO_TEST_CASE(a_longer_wait_is_later_help_in_every_step_that_waits_so_long) {
  const Differences all =
      between(low(), with(low(), R"(id="recheck" value="15 min")", R"(id="recheck" value="20 min")"));
  const Difference& wait = one_at(all, Difference::Kind::wait, "in", "treat");
  BOOST_TEST(wait.was == "wait 15 min");
  BOOST_TEST(wait.now == "wait 20 min");
  BOOST_TEST((wait.turn == Difference::Turn::less));
  BOOST_TEST(is_at(wait, "in", "treat-very-low"));
  BOOST_TEST(wait.regions.front().limits.empty());
}

BOOST_AUTO_TEST_CASE(a_wait_that_no_longer_ends_when_insulin_may_be_given_again_is_later_help) {
  const std::string was = shipped_text("reference", "ketones");
  const Differences all = between(was, with(was, R"( insulin-again="no-stacking")", ""));
  const Difference& wait = one_at(all, Difference::Kind::wait, "in", "insulin-working");
  BOOST_TEST((wait.turn == Difference::Turn::less));
  BOOST_TEST(wait.was == "the wait ends early, 2 h after the last insulin");
  BOOST_TEST(wait.now == "the wait does not end early");
}

BOOST_AUTO_TEST_CASE(a_danger_that_nobody_watches_any_more_is_told_for_every_step) {
  const Differences all = between(low(), with(low(), R"(<if fact="awake" is="no unknown"/></rule>
  <rule id="cannot-swallow")",
                                              R"(<if fact="awake" is="no"/></rule>
  <rule id="cannot-swallow")"));
  const Difference& told = one_at(all, Difference::Kind::leads, "told at any time in", "treat");
  BOOST_TEST(words_of(all, told.regions.front()) == "awake: can't tell");
  BOOST_TEST(told.now == "nothing: the step goes on");
  BOOST_TEST(is_at(told, "told at any time in", "treat-very-low"));
}

BOOST_AUTO_TEST_CASE(a_lower_urgency_is_calmer) {
  const Differences all =
      between(low(), with(low(), R"(<step id="worry" urgency="clinic-now")", R"(<step id="worry" urgency="clinic")"));
  const Difference& urgency = one_at(all, Difference::Kind::urgency, "in", "worry");
  BOOST_TEST((urgency.turn == Difference::Turn::calmer));
  BOOST_TEST(urgency.was == "Call the clinic now");
  BOOST_TEST(urgency.now == "Call the clinic");
}

BOOST_AUTO_TEST_CASE(a_smaller_dose_names_the_weights_that_get_less_and_no_others) {
  const Differences all =
      between(low(), with(low(), R"(id="carb-per-kg" value="0.3 g/kg")", R"(id="carb-per-kg" value="0.25 g/kg")"));
  const Difference& dose = one_at(all, Difference::Kind::dose, "in", "treat");
  BOOST_TEST((dose.turn == Difference::Turn::less));
  BOOST_TEST(!dose.too_many);
  const Protocol was = protocol_of(low());
  const auto is_named = [&](std::int64_t grams) {
    return std::any_of(dose.regions.begin(), dose.regions.end(), [&](const Cases& region) {
      return std::all_of(region.limits.begin(), region.limits.end(), [&](const CaseLimit& limit) {
        if (limit.subject.index != fact_id(ChildFact::weight).index) return true;
        return std::any_of(limit.intervals.begin(), limit.intervals.end(), [&](const Interval& each) {
          return (!each.from || *each.from <= grams * 1'000) && (!each.up_to || grams * 1'000 <= *each.up_to);
        });
      });
    });
  };
  // By hand: rounded up to whole grams, at least and at most as the file says.
  const auto amount = [&](std::int64_t grams, std::int64_t hundredths) {
    const std::int64_t whole = (grams * hundredths + 99'999) / 100'000;
    return std::min<std::int64_t>(15, std::max<std::int64_t>(5, whole));
  };
  (void)was;
  for (std::int64_t grams = 1'000; grams <= 250'000; grams += 50)
    BOOST_TEST(is_named(grams) == (amount(grams, 30) != amount(grams, 25)), grams);
}

BOOST_AUTO_TEST_CASE(an_action_that_is_gone_is_less) {
  const std::string text = low();
  const std::size_t at = text.find("<do id=\"sit-up\"");
  const std::size_t end = text.find("</do>", at) + 5;
  const Differences all = between(text, text.substr(0, at) + text.substr(end));
  const Difference& gone = one_at(all, Difference::Kind::action, "in", "can-swallow");
  BOOST_TEST((gone.turn == Difference::Turn::less));
  BOOST_TEST(gone.now == "");
}

BOOST_AUTO_TEST_CASE(other_words_in_one_language_are_told_in_that_language) {
  const struct {
    const char *was, *now;
  } rows[] = {{"Primero mire a {child}.", "Mire primero a {child}."},
              {"Nada de chocolate, leche ni insulina ahora.", "D\xc3\xa9 insulina ahora."}};
  for (const auto& row : rows) {
    const Differences all = between(low(), with_all(low(), row.was, row.now));
    BOOST_REQUIRE(all.changes.size() == 1U);
    const Difference& words = all.changes.front();
    BOOST_TEST((words.kind == Difference::Kind::words));
    BOOST_TEST((words.turn == Difference::Turn::words));
    BOOST_TEST((words.language == Language::es));
    BOOST_TEST(words.was == row.was);
    BOOST_TEST(words.now == row.now);
  }
}

BOOST_AUTO_TEST_CASE(text_that_shows_a_changed_number_is_not_told_as_other_words) {
  const Differences all =
      between(low(), with(low(), R"(id="recheck" value="15 min")", R"(id="recheck" value="20 min")"));
  BOOST_TEST(count_of(all, Difference::Kind::words) == 0U);
  BOOST_TEST(count_of(all, Difference::Kind::number) == 1U);
}

BOOST_AUTO_TEST_CASE(other_words_in_both_languages_are_told_in_each) {
  const Differences all = between(low(), with(with(low(), "Primero mire a {child}.", "Mire primero a {child}."),
                                              "Look at {child} first.", "First look at {child}."));
  BOOST_REQUIRE(all.changes.size() == 2U);
  BOOST_TEST((all.changes[0].language == Language::en));
  BOOST_TEST(all.changes[0].now == "First look at {child}.");
  BOOST_TEST((all.changes[1].language == Language::es));
  BOOST_TEST(all.changes[1].now == "Mire primero a {child}.");
}

BOOST_AUTO_TEST_CASE(why_an_amount_is_not_given_in_other_words_is_told_in_its_language) {
  const std::string was = shipped_text("harbour-lane", "ketones");
  const std::size_t at = was.find("withheld=\"yes\""), from = was.find("<es>", at) + 4, end = was.find("</es>", from);
  BOOST_REQUIRE(at != std::string::npos);
  const Differences all = between(was, was.substr(0, from) + "Otra cosa." + was.substr(end));
  BOOST_REQUIRE(all.changes.size() == 1U);
  BOOST_TEST((all.changes.front().language == Language::es));
  BOOST_TEST(all.changes.front().was == was.substr(from, end - from));
  BOOST_TEST(all.changes.front().now == "Otra cosa.");
}

BOOST_AUTO_TEST_CASE(a_step_put_in_the_way_is_told_and_what_comes_behind_it_is_the_same) {
  const std::string now =
      with(with(low(), R"(<rule go="measure"><if fact="already-given" is="no yes unknown"/></rule>)",
                R"(<rule go="light-on"><if fact="already-given" is="no yes unknown"/></rule>)"),
           "<step id=\"sugar-given\"",
           "<step id=\"light-on\" urgency=\"home\" source=\"practice\"><headline><en>Light "
           "on.</en><es>Luz.</es></headline><do id=\"switch\" kind=\"note\"><en>Switch the light on.</en><es>Encienda "
           "la luz.</es></do><rule go=\"measure\"/></step><step id=\"sugar-given\"");
  const Differences all = between(low(), now);
  BOOST_TEST(count_of(all, Difference::Kind::put_in) >= 1U);
  BOOST_TEST(count_of(all, Difference::Kind::leads) == 0U);
}

BOOST_AUTO_TEST_SUITE_END()
