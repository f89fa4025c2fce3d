#include "cli/situation.hpp"

#include <algorithm>

#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {

std::string clock_text(const Moment& moment) { return text_from_clock_time(clock_time_of(moment)); }

namespace {

bool goes_by_mouth(ActionKind kind) { return kind == ActionKind::by_mouth || kind == ActionKind::fluid; }
bool goes_through_skin(ActionKind kind) { return kind == ActionKind::glucagon || kind == ActionKind::insulin; }

bool is_withheld(const ShownAction& action) {
  return action.kind == ActionKind::insulin && action.dose && !action.dose->amount;
}

}  // namespace

bool readings_are_told(const Situation& here) {
  if (here.view.waiting || !here.episode.opening.empty()) return false;
  const auto& asks = here.protocol[here.episode.step].asks;
  const auto& open = here.view.ask;
  return std::any_of(asks.begin(), asks.end(),
                     [&](const Ask& ask) { return is_reading(here.protocol[ask.fact].kind); }) &&
         std::none_of(open.begin(), open.end(), [](const ShownQuestion& asked) {
           return is_reading(asked.kind) || asked.kind == FactKind::ordered_choice;  // the colours of a urine strip
         });
}

bool waits_for_the_clinic(const ShownAction& action) {
  return !action.outcome && is_withheld(action) && action.dose->clinic_decides;
}

const ShownAction* dose_of_the_clinic(const View& view) {
  const auto found = std::find_if(view.actions.begin(), view.actions.end(), waits_for_the_clinic);
  return found == view.actions.end() ? nullptr : &*found;
}

const ShownAction* shown_action(const View& view, ActionId id) {
  for (const ShownAction& action : view.actions) {
    if (action.id == id) return &action;
  }
  return nullptr;
}

bool is_pending(const Situation& here, const ShownAction& action) {
  if (action.outcome || is_call(action.kind) || waits_for_the_clinic(action)) return false;
  if (action.kind == ActionKind::fluid && here.protocol[here.episode.step].wait) return false;  // told as it is drunk
  return action.kind != ActionKind::measure || !readings_are_told(here);
}

bool any_is_pending(const Situation& here) {
  const auto& actions = here.view.actions;
  return std::any_of(actions.begin(), actions.end(),
                     [&](const ShownAction& action) { return is_pending(here, action); });
}

bool asks_how_much(const Situation& here, const ShownAction& action) {
  const bool mouth = goes_by_mouth(action.kind);
  if (!is_pending(here, action) || !(mouth || goes_through_skin(action.kind)) || is_withheld(action)) return false;
  const auto& given = here.episode.given;
  for (auto before = given.rbegin(); before != given.rend(); ++before) {
    const ActionKind kind = here.protocol[before->action].kind;
    if (mouth && goes_by_mouth(kind)) return before->outcome != Outcome::given;
    if (!mouth && kind == action.kind) return true;
  }
  return !mouth && !(action.dose && action.dose->amount);
}

namespace {

/// What the watches for news read that are looked at here.
Conditions conditions_of_news(const Situation& here) {
  const EpisodeClock& clock = here.episode.clock;
  const Scene scene = scene_at(here.protocol, here.child, here.episode, clock.last_wall + clock.lost);
  Conditions conditions;
  for (std::uint16_t place = 0; place < here.protocol.watch.size(); ++place) {
    const Watch& watch = here.protocol.watch[place];
    if (watch.told && is_live(scene, WatchId{place}))
      conditions.insert(conditions.end(), watch.when.begin(), watch.when.end());
  }
  return conditions;
}

}  // namespace

bool stands_in_for_the_clinic(const Situation& here, Contact contact) {
  return std::any_of(here.episode.calls.begin(), here.episode.calls.end(), [&](const OpenCall& call) {
    return call.contact == contact && contact == Contact::emergency && !call.by_step;
  });
}

std::optional<FactId> reading_taken_early(const Situation& here, FactKind kind) {
  for (const Ask& ask : here.protocol[here.episode.step].asks) {
    if (here.protocol[ask.fact].kind == kind) return ask.fact;
  }
  for (const Condition& condition : conditions_of_news(here)) {
    const std::optional<FactId> fact = question_in(here.protocol, condition);
    if (fact && here.protocol[*fact].kind == kind) return fact;
  }
  return std::nullopt;
}

std::optional<Contact> reached_last(const Situation& here) {
  const auto& history = here.episode.history;
  for (auto event = history.rbegin(); event != history.rend(); ++event) {
    const auto* called = std::get_if<Called>(&event->what);
    if (called != nullptr && called->outcome != Outcome::no_answer) return called->contact;
  }
  return std::nullopt;
}

std::optional<Advice> advice_that_holds(const Situation& here) {
  const bool emergency = here.view.urgency == Urgency::emergency;
  const Instant since = wall(here.episode.clock, here.episode.entered).utc;
  const auto& history = here.episode.history;
  for (auto event = history.rbegin(); event != history.rend(); ++event) {
    const auto* called = std::get_if<Called>(&event->what);
    if (called == nullptr || called->outcome != Outcome::told || called->text.empty()) continue;
    const bool about_this = event->at.utc >= since || called->contact == Contact::emergency;
    if (emergency && !about_this) return std::nullopt;
    return Advice{event->at, called->text};
  }
  return std::nullopt;
}

bool is_being_taken_over(const Situation& here) {
  const auto& history = here.episode.history;
  return !here.episode.opening.empty() && std::any_of(history.begin(), history.end(), [](const Event& event) {
    return std::holds_alternative<TakenOver>(event.what);
  });
}

std::optional<Answers> told_to_come(const Situation& here, Contact contact) {
  if (contact == Contact::emergency && !stands_in_for_the_clinic(here, contact)) return std::nullopt;
  for (const Condition& condition : conditions_of_news(here)) {
    const auto* is = std::get_if<Is>(&condition.test);
    if (is == nullptr || here.protocol[is->fact].name != "clinic-said") continue;
    for (std::uint16_t option = 0; option < here.protocol[is->fact].options.size(); ++option) {
      if ((is->options >> option & 1U) != 0) return Answers{{is->fact, Chosen{option}}};
    }
  }
  return std::nullopt;
}

const ShownAction* pending_call(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (!action.outcome && is_call(action.kind)) return &action;
  }
  return nullptr;
}

bool time_is_up(const Situation& situation) {
  const Episode& episode = situation.episode;
  const bool waited = episode.wait_ends && *episode.wait_ends > episode.entered;  // a wait of no time only asks
  return !episode.ended && situation.protocol[episode.step].wait && episode.wait_passed && waited &&
         !situation.view.ask.empty();
}

bool somebody_is_asked(const Situation& situation) {
  const Phase phase = phase_of(situation);
  return phase == Phase::ask || phase == Phase::act;
}

bool is_said_beside_a_question(const Situation& here, const ShownAction& action) {
  switch (action.kind) {
    case ActionKind::position:
    case ActionKind::note:
    case ActionKind::watch:
      return true;
    case ActionKind::measure:
      return !here.view.ask.empty() && here.view.ask.front().kind == FactKind::ordered_choice;
    default:
      return false;
  }
}

Phase phase_of(const Situation& situation) {
  const View& view = situation.view;
  if (view.ended) return Phase::ended;
  const bool opening = !situation.episode.opening.empty() && !view.ask.empty();
  if (time_is_up(situation) || (opening && view.urgency != Urgency::emergency)) return Phase::ask;
  const auto holds_up = [&](const ShownAction& action) {
    return is_pending(situation, action) && !is_said_beside_a_question(situation, action);
  };
  const bool nothing_to_say = !opening && !view.ask.empty() && pending_call(view) == nullptr &&
                              std::none_of(view.actions.begin(), view.actions.end(), holds_up);
  if (nothing_to_say) return Phase::ask;
  if (any_is_pending(situation)) return Phase::act;
  if (!view.ask.empty()) return Phase::ask;
  if (pending_call(view) != nullptr) return Phase::act;
  return view.waiting && view.wait->started ? Phase::wait : Phase::act;
}

const ShownQuestion* reading_asked_for(const Situation& here) {
  if (!here.episode.opening.empty()) return nullptr;
  const ShownQuestion* reading = nullptr;
  for (const ShownQuestion& question : here.view.ask) {
    if (!is_reading(question.kind)) continue;
    if (reading != nullptr) return nullptr;
    reading = &question;
  }
  const auto& actions = here.view.actions;
  const auto any = [&](auto wanted) { return std::any_of(actions.begin(), actions.end(), wanted); };
  const bool measures =
      any([&](const ShownAction& action) { return action.kind == ActionKind::measure && is_pending(here, action); });
  const bool gives = any([&](const ShownAction& action) {
    return is_pending(here, action) && action.kind != ActionKind::measure && action.kind != ActionKind::note;
  });
  return measures || (!gives && pending_call(here.view) == nullptr) ? reading : nullptr;
}

bool lists_any_worry(const Protocol& protocol) { return !unnamed_worry(protocol).empty(); }

ShownQuestion question_of(const Situation& situation, FactId id) {
  const Language language = situation.language();
  const Instant instant = situation.episode.clock.last_wall + situation.episode.clock.lost;
  const Scene scene = scene_at(situation.protocol, situation.child, situation.episode, instant);
  const Fact& fact = situation.protocol[id];
  ShownQuestion shown{id, fact.name, fact.kind, filled(scene, fact.question, language, std::nullopt), "", {}};
  if (fact.help) shown.help = filled(scene, *fact.help, language, std::nullopt);
  for (const Option& option : fact.options) {
    const std::string text = fact.yes_no ? phrase(option.name == "yes" ? Phrase::yes : Phrase::no, language)
                                         : plain_words(option.text, language);
    shown.choices.push_back({option.name, text});
  }
  return shown;
}

std::vector<PastAnswer> past_answers(const Situation& situation) {
  std::vector<FactId> said;
  const auto note = [&](const Answers& answers) {
    for (const auto& [fact, value] : answers) {
      const bool known = fact.index >= kChildFacts && situation.episode.facts[fact.index].has_value();
      if (known && std::find(said.begin(), said.end(), fact) == said.end()) said.push_back(fact);
    }
  };
  const auto& history = situation.episode.history;
  for (auto event = history.rbegin(); event != history.rend(); ++event) {
    if (const auto* answered = std::get_if<Answered>(&event->what)) note(answered->answers);
    if (const auto* worse = std::get_if<GotWorse>(&event->what)) note(worse->answers);
    if (const auto* corrected = std::get_if<Corrected>(&event->what)) note(corrected->answers);
  }
  std::vector<PastAnswer> answers;
  for (const FactId fact : said) {
    const Known& known = *situation.episode.facts[fact.index];
    answers.push_back({question_of(situation, fact), known.value, wall(situation.episode.clock, known.learned)});
  }
  return answers;
}

}  // namespace rushlight
