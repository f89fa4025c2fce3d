#include <boost/test/unit_test.hpp>
#include <iostream>

#include "compare.hpp"
#include "episode/view.hpp"
#include "sanitized.hpp"
#include "wire/json_from_view.hpp"

using namespace rushlight;
using namespace rushlight::naive;

namespace {

constexpr std::uint64_t kSeeds = tests::kSanitized ? 300 : 1500;
constexpr std::uint64_t kNights = 4;
std::uint64_t night_seed(std::uint64_t seed, std::uint64_t night) { return seed * 1000 + night; }

void agree(bool valid) {
  const char* const kind = valid ? "valid" : "wild";
  Compared compared;
  long redrawn = 0, differ = 0;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const Drawn drawn = drawn_from(seed, valid);
    redrawn += drawn.redrawn;
    for (std::uint64_t night = 0; night < kNights; ++night) {
      const std::string difference = disagreement(drawn, night_seed(seed, night), Variant::as_agreed, compared);
      if (difference.empty()) continue;
      if (++differ <= 3) BOOST_ERROR(kind << " protocol " << seed << ", night " << night << "\n" << difference);
      break;
    }
  }
  BOOST_TEST(differ == 0);
  BOOST_TEST(compared.moments > static_cast<long>(kSeeds * kNights));
  std::cout << kind << " protocols: seeds 1 to " << kSeeds << " (" << redrawn << " drawn again), " << compared.nights
            << " nights, " << compared.events << " events, compared at " << compared.moments << " moments; "
            << compared.in_circles << " nights left out, their rules go in circles\n";
}

Episode fold(const Drawn& drawn, const Night& night, Episode episode, std::size_t from) {
  for (std::size_t i = from; i < night.events.size(); ++i) {
    episode = folded(drawn.protocol, drawn.child, std::move(episode), night.events[i]);
  }
  return episode;
}

Episode fold(const Drawn& drawn, const Night& night) {
  return fold(drawn, night, begun(drawn.protocol, drawn.child, night.begins), 0);
}

std::string seen(const Drawn& drawn, const Episode& episode, Moment now) {
  return json_from_view(view_of(drawn.protocol, drawn.child, episode, now));
}

Moment end_of(const Night& night) { return night.events.empty() ? night.begins : night.events.back().at; }

/// The night with ticks at drawn moments between its events. A tick knows the clock of the event after it, and none
/// stands before a clock that goes back: it would tell that more time was lost.
Night with_ticks(const Night& night, Dice& dice, Duration beat) {
  Night ticking{night.begins, {}};
  Instant last = night.begins.utc;
  for (const Event& event : night.events) {
    while (dice.chance(60)) {
      last += beat * dice.between(0, 3);
      if (last > event.at.utc) break;
      ticking.events.push_back(Event{Moment{last, event.at.offset}, Ticked{}});
    }
    ticking.events.push_back(event);
    last = event.at.utc;
  }
  return ticking;
}

/// Whether the clock alone, with nothing said and no deadline, makes a rule or a watch of this night true.
bool time_alone_leads_on(const Drawn& drawn, const Night& night) {
  NaiveWalk agreed(drawn.protocol, drawn.child, night.begins, drawn.beat);
  NaiveWalk other(drawn.protocol, drawn.child, night.begins, drawn.beat, Variant::time_alone_leads_on);
  for (const Event& event : night.events) {
    agreed.happens(event);
    other.happens(event);
    if (!differences(agreed.standing_at(event.at), other.standing_at(event.at)).empty()) return true;
  }
  return false;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(naive_walk)

BOOST_AUTO_TEST_CASE(protocols_that_pass_the_check_are_walked_as_the_page_says) { agree(true); }

BOOST_AUTO_TEST_CASE(wild_protocols_are_walked_as_the_page_says) { agree(false); }

BOOST_AUTO_TEST_CASE(the_same_events_always_fold_to_the_same_view) {
  long differ = 0;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const Drawn drawn = drawn_from(seed, seed % 2 == 0);
    const Night night = night_from(drawn, night_seed(seed, 0));
    const Moment now = end_of(night);
    const Episode episode = fold(drawn, night);
    const std::string view = seen(drawn, episode, now);
    const std::string again = seen(drawn, fold(drawn, night), now);
    // The journal keeps what the episode wrote down.
    const std::string replayed = seen(drawn, fold(drawn, Night{night.begins, episode.history}), now);
    if (view == again && view == replayed) continue;
    const char* const what = view == again ? " is written down otherwise\n" : " folds to two views\n";
    if (++differ <= 3) BOOST_ERROR("seed " << seed << what << told(drawn.protocol, drawn.child, night));
  }
  BOOST_TEST(differ == 0);
}

BOOST_AUTO_TEST_CASE(every_prefix_of_a_night_is_a_night_that_can_go_on) {
  long cuts = 0, differ = 0;
  for (std::uint64_t seed = 1; seed <= kSeeds / 5; ++seed) {
    const Drawn drawn = drawn_from(seed, seed % 2 == 0);
    const Night night = night_from(drawn, night_seed(seed, 0));
    const std::string whole = seen(drawn, fold(drawn, night), end_of(night));
    for (std::size_t cut = 0; cut <= night.events.size(); ++cut) {
      Night prefix = night;
      prefix.events.resize(cut, Event{night.begins, Ticked{}});
      // Resumed from what was written down, as after a killed terminal.
      const Episode resumed = fold(drawn, Night{night.begins, fold(drawn, prefix).history});
      ++cuts;
      if (seen(drawn, fold(drawn, night, resumed, cut), end_of(night)) == whole) continue;
      if (++differ <= 3)
        BOOST_ERROR("seed " << seed << " cut after " << cut << "\n" << told(drawn.protocol, drawn.child, night));
    }
  }
  BOOST_TEST(differ == 0);
  BOOST_TEST(cuts > static_cast<long>(kSeeds / 5));
}

BOOST_AUTO_TEST_CASE(ticks_change_nothing) {
  long nights = 0, ticks = 0, left_out = 0, differ = 0;
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    const Drawn drawn = drawn_from(seed, seed % 4 != 0);
    Dice dice(seed);
    const Night night = night_from(drawn, night_seed(seed, 1));
    const Night ticking = with_ticks(night, dice, drawn.beat);
    ++nights;
    ticks += static_cast<long>(ticking.events.size() - night.events.size());
    if (seen(drawn, fold(drawn, night), end_of(night)) == seen(drawn, fold(drawn, ticking), end_of(night))) continue;
    // Without the ticks too: one that comes in the very beat in which time leads on hides it.
    const bool by_time = time_alone_leads_on(drawn, ticking) || time_alone_leads_on(drawn, night);
    if (!is_in_force(Variant::time_alone_leads_on) && by_time) {
      ++left_out;
    } else if (++differ <= 3) {
      BOOST_ERROR("seed " << seed << "\n" << told(drawn.protocol, drawn.child, ticking));
    }
  }
  BOOST_TEST(differ == 0);
  BOOST_TEST(ticks > nights);
  BOOST_TEST(left_out * 20 < nights);
  std::cout << "ticks: " << ticks << " in " << nights << " nights; " << left_out
            << " left out, where time alone leads on\n";
}

/// A comparison that notices none of these would notice nothing. It says nothing of the engine: the plain build will do.
BOOST_AUTO_TEST_CASE(a_judge_that_errs_is_noticed, *boost::unit_test::enable_if<!tests::kSanitized>()) {
  for (int each = 1; each < kVariants; ++each) {
    const auto variant = static_cast<Variant>(each);
    Compared compared;
    long nights = 0;
    for (std::uint64_t seed = 1; seed <= 2500 && nights < 3; ++seed) {
      const Drawn drawn = drawn_from(seed, seed % 2 == 0);
      for (std::uint64_t night = 0; night < kNights; ++night) {
        nights += disagreement(drawn, night_seed(seed, night), variant, compared).empty() ? 0 : 1;
      }
    }
    BOOST_TEST(nights >= 3, name_of(variant) << " is not noticed in " << compared.nights << " nights");
    std::cout << name_of(variant) << ": noticed after " << compared.nights << " nights\n";
  }
}

BOOST_AUTO_TEST_SUITE_END()
