#pragma once

#include <string>
#include <vector>

#include "cli/answers.hpp"
#include "episode/view.hpp"

namespace rushlight {

/// Everything a screen is made from. The episode is settled at `now`, and the view is of it.
struct Situation {
  const Protocol& protocol;
  const Child& child;
  const Episode& episode;
  const View& view;
  Moment now;
  bool first = false;  // the first screen says every caution in full
  bool saving = true;
  bool paper = false;  // a night that was kept on paper is being entered
  int practice = 0;    // how many times as fast as real; 0: the real clock

  Language language() const { return view.language; }
  AnswerSetting setting() const { return {view.language, child.unit, now}; }
};

/// What the step wants from the person now: one thing at a time.
enum class Phase { ask, act, wait, ended };

/// Opening questions come before actions, except in an emergency. Actions come before the step's own questions, so that
/// what was given is said before the walk moves on; but once a wait is over, the check comes first. A call that nobody
/// answers never holds up a question, nor does an action of which there is nothing to say.
Phase phase_of(const Situation& situation);

/// An action that a question may stand beside: nobody has anything to say of it but that it is done, or it is the
/// measuring whose colours the question lists.
bool is_said_beside_a_question(const Situation& situation, const ShownAction& action);

/// The wait of the step has ended and its check is still missing.
bool time_is_up(const Situation& situation);

/// An action as it is shown; null when the screen shows it no longer.
const ShownAction* shown_action(const View& view, ActionId id);
/// A question or something to do stands on the screen: silence there is not rest.
bool somebody_is_asked(const Situation& situation);

/// An action that has no outcome yet and that "all done" would mark. Calls are told apart, and measuring is over once
/// its reading was told.
bool is_pending(const Situation& situation, const ShownAction& action);
bool any_is_pending(const Situation& situation);

/// The step asks for readings, and every one of them was told.
bool readings_are_told(const Situation& situation);

/// Insulin without an amount on the screen, of which nothing was said yet, because the clinic has to say it: "all done"
/// never means it.
bool waits_for_the_clinic(const ShownAction& action);
const ShownAction* dose_of_the_clinic(const View& view);

/// A pending dose that Enter alone never marks as given, because trouble is on record: what was given before by mouth
/// did not all go in; rescue medicine was given before, or this one only goes in if somebody says so.
bool asks_how_much(const Situation& situation, const ShownAction& action);

/// An emergency call that no step asked for: it took the place of one that the clinic did not answer.
bool stands_in_for_the_clinic(const Situation& situation, Contact contact);

/// The glucose, or the ketones, that the step asks after its wait, or that a watch for news looks at: they may be typed
/// during the wait.
std::optional<FactId> reading_taken_early(const Situation& situation, FactKind kind);

/// Whom this episode reached by telephone last; empty while nobody has answered yet.
std::optional<Contact> reached_last(const Situation& situation);

/// What was said on the telephone last, when, and by whom. In an emergency only what was said since it began, or by
/// those who lead there: older advice was about a child who was better.
struct Advice {
  Moment at;
  std::string text;
};
std::optional<Advice> advice_that_holds(const Situation& situation);

/// Somebody else has taken over, and the danger signs are still being asked.
bool is_being_taken_over(const Situation& situation);

/// The answer that says that the clinic sends the child to the hospital, where a watch for news follows it; empty where
/// nothing would follow, and about the emergency services, who come themselves.
std::optional<Answers> told_to_come(const Situation& situation, Contact contact);

/// A call of this step that nobody has said anything about.
const ShownAction* pending_call(const View& view);

/// The one reading that may be typed beside the actions: one of them is to measure, or none of them gives anything or
/// calls anybody. Null when there is none, or when a bare number could be either of two.
const ShownQuestion* reading_asked_for(const Situation& situation);

/// The protocol's own list of signs ends with a line for any other worry.
bool lists_any_worry(const Protocol& protocol);

/// A fact as the question that was put.
ShownQuestion question_of(const Situation& situation, FactId fact);

/// What was answered in this episode, each fact once with what is believed now, the latest first.
struct PastAnswer {
  ShownQuestion question;
  Value value;
  Moment said;  // when it was first said: a time ago is counted from there
};
std::vector<PastAnswer> past_answers(const Situation& situation);

/// "02:10".
std::string clock_text(const Moment& moment);

}  // namespace rushlight
