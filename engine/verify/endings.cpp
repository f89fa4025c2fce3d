#include "verify/endings.hpp"

#include <algorithm>
#include <iterator>

#include "episode/phrases.hpp"
#include "finding/quoted.hpp"
#include "verify/counterparts.hpp"
#include "verify/in_words.hpp"

namespace rushlight {
namespace {

Urgency urgency_of_calls(std::uint8_t calls) {
  if ((calls & call_bit(Contact::emergency)) != 0) return Urgency::emergency;
  if ((calls & (call_bit(Contact::on_call) | kClinicNow)) != 0) return Urgency::clinic_now;
  return calls != 0 ? Urgency::clinic : Urgency::home;
}

// As the screen shows it: an open call counts, and while another protocol is walked the step that it was called from.
Urgency urgency_of(const Protocol& both, const Ending& ending, StepId from) {
  return worst(both[ending.kind == Ending::Kind::step ? ending.step : from].urgency, urgency_of_calls(ending.calls));
}

bool is_of_another_protocol(const Ending& ending) {
  return ending.kind == Ending::Kind::visit || ending.kind == Ending::Kind::hand_over;
}

// What is done, the lightest first; calls are heavier than all of it. Of notes the one that fetches the rescue
// medicine.
constexpr ActionKind kLightestFirst[] = {ActionKind::position, ActionKind::watch,    ActionKind::measure,
                                         ActionKind::pump,     ActionKind::note,     ActionKind::fluid,
                                         ActionKind::insulin,  ActionKind::by_mouth, ActionKind::glucagon};

// Whoever reads where it is gets it; all else that is only said is not done.
bool fetches_the_rescue(const Action& action) {
  const Template& text = action.text.in(Language::en);
  return std::any_of(text.begin(), text.end(), [](const Piece& piece) {
    const auto* filler = std::get_if<Filler>(&piece);
    return filler != nullptr && *filler == Filler::rescue_place;
  });
}

std::uint32_t care_of(Contact contact) {
  return ((2U << static_cast<unsigned>(contact)) - 1U) << std::size(kLightestFirst);
}

// A call to the ambulance holds what a call to the clinic is.
std::uint32_t care_of(const Action& action) {
  if (is_call(action.kind)) {
    const Contact contact = action.kind == ActionKind::call_emergency ? Contact::emergency
                            : action.call                             ? action.call->contact
                                                                      : Contact::on_call;
    return care_of(contact);
  }
  if (action.kind == ActionKind::note && !fetches_the_rescue(action)) return 0;
  const auto* const place = std::find(std::begin(kLightestFirst), std::end(kLightestFirst), action.kind);
  return 1U << static_cast<unsigned>(place - std::begin(kLightestFirst));
}

std::uint32_t heaviest_in(std::uint32_t care) {
  std::uint32_t heaviest = 0;
  for (std::uint32_t each = 1; each != 0 && each <= care; each <<= 1U) {
    if ((care & each) != 0) heaviest = each;
  }
  return heaviest;
}

// Notes are told apart by their words, all else by what is done.
bool is_said_in(const Protocol& both, const Action& action, const Ending& ending) {
  if (ending.kind != Ending::Kind::step) return false;
  const std::vector<ActionId>& actions = both[ending.step].actions;
  return std::any_of(actions.begin(), actions.end(), [&](ActionId other) {
    return both[other].kind == action.kind &&
           (action.kind != ActionKind::note || same_words(both, action.text, both[other].text));
  });
}

bool says_all_of(const Protocol& both, const Ending& ending, const Ending& other) {
  if (other.kind != Ending::Kind::step) return true;
  const std::vector<ActionId>& actions = both[other.step].actions;
  return std::all_of(actions.begin(), actions.end(), [&](ActionId id) { return is_said_in(both, both[id], ending); });
}

bool ends_the_walk(const Protocol& both, const Ending& ending) {
  return ending.kind == Ending::Kind::step && both[ending.step].ends;
}

// Of what only one of them does the heaviest decides; where both do the same, whether anything is said no more. Whoever
// is told that it is over looks no more; and from a visit the way leads back.
bool does_less(const Protocol& both, const Ending& was, const Ending& now) {
  if (was.kind == Ending::Kind::visit && now.kind == Ending::Kind::hand_over) return true;
  if (ends_the_walk(both, now) && !ends_the_walk(both, was)) return gives(both, was) || !gives(both, now);
  // What the other protocol would have asked and done is gone.
  if (was.kind == Ending::Kind::visit && !is_of_another_protocol(now)) return true;
  if (is_of_another_protocol(was) || is_of_another_protocol(now)) return gives(both, was) && !gives(both, now);
  const std::uint32_t before = done_in(both, was), after = done_in(both, now);
  if (before != after) return before > after;
  return says_all_of(both, was, now) && !says_all_of(both, now, was);
}

std::uint32_t done_by_calls(std::uint8_t calls) {
  std::uint32_t done = 0;
  for (const Contact contact : {Contact::clinic, Contact::on_call, Contact::emergency}) {
    if ((calls & call_bit(contact)) != 0) done |= care_of(contact);
  }
  return done;
}

std::uint32_t always_done_in(const Protocol& both, const Ending& ending) {
  std::uint32_t done = 0;
  if (ending.kind != Ending::Kind::step) return done;
  for (const ActionId id : both[ending.step].actions) done |= both[id].when.empty() ? care_of(both[id]) : 0U;
  return done;
}

// What everybody was given before and only some are given now is lost too.
std::uint32_t lost_in(const Protocol& both, const Ending& was, const Ending& now) {
  const std::uint32_t before = done_in(both, was), after = done_in(both, now);
  return (before & ~after) | (always_done_in(both, was) & ~always_done_in(both, now) & ~done_by_calls(now.calls));
}

// They were opened on the way and stand on the screen beside the step.
std::string calls_in_words(std::uint8_t calls) {
  std::string whom;
  const auto add = [&](Contact contact, const char* words) {
    if ((calls & call_bit(contact)) != 0) whom += (whom.empty() ? "" : " and to ") + std::string(words);
  };
  add(Contact::emergency, "the emergency number");
  add(Contact::on_call, "the on-call line");
  add(Contact::clinic, "the clinic");
  return whom.empty() ? "" : "A call to " + whom + " is open beside it.";
}

}  // namespace

Difference::Place place_of(const Protocol& both, const Occasion& occasion) {
  const std::string step = both[occasion.from.was].name;
  switch (occasion.kind) {
    case Occasion::Kind::begins:
      return {"at the start", ""};
    case Occasion::Kind::answers:
      return {"after", step};
    case Occasion::Kind::known:
      return {"with answers known from before, after", step};
    case Occasion::Kind::early:
      return {"told during the wait of", step};
    case Occasion::Kind::outcome:
      return {quoted(both[occasion.action].name) + " " + std::string(name_of(occasion.outcome)) + " in", step};
    case Occasion::Kind::nobody_answers:
      return {"nobody answers in", step};
    case Occasion::Kind::worse:
      return {"told at any time in", step};
    case Occasion::Kind::after_visit:
      return {"back from the other protocol, after", step};
  }
  return {"in", step};
}

std::string words_of(const Protocol& both, const Ending& ending) {
  const std::string calls = calls_in_words(ending.calls);
  switch (ending.kind) {
    case Ending::Kind::step: {
      const Step& step = both[ending.step];
      const std::string urgency = shown_as(worst(step.urgency, urgency_of_calls(ending.calls)), Language::en);
      return quoted(step.name) + ", " + urgency + ": " + as_written(both, step.headline) +
             (calls.empty() ? "" : " " + calls);
    }
    case Ending::Kind::visit:
      return "walks " + quoted(ending.protocol) + " and comes back to " + quoted(both[ending.step].name) +
             (calls.empty() ? "" : ". " + calls);
    case Ending::Kind::hand_over:
      return "goes over to " + quoted(ending.protocol) + (calls.empty() ? "" : ". " + calls);
    case Ending::Kind::stays:
      return "nothing: the step goes on" + (calls.empty() ? "" : ". " + calls);
    case Ending::Kind::nothing:
    case Ending::Kind::here:
      break;
  }
  return "no rule: nothing follows";
}

bool gives(const Protocol& both, const Ending& ending) {
  if (ending.kind == Ending::Kind::stays || ending.kind == Ending::Kind::nothing) return false;
  if (ending.kind != Ending::Kind::step) return true;
  const std::vector<ActionId>& actions = both[ending.step].actions;
  return std::any_of(actions.begin(), actions.end(), [&](ActionId id) {
    const ActionKind kind = both[id].kind;
    return is_call(kind) || kind == ActionKind::by_mouth || kind == ActionKind::glucagon ||
           kind == ActionKind::insulin || kind == ActionKind::fluid;
  });
}

Difference::Turn turn_of(const Protocol& both, const Together& from, const Ending& was, const Ending& now) {
  if (now.kind == Ending::Kind::nothing) return Difference::Turn::calmer;
  const Urgency before = urgency_of(both, was, from.was), after = urgency_of(both, now, from.now);
  if (after < before) return Difference::Turn::calmer;
  // Whoever stays where they are is no worse off than they were, and does less than they would have done.
  const bool led_on = was.kind != Ending::Kind::stays && now.kind == Ending::Kind::stays;
  if (after > before && !led_on) return Difference::Turn::graver;
  if (after > before) return Difference::Turn::less;
  return does_less(both, was, now) ? Difference::Turn::less : Difference::Turn::otherwise;
}

std::uint32_t done_in(const Protocol& both, const Ending& ending) {
  std::uint32_t done = 0;
  if (ending.kind == Ending::Kind::step) {
    for (const ActionId id : both[ending.step].actions) done |= care_of(both[id]);
  }
  return done | done_by_calls(ending.calls);
}

Loss loss_in(const Protocol& both, const Together& from, const Ending& was, const Ending& now) {
  return {static_cast<int>(urgency_of(both, was, from.was)), heaviest_in(lost_in(both, was, now))};
}

bool loses_a_medicine(const Protocol& both, const Ending& was, const Ending& now) {
  if (was.kind == Ending::Kind::visit) return now.kind != Ending::Kind::visit;
  const std::uint32_t lost = lost_in(both, was, now);
  constexpr std::uint32_t kFirst = 5;  // of kLightestFirst: fluid
  static_assert(kLightestFirst[kFirst] == ActionKind::fluid);
  return (lost & ((1U << std::size(kLightestFirst)) - 1U)) >> kFirst != 0;
}

std::string left_out_in(const Protocol& both, const Ending& was, const Ending& now) {
  const std::uint32_t before = done_in(both, was), after = done_in(both, now);
  if (was.kind == Ending::Kind::visit && now.kind == Ending::Kind::step)
    return "what " + quoted(was.protocol) + " does";
  if (was.kind != Ending::Kind::step || now.kind != Ending::Kind::step || heaviest_in(before) > heaviest_in(after))
    return "";
  const std::uint32_t lost = heaviest_in(lost_in(both, was, now));
  if (lost == 0 && heaviest_in(before) != heaviest_in(after)) return "";  // more is done, and nothing lost but words
  if ((lost & done_by_calls(was.calls)) != 0) return calls_in_words(was.calls);
  for (const ActionId id : both[was.step].actions) {
    const Action& action = both[id];
    if (lost != 0 ? (care_of(action) & lost) != 0 : !is_said_in(both, action, now))
      return as_written(both, action.text);
  }
  return "";
}

int falls_in(const Protocol& both, const Together& from, const Ending& was, const Ending& now) {
  const auto before = static_cast<int>(urgency_of(both, was, from.was));
  if (now.kind == Ending::Kind::nothing) return before + 1;
  return before - static_cast<int>(urgency_of(both, now, from.now));
}

}  // namespace rushlight
