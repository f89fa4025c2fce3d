#include "tiny.hpp"

#include <boost/test/unit_test.hpp>
#include <iostream>

#include "compare.hpp"
#include "episode/fold.hpp"
#include "parts.hpp"
#include "sanitized.hpp"

using namespace rushlight;
using namespace rushlight::naive;

namespace {

constexpr std::size_t kEach = tests::kSanitized ? 64 : 1;
constexpr int kLength = 3;

/// Every night of up to kLength events, one beginning shared by all nights that go on from it.
class EveryNight {
 public:
  EveryNight(const Protocol& protocol, const Child& child) : protocol_(protocol), child_(child) {
    const FactId a{kChildFacts}, b{kChildFacts + 1};
    const Value yes = Chosen{0}, no = Chosen{1};
    choices_ = {{0, Answered{{{a, yes}}}},         {0, Answered{{{a, no}}}}, {0, Answered{{{a, CantTell{}}}}},
                {0, Answered{{{b, yes}}}},         {0, AllDone{}},           {1, Ticked{}},
                {1, Answered{{{a, yes}, {b, no}}}}};
    night_.begins = *moment_from_text("2026-03-01T02:00:00Z");
  }

  /// The first difference; empty when there is none.
  std::string walk(Compared& compared) {
    NaiveWalk judge(protocol_, child_, night_.begins, Duration{1});
    if (judge.in_circles()) {
      ++compared.in_circles;
      return "";
    }
    return go_on(judge, begun(protocol_, child_, night_.begins), night_.begins, compared);
  }

 private:
  struct Choice {
    int later;
    decltype(Event::what) what;
  };

  std::string go_on(const NaiveWalk& judge, const Episode& engine, Moment at, Compared& compared) {
    for (const Choice& choice : choices_) {
      const Event event{Moment{at.utc + Duration{choice.later}, at.offset}, choice.what};
      NaiveWalk judged = judge;
      judged.happens(event);
      ++compared.events;
      ++compared.nights;
      if (judged.in_circles()) {
        ++compared.in_circles;
        continue;
      }
      Episode folded_on = folded(protocol_, child_, engine, event);
      night_.events.push_back(event);
      const naive::Standing standing = judged.standing_at(event.at);
      const std::string difference = differences(standing, engine_at(protocol_, child_, folded_on, event.at));
      if (!difference.empty()) return told(protocol_, child_, night_) + difference;
      if (night_.events.size() < kLength && !standing.ended) {
        const std::string later = go_on(judged, folded_on, event.at, compared);
        if (!later.empty()) return later;
      }
      night_.events.pop_back();
    }
    return "";
  }

  const Protocol& protocol_;
  const Child& child_;
  std::vector<Choice> choices_;
  Night night_;
};

}  // namespace

BOOST_AUTO_TEST_SUITE(naive_walk)

BOOST_AUTO_TEST_CASE(every_tiny_protocol_is_walked_alike_through_every_short_night) {
  const Child child = plain_child();
  Compared compared;
  std::size_t protocols = 0, differ = 0;
  for (std::size_t number = 0; number < kTinyProtocols; number += kEach) {
    const Protocol protocol = tiny_protocol(number);
    ++protocols;
    const std::string difference = EveryNight(protocol, child).walk(compared);
    if (difference.empty()) continue;
    if (++differ <= 3) BOOST_ERROR("tiny protocol " << number << "\n" << difference);
  }
  BOOST_TEST(differ == 0U);
  BOOST_TEST(compared.nights > static_cast<long>(protocols) * 20);
  std::cout << "every tiny protocol: " << protocols << " protocols, " << compared.nights << " nights of up to "
            << kLength << " events; " << compared.in_circles << " left out, their rules go in circles\n";
}

BOOST_AUTO_TEST_SUITE_END()
