#include "episode/view.hpp"

#include <algorithm>

#include "episode/cautions.hpp"
#include "episode/drinks.hpp"
#include "episode/grounds.hpp"
#include "episode/insulin.hpp"
#include "episode/phrases.hpp"
#include "episode/telephone.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

/// How much carbohydrate {food} holds in this step: the dose of its first action by mouth.
std::optional<DoseId> dose_by_mouth(const Scene& scene, const Step& step) {
  for (const ActionId id : step.actions) {
    const Action& action = scene.protocol[id];
    if (action.kind == ActionKind::by_mouth && action.dose && applies(scene, action)) return action.dose;
  }
  return std::nullopt;
}

/// What is worth telling the next carer: what went into the child, and what was done to the pump.
bool changes_the_child(ActionKind kind) {
  return kind == ActionKind::by_mouth || kind == ActionKind::glucagon || kind == ActionKind::insulin ||
         kind == ActionKind::fluid || kind == ActionKind::pump;
}

/// "All done" was said while a dose was held back for a time: nothing has gone in, and it may be due by now.
bool was_not_due(const Given& deed, const std::optional<DoseResult>& dose) {
  return is_nothing(deed.amount) && dose && !dose->clinic_decides;
}

class Showing {
 public:
  Showing(const Protocol& protocol, const Child& child, const Episode& episode, Instant now)
      : here_(scene_at(protocol, child, episode, now)), step_(protocol[episode.step]), language_(episode.language) {}

  View view() {
    const Protocol& protocol = here_.protocol;
    const Episode& episode = here_.episode;
    View view{};
    view.set = protocol.set;
    const Part* part = protocol.part_of(episode.step);
    view.protocol = part != nullptr ? part->name : protocol.name;
    view.step = step_.name;
    view.child = here_.child.name;
    view.language = language_;
    view.urgency = urgency_of(protocol, episode);
    show_calls(view);
    show_headline(view);
    for (const FactId fact : open_questions(protocol, here_.child, episode, here_.now))
      view.ask.push_back(question(fact));
    if (!view.ask.empty()) view.asked_since = at(asked_since());
    show_actions(view);
    show_waits(view);
    show_early(view);
    view.caution = cautions_for(here_, step_);
    const std::optional<Approval> approval = approval_in(here_);
    view.approval = {approval_state(approval, here_.today), approval, approval_text(approval, here_.today, language_)};
    view.why = grounds_of(here_, step_);
    show_given(view);
    view.drinks = drinks_of(here_);
    if (view.call) view.say = for_the_telephone(here_, language_);
    view.told = episode.told;
    view.ended = episode.ended;
    return view;
  }

 private:
  Moment at(Instant instant) const { return wall(here_.episode.clock, instant); }

  Instant asked_since() const {
    const Episode& episode = here_.episode;
    if (!episode.opening.empty()) return episode.opening_since;
    return step_.wait && episode.wait_ends ? std::max(*episode.wait_ends, episode.entered) : episode.entered;
  }

  ShownQuestion question(FactId id) const {
    const Fact& fact = here_.protocol[id];
    ShownQuestion shown{id, fact.name, fact.kind, filled(here_, fact.question, language_, std::nullopt), "", {}};
    if (fact.help) shown.help = filled(here_, *fact.help, language_, std::nullopt);
    for (const Option& option : fact.options) {
      std::string text = plain_words(option.text, language_);
      if (fact.yes_no) text = phrase(option.name == "yes" ? Phrase::yes : Phrase::no, language_);
      shown.choices.push_back({option.name, std::move(text)});
    }
    return shown;
  }

  // The wait is over: what was given is given, and nobody has answered yet what it came to.
  bool time_is_up() const { return step_.wait && here_.episode.wait_passed && !here_.episode.ended; }
  bool has_given_here() const {
    return std::any_of(here_.episode.deeds.begin(), here_.episode.deeds.end(), [&](const Given& deed) {
      const ActionKind kind = here_.protocol[deed.action].kind;
      return kind == ActionKind::by_mouth || kind == ActionKind::glucagon || kind == ActionKind::insulin;
    });
  }

  /// The headline says to give what has gone in here: sugar or glucagon, and all of it.
  bool says_what_is_given() const {
    const std::vector<Piece>& pieces = step_.headline.in(language_);
    return std::any_of(here_.episode.deeds.begin(), here_.episode.deeds.end(), [&](const Given& deed) {
      const Action& action = here_.protocol[deed.action];
      const bool through_skin = action.kind == ActionKind::glucagon;
      if (deed.outcome != Outcome::given || !action.dose || !(through_skin || action.kind == ActionKind::by_mouth))
        return false;
      return std::any_of(pieces.begin(), pieces.end(), [&](const Piece& piece) {
        const auto* dose = std::get_if<DoseId>(&piece);
        const auto* filler = std::get_if<Filler>(&piece);
        return (dose && *dose == *action.dose) || (through_skin && filler && *filler == Filler::syringe_mark);
      });
    });
  }

  // The first line of a screen is how urgent it is: what it says next must not be calmer.
  void show_headline(View& view) const {
    view.headline = filled(here_, step_.headline, language_, dose_by_mouth(here_, step_));
    const bool emergency = step_.urgency == Urgency::emergency;
    if (std::optional<std::string> reason = emergency ? withheld_in(here_, step_.headline, language_) : std::nullopt) {
      // A dose that is not to be given never takes the place of what an emergency says first.
      view.headline =
          phrase(Phrase::call_emergency, language_, number_of(here_.child.contacts, Contact::emergency, language_));
      view.meanwhile = *std::move(reason);
    }
    // Said once more, the order would be taken for another one.
    if (time_is_up() && has_given_here()) {
      view.headline = phrase(Phrase::time_is_up, language_);
    }
    const bool given = !emergency && here_.episode.wait_ends && !time_is_up() && says_what_is_given();
    if (given) {
      const std::string clock = text_from_clock_time(clock_time_of(at(*here_.episode.wait_ends)));
      view.headline = phrase(Phrase::given_until, language_, clock);
    }
    // On a visit the step that visits may be what is graver: then there need be no call. What is given leaves the call.
    if ((given || view.urgency > step_.urgency) && view.call) {
      view.meanwhile = std::move(view.headline);
      view.headline = view.call->text;
    }
    for (const WatchId id : watches_met(here_, step_)) {
      const Watch& watch = here_.protocol[id];
      if (watch.also) view.also.push_back(filled(here_, *watch.also, language_, std::nullopt));
    }
  }

  bool has_action_for(Contact contact) const {
    return std::any_of(step_.actions.begin(), step_.actions.end(), [&](ActionId id) {
      const Action& action = here_.protocol[id];
      return action.call && action.call->contact == contact && applies(here_, action);
    });
  }

  /// A call that nobody has answered shows the one that counts now, so that no two numbers compete.
  void show_call(const View& view, const Action& action, ShownAction& shown) const {
    shown.contact = action.call->contact;
    if (shown.outcome || here_.episode.ended) return;
    const ShownCall* counts = nullptr;
    bool open = false;
    for (const ShownCall& call : view.open_calls) {
      open = open || call.contact == *shown.contact;
      const bool graver = call.contact > *shown.contact && !has_action_for(call.contact);
      if (graver && (counts == nullptr || counts->contact < call.contact)) counts = &call;
    }
    if (counts != nullptr) {
      shown.contact = counts->contact;
      shown.text = counts->text;
    } else if (!open && action.when.empty()) {
      shown.outcome = Outcome::no_answer;  // it was opened with the step: it has moved on, and that call was answered
    }
  }

  void show_actions(View& view) const {
    const std::optional<DoseId> mouth = dose_by_mouth(here_, step_);
    for (const ActionId id : step_.actions) {
      const Action& action = here_.protocol[id];
      if (!applies(here_, action)) continue;
      if (action.kind == ActionKind::insulin && time_is_up()) continue;  // the new readings decide on the next dose
      ShownAction shown{id, action.name, action.kind, "", std::nullopt, std::nullopt, std::nullopt};
      if (action.dose) shown.dose = dose_for(here_, *action.dose, language_);
      if (shown.dose && !shown.dose->amount) {
        shown.text = shown.dose->working;
        view.withheld.push_back({plain_words(here_.protocol[*action.dose].label, language_), shown.dose->working});
      } else {
        shown.text = filled(here_, action.text, language_, action.kind == ActionKind::by_mouth ? action.dose : mouth);
      }
      for (const Given& deed : here_.episode.deeds) {
        if (deed.action == id && !was_not_due(deed, shown.dose)) shown.outcome = deed.outcome;
      }
      if (is_call(action.kind)) show_call(view, action, shown);
      view.actions.push_back(std::move(shown));
    }
  }

  void show_waits(View& view) const {
    const Episode& episode = here_.episode;
    view.waiting = step_.wait && !episode.wait_passed && !episode.ended;
    if (view.waiting) {
      const Timer& timer = here_.protocol[step_.wait->timer];
      view.wait = ShownTimer{timer.name, plain_words(timer.label, language_), at(*wait_ends_by(here_)), true,
                             episode.wait_ends.has_value()};
      view.timers.push_back(*view.wait);
    }
    for (std::size_t place = 0; place < episode.timers.size(); ++place) {
      if (!episode.timers[place]) continue;
      const Timer& timer = here_.protocol.timers[place];
      view.timers.push_back({timer.name, plain_words(timer.label, language_), at(*episode.timers[place]), false, true});
    }
    std::stable_sort(view.timers.begin(), view.timers.end(),
                     [](const ShownTimer& a, const ShownTimer& b) { return a.until.utc < b.until.utc; });
  }

  void show_early(View& view) const {
    if (!view.waiting) return;
    for (const Rule& rule : step_.rules) {
      if (!rule.early) continue;
      for (const Condition& condition : rule.when) {
        const auto* is = std::get_if<Is>(&condition.test);
        if (is == nullptr) continue;
        const Fact& fact = here_.protocol[is->fact];
        for (std::uint16_t option = 0; option < fact.options.size(); ++option) {
          if ((is->options >> option & 1U) == 0) continue;
          const ShownQuestion asked = question(is->fact);
          const std::string& choice = asked.choices[option].text;
          view.early.push_back({is->fact, option, fact.name, fact.options[option].name,
                                fact.yes_no ? asked.text + " " + choice : choice});
        }
      }
    }
  }

  void show_calls(View& view) const {
    for (const OpenCall& call : here_.episode.calls) {
      ShownCall shown{call.contact, who(call.contact, language_),
                      number_of(here_.child.contacts, call.contact, language_),
                      call_words(here_.child.contacts, call, language_), at(call.answer_by())};
      if (!view.call || view.call->contact < call.contact) view.call = shown;
      view.open_calls.push_back(std::move(shown));
    }
  }

  void show_given(View& view) const {
    for (const Given& given : here_.episode.given) {
      const Action& action = here_.protocol[given.action];
      if (!changes_the_child(action.kind)) continue;
      std::string text;
      const bool part = given.outcome == Outcome::part && !given.amount;  // of what was stated: that amount did not go in
      if (action.dose && given.amount) {
        text = plain_words(here_.protocol[*action.dose].label, language_) + ": " + said(*given.amount, language_);
      } else if (action.dose && (part || !dose_for(here_, *action.dose, language_).amount)) {
        text = plain_words(here_.protocol[*action.dose].label, language_);  // its text would be why there is no amount
      } else {
        text = filled(here_, action.text, language_, action.dose);
      }
      view.given.push_back({action.name, std::move(text), given.outcome, at(given.when)});
    }
  }

  Scene here_;
  const Step& step_;
  Language language_;
};

bool reads(const Watch& watch, const Sign& sign) {
  return std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
    const auto* is = std::get_if<Is>(&condition.test);
    return is != nullptr && is->fact == sign.fact && (is->options >> sign.option & 1U) != 0;
  });
}

/// Another protocol of the set may watch for a sign that nothing watches for here: named here, it would lead nowhere.
bool is_looked_for(const Scene& here, const Sign& sign) {
  bool watched_elsewhere = false;
  for (std::uint16_t place = 0; place < here.protocol.watch.size(); ++place) {
    if (!reads(here.protocol.watch[place], sign)) continue;
    if (is_live(here, WatchId{place})) return true;
    watched_elsewhere = true;
  }
  return !watched_elsewhere;
}

}  // namespace

View view_of(const Protocol& protocol, const Child& child, const Episode& episode, Moment now) {
  const Episode settled = settled_at(protocol, child, episode, now);
  const Instant instant = settled.clock.last_wall + settled.clock.lost;
  return Showing(protocol, child, settled, instant).view();
}

std::vector<std::pair<Sign, std::string>> signs_of(const Protocol& protocol, const Child& child,
                                                   const Episode& episode) {
  const Scene here = scene_at(protocol, child, episode, episode.clock.last_wall + episode.clock.lost);
  std::vector<std::pair<Sign, std::string>> signs;
  for (const Sign& sign : protocol.worse) {
    if (!is_looked_for(here, sign)) continue;
    signs.push_back({sign, filled(here, sign.text, episode.language, std::nullopt)});
  }
  return signs;
}

}  // namespace rushlight
