#include "record/record_calls.hpp"

#include <algorithm>

#include "episode/words.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

bool is_same_side(Contact one, Contact other) { return (one == Contact::emergency) == (other == Contact::emergency); }

}  // namespace

void CallLog::add(RecordCall& call, const std::string& words) const {
  call.how += (call.how.empty() ? "" : ", ") + words;
}

std::string CallLog::whom(Contact contact) const {
  // Without a number on file there are words in its place, which say nothing to a clinic.
  const std::string number = number_of(contacts_, contact, language_);
  const bool on_file = number != number_of(Contacts{}, contact, language_);
  return who(contact, language_) + (on_file ? ", " + number : "");
}

RecordCall& CallLog::call_to(Contact contact, Moment at) {
  // The exact contact first, then the same side: who answers for the clinic has answered both of its numbers.
  for (const bool exact : {true, false}) {
    for (auto call = calls_.rbegin(); call != calls_.rend(); ++call) {
      if (call->open && (exact ? call->contact == contact : is_same_side(call->contact, contact))) return *call;
    }
  }
  calls_.push_back({at, contact, whom(contact), "", false});
  return calls_.back();
}

void CallLog::told(Contact contact, Outcome outcome, const std::string& text, Moment at) {
  RecordCall& call = call_to(contact, at);
  add(call, said_outcome(outcome, language_) + " " + wall_clock(at) + (text.empty() ? "" : ": " + text));
  // One that does not answer stays open until it is given up for the next.
  if (outcome != Outcome::no_answer) call.open = false;
}

void CallLog::follow(const std::vector<OpenCall>& open, By by, Moment at) {
  const auto is_open = [&](Contact contact) {
    return std::any_of(open.begin(), open.end(), [&](const OpenCall& call) { return call.contact == contact; });
  };
  for (RecordCall& call : calls_) {
    if (!call.open || is_open(call.contact)) continue;
    call.open = false;
    if (by == By::time) {
      add(call, record_say(RecordWord::silent_by, language_, wall_clock(at)));
    } else if (by == By::answer) {
      add(call, said_outcome(Outcome::reached, language_) + " " + wall_clock(at));
    } else if (call.how.empty()) {
      add(call, record_say(RecordWord::no_longer_needed, language_, wall_clock(at)));
    }
  }
  for (const OpenCall& each : open) {
    const bool known = std::any_of(calls_.begin(), calls_.end(),
                                   [&](const RecordCall& call) { return call.open && call.contact == each.contact; });
    if (known) continue;
    calls_.push_back({at, each.contact, whom(each.contact), "", true});
  }
}

std::vector<RecordCall> CallLog::finished() {
  for (RecordCall& call : calls_) {
    if (call.open) add(call, record_say(RecordWord::not_answered_yet, language_));
  }
  return std::move(calls_);
}

}  // namespace rushlight
