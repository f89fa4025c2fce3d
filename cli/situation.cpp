#include "cli/situation.hpp"

#include <algorithm>

#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {

std::string clock_text(const Moment& moment) { return text_from_clock_time(clock_time_of(moment)); }

bool is_pending(const ShownAction& action) { return !action.outcome && !is_call(action.kind); }

const ShownAction* pending_call(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (!action.outcome && is_call(action.kind)) return &action;
  }
  return nullptr;
}

bool time_is_up(const Situation& situation) {
  const Episode& episode = situation.episode;
  return !episode.ended && situation.protocol[episode.step].wait && episode.wait_passed && !situation.view.ask.empty();
}

Phase phase_of(const Situation& situation) {
  const View& view = situation.view;
  if (view.ended) return Phase::ended;
  const bool opening = !situation.episode.opening.empty() && !view.ask.empty();
  if (time_is_up(situation) || (opening && view.urgency != Urgency::emergency)) return Phase::ask;
  if (std::any_of(view.actions.begin(), view.actions.end(), is_pending)) return Phase::act;
  if (!view.ask.empty()) return Phase::ask;
  if (pending_call(view) != nullptr) return Phase::act;
  return view.waiting && view.wait->started ? Phase::wait : Phase::act;
}

const ShownQuestion* reading_asked_for(const Situation& situation) {
  const View& view = situation.view;
  const bool gives = std::any_of(view.actions.begin(), view.actions.end(), [](const ShownAction& action) {
    return is_pending(action) && action.kind != ActionKind::measure && action.kind != ActionKind::note;
  });
  const bool asked = !gives && pending_call(view) == nullptr && situation.episode.opening.empty() && !view.ask.empty();
  return asked && view.ask.front().kind == FactKind::glucose ? &view.ask.front() : nullptr;
}

std::optional<Contact> contact_of(const Protocol& protocol, const ShownAction& action) {
  const auto& call = protocol[action.id].call;
  return call ? std::optional<Contact>{call->contact} : std::nullopt;
}

std::optional<Contact> contact_awaited(const Situation& situation, const ShownAction& action) {
  const std::optional<Contact> wanted = contact_of(situation.protocol, action);
  if (!wanted || *wanted == Contact::emergency) return wanted;
  for (const ShownCall& call : situation.view.open_calls) {
    if (call.contact == *wanted) return wanted;
  }
  for (const ShownCall& call : situation.view.open_calls) {
    if (call.contact == Contact::on_call) return call.contact;
  }
  return wanted;
}

bool lists_any_worry(const Protocol& protocol) {
  return std::any_of(protocol.worse.begin(), protocol.worse.end(),
                     [&](const Sign& sign) { return protocol[sign.fact].name == "other-worry"; });
}

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
    answers.push_back({question_of(situation, fact), situation.episode.facts[fact.index]->value});
  }
  return answers;
}

}  // namespace rushlight
