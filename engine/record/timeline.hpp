#pragma once

#include <map>

#include "record/night_record.hpp"

namespace rushlight {

/// Puts what happens into lines: what was told within a few minutes, the advice that came of it, and what was done.
class Timeline {
 public:
  explicit Timeline(Language language) : language_(language) {}

  /// Answers, in the scene in which they were told. Danger signs that are still not there, and what is as calm as it
  /// was before, are said together.
  void answers(Moment at, const Scene& scene, const Answers& answers);
  /// What makes a line of its own: a correction, another carer, an alarm. Its answers are all said.
  void apart(Moment at, const std::string& lead, const Scene& scene, const Answers& answers);
  /// The next answers came late.
  void late(Moment at, const std::string& words);
  struct Advice {
    std::string words, ground{};
    bool wants_a_deed = false;  // where none is told, the record says so
    bool grave = false;
  };
  void advice(Moment at, const Advice& advice);
  struct ToldDeed {
    std::string label;
    std::optional<Quantity> amount;
    std::string how;
    bool treats_low = false;
    bool drinks = false;   // sips of one advice are one deed, however many
    bool is_call = false;  // and nothing was said that stands in no other part of the record
  };
  void deed(Moment at, const ToldDeed& told);

  std::vector<RecordLine> finished();

 private:
  struct Line {
    RecordLine line{};
    bool apart = false, wants_a_deed = false, grave = false, late = false;
    std::vector<std::string> leads{}, readings{}, answers{};
    std::vector<std::string> absent_signs{};  // unchanged
    bool seen_sign = false;
    int unchanged = 0;
  };
  Line& begin_line(Moment at);
  Line& line_for_telling(Moment at);
  void put(Line& line, const Scene& scene, const Answers& answers, bool whole);
  std::string told(const Line& line) const;

  Language language_;
  std::vector<Line> lines_;
  std::map<std::uint16_t, Value> before_;  // by fact
  bool sips_ = false;                      // the last deed is one of these
};

}  // namespace rushlight
