#include "verify/step_changes.hpp"

#include <algorithm>
#include <set>

#include "episode/phrases.hpp"
#include "finding/quoted.hpp"
#include "verify/in_words.hpp"
#include "verify/other_words.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

class Beside {
 public:
  Beside(const SideBySide& sides, const Space& space, Diagrams& diagrams, const InStepPair& pair,
         std::vector<DosePair>& doses)
      : sides_(sides),
        protocol_(sides.both),
        space_(space),
        diagrams_(diagrams),
        pair_(pair),
        was_(protocol_[pair.steps.was]),
        now_(protocol_[pair.steps.now]),
        doses_(doses) {}

  std::vector<StepChange> found() {
    const bool seen = is_seen(was_) || is_seen(now_);
    if (seen) compare_urgency();
    compare_actions();
    compare_waits();
    compare_questions();
    if (seen) compare_text(was_.headline, now_.headline, all());
    compare_also();
    return std::move(changes_);
  }

 private:
  // Where nothing is asked, done or waited for the night goes through at once.
  static bool is_seen(const Step& step) {
    return !step.asks.empty() || !step.actions.empty() || step.wait || step.ends || step.ends_visit;
  }

  Diagrams::Set all() const { return pair_.entered; }

  void add(Difference::Kind kind, Difference::Turn turn, Diagrams::Set where, std::string was, std::string now,
           std::optional<Language> language = std::nullopt) {
    const Diagrams::Set set = diagrams_.both(where, pair_.entered);
    if (set == Diagrams::kNone) return;
    changes_.push_back(StepChange{kind, turn, pair_.steps, set, std::move(was), std::move(now), language});
  }

  void compare_words(const Text& was, const Text& now, Diagrams::Set where) {
    for (OtherWords& words : other_words(protocol_, was, protocol_, now))
      add(Difference::Kind::words, Difference::Turn::words, where, std::move(words.was), std::move(words.now),
          words.language);
  }

  // What is read on the screen: its words, and the numbers and amounts in them.
  void compare_text(const Text& was, const Text& now, Diagrams::Set where) {
    pair_doses_in(was, now);
    if (!same_words(protocol_, was, now)) return compare_words(was, now, where);
    const std::string before = as_written(protocol_, was), after = as_written(protocol_, now);
    if (before != after) add(Difference::Kind::words, Difference::Turn::words, where, before, after);
  }

  void pair_doses_in(const Text& was, const Text& now) {
    for (const Piece& piece : was.in(Language::en)) {
      const auto* dose = std::get_if<DoseId>(&piece);
      if (dose == nullptr) continue;
      for (const Piece& other : now.in(Language::en)) {
        const auto* same = std::get_if<DoseId>(&other);
        if (same != nullptr && protocol_[*same].name == protocol_[*dose].name) pair_doses(*dose, *same);
      }
    }
  }

  // The line that a step shows while a danger it handles itself is there.
  void compare_also() {
    const auto line_of = [&](const Step& step, const std::string& name) -> const Watch* {
      for (const WatchId id : step.handles) {
        if (protocol_[id].also && protocol_[id].name == name) return &protocol_[id];
      }
      return nullptr;
    };
    const auto tell = [&](const Watch& watch, const Watch* other, bool gone) {
      const Diagrams::Set there = space_.where(diagrams_, watch.when);
      const Diagrams::Set still = other != nullptr ? space_.where(diagrams_, other->when) : Diagrams::kNone;
      const std::string said = as_written(protocol_, *watch.also);
      add(Difference::Kind::action, gone ? Difference::Turn::less : Difference::Turn::otherwise,
          diagrams_.without(there, still), gone ? said : "", gone ? "" : said);
    };
    for (const WatchId id : was_.handles) {
      const Watch& watch = protocol_[id];
      if (!watch.also) continue;
      const Watch* other = line_of(now_, watch.name);
      tell(watch, other, true);
      if (other == nullptr) continue;
      compare_text(*watch.also, *other->also,
                   diagrams_.both(space_.where(diagrams_, watch.when), space_.where(diagrams_, other->when)));
    }
    for (const WatchId id : now_.handles) {
      if (protocol_[id].also) tell(protocol_[id], line_of(was_, protocol_[id].name), false);
    }
  }

  void compare_urgency() {
    if (was_.urgency != now_.urgency)
      add(Difference::Kind::urgency, now_.urgency < was_.urgency ? Difference::Turn::calmer : Difference::Turn::graver,
          all(), shown_as(was_.urgency, Language::en), shown_as(now_.urgency, Language::en));
    if (was_.ends != now_.ends)
      add(Difference::Kind::leads, now_.ends ? Difference::Turn::less : Difference::Turn::otherwise, all(),
          was_.ends ? "the walk ends here" : "the walk goes on", now_.ends ? "the walk ends here" : "the walk goes on");
    // Either leaves something out: what the other protocol waits for, or what stood behind the step.
    const auto visit = [](const Step& step) {
      return step.ends_visit ? "a visit ends here: the other protocol goes on" : "a visit goes on here";
    };
    if (was_.ends_visit != now_.ends_visit)
      add(Difference::Kind::leads, Difference::Turn::less, all(), visit(was_), visit(now_));
  }

  std::string said(ActionId action) const { return as_written(protocol_, protocol_[action].text); }
  Diagrams::Set shown(ActionId action) { return space_.where(diagrams_, protocol_[action].when); }

  // What is only said takes nothing away from the child; what is given, measured or called does.
  Difference::Turn turn_of(ActionId action, bool gone) const {
    if (protocol_[action].kind == ActionKind::note) return gone ? Difference::Turn::less : Difference::Turn::otherwise;
    return gone ? Difference::Turn::less : Difference::Turn::graver;
  }

  void compare_actions() {
    std::vector<ActionId> matched;  // of the newer step, in the order of the older
    std::vector<ActionId> in_other_kind;
    for (const ActionId was : was_.actions) {
      const std::optional<ActionId> now = counterpart(sides_, was, pair_.steps.now);
      if (!now) {
        if (const auto other = said_otherwise(was)) {
          in_other_kind.push_back(*other);
          add(Difference::Kind::action, Difference::Turn::otherwise, diagrams_.both(shown(was), shown(*other)),
              kind_of(was) + said(was), kind_of(*other) + said(*other));
        } else {
          add(Difference::Kind::action, turn_of(was, true), shown(was), said(was), "");
        }
        continue;
      }
      matched.push_back(*now);
      compare_action(was, *now);
    }
    std::vector<ActionId> others;
    for (const ActionId now : now_.actions) {
      const bool is_matched = std::find(matched.begin(), matched.end(), now) != matched.end();
      if (is_matched) {
        others.push_back(now);
      } else if (std::find(in_other_kind.begin(), in_other_kind.end(), now) == in_other_kind.end()) {
        add(Difference::Kind::action, turn_of(now, false), shown(now), "", said(now));
      }
    }
    if (others != matched)
      add(Difference::Kind::order, Difference::Turn::otherwise, all(), in_order(matched), in_order(others));
  }

  std::string kind_of(ActionId action) const { return std::string(name_of(protocol_[action].kind)) + ": "; }
  // The same sentence, only said in both, under another sign.
  std::optional<ActionId> said_otherwise(ActionId was) const {
    const auto is_said = [&](ActionId action) {
      return protocol_[action].kind == ActionKind::note || protocol_[action].kind == ActionKind::watch;
    };
    for (const ActionId now : now_.actions) {
      if (is_said(was) && is_said(now) && same_words(protocol_, protocol_[was].text, protocol_[now].text)) return now;
    }
    return std::nullopt;
  }

  std::string in_order(const std::vector<ActionId>& actions) const {
    std::string text;
    for (const ActionId action : actions) text += (text.empty() ? "" : ", then ") + quoted(protocol_[action].name);
    return text;
  }

  void compare_action(ActionId was, ActionId now) {
    const Action &a = protocol_[was], &b = protocol_[now];
    const Diagrams::Set was_shown = shown(was), now_shown = shown(now);
    add(Difference::Kind::action, turn_of(was, true), diagrams_.without(was_shown, now_shown), said(was), "");
    add(Difference::Kind::action, turn_of(now, false), diagrams_.without(now_shown, was_shown), "", said(now));
    const Diagrams::Set both = diagrams_.both(was_shown, now_shown);
    compare_text(a.text, b.text, both);
    if (a.dose && b.dose) {
      pair_doses(*a.dose, *b.dose);
    } else if (a.dose || b.dose) {
      add(Difference::Kind::dose, a.dose ? Difference::Turn::less : Difference::Turn::graver, both,
          a.dose ? quoted(protocol_[*a.dose].name) : "no dose", b.dose ? quoted(protocol_[*b.dose].name) : "no dose");
    }
    compare_call(a, b, both);
    compare_timer(a, b, both);
    const auto counter = [&](const std::optional<CounterId>& id) {
      return id ? "counts " + quoted(protocol_[*id].name) : std::string("counts nothing");
    };
    if (a.counts != b.counts)
      add(Difference::Kind::count, a.counts ? Difference::Turn::less : Difference::Turn::otherwise, both,
          counter(a.counts), counter(b.counts));
    const auto recorded = [&](const Action& action) {
      if (!action.records) return std::string("records nothing");
      const Fact& fact = protocol_[action.records->fact];
      return "records " + fact.name + ": " + fact.options[action.records->option].name;
    };
    if (recorded(a) != recorded(b))
      add(Difference::Kind::count, Difference::Turn::otherwise, both, recorded(a), recorded(b));
  }

  void pair_doses(DoseId was, DoseId now) {
    for (DosePair& pair : doses_) {
      if (!(pair.was == was && pair.now == now)) continue;
      if (std::find(pair.used_in.begin(), pair.used_in.end(), pair_.steps.was) == pair.used_in.end())
        pair.used_in.push_back(pair_.steps.was);
      return;
    }
    doses_.push_back(DosePair{was, now, {pair_.steps.was}});
  }

  void compare_call(const Action& a, const Action& b, Diagrams::Set both) {
    if (!a.call && !b.call) return;
    const auto whom = [](const Action& action) {
      return action.call ? "call: " + std::string(name_of(action.call->contact)) : std::string("no call opens");
    };
    if (!a.call || !b.call || a.call->contact != b.call->contact) {
      const bool less = !b.call || (a.call && b.call->contact < a.call->contact);
      return add(Difference::Kind::call, less ? Difference::Turn::less : Difference::Turn::graver, both, whom(a),
                 whom(b));
    }
    compare_times(Difference::Kind::call, "when nobody answers, the next call after ", a.call->answer_within,
                  b.call->answer_within, both);
  }

  void compare_timer(const Action& a, const Action& b, Diagrams::Set both) {
    const auto timer = [&](const std::optional<TimerId>& id, const char* what) {
      return id ? what + quoted(protocol_[*id].name) : std::string(what) + "no timer";
    };
    const auto starts = [&](const Action& action) {
      return timer(action.starts ? std::optional<TimerId>(action.starts->timer) : std::nullopt, "starts ");
    };
    if (starts(a) != starts(b)) add(Difference::Kind::wait, Difference::Turn::otherwise, both, starts(a), starts(b));
    if (timer(a.stops, "stops ") != timer(b.stops, "stops "))
      add(Difference::Kind::wait, Difference::Turn::otherwise, both, timer(a.stops, "stops "),
          timer(b.stops, "stops "));
    if (a.starts && b.starts && starts(a) == starts(b))
      compare_times(Difference::Kind::wait, quoted(protocol_[a.starts->timer].name) + " runs ", a.starts->lasts,
                    b.starts->lasts, both);
  }

  void compare_times(Difference::Kind kind, const std::string& what, ThresholdId was, ThresholdId now,
                     Diagrams::Set where) {
    for (const Space::Times& each : space_.times_of(diagrams_, {was, now})) {
      const Duration before = each.values[0], after = each.values[1];
      if (before == after) continue;
      add(kind, after > before ? Difference::Turn::less : Difference::Turn::otherwise,
          diagrams_.both(where, each.where), what + text_from_duration(before), what + text_from_duration(after));
    }
  }

  std::string waited(const Step& step) const {
    if (!step.wait) return "no wait: nothing follows when nobody answers";
    if (asks_at_once(protocol_, *step.wait))
      return "asks at once, and when nobody answers, goes on after " + value_words(protocol_, step.wait->overdue) +
             " to " + quoted(protocol_[step.wait->go].name);
    return "wait " + value_words(protocol_, step.wait->lasts) + ", and when nobody answers, go on after " +
           value_words(protocol_, step.wait->overdue) + " to " + quoted(protocol_[step.wait->go].name);
  }

  std::string ends_with_insulin(const Wait& wait) const {
    return wait.insulin_again
               ? "the wait ends early, " + value_words(protocol_, *wait.insulin_again) + " after the last insulin"
               : std::string("the wait does not end early");
  }

  std::string timer_of(const Wait& wait) const {
    return "the wait is shown as " + quoted(as_written(protocol_, protocol_.timers[wait.timer.index].label));
  }

  void compare_waits() {
    if (!was_.wait || !now_.wait) {
      if (was_.wait || now_.wait)
        // Without one that asks at once less is done; one that lasts is a later look.
        add(Difference::Kind::wait,
            asks_at_once(protocol_, now_.wait ? *now_.wait : *was_.wait) == now_.wait.has_value()
                ? Difference::Turn::otherwise
                : Difference::Turn::less,
            all(), waited(was_), waited(now_));
      return;
    }
    const Wait &a = *was_.wait, &b = *now_.wait;
    compare_times(Difference::Kind::wait, "wait ", a.lasts, b.lasts, all());
    compare_times(Difference::Kind::wait, "when nobody answers, go on after ", a.overdue, b.overdue, all());
    if (a.insulin_again && b.insulin_again)
      compare_times(Difference::Kind::wait, "the wait ends early, after the last insulin by ", *a.insulin_again,
                    *b.insulin_again, all());
    else if (a.insulin_again || b.insulin_again)
      add(Difference::Kind::wait, b.insulin_again ? Difference::Turn::otherwise : Difference::Turn::less, all(),
          ends_with_insulin(a), ends_with_insulin(b));
    if (a.start_within && b.start_within)
      compare_times(Difference::Kind::wait, "the wait starts at the latest after ", *a.start_within, *b.start_within,
                    all());
    if (protocol_.timers[a.timer.index].name != protocol_.timers[b.timer.index].name)
      add(Difference::Kind::wait, Difference::Turn::otherwise, all(), timer_of(a), timer_of(b));
    const auto starts = [&](const Wait& wait) {
      return wait.after ? "the wait starts after " + quoted(protocol_[*wait.after].name)
                        : std::string("the wait starts at once");
    };
    const auto other = a.after ? counterpart(sides_, *a.after, pair_.steps.now) : std::nullopt;
    if (other != b.after) add(Difference::Kind::wait, Difference::Turn::otherwise, all(), starts(a), starts(b));
  }

  std::set<std::string> asked(const Step& step) const {
    std::set<std::string> names;
    for (const Ask& ask : step.asks) names.insert(protocol_[ask.fact].name);
    return names;
  }

  void compare_questions() {
    const std::set<std::string> was = asked(was_), now = asked(now_);
    const bool acts = !was_.actions.empty() || was_.wait;
    const auto list = [](const std::set<std::string>& names) {
      return names.empty() ? "asks nothing" : "asks " + quoted_list({names.begin(), names.end()});
    };
    // Who knows one answer and not the next is led on by what was asked first.
    const auto in_order = [&](const Step& step) {
      std::vector<std::string> names;
      for (const Ask& ask : step.asks) names.push_back(protocol_[ask.fact].name);
      return names;
    };
    if (was == now && in_order(was_) != in_order(now_))
      add(Difference::Kind::question, Difference::Turn::otherwise, all(),
          "asks in the order " + quoted_list(in_order(was_)), "asks in the order " + quoted_list(in_order(now_)));
    if (acts && was != now) add(Difference::Kind::question, Difference::Turn::otherwise, all(), list(was), list(now));
    for (const Ask& ask : was_.asks) {
      const Ask* other = ask_for(now_, ask.fact);
      if (other == nullptr) continue;
      const std::string& name = protocol_[ask.fact].name;
      if (ask.fresh && other->fresh) {
        compare_times(Difference::Kind::question, name + ": an answer counts for ", *ask.fresh, *other->fresh, all());
      } else if (ask.fresh || other->fresh) {
        const auto how = [&](const std::optional<ThresholdId>& fresh) {
          return fresh ? name + ": an answer counts for " + value_words(protocol_, *fresh)
                       : name + ": always asked anew";
        };
        add(Difference::Kind::question, Difference::Turn::otherwise, all(), how(ask.fresh), how(other->fresh));
      }
    }
  }

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  Diagrams& diagrams_;
  const InStepPair& pair_;
  const Step &was_, &now_;
  std::vector<DosePair>& doses_;
  std::vector<StepChange> changes_;
};

}  // namespace

std::vector<StepChange> step_changes(const SideBySide& sides, const Space& space, Diagrams& diagrams,
                                     const InStepPair& pair, std::vector<DosePair>& doses) {
  return Beside(sides, space, diagrams, pair, doses).found();
}

}  // namespace rushlight
