#pragma once

#include <string>
#include <vector>

#include "episode/episode.hpp"

namespace rushlight {

/// A call that the protocol asked for, or that somebody made: when, whom, with the number, and what came of it.
struct RecordCall {
  Moment at;
  Contact contact;
  std::string whom;  // with the number that the child's file gives
  std::string how;   // "no answer 02:31, answered 02:36", "nobody answered by 02:41", "not answered yet"
  bool open = true;
};

/// Keeps the calls of an episode while its events go by.
class CallLog {
 public:
  CallLog(const Contacts& contacts, Language language) : contacts_(contacts), language_(language) {}

  /// Somebody told how a call went.
  void told(Contact contact, Outcome outcome, const std::string& text, Moment at);
  /// The calls that are open now. Those that are no longer were given up by the time that passed, or by what was told.
  enum class By : std::uint8_t { time, answer, event };
  void follow(const std::vector<OpenCall>& open, By by, Moment at);
  std::vector<RecordCall> finished();

 private:
  std::string whom(Contact contact) const;
  RecordCall& call_to(Contact contact, Moment at);
  void add(RecordCall& call, const std::string& words) const;

  const Contacts& contacts_;
  Language language_;
  std::vector<RecordCall> calls_;
};

}  // namespace rushlight
