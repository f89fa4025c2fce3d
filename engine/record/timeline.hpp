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
  /// Before the next answers: that they came late.
  void lead(Moment at, const std::string& words);
  /// `wants_a_deed`: where none is told, the record says so.
  void advice(Moment at, const std::string& words, const std::string& ground, bool wants_a_deed);
  /// `drinks`: sips of one advice are one deed, however many.
  void deed(Moment at, const std::string& label, const std::optional<Quantity>& amount, const std::string& how,
            bool treats_low, bool drinks);

  std::vector<RecordLine> finished();

 private:
  struct Line {
    RecordLine line{};
    bool apart = false, wants_a_deed = false;
    std::vector<std::string> leads{}, readings{}, answers{};
    std::vector<std::string> absent_signs{};  // unchanged
    bool seen_sign = false;
    int unchanged = 0;
  };
  /// Several sips, before they are words.
  struct Sips {
    std::string label;
    Quantity amount;
    int times;
    Moment from;
  };

  Line& begin_line(Moment at);
  Line& line_for_telling(Moment at);
  void put(Line& line, const Scene& scene, const Answers& answers, bool whole);
  std::string told(const Line& line) const;

  Language language_;
  std::vector<Line> lines_;
  std::map<std::uint16_t, Value> before_;  // by fact
  std::optional<Sips> sips_;               // of the last deed
};

}  // namespace rushlight
