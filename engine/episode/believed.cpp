#include "episode/believed.hpp"

#include <algorithm>

#include "episode/dose_result.hpp"
#include "episode/fold.hpp"

namespace rushlight {
namespace {

Answers* answers_in(Event& event) {
  if (auto* answered = std::get_if<Answered>(&event.what)) return &answered->answers;
  if (auto* worse = std::get_if<GotWorse>(&event.what)) return &worse->answers;
  return nullptr;
}

/// A correction that was told as news and is corrected itself was never right: it leaves nothing behind, no wrong dose.
void take_back_news(std::vector<Telling>& night, const Corrected& corrected) {
  const auto is_corrected = [&](FactId fact) {
    return std::any_of(corrected.answers.begin(), corrected.answers.end(),
                       [&](const auto& answer) { return answer.first == fact; });
  };
  for (Telling& telling : night) {
    std::vector<FactId>& facts = telling.told_as_news;
    if (facts.empty() || !std::all_of(facts.begin(), facts.end(), is_corrected)) continue;
    *answers_in(telling.event) = {};
    facts.clear();
  }
}

/// Each corrected answer stands where its fact was last said; what was never said before is said at the end, by the
/// correction.
std::vector<Telling> rewritten(std::vector<Telling> night, const Corrected& corrected, Moment at) {
  take_back_news(night, corrected);
  Answered never_said_before;
  for (const auto& [fact, value] : corrected.answers) {
    bool found = false;
    for (std::size_t earlier = night.size(); earlier-- > 0 && !found;) {
      Answers* answers = answers_in(night[earlier].event);
      if (answers == nullptr) continue;
      for (auto& answer : *answers) {
        if (answer.first != fact) continue;
        answer.second = value;
        found = true;
      }
    }
    if (!found) never_said_before.answers.push_back({fact, value});
  }
  night.push_back(Telling{Event{at, std::move(never_said_before)}});
  return night;
}

/// Whether two episodes stand at the same place and wait for the same: what is known beside it may differ.
bool stand_alike(const Episode& one, const Episode& other) {
  const auto same_call = [](const OpenCall& a, const OpenCall& b) {
    return a.contact == b.contact && a.opened == b.opened && a.answer_within == b.answer_within;
  };
  const auto same_visit = [](const std::optional<Visit>& a, const std::optional<Visit>& b) {
    return a.has_value() == b.has_value() && (!a || (a->from == b->from && a->back == b->back));
  };
  return one.step == other.step && one.entered == other.entered && one.entered_by == other.entered_by &&
         one.ended == other.ended && one.wait_ends == other.wait_ends && one.wait_passed == other.wait_passed &&
         one.opening == other.opening && same_visit(one.visit, other.visit) &&
         std::equal(one.calls.begin(), one.calls.end(), other.calls.begin(), other.calls.end(), same_call);
}

/// The first telling by which the corrected night goes another way; whether already the time before it did.
struct Parting {
  std::size_t place;
  bool by_time;
};

class Correcting {
 public:
  Correcting(const Protocol& protocol, const Child& child, Moment began)
      : protocol_(protocol), child_(child), began_(began) {}

  std::vector<Telling> corrected(const std::vector<Telling>& walked, const Corrected& correction, Moment at) const {
    std::vector<Telling> believed = rewritten(walked, correction, at);
    if (const auto given = given_on_what_was_wrong(walked, believed)) return told_now(walked, correction, at, *given);
    Episode was = begun(protocol_, child_, began_);
    Episode is = was;
    const std::optional<Parting> parting = find_parting(walked, believed, was, is);
    if (!parting) return believed;
    const Instant now = with_time_passed(protocol_, child_, was, Telling{Event{at, Ticked{}}});
    for (std::size_t i = parting->place; i < believed.size(); ++i) {
      // The time before the first was the same in both nights, whether it passed or stood still.
      if (i != parting->place || parting->by_time) believed[i].time = Telling::Time::stands_still;
      believed[i].again = now;
      believed[i].promise.reset();
    }
    believed.back().time = Telling::Time::catches_up;
    believed.back().caught_up = now;
    believed.back().promise = running_wait(was);
    return believed;
  }

 private:
  /// The insulin, or the glucagon of an emergency, that went in and would not have gone in, or not as much, had the
  /// answers been right at once.
  std::optional<ActionKind> given_on_what_was_wrong(const std::vector<Telling>& walked,
                                                    const std::vector<Telling>& believed) const {
    std::optional<ActionKind> given;
    Episode was = begun(protocol_, child_, began_);
    Episode is = was;
    for (std::size_t i = 0; i < walked.size(); ++i) {
      const Instant when = with_time_passed(protocol_, child_, was, walked[i]);
      const Instant then = with_time_passed(protocol_, child_, is, believed[i]);
      const Urgency urgency = protocol_[was.step].urgency;
      const std::size_t known = was.given.size();
      const bool alike = was.step == is.step;
      const std::optional<Decimal> right = insulin_stated(is, then);
      tell(was, walked[i], when);
      const std::size_t known_anyway = is.given.size();
      tell(is, believed[i], then);
      for (std::size_t place = known; place < was.given.size(); ++place) {
        const Given& deed = was.given[place];
        const ActionKind kind = protocol_[deed.action].kind;
        const bool counts = kind == ActionKind::insulin ||
                            (kind == ActionKind::glucagon && urgency == Urgency::emergency);
        const bool went_in =
            deed.outcome == Outcome::given || deed.outcome == Outcome::part || deed.outcome == Outcome::wrong;
        if (!counts || !went_in) continue;
        const bool stated_alike =
            alike && std::any_of(is.given.begin() + static_cast<std::ptrdiff_t>(known_anyway), is.given.end(),
                                 [&](const Given& each) {
                                   return each.action == deed.action && each.stated == deed.stated;
                                 });
        // Less than the right amount is no wrong dose.
        const bool enough = kind == ActionKind::insulin && deed.outcome != Outcome::wrong && deed.amount && right &&
                            deed.amount->value <= *right;
        if (!stated_alike && !enough && given != ActionKind::insulin) given = kind;
      }
    }
    return given;
  }

  /// The insulin that the step says to give at this moment.
  std::optional<Decimal> insulin_stated(const Episode& episode, Instant now) const {
    const Scene here = scene_at(protocol_, child_, episode, now);
    for (const ActionId id : protocol_[episode.step].actions) {
      const Action& action = protocol_[id];
      if (action.kind != ActionKind::insulin || !action.dose || !applies(here, action)) continue;
      if (const auto amount = dose_for(here, *action.dose, episode.language).amount) return amount->value;
    }
    return std::nullopt;
  }

  /// What went into the child stays, and so does the place to which it led: the right answers are news there. Insulin
  /// that was worked out from a wrong answer is a wrong dose.
  std::vector<Telling> told_now(std::vector<Telling> walked, const Corrected& correction, Moment at,
                                ActionKind given) const {
    Answered now{correction.answers};
    const auto wrong = protocol_.fact_named("wrong-insulin");
    if (given == ActionKind::insulin && wrong) {
      const std::vector<Option>& options = protocol_[*wrong].options;
      for (std::size_t place = 0; place < options.size(); ++place) {
        if (options[place].name == "yes")
          now.answers.emplace_back(*wrong, Chosen{static_cast<std::uint16_t>(place)});
      }
    }
    walked.push_back(Telling{Event{at, std::move(now)}});
    for (const auto& answer : correction.answers) walked.back().told_as_news.push_back(answer.first);
    return walked;
  }

  void tell(Episode& episode, const Telling& telling, Instant when) const {
    told_at(protocol_, child_, episode, telling, when);
  }

  // Both nights side by side; `was` comes to the end of what was walked.
  std::optional<Parting> find_parting(const std::vector<Telling>& walked, const std::vector<Telling>& believed,
                                      Episode& was, Episode& is) const {
    std::optional<Parting> parting;
    for (std::size_t i = 0; i < walked.size(); ++i) {
      const Instant when = with_time_passed(protocol_, child_, was, walked[i]);
      if (!parting) {
        const Instant then = with_time_passed(protocol_, child_, is, believed[i]);
        if (!stand_alike(was, is)) parting = Parting{i, true};
        tell(is, believed[i], then);
      }
      tell(was, walked[i], when);
      if (!parting && !stand_alike(was, is)) parting = Parting{i, false};
    }
    if (parting) return parting;
    Episode later = was;
    with_time_passed(protocol_, child_, later, believed.back());
    with_time_passed(protocol_, child_, is, believed.back());
    if (!stand_alike(later, is)) parting = Parting{walked.size(), true};
    return parting;
  }

  std::optional<Promise> running_wait(const Episode& episode) const {
    const std::optional<Wait>& wait = protocol_[episode.step].wait;
    if (!wait || episode.wait_passed || episode.ended || !episode.wait_ends) return std::nullopt;
    return Promise{wait->timer, *episode.wait_ends};
  }

  const Protocol& protocol_;
  const Child& child_;
  Moment began_;
};

}  // namespace

std::vector<Telling> as_believed(const Protocol& protocol, const Child& child, Moment began,
                                 const std::vector<Event>& history) {
  std::vector<Telling> night;
  for (const Event& event : history) {
    if (const auto* correction = std::get_if<Corrected>(&event.what)) {
      night = Correcting(protocol, child, began).corrected(night, *correction, event.at);
    } else {
      night.push_back(Telling{event});
    }
  }
  return night;
}

}  // namespace rushlight
